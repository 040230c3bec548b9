//! First come, first served, for futures of one thread.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

#[derive(Default)]
struct Queue {
    waiting: RefCell<VecDeque<(u64, Option<Waker>)>>,
    next: Cell<u64>,
}

/// A queue in which each caller waits until those before are done.
#[derive(Clone, Default)]
pub(super) struct Turns(Rc<Queue>);

impl Turns {
    /// Takes a place in the queue now, whenever it is awaited.
    pub(super) fn take(&self) -> Turn {
        let number = self.0.next.get();
        self.0.next.set(number + 1);
        self.0.waiting.borrow_mut().push_back((number, None));
        Turn {
            queue: self.0.clone(),
            number,
        }
    }
}

/// A place in the queue, given up when dropped.
pub(super) struct Turn {
    queue: Rc<Queue>,
    number: u64,
}

impl Turn {
    /// Waits until all places before are given up.
    pub(super) async fn come(&mut self) {
        Coming(self).await;
    }
}

struct Coming<'a>(&'a mut Turn);

impl Future for Coming<'_> {
    type Output = ();

    fn poll(self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<()> {
        let number = self.0.number;
        let mut waiting = self.0.queue.waiting.borrow_mut();
        if waiting.front().is_none_or(|(first, _)| *first == number) {
            return Poll::Ready(());
        }
        if let Some(place) = waiting.iter_mut().find(|(n, _)| *n == number) {
            place.1 = Some(cx.waker().clone());
        }
        Poll::Pending
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        let mut waiting = self.queue.waiting.borrow_mut();
        waiting.retain(|(n, _)| *n != self.number);
        let first = waiting.front_mut().and_then(|(_, waker)| waker.take());
        drop(waiting);
        if let Some(waker) = first {
            waker.wake();
        }
    }
}
