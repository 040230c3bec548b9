//! What the heads will see, drawn: squares on a dimensioned plan behind the
//! vehicle, from above and from the side, with what it comes to in words.
//!
//! A prediction, not a promise; it is for the workshop, not for the
//! customer's page.

mod above;
mod side;
mod squares;
mod words;

use serde::{Deserialize, Serialize};

use super::Drawing;
use crate::decide::coverage::{Air, HeadInPlace, HeadLevel, Place, Target, predict};
use crate::job::{
    AirField, Asked, Field, JobState, ObjectField, air_of, air_trouble, asked_for_coverage,
    heads_in_place, object_trouble,
};
use crate::text::Message;
use crate::units::{Degrees, Millimetres, Offset};

/// The air that is asked for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Day {
    /// As typed in the job, reference air where nothing is.
    #[default]
    Typed,
    /// A frosty morning.
    Winter,
    /// A hot afternoon.
    Summer,
}

/// What stands behind the vehicle on the picture from above.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Standing {
    /// The test pole.
    #[default]
    Pole,
    /// A wall across.
    Wall,
    /// A kerb across.
    Kerb,
}

impl Standing {
    fn target(self) -> Target {
        match self {
            Self::Pole => Target::Pole,
            Self::Wall => Target::Wall,
            Self::Kerb => Target::Kerb,
        }
    }
}

/// A place that is asked about.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Probe {
    /// On the picture from above: across and behind, mm.
    Above(f64, f64),
    /// On the picture from the side: behind and height, mm.
    Side(f64, f64),
}

/// How fine the squares are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Squares {
    /// While something moves.
    Coarse,
    /// At rest.
    #[default]
    Fine,
}

/// What the picture is asked to show.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct SightAsked {
    /// Whose air.
    pub day: Day,
    /// What stands there.
    pub standing: Standing,
    /// One head alone, or all together.
    pub only: Option<usize>,
    /// Degrees that each head points higher (+) than it is to.
    pub tilted: Vec<f64>,
    /// The place asked about.
    pub probe: Option<Probe>,
    /// How fine.
    pub squares: Squares,
}

/// The pictures and what they come to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sight {
    /// From above.
    pub above: Drawing,
    /// From the side.
    pub side: Drawing,
    /// The share covered.
    pub headline: Message,
    /// Largest gap, weakest place, too-close zone.
    pub lines: Vec<Message>,
    /// Where each head points and how much of the ground it picks up.
    pub ground: Vec<Message>,
    /// What each head has to spare at the place asked about.
    pub probe: Vec<Message>,
    /// The fixed object: who sees it, what to do first and second.
    pub object: Vec<Message>,
    /// What is wrong with typed figures.
    pub faults: Vec<(Field, Message)>,
    /// Heads that can't see.
    pub troubles: Vec<Message>,
    /// What is assumed and what is calibrated.
    pub based: Vec<Message>,
    /// What the sheet is asked for.
    pub asked: Vec<Asked>,
}

/// Computes and draws what the heads of a job will see.
///
/// # Errors
/// A message while no marks are planned, or when the sheet makes no beam.
pub fn sight(job: &JobState, asked: &SightAsked) -> Result<Sight, Message> {
    let mut placed = heads_in_place(job)?;
    for (head, by) in placed.heads.iter_mut().zip(&asked.tilted) {
        if by.is_finite() {
            head.aim = head.aim + Degrees(*by);
        }
    }
    let air = match asked.day {
        Day::Typed => air_of(job),
        Day::Winter => Air::WINTER,
        Day::Summer => Air::SUMMER,
    };
    let target = asked.standing.target();
    let shown = match asked.only {
        Some(one) => placed.heads.get(one..=one).unwrap_or(&placed.heads),
        None => &placed.heads,
    };
    let scene = Scene {
        job,
        heads: shown,
        all: &placed.heads,
        target,
        air,
        probe: asked.probe,
        cell: match asked.squares {
            Squares::Coarse => COARSE,
            Squares::Fine => FINE,
        },
        depth: depth(job),
    };
    let summed = words::summed(&scene);
    Ok(Sight {
        above: above::drawing(&scene, &summed),
        side: side::drawing(&scene),
        headline: words::headline(&summed),
        lines: words::lines(&summed, &scene),
        ground: words::ground(&scene),
        probe: words::probed(&scene),
        object: words::object(&scene),
        faults: faults(job),
        troubles: placed.troubles.clone(),
        based: words::based(&scene, &placed, asked),
        asked: asked_for_coverage(job),
    })
}

/// Squares while something moves, mm.
const COARSE: Millimetres = Millimetres(100.0);
/// Squares at rest, mm.
const FINE: Millimetres = Millimetres(50.0);
/// Shallowest and deepest picture, mm.
const DEPTHS: [f64; 2] = [1500.0, 4000.0];

/// Everything that pictures and words are made from.
struct Scene<'a> {
    job: &'a JobState,
    /// The heads shown.
    heads: &'a [HeadInPlace],
    /// All heads of the job.
    all: &'a [HeadInPlace],
    target: Target,
    air: Air,
    probe: Option<Probe>,
    cell: Millimetres,
    depth: f64,
}

impl Scene<'_> {
    /// Half widths of the vehicle, left and right, mm.
    fn half_widths(&self) -> [f64; 2] {
        self.job
            .marks
            .as_ref()
            .map_or([0.0; 2], |marks| [marks.half_left.0, marks.half_right.0])
    }

    /// What all heads have to spare at the place asked about.
    fn at_probe(&self) -> Vec<HeadLevel> {
        match self.probe {
            Some(Probe::Above(x, behind)) => {
                let at = Place {
                    across: Offset(x),
                    behind: Millimetres(behind),
                };
                predict(self.all, &self.target, at, &self.air)
            }
            Some(Probe::Side(behind, height)) => {
                let at = Place {
                    across: Offset(0.0),
                    behind: Millimetres(behind),
                };
                let height = Millimetres(height);
                predict(self.all, &Target::Bar { height }, at, &self.air)
            }
            None => Vec::new(),
        }
    }
}

fn depth(job: &JobState) -> f64 {
    let sensing = job.kit.sensing.as_ref();
    let range = sensing
        .and_then(|sensing| sensing.rated_range)
        .unwrap_or(crate::job::ASSUMED_RANGE);
    let [least, greatest] = DEPTHS;
    (((range.0 + 400.0) / 500.0).ceil() * 500.0).clamp(least, greatest)
}

fn faults(job: &JobState) -> Vec<(Field, Message)> {
    let air = [AirField::Celsius, AirField::Humidity, AirField::Pressure]
        .into_iter()
        .filter_map(|field| Some((Field::Air(field), air_trouble(job, field)?)));
    let object = [
        ObjectField::Across,
        ObjectField::Behind,
        ObjectField::Height,
        ObjectField::Radius,
    ]
    .into_iter()
    .filter_map(|field| Some((Field::Object(field), object_trouble(job, field)?)));
    air.chain(object).collect()
}
