//! A figure from its text, to the last bit.
//!
//! The standard library does the same faster, with 11 kB of powers of five
//! that no compression makes smaller: too much for the module that a phone
//! loads first. Here the fraction is divided out in whole numbers.

/// Digits that can change the nearest `f64`: what lies halfway between two has
/// fewer. Of more only counts whether any is not 0.
const MOST_DIGITS: usize = 770;
/// Greatest power of ten that an `f64` holds exactly, and greatest number of
/// digits.
const EXACT_POWER: i32 = 22;
const EXACT_DIGITS: usize = 15;
/// Beyond 1e310 everything is infinite, below 1e-330 everything is 0.
const GREATEST: i32 = 310;
const LEAST: i32 = -330;
/// Bits of an `f64`'s fraction, its least exponent of a full one, its greatest.
const FRACTION: i32 = 52;
const LEAST_FULL: i32 = -1022;
const GREATEST_EXPONENT: i32 = 1023;

/// The `f64` nearest to a decimal figure such as `-12.5` or `3e-4`; infinite
/// where it is too great. `None` for what is no figure.
#[must_use]
pub fn read(text: &str) -> Option<f64> {
    let (negative, rest) = match text.as_bytes() {
        [b'-', rest @ ..] => (true, rest),
        [b'+', rest @ ..] => (false, rest),
        rest => (false, rest),
    };
    let decimal = Decimal::of(rest)?;
    let size = decimal.nearest();
    Some(if negative { -size } else { size })
}

/// `digits * 10^power`, without zeros in front.
struct Decimal {
    digits: Vec<u8>,
    power: i32,
}

impl Decimal {
    fn of(text: &[u8]) -> Option<Self> {
        let at = text.iter().position(|byte| matches!(byte, b'e' | b'E'));
        let (digits_text, mut power) = match at {
            Some(at) => (&text[..at], exponent(&text[at + 1..])?),
            None => (text, 0),
        };
        let (mut digits, mut any, mut point, mut lost) = (Vec::new(), false, false, false);
        for byte in digits_text {
            match byte {
                b'.' if !point => point = true,
                b'0'..=b'9' => {
                    any = true;
                    if digits.len() < MOST_DIGITS {
                        if !digits.is_empty() || *byte != b'0' {
                            digits.push(byte - b'0');
                        }
                        power = power.saturating_sub(i32::from(point));
                    } else {
                        lost |= *byte != b'0';
                        power = power.saturating_add(i32::from(!point));
                    }
                }
                _ => return None,
            }
        }
        if lost {
            digits.push(1);
            power = power.saturating_sub(1);
        }
        any.then_some(Self { digits, power })
    }

    fn nearest(&self) -> f64 {
        let length = i32::try_from(self.digits.len()).unwrap_or(i32::MAX);
        let size = self.power.saturating_add(length);
        if self.digits.is_empty() || size < LEAST {
            return 0.0;
        }
        if size > GREATEST {
            return f64::INFINITY;
        }
        if self.digits.len() <= EXACT_DIGITS && self.power.abs() <= EXACT_POWER {
            let whole = self
                .digits
                .iter()
                .fold(0.0, |sum, d| sum * 10.0 + f64::from(*d));
            let scale = (0..self.power.abs()).fold(1.0, |scale, _| scale * 10.0);
            return if self.power < 0 {
                whole / scale
            } else {
                whole * scale
            };
        }
        let mut above = Whole(Vec::new());
        for digit in &self.digits {
            above.times_plus(10, u32::from(*digit));
        }
        let mut below = Whole(vec![1]);
        let scaled = if self.power < 0 {
            &mut below
        } else {
            &mut above
        };
        for _ in 0..self.power.abs() {
            scaled.times_plus(10, 0);
        }
        quotient(above, below)
    }
}

/// A power of ten after `e`; beyond any `f64` its size does not matter.
fn exponent(text: &[u8]) -> Option<i32> {
    let (sign, digits) = match text {
        [b'-', rest @ ..] => (-1, rest),
        [b'+', rest @ ..] => (1, rest),
        rest => (1, rest),
    };
    if digits.is_empty() || !digits.iter().all(u8::is_ascii_digit) {
        return None;
    }
    let add = |sum: i32, byte: &u8| {
        sum.saturating_mul(10)
            .saturating_add(i32::from(byte - b'0'))
    };
    Some(sign * digits.iter().fold(0, add).min(1_000_000))
}

/// The nearest `f64` to `above / below`, ties to even; both greater than 0.
fn quotient(mut above: Whole, mut below: Whole) -> f64 {
    // 63 or 64 bits of the quotient times 2^shift.
    let shift = 63 + below.bits() - above.bits();
    if shift > 0 {
        above.double(shift);
    } else {
        below.double(-shift);
    }
    below.double(63);
    let mut bits = 0_u64;
    for _ in 0..64 {
        bits <<= 1;
        if above.holds(&below) {
            above.less(&below);
            bits |= 1;
        }
        below.halve();
    }
    let rest = !above.0.iter().all(|limb| *limb == 0);

    let lead = 63 - bits.leading_zeros().cast_signed();
    let power = lead - shift;
    let kept = FRACTION + 1 - (LEAST_FULL - power).max(0);
    let dropped = lead + 1 - kept;
    if dropped > 64 {
        return 0.0;
    }
    if power > GREATEST_EXPONENT {
        return f64::INFINITY;
    }
    let wide = u128::from(bits);
    let mut kept_bits = wide >> dropped;
    let lost = wide - (kept_bits << dropped);
    let half = 1_u128 << (dropped - 1);
    if lost > half || (lost == half && (rest || kept_bits & 1 == 1)) {
        kept_bits += 1;
    }
    // A carry out of the fraction counts the exponent up by itself.
    let exponent = u128::try_from((power - LEAST_FULL).max(0)).unwrap_or(0);
    let bits = kept_bits + (exponent << FRACTION);
    f64::from_bits(u64::try_from(bits).unwrap_or(u64::MAX)).min(f64::INFINITY)
}

/// A whole number of any size, least 32 bits first.
struct Whole(Vec<u32>);

impl Whole {
    fn bits(&self) -> i32 {
        let limbs = i32::try_from(self.0.len()).unwrap_or(i32::MAX);
        let empty = self.0.last().map_or(0, |limb| limb.leading_zeros());
        limbs * 32 - empty.cast_signed()
    }

    fn times_plus(&mut self, factor: u32, plus: u32) {
        let mut carry = u64::from(plus);
        for limb in &mut self.0 {
            carry += u64::from(*limb) * u64::from(factor);
            *limb = carry as u32;
            carry >>= 32;
        }
        if carry > 0 {
            self.0.push(carry as u32);
        }
    }

    /// Times `2^count`.
    fn double(&mut self, count: i32) {
        let limbs = usize::try_from(count / 32).unwrap_or(0);
        self.0.splice(0..0, std::iter::repeat_n(0, limbs));
        self.times_plus(1 << (count % 32), 0);
    }

    fn halve(&mut self) {
        let mut carry = 0;
        for limb in self.0.iter_mut().rev() {
            let low = *limb & 1;
            *limb = *limb >> 1 | carry << 31;
            carry = low;
        }
        if self.0.last() == Some(&0) {
            self.0.pop();
        }
    }

    fn limb(&self, at: usize) -> u32 {
        self.0.get(at).copied().unwrap_or(0)
    }

    /// Whether it is at least the other.
    fn holds(&self, other: &Self) -> bool {
        let limbs = self.0.len().max(other.0.len());
        let differ = (0..limbs)
            .rev()
            .find(|at| self.limb(*at) != other.limb(*at));
        differ.is_none_or(|at| self.limb(at) > other.limb(at))
    }

    /// Minus another that it holds.
    fn less(&mut self, other: &Self) {
        let mut borrowed = false;
        for (at, limb) in self.0.iter_mut().enumerate() {
            let (less, first) = limb.overflowing_sub(other.limb(at));
            let (less, second) = less.overflowing_sub(u32::from(borrowed));
            *limb = less;
            borrowed = first || second;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn same(text: &str) {
        let want: f64 = text.parse().unwrap();
        let got = read(text).unwrap();
        assert_eq!(
            got.to_bits(),
            want.to_bits(),
            "{text}: {got:e}, not {want:e}"
        );
    }

    /// A fixed row of well mixed bits.
    fn mixed(count: u64) -> impl Iterator<Item = u64> {
        (1..=count).map(|at| {
            let x = at.wrapping_mul(0x9e37_79b9_7f4a_7c15);
            let x = (x ^ x >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            let x = (x ^ x >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
            x ^ x >> 31
        })
    }

    #[test]
    fn any_digits_with_any_power_read_as_the_standard_library_reads_them() {
        for bits in mixed(5_000) {
            let power = i64::try_from(bits % 660).unwrap() - 345;
            let digits = bits.to_string();
            let length = 1 + usize::try_from(bits >> 59).unwrap() % digits.len();
            same(&format!("{}e{power}", &digits[..length]));
            same(&format!("-{}.{digits}{digits}e{power}", &digits[..length]));
        }
    }

    #[test]
    fn every_figure_comes_back_from_its_shortest_and_from_its_whole_text() {
        let figures = mixed(300).map(f64::from_bits);
        let edges = [
            0,
            1,
            2,
            3,
            0x000f_ffff_ffff_ffff,
            0x0010_0000_0000_0000,
            0x7fef_ffff_ffff_ffff,
        ];
        let edges = edges.map(f64::from_bits);
        for figure in figures.chain(edges).filter(|figure| figure.is_finite()) {
            for text in [
                format!("{figure}"),
                format!("{figure:e}"),
                format!("{figure:.1080}"),
            ] {
                assert_eq!(read(&text).unwrap().to_bits(), figure.to_bits(), "{text}");
            }
        }
    }

    #[test]
    fn what_lies_just_between_two_figures_goes_to_the_even_one_and_a_hair_beside_it_does_not() {
        // Halfway figures of 54 bits and more, exactly written.
        for bits in mixed(200) {
            let odd = (bits >> 11) * 2 + 1;
            same(&odd.to_string());
            for hair in [
                "0000000000000000000001",
                &"0".repeat(900),
                &("0".repeat(900) + "1"),
            ] {
                same(&format!("{odd}.{hair}"));
                same(&format!("{}.{}{hair}", odd - 1, "9".repeat(30)));
                same(&format!("{odd}{hair}e-200"));
            }
        }
        let halfway_to_least = format!("{:.1080}", f64::from_bits(1)).replace("4940", "2470");
        same(&halfway_to_least);
        for text in [
            "2.4703282292062327e-324",
            "2.4703282292062328e-324",
            "1.7976931348623158e308",
            "1.7976931348623159e308",
            "2.2250738585072011e-308",
            "2.2250738585072014e-308",
            "1e-400",
            "1e400",
            "1e99999999999",
            "1e-99999999999",
            "0e99999999999",
            "-0",
            "0.0",
            "9007199254740993",
            "179769313486231580793728971405303415079934132710037826936173778980444968292764750946649017977587207096330286416692887910946555547851940402630657488671505820681908902000708383676273854845817711531764475730270069855571366959622842914819860834936475292719074168444365510704342711559699508093042880",
        ] {
            same(text);
        }
    }

    #[test]
    fn signs_and_points_are_taken_as_the_standard_library_takes_them() {
        for text in [
            "1", "+1", "-1", "1.", ".5", "-.5e1", "007", "1E3", "1e+3", "1e-3", "00.50",
        ] {
            same(text);
        }
        for text in [
            "", "-", "+", ".", "e1", "1e", "1e+", "1e1.0", "1..2", "1.2.3", "--1", "+-1", " 1",
            "1 ", "1,5", "0x10", "1_0", "inf", "nan", "\u{661}",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
