//! The path of the job along the top: what is done, due, shut.

use dioxus::html::{ScrollLogicalPosition, ScrollToOptions};
use dioxus::prelude::*;

use crate::driver::Intent;
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::t;

/// How far a step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Done: filled.
    Done,
    /// Due: outlined.
    Due,
    /// Something has to come first: hatched.
    Shut,
}

impl Stage {
    fn class(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Due => "",
            Self::Shut => "shut",
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Done => "stage-done",
            Self::Due => "stage-due",
            Self::Shut => "stage-shut",
        }
    }
}

/// The present step stands in the middle of the strip; the page stays.
const IN_VIEW: ScrollToOptions = ScrollToOptions {
    behavior: ScrollBehavior::Instant,
    vertical: ScrollLogicalPosition::Nearest,
    horizontal: ScrollLogicalPosition::Center,
};

/// The strip of steps; a tap goes there.
#[component]
pub fn PathStrip(steps: Vec<(Step, Stage)>, here: Step) -> Element {
    let shell = use_shell();
    rsx! {
        nav { class: "path", "aria-label": t("path-of-the-job"),
            for (step , stage) in steps {
                button {
                    key: "{step:?}",
                    class: stage.class(),
                    "aria-current": if step == here { "step" },
                    onmounted: move |event| async move {
                        if step == here {
                            // A browser that cannot scroll shows the strip's beginning.
                            let _ = event.scroll_to_with_options(IN_VIEW).await;
                        }
                    },
                    onclick: {
                        let shell = shell.clone();
                        move |_| shell.send(Intent::GoStep(step))
                    },
                    i { "aria-hidden": "true" }
                    span {
                        {t(step.name())}
                        span { class: "offscreen", ", " {t(stage.word())} }
                    }
                }
            }
        }
    }
}
