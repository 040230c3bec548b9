//! Air of the day: speed of sound and absorption.
//!
//! Source of both: ISO 9613-1:1993, Acoustics, attenuation of sound during
//! propagation outdoors, part 1 (absorption by the atmosphere). Its stated
//! accuracy is ±10 %; at ultrasonic frequencies the same formula is used
//! outside its printed table.

use serde::{Deserialize, Serialize};

use crate::figure;
use crate::text::{Message, msg};

/// Coldest air that a prediction is made for, °C (ours: colder than anyone
/// fits in, and as far as heads are usually rated).
pub const CELSIUS_LEAST: f64 = -40.0;
/// Warmest air that a prediction is made for, °C (ours).
pub const CELSIUS_GREATEST: f64 = 60.0;
/// Least relative humidity, %: outdoor air is never drier.
pub const HUMIDITY_LEAST: f64 = 1.0;
/// Greatest relative humidity, %.
pub const HUMIDITY_GREATEST: f64 = 100.0;
/// Least air pressure, hPa: about 5,500 m above the sea.
pub const HECTOPASCALS_LEAST: f64 = 500.0;
/// Greatest air pressure, hPa: more than was ever measured at the sea.
pub const HECTOPASCALS_GREATEST: f64 = 1100.0;

/// Reference temperature T0, kelvin (ISO 9613-1).
const T0: f64 = 293.15;
/// Triple point of water, kelvin.
const TRIPLE: f64 = 273.16;
/// 0 °C in kelvin.
const ZERO_CELSIUS: f64 = 273.15;
/// Reference pressure, hPa.
const P_REFERENCE: f64 = 1013.25;
/// Speed of sound at T0, m/s (ISO 9613-1).
const C0: f64 = 343.2;

/// Temperature of the air in °C, inside [`CELSIUS_LEAST`] to [`CELSIUS_GREATEST`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Celsius(f64);

/// Relative humidity in %, inside [`HUMIDITY_LEAST`] to [`HUMIDITY_GREATEST`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Humidity(f64);

/// Air pressure in hPa, inside [`HECTOPASCALS_LEAST`] to [`HECTOPASCALS_GREATEST`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Hectopascals(f64);

macro_rules! bounded {
    ($name:ident, $least:expr, $greatest:expr, $outside:literal) => {
        impl $name {
            /// A figure inside the bounds.
            ///
            /// # Errors
            /// A message with the bounds and by how much it is outside.
            pub fn new(value: f64) -> Result<Self, Message> {
                if ($least..=$greatest).contains(&value) {
                    return Ok(Self(value));
                }
                let by = if value < $least {
                    $least - value
                } else {
                    value - $greatest
                };
                let plain = msg($outside)
                    .number("typed", value, 1)
                    .number("least", $least, 0)
                    .number("greatest", $greatest, 0)
                    .number("by", if by.is_finite() { by } else { 0.0 }, 1);
                Err(plain)
            }

            /// The figure.
            #[must_use]
            pub fn get(self) -> f64 {
                self.0
            }
        }

        impl TryFrom<f64> for $name {
            type Error = &'static str;
            fn try_from(value: f64) -> Result<Self, Self::Error> {
                Self::new(value).map_err(|_| $outside)
            }
        }

        impl From<$name> for f64 {
            fn from(figure: $name) -> Self {
                figure.0
            }
        }
    };
}

bounded!(
    Celsius,
    CELSIUS_LEAST,
    CELSIUS_GREATEST,
    "air-celsius-outside"
);
bounded!(
    Humidity,
    HUMIDITY_LEAST,
    HUMIDITY_GREATEST,
    "air-humidity-outside"
);
bounded!(
    Hectopascals,
    HECTOPASCALS_LEAST,
    HECTOPASCALS_GREATEST,
    "air-pressure-outside"
);

/// A plain figure as typed; a comma is a decimal point.
fn typed(text: &str, key: &'static str) -> Result<f64, Message> {
    let clean = text.trim().replace(',', ".").replace('−', "-");
    figure::read(&clean)
        .filter(|value| value.is_finite())
        .ok_or_else(|| msg(key).text("typed", text.trim()))
}

/// 80 °F as 26.7 °C.
fn from_fahrenheit(value: f64) -> f64 {
    (value - 32.0) / 1.8
}

impl Celsius {
    /// Reads a typed temperature.
    ///
    /// # Errors
    /// Not a figure; or outside the bounds, and what it would be if degrees
    /// Fahrenheit were meant.
    pub fn read(text: &str) -> Result<Self, Message> {
        let value = typed(text, "air-celsius-no-figure")?;
        let as_fahrenheit = from_fahrenheit(value);
        Self::new(value).map_err(|outside| {
            if value > CELSIUS_GREATEST && Self::new(as_fahrenheit).is_ok() {
                msg("air-celsius-fahrenheit")
                    .number("typed", value, 0)
                    .number("celsius", as_fahrenheit, 0)
                    .number("greatest", CELSIUS_GREATEST, 0)
            } else {
                outside
            }
        })
    }
}

impl Humidity {
    /// Reads a typed relative humidity.
    ///
    /// # Errors
    /// Not a figure, or outside the bounds.
    pub fn read(text: &str) -> Result<Self, Message> {
        Self::new(typed(
            text.trim_end().trim_end_matches('%'),
            "air-humidity-no-figure",
        )?)
    }
}

impl Hectopascals {
    /// Reads a typed air pressure in hPa (mbar is the same).
    ///
    /// # Errors
    /// Not a figure, or outside the bounds.
    pub fn read(text: &str) -> Result<Self, Message> {
        Self::new(typed(text, "air-pressure-no-figure")?)
    }
}

/// The air between head and obstacle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Air {
    /// Temperature.
    pub celsius: Celsius,
    /// Relative humidity.
    pub humidity: Humidity,
    /// Pressure.
    pub pressure: Hectopascals,
}

impl Default for Air {
    fn default() -> Self {
        Self::REFERENCE
    }
}

impl Air {
    /// Reference air: 20 °C, 50 %, 101.325 kPa.
    pub const REFERENCE: Self = Self {
        celsius: Celsius(20.0),
        humidity: Humidity(50.0),
        pressure: Hectopascals(P_REFERENCE),
    };
    /// A frosty morning (our own figures).
    pub const WINTER: Self = Self {
        celsius: Celsius(-5.0),
        humidity: Humidity(85.0),
        pressure: Hectopascals(P_REFERENCE),
    };
    /// A hot afternoon (our own figures).
    pub const SUMMER: Self = Self {
        celsius: Celsius(32.0),
        humidity: Humidity(45.0),
        pressure: Hectopascals(P_REFERENCE),
    };

    fn kelvin(&self) -> f64 {
        self.celsius.0 + ZERO_CELSIUS
    }

    /// Speed of sound in m/s: 343.2 sqrt(T / 293.15 K).
    #[must_use]
    pub fn speed(&self) -> f64 {
        C0 * (self.kelvin() / T0).sqrt()
    }

    /// Absorption in dB/m at a frequency in hertz.
    #[must_use]
    pub fn absorption(&self, hertz: f64) -> f64 {
        let kelvin = self.kelvin();
        let t = kelvin / T0;
        let pressure = self.pressure.0 / P_REFERENCE;
        let vapour = self.humidity.0 * saturation(kelvin) / pressure;
        let (oxygen, nitrogen) = relaxation(pressure, t, vapour);
        let square = hertz * hertz;
        let classic = 1.84e-11 / pressure * t.sqrt();
        let of_oxygen = 0.012_75 * (-2239.1 / kelvin).exp() / (oxygen + square / oxygen);
        let of_nitrogen = 0.106_8 * (-3352.0 / kelvin).exp() / (nitrogen + square / nitrogen);
        8.686 * square * (classic + t.powf(-2.5) * (of_oxygen + of_nitrogen))
    }
}

/// Saturation vapour pressure over the reference pressure at a temperature
/// in kelvin.
#[must_use]
pub fn saturation(kelvin: f64) -> f64 {
    10f64.powf(-6.8346 * (TRIPLE / kelvin).powf(1.261) + 4.6151)
}

/// Relaxation frequencies of oxygen and nitrogen in hertz. `pressure` over
/// the reference pressure, `t` = T / 293.15 K, `vapour` in % (molar).
#[must_use]
pub fn relaxation(pressure: f64, t: f64, vapour: f64) -> (f64, f64) {
    let oxygen = pressure * (24.0 + 4.04e4 * vapour * (0.02 + vapour) / (0.391 + vapour));
    let falling = (-4.170 * (t.powf(-1.0 / 3.0) - 1.0)).exp();
    let nitrogen = pressure / t.sqrt() * (9.0 + 280.0 * vapour * falling);
    (oxygen, nitrogen)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key<T: core::fmt::Debug>(read: Result<T, Message>) -> String {
        read.unwrap_err().key.into_owned()
    }

    #[test]
    fn air_that_cannot_be_is_refused_in_words() {
        assert_eq!(key(Celsius::read("-60")), "air-celsius-outside");
        assert_eq!(key(Celsius::read("200")), "air-celsius-outside");
        assert_eq!(key(Celsius::read("80")), "air-celsius-fahrenheit");
        assert_eq!(key(Celsius::read("warm")), "air-celsius-no-figure");
        assert_eq!(key(Celsius::read("nan")), "air-celsius-no-figure");
        assert_eq!(key(Humidity::read("0")), "air-humidity-outside");
        assert_eq!(key(Humidity::read("101")), "air-humidity-outside");
        assert_eq!(key(Humidity::read("")), "air-humidity-no-figure");
        assert_eq!(key(Hectopascals::read("101,3")), "air-pressure-outside");
        assert_eq!(key(Hectopascals::read("high")), "air-pressure-no-figure");
        assert!(Celsius::new(f64::NAN).is_err());
    }

    #[test]
    fn bounds_are_allowed_and_commas_are_points() {
        assert_eq!(Celsius::read("−40").map(Celsius::get), Ok(-40.0));
        assert_eq!(Celsius::read(" 21,5 ").map(Celsius::get), Ok(21.5));
        assert_eq!(Humidity::read("100 %").map(Humidity::get), Ok(100.0));
        assert_eq!(
            Hectopascals::read("1013").map(Hectopascals::get),
            Ok(1013.0)
        );
    }

    #[test]
    fn stored_air_outside_the_bounds_is_not_read() {
        let stored = serde_json::to_string(&Air::WINTER).unwrap();
        assert_eq!(serde_json::from_str::<Air>(&stored).unwrap(), Air::WINTER);
        assert!(serde_json::from_str::<Air>(&stored.replace("-5.0", "-500.0")).is_err());
    }

    #[test]
    fn absorption_is_finite_and_positive_on_the_whole_range() {
        for celsius in [CELSIUS_LEAST, -5.0, 20.0, CELSIUS_GREATEST] {
            for humidity in [HUMIDITY_LEAST, 50.0, HUMIDITY_GREATEST] {
                for pressure in [HECTOPASCALS_LEAST, HECTOPASCALS_GREATEST] {
                    let air = Air {
                        celsius: Celsius(celsius),
                        humidity: Humidity(humidity),
                        pressure: Hectopascals(pressure),
                    };
                    let alpha = air.absorption(48e3);
                    assert!(alpha > 0.0 && alpha < 20.0, "{air:?} {alpha}");
                }
            }
        }
    }
}
