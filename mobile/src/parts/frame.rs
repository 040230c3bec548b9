//! The frame of a job's screen: what and whether it is saved, the path, the
//! body, and what to do at thumb's reach.

use std::cell::RefCell;
use std::rc::Rc;

use dioxus::prelude::*;
use rakeline_core::job::{
    JobState, Tape, done_on_screen, learn_done, loom_open, loom_troubles, step_path, tape_checked,
};
use rakeline_core::steps::Screen;

use super::path::Stage;
use super::{NotStored, NoticeBar, PathStrip};
use crate::driver::{Intent, Saved};
use crate::route::{STEPS, Step};
use crate::screens::job_title;
use crate::shell::use_shell;
use crate::steps::book;
use crate::texts::{say, t};

/// Frames a step of the open job.
#[component]
pub fn Frame(here: Step, children: Element, #[props(default)] foot: Option<Element>) -> Element {
    let shell = use_shell();
    let path = use_hook(|| Rc::new(RefCell::new(None::<Walked>)));
    let state = shell.state.read();
    let Some(open) = &state.open else {
        return rsx! {};
    };
    let stages = walked(&mut path.borrow_mut(), &open.job);
    let title = job_title(&open.job.name, &open.job.created);
    let (words, class) = match &open.saved {
        Saved::Yes => (t("saved"), "state"),
        Saved::Saving(_) => (t("saving"), "state"),
        Saved::No(_) => (t("not-saved"), "state trouble"),
    };
    let trouble = match &open.saved {
        Saved::No(why) => Some(say(why)),
        _ => None,
    };
    let kit = open.job.kit.name.clone();
    let (can_undo, can_redo) = (!open.before.is_empty(), !open.after.is_empty());
    let (to_list, undo, redo, again) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    rsx! {
        div { class: "frame",
            header { class: "head",
                button {
                    class: "quiet back",
                    "aria-label": t("back-to-jobs"),
                    onclick: move |_| to_list.send(Intent::GoJobs),
                    "‹"
                }
                div { class: "what",
                    b { {title} }
                    span { class, {words} " · " {kit} }
                }
                if can_undo {
                    button {
                        class: "plain",
                        onclick: move |_| undo.send(Intent::Undo),
                        {t("undo")}
                    }
                }
                if can_redo {
                    button {
                        class: "plain",
                        onclick: move |_| redo.send(Intent::Redo),
                        {t("redo")}
                    }
                }
            }
            PathStrip { steps: stages, here: here.on_path() }
            main { class: "body",
                if let Some(trouble) = trouble {
                    div { class: "trouble-box", role: "alert",
                        p { {trouble} }
                        button {
                            class: "also",
                            onclick: move |_| again.send(Intent::SaveAgain),
                            {t("save-again")}
                        }
                    }
                }
                NotStored {}
                {children}
            }
            div { class: "base",
                if let Some(foot) = foot {
                    footer { class: "foot", {foot} }
                }
                NoticeBar {}
            }
        }
    }
}

/// The path with the job that it is of. Much is drawn anew while the job
/// stays as it is: a reading, a slider, a countdown.
struct Walked {
    job: JobState,
    stages: Vec<(Step, Stage)>,
}

fn walked(before: &mut Option<Walked>, job: &JobState) -> Vec<(Step, Stage)> {
    if let Some(before) = before.as_ref().filter(|before| before.job == *job) {
        return before.stages.clone();
    }
    let stages: Vec<(Step, Stage)> = STEPS
        .into_iter()
        .map(|step| (step, stage_of(job, step)))
        .collect();
    *before = Some(Walked {
        job: job.clone(),
        stages: stages.clone(),
    });
    stages
}

fn stage_of(job: &JobState, step: Step) -> Stage {
    let read = job.read_count();
    let (done, shut) = match step {
        Step::Measures => (job.marks.is_some(), false),
        Step::Marks => (
            job.marks
                .as_ref()
                .is_some_and(|marks| marks.tape != Tape::NotYet),
            job.marks.is_none(),
        ),
        Step::Faces | Step::Rings => (read == job.spots.len(), job.marks.is_none()),
        Step::Check => (
            tape_checked(job).is_some() && job.check.agreed.is_some(),
            job.marks.is_none(),
        ),
        Step::Behind => (
            job.behind.bumper.behind.is_some() || job.behind.spots.len() == job.spots.len(),
            false,
        ),
        Step::Holes => (
            job.holes.drilled.len() == job.spots.len(),
            job.marks.is_none(),
        ),
        Step::Loom => (
            loom_open(job).is_empty() && loom_troubles(job).is_empty(),
            false,
        ),
        Step::Walk => (done_on_screen(job, Screen::Walk), false),
        Step::Learn => (learn_done(job), false),
        Step::Whole => (
            step_path(job, book()).iter().all(|stage| stage.open() == 0),
            false,
        ),
        Step::Parts | Step::Fault => (false, false),
        Step::Sheet => (!job.sheets.is_empty(), false),
        // Not on the path.
        Step::Zero | Step::Ground | Step::Corners | Step::Level | Step::Sight | Step::Cards => {
            (false, false)
        }
    };
    match (done, shut) {
        (true, _) => Stage::Done,
        (false, true) => Stage::Shut,
        (false, false) => Stage::Due,
    }
}
