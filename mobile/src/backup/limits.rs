//! What a backup may hold. All are our own figures: far above what a
//! workshop has in ten years, far below what a phone can't take.

/// Version of the backup that is written; an earlier one is read for ever.
pub const BACKUP_VERSION: u64 = 1;

/// Most entries of an archive: ten thousand jobs with nineteen photos each.
pub const MOST_ENTRIES: usize = 200_000;

/// Longest name of an entry, bytes.
pub const LONGEST_NAME: usize = 200;

/// Largest entry, bytes: the largest photo that is kept, and room above.
pub const LARGEST_ENTRY: u64 = 72 << 20;

/// Most bytes that an archive may unpack to.
pub const MOST_UNPACKED: u64 = 64 << 30;

/// An entry may unpack to so many times its packed size, beyond
/// [`RATIO_FROM`]. Records of jobs stay below 40.
pub const GREATEST_RATIO: u64 = 200;

/// So many bytes may an entry unpack to from anything, bytes.
pub const RATIO_FROM: u64 = 1 << 20;

/// So many bytes may a whole archive unpack to from anything, bytes; beyond,
/// [`GREATEST_RATIO`] holds for it as well.
pub const ALL_RATIO_FROM: u64 = 16 << 20;

/// Bytes that go between page and worker at a time.
pub const PIECE: usize = 1 << 18;

/// Fewest signs of a passphrase.
pub const SHORTEST_PASSPHRASE: usize = 10;

/// Entry that says what the archive is.
pub const MANIFEST: &str = "rakeline.json";
