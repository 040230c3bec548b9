//! The whole job: every step that applies, what is done, due or blocked.

use dioxus::prelude::*;
use rakeline_core::job::{
    self, JobEvent, JobState, Standing, StandingEvent, StepStands, StepsEvent, TimeCorrected,
};
use rakeline_core::moment;
use rakeline_core::steps::{Question, Stage, Truth};
use rakeline_core::text::msg;

use super::whole_step::{OneStep, step_of};
use crate::driver::Intent;
use crate::parts::{Entry, Frame, Kind};
use crate::route::Step;
use crate::shell::{Shell, use_shell};
use crate::steps::book;
use crate::texts::{say, t};

pub(super) fn fit(shell: &Shell, event: JobEvent) {
    shell.send(Intent::Fit(Box::new(event)));
}

/// The screen of the whole job.
#[component]
pub fn Whole() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let stages: Vec<(Stage, usize, bool)> = job::step_path(job, book())
        .iter()
        .map(|stage| (stage.stage, stage.open(), !stage.as_usual().is_empty()))
        .collect();
    let open: usize = stages.iter().map(|(_, open, _)| open).sum();
    let count = i64::try_from(open).unwrap_or(i64::MAX);
    let (words, to) = onward(job);
    let first = stages
        .iter()
        .find(|(_, open, _)| *open > 0)
        .map(|(stage, ..)| *stage);
    let go = shell.clone();
    rsx! {
        Frame {
            here: Step::Whole,
            foot: rsx! {
                button {
                    class: "do",
                    onclick: move |_| go.send(Intent::GoStep(to)),
                    {words}
                }
            },
            div {
                h1 { {say(&msg("whole-open").count("steps", count))} }
                p { class: "why", {t("whole-why")} }
            }
            StandingChoice { job: job.clone() }
            Questions { job: job.clone() }
            for (stage , open , usual) in stages {
                StageFold { key: "{stage:?}", stage, open, usual, unfolded: first == Some(stage), job: job.clone() }
            }
        }
    }
}

/// What to do next: the first due step that a screen does, else the sheet.
fn onward(job: &JobState) -> (String, Step) {
    let path = job::step_path(job, book());
    let due = path
        .iter()
        .flat_map(|stage| &stage.steps)
        .filter(|step| step.stands == StepStands::Due)
        .find_map(|step| Some((step.sheet.what(), step_of(step.sheet.screen?)?)));
    match due {
        Some((what, to)) => (say(&msg("whole-go").message("step", what)), to),
        None => (t("to-sheet"), Step::Sheet),
    }
}

/// How the job stands, and the vehicle that came again.
#[component]
fn StandingChoice(job: JobState) -> Element {
    let shell = use_shell();
    let mut why = use_signal(String::new);
    let typed = why().trim().to_owned();
    let visit = job.visits.last().cloned();
    let (choose, came, write) = (shell.clone(), shell.clone(), shell.clone());
    let handed_over = !job.sheets.is_empty();
    rsx! {
        details { class: "fold",
            summary { h2 { {say(&msg("whole-stands").message("how", job.standing.message()))} } }
            div { class: "choice tall", role: "group", "aria-label": t("whole-standing"),
                for standing in Standing::ALL {
                    button {
                        key: "{standing:?}",
                        r#type: "button",
                        "aria-pressed": if job.standing == standing { "true" } else { "false" },
                        onclick: {
                            let shell = choose.clone();
                            move |_| fit(&shell, JobEvent::Standing(StandingEvent::Chosen(standing)))
                        },
                        {say(&standing.message())}
                    }
                }
            }
            if let Some(visit) = visit {
                p { {say(&msg("whole-visit").text("when", moment::date(&visit.at)).text("why", visit.why.clone()))} }
                Entry {
                    id: "visit-done",
                    label: t("whole-visit-done"),
                    kind: Kind::Words,
                    value: visit.done.clone(),
                    on_type: move |words| fit(&write, JobEvent::Standing(StandingEvent::VisitWritten(words))),
                }
            }
            if handed_over {
                p { class: "why", {t("whole-came-why")} }
                Entry {
                    id: "visit-why",
                    label: t("whole-came-label"),
                    kind: Kind::Words,
                    value: why(),
                    on_type: move |words| why.set(words),
                }
                button {
                    class: "also",
                    disabled: typed.is_empty(),
                    onclick: move |_| {
                        came.send(Intent::CameAgain(typed.clone()));
                        why.set(String::new());
                    },
                    {t("whole-came")}
                }
            }
        }
    }
}

#[component]
fn Asked(question: Question, answer: Option<Truth>) -> Element {
    let shell = use_shell();
    let words = say(&question.message());
    rsx! {
        div { class: "question", role: "group", "aria-label": "{words}",
            span { {words.clone()} }
            div { class: "choice",
                for (truth , key) in [(Truth::Yes, "yes"), (Truth::No, "no")] {
                    button {
                        key: "{key}",
                        r#type: "button",
                        "aria-pressed": if answer == Some(truth) { "true" } else { "false" },
                        onclick: {
                            let shell = shell.clone();
                            move |_| fit(&shell, JobEvent::Steps(StepsEvent::Answered(question, truth)))
                        },
                        {t(key)}
                    }
                }
            }
        }
    }
}

/// The questions about the vehicle. Unfolded where some were open on arrival,
/// and then left as it is: a fold that shuts under the thumb at the first
/// answer hides the others.
#[component]
fn Questions(job: JobState) -> Element {
    let answers = job.steps.answers;
    let (all, answered) = (Question::ALL.len(), answers.len());
    let unfolded = use_hook(|| answered < all);
    let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
    rsx! {
        details { class: "fold", open: unfolded,
            summary {
                h2 { {t("whole-survey")} }
                span { class: "note",
                    {say(&msg("whole-survey-answered").count("answered", count(answered)).count("all", count(all)))}
                }
            }
            p { class: "why", {t("whole-survey-why")} }
            for question in Question::ALL {
                Asked { key: "{question:?}", question, answer: answers.get(&question).copied() }
            }
        }
    }
}

/// A stage with its steps.
#[component]
fn StageFold(stage: Stage, open: usize, usual: bool, unfolded: bool, job: JobState) -> Element {
    let shell = use_shell();
    let path = job::step_path(&job, book());
    let Some(view) = path.into_iter().find(|view| view.stage == stage) else {
        return rsx! {};
    };
    let names = view.as_usual();
    let minutes = job::minutes_spent(&job, stage);
    let count = i64::try_from(open).unwrap_or(i64::MAX);
    rsx! {
        details { class: "fold stage", open: unfolded,
            summary {
                h2 { {say(&stage.message())} }
                span { class: "note",
                    {say(&msg("whole-stage").count("open", count).count("minutes", i64::from(minutes)))}
                }
            }
            ol { class: "step-list",
                for step in view.steps {
                    OneStep {
                        key: "{step.sheet.name.0}",
                        sheet: step.sheet.clone(),
                        stands: step.stands,
                        missing: step.missing.iter().map(say).collect::<Vec<String>>(),
                        held_by: step.held_by,
                        job: job.clone(),
                    }
                }
            }
            if usual {
                button {
                    class: "also",
                    onclick: move |_| fit(&shell, JobEvent::Steps(StepsEvent::DoneAsUsual(names.clone()))),
                    {t("whole-usual")}
                }
                p { class: "why", {t("whole-usual-why")} }
            }
            Minutes { stage, minutes }
        }
    }
}

/// A stage's minutes, to be corrected.
#[component]
fn Minutes(stage: Stage, minutes: u32) -> Element {
    let shell = use_shell();
    let mut typed = use_signal(|| None::<String>);
    let shown = typed().unwrap_or_else(|| {
        if minutes > 0 {
            minutes.to_string()
        } else {
            String::new()
        }
    });
    let fits = shown.trim().is_empty() || read(&shown).is_some();
    rsx! {
        Entry {
            id: "minutes-{stage:?}",
            label: t("whole-minutes"),
            value: shown,
            wrong: (!fits).then(|| say(&msg("spent-too-much").count("most", i64::from(job::SPENT_GREATEST)))),
            on_type: move |text: String| {
                let minutes = read(&text);
                if minutes.is_some() || text.trim().is_empty() {
                    fit(&shell, JobEvent::Time(TimeCorrected(stage, minutes)));
                }
                typed.set(Some(text));
            },
        }
    }
}

fn read(text: &str) -> Option<u32> {
    let minutes: u32 = text.trim().parse().ok()?;
    (minutes <= job::SPENT_GREATEST).then_some(minutes)
}
