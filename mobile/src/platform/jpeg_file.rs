//! A JPEG file without what is not its picture: walked from marker to marker
//! to its own end, nothing decoded. Cameras write places beside the pixels,
//! between scans, and as whole further pictures or films behind the end.

/// Start of image, end of image, start of scan (ITU-T T.81, table B.1).
const SOI: u8 = 0xD8;
const EOI: u8 = 0xD9;
const SOS: u8 = 0xDA;
/// A comment.
const COM: u8 = 0xFE;

/// Start-of-frame markers: C0 to CF but C4, C8, CC (ITU-T T.81, table B.1).
pub(super) fn is_frame(marker: u8) -> bool {
    (0xC0..=0xCF).contains(&marker) && !matches!(marker, 0xC4 | 0xC8 | 0xCC)
}

/// Application segments hold what is not the picture; the JFIF header, the
/// colour profile and Adobe's colour transform are needed to show it.
fn keeps(marker: u8, content: &[u8]) -> bool {
    match marker {
        0xE0 => content.starts_with(b"JFIF\0"),
        0xE2 => content.starts_with(b"ICC_PROFILE\0"),
        0xEE => content.starts_with(b"Adobe"),
        0xE1..=0xEF | COM => false,
        _ => true,
    }
}

/// The picture alone, from its begin to its own end. A file that breaks off
/// in its pixels is closed there.
///
/// `None` where no scan begins.
pub(super) fn only_the_picture(bytes: &[u8]) -> Option<Vec<u8>> {
    if !bytes.starts_with(&[0xFF, SOI]) {
        return None;
    }
    let mut clean = Vec::with_capacity(bytes.len());
    clean.extend([0xFF, SOI]);
    let mut at = 2;
    let mut scans = 0_u32;
    while let Some((marker, behind)) = next_marker(bytes, at) {
        if matches!(marker, EOI | SOI) {
            break;
        }
        let Some(segment) = segment(bytes, behind) else {
            break;
        };
        let end = behind + segment.len();
        if keeps(marker, segment.get(2..).unwrap_or_default()) {
            clean.extend([0xFF, marker]);
            clean.extend_from_slice(segment);
        }
        at = end;
        if marker == SOS {
            scans += 1;
            at = scan_end(bytes, end);
            clean.extend_from_slice(bytes.get(end..at)?);
        }
    }
    clean.extend([0xFF, EOI]);
    (scans > 0).then_some(clean)
}

/// The marker at a place, after fill bytes, and the place behind it.
fn next_marker(bytes: &[u8], at: usize) -> Option<(u8, usize)> {
    if *bytes.get(at)? != 0xFF {
        return None;
    }
    let rest = bytes.get(at..)?;
    let filled = rest.iter().position(|byte| *byte != 0xFF)?;
    Some((rest[filled], at + filled + 1))
}

/// A segment with its length, from behind its marker.
fn segment(bytes: &[u8], at: usize) -> Option<&[u8]> {
    let length = bytes.get(at..at + 2)?;
    let length = usize::from(u16::from_be_bytes([length[0], length[1]]));
    (length >= 2).then(|| bytes.get(at..at + length)).flatten()
}

/// Where the codes of a scan end: at the next marker that is neither a
/// stuffed byte nor a restart (ITU-T T.81, B.1.1.5), or at the file's end.
fn scan_end(bytes: &[u8], from: usize) -> usize {
    let mut at = from;
    while let Some(found) = bytes
        .get(at..)
        .and_then(|rest| rest.iter().position(|b| *b == 0xFF))
    {
        at += found;
        match bytes.get(at + 1) {
            Some(0 | 0xD0..=0xD7) => at += 2,
            Some(0xFF) => at += 1,
            Some(_) => return at,
            None => return at,
        }
    }
    bytes.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(marker: u8, content: &[u8]) -> Vec<u8> {
        let mut part = vec![0xFF, marker];
        part.extend(u16::try_from(content.len() + 2).unwrap().to_be_bytes());
        part.extend(content);
        part
    }

    const HEAD: [u8; 2] = [0xFF, SOI];
    const END: [u8; 2] = [0xFF, EOI];

    #[test]
    fn restarts_and_stuffed_bytes_are_the_scans_own() {
        let scan = [1, 0xFF, 0, 2, 0xFF, 0xD3, 3, 0xFF, 0xFF, 0xD4, 4];
        let file = [&HEAD[..], &part(SOS, b"scan"), &scan, &END].concat();
        assert_eq!(only_the_picture(&file), Some(file));
    }

    #[test]
    fn tags_between_scans_go_and_tables_stay() {
        let first = [&HEAD[..], &part(SOS, b"one"), &[7, 7]].concat();
        let second = [&part(0xC4, b"codes")[..], &part(SOS, b"two"), &[8], &END].concat();
        let tags = [part(0xE1, b"Exif GPS"), part(COM, b"GPS")].concat();
        let file = [&first[..], &tags, &second].concat();
        assert_eq!(only_the_picture(&file), Some([first, second].concat()));
    }

    #[test]
    fn only_what_shows_the_picture_stays_of_the_application_segments() {
        let jfif = part(0xE0, b"JFIF\0 etc");
        let profile = part(0xE2, b"ICC_PROFILE\0 etc");
        let gone = [
            part(0xE0, b"JFXX\0 small picture"),
            part(0xE2, b"MPF\0 more pictures"),
            part(0xE2, b"FPXR\0"),
            part(0xED, b"Photoshop"),
        ];
        let scan = [&part(SOS, b"scan")[..], &[5], &END].concat();
        let file = [&HEAD[..], &jfif, &gone.concat(), &profile, &scan].concat();
        let wanted = [&HEAD[..], &jfif, &profile, &scan].concat();
        assert_eq!(only_the_picture(&file), Some(wanted));
    }

    #[test]
    fn a_file_that_breaks_off_is_closed_and_never_fails() {
        let scan = [1, 0xFF, 0, 2];
        let file = [
            &HEAD[..],
            &part(0xC0, b"frame"),
            &part(SOS, b"scan"),
            &scan,
            &END,
        ]
        .concat();
        for end in 0..file.len() {
            let found = only_the_picture(&file[..end]);
            assert!(found.is_none_or(|found| found.ends_with(&END)), "{end}");
        }
        // Another picture begins before this one ends.
        let broken = [&file[..file.len() - 2], &HEAD, &part(0xE1, b"GPS")].concat();
        assert_eq!(only_the_picture(&broken), Some(file));
    }
}
