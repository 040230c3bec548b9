//! Calls that the typed bindings do not have.

use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A property; `None` when it is missing or null.
pub(super) fn property(of: &JsValue, name: &str) -> Option<JsValue> {
    let value = Reflect::get(of, &JsValue::from_str(name)).ok()?;
    (!value.is_null() && !value.is_undefined()).then_some(value)
}

/// Sets a property of a plain object.
pub(super) fn set(of: &JsValue, name: &str, value: &JsValue) {
    // Plain objects of our own take any property.
    let _ = Reflect::set(of, &JsValue::from_str(name), value);
}

/// A method call; `None` when there is no such method, else what it gave or threw.
pub(super) fn method(
    of: &JsValue,
    name: &str,
    args: &[&JsValue],
) -> Option<Result<JsValue, JsValue>> {
    let function: Function = property(of, name)?.dyn_into().ok()?;
    let list = Array::new();
    for arg in args {
        list.push(arg);
    }
    Some(function.apply(of, &list))
}

/// A new object of a class that the window knows by name.
pub(super) fn made(window: &JsValue, class: &str, args: &[&JsValue]) -> Result<JsValue, JsValue> {
    let known = property(window, class).and_then(|class| class.dyn_into::<Function>().ok());
    let Some(class) = known else {
        return Err(js_sys::Error::new(class).into());
    };
    let list = Array::new();
    for arg in args {
        list.push(arg);
    }
    Reflect::construct(&class, &list)
}

/// What a promise gives; a value that is no promise is given as it is.
pub(super) async fn settled(value: JsValue) -> Result<JsValue, JsValue> {
    JsFuture::from(Promise::resolve(&value)).await
}

/// The name of an exception (`NotAllowedError`); empty when it has none.
pub(super) fn error_name(error: &JsValue) -> String {
    property(error, "name")
        .and_then(|name| name.as_string())
        .unwrap_or_default()
}

/// An exception in the system's own words.
pub(super) fn error_words(error: &JsValue) -> String {
    let words = property(error, "message").and_then(|words| words.as_string());
    match words {
        Some(words) if !words.is_empty() => words,
        _ => error_name(error),
    }
}
