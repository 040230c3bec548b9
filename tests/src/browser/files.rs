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

    /// Taps what opens the file chooser, and chooses this file.
    ///
    /// # Panics
    /// If no chooser opens.
    pub fn tap_and_choose(&self, name: &str, file: &Path) {
        self.cdp(
            "Page.setInterceptFileChooserDialog",
            json!({ "enabled": true }),
        );
        self.tap_named(name);
        let field = "document.querySelector('body > input[type=file]')";
        self.until("the field for a file", || {
            self.eval(&format!("!!{field}")) == json!(true)
        });
        let found = self.cdp(
            "Runtime.evaluate",
            json!({ "expression": field, "returnByValue": false }),
        );
        self.cdp(
            "DOM.setFileInputFiles",
            json!({ "files": [file], "objectId": found["result"]["objectId"] }),
        );
    }
}
