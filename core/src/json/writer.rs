//! Any type written into a value: the one `Serializer` of the model.

use serde::Serialize;
use serde::ser::{
    SerializeMap, SerializeSeq, SerializeStruct, SerializeStructVariant, SerializeTuple,
    SerializeTupleStruct, SerializeTupleVariant, Serializer,
};
use serde_json::{Map, Value};

use super::Fault;

type Done = Result<(), Fault>;

/// Writes into the place of a value.
pub(super) struct Writer<'a>(pub(super) &'a mut Value);

impl<'a> Writer<'a> {
    fn put(self, value: impl Into<Value>) -> Done {
        *self.0 = value.into();
        Ok(())
    }

    fn list(self) -> List<'a> {
        *self.0 = Value::Array(Vec::new());
        List(self.0)
    }

    fn group(self) -> Group<'a> {
        *self.0 = Value::Object(Map::new());
        Group {
            place: self.0,
            key: String::new(),
        }
    }

    /// The place of what a variant holds.
    fn under(self, variant: &'static str) -> Writer<'a> {
        *self.0 = Value::Object(Map::new());
        Writer(place(self.0, variant.to_owned()))
    }
}

/// The place of a key in a group.
fn place(group: &mut Value, key: String) -> &mut Value {
    match group {
        Value::Object(map) => map.entry(key).or_insert(Value::Null),
        other => other,
    }
}

impl<'a> Serializer for Writer<'a> {
    type Ok = ();
    type Error = Fault;
    type SerializeSeq = List<'a>;
    type SerializeTuple = List<'a>;
    type SerializeTupleStruct = List<'a>;
    type SerializeTupleVariant = List<'a>;
    type SerializeMap = Group<'a>;
    type SerializeStruct = Group<'a>;
    type SerializeStructVariant = Group<'a>;

    fn serialize_bool(self, value: bool) -> Done {
        self.put(value)
    }

    fn serialize_i8(self, value: i8) -> Done {
        self.serialize_i64(value.into())
    }

    fn serialize_i16(self, value: i16) -> Done {
        self.serialize_i64(value.into())
    }

    fn serialize_i32(self, value: i32) -> Done {
        self.serialize_i64(value.into())
    }

    fn serialize_i64(self, value: i64) -> Done {
        self.put(value)
    }

    fn serialize_u8(self, value: u8) -> Done {
        self.serialize_u64(value.into())
    }

    fn serialize_u16(self, value: u16) -> Done {
        self.serialize_u64(value.into())
    }

    fn serialize_u32(self, value: u32) -> Done {
        self.serialize_u64(value.into())
    }

    fn serialize_u64(self, value: u64) -> Done {
        self.put(value)
    }

    fn serialize_f32(self, value: f32) -> Done {
        self.put(value)
    }

    fn serialize_f64(self, value: f64) -> Done {
        self.put(value)
    }

    fn serialize_char(self, value: char) -> Done {
        self.put(value.to_string())
    }

    fn serialize_str(self, value: &str) -> Done {
        self.put(value)
    }

    fn serialize_bytes(self, _: &[u8]) -> Done {
        Err(Fault::new("bytes do not go into a record"))
    }

    fn serialize_none(self) -> Done {
        self.serialize_unit()
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Done {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Done {
        self.put(Value::Null)
    }

    fn serialize_unit_struct(self, _: &'static str) -> Done {
        self.serialize_unit()
    }

    fn serialize_unit_variant(self, _: &'static str, _: u32, variant: &'static str) -> Done {
        self.put(variant)
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(self, _: &'static str, value: &T) -> Done {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        value: &T,
    ) -> Done {
        value.serialize(self.under(variant))
    }

    fn serialize_seq(self, _: Option<usize>) -> Result<List<'a>, Fault> {
        Ok(self.list())
    }

    fn serialize_tuple(self, _: usize) -> Result<List<'a>, Fault> {
        Ok(self.list())
    }

    fn serialize_tuple_struct(self, _: &'static str, _: usize) -> Result<List<'a>, Fault> {
        Ok(self.list())
    }

    fn serialize_tuple_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<List<'a>, Fault> {
        Ok(self.under(variant).list())
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Group<'a>, Fault> {
        Ok(self.group())
    }

    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Group<'a>, Fault> {
        Ok(self.group())
    }

    fn serialize_struct_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<Group<'a>, Fault> {
        Ok(self.under(variant).group())
    }
}

/// A list under way.
pub(super) struct List<'a>(&'a mut Value);

impl List<'_> {
    fn add<T: Serialize + ?Sized>(&mut self, value: &T) -> Done {
        let mut entry = Value::Null;
        value.serialize(Writer(&mut entry))?;
        self.push(entry);
        Ok(())
    }

    fn push(&mut self, entry: Value) {
        if let Value::Array(list) = self.0 {
            list.push(entry);
        }
    }
}

/// A group under way.
pub(super) struct Group<'a> {
    place: &'a mut Value,
    key: String,
}

impl Group<'_> {
    fn add<T: Serialize + ?Sized>(&mut self, key: &'static str, value: &T) -> Done {
        value.serialize(Writer(place(self.place, key.to_owned())))
    }
}

macro_rules! lists {
    ($($of:ident $add:ident)*) => {$(
        impl $of for List<'_> {
            type Ok = ();
            type Error = Fault;

            fn $add<T: Serialize + ?Sized>(&mut self, value: &T) -> Done {
                self.add(value)
            }

            fn end(self) -> Done {
                Ok(())
            }
        }
    )*};
}

lists! {
    SerializeSeq serialize_element
    SerializeTuple serialize_element
    SerializeTupleStruct serialize_field
    SerializeTupleVariant serialize_field
}

macro_rules! groups {
    ($($of:ident)*) => {$(
        impl $of for Group<'_> {
            type Ok = ();
            type Error = Fault;

            fn serialize_field<T: Serialize + ?Sized>(
                &mut self,
                key: &'static str,
                value: &T,
            ) -> Done {
                self.add(key, value)
            }

            fn end(self) -> Done {
                Ok(())
            }
        }
    )*};
}

groups! { SerializeStruct SerializeStructVariant }

impl SerializeMap for Group<'_> {
    type Ok = ();
    type Error = Fault;

    fn serialize_key<T: Serialize + ?Sized>(&mut self, key: &T) -> Done {
        let mut written = Value::Null;
        key.serialize(Writer(&mut written))?;
        self.key = match written {
            Value::String(text) => text,
            Value::Number(_) | Value::Bool(_) => super::print(&written),
            _ => return Err(Fault::new("key must be a text")),
        };
        Ok(())
    }

    fn serialize_value<T: Serialize + ?Sized>(&mut self, value: &T) -> Done {
        let key = std::mem::take(&mut self.key);
        value.serialize(Writer(place(self.place, key)))
    }

    fn end(self) -> Done {
        Ok(())
    }
}
