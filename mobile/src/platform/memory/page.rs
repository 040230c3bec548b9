//! A history without a browser, and timers on the scripted clock.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use rakeline_core::units::Millis;

use super::MemoryClock;
use crate::platform::{Page, Ticker, Told, Visibility, VolumeKeys};

/// A scripted page.
pub struct MemoryPage {
    clock: Rc<MemoryClock>,
    steps: RefCell<Vec<String>>,
    here: Cell<usize>,
    ids: Cell<u64>,
    pop: RefCell<Option<Told<String>>>,
    hidden: RefCell<Option<Told<Visibility>>>,
    keys: Cell<VolumeKeys>,
}

impl MemoryPage {
    /// A page opened at `path` (a query may follow it).
    #[must_use]
    pub fn new(clock: Rc<MemoryClock>, path: &str) -> Self {
        Self {
            clock,
            steps: RefCell::new(vec![path.to_owned()]),
            here: Cell::new(0),
            ids: Cell::new(0),
            pop: RefCell::default(),
            hidden: RefCell::default(),
            keys: Cell::default(),
        }
    }

    /// What the volume keys do.
    #[must_use]
    pub fn keys(&self) -> VolumeKeys {
        self.keys.get()
    }

    /// The fitter presses the system's forward button.
    pub fn forward(&self) {
        if self.here.get() + 1 < self.steps.borrow().len() {
            self.pop_to(self.here.get() + 1);
        }
    }

    /// The app goes to the background or comes back.
    pub fn show(&self, visibility: Visibility) {
        let told = self.hidden.borrow().clone();
        if let Some(told) = told {
            told(visibility);
        }
    }

    /// The path and query where the page stands.
    #[must_use]
    pub fn address(&self) -> String {
        let steps = self.steps.borrow();
        steps.get(self.here.get()).cloned().unwrap_or_default()
    }

    /// How many steps lie behind in the history.
    #[must_use]
    pub fn depth(&self) -> usize {
        self.here.get()
    }

    pub(super) fn reopened(&self, clock: Rc<MemoryClock>) -> Self {
        let page = Self::new(clock, &self.address());
        page.ids.set(self.ids.get());
        page
    }

    fn pop_to(&self, place: usize) {
        self.here.set(place);
        let told = self.pop.borrow().clone();
        if let Some(told) = told {
            told(self.address());
        }
    }
}

impl Page for MemoryPage {
    fn path(&self) -> String {
        let address = self.address();
        address.split('?').next().unwrap_or_default().to_owned()
    }

    fn query(&self) -> String {
        let address = self.address();
        address
            .split_once('?')
            .map_or_else(String::new, |(_, q)| q.to_owned())
    }

    fn push(&self, path: &str) {
        let mut steps = self.steps.borrow_mut();
        steps.truncate(self.here.get() + 1);
        steps.push(path.to_owned());
        self.here.set(steps.len() - 1);
    }

    fn replace(&self, path: &str) {
        if let Some(step) = self.steps.borrow_mut().get_mut(self.here.get()) {
            path.clone_into(step);
        }
    }

    fn back(&self) {
        if self.here.get() > 0 {
            self.pop_to(self.here.get() - 1);
        }
    }

    fn on_pop(&self, told: Told<String>) {
        self.pop.replace(Some(told));
    }

    fn device(&self) -> String {
        "Memory phone".to_owned()
    }

    fn random_id(&self) -> String {
        self.ids.set(self.ids.get() + 1);
        format!("{:016x}", self.ids.get())
    }

    fn after(&self, delay: Millis, call: Box<dyn FnOnce()>) {
        self.clock.after(delay, call);
    }

    fn every(&self, interval: Millis, call: Rc<dyn Fn()>) -> Ticker {
        let number = self.clock.every(interval, call);
        let clock = self.clock.clone();
        Ticker::stopped_by(move || clock.cancel(number))
    }

    fn on_hidden(&self, told: Told<Visibility>) {
        self.hidden.replace(Some(told));
    }

    fn volume_keys(&self, keys: VolumeKeys) {
        self.keys.set(keys);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(path: &str) -> (Rc<MemoryClock>, MemoryPage) {
        let clock = Rc::new(MemoryClock::default());
        (clock.clone(), MemoryPage::new(clock, path))
    }

    #[test]
    fn back_tells_the_path_and_a_push_forgets_what_was_ahead() {
        let (_, page) = page("/?sample");
        let told = Rc::new(RefCell::new(Vec::new()));
        let notes = told.clone();
        page.on_pop(Rc::new(move |path| notes.borrow_mut().push(path)));
        page.push("/job/a");
        page.back();
        assert_eq!(
            (page.path().as_str(), page.query().as_str()),
            ("/", "sample")
        );
        page.forward();
        page.back();
        page.push("/job/b");
        page.forward();
        assert_eq!(page.path(), "/job/b");
        assert_eq!(*told.borrow(), ["/?sample", "/job/a", "/?sample"]);
    }

    #[test]
    fn back_at_the_first_step_stays_there_and_tells_nobody() {
        let (_, page) = page("/");
        page.on_pop(Rc::new(|_| panic!("nobody went anywhere")));
        page.back();
        assert_eq!(page.address(), "/");
    }

    #[test]
    fn a_dropped_ticker_ticks_no_more_even_when_dropped_inside_a_tick() {
        let (clock, page) = page("/");
        let ticks = Rc::new(Cell::new(0));
        let ticker: Rc<RefCell<Option<Ticker>>> = Rc::default();
        let (count, own) = (ticks.clone(), ticker.clone());
        let handle = page.every(
            Millis(10.0),
            Rc::new(move || {
                count.set(count.get() + 1);
                if count.get() == 3 {
                    own.take();
                }
            }),
        );
        ticker.replace(Some(handle));
        clock.advance(Millis(100.0));
        assert_eq!(ticks.get(), 3);
        assert_eq!(clock.timers(), 0);
    }

    #[test]
    fn random_numbers_have_sixteen_hex_digits_and_do_not_repeat() {
        let (_, page) = page("/");
        let (one, two) = (page.random_id(), page.random_id());
        assert_ne!(one, two);
        assert!(one.len() == 16 && one.chars().all(|c| c.is_ascii_hexdigit()));
    }
}
