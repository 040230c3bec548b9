//! Files that a phone chooses and saves.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::json;

use super::Phone;

impl Phone {
    /// From now on downloads land in a folder of this name, empty at first.
    ///
    /// # Panics
    /// If there can be no such folder.
    #[must_use]
    pub fn downloads(&self, name: &str) -> PathBuf {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("../target/downloads")
            .join(name);
        // What an earlier run left is no download of this one.
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).expect("a folder for downloads");
        let folder = folder.canonicalize().expect("a folder for downloads");
        self.cdp(
            "Browser.setDownloadBehavior",
            json!({ "behavior": "allow", "downloadPath": folder }),
        );
        folder
    }

    /// The one download in a folder whose name ends so, once it is whole.
    ///
    /// # Panics
    /// If none comes, or several.
    #[must_use]
    pub fn downloaded(&self, folder: &Path, ending: &str) -> PathBuf {
        let found = || -> Vec<PathBuf> {
            let entries = fs::read_dir(folder).expect("the downloads").flatten();
            let paths = entries.map(|entry| entry.path());
            let ends = |path: &PathBuf| path.to_string_lossy().ends_with(ending);
            paths.filter(ends).collect()
        };
        self.until("the download", || !found().is_empty());
        let mut found = found();
        assert_eq!(found.len(), 1, "{found:?}");
        found.remove(0)
    }

    /// Answers the page's question for a file with this one; tap the button
    /// that asks first.
    pub fn give_file(&self, file: &Path) {
        self.give("body > input[type=file]", file);
    }

    /// From now on the page's question for a picture or a file waits for
    /// [`Phone::give_picture`] or [`Phone::give_file`].
    pub fn hold_pictures(&self) {
        self.cdp(
            "Page.setInterceptFileChooserDialog",
            json!({ "enabled": true }),
        );
    }

    /// Answers the page's question for a picture with this file; tap the
    /// button that asks first.
    pub fn give_picture(&self, file: &Path) {
        self.give("#picture-file", file);
    }

    fn give(&self, field: &'static str, file: &Path) {
        self.until("the page asks for a file", || {
            self.eval(&format!("document.querySelector('{field}') !== null")) == true
        });
        let root = self.cdp("DOM.getDocument", json!({}));
        let input = self.cdp(
            "DOM.querySelector",
            json!({ "nodeId": root["root"]["nodeId"], "selector": field }),
        );
        self.cdp(
            "DOM.setFileInputFiles",
            json!({ "nodeId": input["nodeId"], "files": [file] }),
        );
    }
}
