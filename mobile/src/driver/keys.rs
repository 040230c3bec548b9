//! Keys in order, found quickly among tens of thousands, and what a
//! picture's key says.

use rakeline_core::order;

/// A set of keys.
pub(crate) struct KeySet<'a>(Vec<&'a str>);

impl<'a> KeySet<'a> {
    /// The set of these keys; one may come twice.
    pub(crate) fn of(keys: impl Iterator<Item = &'a str>) -> Self {
        let mut keys: Vec<&str> = keys.collect();
        order::sort_by(&mut keys, Ord::cmp);
        Self(keys)
    }

    /// The set of these texts.
    pub(crate) fn of_all(keys: impl IntoIterator<Item = &'a String>) -> Self {
        Self::of(keys.into_iter().map(String::as_str))
    }

    /// Whether this key is in it.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.0.binary_search(&key).is_ok()
    }
}

/// The job that a picture was taken for: the key of a picture is its use,
/// the job and the moment, with hyphens between them.
#[must_use]
pub(crate) fn job_of(picture: &str) -> Option<&str> {
    let (_, rest) = picture.split_once('-')?;
    let (job, moment) = rest.rsplit_once('-')?;
    let is_moment = !moment.is_empty() && moment.chars().all(|c| c.is_ascii_digit());
    (is_moment && !job.is_empty()).then_some(job)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_is_found_among_many_and_no_other() {
        let all = ["c", "a", "b", "a"];
        let set = KeySet::of(all.into_iter());
        assert!(set.has("a") && set.has("b") && set.has("c"));
        assert!(!set.has("") && !set.has("aa") && !set.has("d"));
    }

    #[test]
    fn the_key_of_a_picture_names_its_job() {
        assert_eq!(job_of("photo-a1-1700000000000"), Some("a1"));
        assert_eq!(job_of("original-a-b-17"), Some("a-b"));
        assert_eq!(job_of("logo-17"), None);
        assert_eq!(job_of("photo-a1-x"), None);
    }
}
