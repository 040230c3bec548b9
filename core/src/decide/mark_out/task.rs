//! What the mark-out is asked: heads, half widths, limits, areas, locks.

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// Greatest corner gap unless the kit sheet gives one (our own choice).
pub const CORNER_GAP_GREATEST: Millimetres = Millimetres(450.0);

/// Least spacing unless the kit sheet gives one (our own choice).
pub const SPACING_LEAST: Millimetres = Millimetres(150.0);

fn corner_gap_greatest() -> Millimetres {
    CORNER_GAP_GREATEST
}

fn spacing_least() -> Millimetres {
    SPACING_LEAST
}

/// The limits of a mark-out: from the kit sheet, changeable in the job.
/// All in millimetres, straight.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limits {
    /// The heads nearest the centre line (two for an even number, one for an
    /// odd number) are at most so far from it.
    pub inner: Millimetres,
    /// Outer head to outer edge, at least.
    pub corner_gap_least: Millimetres,
    /// Outer head to outer edge, at most; holds for more than two heads.
    #[serde(default = "corner_gap_greatest")]
    pub corner_gap_greatest: Millimetres,
    /// Between neighbouring heads, at least.
    #[serde(default = "spacing_least")]
    pub spacing_least: Millimetres,
    /// Between neighbouring heads, at most, where the sheet gives it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spacing_greatest: Option<Millimetres>,
    /// The middle one of an odd number is at most so far from the centre line.
    pub odd_head_within: Millimetres,
    /// Between the edge of a hole and a no-drill area, at least.
    pub clearance: Millimetres,
}

/// Why nothing may be drilled somewhere.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NoDrillReason {
    /// Number plate.
    Plate,
    /// Lamp or reflector.
    Lamp,
    /// Cut-out of a tow hitch.
    TowHitch,
    /// Bracket of the crash beam.
    CrashBeamBracket,
    /// Exhaust.
    Exhaust,
    /// A hole that is there and is not used again.
    OldHole,
    /// A ridge where a flange cannot seat.
    Ridge,
    /// A radar looks through here.
    Radar,
    /// Wiring behind the face.
    Wiring,
    /// No ring set serves the face angle here.
    FaceAngle,
    /// Anything else, in the fitter's words.
    Other(String),
}

impl NoDrillReason {
    /// The reason in words.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Plate => msg("no-drill-plate"),
            Self::Lamp => msg("no-drill-lamp"),
            Self::TowHitch => msg("no-drill-tow-hitch"),
            Self::CrashBeamBracket => msg("no-drill-crash-beam-bracket"),
            Self::Exhaust => msg("no-drill-exhaust"),
            Self::OldHole => msg("no-drill-old-hole"),
            Self::Ridge => msg("no-drill-ridge"),
            Self::Radar => msg("no-drill-radar"),
            Self::Wiring => msg("no-drill-wiring"),
            Self::FaceAngle => msg("no-drill-face-angle"),
            Self::Other(words) => msg("no-drill-other").text("words", words.clone()),
        }
    }
}

/// So much farther than its clearance a piece of an area stays from a hole,
/// mm: below what is measured, above what adding up loses.
const PIECE_BESIDE: f64 = 0.01;

/// An interval where nothing may be drilled, as measured on the bumper.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NoDrill {
    /// Left end.
    pub from: Offset,
    /// Right end.
    pub to: Offset,
    /// What is there.
    pub why: NoDrillReason,
}

impl NoDrill {
    /// The area that a spot sends back when no ring set serves its face
    /// angle: the head's centre moves at least `least_move` either way.
    #[must_use]
    pub fn around_spot(at: Offset, least_move: Millimetres) -> Self {
        Self {
            from: at + -least_move,
            to: at + least_move,
            why: NoDrillReason::FaceAngle,
        }
    }

    /// The pieces that are left of the area once a hole is drilled at `hole`,
    /// each `clear` or more beside it; the whole where it is clear of it.
    #[must_use]
    pub fn without(&self, hole: Offset, clear: Millimetres) -> Vec<Self> {
        let clear = Millimetres(clear.0 + PIECE_BESIDE);
        let piece = |from: Offset, to: Offset| Self {
            from,
            to,
            why: self.why.clone(),
        };
        let right_end = (hole + -clear).0.min(self.to.0);
        let left_end = (hole + clear).0.max(self.from.0);
        if right_end >= self.to.0 || left_end <= self.from.0 {
            return vec![self.clone()];
        }
        let left = piece(self.from, Offset(right_end));
        let right = piece(Offset(left_end), self.to);
        let pieces = [left, right].into_iter();
        pieces.filter(|area| area.from.0 < area.to.0).collect()
    }

    /// The open interval that no head's centre may lie in (its ends may be
    /// used): the area widened by hole radius and clearance. An area for the
    /// face angle speaks of centres already and is not widened.
    #[must_use]
    pub fn widened(&self, hole_radius: Millimetres, clearance: Millimetres) -> (Offset, Offset) {
        let by = match self.why {
            NoDrillReason::FaceAngle => Millimetres(0.0),
            _ => hole_radius + clearance,
        };
        (self.from + -by, self.to + by)
    }
}

/// A mark that stays where it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lock {
    /// Which head, counted from 0, left to right.
    pub head: usize,
    /// Its place; taken in whole millimetres.
    pub at: Offset,
}

/// What the mark-out is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MarkOutTask {
    /// How many heads, 2 to 8.
    pub heads: usize,
    /// Centre line to left outer edge, straight; a positive length.
    pub half_left: Millimetres,
    /// Centre line to right outer edge, straight; a positive length.
    pub half_right: Millimetres,
    /// Radius of the hole.
    pub hole_radius: Millimetres,
    /// The rules' limits.
    pub limits: Limits,
    /// Where nothing may be drilled.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub no_drill: Vec<NoDrill>,
    /// Marks that stay.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub locks: Vec<Lock>,
    /// Old holes to use again, each by any one head; in whole millimetres.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub old_holes: Vec<Offset>,
}

impl MarkOutTask {
    /// The open interval of area `k` that no centre may lie in.
    pub(super) fn blocked(&self, area: &NoDrill) -> (f64, f64) {
        let (from, to) = area.widened(self.hole_radius, self.limits.clearance);
        (from.0, to.0)
    }

    /// Every rule that holds for this task, in a fixed order.
    #[must_use]
    pub fn rules(&self) -> Vec<super::Rule> {
        use super::Rule;
        let mut rules = vec![Rule::Inner, Rule::CornerGapLeast];
        if self.heads > 2 {
            rules.push(Rule::CornerGapGreatest);
        }
        rules.push(Rule::SpacingLeast);
        if self.limits.spacing_greatest.is_some() {
            rules.push(Rule::SpacingGreatest);
        }
        if self.heads % 2 == 1 {
            rules.push(Rule::OddHeadWithin);
        }
        rules.extend((0..self.no_drill.len()).map(Rule::NoDrill));
        rules.extend((0..self.locks.len()).map(Rule::Locked));
        rules.extend((0..self.old_holes.len()).map(Rule::OldHole));
        rules
    }
}

#[cfg(test)]
mod tests {
    use super::super::samples::{area, task};
    use super::*;

    #[test]
    fn a_sheet_without_spacing_and_greatest_corner_gap_gets_ours() {
        let sheet = r#"{"inner":260,"corner_gap_least":180,"odd_head_within":40,"clearance":3}"#;
        let limits: Limits = serde_json::from_str(sheet).unwrap();
        assert_eq!(limits, task(4).limits);
    }

    #[test]
    fn a_sheet_without_an_inner_limit_does_not_parse() {
        let sheet = r#"{"corner_gap_least":180,"odd_head_within":40,"clearance":3}"#;
        assert!(serde_json::from_str::<Limits>(sheet).is_err());
    }

    #[test]
    fn a_stored_task_reads_back_the_same() {
        let mut stored = task(5);
        stored.no_drill = vec![area(100.0, 130.5)];
        stored.no_drill[0].why = NoDrillReason::Other("badge".to_owned());
        stored.old_holes = vec![Offset(-610.0)];
        let json = serde_json::to_string(&stored).unwrap();
        assert_eq!(serde_json::from_str::<MarkOutTask>(&json).unwrap(), stored);
    }

    #[test]
    fn rules_that_do_not_hold_for_a_task_are_not_listed() {
        use super::super::Rule;
        let rules = task(2).rules();
        assert_eq!(
            rules,
            [Rule::Inner, Rule::CornerGapLeast, Rule::SpacingLeast]
        );
    }
}
