//! When there is no plan: which rules clash, by how much, what would help.

use serde::{Deserialize, Serialize};

use super::room::{DROPPED, KEPT, Room};
use super::rule::at_heads;
use super::{MarkOutTask, Plan, PlanKind, Rule, chain, search};
use crate::order;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// No change of a rule is looked for beyond this, in mm: more than a bumper
/// is wide.
const FURTHEST: i32 = 8_000;

/// Steps of the search for the smallest set: sets tried and rules put in.
/// Many areas in one another's way can need more; past them the set is still
/// one from which no rule can be left out. The screen waits for this.
const STEPS: usize = 6_000;

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum NoPlan {
    /// The input is not valid: each message says which number, by how much.
    Invalid(Vec<Message>),
    /// The rules leave no place.
    Impossible {
        /// The smallest set of rules that cannot be kept together.
        clash: Clash,
        /// Every single rule whose change alone makes a plan possible, the
        /// least change first, with the symmetric plan under it.
        ways: Vec<Relaxation>,
    },
}

/// Whether a change makes the whole mark-out possible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Enough {
    /// With it there is a plan.
    Alone,
    /// It ends this clash, but there is another one.
    NotAlone,
}

/// The smallest set of rules that cannot be kept together, beside half the
/// heads on each side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Clash {
    /// The rules.
    pub rules: Vec<Rule>,
    /// The rule of the set that has to change least.
    pub least: Rule,
    /// By how much, in whole millimetres.
    pub by: Millimetres,
    /// Whether that change is enough.
    pub enough: Enough,
}

/// One rule changed by the least that helps, and the plan then.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Relaxation {
    /// The rule.
    pub rule: Rule,
    /// By how much, in whole millimetres: a limit raised or lowered, both
    /// ends of a no-drill area pulled in, a lock or an old hole moved.
    pub by: Millimetres,
    /// The symmetric plan under it.
    pub plan: Plan,
}

impl NoPlan {
    /// What the fitter is told, the most important first.
    #[must_use]
    pub fn messages(&self, task: &MarkOutTask) -> Vec<Message> {
        match self {
            Self::Invalid(faults) => faults.clone(),
            Self::Impossible { clash, ways } => {
                let rules: Vec<Message> = clash.rules.iter().map(|r| r.message(task)).collect();
                let key = match rules.len() {
                    1 => "mark-out-impossible-alone",
                    _ => "mark-out-impossible",
                };
                let heads = clash.heads(task, ways);
                let mut said = vec![
                    msg(key)
                        .list("rules", rules)
                        .mm("by", clash.by.0)
                        .message("at", at_heads(&heads)),
                ];
                if ways.is_empty() {
                    let change = clash.least.loosened_message(task, clash.by, &heads);
                    said.push(msg("mark-out-no-single-way").message("change", change));
                }
                said.extend(ways.iter().map(|way| way.message(task)));
                said
            }
        }
    }
}

impl Clash {
    /// The heads at which the rule that has to change least is in the way,
    /// counted from 0; where several change as little, the fewest.
    fn heads(&self, task: &MarkOutTask, ways: &[Relaxation]) -> Vec<usize> {
        let least = ways
            .iter()
            .filter(|way| way.by == self.by && self.rules.contains(&way.rule))
            .map(|way| way.rule.heads_at(task, &way.plan.marks))
            .min_by_key(Vec::len);
        if let Some(heads) = least {
            return heads;
        }
        let found = fitting(task, &self.rules, Some((self.least, self.by.0)));
        let marks = found.unwrap_or_default();
        let marks: Vec<Offset> = marks.iter().map(|&x| Offset(f64::from(x))).collect();
        self.least.heads_at(task, &marks)
    }
}

impl Relaxation {
    /// What gives, by how much, at which heads.
    #[must_use]
    pub fn message(&self, task: &MarkOutTask) -> Message {
        let heads = self.rule.heads_at(task, &self.plan.marks);
        self.rule.loosened_message(task, self.by, &heads)
    }
}

/// Explains a task that has no plan.
pub(super) fn explain(task: &MarkOutTask) -> NoPlan {
    let rules = task.rules();
    let smallest = smallest_set(task, &rules, &mut Steps(STEPS));
    let mut ways: Vec<Relaxation> = rules
        .iter()
        .filter_map(|&rule| {
            let by = least_change(task, rule, &rules)?;
            let room = Room::new(task, &|r| if r == rule { f64::from(by) } else { KEPT });
            let found = search::one(&room, PlanKind::Symmetric)?;
            Some(Relaxation {
                rule,
                by: Millimetres(f64::from(by)),
                plan: Plan::new(task, PlanKind::Symmetric, &found),
            })
        })
        .collect();
    order::sort_by(&mut ways, |a, b| a.by.0.total_cmp(&b.by.0));
    let in_set = ways.iter().find(|w| smallest.contains(&w.rule));
    let (least, by, enough) = match in_set {
        Some(way) => (way.rule, way.by, Enough::Alone),
        None => least_of(task, &smallest),
    };
    NoPlan::Impossible {
        clash: Clash {
            rules: smallest,
            least,
            by,
            enough,
        },
        ways,
    }
}

/// The least change that ends the clash of this set alone.
fn least_of(task: &MarkOutTask, set: &[Rule]) -> (Rule, Millimetres, Enough) {
    let least = set
        .iter()
        .filter_map(|&rule| Some((least_change(task, rule, set)?, rule)))
        .min_by_key(|(by, _)| *by);
    let (by, rule) = least.unwrap_or((0, Rule::Sides));
    (rule, Millimetres(f64::from(by)), Enough::NotAlone)
}

/// Marks that keep these rules alone, one of them loosened.
fn fitting(task: &MarkOutTask, kept: &[Rule], loosened: Option<(Rule, f64)>) -> Option<Vec<i32>> {
    let loose = |rule: Rule| match loosened {
        Some((r, by)) if r == rule => by,
        _ if kept.contains(&rule) => KEPT,
        _ => DROPPED,
    };
    chain::any(&Room::new(task, &loose))
}

/// Whether there is a plan under these rules alone.
fn possible(task: &MarkOutTask, kept: &[Rule], loosened: Option<(Rule, i32)>) -> bool {
    let loosened = loosened.map(|(rule, by)| (rule, f64::from(by)));
    fitting(task, kept, loosened).is_some()
}

/// The least whole millimetres by which `rule` must give way for the rules
/// `kept` to be possible; more helps as well, so halving finds it.
fn least_change(task: &MarkOutTask, rule: Rule, kept: &[Rule]) -> Option<i32> {
    let (mut short, mut enough) = (0, FURTHEST);
    if !possible(task, kept, Some((rule, enough))) {
        return None;
    }
    while enough - short > 1 {
        let by = (short + enough) / 2;
        if possible(task, kept, Some((rule, by))) {
            enough = by;
        } else {
            short = by;
        }
    }
    Some(enough)
}

/// A smallest set of rules that is impossible.
///
/// Every impossible set shares a rule with every set of rules whose removal
/// makes the rest possible. So: take a smallest set that shares one with all
/// removals known; if it is impossible it is the answer, else grow it while
/// it stays possible, and what is left out is a new removal.
/// (A. Ignatiev, A. Previti, M. Liffiton, J. Marques-Silva, "Smallest MUS
/// Extraction with Minimal Hitting Set Dualization", CP 2015.)
fn smallest_set(task: &MarkOutTask, rules: &[Rule], steps: &mut Steps) -> Vec<Rule> {
    let mut removals: Vec<Vec<Rule>> = Vec::new();
    // More sets never share fewer rules.
    let mut size = 0;
    while let Some(mut kept) = smallest_sharing(&removals, size, steps) {
        size = kept.len();
        if !possible(task, &kept, None) {
            order::sort_by_key(&mut kept, |r| rules.iter().position(|x| x == r));
            return kept;
        }
        let mut left_out = Vec::new();
        for &rule in rules {
            if kept.contains(&rule) {
                continue;
            }
            steps.take();
            kept.push(rule);
            if !possible(task, &kept, None) {
                kept.pop();
                left_out.push(rule);
            }
        }
        if left_out.is_empty() {
            break;
        }
        removals.push(left_out);
    }
    without_needless(task, rules)
}

/// Leaves out rule after rule while the rest stays impossible.
fn without_needless(task: &MarkOutTask, rules: &[Rule]) -> Vec<Rule> {
    let mut kept = rules.to_vec();
    for rule in rules {
        let fewer: Vec<Rule> = kept.iter().copied().filter(|r| r != rule).collect();
        if !possible(task, &fewer, None) {
            kept = fewer;
        }
    }
    kept
}

/// Steps that are left.
struct Steps(usize);

impl Steps {
    /// Takes one; whether there was one.
    fn take(&mut self) -> bool {
        let had = self.0 > 0;
        self.0 = self.0.saturating_sub(1);
        had
    }
}

/// A smallest set that shares a rule with every one of `sets`, of at least
/// `from` rules; `None` where the steps end first.
fn smallest_sharing(sets: &[Vec<Rule>], from: usize, steps: &mut Steps) -> Option<Vec<Rule>> {
    for size in from..=sets.len().max(from) {
        let mut chosen = Vec::new();
        let found = share(sets, size, &mut chosen, steps);
        if steps.0 == 0 {
            return None;
        }
        if found {
            return Some(chosen);
        }
    }
    None
}

fn share(sets: &[Vec<Rule>], size: usize, chosen: &mut Vec<Rule>, steps: &mut Steps) -> bool {
    if !steps.take() {
        return false;
    }
    let missed = sets
        .iter()
        .filter(|set| !set.iter().any(|r| chosen.contains(r)))
        .min_by_key(|set| set.len());
    let Some(missed) = missed else {
        return true;
    };
    if chosen.len() == size {
        return false;
    }
    for &rule in missed {
        chosen.push(rule);
        if share(sets, size, chosen, steps) {
            return true;
        }
        chosen.pop();
    }
    false
}

#[cfg(test)]
mod tests {
    use super::super::samples::{area, task};
    use super::super::{Lock, solve};
    use super::*;
    use crate::text::Arg;

    fn clash(task: &MarkOutTask) -> (Clash, Vec<Relaxation>) {
        match solve(task) {
            Err(NoPlan::Impossible { clash, ways }) => (clash, ways),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn an_area_over_the_centre_clashes_with_the_inner_limit() {
        let mut task = task(4);
        task.no_drill = vec![area(-100.0, 300.0)];
        // Widened to 312, the inner limit is 260.
        let (clash, ways) = clash(&task);
        assert_eq!(clash.rules, [Rule::Inner, Rule::NoDrill(0)]);
        assert_eq!(clash.by, Millimetres(52.0));
        assert_eq!(clash.enough, Enough::Alone);
        assert_eq!(ways.len(), 2);
        let said = NoPlan::Impossible { clash, ways }.messages(&task);
        let rules = vec![
            msg("mark-out-rule-inner").mm("limit", 260.0),
            Rule::NoDrill(0).message(&task),
        ];
        let want = msg("mark-out-impossible")
            .list("rules", rules)
            .mm("by", 52.0)
            .message("at", at_heads(&[2]));
        assert_eq!(said[0], want);
        assert_eq!(said[1].key, "mark-out-loosen-raise");
        assert_eq!(said[2].key, "mark-out-loosen-no-drill");
    }

    #[test]
    fn more_heads_than_fit_name_the_spacing_and_the_corner_gap() {
        let mut task = task(8);
        task.half_left = Millimetres(600.0);
        task.half_right = Millimetres(600.0);
        // Seven spacings of 150 in 2 x (600 - 180) = 840: 120 each fit.
        let (clash, ways) = clash(&task);
        assert_eq!(clash.rules, [Rule::CornerGapLeast, Rule::SpacingLeast]);
        assert_eq!(
            (clash.least, clash.by),
            (Rule::SpacingLeast, Millimetres(30.0))
        );
        assert_eq!(ways[1].rule, Rule::CornerGapLeast);
        assert_eq!(ways[1].by, Millimetres(105.0));
    }

    #[test]
    fn many_slats_are_explained_in_bounded_steps_by_rules_none_of_which_can_go() {
        let mut task = task(4);
        let slat = |k: i32| area(f64::from(k * 18 - 280), f64::from(k * 18 - 278));
        task.no_drill = (0..32).map(slat).collect();
        let rules = task.rules();
        let mut steps = Steps(STEPS);
        let smallest = smallest_set(&task, &rules, &mut steps);
        assert!(!possible(&task, &smallest, None));
        for rule in &smallest {
            let without = smallest.iter().copied().filter(|r| r != rule);
            assert!(
                possible(&task, &without.collect::<Vec<_>>(), None),
                "{rule:?}"
            );
        }
        assert_eq!(clash(&task).0.rules, smallest);
    }

    #[test]
    fn a_search_whose_steps_end_still_finds_a_clash() {
        let mut task = task(4);
        task.no_drill = vec![area(-100.0, 300.0)];
        let rules = task.rules();
        for steps in 0..60 {
            let found = smallest_set(&task, &rules, &mut Steps(steps));
            assert_eq!(found, [Rule::Inner, Rule::NoDrill(0)], "{steps}");
        }
    }

    #[test]
    fn a_bumper_too_short_for_its_heads_names_the_spacing_alone() {
        let mut task = task(8);
        task.half_left = Millimetres(400.0);
        task.half_right = Millimetres(400.0);
        let (clash, ways) = clash(&task);
        assert_eq!(clash.rules, [Rule::SpacingLeast]);
        let said = NoPlan::Impossible { clash, ways }.messages(&task);
        assert_eq!(said[0].key, "mark-out-impossible-alone");
    }

    #[test]
    fn a_lock_inside_an_area_names_both() {
        let mut task = task(4);
        task.no_drill = vec![area(500.0, 560.0)];
        task.locks = vec![Lock {
            head: 3,
            at: Offset(560.0),
        }];
        let (clash, ways) = clash(&task);
        assert_eq!(clash.rules, [Rule::NoDrill(0), Rule::Locked(0)]);
        assert_eq!(clash.by, Millimetres(12.0));
        let moved = ways.iter().find(|w| w.rule == Rule::Locked(0)).unwrap();
        assert_eq!(moved.plan.marks[3], Offset(572.0));
    }

    #[test]
    fn two_clashes_at_once_have_no_single_way_out_and_say_so() {
        let mut task = task(4);
        task.no_drill = vec![area(-300.0, -1.0), area(1.0, 300.0)];
        task.limits.corner_gap_greatest = Millimetres(190.0);
        task.no_drill.push(area(610.0, 660.0));
        let (clash, ways) = clash(&task);
        assert_eq!(clash.enough, Enough::NotAlone);
        assert_eq!(ways, []);
        let said = NoPlan::Impossible { clash, ways }.messages(&task);
        assert_eq!(said[1].key, "mark-out-no-single-way");
    }

    #[test]
    fn every_answer_to_an_impossible_bumper_names_heads_and_millimetres() {
        fn has(message: &Message, name: &str) -> bool {
            message.args.iter().any(|(key, arg)| {
                *key == name
                    || match arg {
                        Arg::Message(inner) => has(inner, name),
                        Arg::List(all) => all.iter().any(|inner| has(inner, name)),
                        _ => false,
                    }
            })
        }
        let mut over_the_centre = task(4);
        over_the_centre.no_drill = vec![area(-270.0, 270.0)];
        let mut too_many = task(8);
        too_many.half_left = Millimetres(600.0);
        too_many.half_right = Millimetres(600.0);
        let mut locked = task(4);
        locked.no_drill = vec![area(500.0, 560.0)];
        locked.locks = vec![Lock {
            head: 3,
            at: Offset(560.0),
        }];
        let mut odd = task(5);
        odd.no_drill = vec![area(-60.0, 60.0)];
        let mut twice = task(4);
        twice.no_drill = vec![area(-300.0, -1.0), area(1.0, 300.0), area(610.0, 660.0)];
        twice.limits.corner_gap_greatest = Millimetres(190.0);
        for task in [over_the_centre, too_many, locked, odd, twice] {
            let (clash, ways) = clash(&task);
            for said in (NoPlan::Impossible { clash, ways }).messages(&task) {
                assert!(has(&said, "head"), "no head: {said:?}");
                assert!(has(&said, "by"), "no millimetres: {said:?}");
            }
        }
    }

    #[test]
    fn a_clash_names_only_the_heads_in_the_way() {
        let mut task = task(8);
        task.half_left = Millimetres(600.0);
        task.half_right = Millimetres(600.0);
        let (spaced, ways) = clash(&task);
        assert_eq!(spaced.heads(&task, &ways), [0, 1, 2, 3, 4, 5, 6, 7]);
        let corners = ways.iter().find(|w| w.rule == Rule::CornerGapLeast);
        let said = corners.unwrap().message(&task);
        assert!(
            said.args
                .contains(&("at".into(), Arg::Message(Box::new(at_heads(&[0, 7])))))
        );
    }
}
