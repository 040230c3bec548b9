//! What a fitter types, read as a length or an angle.
//!
//! Typed text is hostile until read here: it may be empty, in another unit,
//! with a comma for the point, or nonsense. Nothing is guessed: a figure
//! that can't be meant is refused with what it would be in the unit that it
//! probably was.

use serde::{Deserialize, Serialize};

use super::kit_asked::Asked;
use super::limit::Limit;
use super::tape_limit::TapeLimit;
use crate::decide::supply::Reading;
use crate::estimate::turn::MOST_TURN;
use crate::figure;
use crate::sample::CheckLine;
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees, Estimate, Millimetres, Offset};

/// Shortest half width that a vehicle can have, mm (ours: a narrow
/// quadricycle is about 1.2 m wide).
pub const HALF_WIDTH_LEAST: Millimetres = Millimetres(500.0);
/// Longest half width, mm: half of 2.6 m, the widest vehicle allowed on
/// European roads (Council Directive 96/53/EC, annex I, 1.2, from memory),
/// and a little for trim.
pub const HALF_WIDTH_GREATEST: Millimetres = Millimetres(1350.0);
/// Steepest face angle that can be a bumper face, degrees either way (ours).
pub const FACE_GREATEST: Degrees = Degrees(45.0);
/// The ± of a digital angle gauge when none is typed, degrees (95 %).
pub const GAUGE_PLUS_MINUS: Degrees = Degrees(0.3);

/// A field that keeps its text as typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Field {
    /// Centre line to the left outer edge.
    HalfLeft,
    /// Centre line to the right outer edge.
    HalfRight,
    /// A face angle read off a gauge, without its sign.
    FaceAngle,
    /// The gauge's ±.
    GaugePlusMinus,
    /// Nose up/down along the sill.
    SillAngle,
    /// Name for the bay.
    BayName,
    /// The fitter's own allowance for load.
    LoadOwn,
    /// Corner angle of a spot.
    CornerAngle(u8),
    /// Tape figure of a place of the sweep.
    SweepTape(u8),
    /// Where an area to keep clear of begins, from the centre line.
    NoDrillFrom,
    /// Where it ends.
    NoDrillTo,
    /// What is there, in the fitter's words.
    NoDrillWhat,
    /// An old hole, from the centre line.
    OldHole,
    /// A mark moved by hand, from the centre line.
    MoveTo,
    /// From the line across to the row of heads.
    RowFromLine,
    /// Height of the row above the ground.
    RowHeight,
    /// A limit changed for this job.
    Limit(Limit),
    /// Tape read back at a spot, from the centre line.
    TapeMark(u8),
    /// Tape read back at a spot, from the line across.
    TapeLine(u8),
    /// Who agreed to the positions.
    AgreedName,
    /// Free depth behind the face.
    Depth(Whose),
    /// Thickness of the panel.
    Panel(Whose),
    /// Diameter of an old hole at a spot.
    OldHoleSize(u8),
    /// How far the saw's own centre drill reaches past the teeth.
    ReachPastTeeth,
    /// How far the step drill's tip is past the panel when the hole has its size.
    StepDrillReach,
    /// How warm the bumper is, °C.
    BumperCelsius,
    /// A lead's own route: a head's to the grommet, another's all the way.
    Route(WhichLead),
    /// Straight line from end to end of a lead.
    Straight(WhichLead),
    /// The way that all heads' leads share: grommet to control box.
    GrommetToBox,
    /// Slack that lets a head be taken out.
    Slack,
    /// A reading at the supply.
    Volts(Reading),
    /// Rating of the fuse at the take-off.
    FuseAmperes,
    /// Working time of the quote.
    QuoteMinutes,
    /// Price of an hour.
    QuoteAnHour,
    /// Why a set is taken by hand at a spot.
    HandReason(u8),
    /// A part that is added by hand.
    PartWords,
    /// What else is behind, in the fitter's words.
    BehindWords(Whose),
    /// What the control box is to ignore, in the fitter's words.
    LearnObject,
    /// A field of the sheet that the work asks for.
    Asked(Asked),
    /// Least share of a walk test's points that is asked, percent.
    WalkShare,
    /// Time from switching on to the driver being told, ms.
    WalkStartUp,
    /// Time from the pole being there to the driver being told, ms.
    WalkLatency,
    /// Greatest time from switching on that is asked, ms.
    WalkStartUpMost,
    /// Greatest time from the pole being there that is asked, ms.
    WalkLatencyMost,
    /// What the control box learned to ignore, in the fitter's words.
    ObjectWhat,
    /// Its middle, from the centre line.
    ObjectAcross,
    /// How wide it is.
    ObjectWidth,
    /// How far it reaches behind the bumper.
    ObjectReach,
    /// Face angle a hand's breadth to the left of a fitted head.
    BesideLeft(u8),
    /// Face angle a hand's breadth to the right of a fitted head.
    BesideRight(u8),
    /// What the fitted ring adds, where the sheet does not say.
    RingAdds(u8),
    /// Thickness of all paint on a head.
    PaintOn(u8),
    /// By how much the loaded rear sinks.
    RearSinks,
    /// The air of the day.
    Air(AirField),
    /// The fixed object behind the vehicle.
    Object(ObjectField),
    /// Outer edge to outer edge.
    FullWidth,
    /// The line that the height is measured from, in the fitter's words.
    RowLineWhat,
    /// A limit of the check before drilling, changed for this job.
    TapeLimit(TapeLimit),
}

/// A figure of the air of the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AirField {
    /// Temperature, °C.
    Celsius,
    /// Relative humidity, %.
    Humidity,
    /// Pressure, hPa.
    Pressure,
}

/// A figure of the fixed object behind the vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ObjectField {
    /// From the centre line, + to the right.
    Across,
    /// Its middle behind the bumper.
    Behind,
    /// Its middle above the ground.
    Height,
    /// Radius of a spare wheel's tread.
    Radius,
}

/// Whether something is meant for the whole bumper or one spot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Whose {
    /// All spots without an answer of their own.
    Bumper,
    /// One spot, 0 for the leftmost.
    Spot(u8),
}

/// Which lead of the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhichLead {
    /// The head's at a spot, 0 for the leftmost.
    Spot(u8),
    /// The display's.
    Display,
    /// The speaker's.
    Speaker,
    /// The supply's.
    Supply,
}

/// Millimetres in an inch, exact.
const INCH: f64 = 25.4;

/// Reads a length. Plain figures are millimetres; `mm`, `cm`, `m`, `in` and
/// `"` are understood; a comma is a decimal point.
///
/// # Errors
/// A message that says what stands there instead of a length.
pub fn read_length(text: &str) -> Result<Millimetres, Message> {
    let clean = text.trim().to_ascii_lowercase().replace(',', ".");
    let clean = clean.replace('−', "-");
    let (plain, factor) = split_unit(&clean);
    match figure::read(plain.trim()) {
        Some(value) if value.is_finite() => Ok(Millimetres(value * factor)),
        _ => Err(msg("entry-not-a-length").text("typed", text.trim())),
    }
}

fn split_unit(clean: &str) -> (&str, f64) {
    const UNITS: [(&str, f64); 6] = [
        ("mm", 1.0),
        ("cm", 10.0),
        ("inch", INCH),
        ("in", INCH),
        ("\"", INCH),
        ("m", 1000.0),
    ];
    UNITS
        .iter()
        .find_map(|(unit, factor)| clean.strip_suffix(unit).map(|figure| (figure, *factor)))
        .unwrap_or((clean, 1.0))
}

/// Reads a half width and holds it against what vehicles have.
///
/// # Errors
/// Zero, negative, too short (with what it would be as inches or
/// centimetres, where that fits) or too long, and by how much.
pub fn read_half_width(text: &str) -> Result<Millimetres, Message> {
    let length = read_length(text)?;
    let fits = |mm: f64| (HALF_WIDTH_LEAST.0..=HALF_WIDTH_GREATEST.0).contains(&mm);
    if fits(length.0) {
        return Ok(length);
    }
    let plain = |key| {
        msg(key)
            .number("typed", length.0, decimals(length.0))
            .mm("least", HALF_WIDTH_LEAST.0)
            .mm("greatest", HALF_WIDTH_GREATEST.0)
    };
    Err(if length.0 <= 0.0 {
        plain("half-width-not-positive")
    } else if fits(length.0 * INCH) {
        plain("half-width-inches").mm("inches", length.0 * INCH)
    } else if fits(length.0 * 10.0) {
        plain("half-width-centimetres").mm("centimetres", length.0 * 10.0)
    } else if length.0 < HALF_WIDTH_LEAST.0 {
        plain("half-width-too-small").mm("by", HALF_WIDTH_LEAST.0 - length.0)
    } else if fits(length.0 / 2.0) {
        plain("half-width-looks-full").mm("half", length.0 / 2.0)
    } else {
        plain("half-width-too-large").mm("by", length.0 - HALF_WIDTH_GREATEST.0)
    })
}

fn decimals(value: f64) -> u8 {
    u8::from((value - value.round()).abs() > 1e-9)
}

/// Reads a figure in degrees.
///
/// # Errors
/// A message when no finite figure stands there.
pub fn read_degrees(text: &str) -> Result<Degrees, Message> {
    let clean = text
        .trim()
        .trim_end_matches('°')
        .replace(',', ".")
        .replace('−', "-");
    match figure::read(clean.trim()) {
        Some(value) if value.is_finite() => Ok(Degrees(value)),
        _ => Err(msg("entry-not-an-angle").text("typed", text.trim())),
    }
}

/// Reads an offset from the centre line: a plain figure is signed (- left,
/// + right); `L` or `R` before or after it says the side as well.
///
/// # Errors
/// A message when no length stands there, or more than a bumper is wide.
pub fn read_offset(text: &str) -> Result<Offset, Message> {
    let clean = text.trim().to_ascii_lowercase().replace('−', "-");
    let (side, figure) = if let Some(rest) = clean.strip_prefix('l').or(clean.strip_suffix('l')) {
        (-1.0, rest.to_owned())
    } else if let Some(rest) = clean.strip_prefix('r').or(clean.strip_suffix('r')) {
        (1.0, rest.to_owned())
    } else {
        (1.0, clean)
    };
    let length = read_length(&figure)?;
    if length.abs() > HALF_WIDTH_GREATEST {
        return Err(msg("entry-offset-too-far")
            .mm("typed", length.abs().0)
            .mm("by", length.abs().0 - HALF_WIDTH_GREATEST.0)
            .mm("greatest", HALF_WIDTH_GREATEST.0));
    }
    Ok(Offset(length.0 * side))
}

/// Which way a typed face angle leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Facing {
    /// The face looks up: +.
    Up,
    /// The face looks down: -.
    Down,
}

/// Reads a face angle and the gauge's ± as typed. The direction comes from
/// `facing`; a minus sign typed as well turns it round.
///
/// # Errors
/// Not a figure, steeper than [`FACE_GREATEST`], or a ± that isn't above 0
/// and at most 10 degrees.
pub fn read_typed_face(
    angle: &str,
    facing: Facing,
    plus_minus: &str,
) -> Result<(Degrees, Degrees), Message> {
    let size = read_degrees(angle)?;
    let rake = match facing {
        Facing::Up => size,
        Facing::Down => -size,
    };
    if rake.abs() > FACE_GREATEST {
        return Err(msg("entry-face-too-steep")
            .deg("typed", size.abs().0)
            .deg("greatest", FACE_GREATEST.0));
    }
    let plus_minus = if plus_minus.trim().is_empty() {
        GAUGE_PLUS_MINUS
    } else {
        read_degrees(plus_minus)?
    };
    if plus_minus.0 > 0.0 && plus_minus.0 <= 10.0 {
        Ok((rake, plus_minus))
    } else {
        Err(msg("entry-gauge-plus-minus").number("typed", plus_minus.0, 1))
    }
}

/// The ± of a typed corner angle, degrees (95 %, ours: by eye along the
/// face against a straight edge).
pub const CORNER_PLUS_MINUS: Degrees = Degrees(6.0);

/// Reads a corner angle, + to the right, with [`CORNER_PLUS_MINUS`].
///
/// # Errors
/// Not a figure, or round the corner.
pub fn read_corner(text: &str) -> Result<Estimate<Degrees>, Message> {
    let turn = read_degrees(text)?;
    if turn.abs() > MOST_TURN {
        return Err(turn_too_far(turn));
    }
    Ok(Estimate::new(turn, CORNER_PLUS_MINUS * (1.0 / COVERAGE_95)))
}

/// A corner angle that is round the corner, and by how much.
pub(super) fn turn_too_far(turn: Degrees) -> Message {
    msg("turn-out-of-range")
        .deg("typed", turn.0)
        .deg("by", turn.abs().0 - MOST_TURN.0)
        .deg("greatest", MOST_TURN.0)
}

/// Reads where a place of the sweep is on the tape, + to the right.
///
/// # Errors
/// Not a length, on the centre itself, or farther out than any bumper.
pub fn read_tape_place(text: &str) -> Result<Millimetres, Message> {
    let place = read_length(&text.replace('−', "-"))?;
    let size = place.0.abs();
    if (20.0..=2000.0).contains(&size) {
        Ok(place)
    } else {
        Err(msg("entry-tape-place").mm("typed", place.0))
    }
}

/// Reads what the check line of a printed sheet measures.
///
/// # Errors
/// No length, or not near what was drawn, and by how much.
pub fn read_check_line(text: &str) -> Result<CheckLine, Message> {
    CheckLine::new(read_length(text)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(text: &str) -> String {
        read_half_width(text).unwrap_err().key.into_owned()
    }

    #[test]
    fn a_plain_figure_is_millimetres_and_units_convert() {
        assert_eq!(read_half_width("880"), Ok(Millimetres(880.0)));
        assert_eq!(read_half_width(" 880,5 mm "), Ok(Millimetres(880.5)));
        assert_eq!(read_half_width("88 cm"), Ok(Millimetres(880.0)));
        assert_eq!(read_half_width("0.88m"), Ok(Millimetres(880.0)));
        assert!((read_half_width("34.6 in").unwrap().0 - 878.84).abs() < 1e-9);
    }

    #[test]
    fn zero_and_negative_half_widths_are_refused() {
        assert_eq!(key("0"), "half-width-not-positive");
        assert_eq!(key("-880"), "half-width-not-positive");
    }

    #[test]
    fn text_is_refused_and_named() {
        let fault = read_half_width("wide").unwrap_err();
        assert_eq!(fault, msg("entry-not-a-length").text("typed", "wide"));
        assert_eq!(key("NaN"), "entry-not-a-length");
        assert_eq!(key("inf"), "entry-not-a-length");
        assert_eq!(key("1e999"), "entry-not-a-length");
    }

    #[test]
    fn ten_metres_is_too_large_by_so_much() {
        let fault = read_half_width("10 m").unwrap_err();
        assert_eq!(fault.key, "half-width-too-large");
        assert!(fault.args.iter().any(|(name, arg)| name == "by"
            && *arg
                == crate::text::Arg::Number {
                    value: 8650.0,
                    decimals: 0
                }));
    }

    #[test]
    fn inches_typed_for_millimetres_are_recognised() {
        assert_eq!(key("34.6"), "half-width-inches");
        assert_eq!(key("88"), "half-width-centimetres");
    }

    #[test]
    fn a_full_width_typed_for_the_half_is_recognised() {
        assert_eq!(key("1760"), "half-width-looks-full");
    }

    #[test]
    fn an_offset_takes_its_side_from_the_sign_or_the_letter() {
        assert_eq!(read_offset("-230"), Ok(Offset(-230.0)));
        assert_eq!(read_offset("230 L"), Ok(Offset(-230.0)));
        assert_eq!(read_offset("r230"), Ok(Offset(230.0)));
        assert_eq!(read_offset("0"), Ok(Offset(0.0)));
        assert_eq!(read_offset("3000").unwrap_err().key, "entry-offset-too-far");
        assert_eq!(read_offset("left").unwrap_err().key, "entry-not-a-length");
    }

    #[test]
    fn a_typed_face_angle_takes_its_direction_from_the_words() {
        assert_eq!(
            read_typed_face("4.2", Facing::Down, ""),
            Ok((Degrees(-4.2), GAUGE_PLUS_MINUS))
        );
        assert_eq!(
            read_typed_face("4,2", Facing::Up, "0.5"),
            Ok((Degrees(4.2), Degrees(0.5)))
        );
    }

    #[test]
    fn a_face_angle_beyond_any_bumper_or_a_silly_gauge_is_refused() {
        let steep = read_typed_face("80", Facing::Down, "").unwrap_err();
        assert_eq!(steep.key, "entry-face-too-steep");
        let gauge = read_typed_face("4", Facing::Down, "0").unwrap_err();
        assert_eq!(gauge.key, "entry-gauge-plus-minus");
    }
}
