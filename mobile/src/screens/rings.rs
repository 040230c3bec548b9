//! Ring sets, verdict first.

use dioxus::prelude::*;
use rakeline_core::decide::ring_set::{InsertUse, SETTLED_BY_ZEROING, Verdict};
use rakeline_core::drawing::{face_from_side, marks_drawing};
use rakeline_core::job::{self, JobEvent, JobState, RingsEvent, SETTLED_BY_GROUND, Spot};
use rakeline_core::text::msg;

use super::again_taken::AgainTaken;
use super::faces::Repeats;
use super::marks::NoMarks;
use super::ring_by_hand::ByHand;
use crate::driver::{Intent, MarkOutIntent};
use crate::parts::{DrawingView, Frame};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the ring sets.
#[component]
pub fn Rings() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    if job.marks.is_none() {
        return rsx! { NoMarks {} };
    }
    let (sheet, faces, zero) = (shell.clone(), shell.clone(), shell.clone());
    let (sight, ground) = (shell.clone(), shell.clone());
    let ways = job::ways_to_settle(job);
    let by_ground = ways.iter().any(|way| way.key == SETTLED_BY_GROUND);
    let by_zeroing = ways.iter().any(|way| way.key == SETTLED_BY_ZEROING);
    let all_read = job.all_read();
    let pairs: Vec<String> = job::pairs(job)
        .iter()
        .filter_map(|mirror| job::pair_words(job, mirror))
        .map(|words| say(&words))
        .collect();
    rsx! {
        Frame {
            here: Step::Rings,
            foot: rsx! {
                if all_read {
                    button {
                        class: "do at-car",
                        onclick: move |_| sheet.send(Intent::GoStep(Step::Sheet)),
                        {t("to-sheet")}
                    }
                } else {
                    button {
                        class: "do at-car",
                        onclick: move |_| faces.send(Intent::GoStep(Step::Faces)),
                        {t("read-the-face")}
                    }
                }
            },
            div {
                h1 { {say(&job::rings_headline(job))} }
                if let Some(ways) = job::settled_by(job) {
                    p { {say(&ways)} }
                }
                p { class: "why", {t("rings-swap")} }
            }
            AgainTaken { job: job.clone() }
            for line in pairs {
                div { class: "note-box", role: "status", {line} }
            }
            if let Some(wait) = job::paint_warning(job) {
                div { class: "note-box", role: "status", {say(&wait)} }
            }
            for line in job::mirrors(job) {
                div { class: "trouble-box", role: "status", {say(&line)} }
            }
            if by_ground {
                button {
                    class: "also",
                    onclick: move |_| ground.send(Intent::GoStep(Step::Ground)),
                    {t("rings-to-ground")}
                }
            }
            if by_zeroing {
                button {
                    class: "also",
                    onclick: move |_| zero.send(Intent::GoStep(Step::Zero)),
                    {t("zero-the-phone")}
                }
            }
            if !job.kit.inserts.is_empty() {
                Inserts { inserts: job.rings.inserts }
            }
            ol { class: "rings",
                for (index , spot) in job.spots.iter().enumerate() {
                    RingRow { key: "{spot.label}", job: job.clone(), spot: spot.clone(), index }
                }
            }
            DrawingView { drawing: marks_drawing(job) }
            button {
                class: "also",
                onclick: move |_| sight.send(Intent::GoStep(Step::Sight)),
                {t("step-sight")}
            }
        }
    }
}

/// Whether an insert may be used for its lift alone.
#[component]
fn Inserts(inserts: InsertUse) -> Element {
    let shell = use_shell();
    let both = [
        ("rings-inserts-needed", InsertUse::WhereNeeded),
        ("rings-inserts-lift", InsertUse::Allowed),
    ];
    rsx! {
        fieldset { class: "field",
            legend { {t("rings-inserts")} }
            div { class: "choice",
                for (key , choice) in both {
                    button {
                        key: "{key}",
                        "aria-pressed": if inserts == choice { "true" } else { "false" },
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::Fit(Box::new(JobEvent::Rings(RingsEvent::InsertsUsed(choice)))))
                        },
                        {t(key)}
                    }
                }
            }
        }
    }
}

#[component]
fn RingRow(job: JobState, spot: Spot, index: usize) -> Element {
    let shell = use_shell();
    let (read, away) = (shell.clone(), shell.clone());
    let Some(choice) = job::ring_choice(&job, &spot) else {
        return rsx! {
            li { class: "ring close",
                span { class: "spot", {spot.label.clone()} }
                span { class: "verdict", {t("ring-not-read")} }
                button {
                    class: "also",
                    onclick: move |_| read.send(Intent::ReadAgain(index)),
                    {say(&msg("read-face-of").text("label", spot.label.clone()))}
                }
            }
        };
    };
    let class = match choice.verdict {
        Verdict::Sure { .. } => "ring",
        Verdict::CloseCall { .. } => "ring close",
        Verdict::CannotBeServed { .. } => "ring none",
    };
    let taken = job::set_taken(&job, index);
    let taken_words = taken.as_ref().and_then(job::taken_words);
    let aim = job::aim_at(&job, index);
    rsx! {
        li { class,
            span { class: "spot", {spot.label.clone()} }
            span { class: "verdict", {say(&choice.headline())} }
            if let Some(others) = choice.others() {
                span { {say(&others)} }
            }
            if let Some(words) = &taken_words {
                span { {say(words)} }
            }
            for line in job::hand_cautions(&job, index) {
                div { class: "trouble-box", role: "status", {say(&line)} }
            }
            if let Some(aim) = &aim {
                span { class: "aim", {say(aim)} }
            }
            if let Some(face) = job::face_with_plus_minus(&job, &spot) {
                span { class: "aim", {say(&face)} }
            }
            if let Verdict::CannotBeServed { what_to_do, .. } = &choice.verdict {
                p { {say(&choice.reason())} }
                p { {say(what_to_do)} }
                button {
                    class: "also",
                    onclick: move |_| away.send(Intent::MarkOut(MarkOutIntent::AwayFrom(index))),
                    {say(&msg("move-this-mark").mm("mm", job::MOVE_AT_LEAST.0))}
                }
            }
            ByHand { job: job.clone(), index }
            details {
                summary { {t("ring-why")} }
                Weighed { job: job.clone(), spot: spot.clone(), index }
                Repeats { index }
                button {
                    class: "also",
                    onclick: move |_| read.send(Intent::ReadAgain(index)),
                    {say(&msg("read-again").text("label", spot.label.clone()))}
                }
            }
        }
    }
}

/// The reason, the budget, and every set with why it lost.
#[component]
fn Weighed(job: JobState, spot: Spot, index: usize) -> Element {
    let Some(choice) = job::ring_choice(&job, &spot) else {
        return rsx! {};
    };
    let rake = choice.facts.rake.value;
    let aim = choice
        .set()
        .and_then(|set| choice.candidate(&job.kit, set))
        .map(|candidate| candidate.aim.value);
    let budget = job::budget_lines(&job, &spot);
    let taken = job::set_taken(&job, index).map(|taken| taken.set);
    rsx! {
        p { {say(&choice.reason())} }
        DrawingView { drawing: face_from_side(rake, aim) }
        h2 { {t("ring-every-set")} }
        ul { class: "candidates",
            for candidate in choice.candidates.iter() {
                li {
                    b { {say(&candidate.set(&job.kit).name())} }
                    if taken.as_ref().is_some_and(|taken| candidate.is(&job.kit, taken)) {
                        b { " · " {t("ring-goes-in")} }
                    }
                    ": "
                    {say(&choice.why(candidate, &job.kit))}
                    ". "
                    {say(&candidate.chance())}
                }
            }
        }
        if !budget.is_empty() {
            h2 { {t("budget-title")} }
            ul { class: "candidates",
                for line in budget {
                    li { {say(&line)} }
                }
            }
        }
    }
}
