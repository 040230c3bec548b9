//! What stands under which name in a backup, both ways.

use super::limits::MANIFEST;
use super::plan::is_id;
use crate::driver::{
    JOB_PREFIX, KEPT_JOB_PREFIX, KIT_PREFIX, PASSED_PREFIX, Place, SETTINGS_KEY, TRASH_PREFIX,
};

/// What an item of the archive is.
pub(super) enum What<'a> {
    /// What the archive is.
    Manifest,
    /// A job's record.
    Job(Place, &'a str),
    /// A kit sheet.
    Kit(&'a str),
    /// A job as it was put by.
    Before(&'a str),
    /// A colleague's file.
    Passed(&'a str),
    /// The settings.
    Settings,
    /// A picture.
    Photo(&'a str),
    /// Made from the rest, or a table: nothing to take in.
    Paper,
    /// None of ours.
    Foreign,
}

/// The endings of pictures by what they begin with.
const PICTURES: [&str; 3] = ["jpg", "png", "webp"];

/// What kind of picture these bytes are, by the ending of its name; none for
/// bytes that are no picture that the app keeps.
pub(super) fn picture_kind(bytes: &[u8]) -> Option<&'static str> {
    let [jpg, png, webp] = PICTURES;
    if bytes.starts_with(&[0xff, 0xd8]) {
        Some(jpg)
    } else if bytes.starts_with(b"\x89PNG") {
        Some(png)
    } else if bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") {
        Some(webp)
    } else {
        None
    }
}

/// A key of a picture as the app gives them: letters, figures, hyphens. Any
/// other could lead elsewhere in a store of files.
pub(super) fn is_picture_key(key: &str) -> bool {
    !key.is_empty() && key.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')
}

/// The name under which a job was put by: the job's, and which time it was.
pub(super) fn is_before(rest: &str) -> bool {
    let parts = rest.split_once('/');
    parts.is_some_and(|(id, time)| is_id(id) && is_id(time))
}

/// What stands under this name.
pub(super) fn what(name: &str) -> What<'_> {
    let json = |folder: &str| {
        let rest = name.strip_prefix(folder)?.strip_prefix('/')?;
        rest.strip_suffix(".json")
    };
    if name == MANIFEST {
        return What::Manifest;
    }
    if name == "settings.json" {
        return What::Settings;
    }
    if let Some(id) = json("jobs") {
        return What::Job(Place::Jobs, id);
    }
    if let Some(id) = json("deleted") {
        return What::Job(Place::Trash, id);
    }
    if let Some(id) = json("kits") {
        return What::Kit(id);
    }
    if let Some(rest) = json("before") {
        return What::Before(rest);
    }
    if let Some(id) = json("again") {
        return What::Passed(id);
    }
    let photo = name.strip_prefix("photos/").and_then(|file| {
        let (key, ending) = file.rsplit_once('.')?;
        PICTURES.contains(&ending).then_some(key)
    });
    match photo {
        Some(key) => What::Photo(key),
        None if name.starts_with("papers/") => What::Paper,
        None => What::Foreign,
    }
}

/// The name of a stored text in the archive.
pub(super) fn entry_name(key: &str) -> Option<String> {
    let of = |prefix: &str, folder: &str| {
        let rest = key.strip_prefix(prefix)?;
        Some(format!("{folder}/{rest}.json"))
    };
    if key == SETTINGS_KEY {
        return Some("settings.json".to_owned());
    }
    of(JOB_PREFIX, "jobs")
        .or_else(|| of(TRASH_PREFIX, "deleted"))
        .or_else(|| of(KIT_PREFIX, "kits"))
        .or_else(|| of(KEPT_JOB_PREFIX, "before"))
        .or_else(|| of(PASSED_PREFIX, "again"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_of_each_kind_is_known_by_its_beginning_and_by_its_name() {
        let kinds: [(&[u8], &str); 3] = [
            (&[0xff, 0xd8, 0xff], "jpg"),
            (b"\x89PNG\r\n", "png"),
            (b"RIFF\x04\0\0\0WEBPVP8 ", "webp"),
        ];
        for (bytes, ending) in kinds {
            assert_eq!(picture_kind(bytes), Some(ending));
            let name = format!("photos/photo-a1-17.{ending}");
            assert!(matches!(what(&name), What::Photo("photo-a1-17")), "{name}");
        }
        for no_picture in [&b"RIFF\x04\0\0\0WAVE"[..], b"RIFF", b"GIF89a", b""] {
            assert_eq!(picture_kind(no_picture), None);
        }
        assert!(matches!(what("photos/photo-a1-17.exe"), What::Foreign));
    }

    #[test]
    fn only_keys_that_lead_nowhere_else_are_keys_of_pictures_and_of_what_was_put_by() {
        for good in ["photo-a1-17", "logo-17", "A"] {
            assert!(is_picture_key(good), "{good}");
        }
        for bad in ["", "a/b", "..", ".", "a b", "a.b", "\u{fc}"] {
            assert!(!is_picture_key(bad), "{bad}");
        }
        assert!(is_before("a1/1") && is_before("a1/restored-3f"));
        for bad in ["a1", "a1/", "/1", "a1/1/2", "a1/.."] {
            assert!(!is_before(bad), "{bad}");
        }
    }

    #[test]
    fn every_stored_text_has_its_name_and_is_found_under_it() {
        let all = ["job/a", "trash/a", "kit/a", "kept/job/a/1", "again/a"];
        for key in all.into_iter().chain([SETTINGS_KEY]) {
            let name = entry_name(key).unwrap();
            assert!(!matches!(what(&name), What::Foreign | What::Paper), "{key}");
        }
        assert_eq!(entry_name("brief/job/a"), None);
    }
}
