//! What was typed, judged before anything is solved.

use super::{MarkOutTask, NoDrill, NoDrillReason, Rule};
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// Fewest heads.
pub const HEADS_LEAST: usize = 2;

/// Most heads.
pub const HEADS_GREATEST: usize = 8;

/// No bumper is wider than this from the centre line.
pub const GREATEST_HALF_WIDTH: Millimetres = Millimetres(3000.0);

/// Half widths that differ by more ask whether the centre line is right.
pub const HALVES_DIFFER_ASK: Millimetres = Millimetres(20.0);

/// Most no-drill areas in one task.
pub const MOST_AREAS: usize = 60;

/// Largest hole radius and clearance taken.
const GREATEST_RADIUS: Millimetres = Millimetres(100.0);

/// Half widths up to this look like inches.
const LOOKS_LIKE_INCHES: Millimetres = Millimetres(80.0);

/// Millimetres in an inch.
const INCH: f64 = 25.4;

impl MarkOutTask {
    /// Every fault of the input, each with which number and by how much.
    ///
    /// # Errors
    /// The faults; never empty.
    pub fn check(&self) -> Result<(), Vec<Message>> {
        let mut faults = Vec::new();
        if !(HEADS_LEAST..=HEADS_GREATEST).contains(&self.heads) {
            faults.push(
                msg("mark-out-heads-out-of-range")
                    .count("heads", self.heads as i64)
                    .count("least", HEADS_LEAST as i64)
                    .count("greatest", HEADS_GREATEST as i64),
            );
        }
        self.check_limits(&mut faults);
        let sides = [
            ("mark-out-left", self.half_left),
            ("mark-out-right", self.half_right),
        ];
        for (side, half) in sides {
            faults.extend(self.half_fault(side, half));
        }
        if faults.is_empty() {
            self.check_areas(&mut faults);
            self.check_locks(&mut faults);
            self.check_holes(&mut faults);
        }
        if faults.is_empty() {
            Ok(())
        } else {
            Err(faults)
        }
    }

    /// What is possible but looks wrong and is asked once.
    #[must_use]
    pub fn questions(&self) -> Vec<Message> {
        let by = (self.half_left - self.half_right).abs();
        if by.0 > HALVES_DIFFER_ASK.0 {
            vec![
                msg("mark-out-halves-differ")
                    .mm("left", self.half_left.0)
                    .mm("right", self.half_right.0)
                    .mm("by", by.0)
                    .mm("limit", HALVES_DIFFER_ASK.0),
            ]
        } else {
            Vec::new()
        }
    }

    fn half_fault(&self, side: &'static str, half: Millimetres) -> Option<Message> {
        let gap = self.limits.corner_gap_least.0;
        // Each side takes half the heads in whole millimetres of its own.
        let needed = gap + (self.heads / 2) as f64;
        let fault = |key| msg(key).message("side", msg(side)).mm("typed", half.0);
        if !half.0.is_finite() {
            Some(msg("mark-out-half-not-a-number").message("side", msg(side)))
        } else if half.0 <= 0.0 {
            Some(fault("mark-out-half-not-positive"))
        } else if half.0 > GREATEST_HALF_WIDTH.0 {
            Some(
                fault("mark-out-half-too-wide")
                    .mm("greatest", GREATEST_HALF_WIDTH.0)
                    .mm("by", half.0 - GREATEST_HALF_WIDTH.0),
            )
        } else if half.0 < needed && half.0 <= LOOKS_LIKE_INCHES.0 {
            Some(fault("mark-out-half-inches").mm("inches", half.0 * INCH))
        } else if half.0 < needed {
            Some(
                fault("mark-out-half-below-gap")
                    .mm("gap", gap)
                    .number("by", needed - half.0, 1),
            )
        } else {
            None
        }
    }

    fn check_limits(&self, faults: &mut Vec<Message>) {
        let l = &self.limits;
        let most = GREATEST_HALF_WIDTH;
        let spacing_greatest = l.spacing_greatest.unwrap_or(most);
        let figures = [
            (Rule::Inner.message(self), l.inner, 1.0, most),
            (
                Rule::CornerGapLeast.message(self),
                l.corner_gap_least,
                0.0,
                most,
            ),
            (
                Rule::CornerGapGreatest.message(self),
                l.corner_gap_greatest,
                0.0,
                most,
            ),
            (Rule::SpacingLeast.message(self), l.spacing_least, 1.0, most),
            (
                Rule::SpacingGreatest.message(self),
                spacing_greatest,
                1.0,
                most,
            ),
            (
                Rule::OddHeadWithin.message(self),
                l.odd_head_within,
                0.0,
                most,
            ),
            (msg("mark-out-clearance"), l.clearance, 0.0, GREATEST_RADIUS),
            (
                msg("mark-out-hole-radius"),
                self.hole_radius,
                0.0,
                GREATEST_RADIUS,
            ),
        ];
        for (which, typed, least, greatest) in figures {
            if !(least..=greatest.0).contains(&typed.0) {
                faults.push(
                    msg("mark-out-limit-out-of-range")
                        .message("which", which)
                        .mm("typed", typed.0)
                        .mm("least", least)
                        .mm("greatest", greatest.0),
                );
            }
        }
        let pairs = [
            (
                Rule::CornerGapLeast,
                l.corner_gap_least,
                Rule::CornerGapGreatest,
                l.corner_gap_greatest,
            ),
            (
                Rule::SpacingLeast,
                l.spacing_least,
                Rule::SpacingGreatest,
                spacing_greatest,
            ),
        ];
        for (low, least, high, greatest) in pairs {
            if least.0 > greatest.0 {
                faults.push(
                    msg("mark-out-limits-crossed")
                        .message("least", low.message(self))
                        .message("greatest", high.message(self))
                        .number("by", least.0 - greatest.0, 1),
                );
            }
        }
    }

    /// How far a place lies past the outer edge, if it does.
    fn past_edge(&self, at: Offset) -> Option<(&'static str, f64)> {
        let (left, right) = (-self.half_left.0 - at.0, at.0 - self.half_right.0);
        if left > 0.0 {
            Some(("mark-out-left", left))
        } else if right > 0.0 {
            Some(("mark-out-right", right))
        } else {
            None
        }
    }

    fn check_areas(&self, faults: &mut Vec<Message>) {
        if self.no_drill.len() > MOST_AREAS {
            faults.push(
                msg("mark-out-too-many-areas")
                    .count("areas", self.no_drill.len() as i64)
                    .count("greatest", MOST_AREAS as i64),
            );
            return;
        }
        for (k, area) in self.no_drill.iter().enumerate() {
            faults.extend(self.area_fault(k as i64 + 1, area));
        }
        // Areas for a face angle are our own and may lie over others.
        let mut typed: Vec<(usize, &NoDrill)> = self
            .no_drill
            .iter()
            .enumerate()
            .filter(|(_, a)| a.why != NoDrillReason::FaceAngle && a.from.0 < a.to.0)
            .collect();
        typed.sort_by(|a, b| a.1.from.0.total_cmp(&b.1.from.0));
        let mut reaching: Option<(usize, &NoDrill)> = None;
        for (k, area) in typed {
            if let Some((other, before)) = reaching
                && area.from.0 < before.to.0
            {
                let by = before.to.0.min(area.to.0) - area.from.0;
                faults.push(
                    msg("mark-out-areas-overlap")
                        .count("first", other.min(k) as i64 + 1)
                        .count("second", other.max(k) as i64 + 1)
                        .number("by", by, 1),
                );
            }
            if reaching.is_none_or(|(_, before)| area.to.0 > before.to.0) {
                reaching = Some((k, area));
            }
        }
    }

    fn area_fault(&self, number: i64, area: &NoDrill) -> Option<Message> {
        let (from, to) = (area.from.0, area.to.0);
        let fault = |key| {
            msg(key)
                .count("number", number)
                .message("why", area.why.message())
        };
        if !from.is_finite() || !to.is_finite() {
            return Some(fault("mark-out-area-not-a-number"));
        }
        if from == to {
            return Some(fault("mark-out-area-zero-length").mm("at", from));
        }
        if from > to {
            let reversed = fault("mark-out-area-reversed")
                .mm("from", from)
                .mm("to", to);
            return Some(reversed.number("by", from - to, 1));
        }
        if area.why == NoDrillReason::FaceAngle {
            return None;
        }
        let (side, by) = self
            .past_edge(area.from)
            .or_else(|| self.past_edge(area.to))?;
        let past = fault("mark-out-area-past-edge").message("side", msg(side));
        Some(past.number("by", by, 1))
    }

    fn check_locks(&self, faults: &mut Vec<Message>) {
        let mut sound = Vec::new();
        for lock in &self.locks {
            let fault = |key| msg(key).count("head", lock.head as i64 + 1);
            if lock.head >= self.heads {
                faults.push(fault("mark-out-lock-no-such-head").count("heads", self.heads as i64));
            } else if !lock.at.0.is_finite() {
                faults.push(fault("mark-out-lock-not-a-number"));
            } else if let Some((side, by)) = self.past_edge(lock.at) {
                let past = fault("mark-out-lock-past-edge").message("side", msg(side));
                faults.push(past.number("by", by, 1));
            } else {
                sound.push(*lock);
            }
        }
        sound.sort_by_key(|lock| lock.head);
        for pair in sound.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let between = (b.head - a.head) as f64;
            let needed = between * self.limits.spacing_least.0;
            let gap = (b.at - a.at).0;
            if a.head == b.head {
                faults.push(
                    msg("mark-out-lock-twice")
                        .count("head", a.head as i64 + 1)
                        .mm("first", a.at.0)
                        .mm("second", b.at.0),
                );
            } else if gap < needed {
                faults.push(
                    msg("mark-out-locks-clash")
                        .count("first", a.head as i64 + 1)
                        .count("second", b.head as i64 + 1)
                        .mm("gap", gap)
                        .mm("needed", needed)
                        .number("by", needed - gap, 1),
                );
            }
        }
    }

    fn check_holes(&self, faults: &mut Vec<Message>) {
        if self.old_holes.len() > self.heads {
            faults.push(
                msg("mark-out-too-many-old-holes")
                    .count("holes", self.old_holes.len() as i64)
                    .count("heads", self.heads as i64),
            );
        }
        for (k, at) in self.old_holes.iter().enumerate() {
            let fault = |key| msg(key).count("number", k as i64 + 1);
            if !at.0.is_finite() {
                faults.push(fault("mark-out-old-hole-not-a-number"));
            } else if let Some((side, by)) = self.past_edge(*at) {
                let past = fault("mark-out-old-hole-past-edge").message("side", msg(side));
                faults.push(past.number("by", by, 1));
            }
        }
    }
}
