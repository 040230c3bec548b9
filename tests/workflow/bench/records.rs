//! What the shell reads and moves in the store.

use rakeline::driver::{JOB_PREFIX, Place, SETTINGS_KEY, TRASH_PREFIX};
use rakeline::platform::{Storage, StorageFault, Write};
use rakeline_core::job::JobId;

type Records = (Vec<(String, String)>, Vec<(String, String)>, Option<String>);

pub(super) async fn read_all(storage: &dyn Storage) -> Result<Records, StorageFault> {
    let jobs = storage.list(JOB_PREFIX).await?;
    let trash = storage.list(TRASH_PREFIX).await?;
    Ok((jobs, trash, storage.get(SETTINGS_KEY).await?))
}

pub(super) async fn move_record(
    storage: &dyn Storage,
    id: &JobId,
    to: Place,
) -> Result<(), StorageFault> {
    let from = to.other().key(id);
    let Some(value) = storage.get(&from).await? else {
        return Ok(());
    };
    let put = Write::Put {
        key: to.key(id),
        value,
    };
    storage.commit(vec![put, Write::Delete { key: from }]).await
}
