//! What same again reads: earlier jobs and colleagues' files.

use rakeline_core::job::JobId;

use super::Shell;
use crate::driver::{PASSED_PREFIX, Place, Recalled};
use crate::platform::StorageFault;

impl Shell {
    /// What same again asks for.
    pub(super) async fn recall(&self, ids: Vec<JobId>) -> Result<Recalled, StorageFault> {
        let storage = &self.platform.storage;
        let mut jobs = Vec::new();
        for id in ids {
            let text = storage.get(&Place::Jobs.key(&id)).await?;
            jobs.push((id, text));
        }
        let files = storage.list(PASSED_PREFIX).await?;
        Ok(Recalled { jobs, files })
    }
}
