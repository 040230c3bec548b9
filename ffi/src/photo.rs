//! Figures between marks, out of photos of mark cards.

use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::detect::{Flow, look};
use rakeline_core::estimate::photo::measured::Given;
use rakeline_core::estimate::photo::outcome::outcome;
use rakeline_core::estimate::photo::result::{GapMeasured, MarkMeasured, Print, Taps, U_TIP};
use rakeline_core::text::msg;
use rakeline_core::units::Millimetres;

use crate::{Fault, Measured};

/// One mark, millimetres and degrees.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct PhotoMark {
    /// Which, counted from 0 at the left.
    pub mark: u32,
    /// Straight from the centre, + to the right; nothing where straight
    /// across is not known.
    pub straight: Option<Measured>,
    /// Along the face from the centre.
    pub along: Option<Measured>,
    /// Corner angle there.
    pub turn: Option<Measured>,
}

/// Between two marks, millimetres.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct PhotoGap {
    /// The left mark.
    pub left: u32,
    /// The right mark.
    pub right: u32,
    /// Tip to tip through the air.
    pub chord: Measured,
    /// Along the face.
    pub along: Measured,
    /// Straight, as the eye sees it from behind.
    pub straight: Option<Measured>,
}

/// What was measured.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct PhotoFigures {
    /// The marks seen, left to right.
    pub marks: Vec<PhotoMark>,
    /// Between neighbours that were seen.
    pub gaps: Vec<PhotoGap>,
    /// Between the outermost two.
    pub width: PhotoGap,
    /// What the solve leaves of the crosses, pixels.
    pub left_over: f64,
}

fn count(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}

fn mark(mark: &MarkMeasured) -> PhotoMark {
    PhotoMark {
        mark: count(mark.mark),
        straight: mark.straight.map(Measured::from),
        along: mark.along.map(Measured::from),
        turn: mark.turn.map(Measured::from),
    }
}

fn gap(gap: &GapMeasured) -> PhotoGap {
    PhotoGap {
        left: count(gap.left),
        right: count(gap.right),
        chord: gap.chord.into(),
        along: gap.along.into(),
        straight: gap.straight.map(Measured::from),
    }
}

/// Measures a bumper with `marks` marks on one to six photos (files as the
/// camera wrote them), solved together. `check_line` is the printed 250 mm
/// line as measured, where it was.
///
/// # Errors
/// [`Fault::Unreadable`] for a file that is no photo, [`Fault::Invalid`] for a
/// check line that no printer makes, [`Fault::Impossible`] where cards or
/// photos do not serve.
#[uniffi::export]
pub fn measure_photos(
    photos: Vec<Vec<u8>>,
    marks: u32,
    check_line: Option<f64>,
) -> Result<PhotoFigures, Fault> {
    let print = Print::new(check_line.map(Millimetres)).map_err(|why| Fault::invalid(&why))?;
    let given = Given {
        marks: marks as usize,
        print,
        u_tip: U_TIP,
    };
    let mut seen = Vec::new();
    for file in &photos {
        let luma = decode(file).map_err(|fault| Fault::unreadable(&fault.message()))?;
        let looked = look(&luma, &mut |_| Flow::Go);
        let mut photo = looked.map_err(|stopped| {
            Fault::impossible(&msg("photo-failed").text("why", format!("{stopped:?}")))
        })?;
        // The card at the centre counts too.
        photo.for_job(given.marks + 1);
        seen.push(photo);
    }
    let found = outcome(&seen, &given, &Taps::default()).map_err(|why| Fault::impossible(&why))?;
    let measured = found.measured;
    Ok(PhotoFigures {
        marks: measured.marks.iter().map(mark).collect(),
        gaps: measured.gaps.iter().map(gap).collect(),
        width: gap(&measured.width),
        left_over: measured.left_over,
    })
}
