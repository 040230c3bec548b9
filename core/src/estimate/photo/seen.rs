//! What was seen in a photo: mark cards with their crosses, what is wrong
//! with others, and what the camera wrote beside the pixels.
//!
//! # Pixels
//! As in [`super`]: x right, y downward, the first pixel's centre is (0, 0).
//! All places are in the upright picture, its orientation applied.

use serde::{Deserialize, Serialize};

use super::card::CARDS_GREATEST;
use crate::text::{Message, msg};

/// The middle of one cross.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CrossSeen {
    /// Pixels to the right.
    pub x: f64,
    /// Pixels downward.
    pub y: f64,
    /// Standard uncertainty on each axis, pixels.
    pub u: f64,
}

/// How well a card is seen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardQuality {
    /// Standard deviation of the blur across its edges, pixels.
    pub blur: f64,
    /// Size of a cell of a cross, pixels, the smaller of both ways.
    pub cell: f64,
    /// White less black, share of the full scale of linear light.
    pub contrast: f64,
    /// Standard deviation of what the fit leaves, grey levels of 255.
    pub noise: f64,
    /// Share of what should be black that reads bright.
    pub glare: f64,
    /// Modules of the code that were misread and put right.
    pub misread: u32,
}

/// A mark card that can be measured on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardSeen {
    /// Its code; the number printed on it is one more.
    pub code: u16,
    /// Its crosses in the order of [`super::card::CROSSES`]: upper left,
    /// upper right, lower right, lower left on the card.
    pub crosses: [CrossSeen; 4],
    /// How well it is seen.
    pub quality: CardQuality,
}

/// Why a card can't be measured on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum CardTrouble {
    /// Part of it is outside of the picture.
    Cut,
    /// Its edges are too soft for its size.
    Blurred,
    /// A reflection covers part of it.
    Glare,
    /// It is too small in the picture.
    Small,
    /// Something covers part of it.
    Covered,
    /// Its crosses are there, its code can't be read.
    Unread,
    /// The same code stands on another card.
    Twice,
    /// The job has no mark for its code.
    WrongJob,
    /// It is mirrored, as a selfie camera may do.
    Mirrored,
}

/// A card that can't be measured on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardFault {
    /// Its code, where it could be read.
    pub code: Option<u16>,
    /// Its middle: pixels to the right and downward.
    pub at: (f64, f64),
    /// What is wrong.
    pub trouble: CardTrouble,
}

impl CardFault {
    /// What is wrong and what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        let card = match self.code {
            Some(code) => msg("photo-card").count("card", i64::from(code) + 1),
            None => msg("photo-a-card"),
        };
        let said = match self.trouble {
            CardTrouble::Cut => msg("photo-card-cut"),
            CardTrouble::Blurred => msg("photo-card-blurred"),
            CardTrouble::Glare => msg("photo-card-glare"),
            CardTrouble::Small => msg("photo-card-small"),
            CardTrouble::Covered => msg("photo-card-covered"),
            CardTrouble::Unread => msg("photo-card-unread"),
            CardTrouble::Twice => msg("photo-card-twice"),
            CardTrouble::WrongJob => msg("photo-card-wrong-job"),
            CardTrouble::Mirrored => msg("photo-card-mirrored"),
        };
        said.message("card", card)
    }
}

/// Where a picture comes from, by what is written beside its pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Origin {
    /// A camera's picture with its focal length and size.
    Camera,
    /// A camera's picture that was cropped or resized afterwards: its focal
    /// length no longer belongs to its pixels.
    Changed,
    /// No camera's focal length: a screenshot, or edited or sent through an
    /// app that drops it.
    #[default]
    Unknown,
}

/// What the camera wrote beside the pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Exif {
    /// Focal length as on 35 mm film, mm.
    pub focal_35mm: Option<f64>,
    /// Focal length, mm.
    pub focal_mm: Option<f64>,
    /// Orientation tag 1 to 8, already applied to the pixels.
    pub orientation: u16,
    /// Where the picture comes from.
    pub origin: Origin,
}

/// What was seen in one photo.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PhotoSeen {
    /// Pixels across, upright.
    pub width: u32,
    /// Pixels down, upright.
    pub height: u32,
    /// What the camera wrote.
    pub exif: Exif,
    /// Cards to measure on, by code; each code once.
    pub cards: Vec<CardSeen>,
    /// Cards that are seen and can't be measured on.
    pub faults: Vec<CardFault>,
}

impl PhotoSeen {
    /// Takes out the cards that a job with so many marks doesn't have.
    pub fn for_job(&mut self, marks: usize) {
        let marks = marks.min(CARDS_GREATEST);
        let (own, others) = core::mem::take(&mut self.cards)
            .into_iter()
            .partition(|card| usize::from(card.code) < marks);
        self.cards = own;
        self.faults
            .extend(others.iter().map(|card| card.fault(CardTrouble::WrongJob)));
    }
}

impl CardSeen {
    /// Its middle, pixels.
    #[must_use]
    pub fn middle(&self) -> (f64, f64) {
        let sum = self
            .crosses
            .iter()
            .fold((0.0, 0.0), |sum, cross| (sum.0 + cross.x, sum.1 + cross.y));
        (sum.0 / 4.0, sum.1 / 4.0)
    }

    /// The same card as one that can't be measured on.
    #[must_use]
    pub fn fault(&self, trouble: CardTrouble) -> CardFault {
        CardFault {
            code: Some(self.code),
            at: self.middle(),
            trouble,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn card(code: u16) -> CardSeen {
        let cross = |x, y| CrossSeen { x, y, u: 0.05 };
        CardSeen {
            code,
            crosses: [
                cross(0.0, 0.0),
                cross(8.0, 0.0),
                cross(8.0, 6.0),
                cross(0.0, 6.0),
            ],
            quality: CardQuality {
                blur: 1.0,
                cell: 10.0,
                contrast: 0.7,
                noise: 2.0,
                glare: 0.0,
                misread: 0,
            },
        }
    }

    #[test]
    fn a_card_of_another_job_is_named_and_not_measured_on() {
        let mut seen = PhotoSeen {
            cards: vec![card(1), card(4)],
            ..PhotoSeen::default()
        };
        seen.for_job(4);
        assert_eq!(seen.cards, [card(1)]);
        let fault = &seen.faults[0];
        assert_eq!((fault.code, fault.at), (Some(4), (4.0, 3.0)));
        assert_eq!(fault.message().key, "photo-card-wrong-job");
    }
}
