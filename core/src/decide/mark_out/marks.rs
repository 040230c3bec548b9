//! Marks moved by hand, judged at once.

use super::room::SAME;
use super::{MarkOutTask, Rule, RuleBreak};
use crate::order;
use crate::units::{Millimetres, Offset};

/// Places are whole millimetres: a mark counts as on a lock or an old hole
/// when it is nearer than this, in mm.
const ON: f64 = 0.5;

/// The heads that the inner limit speaks of: two of an even number, one of
/// an odd one.
pub(super) fn inner_heads(n: usize) -> impl Iterator<Item = usize> {
    let first = if n.is_multiple_of(2) {
        (n / 2).saturating_sub(1)
    } else {
        n / 2
    };
    (first..=n / 2).take_while(move |&k| k < n)
}

/// Every rule that these marks break, by head from left to right, each with
/// the millimetres. Empty: all rules are kept. The marks are taken in the
/// order of the heads: marks dragged over each other break the spacing.
#[must_use]
pub fn check_marks(task: &MarkOutTask, marks: &[Offset]) -> Vec<RuleBreak> {
    let mut broken = Vec::new();
    let mut must = |rule, head, over: f64| {
        if over > SAME {
            broken.push(RuleBreak {
                rule,
                head,
                by: Millimetres(over),
            });
        }
    };
    let n = marks.len();
    if n != task.heads || marks.iter().any(|o| !o.0.is_finite()) {
        return unreadable(task, marks);
    }
    let l = &task.limits;
    for (head, o) in marks.iter().enumerate() {
        if head < n / 2 && o.0 > -1.0 {
            must(Rule::Sides, head, o.0 + 1.0);
        }
        if head >= n - n / 2 && o.0 < 1.0 {
            must(Rule::Sides, head, 1.0 - o.0);
        }
    }
    for head in inner_heads(n) {
        must(Rule::Inner, head, marks[head].0.abs() - l.inner.0);
    }
    if n % 2 == 1 {
        let over = marks[n / 2].0.abs() - l.odd_head_within.0;
        must(Rule::OddHeadWithin, n / 2, over);
    }
    let corners = [
        (0, task.half_left.0 + marks[0].0),
        (n - 1, task.half_right.0 - marks[n - 1].0),
    ];
    for (head, gap) in corners {
        must(Rule::CornerGapLeast, head, l.corner_gap_least.0 - gap);
        if n > 2 {
            must(Rule::CornerGapGreatest, head, gap - l.corner_gap_greatest.0);
        }
    }
    for (head, w) in marks.windows(2).enumerate() {
        let gap = (w[1] - w[0]).0;
        must(Rule::SpacingLeast, head, l.spacing_least.0.max(1.0) - gap);
        if let Some(greatest) = l.spacing_greatest {
            must(Rule::SpacingGreatest, head, gap - greatest.0);
        }
    }
    for (k, area) in task.no_drill.iter().enumerate() {
        let (from, to) = task.blocked(area);
        for (head, o) in marks.iter().enumerate() {
            must(Rule::NoDrill(k), head, (o.0 - from).min(to - o.0));
        }
    }
    for (k, lock) in task.locks.iter().enumerate() {
        if let Some(o) = marks.get(lock.head) {
            must(Rule::Locked(k), lock.head, past(o.0, lock.at.0));
        }
    }
    for (k, hole) in task.old_holes.iter().enumerate() {
        let nearest = marks
            .iter()
            .enumerate()
            .map(|(head, o)| (past(o.0, hole.0), head))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((over, head)) = nearest {
            must(Rule::OldHole(k), head, over);
        }
    }
    order::sort_by_key(&mut broken, |b| b.head);
    broken
}

/// How far a mark is from a place, 0 when it is on it.
fn past(mark: f64, place: f64) -> f64 {
    let off = (mark - place).abs();
    if off <= ON + SAME { 0.0 } else { off }
}

fn unreadable(task: &MarkOutTask, marks: &[Offset]) -> Vec<RuleBreak> {
    let no_length = |rule, head| RuleBreak {
        rule,
        head,
        by: Millimetres(0.0),
    };
    let mut broken: Vec<RuleBreak> = marks
        .iter()
        .enumerate()
        .filter(|(_, o)| !o.0.is_finite())
        .map(|(head, _)| no_length(Rule::Figure, head))
        .collect();
    if marks.len() != task.heads {
        let head = marks.len().min(task.heads);
        broken.push(no_length(Rule::HeadCount, head));
    }
    broken
}

/// The heads whose marks are no longer where they were, and heads that are
/// new: their reading, confirmation from behind and the customer's agreement
/// are void; everything at the other marks is kept.
#[must_use]
pub fn moved_heads(before: &[Offset], after: &[Offset]) -> Vec<usize> {
    (0..after.len())
        .filter(|&k| match before.get(k) {
            Some(old) => (after[k] - *old).abs().0 > SAME,
            None => true,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::samples::{area, task};
    use super::super::{Lock, NoDrill, PlanKind, solve};
    use super::*;

    fn at(marks: &[f64]) -> Vec<Offset> {
        marks.iter().map(|&x| Offset(x)).collect()
    }

    fn broken(task: &MarkOutTask, marks: &[f64]) -> Vec<(Rule, usize, f64)> {
        let all = check_marks(task, &at(marks));
        all.iter().map(|b| (b.rule, b.head, b.by.0)).collect()
    }

    #[test]
    fn marks_inside_every_rule_break_none() {
        assert_eq!(broken(&task(4), &[-630.0, -210.0, 210.0, 630.0]), []);
    }

    #[test]
    fn each_rule_says_head_and_millimetres() {
        let four = task(4);
        let inner = broken(&four, &[-630.0, -210.0, 265.5, 630.0]);
        assert_eq!(inner, [(Rule::Inner, 2, 5.5)]);
        let corner = broken(&four, &[-647.0, -210.0, 210.0, 360.0]);
        let want = [
            (Rule::CornerGapLeast, 0, 7.0),
            (Rule::CornerGapGreatest, 3, 10.0),
        ];
        assert_eq!(corner, want);
        let odd = broken(&task(3), &[-600.0, 52.0, 600.0]);
        assert_eq!(odd, [(Rule::OddHeadWithin, 1, 12.0)]);
        let mut close = task(4);
        close.limits.spacing_greatest = Some(Millimetres(430.0));
        let spacing = broken(&close, &[-630.0, -60.0, 60.0, 490.0]);
        let want = [
            (Rule::SpacingGreatest, 0, 140.0),
            (Rule::SpacingLeast, 1, 30.0),
        ];
        assert_eq!(spacing, want);
    }

    #[test]
    fn marks_dragged_over_each_other_break_the_spacing_by_gap_and_overlap() {
        let crossed = broken(&task(4), &[-630.0, -210.0, 640.0, 600.0]);
        assert!(crossed.contains(&(Rule::SpacingLeast, 2, 190.0)));
    }

    #[test]
    fn a_mark_on_the_other_side_breaks_the_sides() {
        let wrong = broken(&task(4), &[-630.0, 20.0, 210.0, 630.0]);
        assert_eq!(wrong, [(Rule::Sides, 1, 21.0)]);
    }

    #[test]
    fn an_area_is_widened_by_hole_and_clearance_and_its_ends_may_be_used() {
        let mut four = task(4);
        four.no_drill = vec![area(200.0, 240.0)];
        assert_eq!(broken(&four, &[-630.0, -210.0, 188.0, 630.0]), []);
        assert_eq!(broken(&four, &[-630.0, -210.0, 252.0, 630.0]), []);
        let inside = broken(&four, &[-630.0, -210.0, 190.0, 630.0]);
        assert_eq!(inside, [(Rule::NoDrill(0), 2, 2.0)]);
    }

    #[test]
    fn an_area_for_a_face_angle_is_not_widened() {
        let mut four = task(4);
        let spot = NoDrill::around_spot(Offset(210.0), Millimetres(15.0));
        four.no_drill = vec![spot];
        assert_eq!(broken(&four, &[-630.0, -210.0, 225.0, 630.0]), []);
        let plans = solve(&four).unwrap();
        assert!(
            plans
                .symmetric
                .marks
                .iter()
                .all(|o| (o.0 - 210.0).abs() >= 15.0)
        );
    }

    #[test]
    fn a_moved_lock_and_a_missed_old_hole_are_named() {
        let mut four = task(4);
        four.locks = vec![Lock {
            head: 0,
            at: Offset(-630.0),
        }];
        four.old_holes = vec![Offset(212.5)];
        assert_eq!(broken(&four, &[-630.0, -210.0, 212.0, 630.0]), []);
        let off = broken(&four, &[-625.0, -210.0, 220.0, 630.0]);
        assert_eq!(off, [(Rule::Locked(0), 0, 5.0), (Rule::OldHole(0), 2, 7.5)]);
    }

    #[test]
    fn a_mark_without_a_figure_or_one_too_few_is_named() {
        let none = broken(&task(4), &[-630.0, f64::NAN, 210.0]);
        assert_eq!(none, [(Rule::Figure, 1, 0.0), (Rule::HeadCount, 3, 0.0)]);
    }

    #[test]
    fn locked_marks_stay_and_the_rest_is_solved() {
        let mut four = task(4);
        four.locks = vec![Lock {
            head: 1,
            at: Offset(-180.0),
        }];
        let plans = solve(&four).unwrap();
        for kind in PlanKind::ALL {
            assert_eq!(plans.get(kind).marks[1], Offset(-180.0));
        }
        assert_eq!(plans.symmetric.marks, at(&[-540.0, -180.0, 180.0, 540.0]));
    }

    #[test]
    fn an_old_hole_is_used_by_whichever_head_it_suits() {
        let mut four = task(4);
        four.old_holes = vec![Offset(-600.0)];
        let marks = &solve(&four).unwrap().symmetric.marks;
        assert_eq!(*marks, at(&[-600.0, -200.0, 200.0, 600.0]));
        four.old_holes = vec![Offset(150.0)];
        let marks = &solve(&four).unwrap().symmetric.marks;
        assert_eq!(*marks, at(&[-450.0, -150.0, 150.0, 450.0]));
    }

    #[test]
    fn only_moved_and_new_marks_lose_what_was_done_at_them() {
        let before = at(&[-630.0, -210.0, 210.0]);
        let after = at(&[-630.0, -200.0, 210.0, 630.0]);
        assert_eq!(moved_heads(&before, &after), [1, 3]);
    }

    #[test]
    fn a_break_says_rule_head_and_millimetres() {
        let four = task(4);
        let all = check_marks(&four, &at(&[-630.0, -210.0, 265.5, 630.0]));
        let want = crate::text::msg("mark-out-breaks")
            .count("head", 3)
            .message(
                "rule",
                crate::text::msg("mark-out-rule-inner").mm("limit", 260.0),
            )
            .number("by", 5.5, 1);
        assert_eq!(all[0].message(&four), want);
    }
}
