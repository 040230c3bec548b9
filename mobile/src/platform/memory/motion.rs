//! Motion sensors that say what the test says.

use std::cell::{Cell, RefCell};

use crate::platform::{Motion, MotionEvent, MotionFault, MotionSink, SourceName};
use rakeline_core::sample::RawSample;

/// Scripted motion sensors: permission granted and orientation at hand
/// unless told otherwise.
#[derive(Default)]
pub struct MemoryMotion {
    sink: RefCell<Option<MotionSink>>,
    fault: Cell<Option<MotionFault>>,
    starts: Cell<u32>,
}

impl MemoryMotion {
    /// Every start from now on ends in this fault at once; `None` heals.
    pub fn fail_starts(&self, fault: Option<MotionFault>) {
        self.fault.set(fault);
    }

    /// Hands over an event, as it is. Nothing happens while stopped.
    pub fn feed(&self, event: MotionEvent) {
        let sink = self.sink.borrow().clone();
        if let Some(sink) = sink {
            sink(event);
        }
    }

    /// Hands over readings one by one.
    pub fn samples(&self, samples: impl IntoIterator<Item = RawSample>) {
        for sample in samples {
            self.feed(MotionEvent::Sample(sample));
        }
    }

    /// Whether the sensors run.
    #[must_use]
    pub fn running(&self) -> bool {
        self.sink.borrow().is_some()
    }

    /// How often they were started.
    #[must_use]
    pub fn starts(&self) -> u32 {
        self.starts.get()
    }
}

impl Motion for MemoryMotion {
    fn start(&self, sink: MotionSink) {
        self.starts.set(self.starts.get() + 1);
        match self.fault.get() {
            Some(fault) => {
                self.sink.replace(None);
                sink(MotionEvent::Fault(fault));
            }
            None => {
                self.sink.replace(Some(sink));
                self.feed(MotionEvent::Using(SourceName::Orientation));
            }
        }
    }

    fn stop(&self) {
        self.sink.replace(None);
    }
}

#[cfg(test)]
mod tests {
    use std::rc::Rc;

    use rakeline_core::units::Millis;

    use super::*;

    fn heard() -> (Rc<RefCell<Vec<MotionEvent>>>, MotionSink) {
        let heard: Rc<RefCell<Vec<MotionEvent>>> = Rc::default();
        let notes = heard.clone();
        (heard, Rc::new(move |event| notes.borrow_mut().push(event)))
    }

    fn face_up(at: f64) -> RawSample {
        RawSample::Acceleration {
            at: Millis(at),
            xyz: [0.0, 0.0, 9.8],
            step: 0.1,
        }
    }

    #[test]
    fn readings_name_their_source_first_and_end_with_stop() {
        let motion = MemoryMotion::default();
        let (heard, sink) = heard();
        motion.samples([face_up(0.0)]);
        motion.start(sink);
        motion.samples([face_up(1.0)]);
        motion.stop();
        motion.samples([face_up(2.0)]);
        assert_eq!(
            *heard.borrow(),
            [
                MotionEvent::Using(SourceName::Orientation),
                MotionEvent::Sample(face_up(1.0)),
            ]
        );
    }

    #[test]
    fn a_refused_start_says_so_and_does_not_run() {
        let motion = MemoryMotion::default();
        let (heard, sink) = heard();
        motion.fail_starts(Some(MotionFault::PermissionRefused));
        motion.start(sink);
        assert!(!motion.running());
        assert_eq!(
            *heard.borrow(),
            [MotionEvent::Fault(MotionFault::PermissionRefused)]
        );
    }

    #[test]
    fn the_sink_may_stop_the_sensors_from_within() {
        let motion = Rc::new(MemoryMotion::default());
        let own = motion.clone();
        motion.start(Rc::new(move |_| own.stop()));
        assert!(!motion.running());
    }
}
