//! What each field of a kit sheet may hold. One table serves the parser, the
//! check while typing and the limits in the JSON Schema.
//!
//! The bounds are our own: wide enough for any kit, narrow enough to catch
//! inches, missing decimal points and slips.

use serde::{Deserialize, Deserializer};

/// A whole number that may be written as `6.0`, as JSON Schema allows; its
/// bounds were checked before.
pub(super) fn whole<'de, D: Deserializer<'de>>(from: D) -> Result<u32, D::Error> {
    f64::deserialize(from).map(|number| number as u32)
}

/// As [`whole`], where `null` is 'not given'.
pub(super) fn some_whole<'de, D: Deserializer<'de>>(from: D) -> Result<Option<u32>, D::Error> {
    Option::<f64>::deserialize(from).map(|number| number.map(|n| n as u32))
}

/// Whether a field must be there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Need {
    /// Must be there.
    Required,
    /// May be missing; then a stated default holds.
    Defaulted,
    /// May be missing or `null`: not given.
    Optional,
}

/// The unit of a number, for messages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Millimetres,
    /// Degrees.
    Degrees,
    /// Milliseconds.
    Millis,
    /// Volts.
    Volts,
    /// Amperes.
    Amperes,
    /// Hertz.
    Hertz,
    /// Kilohertz.
    Kilohertz,
    /// A plain count.
    Count,
}

impl Unit {
    /// The key of the unit's word.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Millimetres => "kit-unit-mm",
            Self::Degrees => "kit-unit-deg",
            Self::Millis => "kit-unit-ms",
            Self::Volts => "kit-unit-v",
            Self::Amperes => "kit-unit-a",
            Self::Hertz => "kit-unit-hz",
            Self::Kilohertz => "kit-unit-khz",
            Self::Count => "kit-unit-count",
        }
    }
}

/// What a field holds.
#[derive(Clone, Copy, Debug)]
pub(super) enum Kind {
    /// A number from least to greatest, both allowed.
    Number {
        unit: Unit,
        least: f64,
        greatest: f64,
    },
    /// A whole number from least to greatest, both allowed.
    Whole { least: u32, greatest: u32 },
    /// A text with something in it, of at most so many characters.
    Text { longest: usize },
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// `true` or `false`.
    Switch,
    /// A group of fields.
    Group(&'static [Field]),
    /// A list with so many entries.
    List {
        of: &'static Kind,
        least: usize,
        most: usize,
    },
}

/// One field of a group.
#[derive(Clone, Copy, Debug)]
pub(super) struct Field {
    pub name: &'static str,
    pub need: Need,
    pub kind: Kind,
}

const fn field(need: Need, name: &'static str, kind: Kind) -> Field {
    Field { name, need, kind }
}

const fn mm(least: f64, greatest: f64) -> Kind {
    Kind::Number {
        unit: Unit::Millimetres,
        least,
        greatest,
    }
}

const fn deg(least: f64, greatest: f64) -> Kind {
    Kind::Number {
        unit: Unit::Degrees,
        least,
        greatest,
    }
}

const fn ms(least: f64, greatest: f64) -> Kind {
    Kind::Number {
        unit: Unit::Millis,
        least,
        greatest,
    }
}

const fn number(unit: Unit, least: f64, greatest: f64) -> Kind {
    Kind::Number {
        unit,
        least,
        greatest,
    }
}

const fn list(of: &'static Kind, least: usize, most: usize) -> Kind {
    Kind::List { of, least, most }
}

use Need::{Defaulted, Optional, Required};

/// A name or label.
const NAME: Kind = Kind::Text { longest: 60 };
/// A sentence or two.
const NOTE: Kind = Kind::Text { longest: 2000 };
/// What a ring, insert or combination may add.
const LIFT: Kind = deg(-30.0, 45.0);
/// A drilled hole.
const HOLE: Kind = mm(8.0, 90.0);
const MATERIAL: Kind = Kind::OneOf(&["plastic", "fibre", "metal"]);

const GRIP: &[Field] = &[
    field(Required, "least", mm(0.2, 30.0)),
    field(Required, "greatest", mm(0.2, 30.0)),
];

const HEADS: &[Field] = &[
    field(Required, "labels", list(&NAME, 1, 16)),
    field(Optional, "comes_with", NAME),
    field(Defaulted, "bare_lift", LIFT),
    field(Optional, "diameter", mm(5.0, 90.0)),
    field(Optional, "flange_diameter", mm(5.0, 120.0)),
    field(Optional, "grip", Kind::Group(GRIP)),
    field(Optional, "depth", mm(3.0, 150.0)),
    field(Optional, "connector_diameter", mm(2.0, 90.0)),
    field(Optional, "connector_length", mm(0.0, 150.0)),
    field(Optional, "bend", mm(0.0, 150.0)),
    field(Defaulted, "colours", list(&NAME, 0, 30)),
];

const RING: Kind = Kind::Group(&[
    field(Required, "name", NAME),
    field(Required, "lift", LIFT),
    field(Optional, "thickness", mm(0.0, 50.0)),
    field(Optional, "paintable", Kind::Switch),
    field(Optional, "comes_off", NOTE),
    field(Optional, "seats", NOTE),
]);

const INSERT: Kind = Kind::Group(&[
    field(Required, "name", NAME),
    field(Required, "lift", LIFT),
    field(Required, "hole", HOLE),
    field(Defaulted, "needed_for", list(&MATERIAL, 0, 3)),
    field(Optional, "covers_old_hole", HOLE),
]);

const TOTAL: Kind = Kind::Group(&[
    field(Required, "ring", NAME),
    field(Optional, "insert", NAME),
    field(Required, "lift", deg(-60.0, 90.0)),
]);

const AIM: &[Field] = &[
    field(Required, "least", deg(-30.0, 45.0)),
    field(Required, "greatest", deg(-30.0, 45.0)),
    field(Required, "target", deg(-30.0, 45.0)),
];

const MARK_OUT: &[Field] = &[
    field(Required, "inner", mm(10.0, 1500.0)),
    field(Required, "corner_gap_least", mm(10.0, 1500.0)),
    field(Defaulted, "corner_gap_greatest", mm(10.0, 1500.0)),
    field(Defaulted, "spacing_least", mm(20.0, 1500.0)),
    field(Optional, "spacing_greatest", mm(20.0, 3000.0)),
    field(Defaulted, "odd_head_within", mm(0.0, 500.0)),
    field(Defaulted, "clearance", mm(0.0, 200.0)),
];

const HOLE_FOR: Kind = Kind::Group(&[
    field(Required, "material", MATERIAL),
    field(Required, "diameter", HOLE),
]);

const HOLES: &[Field] = &[
    field(Required, "head", HOLE),
    field(Defaulted, "by_material", list(&HOLE_FOR, 0, 3)),
    field(Optional, "pilot", mm(1.0, 20.0)),
];

const LEAD: Kind = Kind::Group(&[
    field(Required, "length", mm(100.0, 60_000.0)),
    field(Optional, "extension", mm(100.0, 60_000.0)),
    field(Optional, "long", mm(100.0, 60_000.0)),
]);

const LEADS: &[Field] = &[
    field(Optional, "head", LEAD),
    field(Optional, "display", LEAD),
    field(Optional, "speaker", LEAD),
    field(Optional, "supply", LEAD),
];

const SOCKET: Kind = Kind::Group(&[
    field(Required, "label", NAME),
    field(Optional, "takes", NAME),
]);

const ZONE_SHIFT: &[Field] = &[
    field(Optional, "how", NOTE),
    field(Required, "distance", mm(1.0, 2000.0)),
];

const CONTROL_BOX: &[Field] = &[
    field(Defaulted, "sockets", list(&SOCKET, 0, 40)),
    field(Optional, "zone_shift", Kind::Group(ZONE_SHIFT)),
];

const SUPPLY: &[Field] = &[
    field(Optional, "least_volts", number(Unit::Volts, 3.0, 60.0)),
    field(Optional, "greatest_volts", number(Unit::Volts, 3.0, 60.0)),
    field(Optional, "amperes", number(Unit::Amperes, 0.001, 30.0)),
    field(Optional, "fuse_amperes", number(Unit::Amperes, 0.1, 40.0)),
];

const VOLUME: &[Field] = &[
    field(Optional, "place", NOTE),
    field(Optional, "how", NOTE),
    field(
        Optional,
        "steps",
        Kind::Whole {
            least: 1,
            greatest: 100,
        },
    ),
];

const OUTPUT: &[Field] = &[
    field(
        Required,
        "kind",
        Kind::OneOf(&["display", "speaker", "both"]),
    ),
    field(Optional, "note", NOTE),
];

const OBSTACLE_LEARN: &[Field] = &[
    field(
        Required,
        "cycles",
        Kind::Whole {
            least: 1,
            greatest: 50,
        },
    ),
    field(Required, "silent", ms(100.0, 120_000.0)),
    field(
        Optional,
        "confirmed_by",
        Kind::OneOf(&["beep", "light", "nothing"]),
    ),
    field(Optional, "last_beeps", Kind::Switch),
    field(
        Optional,
        "ends_with",
        Kind::OneOf(&["beep", "light", "nothing"]),
    ),
    field(Optional, "shortest_dwell", ms(0.0, 60_000.0)),
    field(Optional, "longest_gap", ms(100.0, 600_000.0)),
    field(Optional, "tone_hertz", number(Unit::Hertz, 20.0, 20_000.0)),
    field(Optional, "cleared_by", NOTE),
];

const SENSING: &[Field] = &[
    field(Optional, "rated_range", mm(200.0, 20_000.0)),
    field(
        Optional,
        "frequency_kilohertz",
        number(Unit::Kilohertz, 10.0, 500.0),
    ),
    field(Optional, "beam_across", deg(1.0, 180.0)),
    field(Optional, "beam_upright", deg(1.0, 180.0)),
    field(Optional, "beam_way", Kind::OneOf(&["one_way", "two_way"])),
    field(Optional, "ringing", ms(0.01, 50.0)),
];

const HEIGHT: &[Field] = &[
    field(Required, "least", mm(50.0, 3000.0)),
    field(Required, "greatest", mm(50.0, 3000.0)),
];

/// Characters of a kit's name at most.
pub(super) const LONGEST_NAME: usize = 120;

/// The whole sheet.
pub(super) const SHEET: &[Field] = &[
    field(
        Required,
        "rakeline_kit",
        Kind::Whole {
            least: super::VERSION,
            greatest: super::VERSION,
        },
    ),
    field(
        Required,
        "name",
        Kind::Text {
            longest: LONGEST_NAME,
        },
    ),
    field(Optional, "units", Kind::OneOf(&["mm"])),
    field(Optional, "note", NOTE),
    field(Required, "heads", Kind::Group(HEADS)),
    field(Required, "rings", list(&RING, 1, 40)),
    field(Defaulted, "inserts", list(&INSERT, 0, 40)),
    field(Defaulted, "totals", list(&TOTAL, 0, 1640)),
    field(Required, "aim", Kind::Group(AIM)),
    field(Defaulted, "lift_tolerance", deg(0.0, 10.0)),
    field(Required, "mark_out", Kind::Group(MARK_OUT)),
    field(Required, "holes", Kind::Group(HOLES)),
    field(Optional, "leads", Kind::Group(LEADS)),
    field(Optional, "control_box", Kind::Group(CONTROL_BOX)),
    field(Optional, "supply", Kind::Group(SUPPLY)),
    field(Optional, "volume", Kind::Group(VOLUME)),
    field(Optional, "output", Kind::Group(OUTPUT)),
    field(Optional, "obstacle_learn", Kind::Group(OBSTACLE_LEARN)),
    field(Optional, "sensing", Kind::Group(SENSING)),
    field(Optional, "height", Kind::Group(HEIGHT)),
    field(Optional, "paint_limit", mm(0.005, 3.0)),
];
