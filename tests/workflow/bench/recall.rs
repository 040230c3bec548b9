//! What same again reads of the store.

use rakeline::driver::{PASSED_PREFIX, Place, Recalled};
use rakeline::platform::{Storage, StorageFault};
use rakeline_core::job::JobId;

pub(super) async fn recall(
    storage: &dyn Storage,
    ids: Vec<JobId>,
) -> Result<Recalled, StorageFault> {
    let mut jobs = Vec::new();
    for id in ids {
        let text = storage.get(&Place::Jobs.key(&id)).await?;
        jobs.push((id, text));
    }
    let files = storage.list(PASSED_PREFIX).await?;
    Ok(Recalled { jobs, files })
}
