//! Obstacle learn: zone shift first, what is to be ignored, the gate in one
//! picture, how to count; after a run its result and those before it.

use dioxus::prelude::*;
use rakeline_core::drawing::learn_timeline;
use rakeline_core::job::{
    self, Attempt, Field, JobEvent, JobState, LearnedEvent, Object, ShiftTried,
};
use rakeline_core::learn::{self, NotGiven, Outcome, Phase, Proof, Ways};
use rakeline_core::moment;
use rakeline_core::text::msg;

use super::learn_run::LearnRun;
use crate::driver::{Ear, Intent, LearnDraft, LearnIntent};
use crate::parts::{AskedFields, DrawingView, Frame, Kind, TypedEntry};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// What the button at the foot does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Next {
    /// Something above has to be answered first.
    Answer,
    Heed,
    Listen,
    Start,
    Again,
    Onward,
}

fn next(job: &JobState, draft: &LearnDraft) -> Next {
    let learned = &job.learned;
    if draft.run.is_some() {
        return match draft.run.as_ref().map(|run| run.phase) {
            Some(Phase::Learned | Phase::ByHand) => Next::Onward,
            _ => Next::Again,
        };
    }
    let Ok(procedure) = learn::procedure(&job.kit) else {
        return Next::Answer;
    };
    let by_ear = procedure.beeps() && draft.ways != Ways::Hand;
    if learned.object.is_none() && learned.shift == Some(ShiftTried::Enough) {
        Next::Onward
    } else if learned.object.is_none() {
        Next::Answer
    } else if learned.gate.is_none() {
        Next::Heed
    } else if by_ear && !matches!(draft.ear, Ear::On(_)) {
        Next::Listen
    } else {
        Next::Start
    }
}

/// The screen of the obstacle learn.
#[component]
pub fn Learn() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let draft = &state.drafts.learn;
    if draft.is_on() {
        return rsx! { LearnRun {} };
    }
    let next = next(job, draft);
    let fact = |event| Intent::Fit(Box::new(JobEvent::Learned(event)));
    let (words, intent) = match next {
        Next::Answer => ("learn-to-start", None),
        Next::Heed => ("all-of-this-is-so", Some(fact(LearnedEvent::GateHeeded))),
        Next::Listen if draft.ear == Ear::Starting => ("learn-ear-starts", None),
        Next::Listen => ("learn-listen", Some(Intent::Learn(LearnIntent::Listen))),
        Next::Start => ("learn-to-start", Some(Intent::Learn(LearnIntent::Start))),
        Next::Again => ("learn-again", Some(Intent::Learn(LearnIntent::Again))),
        Next::Onward => ("to-sheet", Some(Intent::GoStep(Step::Sheet))),
    };
    let over = draft.run.is_some();
    let gate_is_next = next == Next::Heed;
    let open: Vec<String> = match next {
        Next::Answer => job::learn_open(job).iter().map(say).collect(),
        _ => Vec::new(),
    };
    let act = shell.clone();
    rsx! {
        Frame {
            here: Step::Learn,
            foot: rsx! {
                button {
                    class: "do at-car",
                    disabled: intent.is_none(),
                    onclick: move |_| {
                        if let Some(intent) = intent.clone() {
                            act.send(intent);
                        }
                    },
                    {t(words)}
                }
            },
            if over {
                Result { job: job.clone(), draft: draft.clone() }
            } else {
                div {
                    h1 { {say(&job::learn_headline(job))} }
                    p { class: "why", {t("learn-why")} }
                    if !open.is_empty() {
                        ul { class: "candidates",
                            for line in open {
                                li { {line} }
                            }
                        }
                    }
                }
                if gate_is_next {
                    Gate {}
                }
                Shift { job: job.clone() }
                if job.learned.shift != Some(ShiftTried::Enough) {
                    What { job: job.clone() }
                    Procedure { job: job.clone() }
                    Counting { job: job.clone(), draft: draft.clone() }
                }
                if !gate_is_next && job.learned.gate.is_some() {
                    details {
                        summary { {t("learn-gate-heeded")} }
                        Gate {}
                    }
                }
            }
            Standing { job: job.clone() }
            Attempts { job: job.clone(), but_last: over }
        }
    }
}

/// Moving the near zone out comes first: it ignores nothing.
#[component]
fn Shift(job: JobState) -> Element {
    let shell = use_shell();
    let control_box = job.kit.control_box.as_ref();
    let Some(shift) = control_box.and_then(|control_box| control_box.zone_shift.as_ref()) else {
        return rsx! {};
    };
    let offer = msg("learn-shift-offer")
        .mm("distance", shift.distance.0)
        .text("how", shift.how.clone().unwrap_or_default());
    let ways = [
        (ShiftTried::Enough, "learn-shift-say-enough"),
        (ShiftTried::NotEnough, "learn-shift-say-not-enough"),
        (ShiftTried::NotTried, "learn-shift-say-not-tried"),
    ];
    rsx! {
        section { class: "note-box stack",
            h2 { {t("learn-shift-first")} }
            p { {say(&offer)} }
            div { class: "choice tall", role: "group", "aria-label": t("learn-shift-first"),
                for (tried , words) in ways {
                    button {
                        key: "{words}",
                        "aria-pressed": "{job.learned.shift == Some(tried)}",
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(fit(LearnedEvent::ShiftTried(tried)))
                        },
                        {t(words)}
                    }
                }
            }
        }
    }
}

fn fit(event: LearnedEvent) -> Intent {
    Intent::Fit(Box::new(JobEvent::Learned(event)))
}

/// What is to be ignored.
#[component]
fn What(job: JobState) -> Element {
    let shell = use_shell();
    let keep = shell.clone();
    let other = match &job.learned.object {
        Some(other @ Object::Other(_)) => Some(say(&other.name())),
        _ => None,
    };
    let typed = !job.typed(Field::LearnObject).trim().is_empty();
    rsx! {
        section { class: "stack",
            h2 { {t("learn-what")} }
            div { class: "things",
                for object in Object::NAMED {
                    button {
                        class: "also capital",
                        "aria-pressed": "{job.learned.object.as_ref() == Some(&object)}",
                        onclick: {
                            let (shell, object) = (shell.clone(), object.clone());
                            move |_| shell.send(fit(LearnedEvent::ObjectPicked(object.clone())))
                        },
                        {say(&object.name())}
                    }
                }
            }
            if let Some(other) = other {
                p { class: "says", {other} }
            }
            div { class: "pair",
                TypedEntry {
                    id: "learn-object",
                    job: job.clone(),
                    field: Field::LearnObject,
                    kind: Kind::Words,
                    label: t("learn-what-else"),
                }
                button {
                    class: "also beside",
                    disabled: !typed,
                    onclick: move |_| keep.send(fit(LearnedEvent::ObjectTyped)),
                    {t("learn-what-keep")}
                }
            }
        }
    }
}

/// What the kit wants; what its sheet does not say is asked.
#[component]
fn Procedure(job: JobState) -> Element {
    let shell = use_shell();
    match learn::procedure(&job.kit) {
        Ok(procedure) => rsx! {
            p { class: "says", {say(&procedure.message())} }
        },
        Err(asked @ NotGiven::CyclesAndQuiet) => rsx! {
            p { {say(&asked.message())} }
            AskedFields { job: job.clone(), asked: job::asked_for_learn(&job) }
        },
        Err(asked @ NotGiven::LastBeep) => {
            let say_it = |beeps| fit(LearnedEvent::LastBeepSaid { beeps });
            let other = shell.clone();
            rsx! {
                section { class: "note-box stack",
                    p { {say(&asked.message())} }
                    div { class: "choice tall",
                        button {
                            onclick: move |_| shell.send(say_it(true)),
                            {t("learn-last-beeps")}
                        }
                        button {
                            onclick: move |_| other.send(say_it(false)),
                            {t("learn-last-silent")}
                        }
                    }
                }
            }
        }
    }
}

/// How to count, and how the microphone hears.
#[component]
fn Counting(job: JobState, draft: LearnDraft) -> Element {
    let shell = use_shell();
    let by_ear = learn::procedure(&job.kit).is_ok_and(|procedure| procedure.beeps());
    if !by_ear {
        return rsx! {
            p { class: "why", {say(&Ways::Hand.proof())} }
        };
    }
    let ways = [Ways::Both, Ways::Hand, Ways::Microphone];
    rsx! {
        section { class: "stack",
            h2 { {t("learn-counting")} }
            div { class: "choice tall", role: "group", "aria-label": t("learn-counting"),
                for way in ways {
                    button {
                        key: "{way:?}",
                        "aria-pressed": "{draft.ways == way}",
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::Learn(LearnIntent::WaysChosen(way)))
                        },
                        {say(&way.message())}
                    }
                }
            }
            p { class: "why", {say(&draft.ways.proof())} }
            Hearing { draft: draft.clone() }
        }
    }
}

/// The meter, the mark 'heard', and what is wrong with the sound.
#[component]
pub fn Hearing(draft: LearnDraft) -> Element {
    let shell = use_shell();
    let heard = draft.just_heard();
    match &draft.ear {
        Ear::Off => rsx! {},
        Ear::Starting => rsx! { p { {t("learn-ear-starts")} } },
        Ear::No(why) => rsx! {
            div { class: "trouble-box", role: "alert",
                p { {say(why)} }
                p { {t("learn-ear-none")} }
            }
        },
        Ear::On(now) => {
            let level = now.level.clamp(0.0, 1.0) * 100.0;
            let tone = draft.beep.filter(|_| draft.run.is_none());
            rsx! {
                div { class: if heard { "ear heard" } else { "ear" },
                    div { class: "hold", "aria-hidden": "true",
                        svg { view_box: "0 0 100 10", preserve_aspect_ratio: "none",
                            rect { x: "0", y: "0", width: "{level}", height: "10" }
                        }
                    }
                    b { role: "status", {t(if heard { "learn-ear-heard" } else { "learn-ear-listens" })} }
                }
                if let Some(why) = &now.trouble {
                    div { class: "trouble-box", role: "alert", {say(why)} }
                }
                if let Some((_, hertz)) = tone {
                    div { class: "pair",
                        p {
                            {say(&msg("learn-ear-tone").number("hertz", hertz, 0))}
                        }
                        button {
                            class: "also",
                            "aria-pressed": "{draft.tone == Some(hertz)}",
                            onclick: move |_| shell.send(Intent::Learn(LearnIntent::ToneTaken)),
                            {t("learn-ear-take-tone")}
                        }
                    }
                }
            }
        }
    }
}

/// All cautions of the run in one picture.
#[component]
fn Gate() -> Element {
    let lines = [
        "learn-gate-area",
        "learn-gate-nobody",
        "learn-gate-brake",
        "learn-gate-park",
        "learn-gate-chocks",
        "learn-gate-ignition",
        "learn-gate-air",
        "caution-maker",
    ];
    rsx! {
        section { class: "caution stack",
            svg {
                class: "drawing gate",
                view_box: "0 0 200 92",
                role: "img",
                "aria-label": t("learn-gate-picture"),
                // The vehicle from above, its rear to the right.
                path { class: "outline", d: "M6 26h58q10 0 12 20q-2 20-12 20H6z" }
                rect { class: "solid", x: "16", y: "19", width: "20", height: "8" }
                rect { class: "solid", x: "16", y: "65", width: "20", height: "8" }
                path { class: "solid", d: "M38 26h9l-9-8zM38 66h9l-9 8zM14 26H5l9-8zM14 66H5l9 8z" }
                // The object that stays.
                rect { class: "tape", x: "77", y: "41", width: "10", height: "10" }
                // What has to be clear.
                path { class: "faint", d: "M78 30L160 6Q192 46 160 86L78 62" }
                path { class: "wrong", d: "M128 34l24 24M152 34l-24 24" }
                circle { class: "outline", cx: "140", cy: "36", r: "5" }
                path { class: "outline", d: "M140 41v14M132 46h16M140 55l-6 11M140 55l6 11" }
            }
            p { b { {t("learn-gate-why")} } }
            ul {
                for line in lines {
                    li { {t(line)} }
                }
            }
        }
    }
}

/// How the run ended and what to do.
#[component]
fn Result(job: JobState, draft: LearnDraft) -> Element {
    let shell = use_shell();
    let Some(run) = &draft.run else {
        return rsx! {};
    };
    let proof = Proof::of(run);
    let remedy = match run.phase {
        Phase::Failed(why) => Some(say(&why.remedy(&run.procedure))),
        Phase::Interrupted(_) => Some(t("learn-do-cancelled")),
        Phase::ByHand => Some(t("learn-do-by-hand")),
        _ => Some(t("learn-do-learned")),
    };
    let good = matches!(run.phase, Phase::Learned);
    let slip = run.can_undo(draft.at);
    let again = matches!(run.phase, Phase::Learned | Phase::ByHand);
    let (undo, once_more, away) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        div { class: if good { "ring wide" } else { "ring wide none" }, role: "status",
            h1 { {say(&proof.message())} }
            if let Some(remedy) = remedy {
                p { {remedy} }
            }
            if slip {
                button {
                    class: "also at-car",
                    onclick: move |_| undo.send(Intent::Learn(LearnIntent::Undo)),
                    {t("learn-undo")}
                }
            }
        }
        p { {say(&proof.summary())} }
        for doubt in &proof.doubts {
            p { class: "trouble-box", {say(&doubt.message())} }
        }
        if !proof.cycles.is_empty() {
            DrawingView { drawing: learn_timeline(&proof) }
        }
        if again {
            button {
                class: "also",
                onclick: move |_| once_more.send(Intent::Learn(LearnIntent::Again)),
                {t("learn-again")}
            }
        } else {
            Hearing { draft: draft.clone() }
        }
        button {
            class: "plain",
            onclick: move |_| away.send(Intent::Learn(LearnIntent::Done)),
            {t("learn-done")}
        }
        if job.learned.attempts.is_empty() {
            p { class: "why", {t("learn-kept-soon")} }
        }
    }
}

/// What stands about the box, and how to clear it.
#[component]
fn Standing(job: JobState) -> Element {
    let shell = use_shell();
    let stands = job::ignores(&job);
    let customer = stands.for_customer();
    if customer.is_none() {
        return rsx! {};
    }
    let trouble = stands == job::Ignores::NotKnown;
    rsx! {
        section { class: if trouble { "trouble-box stack" } else { "note-box stack" },
            h2 { {say(&stands.message())} }
            if let Some(customer) = customer {
                p { {say(&customer)} }
            }
            p { {say(&job::how_cleared(&job))} }
            button {
                class: "also",
                onclick: move |_| shell.send(fit(LearnedEvent::Cleared)),
                {t("learn-cleared")}
            }
        }
    }
}

/// Runs before, last first.
#[component]
fn Attempts(job: JobState, but_last: bool) -> Element {
    let skip = usize::from(but_last);
    let attempts: Vec<(usize, Attempt)> = job
        .learned
        .attempts
        .iter()
        .cloned()
        .enumerate()
        .rev()
        .skip(skip)
        .collect();
    if attempts.is_empty() {
        return rsx! {};
    }
    rsx! {
        details {
            summary { {say(&msg("learn-attempts").count("count", i64::try_from(attempts.len()).unwrap_or(i64::MAX)))} }
            ol { class: "rings",
                for (number , attempt) in attempts {
                    li {
                        key: "{number}",
                        class: if attempt.proof.outcome == Outcome::Learned { "ring wide" } else { "ring wide close" },
                        span { class: "verdict", {say(&attempt.proof.message())} }
                        span { class: "aim", {moment::day_and_clock(&attempt.at)} }
                        p { {say(&attempt.proof.summary())} }
                        if !attempt.proof.cycles.is_empty() {
                            DrawingView { drawing: learn_timeline(&attempt.proof) }
                        }
                    }
                }
            }
        }
    }
}

/// Seconds with a tenth, for a countdown.
pub fn tenths(millis: f64) -> String {
    figure((millis / 100.0).ceil() / 10.0, 1)
}
