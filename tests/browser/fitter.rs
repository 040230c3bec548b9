//! What a fitter does with Rakeline, for all journeys.

use std::path::Path;
use std::time::Duration;

use rakeline_tests::browser::{Attitude, Phone, PhoneSetup, SensorState, Server, Shot};

/// Face angles of the four spots in these journeys, degrees.
pub const FACES: [f64; 4] = [-5.9, -4.4, -4.1, -6.0];
/// A half width in these journeys, mm.
pub const HALF: &str = "864";
/// Its marks from the centre line, mm: the outer ones leave the 180 mm that
/// the kit sheet of the first start asks for at the corner, the inner ones
/// are a third of that.
pub const MARKS: [&str; 4] = ["684", "228", "228", "684"];

/// The most that a step may take on a busy machine, seconds.
pub const PATIENCE: u64 = 30;

/// A phone that waits long enough on a busy machine.
pub fn setup() -> PhoneSetup {
    PhoneSetup {
        patience: Duration::from_secs(15),
        ..PhoneSetup::default()
    }
}

/// A phone with such sensors.
pub fn with_sensors(sensors: SensorState) -> PhoneSetup {
    PhoneSetup { sensors, ..setup() }
}

/// Opens the app's first screen.
pub fn first_screen(server: &Server, setup: PhoneSetup) -> Phone {
    let phone = Phone::open(server, setup);
    phone.goto("/");
    phone.wait_for("Start a job", PATIENCE);
    phone
}

/// Holds the screen against daylight, gloves and narrow phones, and keeps a
/// picture of it.
pub fn look(phone: &Phone, name: &str) {
    let mut faults = phone.faults_at(412);
    for width in [360, 430] {
        faults.extend(phone.faults_at(width));
    }
    phone.shot(name, Shot::WholePage);
    assert!(faults.is_empty(), "{name}: {faults:#?}");
}

/// Starts a job from the list.
pub fn start_job(phone: &Phone) {
    phone.tap_named("Start a job");
    phone.wait_for("Centre line to outer edge", PATIENCE);
}

/// Types the two half widths of a bumper.
pub fn type_half_widths(phone: &Phone, left: &str, right: &str) {
    phone.type_into("Left", left);
    phone.type_into("Right", right);
}

/// A new job up to its marks.
pub fn job_with_marks(phone: &Phone) {
    start_job(phone);
    type_half_widths(phone, HALF, HALF);
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
}

/// A new job up to the first mark.
pub fn job_at_first_mark(phone: &Phone) {
    job_with_marks(phone);
    phone.tap_named("Tape is on, read the faces");
    at_mark(phone, 1);
}

/// Waits until the app asks for this mark.
pub fn at_mark(phone: &Phone, mark: usize) {
    phone.wait_for(&format!("Mark {mark}: back of the phone"), PATIENCE);
}

/// Holds the phone against each face from this mark on; the app goes on by
/// itself and shows the ring sets after the last.
pub fn read_faces(phone: &Phone, first: usize, faces: &[f64]) {
    for (index, rake) in faces.iter().enumerate() {
        at_mark(phone, first + index);
        phone.carry_between_marks();
        phone.hold_at_face(*rake);
    }
}

/// A new job up to its ring sets, read by the sensor.
pub fn job_with_rings(phone: &Phone) {
    job_at_first_mark(phone);
    read_faces(phone, 1, &FACES);
    phone.wait_for("To the job sheet", PATIENCE);
}

/// Types a face angle in degrees that faces down, and takes it.
pub fn type_face_down(phone: &Phone, mark: usize, degrees: &str) {
    at_mark(phone, mark);
    open_typed_entry(phone);
    phone.type_into("Face angle", degrees);
    phone.tap_named(&format!("Take it for mark {mark}"));
}

/// Unfolds the typed entry unless it is open.
pub fn open_typed_entry(phone: &Phone) {
    let open = "[...document.querySelectorAll('details')].some((d) => d.open && d.querySelector('#face-angle'))";
    if phone.eval(open) != true {
        phone.tap_named("Type the angle instead");
    }
}

/// Waits until all that was done is in the store.
pub fn saved(phone: &Phone) {
    phone.wait_for("saved ·", PATIENCE);
}

/// The text of each element that a selector finds, white space folded.
pub fn texts(phone: &Phone, selector: &str) -> Vec<String> {
    let script = format!(
        "[...document.querySelectorAll({selector:?})].map((e) => e.innerText.replace(/\\s+/g, ' ').trim())"
    );
    serde_json::from_value(phone.eval(&script)).expect("a list of texts")
}

/// The marks on the screen, mm.
pub fn marks(phone: &Phone) -> Vec<String> {
    texts(phone, ".marks .big")
}

/// The verdict of each spot.
pub fn verdicts(phone: &Phone) -> Vec<String> {
    texts(phone, ".ring .verdict")
}

/// The path of the screen in the address.
pub fn path(phone: &Phone) -> String {
    let path = phone.eval("location.pathname");
    path.as_str().unwrap_or_default().to_owned()
}

/// The phone's back on a face.
pub fn on_face(rake: f64) -> SensorState {
    SensorState::Held(Attitude::back_on_face(rake))
}

/// A phone whose camera films one of the kept photos over and over.
pub fn camera_that_films(photo: &str) -> PhoneSetup {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let frame = std::fs::read(folder.join("fixtures/photo").join(photo)).expect("the photo");
    // A row of JPEGs is a film.
    let film = std::env::temp_dir().join(format!("rakeline-{}-{photo}.mjpeg", std::process::id()));
    std::fs::write(&film, frame.repeat(8)).expect("written");
    let flag = |name: &str, value: &str| (name.to_owned(), value.to_owned());
    PhoneSetup {
        flags: vec![
            flag("use-fake-device-for-media-stream", "1"),
            flag("use-fake-ui-for-media-stream", "1"),
            flag("use-file-for-fake-video-capture", &film.to_string_lossy()),
        ],
        ..setup()
    }
}
