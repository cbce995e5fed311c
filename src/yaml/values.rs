//! The second pass: the values, as serde_yaml reads them, with nothing resolved.

use super::fault::Fault;
use super::places::{self, Bytes};
use crate::text::{Diagnostic, Source, Span};
use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// A value without a place.
#[derive(Debug)]
pub(super) enum Unplaced {
    Null,
    /// A text: quotes, escapes and folded lines are worked off.
    Text(String),
    /// What YAML takes for a number or a truth value: to be read as it is written.
    AsWritten,
    List(Vec<Self>),
    Map(Vec<(Self, Self)>),
}

/// The values of a file whose events have been found harmless.
pub(super) fn read(source: &Source) -> Result<Unplaced, Box<Diagnostic>> {
    serde_yaml::from_str(source.text()).map_err(|error| {
        Box::new(match error.location() {
            Some(at) => {
                let says = error.to_string();
                let says = says.split(" at line ").next().unwrap_or_default();
                places::syntax(source, Bytes::of(source).byte(at.index()), says)
            }
            None => Fault::Syntax { parser_says: error.to_string() }.at(Span::default()),
        })
    })
}

impl<'de> Deserialize<'de> for Unplaced {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AnyValue)
    }
}

struct AnyValue;

macro_rules! as_written {
    ($($visit:ident: $number:ty),*) => { $(fn $visit<E>(self, _: $number) -> Result<Unplaced, E> { Ok(Unplaced::AsWritten) })* };
}

impl<'de> Visitor<'de> for AnyValue {
    type Value = Unplaced;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    as_written!(visit_bool: bool, visit_i64: i64, visit_i128: i128, visit_u64: u64, visit_u128: u128, visit_f64: f64);

    fn visit_str<E>(self, text: &str) -> Result<Unplaced, E> {
        Ok(Unplaced::Text(text.to_owned()))
    }

    fn visit_string<E>(self, text: String) -> Result<Unplaced, E> {
        Ok(Unplaced::Text(text))
    }

    fn visit_unit<E>(self) -> Result<Unplaced, E> {
        Ok(Unplaced::Null)
    }

    fn visit_none<E>(self) -> Result<Unplaced, E> {
        Ok(Unplaced::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Unplaced, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = list.next_element()? {
            items.push(item);
        }
        Ok(Unplaced::List(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Unplaced, A::Error> {
        let mut entries = Vec::new();
        while let Some(entry) = map.next_entry()? {
            entries.push(entry);
        }
        Ok(Unplaced::Map(entries))
    }
}
