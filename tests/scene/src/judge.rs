//! What was seen against what is true.

use rakeline_core::estimate::photo::seen::{CardSeen, PhotoSeen};

use super::{CardTruth, Truth};

/// What came of a photo.
#[derive(Clone, Debug, Default)]
pub struct Verdict {
    /// Cards that are wholly in the picture.
    pub there: usize,
    /// Of them, those that were found and can be measured on.
    pub found: usize,
    /// Cards that were found with a fault.
    pub faulty: usize,
    /// Cards that are not there.
    pub false_codes: usize,
    /// How far each cross is off: right and down, pixels.
    pub off: Vec<[f64; 2]>,
    /// The same over the stated standard uncertainty.
    pub normal: Vec<f64>,
}

impl Verdict {
    /// Root mean square of the errors on an axis, pixels.
    #[must_use]
    pub fn rms(&self) -> f64 {
        rms(&self.off)
    }
}

/// Root mean square on an axis of errors right and down.
#[must_use]
pub fn rms(off: &[[f64; 2]]) -> f64 {
    let squares: f64 = off.iter().map(|[x, y]| x * x + y * y).sum();
    (squares / (2.0 * off.len().max(1) as f64)).sqrt()
}

/// Compares a photo with its truth.
#[must_use]
pub fn judge(seen: &PhotoSeen, truth: &Truth) -> Verdict {
    let mut verdict = Verdict {
        there: truth.cards.iter().filter(|card| card.whole).count(),
        ..Verdict::default()
    };
    for card in &seen.cards {
        let real = truth
            .cards
            .iter()
            .find(|real| real.code == card.code && is_near(card, real));
        let Some(real) = real else {
            verdict.false_codes += 1;
            continue;
        };
        verdict.found += usize::from(real.whole);
        for (cross, real) in card.crosses.iter().zip(&real.crosses) {
            let off = [cross.x - real[0], cross.y - real[1]];
            verdict.off.push(off);
            verdict.normal.extend(off.map(|off| off / cross.u));
        }
    }
    let known = |code: Option<u16>| truth.cards.iter().any(|card| Some(card.code) == code);
    for fault in &seen.faults {
        if known(fault.code) {
            verdict.faulty += 1;
        } else if fault.code.is_some() {
            verdict.false_codes += 1;
        }
    }
    verdict
}

/// Whether a card stands where a real one is, within its own size.
fn is_near(card: &CardSeen, real: &CardTruth) -> bool {
    let side =
        (real.crosses[0][0] - real.crosses[2][0]).hypot(real.crosses[0][1] - real.crosses[2][1]);
    let off =
        (card.crosses[0].x - real.crosses[0][0]).hypot(card.crosses[0].y - real.crosses[0][1]);
    off < side / 4.0
}
