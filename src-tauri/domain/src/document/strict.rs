//! JSON in which a field given twice is a fault: the reader would silently take the last one.

use std::fmt;

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};

pub(super) struct Strict(pub(super) Value);

impl<'de> Deserialize<'de> for Strict {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(AnyValue).map(Strict)
    }
}

struct AnyValue;

impl<'de> Visitor<'de> for AnyValue {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, found: bool) -> Result<Value, E> {
        Ok(Value::Bool(found))
    }

    fn visit_u64<E: Error>(self, found: u64) -> Result<Value, E> {
        Ok(Value::Number(found.into()))
    }

    fn visit_i64<E: Error>(self, found: i64) -> Result<Value, E> {
        Ok(Value::Number(found.into()))
    }

    fn visit_f64<E: Error>(self, found: f64) -> Result<Value, E> {
        Ok(Number::from_f64(found).map_or(Value::Null, Value::Number))
    }

    fn visit_str<E: Error>(self, found: &str) -> Result<Value, E> {
        Ok(Value::String(found.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(Strict(item)) = items.next_element()? {
            list.push(item);
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut fields: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some((name, Strict(value))) = fields.next_entry::<String, Strict>()? {
            if map.insert(name, value).is_some() {
                return Err(A::Error::custom("repeated field"));
            }
        }
        Ok(Value::Object(map))
    }
}
