//! What same again reads: earlier jobs and colleagues' files.

use futures_util::future::try_join_all;
use rakeline_core::job::JobId;

use super::Shell;
use crate::driver::{PASSED_PREFIX, Place, Recalled};
use crate::platform::StorageFault;

impl Shell {
    /// What same again asks for.
    pub(super) async fn recall(&self, ids: Vec<JobId>) -> Result<Recalled, StorageFault> {
        let storage = &self.platform.storage;
        // All are asked for at once: one after the other each waits for the
        // disk by itself.
        let keys: Vec<String> = ids.iter().map(|id| Place::Jobs.key(id)).collect();
        let texts = try_join_all(keys.iter().map(|key| storage.get(key))).await?;
        let jobs = ids.into_iter().zip(texts).collect();
        let files = storage.list(PASSED_PREFIX).await?;
        Ok(Recalled { jobs, files })
    }
}
