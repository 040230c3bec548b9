//! Parts to buy: counted by part over all jobs, deleted ones too.

use rakeline::driver::{EraseWhat, Intent, KitIntent, SETTINGS_KEY, StoreIntent, UndoOf, to_buy};
use rakeline_core::decide::parts::{Part, PartLine};
use rakeline_core::job::{HolesEvent, JobEvent, QuoteEvent};

use crate::bench::Bench;
use crate::fitting::{drill, fit, ready_to_drill};

fn with_a_hole() -> Bench {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    bench
}

fn add_part(bench: &mut Bench, words: &str) {
    let added = QuoteEvent::PartAdded(words.to_owned());
    fit(bench, JobEvent::Quote(added));
}

fn bought(bench: &mut Bench) {
    bench.send(Intent::Kits(KitIntent::Restocked));
}

fn other(words: &str) -> PartLine {
    PartLine {
        part: Part::Other(words.to_owned()),
        count: 1,
    }
}

#[test]
fn what_a_job_takes_after_all_was_bought_is_on_the_list() {
    let mut bench = with_a_hole();
    assert!(!to_buy(&bench.app).is_empty());
    bought(&mut bench);
    assert_eq!(to_buy(&bench.app), []);
    add_part(&mut bench, "grommet");
    assert_eq!(to_buy(&bench.app), [other("grommet")]);
    let killed = bench.killed();
    assert_eq!(to_buy(&killed.app), [other("grommet")], "kept");
}

#[test]
fn all_bought_again_can_be_taken_back() {
    let mut bench = with_a_hole();
    let list = to_buy(&bench.app);
    bought(&mut bench);
    let undo = bench.app.notice.as_ref().and_then(|n| n.undo.clone());
    let Some(UndoOf::Bought(before)) = undo else {
        panic!("no way back: {undo:?}");
    };
    bench.send(Intent::Kits(KitIntent::NotRestocked(before)));
    assert_eq!(to_buy(&bench.app), list);
    assert_eq!(to_buy(&bench.killed().app), list);
}

#[test]
fn a_deleted_job_gives_no_part_back_not_even_for_good() {
    let mut bench = with_a_hole();
    add_part(&mut bench, "clip for Mrs Tarn");
    let list = to_buy(&bench.app);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    assert_eq!(to_buy(&bench.app), list);
    bench.send(Intent::Store(StoreIntent::AskErase(EraseWhat::Job(id))));
    bench.send(Intent::Store(StoreIntent::Erase));
    let named: Vec<PartLine> = list
        .into_iter()
        .filter(|line| !matches!(line.part, Part::Other(_)))
        .collect();
    assert!(!named.is_empty());
    let bench = bench.killed();
    assert!(bench.app.jobs.is_empty() && bench.app.trash.is_empty());
    assert_eq!(
        to_buy(&bench.app),
        named,
        "what was typed went with its job"
    );
    let settings = bench.phone.storage.records()[SETTINGS_KEY].clone();
    assert!(!settings.contains("Tarn"), "{settings}");
}

#[test]
fn a_job_gone_for_good_after_it_was_bought_hides_nothing_of_the_next() {
    let mut bench = with_a_hole();
    let first = to_buy(&bench.app);
    bought(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    bench.send(Intent::Store(StoreIntent::AskErase(EraseWhat::Job(id))));
    bench.send(Intent::Store(StoreIntent::Erase));
    assert_eq!(to_buy(&bench.app), []);
    let phone = bench.phone.restarted();
    let mut next = Bench::on(phone);
    crate::fitting::on_to_drill(&mut next);
    fit(&mut next, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut next, 0);
    assert_eq!(to_buy(&next.app), first);
}

#[test]
fn what_was_bought_before_parts_were_counted_stays_bought() {
    let bench = with_a_hole();
    let taken_at = bench.app.jobs[0].taken_at.expect("taken");
    let phone = bench.phone.restarted();
    let text = phone.storage.records()[SETTINGS_KEY].clone();
    let mut settings: serde_json::Value = serde_json::from_str(&text).expect("settings");
    settings["restocked"] = serde_json::json!(taken_at.to_rfc3339());
    phone.storage.plant(SETTINGS_KEY, &settings.to_string());
    let bench = Bench::on(phone);
    assert_eq!(to_buy(&bench.app), []);
    assert_eq!(bench.app.settings.restocked, None);
    assert_eq!(bench.app.settings.bought.all_until, Some(taken_at));
}
