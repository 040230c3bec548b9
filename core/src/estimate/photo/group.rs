//! Crosses put together into cards, and named by the code between them.

use rakeline_pixels::Rows;

use super::card::CROSSES;
use super::code::{Between, Read, read};
use super::cross::Cross;
use super::homography::Homography;

/// A card as it was put together: its code and where its crosses should be.
#[derive(Clone, Debug)]
pub struct Found {
    /// The code between the crosses.
    pub read: Read,
    /// Crosses in the order of [`CROSSES`], pixels.
    pub crosses: [[f64; 2]; 4],
}

/// Four crosses around a code that no reading made sense of.
pub type Nameless = [[f64; 2]; 4];

/// What came of it.
#[derive(Clone, Debug, Default)]
pub struct Grouped {
    /// Cards with their code.
    pub found: Vec<Found>,
    /// Well-shaped cards without one.
    pub nameless: Vec<Nameless>,
    /// Squares of crosses around something dark: cards too soft to be read,
    /// or chance.
    pub soft: Vec<Nameless>,
}

/// Longest side of a card's square of crosses, share of the picture.
const LONGEST: f64 = 0.4;
/// Places on a side between two crosses that are white on the card; the
/// pointer and the lettering stand in the middle of the lower side.
const WHITE: [f64; 6] = [0.21, 0.26, 0.31, 0.69, 0.74, 0.79];
/// Shortest side of a card's square of crosses, pixels.
const SIDE_LEAST: f64 = 14.0;
/// Farthest that a side may lie off a cross's edge, sine.
const OFF: f64 = 0.24;
/// Farthest that two crosses' edges may differ, sine.
const TWIST: f64 = 0.45;
/// Greatest ratio of both sides: a card seen from the side is narrow.
const NARROW: f64 = 6.0;
/// Farthest of the fourth cross from the parallelogram, share of the sides.
const SKEW: f64 = 0.14;
/// Least ratio of the contrasts of two crosses of one card.
const ALIKE: f64 = 0.3;
/// Most codes that are read: a tiled wall has many squares.
const READS_MOST: usize = 30_000;
/// Nearest neighbours each way that are tried.
const TRIED: usize = 10;
/// Most squares around something dark that are kept.
const SOFT_MOST: usize = 60;

/// Puts crosses together. Of two readings of one place the one with more
/// crosses seen counts.
#[must_use]
pub fn group(rows: Rows, crosses: &[Cross]) -> Grouped {
    let mut search = Search {
        rows,
        crosses,
        used: vec![false; crosses.len()],
        reads: 0,
        doubtful: Vec::new(),
        grouped: Grouped::default(),
    };
    let longest = LONGEST * rows.width.max(rows.height) as f64;
    let grid = Near::new(crosses, longest);
    let mut threes = Vec::new();
    for corner in 0..crosses.len() {
        if !search.used[corner] {
            search.around_corner(corner, &grid, &mut threes);
        }
    }
    search.settle_doubtful();
    for three in threes {
        search.three(three);
    }
    for (one, cross) in crosses.iter().enumerate() {
        if !search.used[one] && search.near_edge(cross.at, longest) {
            search.cut(one, &grid);
        }
    }
    search.grouped
}

/// Crosses by place.
pub(super) struct Near {
    cell: f64,
    columns: usize,
    cells: Vec<Vec<usize>>,
    longest: f64,
}

impl Near {
    fn new(crosses: &[Cross], longest: f64) -> Self {
        let cell = 64.0;
        let greatest = |k: usize| crosses.iter().map(|c| c.at[k]).fold(0.0, f64::max);
        let columns = (greatest(0) / cell) as usize + 1;
        let lines = (greatest(1) / cell) as usize + 1;
        let mut cells = vec![Vec::new(); columns * lines];
        for (n, cross) in crosses.iter().enumerate() {
            let place = |k: usize| (cross.at[k].max(0.0) / cell) as usize;
            cells[place(1).min(lines - 1) * columns + place(0).min(columns - 1)].push(n);
        }
        Self {
            cell,
            columns,
            cells,
            longest,
        }
    }

    /// Those within `reach` of a place.
    fn within(&self, at: [f64; 2], reach: f64) -> impl Iterator<Item = usize> {
        let lines = self.cells.len() / self.columns;
        let span = |k: usize, count: usize| {
            let from = ((at[k] - reach).max(0.0) / self.cell) as usize;
            let to = ((at[k] + reach).max(0.0) / self.cell) as usize;
            from.min(count - 1)..=to.min(count - 1)
        };
        let across = span(0, self.columns);
        span(1, lines).flat_map(move |line| {
            across
                .clone()
                .flat_map(move |column| self.cells[line * self.columns + column].iter().copied())
        })
    }
}

/// Four crosses whose code is read, but not without a misread module: perhaps
/// one of them is a corner of something else.
struct Doubtful {
    of: [usize; 4],
    places: [[f64; 2]; 4],
    read: Read,
}

/// Three of a card's crosses: the corner, the next along x, along y, and
/// where the fourth should be.
struct Three {
    of: [usize; 3],
    places: [[f64; 2]; 4],
}

pub(super) struct Search<'a> {
    pub(super) rows: Rows<'a>,
    pub(super) crosses: &'a [Cross],
    pub(super) used: Vec<bool>,
    reads: usize,
    doubtful: Vec<Doubtful>,
    grouped: Grouped,
}

pub(super) fn cross2(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

pub(super) fn minus(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [a[0] - b[0], a[1] - b[1]]
}

pub(super) fn length(a: [f64; 2]) -> f64 {
    a[0].hypot(a[1])
}

impl Search<'_> {
    /// Takes a cross as the upper left one of a card: the next to the right
    /// and the next below are looked for along its edges.
    fn around_corner(&mut self, corner: usize, near: &Near, threes: &mut Vec<Three>) {
        let own = self.crosses[corner];
        let [ahead, back] = self.along_edges(corner, near);
        // Downward on the card is a quarter clockwise from its x axis.
        let turned = cross2(own.across, own.along) > 0.0;
        for (right, below) in [(&ahead, usize::from(!turned)), (&back, usize::from(turned))] {
            let lists = [&ahead, &back];
            for &r in &right[0] {
                for &b in &lists[below][1] {
                    if self.square(corner, r, b, near, threes) {
                        return;
                    }
                }
            }
        }
        // As the lower left one (or, upside down, the upper right one) of a
        // card whose cross opposite is hidden.
        for (right, above) in [(&ahead, usize::from(turned)), (&back, usize::from(!turned))] {
            let lists = [&ahead, &back];
            for &r in &right[0] {
                for &a in &lists[above][1] {
                    let [own, r_at, a_at] = [corner, r, a].map(|n| self.crosses[n].at);
                    let (wide, high) = (length(minus(r_at, own)), length(minus(a_at, own)));
                    let fourth = [a_at[0] + r_at[0] - own[0], a_at[1] + r_at[1] - own[1]];
                    if wide.max(high) <= NARROW * wide.min(high) && threes.len() < READS_MOST {
                        threes.push(Three {
                            of: [corner, r, a],
                            places: [a_at, fourth, r_at, own],
                        });
                    }
                }
            }
        }
    }

    /// Crosses that could be of a cross's card, nearest first: ahead along
    /// its x edge and its y edge, and back along both.
    pub(super) fn along_edges(&self, from: usize, near: &Near) -> [[Vec<usize>; 2]; 2] {
        let own = &self.crosses[from];
        let ways = [own.across, own.along];
        let mut found: [[Vec<(f64, usize)>; 2]; 2] = Default::default();
        for n in near.within(own.at, near.longest) {
            let other = &self.crosses[n];
            let to = minus(other.at, own.at);
            for (k, way) in ways.iter().enumerate() {
                let forth = to[0] * way[0] + to[1] * way[1];
                if cross2(*way, to).abs() < OFF * forth.abs()
                    && forth.abs() > SIDE_LEAST
                    && !self.used[n]
                    && cross2(own.across, other.across).abs() < TWIST
                    && cross2(own.along, other.along).abs() < TWIST
                    && alike(own.contrast, other.contrast)
                    && self.white_between(own, other)
                {
                    found[usize::from(forth < 0.0)][k].push((forth.abs(), n));
                }
            }
        }
        found.map(|pair| {
            pair.map(|mut list| {
                list.sort_by(|a, b| a.0.total_cmp(&b.0));
                list.truncate(TRIED);
                list.into_iter().map(|(_, n)| n).collect()
            })
        })
    }

    /// Whether the side between two crosses is white paper.
    fn white_between(&self, one: &Cross, other: &Cross) -> bool {
        WHITE.iter().all(|share| {
            let at = |k: usize| one.at[k] + share * (other.at[k] - one.at[k]);
            let mid = one.mid + share * (other.mid - one.mid);
            self.rows.at(at(0), at(1)) > mid
        })
    }

    /// Tries corner, right and below with what stands at the fourth place.
    fn square(
        &mut self,
        corner: usize,
        right: usize,
        below: usize,
        near: &Near,
        threes: &mut Vec<Three>,
    ) -> bool {
        let [own, r, b] = [corner, right, below].map(|n| self.crosses[n].at);
        let (wide, high) = (length(minus(r, own)), length(minus(b, own)));
        if wide.max(high) > NARROW * wide.min(high) {
            return false;
        }
        let fourth = [r[0] + b[0] - own[0], r[1] + b[1] - own[1]];
        let reach = SKEW * (wide + high) / 2.0;
        let mut candidates: Vec<(f64, usize)> = near
            .within(fourth, reach)
            .filter(|&n| {
                let other = &self.crosses[n];
                ![corner, right, below].contains(&n)
                    && !self.used[n]
                    && cross2(self.crosses[corner].across, other.across).abs() < TWIST
                    && cross2(self.crosses[corner].along, other.along).abs() < TWIST
            })
            .map(|n| (length(minus(self.crosses[n].at, fourth)), n))
            .filter(|(off, _)| *off < reach)
            .collect();
        candidates.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (_, last) in candidates.into_iter().take(3) {
            let of = [corner, right, last, below];
            let places = of.map(|n| self.crosses[n].at);
            let Some(read) = self.read_at(places, 4) else {
                continue;
            };
            if read.misread > 0 {
                self.doubtful.push(Doubtful { of, places, read });
                continue;
            }
            self.keep(&of, places, read);
            return true;
        }
        if threes.len() < READS_MOST {
            threes.push(Three {
                of: [corner, right, below],
                places: [own, r, fourth, b],
            });
        }
        false
    }

    /// Takes what was read with misread modules, fewest first, where no better
    /// reading has taken the crosses.
    fn settle_doubtful(&mut self) {
        let mut doubtful = std::mem::take(&mut self.doubtful);
        doubtful.sort_by_key(|card| card.read.misread);
        for Doubtful { of, places, read } in doubtful {
            if !of.iter().any(|&n| self.used[n]) {
                self.keep(&of, places, read);
            }
        }
    }

    /// Tries three crosses: the code tells whether there is a card.
    fn three(&mut self, three: Three) {
        if three.of.iter().any(|&n| self.used[n]) {
            return;
        }
        if let Some(read) = self.read_at(three.places, 3) {
            self.keep(&three.of, three.places, read);
        }
    }

    /// The code between four places, of which so many are crosses.
    pub(super) fn read_at(&mut self, places: [[f64; 2]; 4], seen: usize) -> Option<Read> {
        if self.reads >= READS_MOST {
            return None;
        }
        self.reads += 1;
        let map = Homography::through(&CROSSES, &places)?;
        match read(self.rows, &map) {
            Between::Code(read) => return Some(read),
            Between::Border if seen == 4 => self.grouped.nameless.push(places),
            Between::Nothing
                if seen == 4
                    && self.grouped.soft.len() < SOFT_MOST
                    && dark_inside(self.rows, &map) =>
            {
                self.grouped.soft.push(places);
            }
            Between::Border | Between::Nothing => {}
        }
        None
    }

    /// Keeps a card that was read, and its crosses as used.
    pub(super) fn keep(&mut self, of: &[usize], places: [[f64; 2]; 4], read: Read) {
        for &n in of {
            self.used[n] = true;
        }
        let turn = usize::from(read.turned);
        self.grouped.found.push(Found {
            read,
            crosses: core::array::from_fn(|n| places[(n + turn) % 4]),
        });
    }
}

/// Whether the middle of a square of crosses is darker than its sides.
fn dark_inside(rows: Rows, map: &Homography) -> bool {
    const STEPS: [f64; 5] = [-14.0, -7.0, 0.0, 7.0, 14.0];
    let grey = |x: f64, y: f64| {
        let [u, v] = map.at((x, y));
        rows.at(u, v)
    };
    let inside: Vec<f64> = STEPS
        .iter()
        .flat_map(|x| STEPS.map(|y| grey(*x, y)))
        .collect();
    let sides: Vec<f64> = [-27.0, 27.0]
        .into_iter()
        .flat_map(|far| STEPS.map(|along| [grey(far, along), grey(along, far.abs())]))
        .flatten()
        .collect();
    let mean = |of: &[f64]| of.iter().sum::<f64>() / of.len() as f64;
    let least = sides.iter().copied().fold(f64::INFINITY, f64::min);
    mean(&sides) > mean(&inside) + 20.0 && least > mean(&inside)
}

fn alike(one: f64, other: f64) -> bool {
    one.min(other) > ALIKE * one.max(other)
}
