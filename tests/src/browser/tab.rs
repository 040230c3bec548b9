//! The app's tab behind another one.

use std::time::Duration;

use serde_json::json;

use super::Phone;

impl Phone {
    /// Another tab lies over the app's for a while, as when a call comes.
    ///
    /// # Panics
    /// If the tab does not become hidden and seen again.
    pub fn hide_for(&self, time: Duration) {
        let other = self.cdp("Target.createTarget", json!({ "url": "about:blank" }));
        let state = |wanted: &str| self.eval("document.visibilityState") == json!(wanted);
        self.until("the tab is hidden", || state("hidden"));
        self.rest(time);
        let id = json!({ "targetId": other["targetId"] });
        self.cdp("Target.closeTarget", id);
        self.cdp("Page.bringToFront", json!({}));
        self.until("the tab is seen again", || state("visible"));
    }
}
