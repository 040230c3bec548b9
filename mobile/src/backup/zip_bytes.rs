//! Figures and names in the bytes of a zip.

use super::limits::LONGEST_NAME;
use super::zip::UTF8;
use super::zip_fault::ZipFault;

pub(super) fn u16_at(bytes: &[u8], at: usize) -> u16 {
    let two = bytes.get(at..at + 2).and_then(|two| two.try_into().ok());
    two.map_or(0, u16::from_le_bytes)
}

pub(super) fn u32_at(bytes: &[u8], at: usize) -> u32 {
    let four = bytes.get(at..at + 4).and_then(|four| four.try_into().ok());
    four.map_or(0, u32::from_le_bytes)
}

pub(super) fn u64_at(bytes: &[u8], at: usize) -> u64 {
    let eight = bytes
        .get(at..at + 8)
        .and_then(|eight| eight.try_into().ok());
    eight.map_or(0, u64::from_le_bytes)
}

/// Unpacked and packed size where they need 64 bits.
pub(super) fn large_sizes(mut extra: &[u8]) -> Option<(u64, u64)> {
    while extra.len() >= 4 {
        let length = usize::from(u16_at(extra, 2));
        let body = extra.get(4..4 + length)?;
        if u16_at(extra, 0) == 1 && length >= 16 {
            return Some((u64_at(body, 0), u64_at(body, 8)));
        }
        extra = &extra[4 + length..];
    }
    None
}

/// A name that stays inside: plain parts, no way up, no drive, no root.
pub(super) fn plain_name(bytes: &[u8], flags: u16) -> Result<String, ZipFault> {
    let shown = String::from_utf8_lossy(bytes).into_owned();
    let name = String::from_utf8(bytes.to_vec()).map_err(|_| ZipFault::Name(shown.clone()))?;
    let known = name.is_ascii() || flags & UTF8 != 0;
    let bad = |c: char| c.is_control() || matches!(c, '\\' | ':');
    let path = name.strip_suffix('/').unwrap_or(&name);
    let part = |part: &str| !part.is_empty() && part != "." && part != "..";
    if known && name.len() <= LONGEST_NAME && !name.contains(bad) && path.split('/').all(part) {
        Ok(name)
    } else {
        Err(ZipFault::Name(shown.chars().take(LONGEST_NAME).collect()))
    }
}
