//! A value read as any type: the one `Deserializer` of the model.

use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;
use serde_json::{Map, Value, map};

use super::Fault;

/// What is read: a value, or the key of a group. One type for both, so that
/// every type has one reader.
#[derive(Clone, Copy)]
pub(super) enum Reader<'de> {
    Value(&'de Value),
    Key(&'de str),
}

impl<'de> Reader<'de> {
    fn text(self) -> Option<&'de str> {
        match self {
            Self::Key(text) => Some(text),
            Self::Value(value) => value.as_str(),
        }
    }

    fn list(self, wanted: &'static str) -> Result<List<'de>, Fault> {
        match self {
            Self::Value(Value::Array(list)) => Ok(List(list)),
            _ => Err(self.is_no(wanted)),
        }
    }

    fn group(self, wanted: &'static str) -> Result<Group<'de>, Fault> {
        match self {
            Self::Value(Value::Object(group)) => Ok(Group::of(group)),
            _ => Err(self.is_no(wanted)),
        }
    }

    /// A whole number; one that is a key is written as text.
    fn whole(self, wanted: &'static str) -> Result<i64, Fault> {
        let whole = match self {
            Self::Value(value) => value.as_i64(),
            Self::Key(text) => text.parse().ok(),
        };
        whole.ok_or_else(|| self.is_no(wanted))
    }

    fn is_no(self, wanted: &'static str) -> Fault {
        let found = match self {
            Self::Key(key) => key,
            Self::Value(Value::Null) => "null",
            Self::Value(Value::Bool(_)) => "a yes or no",
            Self::Value(Value::Number(_)) => "a number",
            Self::Value(Value::String(_)) => "a text",
            Self::Value(Value::Array(_)) => "a list",
            Self::Value(Value::Object(_)) => "a group",
        };
        Fault::new(["invalid type: ", found, ", expected ", wanted].concat())
    }
}

const WHOLE: &str = "a whole number";

macro_rules! whole {
    ($($name:ident)*) => {$(
        fn $name<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
            visitor.visit_i64(self.whole(WHOLE)?)
        }
    )*};
}

macro_rules! text {
    ($($name:ident)*) => {$(
        fn $name<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
            match self.text() {
                Some(text) => visitor.visit_str(text),
                None => Err(self.is_no("a text")),
            }
        }
    )*};
}

impl<'de> Deserializer<'de> for Reader<'de> {
    type Error = Fault;

    /// Only for what takes any value, such as fields of a newer version.
    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self {
            Self::Key(text) => visitor.visit_borrowed_str(text),
            Self::Value(Value::Null) => visitor.visit_unit(),
            Self::Value(Value::Bool(yes)) => visitor.visit_bool(*yes),
            Self::Value(Value::Number(number)) => match (number.as_u64(), number.as_i64()) {
                (Some(whole), _) => visitor.visit_u64(whole),
                (None, Some(whole)) => visitor.visit_i64(whole),
                (None, None) => visitor.visit_f64(number.as_f64().unwrap_or_default()),
            },
            Self::Value(Value::String(text)) => visitor.visit_borrowed_str(text),
            Self::Value(Value::Array(list)) => visitor.visit_seq(List(list)),
            Self::Value(Value::Object(group)) => visitor.visit_map(Group::of(group)),
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self {
            Self::Value(Value::Bool(yes)) => visitor.visit_bool(*yes),
            _ => Err(self.is_no("a yes or no")),
        }
    }

    whole! {
        deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64
        deserialize_u8 deserialize_u16 deserialize_u32
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self {
            Self::Value(Value::Number(number)) => match number.as_u64() {
                Some(whole) => visitor.visit_u64(whole),
                None => Err(self.is_no(WHOLE)),
            },
            _ => visitor.visit_i64(self.whole(WHOLE)?),
        }
    }

    fn deserialize_f32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_f64(visitor)
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self {
            Self::Value(Value::Number(number)) => {
                visitor.visit_f64(number.as_f64().unwrap_or_default())
            }
            _ => Err(self.is_no("a number")),
        }
    }

    text! { deserialize_char deserialize_str deserialize_string deserialize_identifier }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self {
            Self::Value(Value::Null) => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_seq(self.list("a list")?)
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let list = self.list("a list")?;
        list.must_be(length)?;
        visitor.visit_seq(list)
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_map(self.group("a group")?)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_map(self.group(name)?)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_enum(self.choice(name)?)
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! { i128 u128 bytes byte_buf unit unit_struct }
}

impl<'de> Reader<'de> {
    /// One of several: its name alone, or a group of one with what it holds.
    fn choice(self, wanted: &'static str) -> Result<Choice<'de>, Fault> {
        if let Some(name) = self.text() {
            return Ok(Choice { name, holds: None });
        }
        match self {
            Self::Value(Value::Object(group)) if group.len() == 1 => group
                .iter()
                .next()
                .map(|(name, holds)| Choice {
                    name,
                    holds: Some(holds),
                })
                .ok_or_else(|| self.is_no(wanted)),
            _ => Err(self.is_no(wanted)),
        }
    }
}

struct List<'de>(&'de [Value]);

impl List<'_> {
    fn must_be(&self, length: usize) -> Result<(), Fault> {
        if self.0.len() == length {
            Ok(())
        } else {
            Err(Fault::new(format!(
                "invalid length {}, expected {length}",
                self.0.len()
            )))
        }
    }
}

impl<'de> SeqAccess<'de> for List<'de> {
    type Error = Fault;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Fault> {
        match self.0 {
            [] => Ok(None),
            [first, rest @ ..] => {
                self.0 = rest;
                seed.deserialize(Reader::Value(first)).map(Some)
            }
        }
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.0.len())
    }
}

struct Group<'de> {
    entries: map::Iter<'de>,
    value: &'de Value,
}

impl<'de> Group<'de> {
    fn of(group: &'de Map<String, Value>) -> Self {
        Self {
            entries: group.iter(),
            value: &Value::Null,
        }
    }

    /// The next key; its value is kept for the call that follows.
    fn key(&mut self) -> Option<Reader<'de>> {
        let (key, value) = self.entries.next()?;
        self.value = value;
        Some(Reader::Key(key))
    }
}

impl<'de> MapAccess<'de> for Group<'de> {
    type Error = Fault;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Fault> {
        match self.key() {
            Some(key) => seed.deserialize(key).map(Some),
            None => Ok(None),
        }
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Fault> {
        seed.deserialize(Reader::Value(self.value))
    }
}

#[derive(Clone, Copy)]
struct Choice<'de> {
    name: &'de str,
    holds: Option<&'de Value>,
}

impl<'de> Choice<'de> {
    fn held(self) -> Result<Reader<'de>, Fault> {
        match self.holds {
            Some(value) => Ok(Reader::Value(value)),
            None => Err(Fault::new(format!("{} holds nothing", self.name))),
        }
    }
}

impl<'de> EnumAccess<'de> for Choice<'de> {
    type Error = Fault;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Fault> {
        Ok((seed.deserialize(Reader::Key(self.name))?, self))
    }
}

impl<'de> VariantAccess<'de> for Choice<'de> {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        match self.holds {
            None | Some(Value::Null) => Ok(()),
            Some(_) => Err(Fault::new(format!("{} holds too much", self.name))),
        }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Fault> {
        seed.deserialize(self.held()?)
    }

    fn tuple_variant<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        self.held()?.deserialize_tuple(length, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.held()?.deserialize_map(visitor)
    }
}
