//! What a test asks the app on the bench.

use rakeline::driver::Saved;
use rakeline_core::job::JobState;

use super::Bench;

impl Bench {
    /// The open job.
    pub fn job(&self) -> &JobState {
        self.app.job().expect("a job is open")
    }

    /// Whether the open job shows as saved.
    pub fn saved(&self) -> bool {
        self.app.open.as_ref().expect("a job is open").saved == Saved::Yes
    }

    /// How many readings each spot has.
    pub fn readings(&self) -> Vec<usize> {
        let spots = self.job().spots.iter();
        spots.map(|spot| spot.readings.len()).collect()
    }

    /// The key of what is said at the foot.
    pub fn notice(&self) -> Option<&str> {
        let notice = self.app.notice.as_ref()?;
        Some(&notice.message.key)
    }

    /// The key of why the open job is not saved.
    pub fn not_saved(&self) -> Option<&str> {
        match &self.app.open.as_ref()?.saved {
            Saved::No(why) => Some(&why.key),
            _ => None,
        }
    }
}
