//! Tape on the marks: what is read back before drilling, against the plan.

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// What is read at one mark; `None` where nothing was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct TapeReading {
    /// From the centre line, straight, + to the right.
    pub at: Option<Offset>,
    /// From the line that runs true across: + up, - down.
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

/// Checks tape readings, one a head from left to right, against the
/// planned marks. `height` is the planned measure from the line, + up and
/// - down, where one is planned. Readings along the face are made straight before.
#[must_use]
pub fn tape_check(
    planned: &[Offset],
    height: Option<Millimetres>,
    readings: &[TapeReading],
    limits: &TapeLimits,
) -> TapeCheck {
    let n = planned.len();
    let at: Vec<Option<f64>> = (0..n)
        .map(|k| {
            let at = readings.get(k).and_then(|r| r.at);
            at.map(|o| o.0).filter(|x| x.is_finite())
        })
        .collect();
    let goal = planned;
    let planned: Vec<f64> = goal.iter().map(|o| o.0).collect();
    let marks: Vec<MarkCheck> = (0..n)
        .map(|head| mark_check(&planned, head, at[head], limits))
        .collect();
    let off: Vec<Option<f64>> = (0..n).map(|k| at[k].map(|x| x - planned[k])).collect();
    let both = |(a, b): (usize, usize)| Some((off[a]?, off[b]?));
    let gaps = (1..n).map(|k| (k - 1, k));
    let gap = greatest_pair(gaps.filter_map(|pair| Some((pair, both(pair)?))), |a, b| {
        b - a
    });
    // The middle one of an odd number has no other side.
    let sides = (0..n / 2).map(|k| (k, n - 1 - k));
    let side = greatest_pair(
        sides.filter_map(|pair| Some((pair, both(pair)?))),
        |a, b| a + b,
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
        .filter_map(|m| m.message(goal, at[m.head], limits))
        .collect();
    let mut limit = |key, pair: Option<PairOff>, most: Millimetres| {
        if let Some(pair) = pair.filter(|pair| pair.off > most.0) {
            let heads = msg(key)
                .count("head", pair.heads.0 as i64 + 1)
                .count("other_head", pair.heads.1 as i64 + 1);
            against.push(heads.number("by", pair.off, 1).number("limit", most.0, 1));
        }
    };
    limit("tape-gap-off", gap, limits.gap);
    limit("tape-symmetry-off", side, limits.symmetry);
    if let Some(planned) = height {
        let faults = (0..n).filter_map(|k| level_fault(k, heights[k], planned.0, limits));
        against.extend(faults);
    }
    TapeCheck {
        marks,
        evenness: gap.map(|pair| Millimetres(pair.off)),
        symmetry: side.map(|pair| Millimetres(pair.off)),
        level,
        limits: *limits,
        verdict: if against.is_empty() {
            TapeVerdict::Ready
        } else {
            TapeVerdict::NotReady(against)
        },
    }
}

/// What stands against the height of a mark, if anything.
fn level_fault(
    head: usize,
    read: Option<f64>,
    planned: f64,
    limits: &TapeLimits,
) -> Option<Message> {
    let said = |key| msg(key).count("head", head as i64 + 1);
    let Some(read) = read else {
        return Some(said("tape-height-not-read"));
    };
    let error = read - planned;
    if error.abs() <= limits.level.0 {
        return None;
    }
    if (read + planned).abs() <= limits.level.0 {
        let other_side = said("tape-level-other-side").number("read", read, 1);
        return Some(other_side.number("planned", planned, 1));
    }
    let key = if error > 0.0 {
        "tape-level-too-high"
    } else {
        "tape-level-too-low"
    };
    let off = said(key).number("by", error.abs(), 1);
    Some(off.number("limit", limits.level.0, 1))
}

impl TapeCheck {
    /// Evenness, left against right and height, each as far off as it was
    /// found beside its limit; what was not read yet is left out.
    #[must_use]
    pub fn reached(&self) -> Vec<Message> {
        let all = [
            ("tape-gap-is", self.evenness, self.limits.gap),
            ("tape-symmetry-is", self.symmetry, self.limits.symmetry),
            ("tape-level-is", self.level, self.limits.level),
        ];
        let said = |(key, off, most): (&'static str, Option<Millimetres>, Millimetres)| {
            let words = msg(key).number("by", off?.0, 1);
            Some(words.number("limit", most.0, 1))
        };
        all.into_iter().filter_map(said).collect()
    }
}

/// Two heads and how far off they are together, mm.
#[derive(Clone, Copy)]
struct PairOff {
    heads: (usize, usize),
    off: f64,
}

/// The first pair that is off most.
fn greatest_pair(
    pairs: impl Iterator<Item = ((usize, usize), (f64, f64))>,
    together: impl Fn(f64, f64) -> f64,
) -> Option<PairOff> {
    let off = |(heads, (a, b))| PairOff {
        heads,
        off: together(a, b).abs(),
    };
    pairs
        .map(off)
        .reduce(|a, b| if b.off > a.off { b } else { a })
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
    fn message(&self, goal: &[Offset], at: Option<f64>, limits: &TapeLimits) -> Option<Message> {
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
                    .count("other_head", other as i64 + 1)
                    .mm("planned", goal.get(other).map_or(0.0, |o| o.0)),
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Plan;
    use super::super::samples::task;
    use super::super::solve;
    use super::*;

    /// Marks at -639, -213, 213, 639.
    fn plan() -> Plan {
        solve(&task(4)).unwrap().symmetric
    }

    fn read(at: &[f64]) -> Vec<TapeReading> {
        let one = |&x: &f64| TapeReading {
            at: x.is_finite().then_some(Offset(x)),
            from_line: None,
        };
        at.iter().map(one).collect()
    }

    fn check(at: &[f64]) -> TapeCheck {
        tape_check(&plan().marks, None, &read(at), &TapeLimits::default())
    }

    fn verdicts(check: &TapeCheck) -> Vec<MarkVerdict> {
        check.marks.iter().map(|m| m.verdict).collect()
    }

    #[test]
    fn readings_within_the_limits_are_ready() {
        let check = check(&[-640.0, -213.0, 214.5, 638.5]);
        assert_eq!(check.verdict, TapeVerdict::Ready);
        let errors: Vec<f64> = check
            .marks
            .iter()
            .filter_map(|m| Some(m.error?.0))
            .collect();
        assert_eq!(errors, [-1.0, 0.0, 1.5, -0.5]);
        assert_eq!(check.evenness, Some(Millimetres(2.0)));
        assert_eq!(check.symmetry, Some(Millimetres(1.5)));
    }

    #[test]
    fn a_mark_too_far_left_says_by_how_much_and_the_limit() {
        let check = check(&[-639.0, -217.0, 213.0, 639.0]);
        let want = vec![
            msg("tape-mark-too-far-left")
                .count("head", 2)
                .number("by", 4.0, 1)
                .number("limit", 2.0, 1),
            msg("tape-gap-off")
                .count("head", 1)
                .count("other_head", 2)
                .number("by", 4.0, 1)
                .number("limit", 3.0, 1),
            msg("tape-symmetry-off")
                .count("head", 2)
                .count("other_head", 3)
                .number("by", 4.0, 1)
                .number("limit", 3.0, 1),
        ];
        assert_eq!(check.verdict, TapeVerdict::NotReady(want));
    }

    #[test]
    fn small_errors_that_add_up_still_show_in_gap_and_symmetry() {
        let check = check(&[-639.0, -211.0, 215.0, 639.0]);
        assert_eq!(verdicts(&check), [MarkVerdict::Good; 4]);
        assert_eq!(check.symmetry, Some(Millimetres(4.0)));
        assert!(matches!(check.verdict, TapeVerdict::NotReady(said) if said.len() == 1));
    }

    #[test]
    fn a_gap_that_is_off_names_both_heads_though_each_is_good() {
        let check = check(&[-639.0, -213.0, 211.0, 641.0]);
        assert_eq!(verdicts(&check), [MarkVerdict::Good; 4]);
        let want = msg("tape-gap-off")
            .count("head", 3)
            .count("other_head", 4)
            .number("by", 4.0, 1)
            .number("limit", 3.0, 1);
        assert_eq!(check.verdict, TapeVerdict::NotReady(vec![want]));
    }

    #[test]
    fn a_reading_of_another_mark_names_that_mark() {
        let check = check(&[-639.0, 214.0, 213.0, 639.0]);
        assert_eq!(verdicts(&check)[1], MarkVerdict::FitsOther(2));
        let TapeVerdict::NotReady(said) = check.verdict else {
            panic!("ready with a mark missing");
        };
        let want = msg("tape-fits-other")
            .count("head", 2)
            .number("read", 214.0, 1)
            .count("other_head", 3)
            .mm("planned", 213.0);
        assert_eq!(said[0], want);
    }

    #[test]
    fn a_mark_not_read_is_not_ready() {
        let check = check(&[-639.0, f64::NAN, 213.0]);
        let want = vec![
            msg("tape-mark-not-read").count("head", 2),
            msg("tape-mark-not-read").count("head", 4),
        ];
        assert_eq!(check.verdict, TapeVerdict::NotReady(want));
        assert_eq!(check.evenness, None);
        assert_eq!(check.symmetry, None);
    }

    #[test]
    fn a_planned_height_is_checked_at_every_mark() {
        let mut readings = read(&[-639.0, -213.0, 213.0, 639.0]);
        for (reading, height) in readings.iter_mut().zip([85.0, 84.0, 88.0]) {
            reading.from_line = Some(Millimetres(height));
        }
        let limits = TapeLimits::default();
        let check = tape_check(&plan().marks, Some(Millimetres(85.0)), &readings, &limits);
        assert_eq!(check.level, Some(Millimetres(3.0)));
        let want = vec![
            msg("tape-level-too-high")
                .count("head", 3)
                .number("by", 3.0, 1)
                .number("limit", 2.0, 1),
            msg("tape-height-not-read").count("head", 4),
        ];
        assert_eq!(check.verdict, TapeVerdict::NotReady(want));
    }

    #[test]
    fn a_height_above_the_line_never_passes_for_one_below() {
        let mut readings = read(&[-639.0, -213.0, 213.0, 639.0]);
        for (reading, height) in readings.iter_mut().zip([-70.0, -71.0, 70.0, -73.0]) {
            reading.from_line = Some(Millimetres(height));
        }
        let limits = TapeLimits::default();
        let check = tape_check(&plan().marks, Some(Millimetres(-70.0)), &readings, &limits);
        assert_eq!(check.level, Some(Millimetres(140.0)));
        let want = vec![
            msg("tape-level-other-side")
                .count("head", 3)
                .number("read", 70.0, 1)
                .number("planned", -70.0, 1),
            msg("tape-level-too-low")
                .count("head", 4)
                .number("by", 3.0, 1)
                .number("limit", 2.0, 1),
        ];
        assert_eq!(check.verdict, TapeVerdict::NotReady(want));
    }

    #[test]
    fn the_middle_head_of_an_odd_number_is_no_pair() {
        let planned = solve(&task(3)).unwrap().symmetric.marks;
        let mut at: Vec<f64> = planned.iter().map(|mark| mark.0).collect();
        at[1] += 1.8;
        let check = tape_check(&planned, None, &read(&at), &TapeLimits::default());
        assert_eq!(check.symmetry, Some(Millimetres(0.0)));
        assert_eq!(check.verdict, TapeVerdict::Ready);
    }

    #[test]
    fn what_was_reached_stands_beside_its_limit() {
        let said = check(&[-640.0, -213.0, 214.5, 638.5]).reached();
        let want = [
            msg("tape-gap-is")
                .number("by", 2.0, 1)
                .number("limit", 3.0, 1),
            msg("tape-symmetry-is")
                .number("by", 1.5, 1)
                .number("limit", 3.0, 1),
        ];
        assert_eq!(said, want);
    }
}
