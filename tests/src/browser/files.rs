//! Files that a page asks for.

use std::path::Path;

use serde_json::json;

use super::Phone;

impl Phone {
    /// From now on the page's question for a picture waits for
    /// [`Phone::give_picture`].
    pub fn hold_pictures(&self) {
        self.cdp(
            "Page.setInterceptFileChooserDialog",
            json!({ "enabled": true }),
        );
    }

    /// Answers the page's question for a picture with this file; tap the
    /// button that asks first.
    pub fn give_picture(&self, file: &Path) {
        self.until("the page asks for a picture", || {
            self.eval("document.querySelector('#picture-file') !== null") == true
        });
        let root = self.cdp("DOM.getDocument", json!({}));
        let input = self.cdp(
            "DOM.querySelector",
            json!({ "nodeId": root["root"]["nodeId"], "selector": "#picture-file" }),
        );
        self.cdp(
            "DOM.setFileInputFiles",
            json!({ "nodeId": input["nodeId"], "files": [file] }),
        );
    }
}
