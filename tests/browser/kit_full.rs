//! A full kit sheet typed at phone size, killed in the middle, kept, saved as
//! a file and brought in again; files that are refused.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use rakeline_core::kit::{self, Draft, Entry, LineKind, line_groups};
use rakeline_tests::browser::{Phone, Server};
use serde_json::json;

use crate::fitter::{PATIENCE, first_screen, look, setup};
use crate::kit::type_quick_sheet;

/// What is on the leaflet: an invented kit with every field given.
const LEAFLET: &str = include_str!("../../assets/kits/metal-four.json");

/// What typing a sheet takes.
#[derive(Default)]
struct Effort {
    fields: u32,
    letters: usize,
    taps: u32,
}

/// Taps the middle of an element, brought on the screen first.
fn tap_at(phone: &Phone, element: &str) {
    let script = format!(
        "(() => {{ const el = {element}; el.scrollIntoView({{ block: 'center', behavior: 'instant' }});
           const r = el.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2, r.width, r.height]; }})()"
    );
    let [x, y, width, height]: [f64; 4] =
        serde_json::from_value(phone.eval(&script)).expect("a place");
    assert!(width >= 47.5 && height >= 47.5, "{element} is too small");
    let points = json!([{ "x": x, "y": y }]);
    phone.cdp(
        "Input.dispatchTouchEvent",
        json!({ "type": "touchStart", "touchPoints": points }),
    );
    phone.cdp(
        "Input.dispatchTouchEvent",
        json!({ "type": "touchEnd", "touchPoints": [] }),
    );
}

fn by_id(id: &str) -> String {
    format!("document.getElementById({})", json!(id))
}

/// Opens every group of the editor.
fn open_groups(phone: &Phone, effort: &mut Effort) {
    let count = phone.eval("document.querySelectorAll('main summary').length");
    for group in 0..count.as_u64().expect("groups") {
        let element = format!("document.querySelectorAll('main summary')[{group}]");
        if phone.eval(&format!("{element}.parentElement.open")) == false {
            tap_at(phone, &element);
            effort.taps += 1;
            phone.until("the group is open", || {
                phone.eval(&format!("{element}.parentElement.open")) == true
            });
        }
    }
}

/// Types, picks and adds what the leaflet gives and the screen does not show yet.
fn type_lines(phone: &Phone, leaflet: &Draft, groups: std::ops::Range<usize>) -> Effort {
    let mut effort = Effort::default();
    open_groups(phone, &mut effort);
    let all = line_groups(leaflet);
    let lines = all[groups.start..groups.end.min(all.len())]
        .iter()
        .flat_map(|group| &group.lines);
    for line in lines {
        let wanted = leaflet.typed(&line.path);
        match &line.kind {
            LineKind::List => add_entries(phone, leaflet, &line.path, &mut effort),
            LineKind::EntryOf { .. } => {}
            LineKind::Field(Entry::OneOf(_) | Entry::Switch, _) if !wanted.is_empty() => {
                pick(phone, &line.path, &wanted, &mut effort);
            }
            LineKind::Field(Entry::OneOf(_) | Entry::Switch, _) => {}
            LineKind::Field(..) => type_field(phone, &line.path, &wanted, &mut effort),
        }
    }
    effort
}

fn add_entries(phone: &Phone, leaflet: &Draft, path: &str, effort: &mut Effort) {
    let add = by_id(&format!("add-{path}"));
    let shown = format!(
        "new Set([...document.querySelectorAll('main input, main fieldset')]
           .map((el) => el.id.replace(/^(field|pick)-/, ''))
           .filter((id) => id.startsWith({0}))
           .map((id) => id.slice({0}.length).split(']')[0])).size",
        json!(format!("{path}["))
    );
    let count = || phone.eval(&shown).as_u64().expect("entries");
    let wanted = u64::try_from(leaflet.entries(path)).expect("few");
    while count() < wanted {
        let before = count();
        tap_at(phone, &add);
        effort.taps += 1;
        phone.until("the entry is there", || count() > before);
    }
}

fn pick(phone: &Phone, path: &str, wanted: &str, effort: &mut Effort) {
    let words = rakeline_words(wanted);
    let button = format!(
        "[...{}.querySelectorAll('button')].find((b) => b.innerText.trim() === {})",
        by_id(&format!("pick-{path}")),
        json!(words)
    );
    let pressed = format!("{button}.getAttribute('aria-pressed') === 'true'");
    if phone.eval(&pressed) != true {
        tap_at(phone, &button);
        effort.taps += 1;
        phone.until(&format!("{path} is picked"), || {
            phone.eval(&pressed) == true
        });
    }
}

/// The words of a choice as the texts have them.
fn rakeline_words(raw: &str) -> String {
    let key = kit::word(raw).key;
    let texts = include_str!("../../assets/texts/en.ftl");
    let start = format!("{key} = ");
    let line = texts.lines().find(|line| line.starts_with(&start));
    let words = line.map(|line| line[start.len()..].to_owned());
    words
        .filter(|words| !words.contains('{'))
        .unwrap_or_else(|| raw.to_owned())
}

fn type_field(phone: &Phone, path: &str, wanted: &str, effort: &mut Effort) {
    let field = by_id(&format!("field-{path}"));
    if phone.eval(&format!("{field}.value")) == wanted {
        return;
    }
    tap_at(phone, &field);
    phone.until(&format!("{path} has the focus"), || {
        phone.eval(&format!("document.activeElement === {field}")) == true
    });
    phone.eval(&format!("{field}.select()"));
    if wanted.is_empty() {
        phone.press("Backspace");
    } else {
        phone.write(wanted);
    }
    effort.fields += 1;
    effort.letters += wanted.chars().count();
}

/// Where this phone's downloads lie.
fn downloads(phone: &Phone, name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../target/downloads")
        .join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let folder = folder.canonicalize().unwrap();
    phone.cdp(
        "Browser.setDownloadBehavior",
        json!({ "behavior": "allow", "downloadPath": folder }),
    );
    folder
}

fn only_file(folder: &Path) -> Option<PathBuf> {
    let mut files = fs::read_dir(folder).ok()?.flatten().map(|e| e.path());
    files.find(|path| path.extension().is_some_and(|end| end == "json"))
}

/// Gives a file to the chooser that a tap on the first button of that name opens.
pub fn give_file(phone: &Phone, button: &str, file: &Path) {
    let enabled = json!({ "enabled": true });
    phone.cdp("Page.setInterceptFileChooserDialog", enabled);
    phone.tap_nth(button, 0);
    give_opened(phone, file);
}

/// Gives a file to the chooser that is open.
pub fn give_opened(phone: &Phone, file: &Path) {
    phone.until("the chooser is open", || {
        phone.eval("!!document.querySelector('body > input[type=file]')") == true
    });
    let asked = phone.cdp(
        "Runtime.evaluate",
        json!({ "expression": "document.querySelector('body > input[type=file]')" }),
    );
    let id = asked["result"]["objectId"].clone();
    phone.cdp(
        "DOM.setFileInputFiles",
        json!({ "files": [file], "objectId": id }),
    );
}

#[test]
fn a_full_sheet_is_typed_survives_a_kill_and_goes_out_and_in_as_a_file() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    let leaflet = Draft::of(&kit::parse(LEAFLET).expect("the leaflet"));
    phone.tap_named("Kit sheets");
    phone.wait_for("Type a quick sheet", PATIENCE);
    let begun = Instant::now();
    let taps = phone.taps();
    type_quick_sheet(&phone);
    phone.tap_named("Edit every field");
    phone.wait_for("Every field of the sheet", PATIENCE);
    look(&phone, "kit-edit");
    let first = type_lines(&phone, &leaflet, 0..3);
    phone.wait_for("Changed and not kept", PATIENCE);
    // What is typed is in the store a moment later.
    phone.rest(Duration::from_millis(600));
    phone.kill();
    phone.goto("/kits");
    phone.tap_named("Shelf kit");
    phone.tap_named("Edit every field");
    phone.wait_for("Changed and not kept", PATIENCE);
    let named = "document.getElementById('field-name').value";
    assert_eq!(phone.eval(named), leaflet.typed("name"));
    let rest = type_lines(&phone, &leaflet, 0..usize::MAX);
    look(&phone, "kit-edit-typed");
    phone.tap_named("Keep the sheet");
    phone.wait_for("Save as a file", PATIENCE);
    println!(
        "full sheet typed in {:.1} s by the harness: {} fields and {} letters in the editor, {} taps there, {} taps on the way",
        begun.elapsed().as_secs_f64(),
        first.fields + rest.fields,
        first.letters + rest.letters,
        first.taps + rest.taps,
        phone.taps() - taps,
    );
    look(&phone, "kit-full");

    let folder = downloads(&phone, "kit-full");
    phone.tap_named("Save as a file");
    phone.until("the file", || only_file(&folder).is_some());
    let text = fs::read_to_string(only_file(&folder).expect("a file")).unwrap();
    let saved = Draft::of(&kit::parse(&text).expect("a sheet"));
    for group in line_groups(&leaflet) {
        for line in group.lines {
            let (typed, wanted) = (saved.typed(&line.path), leaflet.typed(&line.path));
            assert_eq!(typed, wanted, "{}", line.path);
        }
    }

    let other = folder.join("other.txt.json");
    fs::write(&other, text.replace("Bench kit M4", "From a file M4")).unwrap();
    phone.goto("/kits");
    phone.wait_for("Bring in a file", PATIENCE);
    give_file(&phone, "Bring in a file", &other);
    phone.wait_for(
        "From a file M4 for metal bumpers (invented) is brought in",
        PATIENCE,
    );
    phone.reload();
    phone.wait_for("From a file M4", PATIENCE);

    let broken = folder.join("broken.json");
    let twice = text.replace("\"2\",", "\"1\",");
    assert_ne!(twice, text);
    fs::write(&broken, twice).unwrap();
    let rows = "document.querySelectorAll('.jobs .open').length";
    let before = phone.eval(rows);
    give_file(&phone, "Bring in a file", &broken);
    phone.wait_for("not brought in", PATIENCE);
    look(&phone, "kit-file-refused");
    let large = folder.join("large.json");
    fs::write(&large, vec![b' '; 10_000_000]).unwrap();
    give_file(&phone, "Bring in a file", &large);
    phone.wait_for("at most 1000 kB", PATIENCE);
    assert_eq!(phone.eval(rows), before, "nothing is changed");
    assert_eq!(phone.errors(), Vec::<String>::new());
}
