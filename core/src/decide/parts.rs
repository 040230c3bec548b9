//! Parts used by a job and over all jobs, and a quote for the customer.

use serde::{Deserialize, Serialize};

use super::leads::{LeadChoice, LeadOf, LeadPlan};
use super::ring_set::RingSet;
use super::supply::Amperes;
use crate::kit::KitSheet;
use crate::text::{Message, msg};

/// A part that is taken from the shelf. `kit` is the name of its kit sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Part {
    /// The kit itself.
    Kit {
        /// Its sheet's name.
        kit: String,
    },
    /// A ring that the head does not come with.
    Ring {
        /// Its kit.
        kit: String,
        /// Its name.
        name: String,
    },
    /// An insert.
    Insert {
        /// Its kit.
        kit: String,
        /// Its name.
        name: String,
    },
    /// The extension of a lead.
    Extension {
        /// Its kit.
        kit: String,
        /// Which kind of lead.
        of: LeadKind,
    },
    /// The long variant of a lead.
    LongLead {
        /// Its kit.
        kit: String,
        /// Which kind of lead.
        of: LeadKind,
    },
    /// A fuse.
    Fuse(Amperes),
    /// Something else, in the fitter's words.
    Other(String),
}

/// Which kind of lead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LeadKind {
    /// Of a head.
    Head,
    /// Of the display.
    Display,
    /// Of the speaker.
    Speaker,
    /// Of the supply.
    Supply,
}

impl From<&LeadOf> for LeadKind {
    fn from(of: &LeadOf) -> Self {
        match of {
            LeadOf::Head(_) => Self::Head,
            LeadOf::Display => Self::Display,
            LeadOf::Speaker => Self::Speaker,
            LeadOf::Supply => Self::Supply,
        }
    }
}

impl LeadKind {
    fn message(self) -> Message {
        msg(match self {
            Self::Head => "part-lead-head",
            Self::Display => "part-lead-display",
            Self::Speaker => "part-lead-speaker",
            Self::Supply => "part-lead-supply",
        })
    }
}

impl Part {
    /// Its name on the list.
    #[must_use]
    pub fn message(&self) -> Message {
        let named = |key: &'static str, kit: &String, name: &String| {
            msg(key).text("kit", kit.clone()).text("name", name.clone())
        };
        match self {
            Self::Kit { kit } => msg("part-kit").text("kit", kit.clone()),
            Self::Ring { kit, name } => named("part-ring", kit, name),
            Self::Insert { kit, name } => named("part-insert", kit, name),
            Self::Extension { kit, of } => msg("part-extension")
                .text("kit", kit.clone())
                .message("of", of.message()),
            Self::LongLead { kit, of } => msg("part-long-lead")
                .text("kit", kit.clone())
                .message("of", of.message()),
            Self::Fuse(rating) => msg("part-fuse").number("rating", rating.0, 1),
            Self::Other(words) => msg("part-other").text("words", words.clone()),
        }
    }
}

/// So many of a part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartLine {
    /// The part.
    pub part: Part,
    /// How many.
    pub count: u32,
}

/// What a job takes from the shelf: the kit, rings beyond those that heads
/// come with, inserts, extensions and long leads.
#[must_use]
pub fn used(sheet: &KitSheet, sets: &[RingSet], leads: &[LeadPlan]) -> Vec<PartLine> {
    let kit = || sheet.name.clone();
    let mut lines = Vec::new();
    add(&mut lines, Part::Kit { kit: kit() }, 1);
    for set in sets {
        if sheet.heads.comes_with.as_ref() != Some(&set.ring) {
            let name = set.ring.clone();
            add(&mut lines, Part::Ring { kit: kit(), name }, 1);
        }
        if let Some(name) = set.insert.clone() {
            add(&mut lines, Part::Insert { kit: kit(), name }, 1);
        }
    }
    for lead in leads {
        let of = LeadKind::from(&lead.of);
        match lead.choice {
            LeadChoice::AsSupplied => {}
            LeadChoice::WithExtension => add(&mut lines, Part::Extension { kit: kit(), of }, 1),
            LeadChoice::Long => add(&mut lines, Part::LongLead { kit: kit(), of }, 1),
        }
    }
    lines
}

/// Adds to a list; the same part stands there once.
pub fn add(lines: &mut Vec<PartLine>, part: Part, count: u32) {
    match lines.iter_mut().find(|l| l.part == part) {
        Some(line) => line.count = line.count.saturating_add(count),
        None => lines.push(PartLine { part, count }),
    }
}

/// The restock list: what these jobs took together, in the order of first use.
#[must_use]
pub fn restock<'a>(jobs: impl Iterator<Item = &'a [PartLine]>) -> Vec<PartLine> {
    let mut sum = Vec::new();
    for line in jobs.flatten() {
        add(&mut sum, line.part.clone(), line.count);
    }
    sum
}

/// What is still to be bought: what was taken less what was bought again, in
/// the order of what was taken. More bought than taken leaves nothing.
#[must_use]
pub fn still_to_buy(taken: &[PartLine], bought: &[PartLine]) -> Vec<PartLine> {
    let had = |part: &Part| {
        let mut lines = bought.iter().filter(|line| line.part == *part);
        lines.next().map_or(0, |line| line.count)
    };
    let lines = taken.iter().map(|line| PartLine {
        part: line.part.clone(),
        count: line.count.saturating_sub(had(&line.part)),
    });
    lines.filter(|line| line.count > 0).collect()
}

/// An amount of money in hundredths of the workshop's currency.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Money(pub i64);

impl Money {
    /// Reads a typed amount: `12`, `12.5`, `12,50`; not below zero.
    #[must_use]
    pub fn typed(text: &str) -> Option<Self> {
        let plain = text.trim().replace(',', ".");
        let (whole, part) = plain.split_once('.').unwrap_or((&plain, ""));
        let digits = |s: &str| s.chars().all(|c| c.is_ascii_digit());
        if whole.is_empty() || !digits(whole) || !digits(part) || part.len() > 2 {
            return None;
        }
        let hundredths: i64 = format!("{part:0<2}").parse().ok()?;
        let whole: i64 = whole.parse().ok()?;
        Some(Self(whole.checked_mul(100)?.checked_add(hundredths)?))
    }

    /// Shown with two decimals.
    #[must_use]
    pub fn shown(self) -> String {
        let sign = if self.0 < 0 { "-" } else { "" };
        let size = self.0.unsigned_abs();
        format!("{sign}{}.{:02}", size / 100, size % 100)
    }
}

/// One line of a quote.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct QuoteLine {
    /// What it is.
    pub part: Part,
    /// How many.
    pub count: u32,
    /// Price of one, typed by the workshop.
    pub each: Money,
}

/// A survey quote: parts and time.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Quote {
    /// The parts.
    pub lines: Vec<QuoteLine>,
    /// Working time in minutes.
    pub minutes: u32,
    /// Price of an hour, typed by the workshop.
    pub an_hour: Money,
}

impl Quote {
    /// Price of the time; half a hundredth is rounded up.
    #[must_use]
    pub fn time(&self) -> Option<Money> {
        let by_minutes = self.an_hour.0.checked_mul(i64::from(self.minutes))?;
        Some(Money(by_minutes.checked_add(30)?.div_euclid(60)))
    }

    /// Parts and time together; `None` when the sum is larger than can be counted.
    #[must_use]
    pub fn total(&self) -> Option<Money> {
        let time = self.time()?;
        self.lines.iter().try_fold(time, |sum, line| {
            let price = line.each.0.checked_mul(i64::from(line.count))?;
            Some(Money(sum.0.checked_add(price)?))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::parse;
    use crate::units::Millimetres;

    const METAL: &str = include_str!("../../../assets/kits/metal-four.json");

    fn line(part: Part, count: u32) -> PartLine {
        PartLine { part, count }
    }

    fn long_lead() -> LeadPlan {
        LeadPlan {
            of: LeadOf::Head("1".to_owned()),
            choice: LeadChoice::Long,
            needs: Millimetres(4000.0),
            left_over: Millimetres(1200.0),
        }
    }

    #[test]
    fn a_job_takes_the_kit_and_what_its_heads_do_not_come_with() {
        let sheet = parse(METAL).unwrap();
        let kit = sheet.name.clone();
        let sets = [
            RingSet::with_insert("9", "flat"),
            RingSet::with_insert("2", "flat"),
            RingSet::ring("9"),
        ];
        let lines = used(&sheet, &sets, &[long_lead(), long_lead()]);
        let name = |s: &str| s.to_owned();
        let wanted = [
            line(Part::Kit { kit: kit.clone() }, 1),
            line(
                Part::Ring {
                    kit: kit.clone(),
                    name: name("9"),
                },
                2,
            ),
            line(
                Part::Insert {
                    kit: kit.clone(),
                    name: name("flat"),
                },
                2,
            ),
            line(
                Part::LongLead {
                    kit,
                    of: LeadKind::Head,
                },
                2,
            ),
        ];
        assert_eq!(lines, wanted);
        let twice = restock([lines.as_slice(), lines.as_slice()].into_iter());
        let counts: Vec<u32> = twice.iter().map(|l| l.count).collect();
        assert_eq!(counts, [2, 4, 4, 4]);
    }

    #[test]
    fn what_was_bought_again_is_off_the_list_by_part_and_by_count() {
        let fuse = |count| line(Part::Fuse(Amperes(2.0)), count);
        let other = |count| line(Part::Other("grommet".to_owned()), count);
        let taken = [fuse(5), other(1)];
        assert_eq!(still_to_buy(&taken, &[]), taken);
        let bought = [fuse(3), other(2)];
        assert_eq!(still_to_buy(&taken, &bought), [fuse(2)]);
        assert_eq!(still_to_buy(&taken, &taken), []);
    }

    #[test]
    fn amounts_are_read_as_they_are_typed_and_nothing_else() {
        let read = |s| Money::typed(s).map(|m| m.0);
        assert_eq!(read("12"), Some(1200));
        assert_eq!(read(" 12,5 "), Some(1250));
        assert_eq!(read("12.05"), Some(1205));
        for wrong in [
            "",
            "-3",
            "1.234",
            "1,2,3",
            "x",
            ".5",
            "99999999999999999999",
        ] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
        assert_eq!(Money(1205).shown(), "12.05");
    }

    #[test]
    fn a_quote_adds_parts_and_time() {
        let quote = Quote {
            lines: vec![
                QuoteLine {
                    part: Part::Fuse(Amperes(2.0)),
                    count: 3,
                    each: Money(145),
                },
                QuoteLine {
                    part: Part::Other("grommet".to_owned()),
                    count: 1,
                    each: Money(310),
                },
            ],
            minutes: 100,
            an_hour: Money(7210),
        };
        // 72.10 an hour for 100 minutes is 120.1666...
        assert_eq!(quote.time(), Some(Money(12_017)));
        assert_eq!(quote.total(), Some(Money(435 + 310 + 12_017)));
    }

    #[test]
    fn a_sum_too_large_to_count_is_none() {
        let quote = Quote {
            lines: Vec::new(),
            minutes: u32::MAX,
            an_hour: Money(i64::MAX),
        };
        assert_eq!(quote.total(), None);
    }
}
