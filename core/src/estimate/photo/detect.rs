//! Mark cards in a picture.

use rakeline_pixels::{Rows, halved, saddles};

use super::card::{CARDS_GREATEST, CELL, CODE_HALF, CROSSES};
use super::code::{Between, glare, read};
use super::cross::{Cross, cross};
use super::group::{Found, Grouped, group};
use super::homography::Homography;
use super::luma::Luma;
use super::refine::{Fitted, refine};
use super::seen::{CardFault, CardQuality, CardSeen, CardTrouble, CrossSeen, PhotoSeen};
use super::soft::soft_cards;

/// Share of the work that is done, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress(pub f32);

/// Whether the work goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flow {
    /// Go on.
    Go,
    /// Nobody waits for it any more.
    Stop,
}

/// The work was stopped before its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped;

/// Levels of halved pictures that are searched, the full one counted.
const LEVELS: u32 = 4;
/// Pixels above which the full picture itself is not searched, only fitted
/// in: its crosses are large enough in the halved one.
const FULL_MOST: usize = 24_000_000;
/// Saddles that are looked at on each level.
const SADDLES: [usize; LEVELS as usize] = [3_000, 2_000, 1_200, 600];
/// Smallest cell that is measured on, pixels.
const CELL_LEAST: f64 = 2.2;
/// Largest blur, share of a cell.
const BLUR_MOST: f64 = 0.45;
/// Largest uncertainty of a cross, pixels.
const U_MOST: f64 = 0.4;
/// Largest share of black modules that read bright.
const GLARE_MOST: f64 = 0.06;

/// Finds the mark cards in a picture, each cross to hundredths of a pixel.
///
/// # Units
/// Pixels, see [`super`].
///
/// # Errors
/// [`Stopped`] when `progress` answered so.
pub fn look(luma: &Luma, progress: &mut dyn FnMut(Progress) -> Flow) -> Result<PhotoSeen, Stopped> {
    let rows = Rows {
        width: luma.width(),
        height: luma.height(),
        pixels: luma.pixels(),
    };
    let crosses = crosses(rows, progress)?;
    tell(progress, 0.8)?;
    let Grouped {
        found,
        nameless,
        soft,
    } = group(rows, &crosses);
    let mut cards = Vec::new();
    let mut faults = Vec::new();
    for (n, found) in found.iter().enumerate() {
        tell(progress, 0.85 + 0.15 * n as f32 / CARDS_GREATEST as f32)?;
        match measured(rows, found) {
            Ok(card) => cards.push(card),
            Err(trouble) => faults.push(CardFault {
                code: Some(found.read.code),
                at: middle(&found.crosses),
                trouble,
            }),
        }
    }
    cards.sort_by_key(|card: &CardSeen| card.code);
    twice(&mut cards, &mut faults);
    add_nameless(rows, [&nameless, &soft], &found, &mut faults);
    if cards.is_empty() && faults.is_empty() {
        faults.extend(soft_cards(rows).into_iter().map(|at| CardFault {
            code: None,
            at: at.into(),
            trouble: CardTrouble::Blurred,
        }));
    }
    tell(progress, 1.0)?;
    Ok(PhotoSeen {
        width: u32::try_from(rows.width).unwrap_or(u32::MAX),
        height: u32::try_from(rows.height).unwrap_or(u32::MAX),
        exif: luma.exif,
        cards,
        faults,
    })
}

/// The code between four known corners of its black border, clockwise as
/// seen, pixels; `None` when it is none of ours.
#[must_use]
pub fn code_between(luma: &Luma, corners: &[[f64; 2]; 4]) -> Option<u16> {
    let rows = Rows {
        width: luma.width(),
        height: luma.height(),
        pixels: luma.pixels(),
    };
    let square = CROSSES.map(|(x, y)| (CODE_HALF * x.signum(), CODE_HALF * y.signum()));
    let map = Homography::through(&square, corners)?;
    match read(rows, &map) {
        Between::Code(read) if !read.mirrored => Some(read.code),
        _ => None,
    }
}

fn tell(progress: &mut dyn FnMut(Progress) -> Flow, share: f32) -> Result<(), Stopped> {
    match progress(Progress(share.min(1.0))) {
        Flow::Go => Ok(()),
        Flow::Stop => Err(Stopped),
    }
}

/// Crosses of all levels; one that was found on several counts once.
fn crosses(rows: Rows, progress: &mut dyn FnMut(Progress) -> Flow) -> Result<Vec<Cross>, Stopped> {
    let first = u32::from(rows.pixels.len() > FULL_MOST);
    let mut found: Vec<Cross> = Vec::new();
    let mut kept: (usize, usize, Vec<u8>);
    let mut level = rows;
    for halvings in 0..LEVELS {
        let (from, to) = (
            0.75 * (1.0 - 0.25f32.powi(halvings.cast_signed())),
            0.75 * (1.0 - 0.25f32.powi(halvings.cast_signed() + 1)),
        );
        if halvings >= first {
            let mut stopped = Ok(());
            let height = level.height as f32;
            let list = saddles(level, SADDLES[halvings as usize], |y| {
                stopped = tell(progress, from + (to - from) * y as f32 / height);
                stopped.is_ok()
            });
            stopped?;
            let known = found.len();
            for saddle in &list {
                if let Some(one) = cross(level, saddle, halvings)
                    && !found[..known].iter().any(|other| same(other, &one))
                {
                    found.push(one);
                }
            }
        }
        kept = halved(level);
        level = Rows {
            width: kept.0,
            height: kept.1,
            pixels: &kept.2,
        };
    }
    Ok(found)
}

/// Whether two levels show one cross.
fn same(fine: &Cross, coarse: &Cross) -> bool {
    let off = (fine.at[0] - coarse.at[0]).hypot(fine.at[1] - coarse.at[1]);
    let twist = |a: [f64; 2], b: [f64; 2]| (a[0] * b[1] - a[1] * b[0]).abs();
    off < 1.2 * coarse.scale
        && twist(fine.across, coarse.across) < 0.2
        && twist(fine.along, coarse.along) < 0.2
}

fn middle(crosses: &[[f64; 2]; 4]) -> (f64, f64) {
    let mean = |k: usize| crosses.iter().map(|at| at[k]).sum::<f64>() / 4.0;
    (mean(0), mean(1))
}

/// Fits a card's crosses, or says why it can't be measured on.
fn measured(rows: Rows, found: &Found) -> Result<CardSeen, CardTrouble> {
    if found.read.mirrored {
        return Err(CardTrouble::Mirrored);
    }
    let mut places = found.crosses;
    let mut fits = [None; 4];
    // The second round has better slopes and windows.
    for _ in 0..2 {
        let map = Homography::through(&CROSSES, &places).ok_or(CardTrouble::Covered)?;
        for n in 0..4 {
            let slope = map.slope(CROSSES[n]);
            let fit = fit(rows, places[n], slope);
            fits[n] = fit;
            match fit {
                Some(fit) => places[n] = fit.at,
                None => return Err(lost(rows, &map, found.read.code, places[n], slope)),
            }
        }
    }
    let fits: [Fitted; 4] = match fits {
        [Some(a), Some(b), Some(c), Some(d)] => [a, b, c, d],
        _ => return Err(CardTrouble::Covered),
    };
    let map = Homography::through(&CROSSES, &places).ok_or(CardTrouble::Covered)?;
    let quality = quality(rows, &map, &fits, found);
    let softest = fits
        .iter()
        .zip(CROSSES)
        .map(|(fit, at)| {
            let across = cell(map.slope(at));
            (fit.blur[0] / across[1]).max(fit.blur[1] / across[0])
        })
        .fold(0.0, f64::max);
    let u_most = fits.iter().map(|fit| fit.u).fold(0.0, f64::max);
    if quality.cell < CELL_LEAST {
        Err(CardTrouble::Small)
    } else if quality.glare > GLARE_MOST {
        Err(CardTrouble::Glare)
    } else if softest > BLUR_MOST || u_most > U_MOST {
        Err(CardTrouble::Blurred)
    } else {
        Ok(CardSeen {
            code: found.read.code,
            crosses: fits.map(|fit| CrossSeen {
                x: fit.at[0],
                y: fit.at[1],
                u: fit.u,
            }),
            quality,
        })
    }
}

/// Pixels of a cell across its y edge (along x) and its x edge (along y).
fn cell([ex, ey]: [[f64; 2]; 2]) -> [f64; 2] {
    let area = (ex[0] * ey[1] - ex[1] * ey[0]).abs();
    [
        CELL * area / ey[0].hypot(ey[1]),
        CELL * area / ex[0].hypot(ex[1]),
    ]
}

/// Whether a fit stayed with its cross and looks like one.
fn near(fit: &Fitted, from: [f64; 2], slope: [[f64; 2]; 2]) -> bool {
    let cell = cell(slope);
    let off = (fit.at[0] - from[0]).hypot(fit.at[1] - from[1]);
    let moved_most = (0.6 * cell[0].min(cell[1])).max(1.5);
    off < moved_most && fit.contrast > 0.02 && fit.left < 45.0
}

/// Fits a cross at a place, or where the place is only estimated, beside it.
fn fit(rows: Rows, at: [f64; 2], slope: [[f64; 2]; 2]) -> Option<Fitted> {
    let from = |at: [f64; 2]| refine(rows, at, slope).filter(|fit| near(fit, at, slope));
    from(at).or_else(|| {
        let beside = |x: f64, y: f64| {
            let place = |k: usize| at[k] + CELL * (x * slope[0][k] + y * slope[1][k]);
            [place(0), place(1)]
        };
        const STEPS: [f64; 3] = [-0.5, 0.0, 0.5];
        let fits = STEPS
            .iter()
            .flat_map(|x| STEPS.map(|y| from(beside(*x, y))))
            .flatten();
        fits.min_by(|a, b| (a.left / a.contrast).total_cmp(&(b.left / b.contrast)))
    })
}

/// Why a cross could not be fitted.
fn lost(
    rows: Rows,
    map: &Homography,
    code: u16,
    at: [f64; 2],
    slope: [[f64; 2]; 2],
) -> CardTrouble {
    let cell = cell(slope);
    let room = 0.6 * cell[0].max(cell[1]);
    let inside = at[0] > room
        && at[1] > room
        && at[0] < rows.width as f64 - 1.0 - room
        && at[1] < rows.height as f64 - 1.0 - room;
    let around = [(0.3, 0.3), (-0.3, -0.3)].map(|(x, y)| {
        rows.at(
            at[0] + CELL * (x * slope[0][0] + y * slope[1][0]),
            at[1] + CELL * (x * slope[0][1] + y * slope[1][1]),
        )
    });
    // Where the cross should be black it is as bright as a reflection.
    let bright = around.iter().all(|grey| *grey > 200.0);
    if !inside {
        CardTrouble::Cut
    } else if bright || glare(rows, map, code) > GLARE_MOST {
        CardTrouble::Glare
    } else if cell[0].min(cell[1]) < CELL_LEAST {
        CardTrouble::Small
    } else {
        CardTrouble::Covered
    }
}

fn quality(rows: Rows, map: &Homography, fits: &[Fitted; 4], found: &Found) -> CardQuality {
    let mean = |value: &dyn Fn(&Fitted) -> f64| fits.iter().map(value).sum::<f64>() / 4.0;
    let cells = CROSSES.map(|at| cell(map.slope(at)));
    CardQuality {
        blur: mean(&|fit| (fit.blur[0] * fit.blur[0] + fit.blur[1] * fit.blur[1]) / 2.0).sqrt(),
        cell: cells
            .iter()
            .flatten()
            .copied()
            .fold(f64::INFINITY, f64::min),
        contrast: mean(&|fit| fit.contrast),
        noise: mean(&|fit| fit.left),
        glare: glare(rows, map, found.read.code),
        misread: found.read.misread,
    }
}

/// A code that stands on two cards tells neither mark.
fn twice(cards: &mut Vec<CardSeen>, faults: &mut Vec<CardFault>) {
    let codes: Vec<u16> = cards.iter().map(|card| card.code).collect();
    let count = |code: u16| codes.iter().filter(|other| **other == code).count();
    cards.retain(|card| {
        let once = count(card.code) == 1;
        if !once {
            faults.push(card.fault(CardTrouble::Twice));
        }
        once
    });
    // A glossy face shows a card's mirror image; the card itself counts.
    faults.retain(|fault| {
        fault.trouble != CardTrouble::Mirrored
            || fault.code.is_none_or(|code| !codes.contains(&code))
    });
}

/// Adds cards whose code could not be read, unless one that was lies there:
/// first those with a code's border, then those too soft to show one.
fn add_nameless(
    rows: Rows,
    squares: [&[[[f64; 2]; 4]]; 2],
    found: &[Found],
    faults: &mut Vec<CardFault>,
) {
    let mut taken: Vec<[f64; 2]> = found
        .iter()
        .map(|found| middle(&found.crosses).into())
        .collect();
    let [framed, soft] = squares;
    let framed = framed.iter().map(|places| (places, CardTrouble::Unread));
    let soft = soft.iter().map(|places| (places, CardTrouble::Blurred));
    for (places, trouble) in framed.chain(soft) {
        let at = middle(places);
        let side = (places[0][0] - places[2][0]).hypot(places[0][1] - places[2][1]);
        let known = taken
            .iter()
            .any(|other| (other[0] - at.0).hypot(other[1] - at.1) < side / 2.0);
        if !known && fitted(rows, places, trouble) {
            taken.push(at.into());
            faults.push(CardFault {
                code: None,
                at,
                trouble,
            });
        }
    }
}

/// Whether all four crosses of a square look like a card's; of a soft one
/// they must be soft, and alike.
fn fitted(rows: Rows, places: &[[f64; 2]; 4], trouble: CardTrouble) -> bool {
    let Some(map) = Homography::through(&CROSSES, places) else {
        return false;
    };
    let mut contrast = [f64::INFINITY, 0.0];
    for (&cross, &place) in CROSSES.iter().zip(places) {
        let slope = map.slope(cross);
        let Some(fit) = refine(rows, place, slope).filter(|fit| near(fit, place, slope)) else {
            return false;
        };
        let cell = cell(slope);
        let soft = (fit.blur[0] / cell[1]).max(fit.blur[1] / cell[0]);
        if trouble == CardTrouble::Blurred && (soft < SOFT_LEAST || fit.left > SOFT_LEFT) {
            return false;
        }
        contrast = [contrast[0].min(fit.contrast), contrast[1].max(fit.contrast)];
    }
    trouble != CardTrouble::Blurred || contrast[0] > SOFT_ALIKE * contrast[1]
}

/// A card whose code can't be seen at all has crosses at least so soft,
/// share of a cell,
const SOFT_LEAST: f64 = 0.35;
/// of which the fit leaves at most so many grey levels,
const SOFT_LEFT: f64 = 14.0;
/// and whose contrasts are alike to this ratio.
const SOFT_ALIKE: f64 = 0.5;
