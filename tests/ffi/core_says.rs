//! The face adds nothing to the core and takes nothing off.

use rakeline_core::decide::mark_out::{self, solve};
use rakeline_core::decide::ring_set::{RakeOrigin, SpotFacts, choose};
use rakeline_core::job::{rake_at, ring_choice};
use rakeline_core::units::{Degrees, Estimate, Millimetres};
use rakeline_core::{kit, record};
use rakeline_ffi::{
    FaceOrigin, Fault, Measured, PanelMaterial, RingVerdict, mark_out, mark_out_task, read_record,
    ring_set,
};

use crate::fixtures::{KIT, RECORD, text};

fn measured(value: f64, u: f64) -> Measured {
    Measured {
        value,
        u,
        plus_minus: 1.96 * u,
    }
}

#[test]
fn a_ring_set_is_the_one_that_the_core_chooses() {
    let sheet = kit::parse(&text(KIT)).unwrap();
    for tenths in -250..=60 {
        let rake = f64::from(tenths) / 10.0;
        let facts = SpotFacts::plain(
            Estimate::new(Degrees(rake), Degrees(0.4)),
            RakeOrigin::Zeroed,
        );
        let core = choose(&sheet, &facts);
        let face = ring_set(
            &text(KIT),
            measured(rake, 0.4),
            FaceOrigin::Zeroed,
            PanelMaterial::Plastic,
            facts.load_allowance.0,
            None,
        )
        .unwrap();
        let ring = |verdict: &RingVerdict| match verdict {
            RingVerdict::Sure { set } => Some(set.ring.clone()),
            RingVerdict::CloseCall { proposed, .. } => proposed.as_ref().map(|s| s.ring.clone()),
            RingVerdict::CannotBeServed { .. } => None,
        };
        assert_eq!(ring(&face.verdict), core.set().map(|set| set.ring.clone()));
    }
}

#[test]
fn a_mark_out_is_the_one_that_the_core_solves() {
    for half in (700..=1_000).step_by(25) {
        let task = mark_out_task(&text(KIT), f64::from(half), f64::from(half)).unwrap();
        let limits = task.limits;
        let core = solve(&mark_out::MarkOutTask {
            heads: 4,
            half_left: Millimetres(f64::from(half)),
            half_right: Millimetres(f64::from(half)),
            hole_radius: Millimetres(task.hole_radius),
            limits: mark_out::Limits {
                inner: Millimetres(limits.inner),
                corner_gap_least: Millimetres(limits.corner_gap_least),
                corner_gap_greatest: Millimetres(limits.corner_gap_greatest),
                spacing_least: Millimetres(limits.spacing_least),
                spacing_greatest: limits.spacing_greatest.map(Millimetres),
                odd_head_within: Millimetres(limits.odd_head_within),
                clearance: Millimetres(limits.clearance),
            },
            no_drill: Vec::new(),
            locks: Vec::new(),
            old_holes: Vec::new(),
        });
        match (mark_out(&task), core) {
            (Ok(face), Ok(core)) => {
                let marks: Vec<f64> = core.wide.marks.iter().map(|mark| mark.0).collect();
                assert_eq!(face.wide.marks, marks);
            }
            (Err(Fault::Impossible { words }), Err(_)) => assert!(!words.is_empty()),
            (face, core) => panic!("{half}: {face:?} and {core:?}"),
        }
    }
}

#[test]
fn a_record_reads_as_the_core_reads_it() {
    let job = record::read(&text(RECORD)).unwrap();
    let facts = read_record(&text(RECORD)).unwrap();
    assert_eq!(facts.spots.len(), job.spots.len());
    for (face, spot) in facts.spots.iter().zip(&job.spots) {
        let angle = rake_at(&job, spot).map(|found| found.rake.value.0);
        assert_eq!(face.face.as_ref().map(|face| face.rake.value), angle);
        assert_eq!(face.ring.is_some(), ring_choice(&job, spot).is_some());
    }
}

#[test]
fn what_is_wrong_comes_with_the_words_of_the_fitter() {
    let unreadable = ring_set(
        "{}",
        measured(-6.0, 0.3),
        FaceOrigin::Typed,
        PanelMaterial::Plastic,
        1.0,
        None,
    );
    let Err(Fault::Unreadable { words }) = unreadable else {
        panic!("{unreadable:?}");
    };
    assert!(words.contains("kit sheet"), "{words}");
    let no_figure = ring_set(
        &text(KIT),
        measured(f64::NAN, 0.3),
        FaceOrigin::Typed,
        PanelMaterial::Plastic,
        1.0,
        None,
    );
    assert!(matches!(no_figure, Err(Fault::Invalid { .. })));
    let newer = text(RECORD).replacen("\"version\":1", "\"version\":9", 1);
    assert!(matches!(read_record(&newer), Err(Fault::Unreadable { .. })));
}
