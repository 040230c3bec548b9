//! Tilt readings in batches, with the sensor's own times.

use std::cell::Cell;
use std::rc::Rc;

use rakeline_core::sample::{RawSample, STANDARD_GRAVITY, UpVector};
use rakeline_core::units::{Degrees, Millis};

use super::phone::{Handle, PhoneFault, TiltFault, TiltReading, TiltSource, TiltWanted};
use super::post::{Desk, Number, Said};
use crate::platform::{Motion, MotionEvent, MotionFault, MotionSink, SourceName};

/// The phone's motion sensors.
pub(super) struct AndroidMotion {
    phone: Handle,
    desk: Desk,
    run: Rc<Cell<Option<Number>>>,
}

impl AndroidMotion {
    pub(super) fn new(phone: &Handle, desk: &Desk) -> Self {
        Self {
            phone: *phone,
            desk: desk.clone(),
            run: Rc::default(),
        }
    }

    fn begin(&self, wanted: TiltWanted, sink: MotionSink) {
        self.stop();
        let run = Desk::number();
        self.run.set(Some(run));
        let using: Cell<Option<TiltSource>> = Cell::new(None);
        let (told, current) = (sink.clone(), self.run.clone());
        self.desk.hear(run, move |said| match said {
            Said::Tilt {
                source,
                step,
                batch,
            } => {
                if using.replace(Some(source)) != Some(source) {
                    told(MotionEvent::Using(name(source)));
                }
                for reading in batch {
                    // It may have been stopped by the reading before.
                    if current.get() != Some(run) {
                        return;
                    }
                    told(MotionEvent::Sample(sample(source, step, &reading)));
                }
            }
            Said::TiltEnded(fault) => {
                using.set(None);
                told(MotionEvent::Fault(match fault {
                    TiltFault::NoSensor => MotionFault::NoSensor,
                    TiltFault::Stopped => MotionFault::Stopped,
                }));
            }
            _ => {}
        });
        if let Err(fault) = self.phone.ask(|phone| phone.start_tilt(run, wanted)) {
            self.desk.forget(run);
            sink(MotionEvent::Fault(match fault {
                PhoneFault::Refused => MotionFault::PermissionRefused,
                PhoneFault::Missing => MotionFault::NoSensor,
                PhoneFault::Failed { .. } => MotionFault::Stopped,
            }));
        }
    }
}

fn name(source: TiltSource) -> SourceName {
    match source {
        TiltSource::Acceleration => SourceName::Acceleration,
        TiltSource::Gravity => SourceName::Orientation,
        TiltSource::Rotation => SourceName::RelativeOrientation,
    }
}

/// The resolution of m/s² as an angle near level.
fn as_angle(step: f64) -> Degrees {
    Degrees((step / STANDARD_GRAVITY).to_degrees())
}

fn sample(source: TiltSource, step: f64, reading: &TiltReading) -> RawSample {
    let at = Millis(reading.at_ms);
    let xyz = [reading.x, reading.y, reading.z];
    match (source, UpVector::of(xyz)) {
        (TiltSource::Rotation, _) => RawSample::Quaternion {
            at,
            xyzw: [reading.x, reading.y, reading.z, reading.w],
            step: Degrees(step),
        },
        // Normalised inside the system: a direction, never a raw reading.
        (TiltSource::Gravity, Some(up)) => {
            let (beta, gamma) = up.euler();
            RawSample::Euler {
                at,
                alpha: None,
                beta: beta.0,
                gamma: gamma.0,
                step: as_angle(step),
            }
        }
        _ => RawSample::Acceleration { at, xyz, step },
    }
}

impl Motion for AndroidMotion {
    fn start(&self, sink: MotionSink) {
        self.begin(TiltWanted::Up, sink);
    }

    fn start_turning(&self, sink: MotionSink) {
        self.begin(TiltWanted::Turn, sink);
    }

    fn stop(&self) {
        if let Some(run) = self.run.take() {
            self.desk.forget(run);
            self.phone.tell(|phone| phone.stop_tilt());
        }
    }
}

impl Drop for AndroidMotion {
    fn drop(&mut self) {
        self.stop();
    }
}

#[cfg(test)]
mod tests {
    use rakeline_core::sample::{Convention, SampleGate, Source};

    use super::*;

    fn reading(x: f64, y: f64, z: f64) -> TiltReading {
        TiltReading {
            at_ms: 5.0,
            x,
            y,
            z,
            w: 0.0,
        }
    }

    fn taken(sample: RawSample) -> rakeline_core::sample::TiltSample {
        SampleGate::new(Convention::PointsUp)
            .accept(sample)
            .unwrap()
    }

    #[test]
    fn gravity_keeps_its_direction_and_is_no_raw_source() {
        let gravity = taken(sample(TiltSource::Gravity, 0.0, &reading(0.5, 9.6, -1.3)));
        let raw = taken(sample(
            TiltSource::Acceleration,
            0.0,
            &reading(0.5, 9.6, -1.3),
        ));
        for (one, other) in gravity.up.0.iter().zip(raw.up.0) {
            assert!((one - other).abs() < 1e-12);
        }
        assert!(raw.raw.is_some() && gravity.raw.is_none());
    }

    #[test]
    fn the_resolution_goes_into_the_uncertainty() {
        let coarse = taken(sample(
            TiltSource::Acceleration,
            0.15,
            &reading(0.0, 9.8, 0.0),
        ));
        assert_eq!(coarse.source, Source::Acceleration { step: 0.15 });
        assert!(coarse.source.u_rounding().0 > 0.2);
        let gravity = taken(sample(TiltSource::Gravity, 0.15, &reading(0.0, 9.8, 0.0)));
        let differ = gravity.source.u_rounding().0 - coarse.source.u_rounding().0;
        assert!(differ.abs() < 1e-12);
    }

    #[test]
    fn without_a_phone_there_is_a_fault_and_no_reading() {
        let desk = Desk::open();
        let motion = AndroidMotion::new(&Handle, &desk);
        let heard: Rc<Cell<Option<MotionEvent>>> = Rc::default();
        let told = heard.clone();
        motion.start(Rc::new(move |event| told.set(Some(event))));
        assert_eq!(heard.get(), Some(MotionEvent::Fault(MotionFault::NoSensor)));
    }
}
