//! What was typed, judged before anything is solved.

use super::{MarkOutTask, NoDrill, NoDrillReason, Rule};
use crate::order;
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

/// Most no-drill areas that are measured on one bumper.
pub const MOST_AREAS: usize = 60;

/// Most areas in one task: a hole that is drilled inside an area leaves two
/// pieces of it.
pub const MOST_PIECES: usize = 2 * MOST_AREAS;

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
        if let Some(fault) = too_many_areas(self.no_drill.len(), MOST_PIECES) {
            faults.push(fault);
            return;
        }
        for (k, area) in self.no_drill.iter().enumerate() {
            faults.extend(self.area_fault(k as i64 + 1, area));
        }
        // Areas for a face angle are our own and may lie over others.
        let mut typed: Vec<&NoDrill> = self
            .no_drill
            .iter()
            .filter(|a| a.why != NoDrillReason::FaceAngle && a.from.0 < a.to.0)
            .collect();
        order::sort_by(&mut typed, |a, b| a.from.0.total_cmp(&b.from.0));
        let mut reaching: Option<&NoDrill> = None;
        for area in typed {
            if let Some(before) = reaching
                && area.from.0 < before.to.0
            {
                let by = before.to.0.min(area.to.0) - area.from.0;
                faults.push(
                    msg("mark-out-areas-overlap")
                        .message("first", named(before))
                        .message("second", named(area))
                        .number("by", by, 1),
                );
            }
            if reaching.is_none_or(|before| area.to.0 > before.to.0) {
                reaching = Some(area);
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
        order::sort_by_key(&mut sound, |lock| lock.head);
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
                        .count("head", a.head as i64 + 1)
                        .count("other_head", b.head as i64 + 1)
                        .mm("gap", gap)
                        .mm("needed", needed)
                        .number("by", needed - gap, 1),
                );
            }
        }
    }

    /// An earlier old hole within the same millimetre.
    fn same_hole_before(&self, k: usize) -> Option<usize> {
        let at = self.old_holes.get(k)?;
        (0..k).find(|&other| (self.old_holes[other] - *at).abs().0 < 1.0)
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
            } else if let Some(other) = self.same_hole_before(k) {
                faults.push(fault("mark-out-old-hole-twice").count("other", other as i64 + 1));
            }
        }
    }
}

/// Says that there are more areas than can be; `None` where there are not.
#[must_use]
pub fn too_many_areas(areas: usize, greatest: usize) -> Option<Message> {
    (areas > greatest).then(|| {
        msg("mark-out-too-many-areas")
            .count("areas", areas as i64)
            .count("greatest", greatest as i64)
            .count("by", (areas - greatest) as i64)
    })
}

/// An area as the list shows it: what is there and where.
fn named(area: &NoDrill) -> Message {
    msg("mark-out-area-named")
        .message("why", area.why.message())
        .mm("from", area.from.0)
        .mm("to", area.to.0)
}

#[cfg(test)]
mod tests {
    use super::super::samples::{area, task};
    use super::super::{Lock, NoPlan, solve};
    use super::*;

    /// The one fault of a task.
    fn fault(task: &MarkOutTask) -> Message {
        let mut faults = task.check().unwrap_err();
        assert_eq!(faults.len(), 1, "{faults:?}");
        assert_eq!(solve(task), Err(NoPlan::Invalid(faults.clone())));
        faults.remove(0)
    }

    fn half_left(half: f64) -> Message {
        let mut task = task(4);
        task.half_left = Millimetres(half);
        fault(&task)
    }

    fn side(key: &'static str) -> Message {
        msg(key).message("side", msg("mark-out-left"))
    }

    #[test]
    fn a_sound_task_has_no_fault_and_no_question() {
        assert_eq!(task(4).check(), Ok(()));
        assert_eq!(task(4).questions(), []);
    }

    #[test]
    fn one_head_or_nine_are_refused() {
        for heads in [0, 1, 9] {
            let want = msg("mark-out-heads-out-of-range")
                .count("heads", heads as i64)
                .count("least", 2)
                .count("greatest", 8);
            assert!(task(heads).check().unwrap_err().contains(&want));
        }
    }

    #[test]
    fn a_half_width_that_is_no_length_is_named_with_its_side() {
        let not_positive = |typed| side("mark-out-half-not-positive").mm("typed", typed);
        assert_eq!(half_left(0.0), not_positive(0.0));
        assert_eq!(half_left(-700.0), not_positive(-700.0));
        assert_eq!(half_left(f64::NAN), side("mark-out-half-not-a-number"));
    }

    #[test]
    fn a_half_width_of_ten_metres_is_seven_too_many() {
        let want = side("mark-out-half-too-wide")
            .mm("typed", 10_000.0)
            .mm("greatest", 3000.0)
            .mm("by", 7000.0);
        assert_eq!(half_left(10_000.0), want);
    }

    #[test]
    fn a_half_width_in_inches_is_told_in_millimetres() {
        let want = side("mark-out-half-inches")
            .mm("typed", 35.0)
            .mm("inches", 889.0);
        assert_eq!(half_left(35.0), want);
    }

    #[test]
    fn a_half_width_smaller_than_the_gap_says_what_is_missing() {
        // Gap 180 and one whole millimetre for each of two heads.
        let want = side("mark-out-half-below-gap")
            .mm("typed", 120.0)
            .mm("gap", 180.0)
            .number("by", 62.0, 1);
        assert_eq!(half_left(120.0), want);
    }

    #[test]
    fn half_widths_that_differ_by_more_than_twenty_are_a_question() {
        let mut task = task(4);
        task.half_left = Millimetres(task.half_right.0 - 20.0);
        assert_eq!(task.questions(), []);
        task.half_left.0 -= 1.0;
        let want = msg("mark-out-halves-differ")
            .mm("left", 799.0)
            .mm("right", 820.0)
            .mm("by", 21.0)
            .mm("limit", 20.0);
        assert_eq!(task.questions(), [want]);
        assert_eq!(task.check(), Ok(()));
    }

    #[test]
    fn limits_that_cross_are_named_by_how_much() {
        let mut task = task(4);
        task.limits.spacing_greatest = Some(Millimetres(140.0));
        let want = msg("mark-out-limits-crossed")
            .message("least", Rule::SpacingLeast.message(&task))
            .message("greatest", Rule::SpacingGreatest.message(&task))
            .number("by", 10.0, 1);
        assert_eq!(fault(&task), want);
    }

    #[test]
    fn a_limit_out_of_range_is_named_with_its_range() {
        let mut task = task(4);
        task.limits.clearance = Millimetres(-2.0);
        let want = msg("mark-out-limit-out-of-range")
            .message("which", msg("mark-out-clearance"))
            .mm("typed", -2.0)
            .mm("least", 0.0)
            .mm("greatest", 100.0);
        assert_eq!(fault(&task), want);
    }

    fn with_areas(ends: &[(f64, f64)]) -> MarkOutTask {
        let mut task = task(4);
        task.no_drill = ends.iter().map(|&(from, to)| area(from, to)).collect();
        task
    }

    fn about_area(key: &'static str, number: i64) -> Message {
        msg(key)
            .count("number", number)
            .message("why", msg("no-drill-lamp"))
    }

    #[test]
    fn a_reversed_area_is_named_with_both_ends() {
        let want = about_area("mark-out-area-reversed", 2)
            .mm("from", 90.0)
            .mm("to", 60.0)
            .number("by", 30.0, 1);
        assert_eq!(fault(&with_areas(&[(-200.0, -150.0), (90.0, 60.0)])), want);
    }

    #[test]
    fn an_area_without_length_is_named() {
        let want = about_area("mark-out-area-zero-length", 1).mm("at", 40.0);
        assert_eq!(fault(&with_areas(&[(40.0, 40.0)])), want);
    }

    #[test]
    fn an_area_past_the_outer_edge_says_how_far() {
        let want = about_area("mark-out-area-past-edge", 1)
            .message("side", msg("mark-out-right"))
            .number("by", 80.0, 1);
        assert_eq!(fault(&with_areas(&[(700.0, 900.0)])), want);
    }

    #[test]
    fn areas_that_overlap_are_named_and_touching_ones_are_not() {
        let lamp = |from, to| {
            msg("mark-out-area-named")
                .message("why", msg("no-drill-lamp"))
                .mm("from", from)
                .mm("to", to)
        };
        let want = msg("mark-out-areas-overlap")
            .message("first", lamp(50.0, 100.0))
            .message("second", lamp(85.0, 200.0))
            .number("by", 15.0, 1);
        assert_eq!(fault(&with_areas(&[(85.0, 200.0), (50.0, 100.0)])), want);
        assert_eq!(with_areas(&[(100.0, 200.0), (50.0, 100.0)]).check(), Ok(()));
    }

    #[test]
    fn an_area_inside_another_is_found_behind_a_third() {
        let task = with_areas(&[(0.0, 300.0), (100.0, 120.0), (200.0, 230.0)]);
        assert_eq!(task.check().unwrap_err().len(), 2);
    }

    #[test]
    fn an_area_for_a_face_angle_may_lie_over_others() {
        let mut task = with_areas(&[(200.0, 260.0)]);
        let spot = NoDrill::around_spot(Offset(250.0), Millimetres(30.0));
        task.no_drill.push(spot);
        assert_eq!(task.check(), Ok(()));
    }

    fn with_locks(locks: &[(usize, f64)]) -> MarkOutTask {
        let mut task = task(4);
        let lock = |&(head, at)| Lock {
            head,
            at: Offset(at),
        };
        task.locks = locks.iter().map(lock).collect();
        task
    }

    #[test]
    fn locks_that_clash_say_how_much_is_missing() {
        let want = msg("mark-out-locks-clash")
            .count("head", 2)
            .count("other_head", 4)
            .mm("gap", 250.0)
            .mm("needed", 300.0)
            .number("by", 50.0, 1);
        assert_eq!(fault(&with_locks(&[(3, 150.0), (1, -100.0)])), want);
        assert_eq!(with_locks(&[(1, -150.0), (3, 400.0)]).check(), Ok(()));
    }

    #[test]
    fn a_lock_of_no_head_or_past_the_edge_or_given_twice_is_named() {
        let no_such = msg("mark-out-lock-no-such-head")
            .count("head", 5)
            .count("heads", 4);
        assert_eq!(fault(&with_locks(&[(4, 100.0)])), no_such);
        let past = msg("mark-out-lock-past-edge")
            .count("head", 1)
            .message("side", msg("mark-out-left"))
            .number("by", 30.0, 1);
        assert_eq!(fault(&with_locks(&[(0, -850.0)])), past);
        let twice = msg("mark-out-lock-twice")
            .count("head", 1)
            .mm("first", -600.0)
            .mm("second", -580.0);
        assert_eq!(fault(&with_locks(&[(0, -600.0), (0, -580.0)])), twice);
    }

    #[test]
    fn old_holes_past_the_edge_or_typed_twice_are_named() {
        let mut task = task(4);
        task.old_holes = vec![Offset(300.0), Offset(300.4)];
        let twice = msg("mark-out-old-hole-twice")
            .count("number", 2)
            .count("other", 1);
        assert_eq!(fault(&task), twice);
        task.old_holes = vec![Offset(-830.5)];
        let past = msg("mark-out-old-hole-past-edge")
            .count("number", 1)
            .message("side", msg("mark-out-left"))
            .number("by", 10.5, 1);
        assert_eq!(fault(&task), past);
    }
}
