//! A worker that works at once, and can be made to die or to wait.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use rakeline_core::text::Message;

use crate::platform::work::{Task, Work, WorkEvent, WorkHandle, stopped};
use crate::platform::{
    LocalFuture, OutFile, OutStream, OwnFuture, Share, Shared, StorageFault, Told,
};

/// What becomes of the next task.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
enum Next {
    /// It is done at once.
    #[default]
    Done,
    /// The worker dies over it.
    Dies,
    /// It waits.
    Waits,
}

type Waiting = Rc<RefCell<Vec<(u32, Task, Told<WorkEvent>)>>>;

/// A scripted worker.
#[derive(Default)]
pub struct MemoryWork {
    next: RefCell<Next>,
    started: Cell<u32>,
    waiting: Waiting,
}

impl MemoryWork {
    /// The worker dies over the next task.
    pub fn die_next(&self) {
        self.next.replace(Next::Dies);
    }

    /// The next task waits for [`MemoryWork::go_on`].
    pub fn wait_next(&self) {
        self.next.replace(Next::Waits);
    }

    /// Tasks that wait are done now.
    pub fn go_on(&self) {
        let waiting: Vec<_> = self.waiting.borrow_mut().drain(..).collect();
        for (_, task, told) in waiting {
            finish(&task, &told);
        }
    }

    /// How many tasks wait and were not given up.
    #[must_use]
    pub fn waiting(&self) -> usize {
        self.waiting.borrow().len()
    }

    /// How many tasks were started.
    #[must_use]
    pub fn started(&self) -> u32 {
        self.started.get()
    }
}

/// Does the work where it is built in.
fn work(task: &Task, progress: &dyn Fn(f32)) -> Result<Vec<u8>, Message> {
    #[cfg(feature = "worker")]
    return crate::worker::work(task, progress);
    #[cfg(not(feature = "worker"))]
    {
        let _ = (task, progress);
        Err(rakeline_core::text::msg("work-stopped").text("why", "not built in"))
    }
}

fn finish(task: &Task, told: &Told<WorkEvent>) {
    let outcome = work(task, &|share| told(WorkEvent::Progress(share)));
    told(match outcome {
        Ok(bytes) => WorkEvent::Done(bytes),
        Err(message) => WorkEvent::Failed(message),
    });
}

impl Work for MemoryWork {
    fn start(&self, task: Task, told: Told<WorkEvent>) -> WorkHandle {
        let number = self.started.get() + 1;
        self.started.set(number);
        match self.next.take() {
            Next::Done => finish(&task, &told),
            Next::Dies => told(stopped("scripted")),
            Next::Waits => self.waiting.borrow_mut().push((number, task, told)),
        }
        let waiting = self.waiting.clone();
        WorkHandle::stopped_by(move || waiting.borrow_mut().retain(|(other, ..)| *other != number))
    }
}

/// Keeps the files that left the app.
#[derive(Default)]
pub struct MemoryShare {
    files: Rc<RefCell<Vec<OutFile>>>,
    /// The write of that number, counted over all pieces, finds no room.
    full_at: Rc<Cell<Option<usize>>>,
    refusal: RefCell<Option<String>>,
    /// What becomes of the next file that is written piece by piece.
    next_end: Rc<RefCell<Option<Shared>>>,
    emptied: Rc<Cell<usize>>,
}

impl MemoryShare {
    /// How often copies of files that left were removed.
    #[must_use]
    pub fn emptied(&self) -> usize {
        self.emptied.get()
    }

    /// The next file is refused with these words.
    pub fn refuse_next(&self, why: &str) {
        self.refusal.replace(Some(why.to_owned()));
    }

    /// The next file that is written piece by piece ends so.
    pub fn end_next(&self, how: Shared) {
        self.next_end.replace(Some(how));
    }

    /// The files that left, in order.
    #[must_use]
    pub fn files(&self) -> Vec<OutFile> {
        self.files.borrow().clone()
    }
}

impl MemoryShare {
    /// After so many pieces more there is no room for the next.
    pub fn full_after(&self, pieces: usize) {
        self.full_at.set(Some(pieces));
    }
}

/// A file on its way out.
struct MemoryOut {
    file: OutFile,
    files: Rc<RefCell<Vec<OutFile>>>,
    full_at: Rc<Cell<Option<usize>>>,
    next_end: Rc<RefCell<Option<Shared>>>,
}

impl OutStream for MemoryOut {
    fn write(&mut self, bytes: Vec<u8>) -> LocalFuture<'_, Result<(), StorageFault>> {
        Box::pin(async move {
            match self.full_at.get() {
                Some(0) => return Err(StorageFault::Full),
                Some(left) => self.full_at.set(Some(left - 1)),
                None => {}
            }
            self.file.bytes.extend(bytes);
            Ok(())
        })
    }

    fn finish(self: Box<Self>) -> OwnFuture<Shared> {
        Box::pin(async move {
            let end = self.next_end.take().unwrap_or(Shared::Saved);
            if matches!(end, Shared::Saved | Shared::HandedOver) {
                self.files.borrow_mut().push(self.file);
            }
            end
        })
    }
}

impl Share for MemoryShare {
    fn begin(&self, name: &str, mime: &'static str) -> OwnFuture<Option<Box<dyn OutStream>>> {
        let out: Box<dyn OutStream> = Box::new(MemoryOut {
            file: OutFile {
                name: name.to_owned(),
                mime,
                bytes: Vec::new(),
            },
            files: self.files.clone(),
            full_at: self.full_at.clone(),
            next_end: self.next_end.clone(),
        });
        Box::pin(async { Some(out) })
    }

    fn empty_out(&self) -> OwnFuture<()> {
        self.emptied.set(self.emptied.get() + 1);
        Box::pin(async {})
    }

    fn save(&self, file: OutFile) -> LocalFuture<'_, Shared> {
        Box::pin(async move {
            if let Some(why) = self.refusal.take() {
                return Shared::Failed(why);
            }
            self.files.borrow_mut().push(file);
            Shared::Saved
        })
    }
}
