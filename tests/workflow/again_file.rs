//! What stands in a file for a colleague: the model's name survives, words
//! of customers, phones and visits do not leave.

use rakeline::driver::{AgainIntent, pass_words};
use rakeline_core::again::{PassedFault, TaughtBy, Told, model_words, pass_on, read_passed};
use rakeline_core::decide::parts::Part;
use rakeline_core::job::{JobState, Particular};
use rakeline_tests::again_cases::{EARLIER, full_job};
use serde_json::{Value, json};

use crate::again::{again, job, open_offer, with_jobs};
use crate::again_passed::{file, with};

/// The earlier job, for that customer.
fn of_customer(customer: &str) -> JobState {
    let mut job = job(&EARLIER);
    job.particulars
        .insert(Particular::Customer, customer.to_owned());
    job
}

#[test]
fn a_make_that_is_a_customer_s_name_too_is_asked_about_and_survives() {
    let job = of_customer("Tarn Logistics");
    let words = model_words(std::slice::from_ref(&job), &[]);
    assert_eq!(words.model, "Carrier van");
    assert_eq!(words.left_out, ["Tarn"]);
    let file = |model: &str| {
        let jobs = std::slice::from_ref(&job);
        pass_on(jobs, TaughtBy::default(), &[], model).expect("a file")
    };
    let vehicle = |text: &str| {
        read_passed(text).expect("it is read").lessons[0]
            .vehicle
            .clone()
    };
    assert_eq!(vehicle(&file("")), "Carrier van 2021");
    assert_eq!(vehicle(&file("Tarn Carrier van")), "Tarn Carrier van 2021");
    assert_eq!(
        vehicle(&file("Tarn Carrier van 1999")),
        "Tarn Carrier van 2021"
    );
    for model in ["", "Tarn Carrier van"] {
        assert!(!file(model).to_lowercase().contains("logistics"), "{model}");
    }
    // What no customer's name holds is not asked about.
    let words = model_words(&[of_customer("Ghyll Deliveries")], &[]);
    assert_eq!(words.model, "Tarn Carrier van");
    assert_eq!(words.left_out, [] as [String; 0]);
}

#[test]
fn what_was_typed_as_the_model_stands_in_the_file_on_the_screen() {
    let mut bench = with_jobs(&[of_customer("Tarn Logistics")]);
    open_offer(&mut bench);
    assert_eq!(pass_words(&bench.app).left_out, ["Tarn"]);
    again(
        &mut bench,
        AgainIntent::PassModel("Tarn Carrier van".to_owned()),
    );
    again(&mut bench, AgainIntent::PassOn);
    let files = bench.phone.share.files();
    let text = String::from_utf8_lossy(&files[0].bytes).into_owned();
    assert!(text.contains("Tarn Carrier van 2021"));
}

#[test]
fn names_in_a_kit_sheet_lose_the_customer_s_words_and_stay_names() {
    let mut job = of_customer("Ghyll Deliveries");
    job.kit.rings[1].name = "Ghyll ring".to_owned();
    job.kit.rings[2].name = "Ghyll".to_owned();
    job.kit.rings[2].seats = Some("as Ghyll Deliveries wants it".to_owned());
    job.kit.heads.colours.push("Ghyll green".to_owned());
    job.kit.heads.labels[2] = "Ghyll".to_owned();
    job.spots[2].label = "Ghyll".to_owned();
    if let Some(control_box) = &mut job.kit.control_box {
        control_box.sockets[2].takes = Some("Ghyll".to_owned());
    }
    if let Some(learn) = &mut job.kit.obstacle_learn {
        learn.cleared_by = Some("call Ghyll Deliveries".to_owned());
    }
    let note = json!("for Ghyll");
    job.kit.rings[0].extra.insert("note".to_owned(), note);
    let file = pass_on(&[job], TaughtBy::default(), &[], "").expect("a file");
    assert!(!file.to_lowercase().contains("ghyll"), "{file}");
    let passed = read_passed(&file).expect("it is a valid file");
    let lesson = &passed.lessons[0];
    let names: Vec<&str> = lesson.kit.rings.iter().map(|ring| &*ring.name).collect();
    assert_eq!(names, ["2", "ring", "1", "14"]);
    // Parts and sets name rings that the sheet has.
    for line in &lesson.parts {
        if let Part::Ring { name, .. } = &line.part {
            assert!(lesson.kit.ring(name).is_some(), "{name}");
        }
    }
    for told in &lesson.told {
        if let Told::Set { label, set } = told {
            assert!(lesson.kit.ring(&set.ring).is_some(), "{set:?}");
            assert!(lesson.kit.heads.labels.contains(label), "{label}");
        }
    }
}

#[test]
fn neither_the_phone_nor_a_visit_s_words_leave() {
    let mut job = full_job().expect("a job");
    job.visits[0].done = "new lead".to_owned();
    let file = pass_on(&[job], TaughtBy::default(), &[], "").expect("a file");
    for stays in ["Beck phone", "reversed into", "new lead", "blob"] {
        assert!(!file.contains(stays), "{stays} leaves");
    }
    let back = read_passed(&file).expect("it is read");
    let told = &back.lessons[0].told;
    assert!(
        told.contains(&Told::CameBack(1)),
        "that it came back is told"
    );
    // A file that holds a visit, or words of another step, is none of ours.
    let visit = json!([{ "Visit": { "why": "x", "done": "y" } }]);
    assert_eq!(
        read_passed(&with("told", visit)),
        Err(PassedFault::Wrong("passed-at-told"))
    );
    let words = json!([["assistance-before", "report 7"]]);
    assert_eq!(
        read_passed(&with("words", words)),
        Err(PassedFault::Wrong("passed-at-words"))
    );
}

#[test]
fn a_file_of_the_version_before_is_read() {
    let mut file: Value = serde_json::from_str(&file()).expect("JSON");
    file["rakeline_again"] = json!(1);
    assert!(read_passed(&file.to_string()).is_ok());
}
