//! Address and history without a browser, timers by threads.

use std::cell::RefCell;
use std::fs::File;
use std::io::Read;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use rakeline_core::units::Millis;

use super::phone::{Handle, PhoneFacts};
use super::post::{BACK, Desk, SEEN, Said, send};
use super::report::{stands_at, volume_keys};
use crate::platform::{Page, Ticker, Told, Visibility, VolumeKeys};

struct History {
    steps: Vec<String>,
    pop: Option<Told<String>>,
}

/// The app's own history.
pub(super) struct AndroidPage {
    phone: Handle,
    desk: Desk,
    device: String,
    history: Rc<RefCell<History>>,
}

impl History {
    fn here(&self) -> String {
        self.steps.last().cloned().unwrap_or_else(|| "/".to_owned())
    }
}

/// One step back; without one the app leaves the screen.
fn go_back(history: &RefCell<History>, phone: Handle) {
    let told = {
        let mut history = history.borrow_mut();
        if history.steps.len() < 2 {
            None
        } else {
            history.steps.pop();
            stands_at(&history.here());
            history.pop.clone().map(|told| (told, history.here()))
        }
    };
    match told {
        Some((told, path)) => told(path),
        None => phone.tell(|phone| phone.leave()),
    }
}

impl AndroidPage {
    pub(super) fn new(phone: &Handle, desk: &Desk, facts: &PhoneFacts) -> Self {
        // A job that was open lies over the list of jobs: back leads there.
        let mut steps = vec!["/".to_owned()];
        if facts.path.starts_with('/') && facts.path != "/" {
            steps.push(facts.path.clone());
        }
        let history = Rc::new(RefCell::new(History { steps, pop: None }));
        stands_at(&history.borrow().here());
        let (back, asked) = (history.clone(), *phone);
        desk.hear(BACK, move |_| go_back(&back, asked));
        Self {
            phone: *phone,
            desk: desk.clone(),
            device: facts.device.clone(),
            history,
        }
    }

    fn address(&self) -> String {
        self.history.borrow().here()
    }
}

fn span(of: Millis) -> Duration {
    Duration::from_secs_f64((of.0 / 1_000.0).clamp(0.0, 86_400.0))
}

impl Page for AndroidPage {
    fn path(&self) -> String {
        let address = self.address();
        address.split('?').next().unwrap_or_default().to_owned()
    }

    fn query(&self) -> String {
        let address = self.address();
        address
            .split_once('?')
            .map_or_else(String::new, |(_, query)| query.to_owned())
    }

    fn push(&self, path: &str) {
        stands_at(path);
        self.history.borrow_mut().steps.push(path.to_owned());
    }

    fn replace(&self, path: &str) {
        stands_at(path);
        let mut history = self.history.borrow_mut();
        history.steps.pop();
        history.steps.push(path.to_owned());
    }

    fn back(&self) {
        go_back(&self.history, self.phone);
    }

    fn on_pop(&self, told: Told<String>) {
        self.history.borrow_mut().pop = Some(told);
    }

    fn device(&self) -> String {
        self.device.clone()
    }

    fn random_id(&self) -> String {
        let mut bytes = [0_u8; 8];
        let secure = File::open("/dev/urandom").and_then(|mut file| file.read_exact(&mut bytes));
        if secure.is_err() {
            // Every Linux has it; the time still differs from job to job.
            let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
            let nanos = since.map_or(0, |since| since.as_nanos() as u64);
            bytes = nanos.to_be_bytes();
        }
        format!("{:016x}", u64::from_be_bytes(bytes))
    }

    fn after(&self, delay: Millis, call: Box<dyn FnOnce()>) {
        let number = Desk::number();
        let (desk, call) = (self.desk.clone(), RefCell::new(Some(call)));
        self.desk.hear(number, move |_| {
            desk.forget(number);
            let call = call.take();
            if let Some(call) = call {
                call();
            }
        });
        thread::spawn(move || {
            thread::sleep(span(delay));
            send(number, Said::Tick);
        });
    }

    fn every(&self, interval: Millis, call: Rc<dyn Fn()>) -> Ticker {
        let number = Desk::number();
        let stop = Arc::new(AtomicBool::new(false));
        // One tick at a time: a busy screen does not pile them up.
        let due = Arc::new(AtomicBool::new(false));
        let (stopped, waits) = (stop.clone(), due.clone());
        self.desk.hear(number, move |_| {
            due.store(false, Ordering::Release);
            call();
        });
        let pause = span(interval).max(Duration::from_millis(1));
        thread::spawn(move || {
            loop {
                thread::sleep(pause);
                if stopped.load(Ordering::Relaxed) {
                    return;
                }
                if !waits.swap(true, Ordering::AcqRel) {
                    send(number, Said::Tick);
                }
            }
        });
        let desk = self.desk.clone();
        Ticker::stopped_by(move || {
            stop.store(true, Ordering::Relaxed);
            desk.forget(number);
        })
    }

    fn on_hidden(&self, told: Told<Visibility>) {
        self.desk.hear(SEEN, move |said| {
            if let Said::Seen(visibility) = said {
                told(visibility);
            }
        });
    }

    fn volume_keys(&self, keys: VolumeKeys) {
        volume_keys(keys);
    }
}
