//! The pictures of the store on their way into a backup.

use rakeline_core::order;

use crate::driver::job_of;

/// The store's pictures in order of key, with those that are in the archive
/// already: no name stands in it twice.
pub(super) struct Pictures {
    keys: Vec<String>,
    out: Vec<bool>,
}

impl Pictures {
    pub(super) fn of(mut keys: Vec<String>) -> Self {
        order::sort_by(&mut keys, Ord::cmp);
        let out = vec![false; keys.len()];
        Self { keys, out }
    }

    /// Whether it still has to go out; afterwards it no longer has.
    pub(super) fn is_due(&mut self, key: &str) -> bool {
        match self.keys.binary_search_by(|other| other.as_str().cmp(key)) {
            Ok(at) => !std::mem::replace(&mut self.out[at], true),
            // Taken since.
            Err(at) => {
                self.keys.insert(at, key.to_owned());
                self.out.insert(at, true);
                true
            }
        }
    }

    /// Those that were taken for this job; for any job with `None`.
    pub(super) fn taken_for(&self, id: Option<&str>) -> Vec<String> {
        let of = |key: &&String| id.is_none() || job_of(key) == id;
        self.keys.iter().filter(of).cloned().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_picture_goes_out_once_also_one_that_was_taken_meanwhile() {
        let there = ["photo-b-2", "photo-a-1"].map(str::to_owned);
        let mut pictures = Pictures::of(there.to_vec());
        for key in ["photo-a-1", "photo-b-2", "photo-a-3"] {
            assert!(pictures.is_due(key), "{key}");
            assert!(!pictures.is_due(key), "{key}");
        }
        assert_eq!(
            pictures.taken_for(Some("a")),
            ["photo-a-1", "photo-a-3"].map(str::to_owned)
        );
        assert_eq!(pictures.taken_for(None).len(), 3);
    }
}
