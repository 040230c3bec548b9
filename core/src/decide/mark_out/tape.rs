//! Tape on the marks: what is read back before drilling, against the plan.

use serde::{Deserialize, Serialize};

use super::Plan;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// What is read at one mark; `None` where nothing was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct TapeReading {
    /// From the centre line, straight, + to the right.
    pub at: Option<Offset>,
    /// From the line that runs true across, up or down as in the plan.
    pub from_line: Option<Millimetres>,
}

/// How far the marks may be off before they are not ready to drill (our own
/// defaults, changeable; shown beside the verdict).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TapeLimits {
    /// One mark from its place.
    pub mark: Millimetres,
    /// One gap from its planned gap.
    pub gap: Millimetres,
    /// A left and a right mark from their planned likeness.
    pub symmetry: Millimetres,
    /// One mark from its height.
    pub level: Millimetres,
    /// A reading that is off, but so near to another mark's place, is taken
    /// for a reading of that mark.
    pub other_mark_within: Millimetres,
}

impl Default for TapeLimits {
    fn default() -> Self {
        Self {
            mark: Millimetres(2.0),
            gap: Millimetres(3.0),
            symmetry: Millimetres(3.0),
            level: Millimetres(2.0),
            other_mark_within: Millimetres(10.0),
        }
    }
}

/// What one reading says of its mark.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MarkVerdict {
    /// Nothing was read, or no figure.
    NotRead,
    /// Within the limit.
    Good,
    /// Outside the limit.
    Off,
    /// Outside the limit, and it fits this other head's mark.
    FitsOther(usize),
}

/// One mark against the plan.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct MarkCheck {
    /// Which head, counted from 0.
    pub head: usize,
    /// Read less planned: + is too far right.
    pub error: Option<Millimetres>,
    /// What that says.
    pub verdict: MarkVerdict,
}

/// Ready to drill, or why not.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TapeVerdict {
    /// Every mark was read and is within the limits.
    Ready,
    /// What stands against it, one message each.
    NotReady(Vec<Message>),
}

/// All readings against the plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TapeCheck {
    /// Each mark, left to right.
    pub marks: Vec<MarkCheck>,
    /// Greatest difference of a gap from its planned gap, among marks read.
    pub evenness: Option<Millimetres>,
    /// Greatest difference of `o_i + o_(n+1-i)` from the planned one, among
    /// pairs read.
    pub symmetry: Option<Millimetres>,
    /// Greatest difference of a height from the planned one, among heights read.
    pub level: Option<Millimetres>,
    /// The limits that were applied.
    pub limits: TapeLimits,
    /// Ready or not. Heights count when any was planned.
    pub verdict: TapeVerdict,
}

/// Checks tape readings, one a head from left to right, against a plan.
/// `height` is the planned measure from the line, where one is planned.
/// Readings along the face are made straight before.
#[must_use]
pub fn tape_check(
    plan: &Plan,
    height: Option<Millimetres>,
    readings: &[TapeReading],
    limits: &TapeLimits,
) -> TapeCheck {
    let n = plan.marks.len();
    let at: Vec<Option<f64>> = (0..n)
        .map(|k| {
            let at = readings.get(k).and_then(|r| r.at);
            at.map(|o| o.0).filter(|x| x.is_finite())
        })
        .collect();
    let planned: Vec<f64> = plan.marks.iter().map(|o| o.0).collect();
    let marks: Vec<MarkCheck> = (0..n)
        .map(|head| mark_check(&planned, head, at[head], limits))
        .collect();
    let off: Vec<Option<f64>> = (0..n).map(|k| at[k].map(|x| x - planned[k])).collect();
    let both = |a: usize, b: usize| Some((off[a]?, off[b]?));
    let evenness = greatest((1..n).filter_map(|k| both(k - 1, k)).map(|(a, b)| b - a));
    let symmetry = greatest(
        (0..n.div_ceil(2))
            .filter_map(|k| both(k, n - 1 - k))
            .map(|(a, b)| a + b),
    );
    let heights: Vec<Option<f64>> = (0..n)
        .map(|k| {
            let read = readings.get(k).and_then(|r| r.from_line);
            read.map(|h| h.0).filter(|x| x.is_finite())
        })
        .collect();
    let level = height.and_then(|h| greatest(heights.iter().flatten().map(|x| x - h.0)));

    let mut against: Vec<Message> = marks
        .iter()
        .filter_map(|m| m.message(plan, at[m.head], limits))
        .collect();
    let mut limit = |key, value: Option<Millimetres>, most: Millimetres| {
        if let Some(v) = value.filter(|v| v.0 > most.0) {
            against.push(msg(key).number("by", v.0, 1).number("limit", most.0, 1));
        }
    };
    limit("tape-gap-off", evenness, limits.gap);
    limit("tape-symmetry-off", symmetry, limits.symmetry);
    limit("tape-level-off", level, limits.level);
    if height.is_some() {
        let unread = (0..n).filter(|&k| heights[k].is_none());
        against.extend(unread.map(|k| msg("tape-height-not-read").count("head", k as i64 + 1)));
    }
    TapeCheck {
        marks,
        evenness,
        symmetry,
        level,
        limits: *limits,
        verdict: if against.is_empty() {
            TapeVerdict::Ready
        } else {
            TapeVerdict::NotReady(against)
        },
    }
}

fn greatest(values: impl Iterator<Item = f64>) -> Option<Millimetres> {
    values.map(f64::abs).reduce(f64::max).map(Millimetres)
}

fn mark_check(planned: &[f64], head: usize, at: Option<f64>, limits: &TapeLimits) -> MarkCheck {
    let Some(at) = at else {
        return MarkCheck {
            head,
            error: None,
            verdict: MarkVerdict::NotRead,
        };
    };
    let error = at - planned[head];
    let other = (0..planned.len())
        .filter(|&k| k != head)
        .map(|k| (k, (at - planned[k]).abs()))
        .filter(|(_, off)| *off <= limits.other_mark_within.0 && *off < error.abs())
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let verdict = if error.abs() <= limits.mark.0 {
        MarkVerdict::Good
    } else {
        other.map_or(MarkVerdict::Off, |(k, _)| MarkVerdict::FitsOther(k))
    };
    MarkCheck {
        head,
        error: Some(Millimetres(error)),
        verdict,
    }
}

impl MarkCheck {
    /// What stands against the mark, if anything.
    fn message(&self, plan: &Plan, at: Option<f64>, limits: &TapeLimits) -> Option<Message> {
        let head = self.head as i64 + 1;
        let read = at.unwrap_or_default();
        let error = self.error.unwrap_or_default();
        match self.verdict {
            MarkVerdict::Good => None,
            MarkVerdict::NotRead => Some(msg("tape-mark-not-read").count("head", head)),
            MarkVerdict::Off => Some(
                msg(if error.0 > 0.0 {
                    "tape-mark-too-far-right"
                } else {
                    "tape-mark-too-far-left"
                })
                .count("head", head)
                .number("by", error.0.abs(), 1)
                .number("limit", limits.mark.0, 1),
            ),
            MarkVerdict::FitsOther(other) => Some(
                msg("tape-fits-other")
                    .count("head", head)
                    .number("read", read, 1)
                    .count("other", other as i64 + 1)
                    .mm("planned", plan.marks.get(other).map_or(0.0, |o| o.0)),
            ),
        }
    }
}
