//! Event listeners that end when dropped.

use std::cell::RefCell;
use std::future::poll_fn;
use std::rc::Rc;
use std::task::{Poll, Waker};

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Event, EventTarget};

/// A listener; it is removed when this is dropped, also from within.
pub(super) struct Listener {
    target: EventTarget,
    kind: &'static str,
    closure: Closure<dyn Fn(Event)>,
}

impl Listener {
    /// Listens to events of a kind.
    pub(super) fn new(
        target: &EventTarget,
        kind: &'static str,
        heard: impl Fn(Event) + 'static,
    ) -> Self {
        let closure = Closure::<dyn Fn(Event)>::new(heard);
        // Refused only for a detached target, which then has no events.
        let _ = target.add_event_listener_with_callback(kind, closure.as_ref().unchecked_ref());
        Self {
            target: target.clone(),
            kind,
            closure,
        }
    }
}

impl Drop for Listener {
    fn drop(&mut self) {
        let _ = self
            .target
            .remove_event_listener_with_callback(self.kind, self.closure.as_ref().unchecked_ref());
    }
}

#[derive(Default)]
struct Heard {
    kind: Option<&'static str>,
    waker: Option<Waker>,
}

/// Waits for the first event of these kinds and gives its kind. The
/// listeners are there from the first poll on.
pub(super) async fn first_of(target: &EventTarget, kinds: &[&'static str]) -> &'static str {
    let heard: Rc<RefCell<Heard>> = Rc::default();
    let listeners: Vec<Listener> = kinds
        .iter()
        .map(|&kind| {
            let heard = heard.clone();
            Listener::new(target, kind, move |_| {
                let mut heard = heard.borrow_mut();
                heard.kind.get_or_insert(kind);
                if let Some(waker) = heard.waker.take() {
                    waker.wake();
                }
            })
        })
        .collect();
    let kind = poll_fn(|cx| {
        let mut heard = heard.borrow_mut();
        match heard.kind {
            Some(kind) => Poll::Ready(kind),
            None => {
                heard.waker = Some(cx.waker().clone());
                Poll::Pending
            }
        }
    })
    .await;
    drop(listeners);
    kind
}
