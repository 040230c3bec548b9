//! Archives that are refused, each with its reason, and nothing changes.

use rakeline::backup::zip::Zip;
use rakeline::backup::{Brings, LARGEST_ENTRY, MOST_ENTRIES};
use rakeline::driver::{BackupIntent, KEPT_JOB_PREFIX, Whole};
use rakeline::platform::memory::MemoryPlatform;

use crate::backup::{PASSPHRASE, backup, fault, full_phone, jobs_of, look, made, plan};
use crate::bench::Bench;
use crate::job_list::three;

const MANIFEST: &[u8] = br#"{"format":"rakeline-backup","version":1}"#;

/// A zip of these entries after the manifest.
pub(crate) fn zip(entries: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = Zip::new(Vec::new());
    zip.add("rakeline.json", MANIFEST).expect("written");
    for (name, bytes) in entries {
        zip.add(name, bytes).expect("written");
    }
    zip.finish().expect("written")
}

/// The archive is refused for this reason and nothing is changed by it.
fn refused(bytes: Vec<u8>, passphrase: &str, why: &str) {
    let mut bench = three();
    let before = jobs_of(&bench);
    look(&mut bench, bytes, passphrase);
    assert_eq!(fault(&bench), why);
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    assert_eq!(jobs_of(&bench), before);
}

#[test]
fn a_name_that_leads_out_of_the_archive() {
    for name in [
        "../jobs/a.json",
        "jobs/../../a.json",
        "jobs/./a.json",
        "jobs//a.json",
        "jobs\\..\\a.json",
    ] {
        refused(zip(&[(name, b"{}")]), "", "zip-bad-name");
    }
}

#[test]
fn an_absolute_name() {
    for name in ["/jobs/a.json", "C:/jobs/a.json", "C:a.json"] {
        refused(zip(&[(name, b"{}")]), "", "zip-bad-name");
    }
}

#[test]
fn a_name_with_signs_that_no_name_has() {
    for name in ["jobs/a\0.json", "jobs/a\n.json", ""] {
        refused(zip(&[(name, b"{}")]), "", "zip-bad-name");
    }
    let long = format!("jobs/{}.json", "a".repeat(300));
    refused(zip(&[(&long, b"{}")]), "", "zip-bad-name");
}

#[test]
fn two_entries_of_one_name() {
    let twice = zip(&[("jobs/a.json", b"{}"), ("jobs/a.json", b"[]")]);
    refused(twice, "", "zip-twice");
}

#[test]
fn a_bomb_by_its_ratio() {
    let zeros = vec![b' '; 8 << 20];
    refused(zip(&[("jobs/a.json", &zeros)]), "", "zip-bomb");
}

#[test]
fn a_bomb_of_many_small_entries() {
    let spaces = vec![b' '; 1 << 20];
    let names: Vec<String> = (0..20).map(|n| format!("notes/{n}")).collect();
    let entries: Vec<(&str, &[u8])> = names.iter().map(|n| (&**n, &*spaces)).collect();
    refused(zip(&entries), "", "zip-bomb");
}

#[test]
fn a_bomb_by_its_size() {
    // Stored, so that the ratio does not catch it first; only its head.
    let mut bytes = zip(&[("photos/a.jpg", b"\xff\xd8")]);
    let at = find(&bytes, b"photos/a.jpg") - 30;
    let size = u32::try_from(LARGEST_ENTRY + 1)
        .expect("fits")
        .to_le_bytes();
    bytes[at + 18..at + 22].copy_from_slice(&size);
    bytes[at + 22..at + 26].copy_from_slice(&size);
    refused(bytes, "", "zip-too-large");
}

fn find(bytes: &[u8], what: &[u8]) -> usize {
    let mut windows = bytes.windows(what.len());
    windows.position(|window| window == what).expect("there")
}

#[test]
fn more_entries_than_the_limit() {
    let mut zip = Zip::new(Vec::new());
    zip.add("rakeline.json", MANIFEST).expect("written");
    for n in 0..MOST_ENTRIES {
        zip.add(&format!("notes/{n}"), b"").expect("written");
    }
    let bytes = zip.finish().expect("written");
    let mut bench = Bench::on(MemoryPlatform::new());
    look(&mut bench, bytes, "");
    assert_eq!(fault(&bench), "zip-too-many");
}

#[test]
fn wrong_types_are_named_one_by_one_and_the_rest_can_be_taken_in() {
    let mut donor = three();
    let bytes = made(&mut donor, Whole::Open);
    let mut bench = Bench::on(MemoryPlatform::new());
    look(&mut bench, bytes, "");
    assert_eq!(plan(&bench).odd, []);
    let broken = zip(&[
        ("jobs/a1.json", b"\xff\xd8 a photo under a job's name"),
        ("jobs/a2.json", b"[1,2,3]"),
        ("jobs/a3.json", br#"{"version":1,"job":{"id":"a3"}}"#),
        ("jobs/..a4.json", b"{}"),
        ("photos/x-1.jpg", b"MZ no picture"),
        ("kits/k1.json", b"not JSON"),
    ]);
    let before = jobs_of(&bench);
    look(&mut bench, broken, "");
    let odd: Vec<&str> = plan(&bench).odd.iter().map(|(_, why)| &*why.key).collect();
    assert_eq!(
        odd,
        [
            "backup-not-text",
            "record-not-a-record",
            "record-damaged",
            "backup-bad-id",
            "backup-no-picture",
            "kit-fault-not-json"
        ]
    );
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    assert_eq!(jobs_of(&bench), before);
}

#[test]
fn a_job_under_another_jobs_name() {
    let mut donor = three();
    let id = donor.app.jobs[0].id.0.clone();
    let text = donor.phone.storage.records()[&format!("job/{id}")].clone();
    look(&mut donor, zip(&[("jobs/abc.json", text.as_bytes())]), "");
    assert_eq!(plan(&donor).odd[0].1.key, "record-of-another-job");
}

#[test]
fn a_backup_cut_off_anywhere() {
    let mut donor = three();
    let bytes = made(&mut donor, Whole::Open);
    let before = jobs_of(&donor);
    for end in (1..bytes.len()).step_by(bytes.len() / 60) {
        look(&mut donor, bytes[..end].to_vec(), "");
        let why = fault(&donor);
        assert!(
            ["zip-cut-short", "zip-not-a-zip", "zip-directory"].contains(&why),
            "{end}: {why}"
        );
    }
    assert_eq!(jobs_of(&donor), before);
}

#[test]
fn a_locked_backup_cut_off_anywhere_or_changed_in_one_bit() {
    let mut donor = full_phone();
    let bytes = made(&mut donor, Whole::Locked);
    for end in [40, 150, 200, bytes.len() / 2, bytes.len() - 1] {
        refused(bytes[..end].to_vec(), PASSPHRASE, "backup-damaged");
    }
    let flipped = [60, bytes.len() / 2, bytes.len() - 20].map(|at| (at, bytes[at] ^ 1));
    // A sign in the head that is none of base 64 at all.
    for (at, byte) in flipped.into_iter().chain([(60, b'*')]) {
        let mut changed = bytes.clone();
        changed[at] = byte;
        let mut bench = three();
        look(&mut bench, changed, PASSPHRASE);
        let why = fault(&bench);
        assert!(
            ["backup-damaged", "backup-wrong-passphrase"].contains(&why),
            "{at}: {why}"
        );
    }
}

#[test]
fn a_half_written_backup_without_its_directory() {
    let bytes = zip(&[("notes/a", b"text")]);
    let directory = find(&bytes, b"PK\x01\x02");
    refused(bytes[..directory].to_vec(), "", "zip-cut-short");
}

#[test]
fn a_directory_that_tells_another_story() {
    let bytes = zip(&[("notes/a", b"text"), ("notes/b", b"more")]);
    let directory = find(&bytes, b"PK\x01\x02");
    let last = bytes.len() - b"notes/b".len() - 22;
    let mut other = bytes.clone();
    other[last..last + 7].copy_from_slice(b"notes/c");
    assert!(last > directory);
    refused(other, "", "zip-directory");
    let mut more = bytes.clone();
    more.extend(b"and something behind its end");
    refused(more, "", "zip-directory");
}

#[test]
fn an_entry_that_is_not_what_its_sum_says() {
    let mut bytes = zip(&[("photos/a.jpg", b"\xff\xd8 picture")]);
    let at = find(&bytes, b" picture");
    bytes[at + 1] = b'P';
    refused(bytes, "", "zip-damaged");
}

#[test]
fn an_archive_with_the_old_lock_of_zips_or_an_unknown_packing() {
    for (at, value) in [(6, 1), (8, 14)] {
        let mut bytes = zip(&[("notes/a", b"text")]);
        let head = find(&bytes, b"notes/a") - 30;
        bytes[head + at] |= value;
        refused(bytes, "", "zip-method");
    }
}

#[test]
fn the_wrong_passphrase_and_none() {
    let mut donor = three();
    let bytes = made(&mut donor, Whole::Locked);
    refused(
        bytes.clone(),
        "nine small tarns, two becks",
        "backup-wrong-passphrase",
    );
    refused(bytes, "", "backup-wants-passphrase");
}

#[test]
fn a_file_that_is_something_else() {
    refused(b"%PDF-1.7 no backup at all".to_vec(), "", "zip-not-a-zip");
    refused(Vec::new(), "", "zip-not-a-zip");
    let armoured = b"-----BEGIN AGE ENCRYPTED FILE-----\nYWdl\n".to_vec();
    refused(armoured, PASSPHRASE, "backup-armoured");
    let mut other = Zip::new(Vec::new());
    other
        .add("notes.txt", b"of somebody else")
        .expect("written");
    refused(other.finish().expect("written"), "", "backup-not-ours");
}

/// A file of age's first version with this stanza, whose seals are all noughts.
fn locked_by(stanza: &str) -> Vec<u8> {
    let seal = "A".repeat(43);
    let mut file = format!("age-encryption.org/v1\n-> {stanza}\n{seal}\n--- {seal}\n").into_bytes();
    file.extend([0; 64]);
    file
}

#[test]
fn a_file_locked_for_a_key_asking_for_too_much_work_or_of_a_newer_lock() {
    let nought = "A".repeat(43);
    let key = locked_by(&format!("X25519 {nought}"));
    refused(key, PASSPHRASE, "backup-other-key");
    let much = locked_by(&format!("scrypt {} 22", "A".repeat(22)));
    refused(much, PASSPHRASE, "backup-too-much-work");
    let newer = b"age-encryption.org/v2\n-> scrypt x 10\nx\n--- x\n".to_vec();
    refused(newer, PASSPHRASE, "backup-newer-lock");
}

#[test]
fn a_backup_of_a_newer_version() {
    let mut newer = Zip::new(Vec::new());
    let about = br#"{"format":"rakeline-backup","version":9}"#;
    newer.add("rakeline.json", about).expect("written");
    refused(newer.finish().expect("written"), "", "backup-newer");
}

#[test]
fn a_file_that_cannot_be_read_to_its_end() {
    let mut donor = full_phone();
    let bytes = made(&mut donor, Whole::Locked);
    let mut bench = three();
    let before = jobs_of(&bench);
    let file = bench.phone.files.will_choose("backup.age", bytes);
    file.tear_at(0);
    backup(&mut bench, BackupIntent::Choose);
    backup(&mut bench, BackupIntent::KeyTyped(PASSPHRASE.to_owned()));
    backup(&mut bench, BackupIntent::Look);
    assert_eq!(fault(&bench), "backup-not-read");
    assert_eq!(jobs_of(&bench), before);
}

#[test]
fn a_restore_that_is_killed_is_gone_on_with_by_doing_it_again() {
    let mut donor = full_phone();
    let bytes = made(&mut donor, Whole::Open);
    let mut whole = Bench::on(MemoryPlatform::new());
    look(&mut whole, bytes.clone(), "");
    backup(&mut whole, BackupIntent::TakeIn(Brings::Nothing));
    let all = jobs_of(&whole);
    let mut other = Bench::on(MemoryPlatform::new());
    look(&mut other, bytes.clone(), "");
    // Killed after the second job: the rest never comes. The first write
    // notes that it begins, then come jobs as their sheets were issued.
    let broken = rakeline::platform::StorageFault::Refused;
    let records = donor.phone.storage.records();
    let issued = records
        .keys()
        .filter(|key| key.starts_with(KEPT_JOB_PREFIX));
    other.phone.storage.fail_commit(4 + issued.count(), broken);
    backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
    let mut other = other.killed();
    assert_eq!(other.app.unreadable, []);
    assert!(!other.app.jobs.is_empty() && other.app.jobs.len() < whole.app.jobs.len());
    look(&mut other, bytes, "");
    backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
    assert_eq!(jobs_of(&other), all);
}

#[test]
fn an_archive_of_nothing_but_noise_never_stops_the_app() {
    let mut seed = 7_u32;
    let good = zip(&[("jobs/a.json", b"{}"), ("notes/b", &[b'x'; 3_000])]);
    for _ in 0..400 {
        let mut bytes = good.clone();
        for _ in 0..4 {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let at = (seed >> 8) as usize % bytes.len();
            bytes[at] = (seed >> 3) as u8;
        }
        let mut unzip = rakeline::backup::unzip::Unzip::default();
        // An entry that is given is one that was whole.
        let given = bytes.chunks(97).map_while(|piece| unzip.feed(piece).ok());
        for item in given.flatten() {
            let known = ["rakeline.json", "jobs/a.json", "notes/b"];
            assert!(!known.contains(&item.name.as_str()) || is_given(&item.bytes));
        }
    }
}

/// Whether these bytes are one of the entries that went in.
fn is_given(bytes: &[u8]) -> bool {
    [MANIFEST, b"{}", &[b'x'; 3_000][..]].contains(&bytes)
}
