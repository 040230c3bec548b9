//! The browser's worker: one module Worker, started at the first task.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Array, Object, Uint8Array};
use rakeline_core::table::Table;
use rakeline_core::text::Message;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Event, MessageEvent, Worker, WorkerOptions, WorkerType};

use super::call::{error_words, property, set};
use super::listen::Listener;
use crate::platform::Told;
use crate::platform::work::{Task, Work, WorkEvent, WorkHandle, stopped};

/// What the worker is started from; it imports its own module.
const SCRIPT: &str = "/work.js";

/// A running worker with what listens to it.
struct Running {
    worker: Worker,
    _listeners: [Listener; 3],
}

impl Drop for Running {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}

#[derive(Default)]
struct Bench {
    running: RefCell<Option<Running>>,
    tasks: RefCell<Table<u32, Told<WorkEvent>>>,
    last: Cell<u32>,
}

/// The browser's worker.
#[derive(Clone, Default)]
pub(super) struct WebWork(Rc<Bench>);

impl Bench {
    /// Starts the worker unless it runs.
    fn ensure(self: &Rc<Self>) -> Result<(), JsValue> {
        if self.running.borrow().is_some() {
            return Ok(());
        }
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(SCRIPT, &options)?;
        let listen = |kind, heard: fn(&Rc<Self>, &Event)| {
            let bench = Rc::downgrade(self);
            Listener::new(&worker, kind, move |event| {
                if let Some(bench) = bench.upgrade() {
                    heard(&bench, &event);
                }
            })
        };
        let listeners = [
            listen("message", |bench, event| {
                if let Some(message) = event.dyn_ref::<MessageEvent>() {
                    bench.hear(&message.data());
                }
            }),
            listen("error", |bench, event| bench.die(&error_words(event))),
            listen("messageerror", |bench, event| {
                bench.die(&error_words(event))
            }),
        ];
        self.running.replace(Some(Running {
            worker,
            _listeners: listeners,
        }));
        Ok(())
    }

    fn post(&self, number: u32, mut task: Task) -> Result<(), JsValue> {
        let file = Uint8Array::from(task.take_file().as_slice());
        let json = rakeline_core::json::write(&task)
            .map_err(|fault| JsValue::from_str(&fault.to_string()))?;
        let letter = Object::new();
        set(&letter, "number", &JsValue::from_f64(f64::from(number)));
        set(&letter, "task", &JsValue::from_str(&json));
        set(&letter, "file", &file);
        let handed_over = Array::of1(&file.buffer());
        match &*self.running.borrow() {
            Some(running) => running
                .worker
                .post_message_with_transfer(&letter, &handed_over),
            None => Err(JsValue::from_str("no worker")),
        }
    }

    fn hear(&self, letter: &JsValue) {
        let number = property(letter, "number").and_then(|number| number.as_f64());
        let number = number.unwrap_or_default() as u32;
        if let Some(share) = property(letter, "share").and_then(|share| share.as_f64()) {
            let told = self.tasks.borrow().get(&number).cloned();
            if let Some(told) = told {
                told(WorkEvent::Progress(share as f32));
            }
        } else if let Some(bytes) = property(letter, "bytes") {
            self.end(number, WorkEvent::Done(Uint8Array::new(&bytes).to_vec()));
        } else if let Some(json) = property(letter, "refused").and_then(|json| json.as_string()) {
            self.end(
                number,
                match rakeline_core::json::read::<Message>(&json) {
                    Ok(message) => WorkEvent::Failed(message),
                    Err(_) => stopped(&json),
                },
            );
        } else if let Some(why) = property(letter, "died").and_then(|why| why.as_string()) {
            self.die(&why);
        }
    }

    fn end(&self, number: u32, event: WorkEvent) {
        let told = self.tasks.borrow_mut().remove(&number);
        if let Some(told) = told {
            told(event);
        }
    }

    /// The worker is gone: its tasks failed, the next one starts another.
    fn die(&self, why: &str) {
        self.running.take();
        let tasks = self.tasks.take();
        for told in tasks.into_values() {
            told(stopped(why));
        }
    }

    /// Nothing more is heard of a task. Alone it is stopped where it is,
    /// which takes the worker with it; else its outcome is dropped.
    fn give_up(&self, number: u32) {
        let was_there = self.tasks.borrow_mut().remove(&number).is_some();
        if was_there && self.tasks.borrow().is_empty() {
            self.running.take();
        }
    }
}

impl Work for WebWork {
    fn start(&self, task: Task, told: Told<WorkEvent>) -> WorkHandle {
        let bench = &self.0;
        let number = bench.last.get().wrapping_add(1);
        bench.last.set(number);
        bench.tasks.borrow_mut().insert(number, told);
        if let Err(fault) = bench.ensure().and_then(|()| bench.post(number, task)) {
            let words = fault.as_string().unwrap_or_else(|| error_words(&fault));
            bench.end(number, stopped(&words));
        }
        let bench = Rc::downgrade(bench);
        WorkHandle::stopped_by(move || {
            if let Some(bench) = bench.upgrade() {
                bench.give_up(number);
            }
        })
    }
}
