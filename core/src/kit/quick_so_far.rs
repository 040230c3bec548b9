//! What is wrong with a quick sheet that is half typed.

use super::draft::number;
use super::{QuickField, QuickSheet};
use crate::text::Message;

impl QuickSheet {
    /// Fields that contradict each other, while they are typed: an empty one
    /// is not yet wrong, and stands in the way of none.
    #[must_use]
    pub fn contradictions(&self) -> Vec<(QuickField, Message)> {
        let mut whole = self.clone();
        let aims = [
            QuickField::LeastAim,
            QuickField::GreatestAim,
            QuickField::TargetAim,
        ];
        let given = || aims.iter().filter_map(|field| number(self.get(*field)));
        let least = given().reduce(f64::min).unwrap_or(0.0);
        let greatest = given().reduce(f64::max).unwrap_or(1.0);
        let stand_ins = [
            (QuickField::Name, "x".to_owned()),
            (QuickField::Labels, "1".to_owned()),
            (QuickField::Hole, "20".to_owned()),
            (QuickField::Rings, "1".to_owned()),
            (QuickField::Inner, "300".to_owned()),
            (QuickField::CornerGap, "200".to_owned()),
            (QuickField::LeastAim, least.to_string()),
            (QuickField::GreatestAim, greatest.to_string()),
            (QuickField::TargetAim, least.to_string()),
        ];
        for (field, typed) in stand_ins {
            if self.get(field).trim().is_empty() {
                whole.set(field, typed);
            }
        }
        let mut faults = whole.sheet().err().unwrap_or_default();
        faults.retain(|(field, _)| !self.get(*field).trim().is_empty());
        faults
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_contradiction_is_told_before_the_sheet_is_whole() {
        let mut quick = QuickSheet::default();
        assert_eq!(quick.contradictions(), []);
        quick.set(QuickField::LeastAim, "9");
        quick.set(QuickField::TargetAim, "9");
        quick.set(QuickField::Depth, "17");
        assert_eq!(quick.contradictions(), []);
        quick.set(QuickField::GreatestAim, "4");
        let found = quick.contradictions();
        assert!(!found.is_empty());
        for (field, why) in found {
            let aims = [
                QuickField::LeastAim,
                QuickField::GreatestAim,
                QuickField::TargetAim,
            ];
            assert!(aims.contains(&field), "{field:?}: {why:?}");
        }
        quick.set(QuickField::GreatestAim, "12");
        assert_eq!(quick.contradictions(), []);
    }
}
