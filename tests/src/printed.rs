//! Printed pages as others see them: PDFs read and rendered with poppler.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Dots an inch of rendered pages.
pub const DPI: f64 = 300.0;

/// A PDF in a folder of its own below `target`.
pub struct Printed {
    folder: PathBuf,
}

impl Printed {
    /// Puts a PDF where poppler can read it; `name` is the folder's.
    ///
    /// # Panics
    /// When the folder cannot be written.
    #[must_use]
    #[allow(clippy::panic, reason = "for tests only: they stop here")]
    pub fn new(name: &str, pdf: &[u8]) -> Self {
        let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
        let folder = tests
            .parent()
            .unwrap_or(tests)
            .join("target/printed")
            .join(name);
        // What an earlier run left is no page of this one.
        let _ = fs::remove_dir_all(&folder);
        let written =
            fs::create_dir_all(&folder).and_then(|()| fs::write(folder.join("it.pdf"), pdf));
        if let Err(e) = written {
            panic!("{} cannot be written: {e}", folder.display());
        }
        Self { folder }
    }

    fn pdf(&self) -> PathBuf {
        self.folder.join("it.pdf")
    }

    /// The pages as grey images of [`DPI`].
    #[must_use]
    pub fn images(&self) -> Vec<PathBuf> {
        let stem = self.folder.join("page");
        let dpi = format!("{DPI}");
        run(Command::new("pdftoppm")
            .args(["-r", &dpi, "-gray"])
            .arg(self.pdf())
            .arg(&stem));
        let mut images: Vec<PathBuf> = fs::read_dir(&self.folder)
            .into_iter()
            .flatten()
            .flatten()
            .map(|entry| entry.path())
            .filter(|path| path.extension().is_some_and(|end| end == "pgm"))
            .collect();
        images.sort();
        images
    }

    /// Width and height of the pictures in the file, pixels.
    #[must_use]
    pub fn picture_sizes(&self) -> Vec<(u32, u32)> {
        let list = run(Command::new("pdfimages").arg("-list").arg(self.pdf()));
        list.lines()
            .filter_map(|line| {
                let words: Vec<&str> = line.split_whitespace().collect();
                (words.get(2) == Some(&"image"))
                    .then(|| Some((words.get(3)?.parse().ok()?, words.get(4)?.parse().ok()?)))?
            })
            .collect()
    }

    /// How many pictures are in the file.
    #[must_use]
    pub fn pictures(&self) -> usize {
        self.picture_sizes().len()
    }

    /// Whether these bytes stand anywhere in the file.
    #[must_use]
    pub fn holds(&self, what: &[u8]) -> bool {
        let file = fs::read(self.pdf()).unwrap_or_default();
        file.windows(what.len()).any(|part| part == what)
    }

    /// The text of each page.
    #[must_use]
    pub fn texts(&self) -> Vec<String> {
        let text = run(Command::new("pdftotext")
            .arg("-layout")
            .arg(self.pdf())
            .arg("-"));
        text.trim_end_matches('\u{c}')
            .split('\u{c}')
            .map(str::to_owned)
            .collect()
    }

    /// One line a font: whether it is embedded, whether it is a subset.
    #[must_use]
    pub fn fonts(&self) -> Vec<(bool, bool)> {
        let table = run(Command::new("pdffonts").arg(self.pdf()));
        let rows = table.lines().skip(2);
        rows.map(|row| {
            // name, type (of several words), encoding, emb, sub, uni, object.
            let mut cells = row.split_whitespace().rev().skip(3);
            let subset = cells.next() == Some("yes");
            (cells.next() == Some("yes"), subset)
        })
        .collect()
    }

    /// What qpdf finds wrong with the file; `None` where qpdf is not installed.
    #[must_use]
    pub fn faults(&self) -> Option<String> {
        let checked = Command::new("qpdf").arg("--check").arg(self.pdf()).output();
        let checked = checked.ok()?;
        let said = String::from_utf8_lossy(&checked.stderr).into_owned();
        Some(if checked.status.success() {
            String::new()
        } else {
            said
        })
    }
}

/// What a program of poppler prints.
#[allow(clippy::panic, reason = "for tests only: they stop here")]
fn run(command: &mut Command) -> String {
    let program = command.get_program().to_string_lossy().into_owned();
    match command.output() {
        Ok(output) if output.status.success() => {
            String::from_utf8_lossy(&output.stdout).into_owned()
        }
        Ok(output) => panic!(
            "{program} failed: {}",
            String::from_utf8_lossy(&output.stderr)
        ),
        Err(e) => panic!("{program} does not start ({e}): install poppler-utils"),
    }
}
