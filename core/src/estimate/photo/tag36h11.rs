//! The codes on mark cards: 36h11 of the AprilTag family.
//!
//! Family: E. Olson, "AprilTag: A robust and flexible visual fiducial
//! system", ICRA 2011. Code words: `tag36h11.c` of the AprilTag library,
//! release 2 (University of Michigan, BSD 2-clause); here are the first
//! twelve of 587.

/// Modules along one side, the black border counted.
pub const MODULES: usize = 8;
/// Modules of data along one side.
const DATA: usize = 6;

/// Code words: 36 bits, row by row from the upper left, the first bit the
/// highest; 1 is white.
pub const CODE_WORDS: [u64; 12] = [
    0xd_5d62_8584,
    0xd_97f1_8b49,
    0xd_d280_910e,
    0xe_479e_9c98,
    0xe_bcbc_a822,
    0xf_31da_b3ac,
    0x0_56a5_d085,
    0x1_0652_e1d4,
    0x2_2b1d_fead,
    0x2_65ad_0472,
    0x3_4fe9_1b86,
    0x3_ff96_2cd5,
];

/// Whether a module is black; rows from the top, columns from the left,
/// border included. Everything outside is white.
#[must_use]
pub fn is_black(code_word: u64, row: usize, column: usize) -> bool {
    if row >= MODULES || column >= MODULES {
        return false;
    }
    let data = |at: usize| at.checked_sub(1).filter(|at| *at < DATA);
    match (data(row), data(column)) {
        (Some(row), Some(column)) => {
            let bit = DATA * DATA - 1 - (row * DATA + column);
            (code_word >> bit) & 1 == 0
        }
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bits of a code word turned by a quarter.
    fn turned(code_word: u64) -> u64 {
        let mut turned = 0;
        for row in 0..DATA {
            for column in 0..DATA {
                let bit = 35 - ((DATA - 1 - column) * DATA + row);
                turned = (turned << 1) | ((code_word >> bit) & 1);
            }
        }
        turned
    }

    #[test]
    fn any_two_codes_differ_in_eleven_modules_however_they_are_turned() {
        for (at, &one) in CODE_WORDS.iter().enumerate() {
            for &other in &CODE_WORDS[at + 1..] {
                let mut code = other;
                for _ in 0..4 {
                    assert!((one ^ code).count_ones() >= 11, "{one:x} {other:x}");
                    code = turned(code);
                }
            }
        }
    }

    #[test]
    fn the_border_is_black_and_the_first_bit_is_upper_left() {
        assert!((0..8).all(|k| is_black(u64::MAX, 0, k) && is_black(u64::MAX, k, 7)));
        assert!(!is_black(1 << 35, 1, 1));
        assert!(is_black(1 << 35, 1, 2));
    }
}
