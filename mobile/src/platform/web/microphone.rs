//! The browser's microphone: a worklet takes the frames, a worker of its
//! own listens, the page hears of beeps only.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{Array, Float64Array, Object};
use rakeline_core::estimate::beep::{Hearing, OwnTone, ToneGate};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{Event, EventTarget, MessageEvent, Window};

use super::call::{error_name, error_words, made, method, property, set, settled};
use super::listen::Listener;
use crate::platform::{Microphone, MicrophoneEvent, MicrophoneFault, MicrophoneSink};

/// Takes frames on the audio thread.
const WORKLET: &str = "/ear.js";
/// Listens to them.
const WORKER: &str = "/hear.js";

/// A run of the microphone; dropping it frees the microphone.
#[derive(Default)]
struct Run {
    stream: Option<JsValue>,
    context: Option<JsValue>,
    worker: Option<JsValue>,
    listeners: Vec<Listener>,
}

impl Drop for Run {
    fn drop(&mut self) {
        self.listeners.clear();
        if let Some(stream) = &self.stream {
            for track in tracks(stream).iter() {
                let _ = method(&track, "stop", &[]);
            }
        }
        if let Some(context) = &self.context {
            let _ = method(context, "close", &[]);
        }
        if let Some(worker) = &self.worker {
            let _ = method(worker, "terminate", &[]);
        }
    }
}

#[derive(Default)]
struct Place {
    run: Option<Run>,
    /// Told while the run of this number goes on.
    sink: Option<(u32, MicrophoneSink)>,
    last: u32,
}

/// The browser's microphone.
#[derive(Clone)]
pub(super) struct WebMicrophone {
    window: Window,
    place: Rc<RefCell<Place>>,
}

fn text(of: &str) -> JsValue {
    JsValue::from_str(of)
}

fn tracks(stream: &JsValue) -> Array {
    match method(stream, "getTracks", &[]) {
        Some(Ok(tracks)) => Array::from(&tracks),
        _ => Array::new(),
    }
}

fn fault(error: &JsValue) -> MicrophoneFault {
    match error_name(error).as_str() {
        "NotAllowedError" | "SecurityError" => MicrophoneFault::Refused,
        "NotFoundError" | "OverconstrainedError" => MicrophoneFault::NoMicrophone,
        "NotReadableError" | "AbortError" => MicrophoneFault::Taken,
        _ => MicrophoneFault::Failed(error_words(error)),
    }
}

fn failed(error: &JsValue) -> MicrophoneFault {
    MicrophoneFault::Failed(error_words(error))
}

/// A method that must be there.
fn call(of: &JsValue, name: &str, args: &[&JsValue]) -> Result<JsValue, MicrophoneFault> {
    match method(of, name, args) {
        Some(given) => given.map_err(|error| failed(&error)),
        None => Err(MicrophoneFault::Failed(name.to_owned())),
    }
}

fn part(of: &JsValue, name: &str) -> Result<JsValue, MicrophoneFault> {
    property(of, name).ok_or_else(|| MicrophoneFault::Failed(name.to_owned()))
}

impl WebMicrophone {
    pub(super) fn new(window: &Window) -> Self {
        Self {
            window: window.clone(),
            place: Rc::default(),
        }
    }

    fn tell(&self, number: u32, event: MicrophoneEvent) {
        let sink = self.place.borrow().sink.clone();
        if let Some((running, sink)) = sink
            && running == number
        {
            sink(event);
        }
    }

    /// Nothing more is heard in this run.
    fn lose(&self, number: u32, fault: MicrophoneFault) {
        let sink = {
            let mut place = self.place.borrow_mut();
            match &place.sink {
                Some((running, _)) if *running == number => {}
                _ => return,
            }
            // Freed after the place is free again.
            (place.run.take(), place.sink.take())
        };
        if let (_, Some((_, sink))) = sink {
            sink(MicrophoneEvent::Fault(fault));
        }
    }

    fn goes_on(&self, number: u32) -> bool {
        matches!(&self.place.borrow().sink, Some((running, _)) if *running == number)
    }

    async fn open(&self) -> Result<JsValue, MicrophoneFault> {
        let devices = property(&self.window.navigator(), "mediaDevices");
        let devices = devices.ok_or(MicrophoneFault::InsecureContext)?;
        let (wanted, audio) = (Object::new(), Object::new());
        for filter in ["echoCancellation", "noiseSuppression", "autoGainControl"] {
            set(&audio, filter, &JsValue::FALSE);
        }
        set(&wanted, "audio", &audio);
        let asked = method(&devices, "getUserMedia", &[&wanted]);
        let asked = asked.ok_or(MicrophoneFault::NoMicrophone)?;
        let stream = settled(asked.map_err(|error| fault(&error))?).await;
        stream.map_err(|error| fault(&error))
    }

    /// Worklet and worker, joined by a channel that the page does not see.
    async fn join(&self, run: &mut Run, gate: ToneGate) -> Result<f64, MicrophoneFault> {
        let window: &JsValue = &self.window;
        let (Some(context), Some(stream)) = (&run.context, &run.stream) else {
            return Err(MicrophoneFault::Ended);
        };
        let rate = part(context, "sampleRate")?.as_f64().unwrap_or_default();
        let worklets = part(context, "audioWorklet")?;
        let module = call(&worklets, "addModule", &[&text(WORKLET)])?;
        settled(module).await.map_err(|error| failed(&error))?;
        let source = call(context, "createMediaStreamSource", &[stream])?;
        let make = |name: &str, args: &[&JsValue]| {
            made(window, name, args).map_err(|error| failed(&error))
        };
        let ear = make("AudioWorkletNode", &[context, &text("ear")])?;
        let channel = make("MessageChannel", &[])?;
        let (one, other) = (part(&channel, "port1")?, part(&channel, "port2")?);
        let options = Object::new();
        set(&options, "type", &text("module"));
        let worker = make("Worker", &[&text(WORKER), &options])?;
        let letter = Object::new();
        set(&letter, "port", &one);
        set(&letter, "rate", &JsValue::from_f64(rate));
        set(&letter, "gate", &gate_number(gate));
        let origin = property(window, "performance").and_then(|p| property(&p, "timeOrigin"));
        set(&letter, "origin", &origin.unwrap_or(JsValue::from_f64(0.0)));
        call(&worker, "postMessage", &[&letter, &Array::of1(&one)])?;
        let letter = Object::new();
        set(&letter, "port", &other);
        call(
            &part(&ear, "port")?,
            "postMessage",
            &[&letter, &Array::of1(&other)],
        )?;
        call(&source, "connect", &[&ear])?;
        // It gives silence; connected, every browser keeps it running.
        call(&ear, "connect", &[&part(context, "destination")?])?;
        let resumed = call(context, "resume", &[])?;
        run.worker = Some(worker);
        settled(resumed).await.map_err(|error| failed(&error))?;
        Ok(rate)
    }

    fn watch(&self, run: &mut Run, number: u32) {
        let lost = |why: MicrophoneFault| {
            let microphone = self.clone();
            move |_: Event| microphone.lose(number, why.clone())
        };
        if let Some(stream) = &run.stream {
            for track in tracks(stream).iter() {
                let track: EventTarget = track.unchecked_into();
                let ended = Listener::new(&track, "ended", lost(MicrophoneFault::Ended));
                let muted = Listener::new(&track, "mute", lost(MicrophoneFault::Taken));
                run.listeners.extend([ended, muted]);
            }
        }
        if let Some(worker) = &run.worker {
            let worker: EventTarget = worker.clone().unchecked_into();
            let microphone = self.clone();
            let heard = Listener::new(&worker, "message", move |event| {
                if let Some(message) = event.dyn_ref::<MessageEvent>() {
                    microphone.hear(number, &message.data());
                }
            });
            let microphone = self.clone();
            let died = Listener::new(&worker, "error", move |event| {
                microphone.lose(number, MicrophoneFault::Failed(error_words(&event)));
            });
            run.listeners.extend([heard, died]);
        }
    }

    fn hear(&self, number: u32, letter: &JsValue) {
        if let Some(why) = letter.as_string() {
            self.lose(number, MicrophoneFault::Failed(why));
        } else if let Some(numbers) = letter.dyn_ref::<Float64Array>()
            && let Some(hearing) = Hearing::from_numbers(&numbers.to_vec())
        {
            self.tell(number, MicrophoneEvent::Heard(hearing));
        }
    }

    async fn run(&self, number: u32, gate: ToneGate, context: Result<JsValue, JsValue>) {
        let mut run = Run::default();
        let begun = async {
            // Dropped with the run when the microphone is refused.
            run.context = Some(context.map_err(|error| failed(&error))?);
            run.stream = Some(self.open().await?);
            self.join(&mut run, gate).await
        };
        let outcome = begun.await;
        if !self.goes_on(number) {
            // Stopped meanwhile: what was opened is freed here.
            return;
        }
        match outcome {
            Ok(rate) => {
                self.watch(&mut run, number);
                self.place.borrow_mut().run = Some(run);
                self.tell(number, MicrophoneEvent::Started { rate });
            }
            Err(why) => self.lose(number, why),
        }
    }

    fn to_worker(&self, name: &str, value: &JsValue) {
        let worker = self
            .place
            .borrow()
            .run
            .as_ref()
            .and_then(|run| run.worker.clone());
        if let Some(worker) = worker {
            let letter = Object::new();
            set(&letter, name, value);
            let _ = method(&worker, "postMessage", &[&letter]);
        }
    }
}

/// The kit's tone; 0 for any.
fn gate_number(gate: ToneGate) -> JsValue {
    JsValue::from_f64(match gate {
        ToneGate::Any => 0.0,
        ToneGate::Near(tone_hz) => tone_hz,
    })
}

impl Microphone for WebMicrophone {
    fn start(&self, gate: ToneGate, sink: MicrophoneSink) {
        self.stop();
        let number = {
            let mut place = self.place.borrow_mut();
            place.last = place.last.wrapping_add(1);
            place.sink = Some((place.last, sink));
            place.last
        };
        // Made inside the tap, so that it may run.
        let context = made(&self.window, "AudioContext", &[]);
        let microphone = self.clone();
        spawn_local(async move { microphone.run(number, gate, context).await });
    }

    fn gate(&self, gate: ToneGate) {
        self.to_worker("gate", &gate_number(gate));
    }

    fn own_tone(&self, own: OwnTone) {
        let numbers = [own.start_ms, own.end_ms].into_iter().chain(own.tones_hz);
        let numbers: Vec<f64> = numbers.collect();
        self.to_worker("own", &Float64Array::from(&numbers[..]));
    }

    fn stop(&self) {
        let gone = {
            let mut place = self.place.borrow_mut();
            (place.run.take(), place.sink.take())
        };
        drop(gone);
    }
}
