//! The kept records: read at the start, moved to the bin and back.

use rakeline_core::job::JobId;

use super::Shell;
use crate::driver::{
    Intent, JOB_PREFIX, KIT_DRAFT_KEY, KIT_EDIT_KEY, KIT_PREFIX, KitIntent, Place, SETTINGS_KEY,
    TRASH_PREFIX,
};
use crate::platform::{StorageFault, Write};

/// Jobs, jobs in the bin, settings.
type Records = (Vec<(String, String)>, Vec<(String, String)>, Option<String>);

impl Shell {
    pub(super) async fn move_record(&self, id: &JobId, to: Place) -> Result<(), StorageFault> {
        let from = to.other().key(id);
        let Some(value) = self.platform.storage.get(&from).await? else {
            return Ok(());
        };
        let writes = vec![
            Write::Put {
                key: to.key(id),
                value,
            },
            Write::Delete { key: from },
        ];
        self.platform.storage.commit(writes).await
    }

    /// The kit sheets before the screens: a job may ask for them.
    pub(super) async fn read_kits(&self) {
        let storage = &self.platform.storage;
        let kits = storage.list(KIT_PREFIX).await;
        let quick = storage.get(KIT_DRAFT_KEY).await;
        let edit = storage.get(KIT_EDIT_KEY).await;
        self.send(Intent::Kits(KitIntent::Booted {
            kits: kits.unwrap_or_default(),
            quick: quick.ok().flatten(),
            edit: edit.ok().flatten(),
        }));
    }

    pub(super) async fn read_all(&self) -> Result<Records, StorageFault> {
        let jobs = self.platform.storage.list(JOB_PREFIX).await?;
        let trash = self.platform.storage.list(TRASH_PREFIX).await?;
        let settings = self.platform.storage.get(SETTINGS_KEY).await?;
        Ok((jobs, trash, settings))
    }
}
