//! The code of a card, read through a map from the card to pixels.

use rakeline_pixels::Rows;

use super::card::{CODE_HALF, MODULE};
use super::homography::Homography;
use super::tag36h11::{CODE_WORDS, MODULES, is_black};

/// Most modules of data that may be misread. Two codes differ in 11 at
/// least, so that a card is never taken for another one; with the border
/// they also keep anything else from being taken for a card.
pub const MISREAD_MOST: u32 = 2;
/// Most modules of the border, of 28, that may read white.
const BORDER_MOST: u32 = 2;
/// Least contrast of black and white, grey levels.
const CONTRAST: f64 = 12.0;
/// How far the code may stand off the plane through the crosses, mm on the
/// card: a bent card's middle comes nearer.
const SHIFTS: [(f64, f64); 7] = [
    (0.0, 0.0),
    (1.2, 0.0),
    (-1.2, 0.0),
    (2.4, 0.0),
    (-2.4, 0.0),
    (0.0, 1.2),
    (0.0, -1.2),
];

/// A code that was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Read {
    /// Its place in the table.
    pub code: u16,
    /// Quarter turns of the card, clockwise as seen, against the map.
    pub turned: u8,
    /// Whether it is a mirror image.
    pub mirrored: bool,
    /// Modules that were misread.
    pub misread: u32,
}

/// What stands between four crosses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Between {
    /// A card's code.
    Code(Read),
    /// The black border and white around of a code that is none of ours, or
    /// can't be read.
    Border,
    /// Nothing of the kind.
    Nothing,
}

/// Reads the code; the least misread over small shifts counts.
#[must_use]
pub fn read(rows: Rows, map: &Homography) -> Between {
    let mut best = Between::Nothing;
    for shift in SHIFTS {
        match (read_at(rows, map, shift), best) {
            (Between::Code(found), _) if found.misread == 0 => return Between::Code(found),
            (Between::Code(found), Between::Code(known)) if found.misread >= known.misread => {}
            (found @ Between::Code(_), _) => best = found,
            (Between::Border, Between::Nothing) => best = Between::Border,
            _ => {}
        }
    }
    best
}

/// Modules with a ring of white around: what is sampled.
const GRID: usize = MODULES + 2;

/// Whether the border is darker than what is around it at a few places: most
/// squares that chance puts together end here.
fn looks_framed(rows: Rows, map: &Homography, shift: (f64, f64)) -> bool {
    const BLACK: f64 = CODE_HALF - MODULE / 2.0;
    const WHITE: f64 = CODE_HALF + MODULE / 2.0;
    let grey = |x: f64, y: f64| {
        let [u, v] = map.at((x + shift.0, y + shift.1));
        rows.at(u, v)
    };
    let ends = [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)];
    let framed = |(x, y): &(f64, f64)| {
        let white = grey(x * WHITE, y * WHITE);
        let corner = (x + y, y - x);
        white > grey(x * BLACK, y * BLACK) + CONTRAST / 2.0
            && white > grey(corner.0 * BLACK, corner.1 * BLACK) + CONTRAST / 2.0
    };
    ends.iter().filter(|end| framed(end)).count() >= 3
}

fn read_at(rows: Rows, map: &Homography, shift: (f64, f64)) -> Between {
    if !looks_framed(rows, map, shift) {
        return Between::Nothing;
    }
    let Some((word, wrong_border)) = word(rows, map, shift) else {
        return Between::Nothing;
    };
    match named(word) {
        Some(read) if wrong_border <= BORDER_MOST => Between::Code(read),
        _ if wrong_border == 0 => Between::Border,
        _ => Between::Nothing,
    }
}

/// The 36 bits, and how many modules of the border read white; `None` where
/// black and white are not apart.
fn word(rows: Rows, map: &Homography, shift: (f64, f64)) -> Option<(u64, u32)> {
    let grid = sampled(rows, map, shift);
    let edge = |row: usize, column: usize, from: usize| {
        let to = GRID - 1 - from;
        let within = (from..=to).contains(&row) && (from..=to).contains(&column);
        within && (row == from || row == to || column == from || column == to)
    };
    // White around, black border: planes of brightness, by least squares.
    let white = Plane::through(&grid, |row, column| edge(row, column, 0))?;
    let black = Plane::through(&grid, |row, column| edge(row, column, 1))?;
    let share = |row: usize, column: usize| {
        let (white, black) = (white.at(row, column), black.at(row, column));
        (white - black > CONTRAST).then(|| (grid[row][column] - black) / (white - black))
    };
    let mut shares = [[0.0; GRID]; GRID];
    for (row, shares) in shares.iter_mut().enumerate() {
        for (column, value) in shares.iter_mut().enumerate() {
            *value = share(row, column)?;
        }
    }
    let is_white = |row: usize, column: usize| {
        // Blur takes from a module what its neighbours differ; give it back.
        let near = shares[row - 1][column]
            + shares[row + 1][column]
            + shares[row][column - 1]
            + shares[row][column + 1];
        shares[row][column] + SHARPEN * (shares[row][column] - near / 4.0) > 0.5
    };
    let mut wrong_border = 0;
    let mut word = 0u64;
    for row in 1..=MODULES {
        for column in 1..=MODULES {
            let white = is_white(row, column);
            if edge(row, column, 1) {
                wrong_border += u32::from(white);
            } else {
                word = (word << 1) | u64::from(white);
            }
        }
    }
    Some((word, wrong_border))
}

/// How much of what a module differs from its neighbours is added.
const SHARPEN: f64 = 0.35;

/// Brightness at the middles of modules, from the upper left, each the mean
/// of five places.
fn sampled(rows: Rows, map: &Homography, shift: (f64, f64)) -> [[f64; GRID]; GRID] {
    const OFF: f64 = 0.22 * MODULE;
    let middle = |n: usize| MODULE * (n as f64 - 0.5) - CODE_HALF;
    core::array::from_fn(|row| {
        core::array::from_fn(|column| {
            let (x, y) = (middle(column) + shift.0, -middle(row) + shift.1);
            let places = [
                (0.0, 0.0),
                (OFF, OFF),
                (-OFF, OFF),
                (OFF, -OFF),
                (-OFF, -OFF),
            ];
            let sum: f64 = places
                .iter()
                .map(|(dx, dy)| {
                    let [u, v] = map.at((x + dx, y + dy));
                    rows.at(u, v)
                })
                .sum();
            sum / places.len() as f64
        })
    })
}

/// A brightness that changes evenly over the code.
struct Plane {
    mean: f64,
    down: f64,
    right: f64,
}

impl Plane {
    /// Through the places that `counts` names; those lie evenly about the
    /// middle, so that the three sums are independent.
    fn through(grid: &[[f64; GRID]; GRID], counts: impl Fn(usize, usize) -> bool) -> Option<Self> {
        let half = (GRID - 1) as f64 / 2.0;
        let (mut sum, mut n, mut down, mut right, mut square) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (row, line) in grid.iter().enumerate() {
            for (column, value) in line.iter().enumerate() {
                if counts(row, column) {
                    let (y, x) = (row as f64 - half, column as f64 - half);
                    sum += value;
                    n += 1.0;
                    down += y * value;
                    right += x * value;
                    square += x * x;
                }
            }
        }
        (n > 0.0 && square > 0.0).then(|| Self {
            mean: sum / n,
            down: down / square,
            right: right / square,
        })
    }

    fn at(&self, row: usize, column: usize) -> f64 {
        let half = (GRID - 1) as f64 / 2.0;
        self.mean + self.down * (row as f64 - half) + self.right * (column as f64 - half)
    }
}

/// The code that a word is, however it is turned or mirrored.
#[must_use]
pub fn named(word: u64) -> Option<Read> {
    let mut best: Option<Read> = None;
    for mirrored in [false, true] {
        let mut seen = if mirrored { mirror(word) } else { word };
        for turned in 0..4u8 {
            for (code, &known) in CODE_WORDS.iter().enumerate() {
                let misread = (known ^ seen).count_ones();
                if misread <= MISREAD_MOST && best.is_none_or(|best| misread < best.misread) {
                    best = Some(Read {
                        code: u16::try_from(code).unwrap_or(u16::MAX),
                        turned,
                        mirrored,
                        misread,
                    });
                }
            }
            seen = turn_back(seen);
        }
    }
    best
}

const DATA: usize = MODULES - 2;

fn bit(word: u64, row: usize, column: usize) -> u64 {
    (word >> (DATA * DATA - 1 - (row * DATA + column))) & 1
}

fn rebuilt(of: impl Fn(usize, usize) -> u64) -> u64 {
    let mut word = 0;
    for row in 0..DATA {
        for column in 0..DATA {
            word = (word << 1) | of(row, column);
        }
    }
    word
}

/// The word as read when the picture is turned a quarter anticlockwise: what
/// stood in the right column comes to the top.
fn turn_back(word: u64) -> u64 {
    rebuilt(|row, column| bit(word, column, DATA - 1 - row))
}

fn mirror(word: u64) -> u64 {
    rebuilt(|row, column| bit(word, row, DATA - 1 - column))
}

/// Share of the modules that should be black and read bright. Of the black
/// ones those count that have one white neighbour at most: where a card is
/// seen from the side, blur alone brightens the others.
#[must_use]
pub fn glare(rows: Rows, map: &Homography, code: u16) -> f64 {
    let Some(&word) = CODE_WORDS.get(usize::from(code)) else {
        return 0.0;
    };
    let grid = sampled(rows, map, (0.0, 0.0));
    let is_white = |row: usize, column: usize| {
        let outside = [row, column].iter().any(|n| !(1..=MODULES).contains(n));
        outside || !is_black(word, row - 1, column - 1)
    };
    let mut dark = Vec::with_capacity(MODULES * MODULES);
    let mut bright = 0.0f64;
    let modules = (1..=MODULES).flat_map(|row| (1..=MODULES).map(move |column| (row, column)));
    for (row, column) in modules {
        let value = grid[row][column];
        let beside = [
            (row - 1, column),
            (row + 1, column),
            (row, column - 1),
            (row, column + 1),
        ];
        let white = beside.iter().filter(|at| is_white(at.0, at.1)).count();
        if is_white(row, column) {
            bright = bright.max(value);
        } else if white < 2 {
            dark.push(value);
        }
    }
    if dark.is_empty() {
        return 0.0;
    }
    let least = dark.iter().copied().fold(f64::INFINITY, f64::min);
    let limit = least + 0.6 * (bright - least);
    dark.iter().filter(|value| **value > limit).count() as f64 / dark.len() as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_named_however_it_is_turned() {
        let mut seen = CODE_WORDS[5];
        for quarter in 0..4u8 {
            let read = named(seen).unwrap();
            assert_eq!((read.code, read.mirrored, read.misread), (5, false, 0));
            assert_eq!(read.turned, (4 - quarter) % 4);
            seen = turn_back(seen);
        }
    }

    #[test]
    fn a_mirrored_word_is_named_as_such() {
        let read = named(mirror(CODE_WORDS[3])).unwrap();
        assert_eq!((read.code, read.mirrored), (3, true));
    }

    #[test]
    fn two_misread_modules_are_put_right_and_three_are_refused() {
        let read = named(CODE_WORDS[7] ^ 0b101).unwrap();
        assert_eq!((read.code, read.misread), (7, 2));
        assert_eq!(named(CODE_WORDS[7] ^ 0b10101), None);
    }
}
