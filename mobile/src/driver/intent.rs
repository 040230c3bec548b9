//! What the fitter or the phone wants, and what the phone is to do about it.

use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::job::{Asked, Facing, Field, JobEvent, JobId, Particular};
use rakeline_core::report::Paper;
use rakeline_core::text::Message;
use rakeline_core::units::Millis;

use super::again::AgainIntent;
use super::backup::BackupIntent;
use super::cards::CardsIntent;
use super::entry::JobEntry;
use super::issues::IssueIntent;
use super::kit_shelf::KitIntent;
use super::layout::{CheckIntent, MarkOutIntent};
use super::learn::LearnIntent;
use super::listing::ListIntent;
use super::measure::Measure;
use super::photos::{PhotoIntent, PictureUse};
use super::sight::SightIntent;
use super::store::StoreIntent;
use super::stored::{Erased, Stored};
use super::walk::WalkIntent;
use super::workshop::WorkshopIntent;
use super::{JOB_PREFIX, Sheets, TRASH_PREFIX};
use crate::backup::{BackupOf, Brings, Passphrase, Plan};
use crate::platform::{
    MotionEvent, OutFile, Picture, PictureFrom, Pulse, Shared, StorageFault, Task, Tone,
    Visibility, WorkEvent, Write,
};
use crate::route::{Route, Step};

/// Where a job's record is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Among the jobs.
    Jobs,
    /// Among the deleted ones, from where it can come back.
    Trash,
}

impl Place {
    /// The key of a job's record there.
    #[must_use]
    pub fn key(self, id: &JobId) -> String {
        let prefix = match self {
            Self::Jobs => JOB_PREFIX,
            Self::Trash => TRASH_PREFIX,
        };
        format!("{prefix}{}", id.0)
    }

    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Jobs => Self::Trash,
            Self::Trash => Self::Jobs,
        }
    }
}

/// What a screen or a device says.
#[derive(Clone, Debug, PartialEq)]
pub enum Intent {
    /// The store was read at the start.
    Booted {
        /// What it holds.
        stored: Box<Stored>,
        /// Path and query of the address.
        path: String,
    },
    /// Keys of the pictures in the store, after the records.
    BlobsFound(Vec<String>),
    /// Records could not be read at the start.
    BootFailed(StorageFault),
    /// One tap starts a job with the kit used last.
    StartJob(JobId),
    /// One tap starts the search for a fault on a vehicle that is not here.
    StartFault(JobId),
    /// A new copy of the sample job.
    OpenSample(JobId),
    /// A wait of the open job may have come to its end.
    WaitOver,
    /// A second passed while a wait is on the screen.
    SecondPassed,
    /// Opens a job of the list.
    OpenJob(JobId),
    /// A job's record was read, `None` if there is none.
    Loaded(JobId, Step, Result<Option<String>, StorageFault>),
    /// To a step of the open job.
    GoStep(Step),
    /// To the list of jobs.
    GoJobs,
    /// The fitter went back or forward.
    Popped(String),
    /// The job's name was typed.
    Rename(String),
    /// A particular was typed.
    Particular(Particular, String),
    /// A field was typed.
    Type(Field, String),
    /// The marks for the typed half widths: the proposed plan, or a pick.
    ShowMarks,
    /// This plan for the typed half widths.
    PlanMarks(PlanKind),
    /// Something about the mark-out besides.
    MarkOut(MarkOutIntent),
    /// Something before drilling.
    Check(CheckIntent),
    /// One event of the screens of look-behind, ring sets, holes, loom, parts.
    Fit(Box<JobEvent>),
    /// The vehicle came again, and why.
    CameAgain(String),
    /// Workshop and look.
    Workshop(WorkshopIntent),
    /// On the screens of walk test and fault.
    Walk(WalkIntent),
    /// What is typed for asked fields goes on the kit sheet.
    Fill(Vec<Asked>),
    /// What the fitter wants of the kit sheets.
    Kits(KitIntent),
    /// On the screens of same again.
    Again(AgainIntent),
    /// Tape is on; the face angles follow.
    TapeOn,
    /// Starts, or starts again, the sensor for the faces.
    StartReading,
    /// This spot next.
    ChooseSpot(usize),
    /// Takes the reading at a spot back and reads it again.
    ReadAgain(usize),
    /// The typed face angle counts.
    TakeTyped(Facing),
    /// What the sensor said since the last turn.
    Motion(Vec<MotionEvent>),
    /// Time passes while reading.
    Tick(Millis),
    /// What the system says this phone is.
    OnDevice(String),
    /// How angles are measured.
    Measure(Measure),
    /// Photos of the look behind.
    Photo(PhotoIntent),
    /// About an obstacle learn.
    Learn(LearnIntent),
    /// The app went to the background or came back.
    Seen(Visibility),
    /// Deletes a job; it can come back.
    DeleteJob(JobId),
    /// A deleted job comes back.
    RestoreJob(JobId),
    /// A record was moved between the jobs and the deleted ones, or was not.
    Moved(JobId, Result<(), StorageFault>),
    /// What of the list is to be shown.
    List(ListIntent),
    /// About the store.
    Store(StoreIntent),
    /// Backup and the way back.
    Backup(BackupIntent),
    /// Takes back the last step of the open job.
    Undo,
    /// Does the step again that was taken back last.
    Redo,
    /// Hides the notice.
    HideNotice,
    /// A commit is done.
    Committed(u64, Result<(), StorageFault>),
    /// Saves the open job again after a failure.
    SaveAgain,
    /// Issues the job sheet and prints it.
    IssueSheet,
    /// The paper that sheets at full size are printed on.
    ChoosePaper(Paper),
    /// What the check line of the mark cards measures was typed.
    CheckLine(String),
    /// Prints the quote.
    PrintQuote,
    /// Makes sheets at full size as PDF.
    MakeSheets(Sheets),
    /// About a job sheet that was issued earlier.
    Issue(IssueIntent),
    /// Measuring by photos of mark cards.
    Cards(CardsIntent),
    /// What the heads will see.
    Sight(SightIntent),
    /// Gives up the sheets under way.
    StopSheets,
    /// What the worker says of the task of that number.
    Worked(u64, WorkEvent),
    /// What became of the file of that name.
    FileOut(String, Shared),
}

/// What the phone is to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// One atomic step in the store; its number comes back in `Committed`.
    Commit(u64, Vec<Write>),
    /// Reads a job's record for a step.
    Load(JobId, Step),
    /// Reads a job as it was when its sheet of that number was issued.
    ReadIssue(JobId, u32, Sheets),
    /// Reads a job's record, for photos that came after it was left.
    Fetch(JobId),
    /// Moves a record to where this entry says, in one atomic step.
    Move(Box<JobEntry>),
    /// Deletes records for good; these pictures of theirs stay, because
    /// other jobs have them as well.
    Erase(Vec<Erased>, Vec<String>),
    /// Removes pictures that no job refers to, unless something that was put
    /// by does.
    DropLoose(Vec<String>),
    /// Removes the copies of files that were handed out.
    EmptyOut,
    /// Reads what was put by of jobs.
    ReadPutBy,
    /// Asks how much room there is, and whether the records are kept.
    AskRoom,
    /// Reads records by their keys and holds them against their sums.
    CheckStore(Vec<(String, u64)>),
    /// The same of some records, in a quiet moment.
    LookOver(Vec<(String, u64)>),
    /// Makes a backup or tables and hands the file out.
    Backup(BackupOf),
    /// Gives up what is under way about backups.
    StopBackup,
    /// Asks for a backup's file.
    ChooseBackup,
    /// Reads the chosen file and says what it would bring.
    LookInto(Passphrase),
    /// Takes in what the chosen file brings.
    TakeIn(Passphrase, Box<Plan>, Brings),
    /// Makes this page the only one that works on the records, and opens the
    /// store again.
    TakeOver,
    /// Shows a screen as a new step of the history.
    Push(Route),
    /// Shows a screen in place of the present step of the history.
    Replace(Route),
    /// Starts the motion sensors.
    StartMotion,
    /// Stops them.
    StopMotion,
    /// Lets time pass for a screen that counts it; the screen stays on.
    StartTurns,
    /// Ends that, and what is being said.
    StopTurns,
    /// Sounds a tone.
    Sound(Tone),
    /// Gives a pulse.
    Pulse(Pulse),
    /// Opens the print view.
    Print,
    /// Asks for a file of at most so many bytes.
    OpenFile(usize),
    /// Reads the records of these jobs and colleagues' files.
    Recall(Vec<JobId>),
    /// Asks for a colleague's file of at most so many bytes.
    OpenPassed(usize),
    /// Says something aloud.
    Say(Message),
    /// Ends what is being said.
    Hush,
    /// Lets time pass for a run of the obstacle learn; the screen stays on.
    StartLearn,
    /// Ends that.
    StopLearn,
    /// Listens with the microphone.
    StartMicrophone,
    /// Only beeps at this tone, hertz, count; any where it is not known.
    HearOnly(Option<f64>),
    /// Ends listening.
    StopMicrophone,
    /// Shows the live picture of the camera on the level's screen.
    StartCamera,
    /// Ends it.
    StopCamera,
    /// Takes a photo from the live picture.
    TakePhoto,
    /// Lets the fitter choose or take a picture.
    ChoosePicture(PictureUse, PictureFrom),
    /// Makes a copy of a picture whose longer side has at most so many pixels.
    MakeSmaller(PictureUse, Picture, u32),
    /// Keeps a picture under a key.
    PutBlob(PictureUse, String, Vec<u8>),
    /// Reads a picture for the screen.
    ReadBlob(PictureUse, String),
    /// Lets go of all pictures that were read for the screen.
    HidePictures,
    /// Removes a picture that no job refers to.
    DropBlob(String),
    /// Starts a task of the worker; its number comes back in `Worked`.
    StartWork(u64, Task),
    /// As `StartWork`, once these pictures were read and put to the task.
    StartSheet(u64, Task, Vec<String>),
    /// Gives up the task under way.
    StopWork,
    /// Hands a file to another app or saves it.
    Share(OutFile),
}

/// The moment of an intent.
#[derive(Clone, Debug, PartialEq)]
pub struct Now {
    /// Date and time with the device's offset.
    pub at: chrono::DateTime<chrono::FixedOffset>,
    /// Name of the time zone.
    pub zone: String,
    /// Monotonic time.
    pub monotonic: Millis,
}
