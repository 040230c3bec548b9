//! Named results, one a line: figures with nine decimals, words as they are.
//! `vectors.py` and `Vectors.kt` compute the same, in the same order.

use std::fmt::Write;
use std::fs;

use rakeline_ffi::*;

use crate::fixtures::{EXPECTED, KIT, PHOTOS, RECORD, photo, root, text, writes};

#[derive(Default)]
struct Lines(String);

impl Lines {
    fn say(&mut self, name: &str, words: &str) {
        let words = words.replace('\n', " / ");
        writeln!(self.0, "{name} {words}").unwrap();
    }

    fn figure(&mut self, name: &str, value: f64) {
        self.say(name, &format!("{value:.9}"));
    }

    fn figures(&mut self, name: &str, values: &[f64]) {
        for (index, value) in values.iter().enumerate() {
            self.figure(&format!("{name}.{index}"), *value);
        }
    }

    fn measured(&mut self, name: &str, measured: Measured) {
        self.figure(&format!("{name}.value"), measured.value);
        self.figure(&format!("{name}.u"), measured.u);
    }

    fn fault<T>(&mut self, name: &str, outcome: Result<T, Fault>) {
        let (kind, words) = match outcome {
            Ok(_) => ("none", String::new()),
            Err(Fault::Unreadable { words }) => ("unreadable", words),
            Err(Fault::Invalid { words }) => ("invalid", words),
            Err(Fault::Impossible { words }) => ("impossible", words),
        };
        self.say(name, &format!("{kind} {words}"));
    }
}

/// Readings of a hand that trembles, 50 a second.
fn readings() -> Vec<Acceleration> {
    let wave = |i: i32, by: i32, of: i32| f64::from((i * by) % of - of / 2);
    (0..200)
        .map(|i| Acceleration {
            at_ms: f64::from(i * 20),
            x: 0.02 * wave(i, 7, 5),
            y: 9.7 + 0.01 * wave(i, 3, 7),
            z: -1.2 + 0.015 * wave(i, 5, 11),
        })
        .collect()
}

fn still(x: f64, y: f64, z: f64) -> Still {
    let length = (x * x + y * y + z * z).sqrt();
    let (x, y, z) = (x / length, y / length, z / length);
    Still {
        up: Xyz { x, y, z },
        u_noise: 0.02,
        u_rounding: 0.0,
        samples: 100,
        effective: 40.0,
        source: StillSource::Acceleration { step: 0.0 },
        acceleration: Some(Xyz {
            x: 9.81 * x,
            y: 9.81 * y,
            z: 9.81 * z,
        }),
        azimuth: None,
        at_ms: 2_000.0,
    }
}

fn faces(lines: &mut Lines) {
    let level = ground_looks_level();
    let around = Surroundings {
        ground: level,
        feet: Feet::Off,
        roundness: Roundness::Rounded,
        corner_angle: None,
    };
    let read = read_still(&readings(), 0.0).unwrap();
    lines.figures("still.up", &[read.up.x, read.up.y, read.up.z]);
    lines.figure("still.u_noise", read.u_noise);
    lines.fault("still.short", read_still(&readings()[..5], 0.0));
    let mut back = readings();
    back.swap(3, 9);
    lines.fault("still.back", read_still(&back, 0.0));
    let held = FaceReading::Held {
        still: read,
        side: Side::Back,
    };
    let face = face_angle(&[held], None, &around).unwrap();
    lines.measured("face.unzeroed", face.rake);
    for part in &face.parts {
        lines.figure(&format!("face.part {}", part.name), part.u);
    }
    lines.say("face.caveat", &face.caveat.unwrap_or_default());
    let pose = |pose, y, z| PoseReading {
        pose,
        still: still(0.004, y, z),
    };
    let poses = [
        pose(Pose::BackUpright, 1.0, 0.010),
        pose(Pose::BackUpsideDown, -1.0, 0.030),
        pose(Pose::ScreenIn, 1.0, 0.015),
        pose(Pose::ScreenInUpsideDown, -1.0, 0.025),
    ];
    let zeroing = zero_phone(&poses, Feet::On, 0.0).unwrap();
    lines.figures("zeroing", &[zeroing.spread, zeroing.was_off_by]);
    lines.fault("zeroing.few", zero_phone(&poses[..2], Feet::On, 0.0));
    let pair = BoardPair {
        forward: still(0.010, 0.030, 0.9995),
        turned: still(-0.004, -0.020, 0.9997),
    };
    let ground = ground_by_board(&[pair]).unwrap();
    lines.measured("ground.nose_up", ground.nose_up);
    lines.measured("ground.right_up", ground.right_up);
    let around = Surroundings {
        ground,
        feet: Feet::On,
        corner_angle: Some(Measured {
            value: 20.0,
            u: 3.0,
            plus_minus: 5.88,
        }),
        ..around
    };
    let face = face_angle(&[held], Some(zeroing.json), &around).unwrap();
    lines.measured("face.zeroed", face.rake);
    let typed = FaceReading::Typed {
        angle: -6.3,
        plus_minus: 0.3,
    };
    let face = face_angle(&[typed], None, &around).unwrap();
    lines.measured("face.typed", face.rake);
    lines.fault("face.none", face_angle(&[], None, &around));
    lines.fault(
        "face.zeroing",
        face_angle(&[typed], Some("no".into()), &around),
    );
}

fn fitting(lines: &mut Lines) {
    let kit = text(KIT);
    let facts = read_kit(&kit).unwrap();
    lines.say("kit", &format!("{} {}", facts.name, facts.rings.join(" ")));
    lines.fault("kit.none", read_kit("{}"));
    for (name, value, u) in [
        ("sure", -6.3, 0.2),
        ("close", -6.3, 2.3),
        ("none", -40.0, 0.2),
    ] {
        let rake = Measured {
            value,
            u,
            plus_minus: 1.96 * u,
        };
        let choice = ring_set(
            &kit,
            rake,
            FaceOrigin::Zeroed,
            PanelMaterial::Plastic,
            1.0,
            None,
        )
        .unwrap();
        if let Some(aim) = choice.aim {
            lines.measured(&format!("ring.{name}.aim"), aim);
        }
        let words = match choice.verdict {
            RingVerdict::Sure { set } => format!("sure {}", set.ring),
            RingVerdict::CloseCall {
                right_somewhere,
                settle,
                ..
            } => {
                let rings: Vec<_> = right_somewhere.into_iter().map(|r| r.set.ring).collect();
                format!("close {} {}", rings.join(" "), settle.join(" "))
            }
            RingVerdict::CannotBeServed { what_to_do, .. } => format!("none {what_to_do}"),
        };
        lines.say(&format!("ring.{name}"), &words);
    }
    let mut task = mark_out_task(&kit, 864.0, 871.0).unwrap();
    let plans = mark_out(&task).unwrap();
    for (name, plan) in [
        ("symmetric", &plans.symmetric),
        ("even", &plans.even),
        ("wide", &plans.wide),
    ] {
        lines.figures(&format!("marks.{name}"), &plan.marks);
        lines.say(&format!("marks.{name}"), &plan.explained.join(" "));
    }
    lines.say("marks.proposal", &plans.proposal);
    task.no_drill.push(NoDrillArea {
        from: -700.0,
        to: 700.0,
        what: "grille".into(),
    });
    lines.fault("marks.clash", mark_out(&task));
    task.half_left = f64::NAN;
    lines.fault("marks.no_figure", mark_out(&task));
}

fn photos(lines: &mut Lines) {
    let files: Vec<Vec<u8>> = PHOTOS.iter().map(|name| photo(name)).collect();
    let figures = measure_photos(files, 4, Some(249.5)).unwrap();
    // The last digits of a long solve hang on the machine: a thousandth of a
    // millimetre is kept.
    let rounded = |value: f64| (value * 1e3).round() / 1e3;
    for gap in figures.gaps.iter().chain([&figures.width]) {
        let name = format!("photo.{}-{}", gap.left, gap.right);
        lines.figures(&name, &[rounded(gap.chord.value), rounded(gap.along.value)]);
    }
    lines.fault(
        "photo.none",
        measure_photos(vec![b"no photo".to_vec()], 4, None),
    );
    lines.fault("photo.line", measure_photos(Vec::new(), 4, Some(100.0)));
}

fn jobs(lines: &mut Lines) {
    let record = text(RECORD);
    let job = read_record(&record).unwrap();
    lines.say("job", &format!("{} {}", job.name, job.kit));
    for spot in &job.spots {
        let name = format!("job.{}", spot.label);
        lines.figure(&format!("{name}.mark"), spot.mark.unwrap_or(0.0));
        if let Some(face) = &spot.face {
            lines.measured(&format!("{name}.face"), face.rake);
        }
    }
    lines.fault("job.none", read_record("[]"));
    let found = diagnose(&record).unwrap();
    lines.say("diagnosis", &found.outcome);
    for suspect in found.suspects.iter().take(5) {
        lines.say(
            "suspect",
            &format!(
                "{} {} {}",
                suspect.points,
                suspect.name,
                suspect.for_it.join(" ")
            ),
        );
    }
    let map = coverage(&record).unwrap();
    lines.figure("coverage.share", map.share.unwrap_or(0.0));
    lines.figures("coverage.level", &map.levels[..8]);
}

/// Two beeps of a kit in noise that a simple recurrence makes.
fn cabin() -> Vec<f32> {
    let mut seed: u32 = 1;
    (0..40_000)
        .map(|i| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let noise = f64::from(seed >> 16) / 65_536.0 - 0.5;
            let sounds = (8_000..11_200).contains(&i) || (20_000..23_200).contains(&i);
            let angle = 2.0 * std::f64::consts::PI * 2_150.0 * f64::from(i) / 16_000.0;
            let tone = if sounds { 0.2 * angle.sin() } else { 0.0 };
            (0.01 * noise + tone) as f32
        })
        .collect()
}

fn sounds(lines: &mut Lines) {
    let heard = hear_beeps(&cabin(), 16_000.0, 0.0, Some(2_150.0)).unwrap();
    for beep in &heard.beeps {
        let whole = [beep.start_ms, beep.end_ms, beep.tone_hz].map(f64::round);
        lines.figures("beep", &whole);
    }
    lines.fault("beep.rate", hear_beeps(&[], 1.0, 0.0, None));
    let mut moments = Vec::new();
    let mut at_ms = 0.0;
    let mut then = |after: f64, what| {
        at_ms += after;
        moments.push(LearnMoment { at_ms, what });
        at_ms
    };
    let mut start = 0.0;
    for cycle in 0..6 {
        start = then(1_000.0, LearnHappened::ReverseIn);
        let beep = LearnHappened::Beep {
            start_ms: start + 600.0,
            end_ms: start + 800.0,
            tone_hz: 2_150.0,
        };
        then(900.0, beep);
        then(300.0, LearnHappened::Listened);
        if cycle < 5 {
            then(600.0, LearnHappened::ReverseOut);
        }
    }
    for _ in 0..12 {
        then(500.0, LearnHappened::Listened);
    }
    let kit = text(KIT);
    let done = obstacle_learn(&kit, LearnWays::Both, &moments).unwrap();
    lines.say("learn", &format!("{} {}", done.proved, done.outcome));
    lines.say("learn.summary", &done.summary);
    let killed = LearnMoment {
        at_ms: start + 100.0,
        what: LearnHappened::Killed,
    };
    moments.retain(|moment| moment.at_ms <= start);
    moments.push(killed);
    let done = obstacle_learn(&kit, LearnWays::Both, &moments).unwrap();
    lines.say("learn.killed", &format!("{} {}", done.proved, done.outcome));
}

fn computed() -> String {
    let mut lines = Lines::default();
    faces(&mut lines);
    fitting(&mut lines);
    photos(&mut lines);
    jobs(&mut lines);
    sounds(&mut lines);
    lines.0
}

/// The kept list.
pub fn expected() -> String {
    text(EXPECTED)
}

#[test]
fn rust_computes_what_is_kept() {
    let lines = computed();
    if writes() {
        fs::write(root().join(EXPECTED), &lines).unwrap();
    }
    for (now, kept) in lines.lines().zip(expected().lines()) {
        assert_eq!(now, kept);
    }
    assert_eq!(lines.lines().count(), expected().lines().count());
}
