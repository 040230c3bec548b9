//! A kit sheet on its way to a colleague: what the workshop wrote in it may
//! name a customer, in free words and in the names of rings, inserts, heads
//! and sockets. Names are what sets and parts are known by: an old one gets
//! the same new one everywhere.

use super::lesson::Lesson;
use super::secrets::Secrets;
use super::told::Told;
use crate::decide::parts::Part;
use crate::kit::KitSheet;

/// New names by old ones.
struct Renamed(Vec<(String, String)>);

impl Renamed {
    /// New names for those of these that tell; no two are the same.
    fn of<'a>(names: impl Iterator<Item = &'a String>, kept_in: &Secrets) -> Self {
        let (tell, mut used): (Vec<String>, Vec<String>) =
            names.cloned().partition(|name| kept_in.told_by(name));
        let mut all = Vec::new();
        for old in tell {
            let left = kept_in.taken_out_of(&old);
            let fits = !left.is_empty() && !kept_in.told_by(&left);
            let numbers = (1_usize..).map(|number| number.to_string());
            let mut wanted = fits.then_some(left).into_iter().chain(numbers);
            if let Some(new) = wanted.find(|name| !used.contains(name)) {
                used.push(new.clone());
                all.push((old, new));
            }
        }
        Self(all)
    }

    fn put(&self, name: &mut String) {
        if let Some((_, new)) = self.0.iter().find(|(old, _)| old == name) {
            name.clone_from(new);
        }
    }
}

/// Takes out of a lesson's kit, parts and sets what its kit sheet says of
/// customers.
pub(super) fn leave_out(lesson: &mut Lesson, kept_in: &Secrets) {
    let kit = &mut lesson.kit;
    kit.name = kept_in.taken_out_of(&kit.name);
    let rings = Renamed::of(kit.rings.iter().map(|ring| &ring.name), kept_in);
    let inserts = Renamed::of(kit.inserts.iter().map(|insert| &insert.name), kept_in);
    let labels = Renamed::of(kit.heads.labels.iter(), kept_in);
    kit.heads.labels.iter_mut().for_each(|one| labels.put(one));
    kit.heads
        .comes_with
        .iter_mut()
        .for_each(|one| rings.put(one));
    kit.rings
        .iter_mut()
        .for_each(|ring| rings.put(&mut ring.name));
    let all = kit.inserts.iter_mut();
    all.for_each(|insert| inserts.put(&mut insert.name));
    for total in &mut kit.totals {
        rings.put(&mut total.ring);
        total.insert.iter_mut().for_each(|one| inserts.put(one));
    }
    if let Some(control_box) = &mut kit.control_box {
        let sockets = Renamed::of(control_box.sockets.iter().map(|one| &one.label), kept_in);
        for socket in &mut control_box.sockets {
            sockets.put(&mut socket.label);
            socket.takes.iter_mut().for_each(|one| labels.put(one));
        }
    }
    free_words(kit, kept_in);
    unknown_fields(kit);
    for line in lesson.extra.iter_mut().chain(&mut lesson.parts) {
        match &mut line.part {
            Part::Kit { kit } | Part::Extension { kit, .. } | Part::LongLead { kit, .. } => {
                *kit = kept_in.taken_out_of(kit);
            }
            Part::Ring { kit, name } => {
                *kit = kept_in.taken_out_of(kit);
                rings.put(name);
            }
            Part::Insert { kit, name } => {
                *kit = kept_in.taken_out_of(kit);
                inserts.put(name);
            }
            Part::Fuse(_) | Part::Other(_) => {}
        }
    }
    for told in &mut lesson.told {
        match told {
            Told::Behind { label, .. } | Told::Depth { label, .. } => labels.put(label),
            Told::Set { label, set } => {
                labels.put(label);
                rings.put(&mut set.ring);
                set.insert.iter_mut().for_each(|one| inserts.put(one));
            }
            Told::Volts { .. }
            | Told::Lamp(_)
            | Told::Fault(_)
            | Told::CameBack(_)
            | Told::Visit { .. } => {}
        }
    }
}

fn free_words(kit: &mut KitSheet, kept_in: &Secrets) {
    let leave = |words: &mut Option<String>| {
        if words.as_deref().is_some_and(|words| kept_in.told_by(words)) {
            *words = None;
        }
    };
    leave(&mut kit.note);
    kit.heads.colours.retain(|words| !kept_in.told_by(words));
    for ring in &mut kit.rings {
        leave(&mut ring.comes_off);
        leave(&mut ring.seats);
    }
    let control_box = kit.control_box.as_mut();
    if let Some(shift) = control_box.and_then(|one| one.zone_shift.as_mut()) {
        leave(&mut shift.how);
    }
    if let Some(volume) = &mut kit.volume {
        leave(&mut volume.place);
        leave(&mut volume.how);
    }
    if let Some(output) = &mut kit.output {
        leave(&mut output.note);
    }
    if let Some(learn) = &mut kit.obstacle_learn {
        leave(&mut learn.cleared_by);
    }
}

/// Fields of a newer version of the sheet may hold anything.
fn unknown_fields(kit: &mut KitSheet) {
    kit.extra.clear();
    kit.heads.extra.clear();
    kit.heads.grip.iter_mut().for_each(|one| one.extra.clear());
    kit.rings.iter_mut().for_each(|one| one.extra.clear());
    kit.inserts.iter_mut().for_each(|one| one.extra.clear());
    kit.totals.iter_mut().for_each(|one| one.extra.clear());
    kit.aim.extra.clear();
    kit.mark_out.extra.clear();
    kit.holes.extra.clear();
    let holes = kit.holes.by_material.iter_mut();
    holes.for_each(|one| one.extra.clear());
    if let Some(leads) = &mut kit.leads {
        leads.extra.clear();
        let all = [
            &mut leads.head,
            &mut leads.display,
            &mut leads.speaker,
            &mut leads.supply,
        ];
        all.into_iter().flatten().for_each(|one| one.extra.clear());
    }
    if let Some(control_box) = &mut kit.control_box {
        control_box.extra.clear();
        let sockets = control_box.sockets.iter_mut();
        sockets.for_each(|one| one.extra.clear());
        let shift = control_box.zone_shift.iter_mut();
        shift.for_each(|one| one.extra.clear());
    }
    kit.supply.iter_mut().for_each(|one| one.extra.clear());
    kit.volume.iter_mut().for_each(|one| one.extra.clear());
    kit.output.iter_mut().for_each(|one| one.extra.clear());
    kit.obstacle_learn
        .iter_mut()
        .for_each(|one| one.extra.clear());
    kit.sensing.iter_mut().for_each(|one| one.extra.clear());
    kit.height.iter_mut().for_each(|one| one.extra.clear());
}
