//! What the fitter says on the screens of zeroing, ground, corner angles
//! and level.

use rakeline_core::estimate::contact::{Feet, Roundness};
use rakeline_core::estimate::rake::Against;
use rakeline_core::estimate::still::StillReading;
use rakeline_core::job::{BesideHead, Load, MeasuringEvent};
use rakeline_core::report::Logo;

use super::cards_draft::CardsDraft;
use super::corners::{self, SweepDraft};
use super::guide::GuideDraft;
use super::intent::{Action, Now};
use super::learn::LearnDraft;
use super::level::{self, LevelDraft, LevelIntent};
use super::lie::{self, BoardDraft};
use super::phone::{self, Voice};
use super::photos::PhotosDraft;
use super::reading;
use super::sight::SightDraft;
use super::state::AppState;
use super::walk::WalkDraft;
use super::zeroing::{self, ZeroDraft};
use super::{beside_head, held, keeping};

/// What is under way and not yet a fact of the job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drafts {
    /// A zeroing.
    pub zero: ZeroDraft,
    /// A board.
    pub board: BoardDraft,
    /// A sweep.
    pub sweep: SweepDraft,
    /// The reading 30 mm above the mark.
    pub above: Option<StillReading>,
    /// The camera level.
    pub level: LevelDraft,
    /// What the heads will see.
    pub sight: SightDraft,
    /// Photos of mark cards.
    pub cards: CardsDraft,
    /// The live picture while they are shot.
    pub guide: GuideDraft,
    /// Walk test and fault.
    pub walk: WalkDraft,
    /// Photos of the job.
    pub photos: PhotosDraft,
    /// The workshop's logo on its way to the store.
    pub logo: Option<Logo>,
    /// The check line's length as it is typed.
    pub check_line: Option<String>,
    /// An obstacle learn.
    pub learn: LearnDraft,
}

/// What the fitter says about how angles are measured.
#[derive(Clone, Debug, PartialEq)]
pub enum Measure {
    /// The phone's name was typed.
    PhoneNamed(String),
    /// Its case was typed.
    CaseNamed(String),
    /// Feet were put on or taken off.
    FeetSet(Feet),
    /// Prompts are spoken or not.
    VoiceSet(Voice),
    /// Starts zeroing on the wall.
    ZeroStart,
    /// Goes on with the table.
    ZeroTables,
    /// Puts the zeroing before this one back.
    ZeroPutBack,
    /// Stops what is being read.
    Stop,
    /// One tap: the ground looks level.
    LooksLevel,
    /// Starts the board.
    BoardStart,
    /// Reads the board at one more place.
    BoardMore,
    /// The typed sill counts.
    SillTaken,
    /// Reads nose up/down with the phone on the sill.
    SillStart,
    /// Saves the ground as a bay.
    BaySaved,
    /// The job stands in a bay.
    BayUsed(String),
    /// A bay is forgotten.
    BayDropped(String),
    /// What typed angles are measured against.
    GaugeSet(Against),
    /// What the vehicle carries.
    LoadSaid(Load),
    /// The typed allowance counts.
    LoadOwn,
    /// How round the face is, by picture.
    Round(Roundness),
    /// How round the face is, by two readings.
    RoundStart,
    /// Typed corner angles count.
    CornersTaken,
    /// Starts a sweep.
    SweepStart,
    /// Takes the sweep out.
    SweepDropped,
    /// Reads a spot once more.
    ReadOnceMore(usize),
    /// Takes the last reading at a spot out.
    TakeLastOut(usize),
    /// Takes one reading at a spot out: the spot, the reading from the oldest.
    TakeOut(usize, usize),
    /// Takes all readings out and starts over.
    ReadAllAgain,
    /// Reads the panel beside a fitted head.
    Beside(u8, BesideHead),
    /// On the camera level.
    Level(LevelIntent),
}

pub(super) fn handle(app: &mut AppState, said: Measure, now: &Now) -> Vec<Action> {
    match said {
        Measure::PhoneNamed(name) => phone::named(app, name, now),
        Measure::CaseNamed(case) => {
            app.settings.phone.case = case;
            phone::changed(app, now)
        }
        Measure::FeetSet(feet) => {
            app.settings.phone.feet = feet;
            phone::changed(app, now)
        }
        Measure::VoiceSet(voice) => {
            app.settings.voice = voice;
            keeping::save(app)
        }
        Measure::ZeroStart => zeroing::start(app),
        Measure::ZeroTables => zeroing::tables(app),
        Measure::ZeroPutBack => zeroing::put_back(app, now),
        Measure::Stop => held::stop(app),
        Measure::LooksLevel => lie::looks_level(app, now),
        Measure::BoardStart => lie::board_start(app),
        Measure::BoardMore => lie::board_more(app),
        Measure::SillTaken => lie::sill_taken(app, now),
        Measure::SillStart => lie::sill_start(app),
        Measure::BaySaved => lie::save_bay(app, now),
        Measure::BayUsed(name) => lie::use_bay(app, &name, now),
        Measure::BayDropped(name) => lie::drop_bay(app, &name),
        Measure::GaugeSet(against) => phone::event(app, MeasuringEvent::GaugeSet(against), now),
        Measure::LoadSaid(load) => phone::event(app, MeasuringEvent::LoadSaid(load), now),
        Measure::LoadOwn => lie::own_load(app, now),
        Measure::Round(round) => phone::event(app, MeasuringEvent::RoundnessFound(round), now),
        Measure::RoundStart => lie::round_start(app),
        Measure::CornersTaken => corners::take_typed(app, now),
        Measure::SweepStart => corners::start(app),
        Measure::SweepDropped => phone::event(app, MeasuringEvent::SweepDropped, now),
        Measure::ReadOnceMore(spot) => reading::once_more(app, spot),
        Measure::TakeLastOut(spot) => reading::take_last_out(app, spot, now),
        Measure::TakeOut(spot, which) => reading::take_out(app, spot, which, now),
        Measure::ReadAllAgain => reading::read_all_again(app, now),
        Measure::Beside(spot, side) => beside_head::start(app, spot, side),
        Measure::Level(said) => level::handle(app, said, now),
    }
}
