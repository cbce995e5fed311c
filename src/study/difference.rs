//! Where two results documents differ, as JSON: by the names of the things in them, not by their numbers in a list.

use serde_json::Value;

/// A place where two documents differ.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The way to it: `checks, bending span 1, ratio`.
    pub at: String,
    /// What stands there in the first; `nothing` where it is only in the second.
    pub before: String,
    /// What stands there in the second.
    pub after: String,
}

/// Keys by which a thing in a list is known, in the order in which they say it.
const NAMES: [&str; 14] =
    ["mark", "check", "symbol", "name", "id", "table", "cell", "short", "quantity", "what", "case", "combination", "span", "support"];

/// Every place where two documents differ, in the order of the first.
pub fn differences(before: &Value, after: &Value) -> Vec<Difference> {
    let mut found = Vec::new();
    compare(&mut Vec::new(), Some(before), Some(after), &mut found);
    found
}

fn compare(at: &mut Vec<String>, before: Option<&Value>, after: Option<&Value>, found: &mut Vec<Difference>) {
    match (before, after) {
        (Some(a), Some(b)) if a == b || is_noise(a, b) => {}
        (Some(Value::Object(a)), Some(Value::Object(b))) => {
            let only_after = b.keys().filter(|key| !a.contains_key(*key));
            for key in a.keys().chain(only_after) {
                step(at, key.replace('_', " "), a.get(key), b.get(key), found);
            }
        }
        (Some(Value::Array(a)), Some(Value::Array(b))) => lists(at, a, b, found),
        (a, b) => found.push(Difference { at: at.join(", "), before: shown(a), after: shown(b) }),
    }
}

/// Whether both are nought but for last bits, as a diagram is where it begins and ends: no unit that is printed shows so little.
fn is_noise(before: &Value, after: &Value) -> bool {
    matches!((before.as_f64(), after.as_f64()), (Some(a), Some(b)) if a.abs().max(b.abs()) < 1e-9)
}

fn step(at: &mut Vec<String>, name: String, before: Option<&Value>, after: Option<&Value>, found: &mut Vec<Difference>) {
    at.push(name);
    compare(at, before, after, found);
    at.pop();
}

/// Things of the same name are compared, wherever they stand; where a name is not one thing's alone, its first, second … with each other.
fn lists(at: &mut Vec<String>, before: &[Value], after: &[Value], found: &mut Vec<Difference>) {
    let (before, after) = (named(before), named(after));
    let only_after = after.iter().filter(|(name, _)| before.iter().all(|(known, _)| known != name));
    for (name, _) in before.iter().chain(only_after) {
        let thing = |list: &[(String, &Value)]| list.iter().find(|(known, _)| known == name).map(|(_, value)| (*value).clone());
        step(at, name.clone(), thing(&before).as_ref(), thing(&after).as_ref(), found);
    }
}

fn named(list: &[Value]) -> Vec<(String, &Value)> {
    let mut named: Vec<(String, &Value)> = Vec::new();
    for (i, value) in list.iter().enumerate() {
        let name = name(value).unwrap_or_else(|| (i + 1).to_string());
        let same = named.iter().filter(|(known, _)| known == &name || known.starts_with(&format!("{name} ("))).count();
        named.push((if same == 0 { name } else { format!("{name} ({})", same + 1) }, value));
    }
    named
}

/// What a thing is called: `bending span 1`, `support 2`.
fn name(value: &Value) -> Option<String> {
    let entries = value.as_object()?;
    let mut said: Vec<String> = Vec::new();
    for key in NAMES {
        match entries.get(key) {
            Some(Value::String(text)) if said.len() < 2 && !text.is_empty() => said.push(text.replace('_', " ")),
            Some(Value::Number(number)) if matches!(key, "span" | "support") => said.push(format!("{key} {number}")),
            _ => {}
        }
    }
    (!said.is_empty()).then(|| said.join(" "))
}

fn shown(value: Option<&Value>) -> String {
    /// The most letters of a text that are shown.
    const MOST: usize = 60;
    let text = match value {
        None => return "nothing".to_owned(),
        Some(Value::String(text)) => text.clone(),
        Some(Value::Object(entries)) => match (entries.get("value"), entries.get("unit").and_then(Value::as_str)) {
            (Some(number), Some(unit)) => format!("{number} {unit}").trim_end().to_owned(),
            _ => "an entry".to_owned(),
        },
        Some(Value::Array(items)) => format!("{} entries", items.len()),
        Some(plain) => plain.to_string(),
    };
    if text.chars().count() > MOST { text.chars().take(MOST).chain("…".chars()).collect() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_difference_is_told_by_the_names_on_the_way() {
        let before = json!({"checks": [{"check": "bending", "span": 1, "ratio": 0.5}, {"check": "shear", "span": 1, "ratio": 0.2}]});
        let after = json!({"checks": [{"check": "shear", "span": 1, "ratio": 0.3}, {"check": "bending", "span": 1, "ratio": 0.5}]});
        let found = differences(&before, &after);
        assert_eq!(found, [Difference { at: "checks, shear span 1, ratio".into(), before: "0.2".into(), after: "0.3".into() }]);
        assert_eq!(differences(&before, &before), []);
    }

    #[test]
    fn what_stands_on_one_side_only_is_told() {
        let (before, after) = (json!({"notes": ["a", "b"], "x": {"value": 2.5, "unit": "psi"}}), json!({"notes": ["a"]}));
        let found: Vec<String> =
            differences(&before, &after).into_iter().map(|d| format!("{}: {} → {}", d.at, d.before, d.after)).collect();
        assert_eq!(found, ["notes, 2: b → nothing", "x: 2.5 psi → nothing"]);
    }

    #[test]
    fn last_bits_of_nought_are_no_difference() {
        assert_eq!(differences(&json!([4.5e-13, 0.0]), &json!([-4.4e-13, 1e-17])), []);
        assert_eq!(differences(&json!([1e-6]), &json!([0.0])).len(), 1);
    }

    #[test]
    fn things_of_one_name_are_told_apart() {
        let before = json!([{"symbol": "M", "value": 1.0}, {"symbol": "M", "value": 2.0}]);
        let after = json!([{"symbol": "M", "value": 1.0}, {"symbol": "M", "value": 3.0}]);
        assert_eq!(differences(&before, &after).first().map(|d| d.at.clone()), Some("M (2), value".to_owned()));
    }
}
