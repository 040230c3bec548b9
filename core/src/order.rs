//! Short lists in order. The standard library's sort is fast on long lists
//! and stands anew in the app's module for every type that is sorted, some
//! 5 kB each; a dozen entries do not need it.

use std::cmp::Ordering;

/// Puts a list in order; equal entries stay as they stand.
pub fn sort_by<T>(list: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    let mut from = merged(0, list.len(), &|a, b| compare(&list[a], &list[b]));
    for to in 0..from.len() {
        // What stood there may have been put elsewhere on the way.
        while from[to] < to {
            from[to] = from[from[to]];
        }
        list.swap(to, from[to]);
    }
}

/// Puts a list in order of a key; equal entries stay as they stand.
pub fn sort_by_key<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    sort_by(list, |a, b| key(a).cmp(&key(b)));
}

/// The places of a stretch in order of what stands there.
fn merged(start: usize, length: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    if length < 2 {
        return (start..start + length).collect();
    }
    let half = length / 2;
    let left = merged(start, half, compare);
    let right = merged(start + half, length - half, compare);
    let (mut left, mut right) = (left.into_iter().peekable(), right.into_iter().peekable());
    let mut all = Vec::with_capacity(length);
    while let (Some(a), Some(b)) = (left.peek(), right.peek()) {
        let next = if compare(*a, *b) == Ordering::Greater {
            right.next()
        } else {
            left.next()
        };
        all.extend(next);
    }
    all.extend(left.chain(right));
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_comes_in_order_as_the_standard_library_puts_it() {
        let mut seed = 1_u32;
        for length in 0..60 {
            let mut list: Vec<(u32, usize)> = (0..length)
                .map(|at| {
                    seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    (seed >> 28, at)
                })
                .collect();
            let mut want = list.clone();
            want.sort_by_key(|(key, _)| *key);
            sort_by_key(&mut list, |(key, _)| *key);
            assert_eq!(list, want);
            want.sort_by_key(|(key, _)| std::cmp::Reverse(*key));
            sort_by(&mut list, |a, b| b.0.cmp(&a.0));
            assert_eq!(list, want);
        }
    }
}
