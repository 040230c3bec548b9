//! Sheets at full size on the memory platform: from the tap to the file.

use rakeline::driver::{Intent, Sheets};
use rakeline::platform::WorkEvent;
use rakeline::texts::say;
use rakeline_core::report::Paper;
use rakeline_core::text::msg;

use crate::bench::Bench;

/// The sample job's marks.
fn marks() -> Bench {
    let mut bench = Bench::new();
    let id = bench.new_id();
    bench.send(Intent::OpenSample(id));
    bench
}

fn notice(bench: &Bench) -> String {
    let notice = bench.app.notice.as_ref();
    notice.map_or_else(String::new, |notice| say(&notice.message))
}

#[test]
fn a_tap_gives_a_pdf_named_after_the_job() {
    let mut bench = marks();
    bench.send(Intent::MakeSheets(Sheets::Template));
    let files = bench.phone.share.files();
    let [file] = &files[..] else {
        panic!("{} files", files.len());
    };
    assert_eq!(file.name, "template-sample-tarn-carrier.pdf");
    assert_eq!(file.mime, "application/pdf");
    assert!(file.bytes.starts_with(b"%PDF-"));
    assert_eq!(bench.app.making, None);
    assert!(notice(&bench).contains(&file.name));
}

#[test]
fn a_file_that_the_phone_refuses_is_said() {
    let mut bench = marks();
    bench.phone.share.refuse_next("no room");
    bench.send(Intent::MakeSheets(Sheets::Template));
    let wanted = msg("share-failed")
        .text("name", "template-sample-tarn-carrier.pdf")
        .text("why", "no room");
    assert_eq!(bench.app.notice.as_ref().unwrap().message, wanted);
}

#[test]
fn mark_cards_come_the_same_way() {
    let mut bench = marks();
    bench.send(Intent::MakeSheets(Sheets::MarkCards));
    assert_eq!(bench.phone.share.files()[0].name, "mark-cards.pdf");
}

#[test]
fn a_second_tap_while_sheets_are_made_makes_no_more() {
    let mut bench = marks();
    bench.phone.work.wait_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.send(Intent::MakeSheets(Sheets::Template));
    assert_eq!(bench.phone.work.started(), 1);
    bench.phone.work.go_on();
    bench.settle();
    assert_eq!(bench.phone.share.files().len(), 1);
}

#[test]
fn sheets_that_were_stopped_do_not_come_later() {
    let mut bench = marks();
    bench.phone.work.wait_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.send(Intent::StopSheets);
    assert_eq!(bench.phone.work.waiting(), 0);
    let late = bench.app.worked;
    bench.send(Intent::Worked(late, WorkEvent::Done(vec![1])));
    assert!(bench.phone.share.files().is_empty());
}

#[test]
fn leaving_the_job_gives_its_sheets_up() {
    let mut bench = marks();
    bench.phone.work.wait_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.send(Intent::GoJobs);
    assert_eq!(bench.phone.work.waiting(), 0);
    assert_eq!(bench.app.making, None);
}

#[test]
fn a_worker_that_dies_is_said_and_the_next_task_is_done() {
    let mut bench = marks();
    bench.phone.work.die_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    let wanted = msg("work-stopped").text("why", "scripted");
    assert_eq!(bench.app.notice.as_ref().unwrap().message, wanted);
    assert!(bench.phone.share.files().is_empty());
    bench.send(Intent::MakeSheets(Sheets::Template));
    assert_eq!(bench.phone.share.files().len(), 1);
}

#[test]
fn the_paper_is_kept_for_the_next_job() {
    let mut bench = marks();
    assert_eq!(bench.app.settings.paper, Paper::A4);
    bench.send(Intent::ChoosePaper(Paper::Letter));
    assert_eq!(bench.app.settings.paper, Paper::Letter);
    bench.send(Intent::MakeSheets(Sheets::Template));
    // Letter lying: 792 x 612 points.
    let text = String::from_utf8_lossy(&bench.phone.share.files()[0].bytes).into_owned();
    assert!(text.contains("[0 0 792 612]"));
}

#[test]
fn the_check_line_is_kept_for_its_paper_and_a_wrong_one_is_not() {
    let mut bench = marks();
    let measured = |bench: &Bench| bench.app.settings.check_line().map(|l| l.measured().0);
    for (typed, kept) in [
        ("2", None),
        ("24", None),
        ("242.5", Some(242.5)),
        ("2425", Some(242.5)),
        ("10 in", Some(254.0)),
    ] {
        bench.send(Intent::CheckLine(typed.to_owned()));
        assert_eq!(measured(&bench), kept, "{typed}");
    }
    bench.send(Intent::ChoosePaper(Paper::Letter));
    assert_eq!(measured(&bench), None);
    bench.send(Intent::ChoosePaper(Paper::A4));
    let mut again = bench.killed();
    assert_eq!(measured(&again), Some(254.0));
    again.send(Intent::CheckLine(String::new()));
    assert_eq!(measured(&again.killed()), None);
}
