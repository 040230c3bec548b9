//! What the kit sheet says at a step of the work, where the fitter needs it.

use super::rings_chosen::sets_taken;
use super::state::JobState;
use crate::kit::{ControlBox, KitSheet, Ring, Volume};
use crate::steps::StepName;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// The lines of this job's kit sheet for a step; empty where it says nothing.
#[must_use]
pub fn kit_says(job: &JobState, step: &StepName) -> Vec<Message> {
    let kit = &job.kit;
    match step.0.as_str() {
        "kit-complete" => contents(kit),
        "sockets" => sockets(kit.control_box.as_ref()),
        "zone-shift" => zone_shift(kit.control_box.as_ref()),
        "volume" => kit.volume.as_ref().map(volume).unwrap_or_default(),
        "display-place" | "speaker-place" => {
            let note = kit.output.as_ref().and_then(|output| output.note.clone());
            let said = note.map(|note| msg("kit-says-note").text("note", note));
            said.into_iter().collect()
        }
        "paint" => paint(kit),
        "heads-in" => seating(job),
        _ => Vec::new(),
    }
}

fn contents(kit: &KitSheet) -> Vec<Message> {
    let labels = kit.heads.labels.join(", ");
    let mut lines = vec![
        msg("kit-says-heads")
            .count("count", i64::try_from(kit.head_count()).unwrap_or(i64::MAX))
            .text("labels", labels),
    ];
    let rings: Vec<&str> = kit.rings.iter().map(|ring| ring.name.as_str()).collect();
    lines.push(msg("kit-says-rings").text("rings", rings.join(", ")));
    let inserts: Vec<&str> = kit.inserts.iter().map(|i| i.name.as_str()).collect();
    if !inserts.is_empty() {
        lines.push(msg("kit-says-inserts").text("inserts", inserts.join(", ")));
    }
    if !kit.heads.colours.is_empty() {
        let colours = kit.heads.colours.join(", ");
        lines.push(msg("kit-says-colours").text("colours", colours));
    }
    lines
}

fn sockets(control_box: Option<&ControlBox>) -> Vec<Message> {
    let sockets = control_box.map(|it| it.sockets.as_slice());
    let lines = sockets.unwrap_or_default().iter();
    lines
        .map(|socket| {
            let label = socket.label.clone();
            match &socket.takes {
                Some(takes) => msg("kit-says-socket")
                    .text("label", label)
                    .text("takes", takes.clone()),
                None => msg("kit-says-socket-open").text("label", label),
            }
        })
        .collect()
}

fn zone_shift(control_box: Option<&ControlBox>) -> Vec<Message> {
    let Some(shift) = control_box.and_then(|it| it.zone_shift.as_ref()) else {
        return Vec::new();
    };
    let Millimetres(distance) = shift.distance;
    let by = msg("kit-says-shift").mm("distance", distance);
    let how = shift.how.clone();
    let how = how.map(|how| msg("kit-says-note").text("note", how));
    how.into_iter().chain([by]).collect()
}

fn volume(volume: &Volume) -> Vec<Message> {
    let place = volume.place.clone();
    let place = place.map(|place| msg("kit-says-volume-at").text("place", place));
    let how = volume.how.clone();
    let how = how.map(|how| msg("kit-says-note").text("note", how));
    let steps = volume.steps;
    let steps = steps.map(|n| msg("kit-says-volume-steps").count("steps", i64::from(n)));
    place.into_iter().chain(how).chain(steps).collect()
}

fn paint(kit: &KitSheet) -> Vec<Message> {
    let limit = kit.paint_limit;
    let limit = limit.map(|limit| msg("kit-says-paint-limit").number("limit", limit.0, 2));
    let bare: Vec<&str> = kit
        .rings
        .iter()
        .filter(|ring| ring.paintable == Some(false))
        .map(|ring| ring.name.as_str())
        .collect();
    let bare =
        (!bare.is_empty()).then(|| msg("kit-says-not-painted").text("rings", bare.join(", ")));
    limit.into_iter().chain(bare).collect()
}

/// How the rings that go in seat; of all rings while none is taken.
fn seating(job: &JobState) -> Vec<Message> {
    let taken: Vec<String> = sets_taken(job)
        .into_iter()
        .flatten()
        .map(|taken| taken.set.ring)
        .collect();
    let goes_in = |ring: &&Ring| taken.is_empty() || taken.contains(&ring.name);
    let rings = job.kit.rings.iter().filter(goes_in);
    rings.filter_map(seats).collect()
}

fn seats(ring: &Ring) -> Option<Message> {
    let how = ring.seats.clone()?;
    let named = msg("kit-says-ring-seats").text("ring", ring.name.clone());
    Some(named.text("how", how))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::JobId;
    use crate::kit::{Socket, parse};

    const METAL: &str = include_str!("../../../assets/kits/metal-four.json");

    fn keys(kit: KitSheet, step: &str) -> Vec<String> {
        let at = chrono::DateTime::parse_from_rfc3339("2026-03-02T09:00:00+01:00").unwrap();
        let job = JobState::start(JobId("1".to_owned()), kit, at);
        let lines = kit_says(&job, &StepName(step.to_owned()));
        lines
            .into_iter()
            .map(|line| line.key.into_owned())
            .collect()
    }

    #[test]
    fn sockets_shift_and_volume_stand_where_they_are_needed() {
        let mut kit = parse(METAL).unwrap();
        assert_eq!(keys(kit.clone(), "sockets"), ["kit-says-socket"; 5]);
        assert_eq!(
            keys(kit.clone(), "zone-shift"),
            ["kit-says-note", "kit-says-shift"]
        );
        assert!(keys(kit.clone(), "kit-complete").contains(&"kit-says-inserts".to_owned()));
        assert_eq!(keys(kit.clone(), "tidy"), [""; 0]);
        kit.volume = Some(Volume {
            place: Some("under the cover".to_owned()),
            how: None,
            steps: Some(3),
            extra: crate::kit::Extra::new(),
        });
        assert_eq!(
            keys(kit, "volume"),
            ["kit-says-volume-at", "kit-says-volume-steps"]
        );
    }

    #[test]
    fn a_socket_for_nothing_named_is_still_listed() {
        let mut kit = parse(METAL).unwrap();
        let control_box = kit.control_box.as_mut().unwrap();
        control_box.sockets = vec![Socket {
            label: "X".to_owned(),
            takes: None,
            extra: crate::kit::Extra::new(),
        }];
        assert_eq!(keys(kit.clone(), "sockets"), ["kit-says-socket-open"]);
        kit.control_box = None;
        assert_eq!(keys(kit, "sockets"), [""; 0]);
    }

    #[test]
    fn a_ring_that_may_not_be_painted_is_named_before_the_paint() {
        let mut kit = parse(METAL).unwrap();
        kit.paint_limit = Some(Millimetres(0.15));
        kit.rings[0].paintable = Some(false);
        let said = keys(kit, "paint");
        assert_eq!(said, ["kit-says-paint-limit", "kit-says-not-painted"]);
    }
}
