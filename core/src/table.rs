//! A small table in order of its keys. The standard library's tree map is
//! for thousands of entries and stands anew in the app's module for every
//! type, some 8 kB each; a job's tables have a dozen.

use std::fmt;
use std::marker::PhantomData;

use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Values by key, in order of key; stored as a group.
#[derive(Clone, PartialEq, Eq)]
pub struct Table<K, V>(Vec<(K, V)>);

impl<K: Ord, V> Table<K, V> {
    /// A table with nothing in it.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// Where a key stands, or where it would.
    fn place(&self, key: &K) -> Result<usize, usize> {
        self.0.binary_search_by(|(other, _)| other.cmp(key))
    }

    /// The value of a key.
    #[must_use]
    pub fn get(&self, key: &K) -> Option<&V> {
        let at = self.place(key).ok()?;
        self.0.get(at).map(|(_, value)| value)
    }

    /// Whether a key has a value.
    #[must_use]
    pub fn contains_key(&self, key: &K) -> bool {
        self.place(key).is_ok()
    }

    /// Puts a value; gives back the one that stood there.
    pub fn insert(&mut self, key: K, value: V) -> Option<V> {
        match self.place(&key) {
            Ok(at) => Some(std::mem::replace(&mut self.0[at].1, value)),
            Err(at) => {
                self.0.insert(at, (key, value));
                None
            }
        }
    }

    /// Takes a value out.
    pub fn remove(&mut self, key: &K) -> Option<V> {
        let at = self.place(key).ok()?;
        Some(self.0.remove(at).1)
    }

    /// The value of a key, put there if there is none.
    pub fn or_default(&mut self, key: K) -> &mut V
    where
        V: Default,
    {
        let at = self.place(&key).unwrap_or_else(|at| {
            self.0.insert(at, (key, V::default()));
            at
        });
        &mut self.0[at].1
    }
}

impl<K, V> Table<K, V> {
    /// How many entries there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Takes everything out.
    pub fn clear(&mut self) {
        self.0.clear();
    }

    /// The entries in order of key.
    pub fn iter(&self) -> std::slice::Iter<'_, (K, V)> {
        self.0.iter()
    }

    /// The values in order of key.
    pub fn values(&self) -> impl DoubleEndedIterator<Item = &V> {
        self.0.iter().map(|(_, value)| value)
    }

    /// The values in order of key.
    pub fn into_values(self) -> impl Iterator<Item = V> {
        self.0.into_iter().map(|(_, value)| value)
    }
}

impl<K, V> Default for Table<K, V> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<K: fmt::Debug, V: fmt::Debug> fmt::Debug for Table<K, V> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(to)
    }
}

impl<'a, K, V> IntoIterator for &'a Table<K, V> {
    type Item = &'a (K, V);
    type IntoIter = std::slice::Iter<'a, (K, V)>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl<K: Ord, V> FromIterator<(K, V)> for Table<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(entries: I) -> Self {
        let mut table = Self::new();
        table.extend(entries);
        table
    }
}

impl<K: Ord, V> Extend<(K, V)> for Table<K, V> {
    fn extend<I: IntoIterator<Item = (K, V)>>(&mut self, entries: I) {
        for (key, value) in entries {
            self.insert(key, value);
        }
    }
}

impl<K: Ord, V, const N: usize> From<[(K, V); N]> for Table<K, V> {
    fn from(entries: [(K, V); N]) -> Self {
        entries.into_iter().collect()
    }
}

impl<K: Serialize, V: Serialize> Serialize for Table<K, V> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().map(|(key, value)| (key, value)))
    }
}

impl<'de, K: Ord + Deserialize<'de>, V: Deserialize<'de>> Deserialize<'de> for Table<K, V> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_map(Entries(PhantomData))
    }
}

struct Entries<K, V>(PhantomData<(K, V)>);

impl<'de, K: Ord + Deserialize<'de>, V: Deserialize<'de>> Visitor<'de> for Entries<K, V> {
    type Value = Table<K, V>;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str("a group")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Self::Value, A::Error> {
        let mut table = Table::new();
        while let Some((key, value)) = entries.next_entry()? {
            table.insert(key, value);
        }
        Ok(table)
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::json;

    #[test]
    fn a_table_does_what_a_tree_map_does_and_is_stored_alike() {
        let (mut table, mut map) = (Table::new(), BTreeMap::new());
        let mut seed = 7_u32;
        for step in 0..400_u32 {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let key = u8::try_from(seed >> 27).unwrap();
            match (seed >> 20) % 4 {
                0 => assert_eq!(table.remove(&key), map.remove(&key)),
                1 => assert_eq!(table.or_default(key), map.entry(key).or_default()),
                _ => assert_eq!(table.insert(key, step), map.insert(key, step)),
            }
            assert_eq!(table.get(&key), map.get(&key));
            assert_eq!(table.contains_key(&3), map.contains_key(&3));
            assert!(table.values().eq(map.values()));
            assert_eq!((table.len(), table.is_empty()), (map.len(), map.is_empty()));
        }
        let text = json::write(&table).unwrap();
        assert_eq!(text, json::write(&map).unwrap());
        assert_eq!(json::read(&text), Ok(table.clone()));
        assert_eq!(map.into_iter().collect::<Table<_, _>>(), table);
    }
}
