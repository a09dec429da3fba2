//! Reads a file into a type; what stands against it is a `Fault` with its place, not the reader's own message.

use std::fmt;

use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeOwned, DeserializeSeed, Deserializer, EnumAccess, Error, Expected, IntoDeserializer,
    MapAccess, SeqAccess, Unexpected, VariantAccess, Visitor,
};
use serde_json::{Value, map};

use super::fault::{Fault, Kind, Why};
use super::parse_any;

/// # Errors
/// The first thing that keeps the text from being a `T`: where it stands, and what is allowed there.
pub fn from_json<T: DeserializeOwned>(text: &str) -> Result<T, Fault> {
    T::deserialize(Reader(parse_any(text)?))
}

/// One value of the file. Each error is given its place on the way out.
struct Reader(Value);

struct Fields {
    rest: map::IntoIter,
    next: Option<(String, Value)>,
}

struct Items {
    rest: std::vec::IntoIter<Value>,
    read: usize,
}

/// A name, or a group of one name with what belongs to it.
struct Variant {
    name: String,
    content: Option<Value>,
}

impl Error for Fault {
    fn custom<T: fmt::Display>(_: T) -> Self {
        Fault::at("", Why::NotAllowed)
    }

    fn invalid_type(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        Fault::at("", Why::WrongKind { found: as_written(found), wanted: kind(&wanted.to_string()) })
    }

    fn invalid_value(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        Self::invalid_type(found, wanted)
    }

    fn unknown_variant(found: &str, allowed: &'static [&'static str]) -> Self {
        Fault::at("", Why::NotOneOf { found: found.to_owned(), allowed: owned(allowed) })
    }

    fn unknown_field(field: &str, allowed: &'static [&'static str]) -> Self {
        Fault::at(field, Why::NoSuchField { allowed: owned(allowed) })
    }

    fn missing_field(field: &'static str) -> Self {
        Fault::at(field, Why::Missing)
    }
}

fn owned(names: &[&str]) -> Vec<String> {
    names.iter().map(|&name| name.to_owned()).collect()
}

fn as_written(found: Unexpected<'_>) -> String {
    match found {
        Unexpected::Bool(found) => found.to_string(),
        Unexpected::Unsigned(found) => found.to_string(),
        Unexpected::Signed(found) => found.to_string(),
        Unexpected::Float(found) => found.to_string(),
        Unexpected::Str(found) => format!("\"{found}\""),
        Unexpected::Unit | Unexpected::Option => "null".to_owned(),
        Unexpected::Seq => "[]".to_owned(),
        Unexpected::Char(_)
        | Unexpected::Bytes(_)
        | Unexpected::NewtypeStruct
        | Unexpected::Map
        | Unexpected::Enum
        | Unexpected::UnitVariant
        | Unexpected::NewtypeVariant
        | Unexpected::TupleVariant
        | Unexpected::StructVariant
        | Unexpected::Other(_) => "{}".to_owned(),
    }
}

/// From how a reader names what it wants.
fn kind(wanted: &str) -> Kind {
    match wanted {
        "u8" => Kind::WholeTo(u8::MAX.into()),
        "u16" => Kind::WholeTo(u16::MAX.into()),
        "u32" | "u64" => Kind::NotNegative,
        "f64" => Kind::Figure,
        "a boolean" => Kind::YesNo,
        "a sequence" => Kind::List,
        "a string" => Kind::Text,
        NAME_OR_GROUP => Kind::NameOrGroup,
        _ if wanted.starts_with("enum") || wanted.contains("identifier") => Kind::Text,
        _ => Kind::Object,
    }
}

/// What a visitor expects where a file may hold either: said as [`Kind::NameOrGroup`].
pub const NAME_OR_GROUP: &str = "name-or-group";

impl<'de> Deserializer<'de> for Reader {
    type Error = Fault;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.0 {
            Value::Null => visitor.visit_unit(),
            Value::Bool(found) => visitor.visit_bool(found),
            Value::Number(found) => match (found.as_u64(), found.as_i64()) {
                (Some(found), _) => visitor.visit_u64(found),
                (None, Some(found)) => visitor.visit_i64(found),
                (None, None) => visitor.visit_f64(found.as_f64().unwrap_or(f64::NAN)),
            },
            Value::String(found) => visitor.visit_string(found),
            Value::Array(items) => visitor.visit_seq(Items { rest: items.into_iter(), read: 0 }),
            Value::Object(fields) => visitor.visit_map(Fields { rest: fields.into_iter(), next: None }),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        if self.0.is_null() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    /// By names alone: a list of values in order is not taken.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        if self.0.is_array() {
            return Err(Fault::invalid_type(Unexpected::Seq, &visitor));
        }
        self.deserialize_any(visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        if let Some(name) = self.0.as_str() {
            return visitor.visit_enum(Variant { name: name.to_owned(), content: None });
        }
        let fields = self.0.as_object().filter(|fields| fields.len() == 1);
        let Some((name, content)) = fields.and_then(|fields| fields.iter().next()) else {
            return Err(Fault::at(
                "",
                Why::WrongKind { found: self.0.to_string(), wanted: Kind::NameOrGroup },
            ));
        };
        visitor.visit_enum(Variant { name: name.clone(), content: Some(content.clone()) })
    }

    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct
        seq tuple tuple_struct map identifier ignored_any
    }
}

impl<'de> MapAccess<'de> for Fields {
    type Error = Fault;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Fault> {
        self.next = self.rest.next();
        let name = |(name, _): &(String, Value)| seed.deserialize(text(name));
        self.next.as_ref().map(name).transpose()
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Fault> {
        let (name, value) = self.next.take().unwrap_or_default();
        seed.deserialize(Reader(value)).map_err(|fault| fault.within(&name))
    }
}

impl<'de> SeqAccess<'de> for Items {
    type Error = Fault;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Fault> {
        let Some(item) = self.rest.next() else { return Ok(None) };
        self.read += 1;
        let place = format!("[{}]", self.read - 1);
        seed.deserialize(Reader(item)).map(Some).map_err(|fault| fault.within(&place))
    }
}

impl<'de> EnumAccess<'de> for Variant {
    type Error = Fault;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Fault> {
        seed.deserialize(text(&self.name)).map(|variant| (variant, self))
    }
}

impl Variant {
    fn content(self) -> (String, Reader) {
        (self.name, Reader(self.content.unwrap_or_default()))
    }
}

impl<'de> VariantAccess<'de> for Variant {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        let Some(content) = self.content else { return Ok(()) };
        Err(Fault::at("", Why::WrongKind { found: content.to_string(), wanted: Kind::Text })
            .within(&self.name))
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Fault> {
        let (name, content) = self.content();
        seed.deserialize(content).map_err(|fault| fault.within(&name))
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Fault> {
        let (name, content) = self.content();
        content.deserialize_any(visitor).map_err(|fault| fault.within(&name))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let (name, content) = self.content();
        content.deserialize_struct("", fields, visitor).map_err(|fault| fault.within(&name))
    }
}

fn text(name: &str) -> StrDeserializer<'_, Fault> {
    name.into_deserializer()
}
