//! The tape card: every figure that a tape is laid by, big.

use dioxus::prelude::*;
use rakeline_core::drawing::shape_from_above;
use rakeline_core::job::{self, CardGap, CardMark, JobState, Taken, TapeCard};
use rakeline_core::text::msg;

use crate::parts::DrawingView;
use crate::texts::{beside, figure, say, t};

/// Straight and along the face, the way that the tape lies first.
#[component]
pub(super) fn Card(job: JobState) -> Element {
    let card = job::tape_card(&job);
    if !card.knows_the_face() {
        return rsx! {
            Straight { card }
        };
    }
    let along_first = job.mark_out.taken == Taken::AlongFace;
    rsx! {
        if along_first {
            Along { card: card.clone(), job: job.clone() }
            Straight { card }
        } else {
            Straight { card: card.clone() }
            Along { card, job }
        }
    }
}

/// Straight across, as the eye sees it from behind.
#[component]
fn Straight(card: TapeCard) -> Element {
    let marks = card
        .marks
        .iter()
        .map(|mark| Line::from_centre(mark, mark.straight.0));
    let gaps = card.gaps.iter().map(|gap| Line::gap(gap, gap.straight.0));
    rsx! {
        h2 { {t("card-straight")} }
        Figures { class: "marks", caption: t("marks-caption"), lines: marks.collect::<Vec<_>>() }
        p { class: "why", {t("marks-straight")} }
        h2 { {t("gaps-title")} }
        Figures { class: "gaps", caption: t("gaps-title"), lines: gaps.collect::<Vec<_>>() }
    }
}

/// With the tape laid along the face, and the bumper from above.
#[component]
fn Along(card: TapeCard, job: JobState) -> Element {
    let marks = card.marks.iter().map(|mark| match mark.along {
        Some(along) => Line {
            plus: Some(figure(along.expanded().0, 1)),
            ..Line::from_centre(mark, along.value.0)
        },
        None => Line::not_reached(mark),
    });
    let gaps = card
        .gaps
        .iter()
        .filter_map(|gap| Some(Line::gap(gap, gap.along?.0)));
    rsx! {
        h2 { {t("card-along")} }
        Figures { class: "tape-along", caption: t("card-along-caption"), lines: marks.collect::<Vec<_>>() }
        p { class: "why", {t("along-why")} }
        h2 { {t("card-gaps-along")} }
        Figures { class: "gaps", caption: t("card-gaps-along"), lines: gaps.collect::<Vec<_>>() }
        if let Some(drawing) = shape_from_above(&job) {
            DrawingView { drawing }
        }
    }
}

/// One line of the card.
#[derive(Clone, Debug, PartialEq)]
struct Line {
    head: String,
    mm: Option<f64>,
    side: String,
    plus: Option<String>,
}

impl Line {
    fn from_centre(mark: &CardMark, mm: f64) -> Self {
        Self {
            head: mark.label.clone(),
            mm: Some(mm.abs()),
            side: t(side(mm)),
            plus: None,
        }
    }

    fn not_reached(mark: &CardMark) -> Self {
        Self {
            head: mark.label.clone(),
            mm: None,
            side: t("card-not-reached"),
            plus: None,
        }
    }

    fn gap(gap: &CardGap, mm: f64) -> Self {
        let between = msg("gap-from-to")
            .text("left", gap.left.clone())
            .text("right", gap.right.clone());
        Self {
            head: say(&between),
            mm: Some(mm),
            side: t("in-mm"),
            plus: None,
        }
    }
}

/// Lines as a table: whose, how much, which side.
#[component]
fn Figures(class: String, caption: String, lines: Vec<Line>) -> Element {
    rsx! {
        table { class,
            caption { class: "offscreen", {caption} }
            tbody {
                for line in lines {
                    tr { key: "{line.head}",
                        th { class: "spot", scope: "row", {line.head.clone()} }
                        td { class: "big",
                            if let Some(mm) = line.mm {
                                {figure(mm, 0)}
                            }
                        }
                        td { class: "where",
                            {line.side.clone()}
                            if let Some(plus) = &line.plus {
                                small { class: "why", " " {say(&msg("card-plus").text("plus", plus.clone()))} }
                            }
                            if let Some(inches) = line.mm.and_then(beside) {
                                small { class: "why", " {inches}" }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn side(offset: f64) -> &'static str {
    if offset < 0.0 {
        "left-of-centre"
    } else if offset > 0.0 {
        "right-of-centre"
    } else {
        "on-centre"
    }
}
