//! A job in which nothing is as a fresh job has it.

use chrono::{DateTime, FixedOffset};
use rakeline_core::decide::coverage::ObjectKind;
use rakeline_core::decide::drill::Making;
use rakeline_core::decide::leads::RouteRule;
use rakeline_core::decide::look_behind::{Behind, Obstacle};
use rakeline_core::decide::mark_out::{NoDrill, NoDrillReason, TapeReading};
use rakeline_core::decide::parts::{Part, PartLine};
use rakeline_core::decide::ring_set::RingSet;
use rakeline_core::decide::supply::{LampCircuit, Reading};
use rakeline_core::estimate::contact::{Feet, Roundness};
use rakeline_core::estimate::ground::{Ground, GroundHow};
use rakeline_core::estimate::zero::PhoneProfile;
use rakeline_core::job::{
    Agreed, AgreedHow, Answer, BehindPhoto, ClockTrust, Drilled, Ended, Field, FromJob, HandTaken,
    HowEnded, JobState, Limit, Load, Particular, Photo, PhotoOf, Row, SeenBehind, ShapeFrom,
    SheetIssue, Standing, Symptom, Visit, Wait, Where, WhichLead, Whose,
};
use rakeline_core::steps::{Question, Stage, StepName, Truth};
use rakeline_core::units::{Degrees, Estimate, Millimetres, Offset};

use super::{EARLIER, done, rest};

/// Figures and words that stay with this vehicle, to be looked for.
pub const STAYS: [&str; 14] = [
    "Fell & Ghyll",
    "FG 12 TARN",
    "A. Beck",
    "J. Ghyll",
    "Scar End",
    "Beck phone",
    "blob-behind",
    "blob-head",
    "reversed into a post",
    "11.87",
    "Europe/Paris",
    "fgtarnvin12345678",
    "ZFGT1A2B3C4D55667",
    "KS-90417",
];

fn step(name: &str) -> StepName {
    StepName(name.to_owned())
}

fn behind_photo(at: DateTime<FixedOffset>) -> BehindPhoto {
    BehindPhoto {
        blob: "blob-behind".to_owned(),
        original: None,
        whose: Whose::Bumper,
        width: 40,
        height: 30,
        at,
    }
}

/// That job; `None` if its figures broke a rule.
#[must_use]
pub fn full_job() -> Option<JobState> {
    let mut job = done(&EARLIER)?;
    let at = job.changed;
    job.changed = at + chrono::Duration::hours(1);
    job.name = "Scar End van".to_owned();
    job.clock = ClockTrust::WentBack { minutes: 3 };
    job.load_allowance = Degrees(2.0);
    job.ground = Ground {
        nose_up: Estimate::new(Degrees(0.7), Degrees(0.11)),
        right_up: Estimate::new(Degrees(-0.4), Degrees(0.12)),
        how: GroundHow::Bay {
            name: "Bay 2 by the door".to_owned(),
            measured: "2026-02-01".to_owned(),
        },
    };
    job.measuring.load = Load::Carrier;
    job.measuring.roundness = Roundness::Tight;
    job.measuring.profile = Some(PhoneProfile {
        name: "Beck phone".to_owned(),
        case: String::new(),
        feet: Feet::On,
    });
    for (which, text) in [
        (Particular::Vin, "ZFGT1A2B3C4D55667"),
        (Particular::Odometer, "84 210 km"),
        (Particular::KitSerial, "KS-90417"),
    ] {
        job.particulars.insert(which, text.to_owned());
    }
    for (field, text) in [
        (Field::Volts(Reading::ReverseOn), "11.87"),
        (Field::AgreedName, "J. Ghyll"),
        (Field::Depth(Whose::Bumper), "63"),
        (Field::TapeMark(1), "231"),
        (Field::QuoteAnHour, "61"),
        (Field::FuseAmperes, "5"),
        (Field::Route(WhichLead::Spot(0)), "1450"),
        (Field::GrommetToBox, "900"),
        (Field::RowFromLine, "-62"),
        (Field::QuoteMinutes, "150"),
    ] {
        job.typed.insert(field, text.to_owned());
    }
    job.mark_out.row = Some(Row {
        from_line: Millimetres(-62.0),
        above_ground: Some(Millimetres(540.0)),
        line: None,
    });
    job.mark_out
        .limits
        .insert(Limit::Clearance, Millimetres(7.0));
    job.mark_out.old_holes.push(Offset(40.0));
    job.mark_out.locked.push(1);
    job.mark_out.no_drill.push(NoDrill {
        from: Offset(-40.0),
        to: Offset(40.0),
        why: NoDrillReason::Other("tow eye cap".to_owned()),
    });
    job.check.tape = vec![TapeReading::default(); 4];
    job.check.tape_at = Some(at);
    job.check.seen_behind.push(SeenBehind { spot: 0, at });
    job.check.agreed = Some(Agreed {
        name: "J. Ghyll".to_owned(),
        how: AgreedHow::Phone,
        at,
    });
    let seen = Behind::SomethingThere(vec![
        Obstacle::CrashBeam,
        Obstacle::Other("clip of A. Beck".to_owned()),
    ]);
    job.behind.bumper = Answer { behind: Some(seen) };
    job.behind.photos.push(behind_photo(at));
    job.rings.by_hand.insert(
        1,
        HandTaken {
            set: RingSet::ring("9"),
            reason: "as the customer J. Ghyll asked".to_owned(),
        },
    );
    job.rings.seated.insert(0, at);
    job.holes.cautions = Some(at);
    job.holes.drilled.insert(
        0,
        Drilled {
            at,
            diameter: Millimetres(21.0),
            making: Making::Saw(Millimetres(21.0)),
        },
    );
    job.loom.cautions = Some(at);
    job.loom.rules = RouteRule::ALL.to_vec();
    job.loom.lamp = Some(LampCircuit::Pulsed);
    job.learned.gate = Some(at);
    job.learned.cleared = Some(at);
    job.quote.extra.push(PartLine {
        part: Part::Other("cable ties".to_owned()),
        count: 6,
    });
    job.quote
        .prices
        .push((Part::Other("cable ties".to_owned()), "2".to_owned()));
    job.walk.gate = Some(at);
    job.fault.symptoms.insert(Symptom::ALL[0], Where::Head(1));
    job.steps.answers.insert(Question::TowBar, Truth::Yes);
    job.steps.ended.insert(
        step("raised"),
        Ended {
            how: HowEnded::Done,
            at,
        },
    );
    job.steps.words.insert(
        step("box-place"),
        "behind the left trim, FG12TARN".to_owned(),
    );
    job.steps
        .words
        .insert(step("box-place-cabin"), "under the left seat".to_owned());
    job.steps
        .words
        .insert(step("sensors-there"), "fgtarnvin12345678".to_owned());
    job.waits.push(Wait {
        step: step("primer-dry"),
        from: at,
        minutes: 20,
        ended: None,
    });
    job.spent.counted.insert(Stage::Holes, 5400);
    job.standing = Standing::Done;
    job.visits.push(Visit {
        at,
        why: "reversed into a post".to_owned(),
        done: String::new(),
        sheet: 1,
    });
    job.photos.push(Photo {
        blob: "blob-head".to_owned(),
        original: None,
        width: 40,
        height: 30,
        of: PhotoOf::Head(0),
        at,
        elevation: None,
        notes: Vec::new(),
    });
    job.card_photos.shape = ShapeFrom::Photos;
    job.coverage.object = Some(ObjectKind::TowBall);
    job.before.from.push(FromJob {
        id: "e0".to_owned(),
        vehicle: "Tarn Carrier".to_owned(),
        at,
        theirs: None,
    });
    job.sheets.push(SheetIssue {
        number: 1,
        at,
        zone: "Europe/Paris".to_owned(),
        revision: job.revision,
    });
    rest::fill(&mut job, at)?;
    Some(job)
}
