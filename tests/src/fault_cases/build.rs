//! Builds test records.

use chrono::{DateTime, FixedOffset};
use rakeline_core::decide::drill::Making;
use rakeline_core::decide::leads::RouteRule;
use rakeline_core::decide::look_behind::{Behind, Obstacle};
use rakeline_core::decide::mark_out::{NoDrill, NoDrillReason};
use rakeline_core::decide::ring_set::RingSet;
use rakeline_core::decide::supply::{LampCircuit, Reading};
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::estimate::ground::Ground;
use rakeline_core::estimate::rake::{Against, FaceReading};
use rakeline_core::job::{
    Answered, Drilled, Field, Finding, FittedAim, Found, HandTaken, HeadAnswer, JobId, JobState,
    LearnedObject, Load, Marks, MarksFrom, Object, RingWay, Row, Symptom, TakenReading, Tap, Tape,
    WalkKind, WalkTest, Where, Whose, YesNo, set_taken, walk_points,
};
use rakeline_core::kit::{self, Material};
use rakeline_core::units::{Degrees, Estimate, Millimetres, Millis, Offset};

/// A record under construction. It fails only on sample sheets that do not
/// parse, which their own tests hold.
#[derive(Clone)]
pub struct Record {
    /// The job so far.
    pub job: JobState,
}

fn noon() -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339("2026-04-09T12:00:00+02:00").unwrap_or_default()
}

fn typed(angle: f64, plus_minus: f64) -> Option<FaceReading> {
    let (angle, plus_minus) = (Degrees(angle), Degrees(plus_minus));
    FaceReading::typed(angle, plus_minus, Against::Level, Millis(0.0)).ok()
}

impl Record {
    fn of(sheet: &str) -> Option<Self> {
        let kit = kit::parse(sheet).ok()?;
        let id = JobId("c1".to_owned());
        Some(Self {
            job: JobState::start(id, kit, noon()),
        })
    }

    /// The kit for plastic bumpers; nothing else is recorded.
    #[must_use]
    #[allow(clippy::expect_used)]
    pub fn bare() -> Self {
        Self::of(include_str!("../../../assets/kits/plain-four.json")).expect("sample sheet")
    }

    /// The kit for metal bumpers; nothing else is recorded.
    #[must_use]
    #[allow(clippy::expect_used)]
    pub fn bare_metal() -> Self {
        let sheet = include_str!("../../../assets/kits/metal-four.json");
        let mut record = Self::of(sheet).expect("sample sheet");
        record.job.behind.material = Material::Metal;
        record
    }

    /// A system that another fitted.
    #[must_use]
    pub fn elsewhere() -> Self {
        let mut record = Self::bare();
        record.job.fault.elsewhere = Some(noon());
        record
    }

    /// A car fitted as it should be, everything recorded, nothing wrong.
    #[must_use]
    pub fn right() -> Self {
        Self::bare().fitted([-4.0, -3.5, -3.6, -4.1])
    }

    /// A pick-up with a metal bumper, fitted as it should be.
    #[must_use]
    pub fn right_metal() -> Self {
        Self::bare_metal().fitted([-3.0, -2.5, -2.5, -3.1])
    }

    fn fitted(self, faces: [f64; 4]) -> Self {
        let record = self
            .marks([-680.0, -230.0, 230.0, 680.0])
            .faces(faces)
            .ground_by_board()
            .height(560.0);
        let mut record = record.supply("13.6", "0.05", LampCircuit::Plain);
        for spot in 0..4 {
            record = record.drilled(spot, None).seated(spot);
        }
        record.job.loom.rules = RouteRule::ALL.to_vec();
        record
    }

    /// The marks.
    #[must_use]
    pub fn marks(mut self, offsets: [f64; 4]) -> Self {
        self.job.marks = Some(Marks {
            half_left: Millimetres(860.0),
            half_right: Millimetres(860.0),
            from: MarksFrom::Hand,
            offsets: offsets.map(Offset).to_vec(),
            tape: Tape::On(noon()),
        });
        self
    }

    /// Face angles typed from a gauge.
    #[must_use]
    pub fn faces(mut self, faces: [f64; 4]) -> Self {
        for (spot, face) in self.job.spots.iter_mut().zip(faces) {
            let reading = typed(face, 0.4);
            let taken = reading.map(|reading| TakenReading {
                reading,
                at: noon(),
            });
            spot.readings = taken.into_iter().collect();
        }
        self
    }

    /// No face angle at all.
    #[must_use]
    pub fn unread(mut self) -> Self {
        for spot in &mut self.job.spots {
            spot.readings.clear();
        }
        self
    }

    /// The ground is known well.
    #[must_use]
    pub fn ground_by_board(mut self) -> Self {
        self.job.ground = Ground::gauge_on_board();
        self
    }

    /// Height of the row.
    #[must_use]
    pub fn height(mut self, height: f64) -> Self {
        self.job.mark_out.row = Some(Row {
            from_line: Millimetres(0.0),
            above_ground: Some(Millimetres(height)),
            line: None,
        });
        self
    }

    /// A set by hand.
    #[must_use]
    pub fn by_hand(mut self, spot: u8, ring: &str, insert: Option<&str>) -> Self {
        let set = match insert {
            Some(insert) => RingSet::with_insert(ring, insert),
            None => RingSet::ring(ring),
        };
        let reason = "no other left".to_owned();
        self.job
            .rings
            .by_hand
            .insert(spot, HandTaken { set, reason });
        self
    }

    /// A hole, of the size that is needed or another.
    #[must_use]
    pub fn drilled(mut self, spot: u8, diameter: Option<f64>) -> Self {
        let needs = set_taken(&self.job, usize::from(spot))
            .and_then(|taken| taken.set.hole(&self.job.kit, self.job.behind.material));
        let diameter = diameter.map(Millimetres).or(needs);
        let diameter = diameter.unwrap_or(self.job.kit.holes.head);
        self.job.holes.drilled.insert(
            spot,
            Drilled {
                at: noon(),
                diameter,
                making: Making::Saw(diameter),
            },
        );
        self
    }

    /// 'Arrow up, clicked home, tugged'.
    #[must_use]
    pub fn seated(mut self, spot: u8) -> Self {
        self.job.rings.seated.insert(spot, noon());
        self
    }

    /// Nobody said how it sits.
    #[must_use]
    pub fn not_seated(mut self, spot: u8) -> Self {
        self.job.rings.seated.remove(&spot);
        self
    }

    /// Readings at the supply, and how the lamp is fed.
    #[must_use]
    pub fn supply(mut self, on: &str, earth: &str, lamp: LampCircuit) -> Self {
        for (reading, text) in [(Reading::ReverseOn, on), (Reading::EarthDrop, earth)] {
            self.job
                .typed
                .insert(Field::Volts(reading), text.to_owned());
        }
        self.job.loom.lamp = Some(lamp);
        self
    }

    /// A typed field.
    #[must_use]
    pub fn typed(mut self, field: Field, text: &str) -> Self {
        self.job.typed.insert(field, text.to_owned());
        self
    }

    /// How the lamp is fed.
    #[must_use]
    pub fn lamp(mut self, lamp: LampCircuit) -> Self {
        self.job.loom.lamp = Some(lamp);
        self
    }

    /// What was found behind a mark.
    #[must_use]
    pub fn behind(mut self, spot: u8, what: Obstacle) -> Self {
        let answer = self.job.behind.spots.or_default(spot);
        answer.behind = Some(Behind::SomethingThere(vec![what]));
        self
    }

    /// The panel's thickness at a head.
    #[must_use]
    pub fn panel(self, spot: u8, thick: &str) -> Self {
        self.typed(Field::Panel(Whose::Spot(spot)), thick)
    }

    /// A tow hitch in the bumper.
    #[must_use]
    pub fn tow_hitch(mut self) -> Self {
        self.job.mark_out.no_drill.push(NoDrill {
            from: Offset(-90.0),
            to: Offset(90.0),
            why: NoDrillReason::TowHitch,
        });
        self
    }

    /// Something was learned.
    #[must_use]
    pub fn learned(mut self, what: &str) -> Self {
        self.job.walk.learned = Some(LearnedObject {
            what: Object::Other(what.to_owned()),
            across: Offset(0.0),
            half_width: Millimetres(30.0),
            reaches: Millimetres(120.0),
            at: noon(),
        });
        self
    }

    /// What the vehicle carries.
    #[must_use]
    pub fn load(mut self, load: Load) -> Self {
        self.job.measuring.load = load;
        self.job.load_allowance = load.allowance();
        self
    }

    /// A walk test of nine points, row by row; `None` is not tapped.
    #[must_use]
    pub fn walked(mut self, taps: [Option<Sounded>; 9]) -> Self {
        let points = walk_points(&self.job, WalkKind::Nine).unwrap_or_default();
        let first = points.len().saturating_sub(9);
        let taps = (0_u16..)
            .zip(taps)
            .filter_map(|(point, sounded)| {
                Some(Tap {
                    point: point + u16::try_from(first).ok()?,
                    sounded: sounded?,
                    at: noon(),
                })
            })
            .collect();
        self.job.walk.test = Some(WalkTest {
            at: noon(),
            kind: WalkKind::Nine,
            points,
            taps,
            void: None,
        });
        self
    }

    /// The function check, head by head.
    #[must_use]
    pub fn answers(mut self, heads: &[(u8, Answered)]) -> Self {
        for (spot, answered) in heads {
            self.job.walk.heads.push(HeadAnswer {
                spot: *spot,
                answered: *answered,
                at: noon(),
            });
        }
        self
    }

    /// Every head answers as itself.
    #[must_use]
    pub fn all_answer(self) -> Self {
        self.answers(&[0, 1, 2, 3].map(|spot| (spot, Answered::Shown(spot))))
    }

    /// What the system does.
    #[must_use]
    pub fn does(self, symptom: Symptom) -> Self {
        self.does_at(symptom, Where::NotKnown)
    }

    /// What the system does, and where.
    #[must_use]
    pub fn does_at(mut self, symptom: Symptom, place: Where) -> Self {
        self.job.fault.symptoms.insert(symptom, place);
        self
    }

    /// An answer at the car.
    #[must_use]
    pub fn found(mut self, finding: Finding, spot: Option<u8>, answer: YesNo) -> Self {
        self.job.fault.found.push(Found {
            finding,
            spot,
            answer,
        });
        self
    }

    /// It is so, for the vehicle.
    #[must_use]
    pub fn so(self, finding: Finding) -> Self {
        self.found(finding, None, YesNo::Yes)
    }

    /// It is not so, for the vehicle.
    #[must_use]
    pub fn not_so(self, finding: Finding) -> Self {
        self.found(finding, None, YesNo::No)
    }

    /// It is not so at a head.
    #[must_use]
    pub fn not_at(self, finding: Finding, spot: u8) -> Self {
        self.found(finding, Some(spot), YesNo::No)
    }

    /// It is so at a head.
    #[must_use]
    pub fn so_at(self, finding: Finding, spot: u8) -> Self {
        self.found(finding, Some(spot), YesNo::Yes)
    }

    /// The panel was read beside a fitted head.
    #[must_use]
    pub fn beside(mut self, spot: u8, faces: [f64; 2], ring: f64, way: RingWay) -> Self {
        let [left, right] = faces.map(|face| typed(face, 0.4));
        if let (Some(left), Some(right)) = (left, right) {
            let ring = Estimate::new(Degrees(ring), Degrees(0.3));
            let aim = FittedAim {
                left,
                right,
                ring,
                way,
            };
            self.job.fault.aims.insert(spot, aim);
        }
        self
    }
}
