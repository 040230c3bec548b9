//! How sharp a whole picture is, by its strongest edges.

use super::Rows;

/// Near and far differences are taken over so many pixels.
const NEAR: usize = 2;
const FAR: usize = 16;
/// Share of the differences that are taken for edges.
const EDGES: f64 = 0.002;

/// By the strongest edges across and down: the difference over 2 pixels, share
/// of that over 16. An edge blurred with a standard deviation of s pixels
/// gives erf(1 / (s √2)): 0.68 for one pixel, 0.38 for two, 0.26 for three.
/// `None` for a picture without edges.
#[must_use]
pub fn sharpness(rows: Rows) -> Option<[f64; 2]> {
    let step = |across: bool, by: usize| if across { by } else { by * rows.width };
    let ratio = |across: bool| {
        let (width, height) = (rows.width, rows.height);
        let (right, low) = if across { (FAR, 0) } else { (0, FAR) };
        let strongest = |by: usize| {
            let mut counts = [0usize; 256];
            for y in (0..height.saturating_sub(low)).step_by(2) {
                let from = y * width;
                for at in from..from + width.saturating_sub(right) {
                    let other = rows.pixels[at + step(across, by)];
                    counts[usize::from(rows.pixels[at].abs_diff(other))] += 1;
                }
            }
            let most = (EDGES * counts.iter().sum::<usize>() as f64) as usize;
            let mut above = 0;
            (0..256).rev().find(|level| {
                above += counts[*level];
                above > most
            })
        };
        let (near, far) = (strongest(NEAR)?, strongest(FAR)?);
        (far >= FAINT).then(|| near as f64 / far as f64)
    };
    Some([ratio(true)?, ratio(false)?])
}

/// Edges fainter than so many grey levels tell nothing.
const FAINT: usize = 24;

#[cfg(test)]
mod tests {
    use super::*;

    /// Bars of 40 pixels both ways, their edges ramps of so many pixels.
    fn bars(ramp: usize) -> Vec<u8> {
        let size = 200;
        let side = |at: usize| {
            let place = at % 80;
            match place {
                0..40 => (place.min(ramp) * 60 / ramp) as u8,
                _ => ((ramp - (place - 40).min(ramp)) * 60 / ramp) as u8,
            }
        };
        let of = |at: usize| 40 + side(at % size) + side(at / size);
        (0..size * size).map(of).collect()
    }

    #[test]
    fn a_ramp_of_eight_pixels_gives_a_quarter_and_a_step_gives_all() {
        let of = |ramp: usize| {
            let pixels = bars(ramp);
            sharpness(Rows {
                width: 200,
                height: 200,
                pixels: &pixels,
            })
        };
        assert_eq!(of(1), Some([1.0, 1.0]));
        let [across, down] = of(8).unwrap();
        assert!((across - 0.25).abs() < 0.01 && (down - 0.25).abs() < 0.01);
        let even = vec![90; 4_000];
        let even = Rows {
            width: 100,
            height: 40,
            pixels: &even,
        };
        assert_eq!(sharpness(even), None);
    }
}
