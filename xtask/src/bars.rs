//! The lines by which a bench states its figures: `bar FIGURE VALUE <= LIMIT ok`.

use anyhow::{Context, Result, bail};

/// Whether a figure holds its limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bar {
    /// It does.
    Ok,
    /// It does not.
    Short,
}

/// Reads one line; `None` when it states no figure, `Err` when it states one wrongly.
pub fn read(line: &str) -> Option<Result<Bar>> {
    let rest = line.strip_prefix("bar ")?;
    Some(parse(rest).with_context(|| format!("the line '{line}' is not a bar")))
}

fn parse(rest: &str) -> Result<Bar> {
    let words: Vec<&str> = rest.split_whitespace().collect();
    let [_figure, value, relation, limit, verdict] = words.as_slice() else {
        bail!("it wants FIGURE VALUE <= LIMIT ok");
    };
    let number = |word: &str| -> Result<f64> {
        let number: f64 = word
            .parse()
            .with_context(|| format!("'{word}' is no number"))?;
        if !number.is_finite() {
            bail!("'{word}' is no plain number");
        }
        Ok(number)
    };
    let (value, limit) = (number(value)?, number(limit)?);
    let holds = match *relation {
        "<=" => value <= limit,
        ">=" => value >= limit,
        other => bail!("'{other}' is neither <= nor >="),
    };
    match (*verdict, holds) {
        ("ok", true) => Ok(Bar::Ok),
        ("short", false) => Ok(Bar::Short),
        // A value that was rounded onto its limit for printing may still be short of it.
        #[expect(clippy::float_cmp, reason = "the printed numbers are the same")]
        ("short", true) if value == limit => Ok(Bar::Short),
        _ => bail!("'{verdict}' contradicts its numbers"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_hold_or_fall_short() {
        for (line, wanted) in [
            ("bar rake_p95_deg 0.31 <= 0.35 ok", Bar::Ok),
            ("bar coverage_percent 92.1 >= 93 short", Bar::Short),
            ("bar ratio 1.15 <= 1.15 short", Bar::Short),
        ] {
            assert_eq!(read(line).unwrap().unwrap(), wanted, "{line}");
        }
    }

    #[test]
    fn other_lines_are_for_people() {
        assert!(read("mean beside it: 1.3").is_none());
        assert!(read("  bar x 1 <= 2 ok").is_none());
    }

    #[test]
    fn a_wrong_bar_is_not_let_through() {
        for line in [
            "bar first screen 1 <= 2 ok",
            "bar x 3 <= 2 ok",
            "bar x 1 <= 2 short",
            "bar x NaN <= 2 ok",
            "bar x 1 < 2 ok",
            "bar x 1 <= 2 fine",
            "bar x 1 <= 2ms ok",
        ] {
            assert!(read(line).unwrap().is_err(), "{line}");
        }
    }
}
