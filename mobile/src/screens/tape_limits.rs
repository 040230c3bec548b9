//! Limits of the check before drilling, changed for this job.

use dioxus::prelude::*;
use rakeline_core::job::{self, Field, JobState, TapeLimit};
use rakeline_core::text::msg;

use crate::driver::{Intent, MarkOutIntent};
use crate::parts::Entry;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// What was changed beside the app's own limits, and the way to change them.
#[component]
pub(super) fn TapeLimits(job: JobState) -> Element {
    let shell = use_shell();
    let back = shell.clone();
    let now = job::tape_limits(&job);
    let changed: Vec<String> = job::tape_limits_changed(&job).iter().map(say).collect();
    rsx! {
        if !changed.is_empty() {
            div { class: "note-box", role: "status",
                for line in &changed {
                    p { key: "{line}", {line.clone()} }
                }
                button {
                    class: "also",
                    onclick: move |_| back.send(Intent::MarkOut(MarkOutIntent::TapeLimitsFromApp)),
                    {t("tape-limits-from-app")}
                }
            }
        }
        details { class: "no-print",
            summary { {t("tape-limits-title")} }
            div { class: "stack",
                p { class: "why", {t("tape-limits-why")} }
                for limit in TapeLimit::ALL {
                    div { key: "{limit:?}", class: "side-by-side",
                        Entry {
                            id: "tape-limit-{limit:?}",
                            label: say(&limit.message()),
                            value: job.typed(Field::TapeLimit(limit)).to_owned(),
                            wrong: wrong(&job, limit),
                            note: say(&msg("limit-now").text("now", one_decimal(limit.of(&now).0))),
                            on_type: {
                                let shell = shell.clone();
                                move |text| shell.send(Intent::Type(Field::TapeLimit(limit), text))
                            },
                        }
                        button {
                            class: "also beside",
                            disabled: job::read_tape_limit(job.typed(Field::TapeLimit(limit))).is_err(),
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::MarkOut(MarkOutIntent::ChangeTapeLimit(limit)))
                            },
                            {t("limit-change")}
                        }
                    }
                }
            }
        }
    }
}

fn wrong(job: &JobState, limit: TapeLimit) -> Option<String> {
    let typed = job.typed(Field::TapeLimit(limit));
    let fault = job::read_tape_limit(typed).err()?;
    (!typed.trim().is_empty()).then(|| say(&fault))
}

fn one_decimal(mm: f64) -> String {
    figure(mm, u8::from(mm.fract() != 0.0))
}
