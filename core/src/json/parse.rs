//! From text to a value.

use serde_json::{Map, Number, Value};

use super::NotJson;
use crate::figure;

/// Lists and groups inside each other; a deeper text is refused.
const DEEPEST: usize = 127;

/// Reads a text of one JSON value.
///
/// # Errors
/// Where it stops being JSON.
pub fn parse(text: &str) -> Result<Value, NotJson> {
    let mut text = Text {
        bytes: text.as_bytes(),
        at: 0,
    };
    let value = text.value(DEEPEST);
    match value {
        Some(value) if text.peek().is_none() => Ok(value),
        _ => Err(text.place()),
    }
}

/// What is read, and how far. A method that gives `None` stands where the
/// text is wrong.
struct Text<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Text<'_> {
    fn place(&self) -> NotJson {
        let end = self.bytes.len().min(self.at + 1);
        let before = &self.bytes[..self.at.min(end)];
        let line_start = before.iter().rposition(|byte| *byte == b'\n');
        NotJson {
            line: 1 + before.iter().filter(|byte| **byte == b'\n').count(),
            column: end - line_start.map_or(0, |at| at + 1),
        }
    }

    fn here(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    /// The next byte that is no space.
    fn peek(&mut self) -> Option<u8> {
        while let Some(b' ' | b'\n' | b'\r' | b'\t') = self.here() {
            self.at += 1;
        }
        self.here()
    }

    /// Steps over one byte if it is the next.
    fn take(&mut self, byte: u8) -> Option<()> {
        (self.here()? == byte).then(|| self.at += 1)
    }

    fn word(&mut self, word: &str, value: Value) -> Option<Value> {
        for byte in word.bytes() {
            self.take(byte)?;
        }
        Some(value)
    }

    fn value(&mut self, deeper: usize) -> Option<Value> {
        match self.peek()? {
            b'{' => self.group(deeper.checked_sub(1)?).map(Value::Object),
            b'[' => self.list(deeper.checked_sub(1)?).map(Value::Array),
            b'"' => self.string().map(Value::String),
            b't' => self.word("true", Value::Bool(true)),
            b'f' => self.word("false", Value::Bool(false)),
            b'n' => self.word("null", Value::Null),
            _ => self.number().map(Value::Number),
        }
    }

    fn group(&mut self, deeper: usize) -> Option<Map<String, Value>> {
        let mut group = Map::new();
        self.at += 1;
        if self.peek()? == b'}' {
            self.at += 1;
            return Some(group);
        }
        loop {
            self.peek()?;
            let key = self.string()?;
            self.peek()?;
            self.take(b':')?;
            group.insert(key, self.value(deeper)?);
            if self.ends(b'}')? {
                return Some(group);
            }
        }
    }

    fn list(&mut self, deeper: usize) -> Option<Vec<Value>> {
        let mut list = Vec::new();
        self.at += 1;
        if self.peek()? == b']' {
            self.at += 1;
            return Some(list);
        }
        loop {
            list.push(self.value(deeper)?);
            if self.ends(b']')? {
                return Some(list);
            }
        }
    }

    /// After an entry: whether the closing mark comes, or a comma.
    fn ends(&mut self, close: u8) -> Option<bool> {
        let next = self.peek()?;
        if next != close && next != b',' {
            return None;
        }
        self.at += 1;
        Some(next == close)
    }

    fn string(&mut self) -> Option<String> {
        self.take(b'"')?;
        let mut text = Vec::new();
        loop {
            match self.here()? {
                b'"' => break,
                b'\\' => {
                    self.at += 1;
                    let letter = self.escaped()?;
                    text.extend_from_slice(letter.encode_utf8(&mut [0; 4]).as_bytes());
                }
                0..0x20 => return None,
                byte => {
                    text.push(byte);
                    self.at += 1;
                }
            }
        }
        self.at += 1;
        String::from_utf8(text).ok()
    }

    fn escaped(&mut self) -> Option<char> {
        let letter = match self.here()? {
            b'b' => '\u{8}',
            b'f' => '\u{c}',
            b'n' => '\n',
            b'r' => '\r',
            b't' => '\t',
            byte @ (b'"' | b'\\' | b'/') => char::from(byte),
            b'u' => {
                self.at += 1;
                return self.unit_pair();
            }
            _ => return None,
        };
        self.at += 1;
        Some(letter)
    }

    /// The letter of one unit of four digits, or of two that belong together.
    fn unit_pair(&mut self) -> Option<char> {
        let first = self.unit()?;
        if !(0xD800..0xDC00).contains(&first) {
            return char::from_u32(first);
        }
        self.take(b'\\')?;
        self.take(b'u')?;
        let second = self.unit()?.checked_sub(0xDC00)?;
        if second >= 0x400 {
            return None;
        }
        char::from_u32(0x1_0000 + ((first - 0xD800) << 10) + second)
    }

    fn unit(&mut self) -> Option<u32> {
        let mut unit = 0;
        for _ in 0..4 {
            unit = unit * 16 + char::from(self.here()?).to_digit(16)?;
            self.at += 1;
        }
        Some(unit)
    }

    /// Whole where it is written so and fits, else the nearest `f64`.
    fn number(&mut self) -> Option<Number> {
        let start = self.at;
        let minus = self.take(b'-').is_some();
        if self.take(b'0').is_none() {
            self.digits()?;
        }
        let whole = self.at;
        if self.take(b'.').is_some() {
            self.digits()?;
        }
        if let Some(b'e' | b'E') = self.here() {
            self.at += 1;
            if let Some(b'+' | b'-') = self.here() {
                self.at += 1;
            }
            self.digits()?;
        }
        let text = std::str::from_utf8(&self.bytes[start..self.at]).ok()?;
        if self.at == whole {
            if let Ok(number) = text.parse::<u64>() {
                return Some(number.into());
            }
            if let (true, Ok(number)) = (minus && text != "-0", text.parse::<i64>()) {
                return Some(number.into());
            }
        }
        Number::from_f64(figure::read(text)?)
    }

    /// One digit at least.
    fn digits(&mut self) -> Option<()> {
        let start = self.at;
        while self.here().is_some_and(|byte| byte.is_ascii_digit()) {
            self.at += 1;
        }
        (self.at > start).then_some(())
    }
}
