//! What the finished ones of earlier jobs took.

use super::lesson::Lesson;
use crate::decide::parts::{Part, PartLine};
use crate::job::{Amount, Took};
use crate::order;

/// Whether a middle between two figures goes up or down.
#[derive(Clone, Copy)]
enum Middle {
    Down,
    /// Half a part has to be bought whole.
    Up,
}

fn amount(mut all: Vec<u32>, middle: Middle) -> Option<Amount> {
    order::sort_by_key(&mut all, |one| *one);
    let (least, greatest) = (*all.first()?, *all.last()?);
    let half = all.len() / 2;
    let upper = *all.get(half)?;
    let median = if all.len() % 2 == 1 {
        upper
    } else {
        let lower = *all.get(half - 1)?;
        match middle {
            Middle::Down => u32::midpoint(lower, upper),
            Middle::Up => lower + (upper - lower).div_ceil(2),
        }
    };
    Some(Amount {
        median,
        least,
        greatest,
        jobs: u16::try_from(all.len()).unwrap_or(u16::MAX),
    })
}

/// Minutes and parts of these jobs. A job in work took less than it will, so
/// that only finished ones count; parts only of the best one's kit. Kit and
/// fuse are the same for all and left out.
pub(super) fn took(best: &Lesson, alike: &[&Lesson]) -> Took {
    let finished: Vec<&Lesson> = alike.iter().copied().filter(|l| l.is_finished()).collect();
    let minutes = finished.iter().filter_map(|lesson| lesson.minutes);
    let same_kit: Vec<&Lesson> = finished
        .iter()
        .copied()
        .filter(|lesson| lesson.kit.name == best.kit.name)
        .collect();
    let mut known: Vec<&Part> = Vec::new();
    for line in same_kit.iter().flat_map(|lesson| &lesson.parts) {
        let told = matches!(line.part, Part::Kit { .. } | Part::Fuse(_));
        if !told && !known.contains(&&line.part) && known.len() < MOST_PARTS {
            known.push(&line.part);
        }
    }
    let of = |part: &Part| {
        let took = |lesson: &&Lesson| {
            let line = lesson.parts.iter().find(|line| line.part == *part);
            line.map_or(0, |line| line.count)
        };
        amount(same_kit.iter().map(took).collect(), Middle::Up)
    };
    Took {
        minutes: amount(minutes.collect(), Middle::Down),
        parts: known
            .into_iter()
            .filter_map(|part| Some((part.clone(), of(part)?)))
            .collect(),
    }
}

/// Most kinds of parts that are told.
const MOST_PARTS: usize = 60;

/// Parts beyond those of the kit, as many as half of the jobs took.
pub(super) fn extra(took: &Took) -> Vec<PartLine> {
    let lines = took.parts.iter().filter_map(|(part, amount)| {
        let wanted = matches!(part, Part::Other(_)) && amount.median > 0;
        wanted.then(|| PartLine {
            part: part.clone(),
            count: amount.median,
        })
    });
    lines.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_two_parts_goes_up_and_of_minutes_down() {
        let median = |all: &[u32], middle| amount(all.to_vec(), middle).unwrap().median;
        assert_eq!(median(&[3, 0, 2], Middle::Up), 2);
        assert_eq!(median(&[1, 2], Middle::Up), 2);
        assert_eq!(median(&[101, 120], Middle::Down), 110);
        assert_eq!(amount(Vec::new(), Middle::Up), None);
    }
}
