//! Voltage lost in a lead, and what arrives.

use serde::{Deserialize, Serialize};

use super::{Amperes, Celsius, System, Volts};
use crate::kit::KitSheet;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Cross-section of a flexible copper lead.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum CrossSection {
    /// 0.5 mm².
    Mm2_0_5,
    /// 0.75 mm².
    Mm2_0_75,
    /// 1 mm².
    Mm2_1,
    /// 1.5 mm².
    Mm2_1_5,
    /// 2.5 mm².
    Mm2_2_5,
}

/// Temperature coefficient of copper's resistance, 1/K at 20 °C.
pub const COPPER_PER_KELVIN: f64 = 0.003_93;

impl CrossSection {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Mm2_0_5,
        Self::Mm2_0_75,
        Self::Mm2_1,
        Self::Mm2_1_5,
        Self::Mm2_2_5,
    ];

    /// Area in mm².
    #[must_use]
    pub fn square_millimetres(self) -> f64 {
        match self {
            Self::Mm2_0_5 => 0.5,
            Self::Mm2_0_75 => 0.75,
            Self::Mm2_1 => 1.0,
            Self::Mm2_1_5 => 1.5,
            Self::Mm2_2_5 => 2.5,
        }
    }

    /// Greatest resistance in milliohms a metre: IEC 60228, class 5, plain
    /// copper at 20 °C, brought to a temperature with [`COPPER_PER_KELVIN`].
    #[must_use]
    pub fn milliohms_a_metre(self, at: Celsius) -> f64 {
        let at_20 = match self {
            Self::Mm2_0_5 => 39.0,
            Self::Mm2_0_75 => 26.0,
            Self::Mm2_1 => 19.5,
            Self::Mm2_1_5 => 13.3,
            Self::Mm2_2_5 => 7.98,
        };
        at_20 * (1.0 + COPPER_PER_KELVIN * (at.0 - 20.0))
    }
}

/// Voltage lost in a lead; `there_and_back` is the whole loop, feed and earth.
#[must_use]
pub fn voltage_drop(
    lead: CrossSection,
    there_and_back: Millimetres,
    current: Amperes,
    at: Celsius,
) -> Volts {
    let ohms = lead.milliohms_a_metre(at) / 1000.0 * (there_and_back.0 / 1000.0);
    Volts(ohms * current.0)
}

/// Whether enough voltage arrives at the control box with reverse on.
/// `None` when it does, or when the sheet does not say what it needs.
#[must_use]
pub fn arrives_too_low(sheet: &KitSheet, reverse_on: Volts, drop: Volts) -> Option<Message> {
    let least = sheet.supply.as_ref().and_then(|s| s.least_volts)?;
    let arrives = reverse_on.0 - drop.0;
    (arrives < least).then(|| {
        msg("supply-arrives-too-low")
            .number("arrives", arrives, 2)
            .number("least", least, 2)
            .number("drop", drop.0, 2)
    })
}

/// Whether the take-off gives more than the kit takes. `None` when it does
/// not, or when the sheet does not say what the kit takes.
#[must_use]
pub fn too_high_for_kit(sheet: &KitSheet, reverse_on: Volts) -> Option<Message> {
    let greatest = sheet.supply.as_ref().and_then(|s| s.greatest_volts)?;
    (reverse_on.0 > greatest).then(|| {
        msg("supply-too-high-for-kit")
            .number("typed", reverse_on.0, 2)
            .number("greatest", greatest, 2)
            .number("by", reverse_on.0 - greatest, 2)
    })
}

/// Whether the kit is made for another supply than the vehicle's, before
/// anything is read. `None` when it fits, or when the sheet does not say.
#[must_use]
pub fn kit_not_for(sheet: &KitSheet, system: System) -> Option<Message> {
    let needs = sheet.supply.as_ref()?;
    let told = |key: &'static str, limit: f64| {
        msg(key)
            .number("nominal", system.nominal().0, 0)
            .number("limit", limit, 1)
    };
    match (needs.least_volts, needs.greatest_volts) {
        (_, Some(greatest)) if greatest < system.nominal().0 => {
            Some(told("supply-kit-takes-less", greatest))
        }
        (Some(least), _) if least > system.limits().on_greatest.0 => {
            Some(told("supply-kit-needs-more", least))
        }
        _ => None,
    }
}
