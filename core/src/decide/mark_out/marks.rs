//! Marks moved by hand, judged at once.

use super::room::SAME;
use super::{MarkOutTask, Rule, RuleBreak};
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
    broken.sort_by_key(|b| b.head);
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
