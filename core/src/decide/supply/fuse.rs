//! The fuse at the take-off: required.

use serde::{Deserialize, Serialize};

use super::Amperes;
use crate::kit::KitSheet;
use crate::text::{Message, msg};

/// Fuse at the take-off where the sheet gives none (our own figure).
pub const DEFAULT_FUSE: Amperes = Amperes(3.0);

/// Ratings of blade fuses in amperes (ISO 8820-3, from memory).
const BLADE_FUSES: [f64; 11] = [1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0];

/// A steady current is at most this share of a fuse's rating (common practice,
/// no source).
const STEADY_SHARE: f64 = 0.75;

/// Where a fuse rating comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RatingFrom {
    /// The kit sheet.
    Sheet,
    /// The sheet gives the current only: the next blade fuse that bears it.
    Current,
    /// The sheet gives neither: our stated default.
    Default,
}

/// The fuse at the take-off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fuse {
    /// Its rating.
    pub rating: Amperes,
    /// Where the rating comes from.
    pub from: RatingFrom,
}

/// The fuse that belongs at the take-off.
#[must_use]
pub fn fuse(sheet: &KitSheet) -> Fuse {
    let supply = sheet.supply.as_ref();
    let by_sheet = supply.and_then(|s| s.fuse_amperes);
    let bears = |current: f64| {
        let enough = |fuse: &f64| current <= fuse * STEADY_SHARE;
        let from_default = BLADE_FUSES.into_iter().filter(|f| *f >= DEFAULT_FUSE.0);
        from_default.into_iter().find(enough)
    };
    let by_current = supply.and_then(|s| s.amperes).and_then(bears);
    let (rating, from) = match (by_sheet, by_current) {
        (Some(amperes), _) => (Amperes(amperes), RatingFrom::Sheet),
        (None, Some(amperes)) => (Amperes(amperes), RatingFrom::Current),
        (None, None) => (DEFAULT_FUSE, RatingFrom::Default),
    };
    Fuse { rating, from }
}

/// The kit's current, where a fuse of that rating blows at it.
fn blows_at(sheet: &KitSheet, fitted: Amperes) -> Option<f64> {
    let current = sheet.supply.as_ref().and_then(|s| s.amperes)?;
    (fitted.0 < current).then_some(current)
}

/// The fitter's answer about the fuse.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum FuseAnswer {
    /// Fitted at the take-off, of that rating.
    FittedAtTakeOff(Amperes),
    /// Not fitted.
    NotFitted,
}

/// Why the supply is not done: the fuse cannot be skipped.
#[must_use]
pub fn fuse_missing(sheet: &KitSheet, answer: FuseAnswer) -> Option<Message> {
    let wanted = fuse(sheet);
    let told = |key: &'static str| msg(key).number("rating", wanted.rating.0, 1);
    match answer {
        FuseAnswer::NotFitted => Some(told("supply-fuse-required")),
        FuseAnswer::FittedAtTakeOff(fitted) if fitted.0.is_nan() || fitted.0 <= 0.0 => {
            Some(told("supply-fuse-required"))
        }
        FuseAnswer::FittedAtTakeOff(fitted) if fitted > wanted.rating => {
            Some(told("supply-fuse-too-large").number("fitted", fitted.0, 1))
        }
        FuseAnswer::FittedAtTakeOff(fitted) => blows_at(sheet, fitted).map(|current| {
            told("supply-fuse-too-small")
                .number("fitted", fitted.0, 1)
                .number("current", current, 1)
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::supply::{
        LampCircuit, System, Volts, arrives_too_low, kit_not_for, too_high_for_kit,
    };
    use crate::kit::parse;

    const PLAIN: &str = include_str!("../../../../assets/kits/plain-four.json");

    #[test]
    fn the_fuse_cannot_be_skipped_and_not_be_larger() {
        let sheet = parse(PLAIN).unwrap();
        let key = |answer| fuse_missing(&sheet, answer).map(|m| m.key.into_owned());
        let fitted = |a| FuseAnswer::FittedAtTakeOff(Amperes(a));
        assert_eq!(
            key(FuseAnswer::NotFitted).as_deref(),
            Some("supply-fuse-required")
        );
        assert_eq!(key(fitted(0.0)).as_deref(), Some("supply-fuse-required"));
        assert_eq!(
            key(fitted(f64::NAN)).as_deref(),
            Some("supply-fuse-required")
        );
        assert_eq!(key(fitted(5.0)).as_deref(), Some("supply-fuse-too-large"));
        assert_eq!(key(fitted(2.0)), None);
    }

    #[test]
    fn a_sheet_without_a_rating_falls_back_on_the_stated_default() {
        let mut sheet = parse(PLAIN).unwrap();
        assert_eq!(fuse(&sheet).from, RatingFrom::Sheet);
        sheet.supply = None;
        let wanted = Fuse {
            rating: DEFAULT_FUSE,
            from: RatingFrom::Default,
        };
        assert_eq!(fuse(&sheet), wanted);
    }

    #[test]
    fn a_sheet_with_a_current_alone_gets_the_next_fuse_that_bears_it() {
        let mut sheet = parse(PLAIN).unwrap();
        let mut rating = |current| {
            let supply = sheet.supply.as_mut().unwrap();
            (supply.amperes, supply.fuse_amperes) = (Some(current), None);
            let fuse = fuse(&sheet);
            (fuse.rating.0, fuse.from)
        };
        assert_eq!(rating(0.4), (3.0, RatingFrom::Current));
        assert_eq!(rating(2.25), (3.0, RatingFrom::Current));
        assert_eq!(rating(2.3), (4.0, RatingFrom::Current));
        assert_eq!(rating(5.0), (7.5, RatingFrom::Current));
        assert_eq!(rating(40.0), (DEFAULT_FUSE.0, RatingFrom::Default));
    }

    #[test]
    fn a_fuse_that_blows_at_the_kits_own_current_is_refused() {
        let mut sheet = parse(PLAIN).unwrap();
        let supply = sheet.supply.as_mut().unwrap();
        (supply.amperes, supply.fuse_amperes) = (Some(1.5), Some(3.0));
        let told = fuse_missing(&sheet, FuseAnswer::FittedAtTakeOff(Amperes(1.0))).unwrap();
        let wanted = msg("supply-fuse-too-small")
            .number("rating", 3.0, 1)
            .number("fitted", 1.0, 1)
            .number("current", 1.5, 1);
        assert_eq!(told, wanted);
        let same = FuseAnswer::FittedAtTakeOff(Amperes(1.5));
        assert_eq!(fuse_missing(&sheet, same), None);
    }

    #[test]
    fn only_a_plain_lamp_feed_needs_no_word() {
        assert_eq!(LampCircuit::Plain.message(), None);
        for circuit in [
            LampCircuit::Pulsed,
            LampCircuit::Led,
            LampCircuit::BusControlled,
            LampCircuit::NotKnown,
        ] {
            assert!(circuit.message().is_some(), "{circuit:?}");
        }
    }

    #[test]
    fn what_arrives_is_what_is_read_less_what_is_lost() {
        let sheet = parse(PLAIN).unwrap();
        assert_eq!(arrives_too_low(&sheet, Volts(12.0), Volts(0.4)), None);
        let message = arrives_too_low(&sheet, Volts(10.2), Volts(0.4)).unwrap();
        assert_eq!(message.key, "supply-arrives-too-low");
    }

    #[test]
    fn more_than_the_kit_takes_is_said_by_how_much() {
        let mut sheet = parse(PLAIN).unwrap();
        assert_eq!(too_high_for_kit(&sheet, Volts(16.0)), None);
        let wanted = crate::text::msg("supply-too-high-for-kit")
            .number("typed", 27.4, 2)
            .number("greatest", 16.0, 2)
            .number("by", 27.4 - 16.0, 2);
        assert_eq!(too_high_for_kit(&sheet, Volts(27.4)), Some(wanted));
        sheet.supply = None;
        assert_eq!(too_high_for_kit(&sheet, Volts(27.4)), None);
    }

    #[test]
    fn a_kit_of_another_supply_is_told_as_soon_as_the_vehicles_is_chosen() {
        let key = |least, greatest, system| {
            let mut sheet = parse(PLAIN).unwrap();
            let supply = sheet.supply.as_mut().unwrap();
            (supply.least_volts, supply.greatest_volts) = (least, greatest);
            kit_not_for(&sheet, system).map(|m| m.key.into_owned())
        };
        let (low, both, high) = (
            (Some(10.0), Some(16.0)),
            (Some(10.0), Some(30.0)),
            (Some(20.0), Some(32.0)),
        );
        let (twelve, twenty_four) = (System::Twelve, System::TwentyFour);
        assert_eq!(key(low.0, low.1, twelve), None);
        let takes_less = key(low.0, low.1, twenty_four);
        assert_eq!(takes_less.as_deref(), Some("supply-kit-takes-less"));
        assert_eq!(key(both.0, both.1, twenty_four), None);
        assert_eq!(key(high.0, high.1, twenty_four), None);
        let needs_more = key(high.0, high.1, twelve);
        assert_eq!(needs_more.as_deref(), Some("supply-kit-needs-more"));
        assert_eq!(key(None, None, twenty_four), None);
    }
}
