//! Counting what the test runner reports.

use std::iter::Sum;

/// Checks that passed and that failed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// Held.
    pub passed: u64,
    /// Did not hold, or could not be tried.
    pub failed: u64,
}

impl Tally {
    /// One check that held.
    pub const PASS: Self = Self {
        passed: 1,
        failed: 0,
    };
    /// One check that did not.
    pub const FAIL: Self = Self {
        passed: 0,
        failed: 1,
    };

    /// Reads one line of the test runner; `None` for lines that count nothing.
    pub fn read(line: &str) -> Option<Self> {
        let counts = line.trim_start().strip_prefix("test result: ")?;
        let number = |unit: &str| {
            counts.split([';', '.']).find_map(|part| {
                let (number, word) = part.trim().split_once(' ')?;
                (word == unit).then(|| number.parse().ok())?
            })
        };
        Some(Self {
            passed: number("passed")?,
            failed: number("failed")?,
        })
    }

    /// Counts a run that ended badly without naming a failed test, such as one that did not
    /// compile or crashed.
    pub fn with_ending(mut self, ended_well: Ending) -> Self {
        if ended_well == Ending::Bad && self.failed == 0 {
            self.failed = 1;
        }
        self
    }
}

/// How a program ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// Exit code zero.
    Good,
    /// Anything else.
    Bad,
}

impl Sum for Tally {
    fn sum<I: Iterator<Item = Self>>(tallies: I) -> Self {
        tallies.fold(Self::default(), |sum, one| Self {
            passed: sum.passed + one.passed,
            failed: sum.failed + one.failed,
        })
    }
}

impl std::fmt::Display for Tally {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} passed, {} failed", self.passed, self.failed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_result_line_counts_passed_and_failed() {
        let line = "test result: FAILED. 12 passed; 3 failed; 0 ignored; 0 measured; 5 filtered out; finished in 0.52s";
        let counted = Tally {
            passed: 12,
            failed: 3,
        };
        assert_eq!(Tally::read(line), Some(counted));
    }

    #[test]
    fn other_lines_count_nothing() {
        for line in [
            "running 3 tests",
            "test it ... ok",
            "12 passed; 0 failed",
            "test result: ok.",
        ] {
            assert_eq!(Tally::read(line), None, "{line}");
        }
    }

    #[test]
    fn a_crash_without_a_failed_test_is_one_failure() {
        assert_eq!(Tally::default().with_ending(Ending::Bad), Tally::FAIL);
        let counted = Tally {
            passed: 4,
            failed: 2,
        };
        assert_eq!(counted.with_ending(Ending::Bad), counted);
        assert_eq!(Tally::PASS.with_ending(Ending::Good), Tally::PASS);
    }

    #[test]
    fn the_sum_reads_as_the_plain_last_line() {
        let sum: Tally = [Tally::PASS, Tally::PASS, Tally::FAIL].into_iter().sum();
        assert_eq!(sum.to_string(), "2 passed, 1 failed");
    }
}
