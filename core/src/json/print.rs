//! From a value to text.

use serde_json::{Number, Value};

/// Exponents of ten of a first digit that are written out; beyond, with `e`.
const WRITTEN_OUT: std::ops::RangeInclusive<i32> = -5..=15;

/// The text of a value without spaces, keys in order of name.
#[must_use]
pub fn print(value: &Value) -> String {
    let mut text = String::new();
    put(value, None, &mut text);
    text
}

/// The text of a value for people: a line an entry.
#[must_use]
pub fn pretty(value: &Value) -> String {
    let mut text = String::new();
    put(value, Some(0), &mut text);
    text
}

/// `depth` is how far a line is moved in, where lines are wanted.
fn put(value: &Value, depth: Option<usize>, text: &mut String) {
    let inside = depth.map(|depth| depth + 1);
    match value {
        Value::Null => text.push_str("null"),
        Value::Bool(true) => text.push_str("true"),
        Value::Bool(false) => text.push_str("false"),
        Value::Number(number) => put_number(number, text),
        Value::String(string) => put_string(string, text),
        Value::Array(list) => {
            text.push('[');
            for (i, entry) in list.iter().enumerate() {
                begin(i, inside, text);
                put(entry, inside, text);
            }
            end(list.is_empty(), depth, text);
            text.push(']');
        }
        Value::Object(group) => {
            text.push('{');
            for (i, (key, entry)) in group.iter().enumerate() {
                begin(i, inside, text);
                put_string(key, text);
                text.push_str(if depth.is_some() { ": " } else { ":" });
                put(entry, inside, text);
            }
            end(group.is_empty(), depth, text);
            text.push('}');
        }
    }
}

fn begin(entry: usize, depth: Option<usize>, text: &mut String) {
    if entry > 0 {
        text.push(',');
    }
    line(depth, text);
}

fn end(empty: bool, depth: Option<usize>, text: &mut String) {
    if !empty {
        line(depth, text);
    }
}

fn line(depth: Option<usize>, text: &mut String) {
    if let Some(depth) = depth {
        text.push('\n');
        for _ in 0..depth {
            text.push_str("  ");
        }
    }
}

fn put_string(string: &str, text: &mut String) {
    text.push('"');
    for letter in string.chars() {
        let short = match letter {
            '"' => '"',
            '\\' => '\\',
            '\u{8}' => 'b',
            '\u{c}' => 'f',
            '\n' => 'n',
            '\r' => 'r',
            '\t' => 't',
            '\0'..' ' => {
                let digit = |part| char::from_digit(part, 16).unwrap_or('0');
                text.push_str("\\u00");
                text.push(digit(u32::from(letter) / 16));
                text.push(digit(u32::from(letter) % 16));
                continue;
            }
            _ => {
                text.push(letter);
                continue;
            }
        };
        text.push('\\');
        text.push(short);
    }
    text.push('"');
}

fn put_number(number: &Number, text: &mut String) {
    if let Some(whole) = number.as_u64() {
        text.push_str(&whole.to_string());
    } else if let Some(whole) = number.as_i64() {
        text.push_str(&whole.to_string());
    } else {
        put_figure(number.as_f64().unwrap_or_default(), text);
    }
}

/// The shortest text that reads back to the same bits, always with a point
/// or an exponent, so that it stays a figure that is not whole. Standard
/// library only: tables of another printer would weigh more than this.
fn put_figure(figure: f64, text: &mut String) {
    // `d.ddd` and the exponent of its first digit.
    let shortest = format!("{figure:e}");
    let (digits, exponent) = shortest.split_once('e').unwrap_or((&shortest, "0"));
    let exponent: i32 = exponent.parse().unwrap_or(0);
    if WRITTEN_OUT.contains(&exponent) {
        let written = figure.to_string();
        text.push_str(&written);
        if !written.contains('.') {
            text.push_str(".0");
        }
    } else {
        text.push_str(digits);
        text.push('e');
        if exponent >= 0 {
            text.push('+');
        }
        text.push_str(&exponent.to_string());
    }
}
