//! Documents of an earlier form, raised to the present one.

use serde_json::{Map, Value, json};

/// A document of any form known, in the present form; one that is not a document of results stays as it is.
///
/// Form 1 had two verdicts: `passes` was whether no check failed, also where nothing had been checked.
pub fn upgraded(mut document: Value) -> Value {
    if let Some(entries) = document.as_object_mut()
        && entries.get("format") == Some(&json!(1))
    {
        entries.insert("format".to_owned(), json!(super::FORMAT));
        verdict(entries);
        let members = entries.get_mut("members").and_then(Value::as_array_mut);
        members.into_iter().flatten().filter_map(Value::as_object_mut).for_each(verdict);
    }
    document
}

/// Puts a verdict in the place of `passes`.
fn verdict(entries: &mut Map<String, Value>) {
    if let Some(passes) = entries.remove("passes") {
        entries.insert("verdict".to_owned(), json!(if passes == json!(true) { "passes" } else { "fails" }));
    }
}
