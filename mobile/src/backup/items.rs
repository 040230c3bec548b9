//! Named bytes one after the other, as page and worker hand them to each
//! other: length of the name, name, length of the bytes, bytes; lengths are
//! 32 bits, little end first.

/// Named bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Name in the archive.
    pub name: String,
    /// What is under it.
    pub bytes: Vec<u8>,
}

/// Adds an item. One of more than 4 GiB, which no phone holds, is cut off
/// and found by its length.
pub fn put(to: &mut Vec<u8>, name: &str, bytes: &[u8]) {
    for part in [name.as_bytes(), bytes] {
        let length = u32::try_from(part.len()).unwrap_or(u32::MAX);
        to.extend(length.to_le_bytes());
        to.extend(part);
    }
}

/// Reads all items; `None` where they do not end as they say.
#[must_use]
pub fn read(mut bytes: &[u8]) -> Option<Vec<Item>> {
    let mut items = Vec::new();
    while !bytes.is_empty() {
        let name = part(&mut bytes)?;
        let name = String::from_utf8(name.to_vec()).ok()?;
        let bytes = part(&mut bytes)?.to_vec();
        items.push(Item { name, bytes });
    }
    Some(items)
}

fn part<'a>(bytes: &mut &'a [u8]) -> Option<&'a [u8]> {
    let (length, rest) = bytes.split_first_chunk::<4>()?;
    let length = usize::try_from(u32::from_le_bytes(*length)).ok()?;
    let (part, rest) = rest.split_at_checked(length)?;
    *bytes = rest;
    Some(part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn items_come_back_and_a_cut_is_found() {
        let mut bytes = Vec::new();
        put(&mut bytes, "jobs/a.json", b"{}");
        put(&mut bytes, "photos/\u{e5}.jpg", &[0; 70_000]);
        let items = read(&bytes).unwrap();
        assert_eq!(items[0].bytes, b"{}");
        assert_eq!(items[1].name, "photos/\u{e5}.jpg");
        assert_eq!(items[1].bytes.len(), 70_000);
        assert_eq!(read(&[]), Some(Vec::new()));
        assert_eq!(read(&bytes[..bytes.len() - 1]), None);
        assert_eq!(read(&bytes[..3]), None);
    }
}
