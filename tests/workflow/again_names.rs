//! Names of vehicles: spelt differently, or meant to harm.

use rakeline::driver::AgainIntent;
use rakeline_core::again::Likeness;
use rakeline_core::job::{JobEvent, JobState, Particular, apply};
use rakeline_tests::again_cases::{EARLIER, Earlier};

use crate::again::{again, job, with_jobs};

#[test]
fn spellings_are_found_and_never_merged_unasked() {
    let misspelt = Earlier {
        number: 2,
        vehicle: "Tarn Carier van",
        ..EARLIER
    };
    let mut bench = with_jobs(&[job(&EARLIER), job(&misspelt)]);
    again(&mut bench, AgainIntent::Go);
    assert_eq!(bench.app.again.groups.len(), 2);
    again(
        &mut bench,
        AgainIntent::Typed("TARN-CARRIER van".to_owned()),
    );
    let found: Vec<Likeness> = bench
        .app
        .again
        .found()
        .iter()
        .map(|(like, _)| *like)
        .collect();
    assert_eq!(found, [Likeness::Same, Likeness::Alike]);
    let key = bench.app.again.found()[0].1.key.clone();
    again(&mut bench, AgainIntent::Open(key));
    assert_eq!(bench.app.again.offer.as_ref().expect("offer").from.len(), 1);
    let other = bench.app.again.alike()[0].key.clone();
    again(&mut bench, AgainIntent::CountToo(other));
    assert_eq!(bench.app.again.offer.as_ref().expect("offer").from.len(), 2);
}

#[test]
fn hostile_names_are_only_names() {
    let hostile = [
        "\u{202e}<script>alert(1)</script> Tarn",
        "{ $jobs } { start-job }",
        "'; DROP TABLE jobs; --",
        "../../job/e1",
        "\u{0}\u{7}\u{feff}",
    ];
    let jobs: Vec<JobState> = (1_u32..)
        .zip(hostile)
        .map(|(number, name)| {
            let job = job(&Earlier { number, ..EARLIER });
            let typed = JobEvent::ParticularTyped(Particular::Vehicle, name.repeat(9));
            apply(&job, typed, job.changed).expect("any name can be typed")
        })
        .collect();
    let mut bench = with_jobs(&jobs);
    again(&mut bench, AgainIntent::Go);
    // The last holds no letter: it has no name.
    assert_eq!(bench.app.again.groups.len(), hostile.len() - 1);
    assert_eq!(bench.app.again.nameless, 1);
    for at in 0..hostile.len() - 1 {
        let key = bench.app.again.groups[at].key.clone();
        again(&mut bench, AgainIntent::Open(key));
        assert!(bench.app.again.offer.is_some());
        again(&mut bench, AgainIntent::Close);
    }
}
