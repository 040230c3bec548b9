//! One DevTools command with its parameters as JSON.

use chromiumoxide::Page;
use chromiumoxide::types::{Command, Method, MethodId};
use serde::{Serialize, Serializer};
use serde_json::Value;

/// A command by its name, for instance `Page.navigate`.
struct Raw {
    method: &'static str,
    params: Value,
}

impl Serialize for Raw {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.params.serialize(serializer)
    }
}

impl Method for Raw {
    fn identifier(&self) -> MethodId {
        self.method.into()
    }
}

impl Command for Raw {
    type Response = Value;
}

/// Sends a command to the page's session and returns its answer.
pub(super) async fn send(
    page: &Page,
    method: &'static str,
    params: Value,
) -> Result<Value, String> {
    match page.execute(Raw { method, params }).await {
        Ok(answer) => Ok(answer.result),
        Err(error) => Err(format!("{method}: {error}")),
    }
}
