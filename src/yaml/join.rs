//! Places and values, joined into one tree.

use super::fault::Fault;
use super::places::{Parts, Place};
use super::values::Unplaced;
use super::{Entry, Node, Value};
use crate::text::{Faults, Source};

/// The located tree; a place where the two passes do not agree becomes a fault, and the tree has nothing there.
pub(super) fn join(source: &Source, place: Place, value: Unplaced, faults: &mut Faults) -> Option<Node> {
    let Place { span, parts } = place;
    let value = match (parts, value) {
        (Parts::Scalar, Unplaced::Null) => Value::Null,
        (Parts::Scalar, Unplaced::Text(text)) => Value::Scalar(text),
        (Parts::Scalar, Unplaced::AsWritten) => Value::Scalar(source.at(span).trim().to_owned()),
        (Parts::List(places), Unplaced::List(values)) if places.len() == values.len() => {
            Value::List(places.into_iter().zip(values).filter_map(|(place, value)| join(source, place, value, faults)).collect())
        }
        (Parts::Map(places), Unplaced::Map(values)) if places.len() == values.len() => {
            let mut entries = Vec::with_capacity(places.len());
            for (key, (_, value)) in places.into_iter().zip(values) {
                if let Some(node) = join(source, key.place, value, faults)
                    && !key.again
                {
                    entries.push(Entry { key: key.key, key_span: key.span, node });
                }
            }
            Value::Map(entries)
        }
        _ => {
            faults.push(Fault::Unclear.at(span));
            return None;
        }
    };
    Some(Node { span, value })
}
