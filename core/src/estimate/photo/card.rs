//! The mark card: its geometry, printed at 100 %.
//!
//! # Units
//! Millimetres; x to the right, y upward, 0, 0 at the middle of the code.
//! The card spans x from -45 to 45 and y from -50 to 45. The code has 8 x 8
//! modules of 4.5 mm. Four crosses of 2 x 2 cells of 9 mm stand at
//! (±34, ±34), black where dx dy > 0. The pointer has its base of 12 mm at
//! y = -26 and its tip at (0, -50), on the cut edge: the tip stands on the
//! mark.

use super::tag36h11::{CODE_WORDS, MODULES};

/// Half the card's width.
pub const HALF: f64 = 45.0;
/// The card's upper edge above the middle of the code.
pub const ABOVE: f64 = 45.0;
/// Its lower edge, where the tip is, below it.
pub const BELOW: f64 = 50.0;
/// Side of a module of the code.
pub const MODULE: f64 = 4.5;
/// Half the code's side.
pub const CODE_HALF: f64 = MODULE * MODULES as f64 / 2.0;
/// Middle of a cross, either way.
pub const CROSS: f64 = 34.0;
/// Side of a cell of a cross.
pub const CELL: f64 = 9.0;
/// The pointer's base: half its width, and its place.
pub const POINTER: (f64, f64) = (6.0, -26.0);

/// Middles of the crosses, in the order in which they are always given:
/// upper left, upper right, lower right, lower left.
pub const CROSSES: [(f64, f64); 4] = [
    (-CROSS, CROSS),
    (CROSS, CROSS),
    (CROSS, -CROSS),
    (-CROSS, -CROSS),
];
/// The pointer's tip, which stands on the mark.
pub const TIP: (f64, f64) = (0.0, -BELOW);

/// How many different cards there are; a card's code is its place in
/// [`CODE_WORDS`], the number printed on it is one more.
pub const CARDS_GREATEST: usize = CODE_WORDS.len();
