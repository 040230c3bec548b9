//! Suite `tilt`.
use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::zero::SourceKind;
use rakeline_core::units::Degrees;
use rakeline_tests::tilt_sim::chain::{Case, run};
use rakeline_tests::tilt_sim::rng::Rng;
use rakeline_tests::tilt_sim::{Setup, ZeroJob, quantile, rms};

fn main() {
    for kind in [SourceKind::Raw, SourceKind::Normalised] {
        for (poses, scale) in [(6, 0.005), (6, 0.01), (4, 0.005), (4, 0.01), (3, 0.005)] {
            let setup = Setup {
                poses,
                scale,
                ..Setup::usual(kind)
            };
            let mut refused = 0;
            let mut errors = vec![];
            let mut us = vec![];
            for seed in 0..2000 {
                let job = ZeroJob::draw(&mut Rng::new(seed), &setup);
                let Some(z) = job.zeroing(Seating::Pooled {
                    spread: Degrees(0.2),
                    dof: 10,
                }) else {
                    refused += 1;
                    continue;
                };
                errors.push(job.error(&z, -20.0).unwrap());
                let up = rakeline_tests::tilt_sim::on_face(
                    job.phone.back.normal(),
                    rakeline_core::estimate::rake::Side::Back,
                    -20.0,
                    0.0,
                );
                let still = job.phone.still(&mut Rng::new(0), up, 0.0);
                us.push(
                    z.rake(&still, rakeline_core::estimate::rake::Side::Back)
                        .unwrap()
                        .u
                        .0,
                );
            }
            println!(
                "{kind:?} {poses} {scale}: p95 {:.3} rms {:.4} u {:.4} refused {refused}",
                quantile(&errors, 0.95),
                rms(&errors),
                rms(&us)
            );
        }
    }
    for (rep, feet, slope, turn) in [
        (0.2, Feet::On, 2.0, 3.0),
        (0.1, Feet::On, 2.0, 3.0),
        (0.3, Feet::On, 2.0, 3.0),
        (0.2, Feet::None, 2.0, 3.0),
        (0.2, Feet::On, 6.0, 10.0),
    ] {
        for kind in [SourceKind::Raw, SourceKind::Normalised] {
            let case = Case {
                setup: Setup {
                    repeat: rep,
                    ..Setup::usual(kind)
                },
                feet,
                slope,
                turn,
            };
            let mut out = vec![];
            for seed in 0..3000 {
                if let Some(o) = run(&mut Rng::new(seed + 77777), &case) {
                    out.push(o);
                }
            }
            let cover = out.iter().filter(|o| o.covers()).count() as f64 / out.len() as f64;
            let hw: Vec<f64> = out.iter().map(|o| o.estimate.rake.expanded().0).collect();
            let err: Vec<f64> = out
                .iter()
                .map(|o| o.estimate.rake.value.0 - o.truth)
                .collect();
            println!(
                "{kind:?} rep {rep} {feet:?} slope {slope} turn {turn}: n {} cover {:.4} median hw {:.3} rms err {:.3}",
                out.len(),
                cover,
                quantile(&hw, 0.5),
                rms(&err)
            );
        }
    }
}
