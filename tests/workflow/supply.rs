//! Supply and leads: what the kit takes, what is asked for, and what cannot
//! be left out.

use rakeline::driver::Intent;
use rakeline::steps::book;
use rakeline_core::decide::supply::{Reading, System};
use rakeline_core::job::{
    self, Asked, Field, JobEvent, LoomEvent, ReadVolts, StepStands, StepsEvent, WhichLead,
    done_on_screen, leads_of, step_path,
};
use rakeline_core::kit::{KitSheet, Output, OutputKind};
use rakeline_core::steps::{Screen, StepName};

use crate::bench::Bench;
use crate::fitting::{fit, ready_to_drill, sheet, typed};

fn troubles(bench: &Bench) -> Vec<String> {
    let troubles = job::loom_troubles(bench.job());
    troubles.into_iter().map(|m| m.key.into_owned()).collect()
}

fn loom(bench: &mut Bench, event: LoomEvent) {
    fit(bench, JobEvent::Loom(event));
}

/// The job's kit without what a quick sheet leaves open.
fn with_kit(change: impl FnOnce(&mut KitSheet)) -> Bench {
    let mut bench = ready_to_drill();
    let mut kit = bench.job().kit.clone();
    (kit.supply, kit.leads, kit.output) = (None, None, None);
    change(&mut kit);
    fit(&mut bench, JobEvent::KitChosen(Box::new(kit)));
    bench
}

#[test]
fn a_kit_for_twelve_volts_is_not_right_on_a_vehicle_of_twenty_four() {
    let mut bench = ready_to_drill();
    loom(&mut bench, LoomEvent::SystemChosen(System::TwentyFour));
    assert_eq!(troubles(&bench), ["supply-kit-takes-less"]);
    typed(&mut bench, Field::Volts(Reading::ReverseOn), "27.4");
    assert!(troubles(&bench).contains(&"supply-too-high-for-kit".to_owned()));
    let text = sheet(&bench);
    assert!(text.contains("supply-too-high-for-kit"));
    assert!(text.contains("supply-kit-takes-less"));
}

#[test]
fn a_reading_of_four_hundred_volts_does_not_stand_on_the_sheet() {
    let mut bench = ready_to_drill();
    typed(&mut bench, Field::Volts(Reading::ReverseOn), "400");
    typed(&mut bench, Field::Volts(Reading::ReverseOff), "0.1");
    let text = sheet(&bench);
    assert!(text.contains("supply-reading-off"));
    assert!(!text.contains("supply-refused"));
    for typed in ["\"400", "Number(400", "Number { value: 400"] {
        assert!(!text.contains(typed), "{typed} in {text}");
    }
}

#[test]
fn what_the_sheet_does_not_say_of_supply_and_leads_is_asked() {
    let mut bench = with_kit(|_| {});
    assert!(job::asked_for_supply(bench.job()).is_empty(), "not yet");
    typed(&mut bench, Field::Volts(Reading::ReverseOn), "12.6");
    let asked = job::asked_for_supply(bench.job());
    let wanted = [Asked::Amperes, Asked::LeastVolts, Asked::GreatestVolts];
    assert_eq!(asked, wanted);
    for (asked, text) in asked.iter().zip(["0.4", "12.55", "16"]) {
        typed(&mut bench, Field::Asked(*asked), text);
    }
    bench.send(Intent::Fill(asked));
    assert!(job::asked_for_supply(bench.job()).is_empty());
    typed(&mut bench, Field::Route(WhichLead::Supply), "3000");
    let asked = job::asked_for_leads(bench.job());
    assert_eq!(asked, [Asked::SupplyLead]);
    typed(&mut bench, Field::Asked(Asked::SupplyLead), "4000");
    bench.send(Intent::Fill(asked));
    let (_, low) = job::supply_drop(bench.job()).expect("a drop");
    assert_eq!(low.expect("too low").key, "supply-arrives-too-low");
}

#[test]
fn display_and_speaker_have_leads_where_the_kit_has_them_though_no_length_is_given() {
    let kind = |kind| {
        let bench = with_kit(|kit| {
            kit.output = Some(Output {
                kind,
                note: None,
                extra: Default::default(),
            });
        });
        let leads = leads_of(bench.job());
        let has = |which| leads.contains(&which);
        (has(WhichLead::Display), has(WhichLead::Speaker))
    };
    assert_eq!(kind(OutputKind::Display), (true, false));
    assert_eq!(kind(OutputKind::Speaker), (false, true));
    assert_eq!(kind(OutputKind::Both), (true, true));
    let mut bench = with_kit(|kit| {
        kit.output = Some(Output {
            kind: OutputKind::Display,
            note: None,
            extra: Default::default(),
        });
    });
    typed(&mut bench, Field::Route(WhichLead::Display), "2000");
    assert_eq!(job::asked_for_leads(bench.job()), [Asked::DisplayLead]);
}

fn stands(bench: &Bench, wanted: &str) -> StepStands {
    let path = step_path(bench.job(), book());
    let mut steps = path.into_iter().flat_map(|stage| stage.steps);
    let step = steps.find(|step| step.sheet.name.0 == wanted);
    step.expect("in the book").stands
}

#[test]
fn the_supply_is_neither_skipped_nor_closed_without_its_fuse() {
    let mut bench = ready_to_drill();
    let supply = || StepName("supply".to_owned());
    for event in [
        StepsEvent::Skipped(supply(), "no time".to_owned()),
        StepsEvent::Done(supply()),
        StepsEvent::DoneAsUsual(vec![supply()]),
    ] {
        fit(&mut bench, JobEvent::Steps(event));
        assert_eq!(bench.notice(), Some("step-fuse-not-skipped"));
        assert!(bench.job().steps.ended.is_empty());
    }
    let mut sheets = book().stages.iter().flat_map(|stage| &stage.steps);
    let of_book = sheets.find(|step| step.name == supply()).expect("a step");
    assert_eq!(of_book.screen, Some(Screen::Supply));
    assert!(job::may_skip(bench.job(), of_book).is_err());
    loom(&mut bench, LoomEvent::FuseFitted);
    let skipped = StepsEvent::Skipped(supply(), "readings later".to_owned());
    fit(&mut bench, JobEvent::Steps(skipped));
    assert!(matches!(stands(&bench, "supply"), StepStands::Skipped(_)));
}

#[test]
fn leads_are_done_when_every_one_reaches_and_the_supply_when_nothing_is_wrong() {
    let mut bench = ready_to_drill();
    loom(&mut bench, LoomEvent::RulesKept);
    let done = |bench: &Bench, screen| done_on_screen(bench.job(), screen);
    assert!(!done(&bench, Screen::Leads), "no route is typed");
    typed(&mut bench, Field::GrommetToBox, "900");
    for which in leads_of(bench.job()) {
        typed(&mut bench, Field::Route(which), "700");
    }
    assert!(done(&bench, Screen::Leads));
    loom(&mut bench, LoomEvent::CautionsHeeded);
    loom(&mut bench, LoomEvent::FuseFitted);
    let plain = rakeline_core::decide::supply::LampCircuit::Plain;
    loom(&mut bench, LoomEvent::LampFound(plain));
    for (reading, volts) in job::READINGS.into_iter().zip(["12.6", "0.1", "0.05"]) {
        typed(&mut bench, Field::Volts(reading), volts);
    }
    assert!(done(&bench, Screen::Supply));
    typed(&mut bench, Field::Volts(Reading::ReverseOn), "9");
    assert!(!done(&bench, Screen::Supply), "too few volts");
    assert!(done(&bench, Screen::Leads), "the leads still reach");
}

#[test]
fn the_drop_is_of_the_whole_lead_as_what_is_left_over_is_coiled() {
    let drop_by = |route: &str| {
        let mut bench = with_kit(|_| {});
        typed(&mut bench, Field::Volts(Reading::ReverseOn), "12.6");
        for (asked, text) in [
            (Asked::Amperes, "0.4"),
            (Asked::LeastVolts, "10"),
            (Asked::GreatestVolts, "16"),
        ] {
            typed(&mut bench, Field::Asked(asked), text);
        }
        bench.send(Intent::Fill(job::asked_for_supply(bench.job())));
        typed(&mut bench, Field::Route(WhichLead::Supply), route);
        typed(&mut bench, Field::Asked(Asked::SupplyLead), "4000");
        bench.send(Intent::Fill(job::asked_for_leads(bench.job())));
        job::supply_drop(bench.job()).expect("a drop").0
    };
    assert_eq!(drop_by("1000"), drop_by("3000"));
}

#[test]
fn a_unit_behind_a_reading_counts_and_a_strange_one_is_no_reading() {
    let mut bench = ready_to_drill();
    let mut earth = |text: &str| {
        typed(&mut bench, Field::Volts(Reading::EarthDrop), text);
        job::volts(bench.job(), Reading::EarthDrop)
    };
    for (text, volts) in [("80 mV", 0.08), ("0,08 V", 0.08), ("0.08", 0.08)] {
        let Some(ReadVolts::Judged(read, _)) = earth(text) else {
            panic!("{text}");
        };
        assert!((read.0 - volts).abs() < 1e-12, "{text}: {read:?}");
    }
    for text in ["80 A", "0.08 kV", "x"] {
        let read = earth(text);
        assert!(matches!(read, Some(ReadVolts::NotAFigure(_))), "{text}");
    }
}

#[test]
fn the_supply_is_not_right_before_its_cautions_are_heeded() {
    let mut bench = ready_to_drill();
    let open = |bench: &Bench| {
        let open = job::loom_open(bench.job());
        open.iter().any(|line| line.key == "loom-open-cautions")
    };
    assert!(open(&bench));
    loom(&mut bench, LoomEvent::CautionsHeeded);
    assert!(!open(&bench));
}

#[test]
fn a_fuse_that_suited_another_kit_is_open_again() {
    let mut bench = ready_to_drill();
    loom(&mut bench, LoomEvent::FuseFitted);
    assert!(job::fuse_fitted(bench.job()));
    let mut kit = bench.job().kit.clone();
    kit.supply.as_mut().unwrap().fuse_amperes = Some(1.0);
    fit(&mut bench, JobEvent::KitChosen(Box::new(kit)));
    assert!(!job::fuse_fitted(bench.job()));
    assert!(troubles(&bench).contains(&"supply-fuse-too-large".to_owned()));
}
