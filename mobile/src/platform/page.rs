//! Address, history, timers: what a page has and a screen does not.

use std::rc::Rc;

use rakeline_core::units::Millis;

/// Whether the fitter can see the app.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Visibility {
    /// On the screen.
    Shown,
    /// In the background; it may be ended at any time from now on.
    Hidden,
}

/// What the phone's volume keys do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum VolumeKeys {
    /// What they always do.
    #[default]
    Loudness,
    /// They say 'in' and 'out': an obstacle learn runs.
    Count,
}

/// A running timer; it stops when this is dropped.
#[must_use = "the timer stops when this is dropped"]
pub struct Ticker(Option<Box<dyn FnOnce()>>);

impl Ticker {
    /// A ticker that is stopped by `stop`.
    pub fn stopped_by(stop: impl FnOnce() + 'static) -> Self {
        Self(Some(Box::new(stop)))
    }
}

impl Drop for Ticker {
    fn drop(&mut self) {
        if let Some(stop) = self.0.take() {
            stop();
        }
    }
}

/// Who is told something.
pub type Told<T> = Rc<dyn Fn(T)>;

/// The page that the app runs in.
pub trait Page {
    /// The path of the address, from its first slash, without the query.
    fn path(&self) -> String;

    /// The query of the address without its question mark; empty without one.
    fn query(&self) -> String;

    /// Goes to a path (a query may follow it) as a new step of the history.
    /// `on_pop` is not told.
    fn push(&self, path: &str);

    /// Goes to a path in place of the present step of the history.
    /// `on_pop` is not told.
    fn replace(&self, path: &str);

    /// One step back in the history; `on_pop` is told when it is done.
    fn back(&self);

    /// Sets who is told the path, with its query if any, when the fitter
    /// went back or forward. The one before is told no more.
    fn on_pop(&self, told: Told<String>);

    /// What the system says this phone is, in few words ('Android 14 Pixel
    /// 7'); the same on every start. Empty where it does not tell.
    fn device(&self) -> String;

    /// Sixteen hex digits that no other job has, from the system's secure source.
    fn random_id(&self) -> String;

    /// Calls once, after a time.
    fn after(&self, delay: Millis, call: Box<dyn FnOnce()>);

    /// Calls again and again, the first time after one interval, until the
    /// ticker is dropped.
    fn every(&self, interval: Millis, call: Rc<dyn Fn()>) -> Ticker;

    /// Sets who is told when the app goes to the background or comes back.
    /// The one before is told no more.
    fn on_hidden(&self, told: Told<Visibility>);

    /// Sets what the volume keys do. Nothing happens where the page does not
    /// get them.
    fn volume_keys(&self, _keys: VolumeKeys) {}
}
