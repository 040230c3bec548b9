//! Photos made ready for paper: upright, no larger than the paper shows, JPEG.

use jpeg_encoder::{ColorType, Encoder};

use crate::estimate::photo::decode::{PhotoFault, Pixels, colours};

/// Longest side of a photo on paper, pixels: 400 an inch at 100 mm; a job's
/// own copies pass as they are.
pub const ON_PAPER: usize = 1_600;

/// Quality of a photo on paper.
const QUALITY: u8 = 85;

/// A JPEG, PNG or WebP file as a JPEG that stands upright and is at most
/// [`ON_PAPER`] pixels long, with nothing in it but the pixels.
///
/// # Errors
/// [`PhotoFault`] for a file that is no picture.
pub fn for_paper(bytes: &[u8]) -> Result<Vec<u8>, PhotoFault> {
    let (pixels, turned) = colours(bytes)?;
    let (width, height, rows) = upright(smaller(pixels), turned);
    let damaged = |why: String| PhotoFault::Damaged(why);
    let size = |side: usize| u16::try_from(side).map_err(|_| damaged("size".to_owned()));
    let mut file = Vec::new();
    Encoder::new(&mut file, QUALITY)
        .encode(&rows, size(width)?, size(height)?, ColorType::Rgb)
        .map_err(|fault| damaged(fault.to_string()))?;
    Ok(file)
}

/// The mean of squares of pixels, so many to a side that the picture is
/// small enough.
fn smaller((width, height, rows): Pixels) -> Pixels {
    let side = width.max(height).div_ceil(ON_PAPER);
    if side <= 1 {
        return (width, height, rows);
    }
    let (across, down) = ((width / side).max(1), (height / side).max(1));
    let mut small = Vec::with_capacity(3 * across * down);
    let mut sums = vec![0_u32; 3 * across];
    for y in 0..down {
        sums.fill(0);
        let band = rows.chunks_exact(3 * width).skip(y * side).take(side);
        let mut lines = 0;
        for line in band {
            lines += 1;
            for (sum, square) in sums.chunks_exact_mut(3).zip(line.chunks(3 * side)) {
                for pixel in square.chunks_exact(3) {
                    for (part, value) in sum.iter_mut().zip(pixel) {
                        *part += u32::from(*value);
                    }
                }
            }
        }
        let count = lines * u32::try_from(side.min(width)).unwrap_or(1);
        small.extend(sums.iter().map(|sum| {
            let mean = (sum + count / 2) / count.max(1);
            u8::try_from(mean).unwrap_or(u8::MAX)
        }));
    }
    (across, down, small)
}

/// Turned by the orientation tag (Exif 2.32, 4.6.4; others than 1 to 8 count
/// as 1).
fn upright((width, height, rows): Pixels, turned: u16) -> Pixels {
    if !(2..=8).contains(&turned) {
        return (width, height, rows);
    }
    let (across, down) = if turned >= 5 {
        (height, width)
    } else {
        (width, height)
    };
    let mut out = Vec::with_capacity(rows.len());
    for y in 0..down {
        for x in 0..across {
            let (from_x, from_y) = match turned {
                2 => (width - 1 - x, y),
                3 => (width - 1 - x, height - 1 - y),
                4 => (x, height - 1 - y),
                5 => (y, x),
                6 => (y, height - 1 - x),
                7 => (width - 1 - y, height - 1 - x),
                _ => (width - 1 - y, x),
            };
            let at = 3 * (from_y * width + from_x);
            out.extend_from_slice(&rows[at..at + 3]);
        }
    }
    (across, down, out)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 3 wide, 2 high: every pixel its own grey.
    fn little() -> Pixels {
        (3, 2, (0..6_u8).flat_map(|grey| [grey; 3]).collect())
    }

    fn greys((width, height, rows): Pixels) -> (usize, usize, Vec<u8>) {
        (
            width,
            height,
            rows.chunks(3).map(|pixel| pixel[0]).collect(),
        )
    }

    #[test]
    fn every_orientation_stands_as_the_brightness_does() {
        for turned in 0..=9 {
            let grey = (0..6).collect::<Vec<u8>>();
            let truth = rakeline_pixels::upright((3, 2), grey, turned);
            assert_eq!(greys(upright(little(), turned)), truth, "{turned}");
        }
    }

    #[test]
    fn a_large_picture_becomes_the_mean_of_its_squares() {
        let (width, height) = (2 * ON_PAPER, 4);
        let rows = (0..height).flat_map(|y| {
            (0..width).flat_map(move |x| {
                let grey = u8::try_from(10 * (x % 2) + 20 * (y % 2)).unwrap();
                [grey, 0, 200]
            })
        });
        let (across, down, small) = smaller((width, height, rows.collect()));
        assert_eq!((across, down), (ON_PAPER, 2));
        assert!(small.chunks(3).all(|pixel| pixel == [15, 0, 200]));
    }

    #[test]
    fn what_is_no_picture_is_refused() {
        assert_eq!(for_paper(b"").unwrap_err(), PhotoFault::Empty);
        assert_eq!(for_paper(b"%PDF-1.7").unwrap_err(), PhotoFault::OtherType);
    }
}
