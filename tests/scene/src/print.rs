//! What is printed on a mark card, drawn a second time from its
//! description: not the code that makes the sheet.

use rakeline_core::estimate::photo::tag36h11::{CODE_WORDS, is_black};

/// Share of light that paper and ink give back.
pub const PAPER: f64 = 0.86;
/// The same of ink.
pub const INK: f64 = 0.045;

/// Whether a place lies on the card; mm, y upward, 0, 0 at the code's middle.
#[must_use]
pub fn on_card(x: f64, y: f64) -> bool {
    x.abs() <= 45.0 && (-50.0..=45.0).contains(&y)
}

/// Whether there is ink at a place of card `code` whose ink has spread by
/// `spread` mm (below 0: black is printed too small).
#[must_use]
pub fn is_ink(code: u16, x: f64, y: f64, spread: f64) -> bool {
    cross(x, y, spread) || pointer(x, y) || lettering(x, y) || module(code, x, y, spread)
}

fn cross(x: f64, y: f64, spread: f64) -> bool {
    let (dx, dy) = (x.abs() - 34.0, y.abs() - 34.0);
    let (dx, dy) = (dx * x.signum(), dy * y.signum());
    let cell = |d: f64| (-spread..=9.0 + spread).contains(&d);
    (cell(dx) && cell(dy)) || (cell(-dx) && cell(-dy))
}

fn pointer(x: f64, y: f64) -> bool {
    let down = -26.0 - y;
    (0.0..=24.0).contains(&down) && x.abs() <= 6.0 * (1.0 - down / 24.0)
}

/// Letters as short strokes, beside the pointer.
fn lettering(x: f64, y: f64) -> bool {
    let line = |low: f64, high: f64| (low..high).contains(&y);
    (7.0..20.0).contains(&x.abs())
        && (line(-34.0, -31.0) || line(-29.5, -27.5))
        && (x * 1.3).rem_euclid(2.0) < 0.9
}

fn module(code: u16, x: f64, y: f64, spread: f64) -> bool {
    let Some(&word) = CODE_WORDS.get(usize::from(code)) else {
        return false;
    };
    let black = |x: f64, y: f64| {
        let (column, row) = ((x + 18.0) / 4.5, (18.0 - y) / 4.5);
        column >= 0.0 && row >= 0.0 && is_black(word, row as usize, column as usize)
    };
    let corners = [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
    let mut near = corners
        .iter()
        .map(|(a, b)| black(x + a * spread.abs(), y + b * spread.abs()));
    if spread >= 0.0 {
        near.any(|black| black)
    } else {
        near.all(|black| black)
    }
}
