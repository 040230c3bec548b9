//! A zip that is read from front to back as its bytes come. Everything in it
//! is hostile until it has been read whole: names, sizes, sums, directory.
//!
//! Format: PKWARE, .ZIP File Format Specification (APPNOTE.TXT), version
//! 6.3.10: sections 4.3.7, 4.3.9, 4.3.12, 4.3.14 to 4.3.16, 4.4, 4.5.3.

use std::collections::BTreeMap;

use miniz_oxide::inflate::stream::{InflateState, inflate};
use miniz_oxide::{DataFormat, MZFlush, MZStatus};

use super::items::Item;
use super::limits::{
    ALL_RATIO_FROM, GREATEST_RATIO, LARGEST_ENTRY, MOST_ENTRIES, MOST_UNPACKED, RATIO_FROM,
};
use super::zip::{CENTRAL, DEFLATED, END, END_64, LOCAL, LOCATOR_64, STORED};
use super::zip_bytes::{large_sizes, plain_name, u16_at, u32_at, u64_at};
pub use super::zip_fault::ZipFault;

/// What is known of an entry that was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Seen {
    crc: u32,
    size: u64,
}

/// An entry that is being read.
struct Under {
    name: String,
    /// What the header says; where the sizes follow, all are 0.
    crc: u32,
    packed: u64,
    size: u64,
    follows: bool,
    bytes: Vec<u8>,
    /// Packed bytes read so far.
    read: u64,
    inflate: Option<Box<InflateState>>,
}

enum At {
    Header,
    Body(Box<Under>),
    Descriptor(Box<Under>),
    Directory,
    Over,
}

/// A zip under way.
pub struct Unzip {
    at: At,
    left: Vec<u8>,
    seen: BTreeMap<String, Seen>,
    listed: usize,
    unpacked: u64,
    /// Packed bytes of the entries that are whole.
    packed: u64,
}

impl Default for Unzip {
    fn default() -> Self {
        Self {
            at: At::Header,
            left: Vec::new(),
            seen: BTreeMap::new(),
            listed: 0,
            unpacked: 0,
            packed: 0,
        }
    }
}

/// Whether a step could be made with the bytes that are there.
enum Step {
    /// So many bytes were used; go on.
    Used(usize),
    /// More have to come first.
    Wait,
}

impl Unzip {
    /// Takes the next bytes; gives the entries that are whole now.
    ///
    /// # Errors
    /// Why the archive is refused.
    pub fn feed(&mut self, bytes: &[u8]) -> Result<Vec<Item>, ZipFault> {
        let mut buffer = std::mem::take(&mut self.left);
        buffer.extend(bytes);
        let mut items = Vec::new();
        let mut from = 0;
        while let Step::Used(used) = self.step(&buffer[from..], &mut items)? {
            from += used;
            if from == buffer.len() && !matches!(self.at, At::Body(_)) {
                break;
            }
            if used == 0 && matches!(self.at, At::Over) {
                break;
            }
        }
        buffer.drain(..from);
        self.left = buffer;
        Ok(items)
    }

    /// The file ends here.
    ///
    /// # Errors
    /// When it ends too early, or goes on behind its end.
    pub fn end(&self) -> Result<(), ZipFault> {
        match self.at {
            At::Over if self.left.is_empty() => Ok(()),
            At::Over => Err(ZipFault::Directory),
            At::Header if self.seen.is_empty() && self.left.len() < 4 => Err(ZipFault::NotAZip),
            _ => Err(ZipFault::CutShort),
        }
    }

    fn step(&mut self, bytes: &[u8], items: &mut Vec<Item>) -> Result<Step, ZipFault> {
        match std::mem::replace(&mut self.at, At::Header) {
            At::Header => self.header(bytes),
            At::Body(under) => self.body(under, bytes, items),
            At::Descriptor(under) => self.descriptor(under, bytes, items),
            At::Directory => {
                self.at = At::Directory;
                self.directory(bytes)
            }
            At::Over => {
                self.at = At::Over;
                Ok(Step::Wait)
            }
        }
    }

    fn header(&mut self, bytes: &[u8]) -> Result<Step, ZipFault> {
        if bytes.len() < 4 {
            return Ok(Step::Wait);
        }
        match u32_at(bytes, 0) {
            LOCAL => {}
            CENTRAL | END | END_64 => {
                self.at = At::Directory;
                return Ok(Step::Used(0));
            }
            _ if self.seen.is_empty() => return Err(ZipFault::NotAZip),
            _ => return Err(ZipFault::Directory),
        }
        let length = 30 + usize::from(u16_at(bytes, 26)) + usize::from(u16_at(bytes, 28));
        if bytes.len() < 30 || bytes.len() < length {
            return Ok(Step::Wait);
        }
        let under = self.under(&bytes[..length])?;
        self.at = At::Body(Box::new(under));
        Ok(Step::Used(length))
    }

    /// An entry out of its header, if it may be read at all.
    fn under(&self, head: &[u8]) -> Result<Under, ZipFault> {
        let flags = u16_at(head, 6);
        let method = u16_at(head, 8);
        let name_ends = 30 + usize::from(u16_at(head, 26));
        let name = plain_name(&head[30..name_ends], flags)?;
        if self.seen.contains_key(&name) {
            return Err(ZipFault::Twice(name));
        }
        if self.seen.len() >= MOST_ENTRIES {
            return Err(ZipFault::TooMany);
        }
        let follows = flags & 8 != 0;
        let locked = flags & 0x2041 != 0;
        let known = method == DEFLATED || (method == STORED && !follows);
        if locked || !known {
            return Err(ZipFault::Method(name));
        }
        let (mut packed, mut size) = (u64::from(u32_at(head, 18)), u64::from(u32_at(head, 22)));
        if packed == 0xffff_ffff || size == 0xffff_ffff {
            (size, packed) = large_sizes(&head[name_ends..]).unwrap_or((size, packed));
        }
        if packed > LARGEST_ENTRY || size > LARGEST_ENTRY {
            return Err(ZipFault::TooLarge(name));
        }
        if method == STORED && packed != size {
            return Err(ZipFault::Damaged(name));
        }
        Ok(Under {
            name,
            crc: u32_at(head, 14),
            packed,
            size,
            follows,
            bytes: Vec::new(),
            read: 0,
            inflate: (method == DEFLATED).then(|| InflateState::new_boxed(DataFormat::Raw)),
        })
    }

    fn body(
        &mut self,
        mut under: Box<Under>,
        bytes: &[u8],
        items: &mut Vec<Item>,
    ) -> Result<Step, ZipFault> {
        let bytes = if under.follows {
            bytes
        } else {
            let left = under.packed - under.read;
            &bytes[..bytes.len().min(usize::try_from(left).unwrap_or(usize::MAX))]
        };
        let (used, over) = if under.inflate.is_some() {
            unpack(&mut under, bytes)?
        } else {
            under.bytes.extend(bytes);
            under.read += bytes.len() as u64;
            (bytes.len(), under.read == under.packed)
        };
        let unpacked = self.unpacked.saturating_add(under.bytes.len() as u64);
        if unpacked > MOST_UNPACKED {
            return Err(ZipFault::Bomb(under.name));
        }
        if !over {
            let starved = used == 0;
            if !under.follows && under.read == under.packed {
                return Err(ZipFault::Damaged(under.name));
            }
            self.at = At::Body(under);
            return Ok(if starved {
                Step::Wait
            } else {
                Step::Used(used)
            });
        }
        if under.follows {
            self.at = At::Descriptor(under);
        } else {
            self.whole(*under, items)?;
        }
        Ok(Step::Used(used))
    }

    /// Sum and sizes that follow an entry, with or without their mark, with
    /// sizes of 32 or 64 bits.
    fn descriptor(
        &mut self,
        mut under: Box<Under>,
        bytes: &[u8],
        items: &mut Vec<Item>,
    ) -> Result<Step, ZipFault> {
        // The longest form, and the mark of what comes next.
        const MARK: u32 = 0x0807_4b50;
        if bytes.len() < 24 {
            self.at = At::Descriptor(under);
            return Ok(Step::Wait);
        }
        let mark = if u32_at(bytes, 0) == MARK { 4 } else { 0 };
        under.crc = u32_at(bytes, mark);
        let (read, size) = (under.read, under.bytes.len() as u64);
        let short = (
            u64::from(u32_at(bytes, mark + 4)),
            u64::from(u32_at(bytes, mark + 8)),
        );
        let long = (u64_at(bytes, mark + 4), u64_at(bytes, mark + 12));
        let used = if long == (read, size) {
            mark + 20
        } else if short == (read, size) {
            mark + 12
        } else {
            return Err(ZipFault::Damaged(under.name));
        };
        (under.packed, under.size) = (read, size);
        self.whole(*under, items)?;
        Ok(Step::Used(used))
    }

    /// An entry is read to its end.
    fn whole(&mut self, under: Under, items: &mut Vec<Item>) -> Result<(), ZipFault> {
        let size = under.bytes.len() as u64;
        let sum = crc32fast::hash(&under.bytes);
        if size != under.size || under.read != under.packed || sum != under.crc {
            return Err(ZipFault::Damaged(under.name));
        }
        self.unpacked += size;
        self.packed += under.read;
        if self.unpacked > ALL_RATIO_FROM.max(self.packed.saturating_mul(GREATEST_RATIO)) {
            return Err(ZipFault::Bomb(under.name));
        }
        let seen = Seen { crc: sum, size };
        self.seen.insert(under.name.clone(), seen);
        self.at = At::Header;
        if !under.name.ends_with('/') {
            items.push(Item {
                name: under.name,
                bytes: under.bytes,
            });
        }
        Ok(())
    }

    fn directory(&mut self, bytes: &[u8]) -> Result<Step, ZipFault> {
        if bytes.len() < 4 {
            return Ok(Step::Wait);
        }
        let wanted = match u32_at(bytes, 0) {
            CENTRAL => {
                let parts = [28, 30, 32].map(|at| usize::from(u16_at(bytes, at)));
                if bytes.len() < 46 {
                    46
                } else {
                    46 + parts.iter().sum::<usize>()
                }
            }
            END_64 if bytes.len() < 12 => 12,
            END_64 => {
                let length = usize::try_from(u64_at(bytes, 4)).unwrap_or(usize::MAX);
                if length > 4096 {
                    return Err(ZipFault::Directory);
                }
                12 + length
            }
            LOCATOR_64 => 20,
            END if bytes.len() < 22 => 22,
            END => 22 + usize::from(u16_at(bytes, 20)),
            _ => return Err(ZipFault::Directory),
        };
        if bytes.len() < wanted {
            return Ok(Step::Wait);
        }
        match u32_at(bytes, 0) {
            CENTRAL => self.entry_listed(&bytes[..wanted])?,
            END if self.listed == self.seen.len() => self.at = At::Over,
            END => return Err(ZipFault::Directory),
            _ => {}
        }
        Ok(Step::Used(wanted))
    }

    /// An entry of the directory has to be one that was read.
    fn entry_listed(&mut self, entry: &[u8]) -> Result<(), ZipFault> {
        let name_ends = 46 + usize::from(u16_at(entry, 28));
        let name = plain_name(&entry[46..name_ends], u16_at(entry, 8))?;
        let seen = self.seen.get(&name).ok_or(ZipFault::Directory)?;
        let size = u64::from(u32_at(entry, 24));
        let fits = size == seen.size || size == 0xffff_ffff;
        // A link is no file of a backup.
        let is_link = (u32_at(entry, 38) >> 28) == 0o12 && entry.get(5) == Some(&3);
        self.listed += 1;
        if u32_at(entry, 16) != seen.crc || !fits || is_link || self.listed > self.seen.len() {
            return Err(ZipFault::Directory);
        }
        Ok(())
    }
}

/// Unpacks as far as the bytes go; how many were used, and whether it ended.
fn unpack(under: &mut Under, bytes: &[u8]) -> Result<(usize, bool), ZipFault> {
    let Some(state) = &mut under.inflate else {
        return Ok((0, true));
    };
    let mut out = [0; 16 * 1024];
    let mut used = 0;
    loop {
        let step = inflate(state, &bytes[used..], &mut out, MZFlush::None);
        used += step.bytes_consumed;
        under.read += step.bytes_consumed as u64;
        under.bytes.extend(&out[..step.bytes_written]);
        let size = under.bytes.len() as u64;
        if size > LARGEST_ENTRY {
            return Err(ZipFault::TooLarge(under.name.clone()));
        }
        if size > RATIO_FROM.max(under.read.saturating_mul(GREATEST_RATIO)) {
            return Err(ZipFault::Bomb(under.name.clone()));
        }
        match step.status {
            Ok(MZStatus::StreamEnd) => return Ok((used, true)),
            Ok(_) if step.bytes_consumed == 0 && step.bytes_written == 0 => {
                return Ok((used, false));
            }
            Ok(_) => {}
            Err(miniz_oxide::MZError::Buf) => return Ok((used, false)),
            Err(_) => return Err(ZipFault::Damaged(under.name.clone())),
        }
    }
}
