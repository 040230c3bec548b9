//! Heavy work on a thread of its own.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::Builder;

use super::post::{Desk, Said, send};
use crate::platform::work::stopped;
use crate::platform::{Task, Told, Work, WorkEvent, WorkHandle};
use crate::worker::work;

/// The bundle adjustment and the font subsetter like deep stacks.
const STACK: usize = 8 * 1024 * 1024;

/// Threads, one a task.
pub(super) struct AndroidWork(Desk);

impl AndroidWork {
    pub(super) fn new(desk: &Desk) -> Self {
        Self(desk.clone())
    }
}

impl Work for AndroidWork {
    fn start(&self, task: Task, told: Told<WorkEvent>) -> WorkHandle {
        let number = Desk::number();
        let (desk, teller) = (self.0.clone(), told.clone());
        self.0.hear(number, move |said| {
            if let Said::Work(event) = said {
                if !matches!(event, WorkEvent::Progress(_)) {
                    desk.forget(number);
                }
                teller(event);
            }
        });
        let given_up = Arc::new(AtomicBool::new(false));
        let unwanted = given_up.clone();
        let begun = Builder::new()
            .name("work".to_owned())
            .stack_size(STACK)
            .spawn(move || {
                let tell = |event| {
                    if !unwanted.load(Ordering::Relaxed) {
                        send(number, Said::Work(event));
                    }
                };
                let progress = |share| tell(WorkEvent::Progress(share));
                let done = catch_unwind(AssertUnwindSafe(|| work(&task, &progress)));
                tell(match done {
                    Ok(Ok(bytes)) => WorkEvent::Done(bytes),
                    Ok(Err(message)) => WorkEvent::Failed(message),
                    Err(_) => stopped("panic"),
                });
            });
        if let Err(fault) = begun {
            self.0.forget(number);
            told(stopped(&fault.to_string()));
        }
        let desk = self.0.clone();
        WorkHandle::stopped_by(move || {
            given_up.store(true, Ordering::Relaxed);
            desk.forget(number);
        })
    }
}
