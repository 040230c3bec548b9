//! What a text is recognised by.

/// Sixty-four bits that another text hardly ever has: FNV-1a (Fowler, Noll,
/// Vo; offset basis and prime as published by its authors). It finds damage,
/// not forgery.
#[must_use]
pub fn sum(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |sum, byte| {
        (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sums_that_its_authors_publish_come_out() {
        assert_eq!(sum(""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(sum("a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(sum("foobar"), 0x8594_4171_f739_67e8);
    }
}
