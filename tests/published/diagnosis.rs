//! Our own test records: the seeded fault stands first or second, two both
//! among the first three; and rules that hold for any record.

use rakeline_core::diagnose::{Cause, diagnose};
use rakeline_core::job::{Finding, Found, JobState, Symptom, Where, YesNo};
use rakeline_tests::dice::Dice;
use rakeline_tests::fault_cases::{Case, Record, by_chance, one_fault, two_faults};

fn not_found(cases: &[Case]) -> Vec<String> {
    let missed = cases.iter().filter(|case| !case.is_found());
    missed.map(Case::list).collect()
}

#[test]
fn the_seeded_fault_stands_first_or_second() {
    let cases = one_fault();
    assert!(cases.len() >= 60, "{}", cases.len());
    let missed = not_found(&cases);
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn two_seeded_faults_stand_among_the_first_three() {
    let cases = two_faults();
    assert!(cases.len() >= 6);
    let missed = not_found(&cases);
    assert!(missed.is_empty(), "{missed:#?}");
}

#[test]
fn every_cause_is_the_first_of_some_record() {
    let first: Vec<Cause> = one_fault()
        .iter()
        .filter_map(|case| Some(diagnose(&case.job).suspects.first()?.cause))
        .collect();
    for cause in Cause::ALL {
        assert!(first.contains(&cause), "{cause:?}");
    }
}

#[test]
fn records_by_chance_are_found_too() {
    let cases = by_chance(200, 1, 21);
    let missed = not_found(&cases);
    assert!(missed.is_empty(), "{missed:#?}");
    let cases = by_chance(200, 2, 22);
    let missed = not_found(&cases);
    assert!(missed.len() <= 2, "{missed:#?}");
}

/// The cause after this one; a new one has no place until it is put here.
fn after(cause: Cause) -> Option<Cause> {
    use Cause::*;
    Some(match cause {
        AimBelowLevel => RingWrong,
        RingWrong => MetalWithoutInsert,
        MetalWithoutInsert => TightFit,
        TightFit => ThickPaint,
        ThickPaint => HeadUpsideDown,
        HeadUpsideDown => ObjectInField,
        ObjectInField => Load,
        Load => Socket,
        Socket => SupplyDrop,
        SupplyDrop => PulsedFeed,
        PulsedFeed => LooseConnector,
        LooseConnector => Water,
        Water => LearnedWrong,
        LearnedWrong => HeightOutside,
        HeightOutside => GapBetween,
        GapBetween => AimTooHigh,
        AimTooHigh => HeadBroken,
        HeadBroken => return None,
    })
}

#[test]
fn every_cause_there_is_is_reached_with_evidence_and_settled_by_its_question() {
    let all: Vec<Cause> =
        core::iter::successors(Some(Cause::AimBelowLevel), |cause| after(*cause)).collect();
    assert_eq!(all, Cause::ALL);
    let cases = one_fault();
    for cause in all {
        let seeded: Vec<&Case> = cases.iter().filter(|case| case.seeded == [cause]).collect();
        assert!(!seeded.is_empty(), "{cause:?} has no record");
        for case in seeded {
            let found = diagnose(&case.job).suspects;
            let one = found.iter().find(|one| one.cause == cause);
            let one = one.unwrap_or_else(|| panic!("{cause:?} is not in the list"));
            assert!(!one.for_it.is_empty(), "{}", case.name);
            assert!(!one.is_ruled_out(), "{}", case.list());
        }
        // Its own question moves it more than any other evidence hints.
        let job = Record::elsewhere().does(Symptom::ConstantAlarm).job;
        let with = |answer| {
            let mut job = job.clone();
            job.fault.found.push(Found {
                finding: cause.settled_by(),
                spot: None,
                answer,
            });
            points(&job, cause)
        };
        let apart = (with(YesNo::Yes) - with(YesNo::No)).abs();
        assert!(apart >= 20, "{cause:?}: {apart}");
    }
}

fn points(job: &JobState, cause: Cause) -> i32 {
    let suspects = diagnose(job).suspects;
    let mut suspects = suspects.iter().filter(|one| one.cause == cause);
    suspects.next().map_or(0, |one| one.points)
}

/// A record by chance with the answers it has.
fn some_record(dice: &mut Dice) -> JobState {
    let cases = by_chance(1, 1 + dice.below(2), dice.roll());
    cases
        .into_iter()
        .next()
        .map_or(Record::bare().job, |case| case.job)
}

#[test]
fn what_speaks_for_a_cause_never_lowers_it() {
    let mut dice = Dice(23);
    for _ in 0..150 {
        let job = some_record(&mut dice);
        let cause = Cause::ALL[dice.below(Cause::ALL.len())];
        let finding = cause.settled_by();
        let spot = finding
            .has_head()
            .then(|| u8::try_from(dice.below(4)).unwrap_or(0));
        let with = |answer| {
            let mut job = job.clone();
            job.fault.found.retain(|found| found.finding != finding);
            job.fault.found.extend(answer);
            points(&job, cause)
        };
        let answered = |answer| {
            Some(Found {
                finding,
                spot,
                answer,
            })
        };
        let (yes, none, no) = (
            with(answered(YesNo::Yes)),
            with(None),
            with(answered(YesNo::No)),
        );
        assert!(
            (yes <= none && none <= no) || (no <= none && none <= yes),
            "{cause:?} {finding:?}: {yes} {none} {no}"
        );
    }
}

#[test]
fn a_further_symptom_lowers_no_cause() {
    let mut dice = Dice(24);
    for _ in 0..80 {
        let job = some_record(&mut dice);
        let symptom = Symptom::ALL[dice.below(Symptom::ALL.len())];
        if job.fault.symptoms.contains_key(&symptom) {
            continue;
        }
        let mut more = job.clone();
        more.fault.symptoms.insert(symptom, Where::NotKnown);
        for cause in Cause::ALL {
            assert!(
                points(&more, cause) >= points(&job, cause),
                "{cause:?} {symptom:?}"
            );
        }
    }
}

#[test]
fn a_lower_aim_never_makes_a_low_aim_less_likely() {
    let at = |face: f64| {
        let record = Record::right().faces([face, -3.5, -3.6, -4.1]);
        points(
            &record.by_hand(0, "9", None).does(Symptom::SeesGround).job,
            Cause::AimBelowLevel,
        )
    };
    let all: Vec<i32> = (0..30).map(|n| at(-f64::from(n))).collect();
    assert!(all.windows(2).all(|pair| pair[1] >= pair[0]), "{all:?}");
    assert!(all[29] > all[0] + 15);
}

#[test]
fn the_points_are_the_sum_of_what_is_shown() {
    let by_chance = by_chance(40, 1, 23).into_iter();
    for case in one_fault().into_iter().chain(by_chance) {
        for one in diagnose(&case.job).suspects {
            let all = one.for_it.iter().chain(&one.against);
            let shown: i32 = all.map(|one| i32::from(one.points)).sum();
            assert_eq!(one.points, shown, "{:?}", one.cause);
        }
    }
    let job = Record::elsewhere()
        .does(Symptom::LateWarning)
        .not_so(Finding::VoltsEnough)
        .job;
    let list = diagnose(&job).suspects;
    let drop = list.iter().find(|one| one.cause == Cause::SupplyDrop);
    let drop = drop.unwrap();
    let shown: i32 = drop
        .for_it
        .iter()
        .chain(&drop.against)
        .map(|one| i32::from(one.points))
        .sum();
    assert_eq!(drop.points, shown);
}

#[test]
fn no_symptom_no_readings_and_contradictions_have_an_outcome_in_words() {
    let none = diagnose(&Record::bare().job);
    assert!(none.suspects.is_empty());
    assert_eq!(none.outcome.key, "diagnosis-no-symptom");
    let bare = diagnose(&Record::bare().does(Symptom::DeadHead).job);
    assert_eq!(bare.outcome.key, "diagnosis-symptoms-only");
    assert_eq!(bare.suspects.len(), Cause::ALL.len());
    assert!(bare.suspects.iter().all(|one| !one.unknown.is_empty()));
    let record = Record::right()
        .does(Symptom::ConstantAlarm)
        .not_so(Finding::ObjectThere)
        .so(Finding::GoesWithoutObject)
        .so(Finding::OnlyLoaded)
        .not_at(Finding::HeadUp, 1);
    let keys: Vec<String> = diagnose(&record.job)
        .contradictions
        .into_iter()
        .map(|one| one.key.into_owned())
        .collect();
    assert_eq!(
        keys,
        [
            "contradiction-object",
            "contradiction-constant-load",
            "contradiction-arrow"
        ]
    );
}
