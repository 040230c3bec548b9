//! Proofs, tests and measurements of a full job: what every vehicle has to
//! show anew.

use chrono::{DateTime, FixedOffset};
use rakeline_core::decide::leads::LeadKit;
use rakeline_core::decide::look_behind::Behind;
use rakeline_core::decide::ring_set::{InsertUse, RingSet};
use rakeline_core::decide::supply::{CrossSection, FuseAnswer, System};
use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::level::ScreenTurn;
use rakeline_core::estimate::photo::result::{GapMeasured, Measured, Outcome, Tap, Taps, Zero};
use rakeline_core::estimate::photo::seen::PhotoSeen;
use rakeline_core::estimate::rake::{Against, FaceReading};
use rakeline_core::estimate::turn::Station;
use rakeline_core::estimate::zero::{Phone, PhoneProfile, SourceKind, Zeroing};
use rakeline_core::job::{
    Answer, Answered, Attempt, CardPhoto, CardPrint, Finding, FittedAim, Found, HeadAnswer,
    JobState, LearnedObject, LevelPhoto, Object, ReadBeside, RingWay, ShiftTried, Taken, WalkKind,
    WalkTest, YesNo,
};
use rakeline_core::kit::Material;
use rakeline_core::learn::{Outcome as LearnEnded, Proof, Ways};
use rakeline_core::steps::Stage;
use rakeline_core::units::{Degrees, Estimate, Millimetres, Millis, Offset};

fn attempt(at: DateTime<FixedOffset>) -> Attempt {
    Attempt {
        at,
        object: Object::FixedTowBar,
        ended: Some(at),
        proof: Proof {
            outcome: LearnEnded::ByHand,
            ways: Ways::Hand,
            asked: 6,
            confirmed: 6,
            silent: Millis(4000.0),
            reached: Millis(4000.0),
            quiet_from: None,
            length: Millis(30_000.0),
            cycles: Vec::new(),
            beeps: Vec::new(),
            tone: None,
            doubts: Vec::new(),
            undone: 0,
        },
    }
}

fn walked(at: DateTime<FixedOffset>) -> WalkTest {
    WalkTest {
        at,
        kind: WalkKind::Nine,
        points: Vec::new(),
        taps: Vec::new(),
        void: None,
    }
}

/// What photos of mark cards measured.
fn by_photos() -> Outcome {
    let gap = Estimate::new(Millimetres(420.0), Millimetres(0.5));
    Outcome {
        measured: Measured {
            zero: Zero::TwoHalves,
            marks: Vec::new(),
            gaps: Vec::new(),
            width: GapMeasured {
                left: 0,
                right: 3,
                chord: gap,
                along: gap,
                straight: None,
            },
            evenness: None,
            symmetry: None,
            edited: Vec::new(),
            left_over: 0.2,
        },
        views: Vec::new(),
        heads: Vec::new(),
        below_line: Vec::new(),
    }
}

/// The fitter's own phone.
fn zeroed() -> Phone {
    Phone::Zeroed(Box::new(Zeroing {
        profile: PhoneProfile {
            name: "Beck phone".to_owned(),
            case: String::new(),
            feet: Feet::On,
        },
        kind: SourceKind::Normalised,
        unknowns: [0.0; 10],
        covariance: (0..100)
            .map(|at| if at % 11 == 0 { 3.1e-6 } else { 0.0 })
            .collect(),
        poses: Vec::new(),
        spread: Degrees(0.2),
        was_off_by: Degrees(1.3),
        at: Millis(1_773_043_200_000.0),
    }))
}

/// Fills them; `None` if a figure broke a rule.
pub(super) fn fill(job: &mut JobState, at: DateTime<FixedOffset>) -> Option<()> {
    job.phone = zeroed();
    job.mark_out.taken = Taken::AlongFace;
    job.behind.material = Material::Fibre;
    let not_seen = Answer {
        behind: Some(Behind::CouldNotSee),
    };
    job.behind.spots.insert(1, not_seen);
    job.rings.sat_with.insert(0, RingSet::ring("9"));
    job.rings.inserts = InsertUse::Allowed;
    job.loom.system = System::TwentyFour;
    job.loom.cross_section = CrossSection::Mm2_1;
    job.loom.fuse = Some(FuseAnswer::NotFitted);
    job.loom.lead_kit = LeadKit::Long;
    job.learned.shift = Some(ShiftTried::NotEnough);
    job.learned.object = Some(Object::FixedTowBar);
    job.learned.running = Some(attempt(at));
    job.learned.attempts.push(attempt(at));
    job.walk.test = Some(walked(at));
    job.walk.earlier.push(walked(at));
    job.walk.heads.push(HeadAnswer {
        spot: 0,
        answered: Answered::Sounds,
        at,
    });
    job.walk.learned = Some(LearnedObject {
        what: Object::FixedTowBar,
        across: Offset(0.0),
        half_width: Millimetres(30.0),
        reaches: Millimetres(110.0),
        at,
    });
    let beside = FaceReading::typed(Degrees(-4.0), Degrees(0.3), Against::Level, Millis(0.0));
    let beside = beside.ok()?;
    job.fault.found.push(Found {
        finding: Finding::HeadUp,
        spot: Some(1),
        answer: YesNo::Yes,
    });
    job.fault.aims.insert(
        1,
        FittedAim {
            left: beside,
            right: beside,
            ring: Estimate::new(Degrees(9.0), Degrees(0.3)),
            way: RingWay::Lifts,
        },
    );
    job.fault.beside.insert(
        1,
        ReadBeside {
            left: Some(beside),
            right: None,
        },
    );
    job.measuring.gauge = Against::Board;
    let turn = Estimate::new(Degrees(-8.0), Degrees(1.0));
    job.measuring.turns.push(Some(turn));
    job.measuring.stations.push(Station {
        along: Millimetres(0.0),
        azimuth: Degrees(0.0),
        against_gravity: Degrees(-4.0),
        u_noise: Degrees(0.1),
        at: Millis(0.0),
    });
    job.measuring.photos.push(LevelPhoto {
        blob: "blob-level".to_owned(),
        width: 40,
        height: 30,
        held: None,
        turn: ScreenTurn::Upright,
        at,
        line: None,
    });
    job.spent.corrected.insert(Stage::Loom, 40);
    job.card_photos.photos.push(CardPhoto {
        blob: "blob-cards".to_owned(),
        at,
        seen: PhotoSeen::default(),
        print: CardPrint::NotMeasured,
    });
    let tap = Tap {
        photo: 0,
        x: 20.0,
        y: 15.0,
        u: 2.0,
    };
    job.card_photos.taps = Taps {
        heads: vec![(1, tap)],
        line: vec![tap],
    };
    job.card_photos.outcome = Some(by_photos());
    Some(())
}
