//! Script in the page: only for what no other way reaches, the live picture.

use serde_json::Value;

/// Runs a script in the page; it returns a value or throws.
///
/// # Errors
/// What it threw.
#[cfg(target_os = "android")]
pub(super) async fn run(script: &str) -> Result<Value, String> {
    let guarded = format!(
        "try {{ return {{ done: await (async () => {{ {script} }})() ?? null }} }} \
         catch (thrown) {{ return {{ thrown: `${{thrown.name}} ${{thrown.message}}` }} }}"
    );
    let value = dioxus::document::eval(&guarded)
        .await
        .map_err(|fault| fault.to_string())?;
    match value.get("thrown").and_then(Value::as_str) {
        Some(thrown) => Err(thrown.to_owned()),
        None => Ok(value.get("done").cloned().unwrap_or_default()),
    }
}

/// There is no page where the devices are tested without a screen.
#[cfg(not(target_os = "android"))]
pub(super) async fn run(script: &str) -> Result<Value, String> {
    Err(format!("NotFoundError no page for {} bytes", script.len()))
}
