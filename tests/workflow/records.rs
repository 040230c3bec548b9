//! How a job is stored: version 1 is read for ever, and what is written is
//! read back the same.

use chrono::{DateTime, FixedOffset};
use rakeline_core::decide::mark_out::{NoDrill, NoDrillReason, PlanKind, TapeReading};
use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::ground::{Ground, GroundHow};
use rakeline_core::estimate::rake::{Against, FaceReading, Side};
use rakeline_core::estimate::still::StillReading;
use rakeline_core::estimate::zero::poses::{Pose, PoseReading};
use rakeline_core::estimate::zero::{Phone, PhoneProfile, SourceKind, Zeroing};
use rakeline_core::job::{
    Agreed, AgreedHow, Check, ClockTrust, Field, JobId, JobState, Limit, MarkOut, Marks, MarksFrom,
    Particular, Row, SeenBehind, SheetIssue, Taken, TakenReading, Tape,
};
use rakeline_core::kit;
use rakeline_core::record;
use rakeline_core::sample::{Source, UpVector};
use rakeline_core::table::Table;
use rakeline_core::units::{Degrees, Estimate, Millimetres, Millis, Offset};

use crate::bench::Bench;
use crate::golden;
use crate::scenario;

const V1: &str = "record/v1.json";

fn at(text: &str) -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339(text).expect("a time")
}

/// A reading by phone; figures as a phone gives them, not round ones.
fn held(source: Source, side: Side, tilt: f64) -> FaceReading {
    let still = reading(source, tilt);
    FaceReading::Held { still, side }
}

fn reading(source: Source, tilt: f64) -> StillReading {
    let raw = matches!(source, Source::Acceleration { .. });
    StillReading {
        up: UpVector([0.011_3, 1.0 - tilt * tilt / 2.0, tilt]),
        u_noise: Degrees(0.041_7),
        u_rounding: source.u_rounding(),
        samples: 37,
        effective: 21.3,
        source,
        raw_mean: raw.then_some([0.111, 9.79, -0.513]),
        azimuth: (!raw).then_some(Degrees(181.4)),
        at: Millis(48_211.6),
    }
}

fn typed(against: Against) -> FaceReading {
    FaceReading::Typed {
        angle: Degrees(-2.9),
        plus_minus: Degrees(0.2),
        against,
        at: Millis(61_034.2),
    }
}

fn sources() -> [Source; 3] {
    [
        Source::Acceleration { step: 0.1 },
        Source::Quaternion { step: Degrees(0.1) },
        Source::Euler { step: Degrees(0.1) },
    ]
}

fn pose(pose: Pose) -> PoseReading {
    let still = reading(sources()[1], 0.013);
    PoseReading { pose, still }
}

fn zeroed() -> Phone {
    Phone::Zeroed(Box::new(Zeroing {
        profile: PhoneProfile {
            name: "Bench phone".to_owned(),
            case: "thin, black".to_owned(),
            feet: Feet::On,
        },
        kind: SourceKind::Normalised,
        unknowns: [
            0.012, -0.031, 0.022, 0.004, -0.003, 0.002, 0.011, -0.007, 0.003, 0.009,
        ],
        covariance: (0..100)
            .map(|i| if i % 11 == 0 { 3.1e-6 } else { 1.7e-8 })
            .collect(),
        poses: Pose::ALL.map(pose).to_vec(),
        spread: Degrees(0.21),
        was_off_by: Degrees(1.3),
        at: Millis(1_773_043_200_000.0),
    }))
}

fn bay() -> Ground {
    Ground {
        nose_up: Estimate::new(Degrees(0.7), Degrees(0.11)),
        right_up: Estimate::new(Degrees(-0.4), Degrees(0.12)),
        how: GroundHow::Bay {
            name: "Bay 2 by the door".to_owned(),
            measured: "2026-03-09".to_owned(),
        },
    }
}

fn area(from: f64, to: f64, why: NoDrillReason) -> NoDrill {
    NoDrill {
        from: Offset(from),
        to: Offset(to),
        why,
    }
}

/// A finished job in our invented scenario with hardly a default in it.
fn finished() -> JobState {
    let sheet = include_str!("../../assets/kits/metal-four.json");
    let mut kit = kit::parse(sheet).expect("a good sheet");
    // The record is older than what the sheet says about the last beep.
    if let Some(learn) = &mut kit.obstacle_learn {
        learn.last_beeps = None;
    }
    let id = JobId("00c0ffee00c0ffee".to_owned());
    let mut job = JobState::start(id, kit, at("2026-03-12T09:30:00+01:00"));
    job.name = "Scar End van".to_owned();
    job.changed = at("2026-03-12T10:12:40.250+01:00");
    job.clock = ClockTrust::WentBack { minutes: 60 };
    job.revision = 41;
    job.particulars = Table::from([
        (Particular::Customer, "Fell & Ghyll Deliveries".to_owned()),
        (Particular::Vehicle, "Tarn Carrier, 2023".to_owned()),
        (Particular::Plate, "FG 12 TARN".to_owned()),
        (Particular::Fitter, "A. Beck, Beckside Workshop".to_owned()),
    ]);
    job.typed = Table::from([
        (Field::HalfLeft, "86,7 cm".to_owned()),
        (Field::HalfRight, "864".to_owned()),
        (Field::FaceAngle, "2.".to_owned()),
        (Field::GaugePlusMinus, "0.2".to_owned()),
        (Field::Limit(Limit::Clearance), "7".to_owned()),
        (Field::TapeMark(3), "640".to_owned()),
    ]);
    job.marks = Some(Marks {
        half_left: Millimetres(867.0),
        half_right: Millimetres(864.0),
        from: MarksFrom::Plan(PlanKind::Even),
        offsets: [-640.0, -214.0, 213.0, 640.0].map(Offset).to_vec(),
        tape: Tape::On(at("2026-03-12T09:41:07+01:00")),
    });
    let [acceleration, quaternion, euler] = sources();
    let readings = [
        vec![
            held(euler, Side::Back, -0.056),
            held(euler, Side::Back, -0.054),
        ],
        vec![held(quaternion, Side::Screen, 0.031)],
        vec![
            held(acceleration, Side::Back, -0.052),
            typed(Against::Level),
        ],
        vec![typed(Against::Board)],
    ];
    let minutes = ["09:50:00", "09:51:30", "09:52:10", "09:53:45"];
    for ((spot, taken), minute) in job.spots.iter_mut().zip(readings).zip(minutes) {
        let at = at(&format!("2026-03-12T{minute}+01:00"));
        spot.readings = taken
            .into_iter()
            .map(|reading| TakenReading { reading, at })
            .collect();
    }
    job.mark_out = MarkOut {
        no_drill: vec![
            area(-390.0, -310.0, NoDrillReason::Radar),
            area(20.0, 60.0, NoDrillReason::Other("tow eye cap".to_owned())),
        ],
        old_holes: vec![Offset(213.0)],
        limits: Table::from([(Limit::Inner, Millimetres(290.0))]),
        locked: vec![2],
        row: Some(Row {
            from_line: Millimetres(-62.0),
            above_ground: Some(Millimetres(548.0)),
            line: None,
        }),
        taken: Taken::Straight,
        ..MarkOut::default()
    };
    job.check = Check {
        tape: [-640.0, -214.0, 213.0, 640.0]
            .map(|mm| TapeReading {
                at: Some(Offset(mm)),
                from_line: Some(Millimetres(62.0)),
            })
            .to_vec(),
        tape_at: Some(at("2026-03-12T09:56:00+01:00")),
        seen_behind: vec![SeenBehind {
            spot: 0,
            at: at("2026-03-12T09:58:00+01:00"),
        }],
        agreed: Some(Agreed {
            name: "J. Ghyll".to_owned(),
            how: AgreedHow::Phone,
            at: at("2026-03-12T10:00:00+01:00"),
        }),
    };
    job.phone = zeroed();
    job.ground = bay();
    job.load_allowance = Degrees(2.0);
    job.sheets = vec![
        SheetIssue {
            number: 1,
            at: at("2026-03-12T10:02:00+01:00"),
            zone: "Europe/Paris".to_owned(),
            revision: 38,
        },
        SheetIssue {
            number: 2,
            at: at("2026-03-12T10:12:40.250+01:00"),
            zone: "Europe/Paris".to_owned(),
            revision: 41,
        },
    ];
    job
}

#[test]
fn version_1_is_read_for_ever() {
    let job = finished();
    if golden::is_missing(V1) {
        golden::compare(V1, &record::write(&job).expect("can be written"));
    }
    let read = record::read(&golden::read(V1)).expect("version 1 can be read");
    assert_eq!(read, job);
}

#[test]
fn version_1_shows_its_ring_sets_and_its_sheet() {
    let job = record::read(&golden::read(V1)).expect("version 1 can be read");
    assert_eq!(job.read_count(), 4);
    let choices = rakeline_core::job::ring_choices(&job);
    assert!(choices.iter().all(Option::is_some));
    let issue = job.issued().expect("issued");
    let sheet = rakeline_core::report::job_sheet(&job, issue.at, &issue.zone);
    let text = crate::sheet_text::text_of(&sheet);
    golden::compare("job_sheet/record_v1.txt", &text);
}

#[test]
fn a_job_written_is_read_back_the_same() {
    for job in [finished(), {
        let mut bench = Bench::new();
        scenario::to_sheet(&mut bench);
        bench.job().clone()
    }] {
        let text = record::write(&job).expect("can be written");
        assert_eq!(record::read(&text), Ok(job));
    }
}

#[test]
fn a_job_with_any_variant_of_anything_in_it_can_be_written() {
    let mut readings = vec![typed(Against::Level), typed(Against::Board)];
    for source in sources() {
        readings.push(held(source, Side::Back, 0.1));
        readings.push(held(source, Side::Screen, -0.1));
    }
    let hows = [
        GroundHow::LooksLevel,
        GroundHow::Board,
        bay().how,
        GroundHow::Sill,
        GroundHow::GaugeOnBoard,
    ];
    let mut jobs = Vec::new();
    let mut with = |change: &dyn Fn(&mut JobState)| {
        let mut job = finished();
        change(&mut job);
        jobs.push(job);
    };
    for reading in readings {
        with(&|job| job.spots[0].readings[0].reading = reading);
    }
    for how in hows {
        with(&|job| job.ground.how = how.clone());
    }
    for kind in PlanKind::ALL {
        with(&|job| {
            if let Some(marks) = &mut job.marks {
                marks.from = MarksFrom::Plan(kind);
                marks.tape = Tape::NotYet;
            }
        });
    }
    with(&|job| {
        if let Some(marks) = &mut job.marks {
            marks.from = MarksFrom::Hand;
        }
    });
    let reasons = [
        NoDrillReason::Plate,
        NoDrillReason::Lamp,
        NoDrillReason::TowHitch,
        NoDrillReason::CrashBeamBracket,
        NoDrillReason::Exhaust,
        NoDrillReason::OldHole,
        NoDrillReason::Ridge,
        NoDrillReason::Radar,
        NoDrillReason::Wiring,
        NoDrillReason::FaceAngle,
        NoDrillReason::Other("\u{1F6A7} \"quoted\"".to_owned()),
    ];
    for why in reasons {
        with(&|job| job.mark_out.no_drill[0].why = why.clone());
    }
    for limit in Limit::ALL {
        with(&|job| {
            job.mark_out.limits.insert(limit, Millimetres(33.0));
            job.typed.insert(Field::Limit(limit), "33".to_owned());
        });
    }
    for how in AgreedHow::ALL {
        with(&|job| {
            if let Some(agreed) = &mut job.check.agreed {
                agreed.how = how;
            }
        });
    }
    let fields = [
        Field::NoDrillFrom,
        Field::NoDrillTo,
        Field::NoDrillWhat,
        Field::OldHole,
        Field::MoveTo,
        Field::LearnObject,
        Field::RowFromLine,
        Field::RowHeight,
        Field::TapeMark(0),
        Field::TapeLine(255),
        Field::AgreedName,
    ];
    with(&|job| {
        job.typed
            .extend(fields.map(|field| (field, "-1,5".to_owned())))
    });
    with(&|job| job.phone = Phone::Unzeroed);
    with(&|job| job.clock = ClockTrust::Steady);
    with(&|job| job.marks = None);
    for job in jobs {
        let text = record::write(&job).expect("can be written");
        assert_eq!(record::read(&text), Ok(job));
    }
}

#[test]
fn a_job_that_would_not_come_back_is_not_written() {
    let mut job = finished();
    job.load_allowance = Degrees(f64::NAN);
    assert!(matches!(
        record::write(&job),
        Err(record::RecordFault::NotWritten { .. })
    ));
}
