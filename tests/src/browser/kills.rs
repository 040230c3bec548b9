//! A browser that is killed while a job is typed into, and what is there
//! afterwards.

use std::time::Duration;

use serde_json::json;

use super::Phone;

/// How many changes are typed between two kills.
const CHANGES: u32 = 8;

/// What the header says: the job's name, and whether it shows as saved, both
/// of one moment.
fn shown(phone: &Phone) -> (Option<u32>, bool) {
    let script = "[document.querySelector('.head .what b')?.innerText ?? '', \
        (document.querySelector('.head .what .state')?.innerText ?? '').startsWith('saved')]";
    let header = phone.eval(script);
    let name = header[0]
        .as_str()
        .and_then(|name| name.strip_prefix("name "));
    let number = name.and_then(|number| number.parse().ok());
    (number, header[1] == json!(true))
}

/// Starts a job and types one name after the other into it; kills the
/// browser so many times at random moments in between. Gives how many times
/// the name that was last seen as saved, or a later one, was not there
/// afterwards.
///
/// # Panics
/// If the app does not come back.
#[must_use]
pub fn lost_over_kills(phone: &Phone, kills: u32, mut seed: u32) -> u32 {
    const FIRST: &str = "Centre line to outer edge";
    phone.goto("/");
    phone.tap_named("Start a job");
    phone.wait_for(FIRST, 30);
    let (mut lost, mut count) = (0, 0);
    for kill in 0..kills {
        phone.tap_named("Customer, vehicle, plate");
        let mut kept = 0;
        for _ in 0..CHANGES {
            count += 1;
            phone.type_into("What you call this job", &format!("name {count}"));
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            phone.rest(Duration::from_millis(u64::from(seed >> 26)));
            if let (Some(number), true) = shown(phone) {
                kept = number;
            }
        }
        let path = phone.eval("location.pathname");
        phone.kill();
        phone.goto(path.as_str().unwrap_or("/"));
        phone.wait_for(FIRST, 30);
        let there = shown(phone).0.unwrap_or_default();
        if there < kept {
            lost += 1;
            eprintln!("kill {kill}: {there} is there, {kept} was shown as saved");
        }
        assert!(kept > 0, "kill {kill}: nothing was ever shown as saved");
    }
    lost
}
