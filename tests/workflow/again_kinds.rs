//! Two kinds under one name: as wide, but with other faces.

use rakeline::driver::{AgainIntent, Intent};
use rakeline_core::again::{FaceLearned, Lesson, VehicleName, offer as offered, offer_of};
use rakeline_core::job::{Agrees, Facing, Instrument, JobState, faces_agree};
use rakeline_core::units::Degrees;
use rakeline_tests::again_cases::{EARLIER, normal, taught, unit};
use rakeline_tests::markout::Dice;

use crate::again::{again, earlier, job, open_offer, with_jobs};
use crate::bench::Bench;
use crate::scenario;

/// Three jobs before a facelift, and two of it, the newest.
fn before_and_after() -> Vec<JobState> {
    [(1, 0.0), (2, 0.3), (3, -0.2), (4, -5.0), (5, -5.2)]
        .map(|(number, off)| job(&earlier(number, off)))
        .into()
}

fn warned(bench: &Bench) -> Vec<String> {
    let offer = bench.app.again.offer.as_ref().expect("an offer");
    let keys = offer.warnings.iter().map(|words| words.key.to_string());
    keys.collect()
}

fn expected(bench: &Bench, spot: usize) -> f64 {
    let offer = bench.app.again.offer.as_ref().expect("an offer");
    let face = offer.handed(&[]).faces[spot].clone().expect("expected");
    face.rake.0
}

#[test]
fn a_facelift_as_wide_with_other_faces_is_told_and_never_pooled() {
    let mut bench = with_jobs(&before_and_after());
    open_offer(&mut bench);
    assert_eq!(warned(&bench), ["again-kinds"]);
    let offer = bench.app.again.offer.clone().expect("an offer");
    let says: Vec<String> = offer.kinds.iter().map(rakeline::texts::say).collect();
    assert_eq!(says.len(), 2, "{says:?}");
    assert!(says[0].contains("in 3 jobs"), "{says:?}");
    assert!(says[1].contains("in 2 jobs"), "{says:?}");
    assert_eq!(offer.from.len(), 3, "the kind of most jobs");
    assert!((expected(&bench, 1) + 4.0).abs() < 0.2);
    again(&mut bench, AgainIntent::Kind(1));
    let offer = bench.app.again.offer.clone().expect("an offer");
    assert_eq!((offer.kind, offer.from.len()), (1, 2));
    assert!((expected(&bench, 1) + 9.1).abs() < 0.2);
    // The vehicle looks like the second kind, and agrees with it.
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    scenario::type_half_widths(&mut bench, "871", "868");
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    for face in ["10.6", "9.2"] {
        scenario::type_face(&mut bench, face, Facing::Down, "0.3");
    }
    assert_eq!(faces_agree(bench.job()), Agrees::Yes);
}

#[test]
fn the_years_wanted_choose_the_kind() {
    let mut jobs = before_and_after();
    for job in &mut jobs[3..] {
        let vehicle = rakeline_core::job::Particular::Vehicle;
        job.particulars
            .insert(vehicle, "Tarn Carrier van 2024".to_owned());
    }
    let lessons: Vec<Lesson> = jobs
        .iter()
        .filter_map(rakeline_core::again::lesson)
        .collect();
    let wanted = VehicleName::read("Tarn Carrier van 2024");
    let offer = offered(&wanted, &lessons).expect("an offer");
    assert_eq!(offer.from.len(), 2);
    let face = offer.handed(&[]).faces[1].clone().expect("expected");
    assert!((face.rake.0 + 9.1).abs() < 0.2, "{face:?}");
    // A kind that is not there is the first.
    let offer = offer_of(&wanted, &lessons, 7).expect("an offer");
    assert_eq!(offer.kind, 0);
}

#[test]
fn unzeroed_phones_of_colleagues_are_never_taken_for_one_phone() {
    let one = |rake: f64, phone: &str| {
        let mut lesson = taught(&EARLIER).expect("it teaches");
        for face in lesson.faces.iter_mut().flatten() {
            *face = FaceLearned {
                rake: Degrees(rake),
                u: Degrees(0.2),
                u_ground: Degrees(0.0),
                u_instrument: Degrees(1.5),
                read_by: Instrument::Unzeroed(phone.to_owned()),
            };
        }
        lesson
    };
    let kinds = |a: &str, b: &str| {
        let lessons = [one(-4.0, a), one(-7.0, b)];
        let offer = offered(&VehicleName::default(), &lessons).expect("an offer");
        offer.kinds.len()
    };
    assert_eq!(kinds("Beck phone", "Beck phone"), 2, "its error is in both");
    assert_eq!(kinds("Beck phone", "Scar phone"), 0, "3 degrees are inside");
    assert_eq!(kinds("\u{0}", "\u{0}"), 0);
}

/// Ten simulated vehicles of a model and the faces of an eleventh.
fn ten(template: &Lesson, dice: &mut Dice) -> (Vec<Lesson>, Vec<f64>) {
    let tau = 0.2 + 0.6 * unit(dice);
    let half = tau * 0.5f64.sqrt();
    let means: Vec<f64> = (0..4).map(|_| -12.0 + 14.0 * unit(dice)).collect();
    let vehicle = |dice: &mut Dice| -> Vec<f64> {
        let common = half * normal(dice);
        let one = |mean: &f64| mean + common + half * normal(dice);
        means.iter().map(one).collect()
    };
    let lessons = (0..10)
        .map(|number| {
            let mut lesson = template.clone();
            lesson.id = format!("v{number}");
            for (face, truth) in lesson.faces.iter_mut().flatten().zip(vehicle(dice)) {
                let u = 0.15 + 0.35 * unit(dice);
                face.rake = Degrees(truth + u * normal(dice));
                face.u = Degrees(u);
                face.u_ground = Degrees(0.0);
                face.u_instrument = Degrees(0.0);
            }
            lesson
        })
        .collect();
    (lessons, vehicle(dice))
}

#[test]
fn the_next_after_ten_simulated_vehicles_is_inside_what_is_expected_of_it() {
    let template = taught(&EARLIER).expect("it teaches");
    let mut dice = Dice(909);
    let models = 2000;
    let (mut within, mut split) = (0, 0);
    for _ in 0..models {
        let (lessons, next) = ten(&template, &mut dice);
        let offer = offered(&VehicleName::default(), &lessons).expect("an offer");
        split += u32::from(!offer.kinds.is_empty());
        let asked = dice.whole(0, 3) as usize;
        let face = offer.handed(&[]).faces[asked].clone().expect("expected");
        let expected = face.estimate();
        within += u32::from((next[asked] - expected.value.0).abs() <= expected.expanded().0);
    }
    let percent = f64::from(within) * 100.0 / f64::from(models);
    assert!((93.0..=97.0).contains(&percent), "{percent} % inside");
    // Spread within a model is no facelift.
    let split = f64::from(split) * 100.0 / f64::from(models);
    assert!(split <= 2.0, "{split} % of the models were split");
}
