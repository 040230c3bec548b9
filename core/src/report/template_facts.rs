//! What a template shows, from a job.

use serde::{Deserialize, Serialize};

use crate::job::{JobState, along_known, centre_words, line_words, plan_curve, sets_taken};
use crate::text::Message;
use crate::units::{Millimetres, Offset};

/// One head on the template.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TemplateHead {
    /// Its label.
    pub label: String,
    /// Where it is, straight.
    pub at: Offset,
    /// The same place along the face from the centre line, + to the right.
    pub along: Millimetres,
    /// Diameter of its hole.
    pub hole: Millimetres,
}

/// How the strip was unrolled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Unrolled {
    /// No shape from above is known: straight distances.
    Straight,
    /// Along the face by the shape from above.
    AlongTheFace,
}

/// A line that runs true across and that the height was measured from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AcrossLine {
    /// How far above the marks it lies, along the face; negative below them.
    pub above: Millimetres,
    /// What it is called.
    pub called: Message,
}

/// What a template shows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TemplateFacts {
    /// What the fitter calls the job, else its name in the store.
    pub job: String,
    /// The heads, left to right.
    pub heads: Vec<TemplateHead>,
    /// How the places along the face came about.
    pub unrolled: Unrolled,
    /// The line that the height was measured from, if any.
    pub across: Option<AcrossLine>,
    /// How the centre line was found, in words, where it was said.
    #[serde(default)]
    pub centre: Option<Message>,
}

/// The template's facts of a job; `None` until it has marks. Along the face
/// where the shape from above is known and reaches every mark, else straight.
///
/// The hole is that of the ring set that goes in, else the head's own.
#[must_use]
pub fn template_facts(job: &JobState) -> Option<TemplateFacts> {
    let marks = job.marks.as_ref()?;
    let name = job.name.trim();
    let material = job.behind.material;
    let places = job.spots.iter().zip(&marks.offsets);
    let heads = places.zip(sets_taken(job)).map(|((spot, at), taken)| {
        let hole = taken.and_then(|taken| taken.set.hole(&job.kit, material));
        TemplateHead {
            label: spot.label.clone(),
            at: *at,
            along: Millimetres(at.0),
            hole: hole.unwrap_or_else(|| job.kit.head_hole(material)),
        }
    });
    let facts = TemplateFacts {
        job: if name.is_empty() { &job.id.0 } else { name }.to_owned(),
        heads: heads.collect(),
        unrolled: Unrolled::Straight,
        across: job.mark_out.row.map(|row| AcrossLine {
            above: -row.from_line,
            called: line_words(job),
        }),
        centre: centre_words(job),
    };
    let along: Option<Vec<Millimetres>> = plan_curve(job).and_then(|curve| {
        let place = |at: &Offset| along_known(&curve, *at).map(|along| along.value);
        marks.offsets.iter().map(place).collect()
    });
    Some(match along {
        Some(along) => facts.placed_along(&along),
        None => facts,
    })
}

impl TemplateFacts {
    /// The same heads along the face: `along` gives, for a straight offset,
    /// the length along the face from the centre line, + to the right.
    #[must_use]
    pub fn unrolled(mut self, along: impl Fn(Offset) -> Millimetres) -> Self {
        for head in &mut self.heads {
            head.along = along(head.at);
        }
        self.unrolled = Unrolled::AlongTheFace;
        self
    }

    /// The same heads at these lengths along the face, left to right.
    fn placed_along(mut self, along: &[Millimetres]) -> Self {
        for (head, along) in self.heads.iter_mut().zip(along) {
            head.along = *along;
        }
        self.unrolled = Unrolled::AlongTheFace;
        self
    }

    /// The same with the line that the height was measured from.
    #[must_use]
    pub fn from_line(mut self, across: AcrossLine) -> Self {
        self.across = Some(across);
        self
    }
}
