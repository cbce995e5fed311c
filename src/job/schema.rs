//! The JSON Schema of the job file, made from the table of keys.

use super::keys::{Key, Kind, Need, Part};
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// The JSON Schema (draft 2020-12) of the job file, for editors.
///
/// It says less than the reader checks: units, names and places are the reader's.
pub fn schema() -> Value {
    let mut parts = BTreeSet::from([Part::File]);
    let mut waiting = vec![Part::File];
    let mut definitions = Map::new();
    while let Some(part) = waiting.pop() {
        definitions.insert(part.name().to_owned(), map(part));
        for key in part.keys() {
            for inner in named_in(key.kind) {
                if parts.insert(inner) {
                    waiting.push(inner);
                }
            }
        }
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "latewood job file",
        "$ref": reference(Part::File),
        "$defs": definitions,
    })
}

fn reference(part: Part) -> String {
    format!("#/$defs/{}", part.name())
}

fn named_in(kind: Kind) -> Vec<Part> {
    match kind {
        Kind::Map(part) => vec![part],
        Kind::List(of) | Kind::Named(of) => named_in(*of),
        Kind::Either(kinds) => kinds.iter().flat_map(|kind| named_in(*kind)).collect(),
        _ => Vec::new(),
    }
}

fn map(part: Part) -> Value {
    let properties: Map<String, Value> = part.keys().map(|key| (key.name.to_owned(), property(key))).collect();
    let required: Vec<&str> = part.keys().filter(|key| key.need == Need::Needed).map(|key| key.name).collect();
    json!({"type": "object", "additionalProperties": false, "properties": properties, "required": required})
}

fn property(key: &Key) -> Value {
    let mut words = key.words.to_owned();
    match key.need {
        Need::Default(taken) => words.push_str(&format!(" Left out: {taken}.")),
        Need::Later => words.push_str(" Not covered yet."),
        Need::Needed | Need::Optional => {}
    }
    let only: Vec<&str> = key.codes.iter().map(|code| code.word()).chain(key.uses.iter().map(|role| role.word())).collect();
    if !only.is_empty() {
        words.push_str(&format!(" Only for {}.", only.join(", ")));
    }
    let mut property = value(key.kind);
    if key.may_be_empty {
        property = json!({"anyOf": [property, {"type": "null"}]});
    }
    property["description"] = Value::String(words);
    property
}

fn value(kind: Kind) -> Value {
    match kind {
        // What a person writes as a text may be a number to YAML: `number: 26`.
        Kind::Text => json!({"type": ["string", "number", "boolean"]}),
        Kind::Nothing => json!({"type": "null"}),
        Kind::Number => json!({"type": ["number", "string"]}),
        Kind::Whole => json!({"type": "integer"}),
        Kind::YesNo => json!({"enum": [true, false, "yes", "no"]}),
        Kind::Date => json!({"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}),
        Kind::Word(words) => {
            let mut known: Vec<Value> = words.iter().map(|word| json!(word)).collect();
            known.extend(words.iter().filter_map(|word| word.parse::<u32>().ok()).map(|number| json!(number)));
            json!({"enum": known})
        }
        Kind::Quantity(_) | Kind::Angle | Kind::Temperature | Kind::Slope | Kind::Limit | Kind::Place => {
            json!({"type": "string", "title": kind.words()})
        }
        Kind::Map(part) => json!({"$ref": reference(part)}),
        Kind::List(of) => json!({"type": "array", "items": value(*of)}),
        Kind::Named(of) => json!({"type": "object", "additionalProperties": value(*of)}),
        Kind::Either(kinds) => json!({"anyOf": kinds.iter().map(|kind| value(*kind)).collect::<Vec<_>>()}),
    }
}
