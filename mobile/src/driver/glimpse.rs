//! What can be read of a job's record whose version this app does not know:
//! enough to know which job it is. Nothing of it is changed.

use chrono::{DateTime, FixedOffset};
use rakeline_core::text::{Message, msg};
use rakeline_core::{json, moment};
use serde_json::Value;

/// Most characters of a text that is shown.
const MOST: usize = 80;

/// Name, vehicle, customer, plate and dates as far as they stand where every
/// version so far has them.
pub(super) fn of(text: &str) -> Option<Message> {
    let record = json::parse(text).ok()?;
    let job = record.get("job")?;
    let said = |from: &Value, key: &str| {
        let text = from.get(key).and_then(Value::as_str).unwrap_or_default();
        let text: String = text.trim().chars().take(MOST).collect();
        (!text.is_empty()).then_some(text)
    };
    let date = |key: &str| {
        let at = job.get(key)?.as_str()?;
        let at: DateTime<FixedOffset> = at.parse().ok()?;
        Some(moment::date_and_clock(&at))
    };
    let nothing = Value::Null;
    let particulars = job.get("particulars").unwrap_or(&nothing);
    let parts = [
        said(job, "name"),
        said(particulars, "vehicle"),
        said(particulars, "plate"),
        said(particulars, "customer"),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    let (started, changed) = (date("created"), date("changed"));
    if parts.is_empty() && started.is_none() && changed.is_none() {
        return None;
    }
    let open = || "–".to_owned();
    let about = match parts.is_empty() {
        true => open(),
        false => parts.join(" · "),
    };
    Some(
        msg("record-glimpse")
            .text("about", about)
            .text("started", started.unwrap_or_else(open))
            .text("changed", changed.unwrap_or_else(open)),
    )
}
