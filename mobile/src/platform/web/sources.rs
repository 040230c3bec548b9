//! The browser's three sources of motion readings.

use std::rc::Rc;

use js_sys::{Array, Function, Object, Reflect};
use rakeline_core::sample::RawSample;
use rakeline_core::units::{Degrees, Millis};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    DeviceAcceleration, DeviceMotionEvent, DeviceOrientationEvent, Event, EventTarget, Window,
};

use super::call::{error_name, method, property, set};
use super::clock::monotonic;
use super::listen::Listener;
use crate::platform::SourceName;

/// Chromium rounds angles to this; others give them finer.
const ANGLE_STEP: Degrees = Degrees(0.1);

/// The specification's greatest precision of acceleration, m/s².
const ACCELERATION_STEP: f64 = 0.1;

/// Readings a second to ask for.
const FREQUENCY: f64 = 60.0;

/// What a source says.
pub(super) enum Report {
    /// Figures.
    Figures(RawSample),
    /// An event without figures.
    Nothing,
    /// The source is forbidden.
    Refused,
    /// The system ended the source, or has none.
    Ended,
}

/// Where a source reports.
pub(super) type Reports = Rc<dyn Fn(Report)>;

/// A source that is listened to until this is dropped.
pub(super) struct Listening {
    _listeners: Vec<Listener>,
    sensor: Option<EventTarget>,
}

impl Drop for Listening {
    fn drop(&mut self) {
        if let Some(sensor) = &self.sensor {
            let _ = method(sensor, "stop", &[]);
        }
    }
}

/// Starts to listen to a source.
pub(super) fn listen(window: &Window, source: SourceName, reports: Reports) -> Listening {
    match source {
        SourceName::Orientation => orientation(window, reports),
        SourceName::RelativeOrientation => relative_orientation(window, reports),
        SourceName::Acceleration => acceleration(window, reports),
    }
}

/// The event's own time; the present where a browser counts from elsewhere.
fn time(window: &Window, stamp: f64) -> Millis {
    let now = monotonic(window);
    if stamp > 0.0 && stamp <= now.0 + 1000.0 {
        Millis(stamp)
    } else {
        now
    }
}

fn one(listener: Listener) -> Listening {
    Listening {
        _listeners: vec![listener],
        sensor: None,
    }
}

fn orientation(window: &Window, reports: Reports) -> Listening {
    let clock = window.clone();
    one(Listener::new(window, "deviceorientation", move |event| {
        let at = time(&clock, event.time_stamp());
        let event: DeviceOrientationEvent = event.unchecked_into();
        let report = match (event.beta(), event.gamma()) {
            (Some(beta), Some(gamma)) => Report::Figures(RawSample::Euler {
                at,
                alpha: event.alpha(),
                beta,
                gamma,
                step: ANGLE_STEP,
            }),
            _ => Report::Nothing,
        };
        reports(report);
    }))
}

fn acceleration(window: &Window, reports: Reports) -> Listening {
    let clock = window.clone();
    let sign = acceleration_sign(window);
    one(Listener::new(window, "devicemotion", move |event| {
        let at = time(&clock, event.time_stamp());
        let event: DeviceMotionEvent = event.unchecked_into();
        let xyz = event.acceleration_including_gravity().and_then(figures);
        reports(match xyz {
            Some(xyz) => Report::Figures(RawSample::Acceleration {
                at,
                xyz: xyz.map(|axis| sign * axis),
                step: ACCELERATION_STEP,
            }),
            None => Report::Nothing,
        });
    }))
}

fn figures(acceleration: DeviceAcceleration) -> Option<[f64; 3]> {
    Some([acceleration.x()?, acceleration.y()?, acceleration.z()?])
}

/// WebKit hands on the phone maker's own sign: face up reads z = -9.8 there,
/// +9.8 by W3C DeviceOrientation. All browsers on those phones are WebKit
/// and name the same vendor; no other engine does.
fn acceleration_sign(window: &Window) -> f64 {
    let vendor = property(&window.navigator(), "vendor").and_then(|v| v.as_string());
    match vendor {
        Some(vendor) if vendor.starts_with("Apple") => -1.0,
        _ => 1.0,
    }
}

fn relative_orientation(window: &Window, reports: Reports) -> Listening {
    let none = |report: Report| {
        reports(report);
        Listening {
            _listeners: Vec::new(),
            sensor: None,
        }
    };
    let sensor = match relative_sensor(window) {
        Some(Ok(sensor)) => sensor,
        Some(Err(error)) => return none(refusal(&error)),
        None => return none(Report::Ended),
    };
    let (clock, own, told) = (window.clone(), sensor.clone(), reports.clone());
    let reading = Listener::new(&sensor, "reading", move |_| {
        told(match quaternion(&own) {
            Some(xyzw) => Report::Figures(RawSample::Quaternion {
                at: reading_time(&clock, &own),
                xyzw,
                step: ANGLE_STEP,
            }),
            None => Report::Nothing,
        });
    });
    let told = reports.clone();
    let error = Listener::new(&sensor, "error", move |event: Event| {
        let error = property(&event, "error").unwrap_or(JsValue::NULL);
        told(refusal(&error));
    });
    // Whatever goes wrong comes as the error event.
    let _ = method(&sensor, "start", &[]);
    Listening {
        _listeners: vec![reading, error],
        sensor: Some(sensor),
    }
}

fn refusal(error: &JsValue) -> Report {
    match error_name(error).as_str() {
        "NotAllowedError" | "SecurityError" => Report::Refused,
        _ => Report::Ended,
    }
}

fn relative_sensor(window: &Window) -> Option<Result<EventTarget, JsValue>> {
    let class: Function = property(window, "RelativeOrientationSensor")?
        .dyn_into()
        .ok()?;
    let options = Object::new();
    set(&options, "frequency", &JsValue::from(FREQUENCY));
    set(&options, "referenceFrame", &JsValue::from_str("device"));
    let made = Reflect::construct(&class, &Array::of1(&options));
    Some(made.map(JsCast::unchecked_into))
}

fn quaternion(sensor: &JsValue) -> Option<[f64; 4]> {
    let list = Array::from(&property(sensor, "quaternion")?);
    let figures: Vec<f64> = list.iter().filter_map(|part| part.as_f64()).collect();
    figures.try_into().ok()
}

fn reading_time(window: &Window, sensor: &JsValue) -> Millis {
    let stamp = property(sensor, "timestamp").and_then(|stamp| stamp.as_f64());
    time(window, stamp.unwrap_or(0.0))
}
