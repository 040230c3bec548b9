//! A picture turned upright by its orientation tag.

/// Side of the squares in which rows become columns, pixels: what is read
/// and written stays in the cache.
const BLOCK: usize = 32;

/// Turns and mirrors rows of one byte a pixel by an orientation tag
/// (Exif 2.32, 4.6.4: 1 upright to 8; others count as 1). Gives the size
/// and rows of the upright picture.
#[must_use]
pub fn upright(
    (width, height): (usize, usize),
    mut pixels: Vec<u8>,
    orientation: u16,
) -> (usize, usize, Vec<u8>) {
    if width == 0 || height == 0 {
        return (width, height, pixels);
    }
    let lying = (5..=8).contains(&orientation);
    if lying {
        pixels = across((width, height), &pixels);
    }
    let (width, height) = if lying {
        (height, width)
    } else {
        (width, height)
    };
    match orientation {
        // Left and right change places; 6 is 5 with that.
        2 | 6 => mirror(width, &mut pixels),
        3 | 7 => pixels.reverse(),
        4 | 8 => {
            pixels.reverse();
            mirror(width, &mut pixels);
        }
        _ => {}
    }
    (width, height, pixels)
}

fn mirror(width: usize, pixels: &mut [u8]) {
    for row in pixels.chunks_exact_mut(width) {
        row.reverse();
    }
}

/// Rows become columns.
fn across((width, height): (usize, usize), pixels: &[u8]) -> Vec<u8> {
    let mut turned = vec![0; pixels.len()];
    for top in (0..height).step_by(BLOCK) {
        for left in (0..width).step_by(BLOCK) {
            for y in top..(top + BLOCK).min(height) {
                for x in left..(left + BLOCK).min(width) {
                    turned[x * height + y] = pixels[y * width + x];
                }
            }
        }
    }
    turned
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An upright 3 x 2 picture as stored under each orientation: what the
    /// tag says of the stored row 0 and column 0 (Exif 2.32, 4.6.4).
    #[test]
    fn every_orientation_comes_upright() {
        let upright_rows = [1, 2, 3, 4, 5, 6];
        let stored: [(u16, (usize, usize), [u8; 6]); 8] = [
            (1, (3, 2), [1, 2, 3, 4, 5, 6]),
            // 0th row at the top, 0th column at the right.
            (2, (3, 2), [3, 2, 1, 6, 5, 4]),
            // Bottom, right.
            (3, (3, 2), [6, 5, 4, 3, 2, 1]),
            // Bottom, left.
            (4, (3, 2), [4, 5, 6, 1, 2, 3]),
            // 0th row at the left, 0th column at the top.
            (5, (2, 3), [1, 4, 2, 5, 3, 6]),
            // Right, top.
            (6, (2, 3), [3, 6, 2, 5, 1, 4]),
            // Right, bottom.
            (7, (2, 3), [6, 3, 5, 2, 4, 1]),
            // Left, bottom.
            (8, (2, 3), [4, 1, 5, 2, 6, 3]),
        ];
        for (tag, size, pixels) in stored {
            let (width, height, rows) = upright(size, pixels.to_vec(), tag);
            assert_eq!((width, height), (3, 2), "{tag}");
            assert_eq!(rows, upright_rows, "{tag}");
        }
    }
}
