//! Grey levels and linear light: sRGB (IEC 61966-2-1).
//!
//! Lenses blur light, not grey levels, so edges are fitted in light.

/// Grey level, 0 to 255, of a linear light of 0 to 1; clamped.
#[must_use]
#[inline]
pub fn grey(light: f64) -> f64 {
    let light = light.clamp(0.0, 1.0);
    let coded = if light <= 0.003_130_8 {
        12.92 * light
    } else {
        1.055 * light.powf(1.0 / 2.4) - 0.055
    };
    255.0 * coded
}

/// Grey level and its change with light; 0 change where it is clamped.
#[must_use]
#[inline]
pub fn grey_and_slope(light: f64) -> (f64, f64) {
    if !(0.0..1.0).contains(&light) {
        return (grey(light), 0.0);
    }
    if light <= 0.003_130_8 {
        return (255.0 * 12.92 * light, 255.0 * 12.92);
    }
    let root = light.powf(1.0 / 2.4);
    (
        255.0 * (1.055 * root - 0.055),
        255.0 * 1.055 / 2.4 * root / light,
    )
}

/// Linear light of a grey level of 0 to 255.
#[must_use]
pub fn light(grey: f64) -> f64 {
    let coded = grey / 255.0;
    if coded <= 0.040_45 {
        coded / 12.92
    } else {
        ((coded + 0.055) / 1.055).powf(2.4)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grey_and_light_undo_each_other() {
        for level in 0..=255 {
            let level = f64::from(level);
            assert!((grey(light(level)) - level).abs() < 0.01);
        }
        let (here, slope) = grey_and_slope(0.2);
        let there = grey(0.2001);
        assert!(((there - here) / 1e-4 - slope).abs() < 0.2);
    }
}
