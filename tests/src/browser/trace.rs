//! What the browser did, by its own trace.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::sleep;
use std::time::{Duration, Instant};

use chromiumoxide::cdp::IntoEventKind;
use chromiumoxide::cdp::browser_protocol::tracing::{EventDataCollected, EventTracingComplete};
use futures_util::StreamExt;
use serde_json::{Value, json};

use super::phone::Phone;

/// What Chromium is asked to write down.
const CATEGORIES: [&str; 2] = ["devtools.timeline", "disabled-by-default-devtools.timeline"];
/// Longest wait for the trace after its end.
const PATIENCE: Duration = Duration::from_secs(60);

impl Phone {
    /// Hears every event of one kind from now on.
    fn on_each<E: IntoEventKind + Send + Sync + Unpin + 'static>(
        &self,
        hear: impl Fn(&E) + Send + 'static,
    ) {
        let running = self.running.borrow();
        let page = running.as_ref().expect("the browser runs").page.clone();
        self.runtime.block_on(async move {
            let mut events = page.event_listener::<E>().await.expect("it is heard");
            tokio::spawn(async move {
                while let Some(event) = events.next().await {
                    hear(&event);
                }
            });
        });
    }

    /// Does something and gives what it came to with the events of the
    /// browser's trace meanwhile (trace event format of Chromium).
    ///
    /// # Panics
    /// If the browser does not trace.
    pub fn traced<T>(&self, work: impl FnOnce() -> T) -> (T, Vec<Value>) {
        let collected: Arc<Mutex<Vec<Value>>> = Arc::default();
        let whole: Arc<AtomicBool> = Arc::default();
        let (to, done) = (Arc::clone(&collected), Arc::clone(&whole));
        self.on_each(move |some: &EventDataCollected| {
            let mut held = to.lock().expect("nobody panicked with it");
            held.extend(some.value.iter().cloned());
        });
        self.on_each(move |_: &EventTracingComplete| done.store(true, Ordering::SeqCst));
        let asked = json!({ "transferMode": "ReportEvents",
            "traceConfig": { "includedCategories": CATEGORIES } });
        self.cdp("Tracing.start", asked);
        let came = work();
        self.cdp("Tracing.end", json!({}));
        let started = Instant::now();
        while !whole.load(Ordering::SeqCst) {
            assert!(started.elapsed() < PATIENCE, "the trace does not end");
            sleep(Duration::from_millis(20));
        }
        // Events and the end come by two ways.
        let count = || collected.lock().expect("nobody panicked with it").len();
        let mut before = count();
        loop {
            sleep(Duration::from_millis(300));
            let now = count();
            if now == before {
                break;
            }
            before = now;
        }
        let mut held = collected.lock().expect("nobody panicked with it");
        (came, std::mem::take(&mut *held))
    }
}

/// Milliseconds of work of the page's main thread in each frame: all its
/// tasks that begin between two animation frames.
#[must_use]
pub fn frames_ms(events: &[Value]) -> Vec<f64> {
    let at = |event: &Value| event["ts"].as_f64().unwrap_or_default();
    let place = |event: &Value| (event["pid"].as_i64(), event["tid"].as_i64());
    let named = |name: &'static str| events.iter().filter(move |event| event["name"] == name);
    let Some(page) = named("FireAnimationFrame").map(place).next() else {
        return Vec::new();
    };
    let mut begins: Vec<f64> = named("FireAnimationFrame")
        .filter(|event| place(event) == page)
        .map(at)
        .collect();
    begins.sort_by(f64::total_cmp);
    let mut frames = vec![0.0; begins.len().saturating_sub(1)];
    for task in named("RunTask") {
        // The task that fires a frame began just before it.
        let end = at(task) + task["dur"].as_f64().unwrap_or_default();
        let frame = begins.partition_point(|begin| *begin <= end);
        let of_page = place(task) == page && frame > 0;
        if let Some(frame) = frames.get_mut(frame.saturating_sub(1)).filter(|_| of_page) {
            *frame += task["dur"].as_f64().unwrap_or_default() / 1e3;
        }
    }
    frames
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tasks_count_for_the_frame_that_they_end_in() {
        let event = |name: &str, tid: i64, ts: f64, dur: f64| json!({ "name": name, "pid": 1, "tid": tid, "ts": ts, "dur": dur });
        let events = [
            event("FireAnimationFrame", 1, 1_000.0, 10.0),
            event("FireAnimationFrame", 1, 17_000.0, 10.0),
            event("FireAnimationFrame", 1, 33_000.0, 10.0),
            event("RunTask", 1, 900.0, 2_000.0),
            event("RunTask", 1, 9_000.0, 3_000.0),
            event("RunTask", 2, 9_500.0, 9_000.0),
            event("RunTask", 1, 16_900.0, 4_000.0),
            event("RunTask", 1, 40_000.0, 4_000.0),
        ];
        assert_eq!(frames_ms(&events), [5.0, 4.0]);
    }
}
