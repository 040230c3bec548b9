//! Plans: marks, what they reach, what holds them, what they trade.

use serde::{Deserialize, Serialize};

use super::search::Found;
use super::{Binding, MarkOutTask, Rule};
use crate::order;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// From so much more width on the wide plan is no matter of course to pass
/// over: nothing is proposed and the fitter picks.
pub const WIDER_THAT_ASKS: Millimetres = Millimetres(100.0);

/// The three plans, each with its order of objectives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PlanKind {
    /// Least asymmetry, then least spread, then greatest width.
    Symmetric,
    /// Least spread, then least asymmetry, then greatest width.
    Even,
    /// Greatest width, then least asymmetry, then least spread.
    Wide,
}

impl PlanKind {
    /// All three, in the order in which they are shown.
    pub const ALL: [Self; 3] = [Self::Symmetric, Self::Even, Self::Wide];

    /// Its name on the screen.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Symmetric => "mark-out-plan-symmetric",
            Self::Even => "mark-out-plan-even",
            Self::Wide => "mark-out-plan-wide",
        })
    }
}

/// One plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Plan {
    /// Which of the three.
    pub kind: PlanKind,
    /// Left to right, whole millimetres.
    pub marks: Vec<Offset>,
    /// Greatest `|o_i + o_(n+1-i)|`: 0 is the same on both sides.
    pub asymmetry: Millimetres,
    /// Greatest less least spacing: 0 is exactly even.
    pub spread: Millimetres,
    /// Outer head to outer head.
    pub width: Millimetres,
    /// Spacings, left to right; one fewer than heads.
    pub gaps: Vec<Millimetres>,
    /// Left outer head to left outer edge.
    pub corner_left: Millimetres,
    /// Right outer head to right outer edge.
    pub corner_right: Millimetres,
    /// The rules that hold heads where they are. When no limit is met
    /// exactly, the nearest one, with the room that is left.
    pub binding: Vec<Binding>,
}

impl Plan {
    pub(super) fn new(task: &MarkOutTask, kind: PlanKind, found: &Found) -> Self {
        let mm = |x: i32| Millimetres(f64::from(x));
        let marks: Vec<Offset> = found.marks.iter().map(|&x| Offset(f64::from(x))).collect();
        let first = marks.first().copied().unwrap_or_default();
        let last = marks.last().copied().unwrap_or_default();
        Self {
            kind,
            asymmetry: mm(found.asym),
            spread: mm(found.spread),
            width: mm(found.width),
            gaps: marks.windows(2).map(|w| w[1] - w[0]).collect(),
            corner_left: task.half_left + Millimetres(first.0),
            corner_right: task.half_right - Millimetres(last.0),
            binding: binding(task, &marks),
            marks,
        }
    }

    /// The plan in words: what it reaches, what it leaves at the corners, and
    /// which rule decides at which head.
    #[must_use]
    pub fn explain(&self, task: &MarkOutTask) -> Vec<Message> {
        let least = self.gaps.iter().map(|g| g.0).fold(f64::INFINITY, f64::min);
        let greatest = self.gaps.iter().map(|g| g.0).fold(0.0, f64::max);
        let gaps = if self.spread.0 > 0.0 {
            msg("mark-out-gaps-from-to")
                .mm("least", least)
                .mm("greatest", greatest)
        } else {
            msg("mark-out-gaps-equal").mm("gap", greatest)
        };
        let sides = if self.asymmetry.0 > 0.0 {
            msg("mark-out-sides-differ").mm("by", self.asymmetry.0)
        } else {
            msg("mark-out-sides-same")
        };
        let corners = msg("mark-out-leaves-corners")
            .mm("left", self.corner_left.0)
            .mm("right", self.corner_right.0);
        let width = msg("mark-out-width").mm("width", self.width.0);
        let mut said = vec![sides, gaps, width, corners];
        said.extend(self.binding.iter().map(|b| b.message(task)));
        said
    }
}

/// The three plans of one task.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MarkOutPlans {
    /// 'Same both sides'.
    pub symmetric: Plan,
    /// 'Equal gaps'.
    pub even: Plan,
    /// 'As wide as it goes'.
    pub wide: Plan,
    /// The plan that is proposed; `None` when the wide plan is wider by
    /// [`WIDER_THAT_ASKS`] or more and the fitter picks.
    pub proposed: Option<PlanKind>,
}

impl MarkOutPlans {
    pub(super) fn new(task: &MarkOutTask, [symmetric, even, wide]: &[Found; 3]) -> Self {
        let wider = f64::from(wide.width - symmetric.width);
        Self {
            symmetric: Plan::new(task, PlanKind::Symmetric, symmetric),
            even: Plan::new(task, PlanKind::Even, even),
            wide: Plan::new(task, PlanKind::Wide, wide),
            proposed: (wider < WIDER_THAT_ASKS.0).then_some(PlanKind::Symmetric),
        }
    }

    /// The plan of a kind.
    #[must_use]
    pub fn get(&self, kind: PlanKind) -> &Plan {
        match kind {
            PlanKind::Symmetric => &self.symmetric,
            PlanKind::Even => &self.even,
            PlanKind::Wide => &self.wide,
        }
    }

    /// The plans whose marks differ: of those alike only the first.
    #[must_use]
    pub fn distinct(&self) -> Vec<PlanKind> {
        let mut kinds: Vec<PlanKind> = Vec::new();
        for kind in PlanKind::ALL {
            let new = |other: &PlanKind| self.get(*other).marks != self.get(kind).marks;
            if kinds.iter().all(new) {
                kinds.push(kind);
            }
        }
        kinds
    }

    /// What one plan gives up against the other two: each sentence names the
    /// other plan and the millimetres. Empty when it is best in everything.
    #[must_use]
    pub fn trades(&self, kind: PlanKind) -> Vec<Message> {
        let plan = self.get(kind);
        let best = |value: fn(&Plan) -> f64| {
            let others = PlanKind::ALL.into_iter().filter(|&k| k != kind);
            others
                .map(|k| (value(plan) - value(self.get(k)), k))
                .filter(|(by, _)| *by > 0.0)
                .max_by(|a, b| a.0.total_cmp(&b.0))
        };
        let given_up = |key, value| {
            best(value).map(|(by, k)| msg(key).mm("by", by).message("plan", k.message()))
        };
        [
            given_up("mark-out-trades-width", |p| -p.width.0),
            given_up("mark-out-trades-evenness", |p| p.spread.0),
            given_up("mark-out-trades-symmetry", |p| p.asymmetry.0),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// Why nothing is proposed, or why the symmetric plan is.
    #[must_use]
    pub fn proposal(&self) -> Message {
        let wider = (self.wide.width - self.symmetric.width).0;
        match self.proposed {
            Some(kind) => msg("mark-out-proposed").message("plan", kind.message()),
            None => msg("mark-out-nothing-proposed")
                .mm("wider", wider)
                .mm("from", WIDER_THAT_ASKS.0),
        }
    }
}

/// Limits met to the millimetre; if there is none but locks and old holes,
/// also those that are nearest.
fn binding(task: &MarkOutTask, marks: &[Offset]) -> Vec<Binding> {
    let all = room_to_limits(task, marks);
    let given = |b: &Binding| matches!(b.rule, Rule::Locked(_) | Rule::OldHole(_));
    let nearest = all
        .iter()
        .filter(|b| !given(b))
        .map(|b| b.room.0.floor().max(0.0))
        .fold(f64::INFINITY, f64::min);
    let mut held: Vec<Binding> = all
        .into_iter()
        .filter(|b| given(b) || b.room.0.floor().max(0.0) <= nearest)
        .collect();
    order::sort_by_key(&mut held, |b| b.head);
    held
}

/// Every limit with its room at every head that it can hold.
fn room_to_limits(task: &MarkOutTask, marks: &[Offset]) -> Vec<Binding> {
    let l = &task.limits;
    let n = marks.len();
    let mut all = Vec::new();
    let mut add = |rule, head, room: f64| {
        all.push(Binding {
            rule,
            head,
            room: Millimetres(room),
        });
    };
    let ends = [
        (0, task.half_left.0 + marks.first().map_or(0.0, |o| o.0)),
        (n - 1, task.half_right.0 - marks.last().map_or(0.0, |o| o.0)),
    ];
    for (head, gap) in ends {
        add(Rule::CornerGapLeast, head, gap - l.corner_gap_least.0);
        if n > 2 {
            add(Rule::CornerGapGreatest, head, l.corner_gap_greatest.0 - gap);
        }
    }
    for head in super::marks::inner_heads(n) {
        add(Rule::Inner, head, l.inner.0 - marks[head].0.abs());
    }
    if n % 2 == 1 {
        let room = l.odd_head_within.0 - marks[n / 2].0.abs();
        add(Rule::OddHeadWithin, n / 2, room);
    }
    for (head, w) in marks.windows(2).enumerate() {
        let gap = (w[1] - w[0]).0;
        add(Rule::SpacingLeast, head, gap - l.spacing_least.0);
        if let Some(greatest) = l.spacing_greatest {
            add(Rule::SpacingGreatest, head, greatest.0 - gap);
        }
    }
    for (head, o) in marks.iter().enumerate() {
        for (k, area) in task.no_drill.iter().enumerate() {
            let (from, to) = task.blocked(area);
            if to > from {
                add(Rule::NoDrill(k), head, (from - o.0).max(o.0 - to));
            }
        }
        for (k, lock) in task.locks.iter().enumerate() {
            if lock.head == head {
                add(Rule::Locked(k), head, 0.0);
            }
        }
        for (k, hole) in task.old_holes.iter().enumerate() {
            if (o.0 - hole.0).abs() <= 0.5 {
                add(Rule::OldHole(k), head, 0.0);
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::super::samples::{area, task};
    use super::super::solve;
    use super::*;

    fn held(plan: &Plan) -> Vec<(Rule, usize)> {
        plan.binding.iter().map(|b| (b.rule, b.head)).collect()
    }

    #[test]
    fn the_wide_plan_is_held_by_both_corners() {
        let plan = solve(&task(4)).unwrap().wide;
        let want = [(Rule::CornerGapLeast, 0), (Rule::CornerGapLeast, 3)];
        assert_eq!(held(&plan), want);
        assert_eq!(plan.corner_left, Millimetres(180.0));
    }

    #[test]
    fn equal_gaps_that_cannot_come_closer_name_the_nearest_limit() {
        // 3 x 213 = 639: one millimetre short of the corner limit.
        let plan = solve(&task(4)).unwrap().symmetric;
        assert_eq!(plan.marks[3], Offset(639.0));
        let want = [(Rule::CornerGapLeast, 0), (Rule::CornerGapLeast, 3)];
        assert_eq!(held(&plan), want);
        assert_eq!(plan.binding[0].room, Millimetres(1.0));
    }

    #[test]
    fn an_area_that_holds_a_head_is_named_at_that_head() {
        let mut task = task(4);
        task.no_drill = vec![area(200.0, 240.0)];
        let plans = solve(&task).unwrap();
        assert_eq!(held(&plans.symmetric), [(Rule::NoDrill(0), 2)]);
        assert_eq!(plans.symmetric.marks[2], Offset(188.0));
    }

    #[test]
    fn a_plan_is_told_with_what_it_leaves_and_what_holds_it() {
        let task = task(2);
        let plan = solve(&task).unwrap().symmetric;
        let inner = msg("mark-out-rule-inner").mm("limit", 260.0);
        let holds = |head| {
            msg("mark-out-binds")
                .count("head", head)
                .message("rule", inner.clone())
        };
        let want = [
            msg("mark-out-sides-same"),
            msg("mark-out-gaps-equal").mm("gap", 520.0),
            msg("mark-out-width").mm("width", 520.0),
            msg("mark-out-leaves-corners")
                .mm("left", 560.0)
                .mm("right", 560.0),
            holds(1),
            holds(2),
        ];
        assert_eq!(plan.explain(&task), want);
    }

    #[test]
    fn each_plan_says_what_it_gives_up() {
        let plans = solve(&task(4)).unwrap();
        let wide = msg("mark-out-plan-wide");
        let narrower = msg("mark-out-trades-width")
            .mm("by", 2.0)
            .message("plan", wide);
        assert_eq!(plans.trades(PlanKind::Symmetric), [narrower]);
        let uneven = plans.trades(PlanKind::Wide);
        assert_eq!(uneven.len(), 1);
        assert_eq!(uneven[0].key, "mark-out-trades-evenness");
    }

    #[test]
    fn from_a_hundred_millimetres_more_width_nothing_is_proposed() {
        let mut task = task(4);
        // Equal gaps end at 3 x inner; the wide plan goes on to the corners.
        task.limits.inner = Millimetres(197.0);
        let plans = solve(&task).unwrap();
        assert_eq!((plans.wide.width - plans.symmetric.width).0, 98.0);
        assert_eq!(plans.proposed, Some(PlanKind::Symmetric));
        task.limits.inner = Millimetres(196.0);
        let plans = solve(&task).unwrap();
        assert_eq!(plans.proposed, None);
        let want = msg("mark-out-nothing-proposed")
            .mm("wider", 104.0)
            .mm("from", 100.0);
        assert_eq!(plans.proposal(), want);
    }
}
