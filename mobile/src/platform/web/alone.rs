//! One page at a time works on the records: a Web Lock that is held as long
//! as the page lives.

use std::cell::Cell;
use std::rc::Rc;

use futures_channel::mpsc::{UnboundedSender, unbounded};
use futures_util::StreamExt;
use js_sys::{Object, Promise};
use rakeline_core::units::Millis;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::spawn_local;
use web_sys::Window;

use super::call::{method, property, set, settled};
use super::page;
use crate::platform::{Alone, Told};

const NAME: &str = "rakeline-records";

/// A page that is being closed or loaded anew may hold the lock a moment
/// longer.
const TRIES: usize = 10;
const BETWEEN: Millis = Millis(150.0);

/// Asks for the lock; true when this page has it, or when the browser has no
/// locks.
pub(super) fn hold(window: &Window, how: Alone, lost: Told<()>) -> impl Future<Output = bool> {
    let window = window.clone();
    async move {
        let Some(locks) = property(&window.navigator(), "locks") else {
            return true;
        };
        let tries = match how {
            Alone::IfFree => TRIES,
            Alone::TakeOver => 1,
        };
        for left in (0..tries).rev() {
            if ask(&locks, how, lost.clone()).await {
                return true;
            }
            if left > 0 {
                rest(&window).await;
            }
        }
        if how == Alone::IfFree {
            open_once_free(&window, &locks);
        }
        false
    }
}

/// Loads the page anew as soon as the other one is gone: nothing was typed
/// here meanwhile.
fn open_once_free(window: &Window, locks: &JsValue) {
    let window = window.clone();
    let callback = Closure::once_into_js(move |_: JsValue| {
        if let Some(location) = property(&window, "location") {
            let _ = method(&location, "reload", &[]);
        }
    });
    let _ = method(locks, "request", &[&JsValue::from_str(NAME), &callback]);
}

async fn rest(window: &Window) {
    let (tell, mut told) = unbounded();
    // Nobody waits after the page's end.
    page::after(window, BETWEEN, move || drop(tell.unbounded_send(())));
    told.next().await;
}

async fn ask(locks: &JsValue, how: Alone, lost: Told<()>) -> bool {
    let options = Object::new();
    let kind = match how {
        Alone::IfFree => "ifAvailable",
        Alone::TakeOver => "steal",
    };
    set(&options, kind, &JsValue::TRUE);
    let (tell, mut told): (UnboundedSender<bool>, _) = unbounded();
    let held = Rc::new(Cell::new(false));
    let (heard, granted) = (tell.clone(), held.clone());
    let callback = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        granted.set(!lock.is_null());
        // Nobody waits after the page's end.
        let _ = heard.unbounded_send(granted.get());
        if lock.is_null() {
            JsValue::UNDEFINED
        } else {
            // Held until the page ends or another takes it.
            Promise::new(&mut |_, _| {}).into()
        }
    });
    let name = JsValue::from_str(NAME);
    let Some(Ok(asked)) = method(locks, "request", &[&name, &options, &callback]) else {
        return true;
    };
    spawn_local(async move {
        match (settled(asked).await, held.get()) {
            (Err(_), true) => lost(()),
            // A browser that refuses locks has no second page with one.
            (Err(_), false) => drop(tell.unbounded_send(true)),
            (Ok(_), _) => {}
        }
    });
    told.next().await.unwrap_or(true)
}
