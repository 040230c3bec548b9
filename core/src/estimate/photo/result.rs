//! What photos measured: figures between marks, each with its uncertainty.
//! Kept with the job; computed by the measuring worker.

use serde::{Deserialize, Serialize};

use crate::estimate::shape::{Knot, PlanCurve};
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres, Offset};

/// Length of the check line on the sheet as drawn.
pub const CHECK_LINE: Millimetres = Millimetres(250.0);
/// A check line that was not measured is within this much, rectangular.
pub const LINE_NOT_MEASURED: Millimetres = Millimetres(0.5);
/// One that was is read within this much, rectangular.
pub const LINE_MEASURED: Millimetres = Millimetres(0.25);
/// A print further off than this was not printed at 100 %, by parts.
pub const MOST_SCALE: f64 = 0.1;
/// Standard uncertainty of a tip on its mark, along and across.
pub const U_TIP: Millimetres = Millimetres(0.25);

/// The scale of the printed cards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Print {
    /// Millimetres a millimetre drawn.
    pub factor: f64,
    /// Its relative standard uncertainty.
    pub u: f64,
}

impl Print {
    /// From the check line as measured, if it was.
    ///
    /// # Errors
    /// A message when no printer is that far off.
    pub fn new(line: Option<Millimetres>) -> Result<Self, Message> {
        let within = |mm: Millimetres| mm.0 / 3f64.sqrt() / CHECK_LINE.0;
        let Some(line) = line else {
            return Ok(Self {
                factor: 1.0,
                u: within(LINE_NOT_MEASURED),
            });
        };
        let factor = line.0 / CHECK_LINE.0;
        if !((1.0 - MOST_SCALE)..=(1.0 + MOST_SCALE)).contains(&factor) {
            return Err(msg("solve-check-line")
                .number("typed", line.0, 1)
                .mm("drawn", CHECK_LINE.0));
        }
        Ok(Self {
            factor,
            u: within(LINE_MEASURED),
        })
    }
}

/// From where offsets count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Zero {
    /// The card on the centre mark.
    CentreMark,
    /// The middle between left and right marks: says nothing of the centre
    /// line itself.
    TwoHalves,
}

/// One mark.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct MarkMeasured {
    /// Which, counted from 0 at the left.
    pub mark: usize,
    /// Straight, from the zero; `None` where straight across is not known.
    pub straight: Option<Estimate<Offset>>,
    /// Along the face from the zero.
    pub along: Option<Estimate<Millimetres>>,
    /// How far forward of the zero.
    pub forward: Option<Estimate<Millimetres>>,
    /// Corner angle.
    pub turn: Option<Estimate<Degrees>>,
}

/// Between two marks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct GapMeasured {
    /// The left mark.
    pub left: usize,
    /// The right mark.
    pub right: usize,
    /// Tip to tip through the air.
    pub chord: Estimate<Millimetres>,
    /// Along the face.
    pub along: Estimate<Millimetres>,
    /// Straight, as the eye sees it from behind.
    pub straight: Option<Estimate<Millimetres>>,
}

/// All that was measured between marks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// From where offsets count.
    pub zero: Zero,
    /// The marks seen, left to right.
    pub marks: Vec<MarkMeasured>,
    /// Between neighbours that were seen.
    pub gaps: Vec<GapMeasured>,
    /// Between the outermost two.
    pub width: GapMeasured,
    /// Greatest less least straight gap, where all marks were seen.
    pub evenness: Option<Estimate<Millimetres>>,
    /// Greatest difference of left and right, where known.
    pub symmetry: Option<Estimate<Millimetres>>,
    /// Photos that turned out cropped or edited, counted from 0.
    pub edited: Vec<usize>,
    /// What is left of the crosses, pixels an axis.
    pub left_over: f64,
}

/// Standard uncertainty of a tap under the magnifier, pixels.
pub const U_TAP: f64 = 2.0;
/// The same once it is centred on the round head.
pub const U_CENTRED: f64 = 0.5;

/// A tap.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tap {
    /// In which photo, counted from 0.
    pub photo: usize,
    /// Pixels to the right.
    pub x: f64,
    /// Pixels downward.
    pub y: f64,
    /// Standard uncertainty an axis, pixels.
    pub u: f64,
}

/// A tapped place on the face.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OnFace {
    /// Straight from the zero.
    pub straight: Estimate<Offset>,
    /// Up along the face from the line through the tips.
    pub above: Estimate<Millimetres>,
}

/// A fitted head.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeadMeasured {
    /// Which, counted from 0 at the left.
    pub head: usize,
    /// Where it is.
    pub at: OnFace,
}

/// By what is measured without cards.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum FlatKind {
    /// A sheet of A4, lying.
    A4,
    /// A US Letter sheet, lying.
    Letter,
    /// A bank card.
    BankCard,
    /// A number plate: width, height.
    Plate(Millimetres, Millimetres),
    /// A taped length.
    Taped(Millimetres),
}

/// What is tapped in the photos.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Taps {
    /// Middles of fitted heads: which head, where.
    pub heads: Vec<(usize, Tap)>,
    /// Places of a line that runs across.
    pub line: Vec<Tap>,
}

/// Where things stand in one photo, pixels.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct View {
    /// Marks: which, where.
    pub marks: Vec<(usize, [f64; 2])>,
    /// The centre mark.
    pub centre: Option<[f64; 2]>,
    /// Ends of [`BAR`] held straight across at the middle of the face.
    pub bar: Option<[[f64; 2]; 2]>,
}

/// Length of the bar that shows a photo's scale.
pub const BAR: Millimetres = Millimetres(100.0);

/// All that came of photos.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Outcome {
    /// Between marks.
    pub measured: Measured,
    /// Each photo.
    pub views: Vec<View>,
    /// Fitted heads that were tapped.
    pub heads: Vec<HeadMeasured>,
    /// How far each mark lies below the line that was tapped.
    pub below_line: Vec<(usize, Estimate<Millimetres>)>,
}

impl Measured {
    /// The shape from above through the marks seen.
    ///
    /// # Errors
    /// As [`PlanCurve::new`], or when straight across is not known.
    pub fn plan_curve(&self) -> Result<PlanCurve, Message> {
        let knot = |m: &MarkMeasured| {
            let along = m.along?.value;
            Some(Knot {
                along,
                turn: m.turn?,
            })
        };
        let knots: Option<Vec<Knot>> = self.marks.iter().map(knot).collect();
        PlanCurve::new(knots.ok_or_else(|| msg("solve-no-straight"))?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_check_line_gives_the_scale_of_the_print() {
        let not_measured = Print::new(None).unwrap();
        assert_eq!(not_measured.factor, 1.0);
        assert!((not_measured.u * 250.0 - 0.5 / 3f64.sqrt()).abs() < 1e-12);
        let smaller = Print::new(Some(Millimetres(242.5))).unwrap();
        assert!((smaller.factor - 0.97).abs() < 1e-12 && smaller.u < not_measured.u);
        let refused = Print::new(Some(Millimetres(205.0))).unwrap_err();
        assert_eq!(refused.key, "solve-check-line");
    }
}
