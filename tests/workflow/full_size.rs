//! Sheets at full size on the memory platform: from the tap to the file.

use std::cell::RefCell;
use std::rc::Rc;

use chrono::DateTime;
use rakeline::driver::{Action, AppState, Boot, Intent, Now, Sheets, handle};
use rakeline::platform::memory::MemoryPlatform;
use rakeline::platform::{OutFile, Shared, WorkEvent, WorkHandle};
use rakeline::texts::say;
use rakeline_core::job::JobId;
use rakeline_core::report::Paper;
use rakeline_core::text::msg;
use rakeline_core::units::Millis;

/// The sample job's marks on a scripted phone.
struct Bench {
    app: AppState,
    phone: MemoryPlatform,
    heard: Rc<RefCell<Vec<(u64, WorkEvent)>>>,
    task: Option<WorkHandle>,
    files: Vec<OutFile>,
}

impl Bench {
    fn new() -> Self {
        let mut bench = Self {
            app: AppState {
                boot: Boot::Ready,
                ..AppState::default()
            },
            phone: MemoryPlatform::new(),
            heard: Rc::default(),
            task: None,
            files: Vec::new(),
        };
        bench.send(Intent::OpenSample(JobId("a".to_owned())));
        bench
    }

    fn send(&mut self, intent: Intent) {
        let now = Now {
            at: DateTime::parse_from_rfc3339("2026-03-02T09:00:00+00:00").unwrap(),
            zone: "Etc/UTC".to_owned(),
            monotonic: Millis(0.0),
        };
        for action in handle(&mut self.app, intent, &now) {
            match action {
                Action::StartWork(number, task) => {
                    let heard = self.heard.clone();
                    let told = Rc::new(move |event| heard.borrow_mut().push((number, event)));
                    self.task = Some(self.phone.platform().work.start(task, told));
                }
                Action::StopWork => self.task = None,
                Action::Share(file) => self.files.push(file),
                _ => {}
            }
        }
    }

    /// What the worker said arrives.
    fn hear(&mut self) {
        let heard: Vec<_> = self.heard.borrow_mut().drain(..).collect();
        for (number, event) in heard {
            self.send(Intent::Worked(number, event));
        }
    }

    fn notice(&self) -> String {
        let notice = self.app.notice.as_ref();
        notice.map_or_else(String::new, |notice| say(&notice.message))
    }
}

#[test]
fn a_tap_gives_a_pdf_named_after_the_job() {
    let mut bench = Bench::new();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.hear();
    let [file] = &bench.files[..] else {
        panic!("{} files", bench.files.len());
    };
    assert_eq!(file.name, "template-sample-tarn-carrier.pdf");
    assert_eq!(file.mime, "application/pdf");
    assert!(file.bytes.starts_with(b"%PDF-"));
    assert_eq!(bench.app.making, None);
    bench.send(Intent::FileOut(file.name.clone(), Shared::Saved));
    assert!(bench.notice().contains("template-sample-tarn-carrier.pdf"));
}

#[test]
fn mark_cards_come_the_same_way() {
    let mut bench = Bench::new();
    bench.send(Intent::MakeSheets(Sheets::MarkCards));
    bench.hear();
    assert_eq!(bench.files[0].name, "mark-cards.pdf");
}

#[test]
fn a_second_tap_while_sheets_are_made_makes_no_more() {
    let mut bench = Bench::new();
    bench.phone.work.wait_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.send(Intent::MakeSheets(Sheets::Template));
    assert_eq!(bench.phone.work.started(), 1);
    bench.phone.work.go_on();
    bench.hear();
    assert_eq!(bench.files.len(), 1);
}

#[test]
fn sheets_that_were_stopped_do_not_come_later() {
    let mut bench = Bench::new();
    bench.phone.work.wait_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.send(Intent::StopSheets);
    assert_eq!(bench.phone.work.waiting(), 0);
    let late = bench.app.worked;
    bench.send(Intent::Worked(late, WorkEvent::Done(vec![1])));
    assert!(bench.files.is_empty());
}

#[test]
fn leaving_the_job_gives_its_sheets_up() {
    let mut bench = Bench::new();
    bench.phone.work.wait_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.send(Intent::GoJobs);
    assert_eq!(bench.phone.work.waiting(), 0);
    assert_eq!(bench.app.making, None);
}

#[test]
fn a_worker_that_dies_is_said_and_the_next_task_is_done() {
    let mut bench = Bench::new();
    bench.phone.work.die_next();
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.hear();
    let wanted = msg("work-stopped").text("why", "scripted");
    assert_eq!(bench.app.notice.as_ref().unwrap().message, wanted);
    assert!(bench.files.is_empty());
    bench.send(Intent::MakeSheets(Sheets::Template));
    assert_eq!(bench.app.notice, None);
    bench.hear();
    assert_eq!(bench.files.len(), 1);
}

#[test]
fn the_paper_is_kept_for_the_next_job() {
    let mut bench = Bench::new();
    assert_eq!(bench.app.settings.paper, Paper::A4);
    bench.send(Intent::ChoosePaper(Paper::Letter));
    assert_eq!(bench.app.settings.paper, Paper::Letter);
    bench.send(Intent::MakeSheets(Sheets::Template));
    bench.hear();
    // Letter lying: 792 x 612 points.
    let text = String::from_utf8_lossy(&bench.files[0].bytes).into_owned();
    assert!(text.contains("[0 0 792 612]"));
}
