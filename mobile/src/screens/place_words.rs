//! Where something sits, in the fitter's words: the next vehicle of the model
//! starts from them.

use dioxus::prelude::*;
use rakeline_core::job::{self, JobEvent, JobState, StepsEvent};
use rakeline_core::steps::StepName;

use crate::driver::Intent;
use crate::parts::{Entry, Kind};
use crate::shell::use_shell;
use crate::texts::t;

/// The words about a place, kept with its step.
#[component]
pub fn PlaceWords(job: JobState, step: &'static str, label: &'static str) -> Element {
    let shell = use_shell();
    let name = StepName(step.to_owned());
    let note = if job::words_as_before(&job, &name) {
        t("place-as-before")
    } else {
        t("place-note")
    };
    let value = job.steps.words.get(&name).cloned().unwrap_or_default();
    rsx! {
        Entry {
            id: "place-{step}",
            label: t(label),
            kind: Kind::Words,
            value,
            note,
            on_type: move |text| {
                let written = StepsEvent::Written(name.clone(), text);
                shell.send(Intent::Fit(Box::new(JobEvent::Steps(written))));
            },
        }
    }
}
