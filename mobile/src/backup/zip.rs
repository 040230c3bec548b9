//! A zip that is written from front to back, whole entries at a time.
//!
//! Format: PKWARE, .ZIP File Format Specification (APPNOTE.TXT), version
//! 6.3.10: sections 4.3.7, 4.3.12, 4.3.14 to 4.3.16, 4.4, 4.5.3.

use std::io::{self, Write};

/// Marks: local header, directory entry, the three ends of the directory.
pub(super) const LOCAL: u32 = 0x0403_4b50;
pub(super) const CENTRAL: u32 = 0x0201_4b50;
pub(super) const END_64: u32 = 0x0606_4b50;
pub(super) const LOCATOR_64: u32 = 0x0706_4b50;
pub(super) const END: u32 = 0x0605_4b50;

/// Methods.
pub(super) const STORED: u16 = 0;
pub(super) const DEFLATED: u16 = 8;
/// The name is UTF-8.
pub(super) const UTF8: u16 = 1 << 11;
/// 1 January 1980: the archive says nothing of the phone's clock.
const DAY: u16 = 0x21;
/// A file that everybody may read, as systems with such rights note it.
const RIGHTS: u32 = 0o100_644 << 16;
/// Level of packing: quick, for texts shrink well anyway.
const LEVEL: u8 = 4;

struct Entry {
    name: String,
    method: u16,
    crc: u32,
    packed: u32,
    size: u32,
    at: u64,
}

/// A zip under way.
pub struct Zip<W> {
    to: W,
    at: u64,
    entries: Vec<Entry>,
}

fn too_large() -> io::Error {
    io::Error::new(io::ErrorKind::InvalidInput, "an entry of more than 4 GiB")
}

impl<W: Write> Zip<W> {
    /// An empty zip.
    pub fn new(to: W) -> Self {
        Self {
            to,
            at: 0,
            entries: Vec::new(),
        }
    }

    fn put(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.at += bytes.len() as u64;
        self.to.write_all(bytes)
    }

    /// Adds an entry; it is packed where that makes it smaller.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn add(&mut self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let packed = packs(name).then(|| miniz_oxide::deflate::compress_to_vec(bytes, LEVEL));
        let packed = packed.filter(|packed| packed.len() < bytes.len());
        let (method, body) = match &packed {
            Some(packed) => (DEFLATED, packed.as_slice()),
            None => (STORED, bytes),
        };
        let length = |bytes: &[u8]| u32::try_from(bytes.len()).map_err(|_| too_large());
        let entry = Entry {
            name: name.to_owned(),
            method,
            crc: crc32fast::hash(bytes),
            packed: length(body)?,
            size: length(bytes)?,
            at: self.at,
        };
        let mut head = Vec::new();
        head.extend(LOCAL.to_le_bytes());
        head.extend(common(&entry, 20)?);
        head.extend(0_u16.to_le_bytes());
        head.extend(name.as_bytes());
        self.put(&head)?;
        self.put(body)?;
        self.entries.push(entry);
        Ok(())
    }

    /// Writes the directory.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn finish(mut self) -> io::Result<W> {
        let start = self.at;
        let entries = std::mem::take(&mut self.entries);
        for entry in &entries {
            self.put(&directory_entry(entry)?)?;
        }
        let size = self.at - start;
        let count = entries.len() as u64;
        let mut end = Vec::new();
        let large = count >= 0xffff || start >= 0xffff_ffff || size >= 0xffff_ffff;
        if large {
            end.extend(END_64.to_le_bytes());
            end.extend(44_u64.to_le_bytes());
            end.extend([45, 3, 45, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
            for figure in [count, count, size, start] {
                end.extend(figure.to_le_bytes());
            }
            end.extend(LOCATOR_64.to_le_bytes());
            end.extend(0_u32.to_le_bytes());
            end.extend(self.at.to_le_bytes());
            end.extend(1_u32.to_le_bytes());
        }
        let short = |figure: u64| u16::try_from(figure).unwrap_or(u16::MAX).to_le_bytes();
        let long = |figure: u64| u32::try_from(figure).unwrap_or(u32::MAX).to_le_bytes();
        end.extend(END.to_le_bytes());
        end.extend([0; 4]);
        end.extend(short(count));
        end.extend(short(count));
        end.extend(long(size));
        end.extend(long(start));
        end.extend([0; 2]);
        self.put(&end)?;
        Ok(self.to)
    }
}

/// Photos and PDFs are packed already.
fn packs(name: &str) -> bool {
    !(name.ends_with(".jpg")
        || name.ends_with(".png")
        || name.ends_with(".webp")
        || name.ends_with(".pdf"))
}

/// What local header and directory entry have in common, from the version
/// that is needed to the length of the name.
fn common(entry: &Entry, version: u16) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    for figure in [version, UTF8, entry.method, 0, DAY] {
        bytes.extend(figure.to_le_bytes());
    }
    for figure in [entry.crc, entry.packed, entry.size] {
        bytes.extend(figure.to_le_bytes());
    }
    let name = u16::try_from(entry.name.len()).map_err(|_| too_large())?;
    bytes.extend(name.to_le_bytes());
    Ok(bytes)
}

fn directory_entry(entry: &Entry) -> io::Result<Vec<u8>> {
    let far = u32::try_from(entry.at).is_err() || entry.at == u64::from(u32::MAX);
    let mut extra = Vec::new();
    if far {
        extra.extend(1_u16.to_le_bytes());
        extra.extend(8_u16.to_le_bytes());
        extra.extend(entry.at.to_le_bytes());
    }
    let mut bytes = Vec::new();
    bytes.extend(CENTRAL.to_le_bytes());
    // Written by a system with Unix rights.
    bytes.extend([45, 3]);
    bytes.extend(common(entry, if far { 45 } else { 20 })?);
    bytes.extend((extra.len() as u16).to_le_bytes());
    bytes.extend([0; 6]);
    bytes.extend(RIGHTS.to_le_bytes());
    let at = u32::try_from(entry.at).unwrap_or(u32::MAX);
    bytes.extend(at.to_le_bytes());
    bytes.extend(entry.name.as_bytes());
    bytes.extend(extra);
    Ok(bytes)
}
