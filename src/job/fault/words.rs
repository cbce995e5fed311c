//! Parts of what faults say.

/// What a code says in place of a key of another's.
pub(super) fn instead(key: &str, value: &str, code: &str) -> Option<&'static str> {
    Some(match (key, code) {
        ("species" | "grade", "european") => "write a strength class in its place: `material: {class: C24}`",
        ("combination", "european") => "write a strength class in its place: `material: {class: GL24h}`",
        ("moisture", "european") => "write `service-class: 1` (dry, heated), `2` (under roof) or `3` (wet) in its place",
        ("method", "european") => "leave it out: design is by partial factors",
        ("class", "american") if value.starts_with("GL") => {
            "write a combination or stress class of glued timber in its place: `material: {combination: 24F-1.8E}`"
        }
        ("class", "american") => "write species and grade in its place: `material: {species: Hem-Fir, grade: No.2}`",
        ("service-class", "american") if value == "3" => "write `moisture: wet` in its place",
        ("service-class", "american") => "write `moisture: dry` in its place, or `wet` where the wood is above 19 % for long",
        ("instant" | "final" | "net-final", "american") => "write `total` in its place, and `live` for the transient loads alone",
        ("use-category" | "country" | "expressions" | "snow-altitude", "american") => {
            "leave it out: the american combinations do not ask for it"
        }
        ("floor", "american") => "leave it out: vibration has no rule in the american code",
        _ => return None,
    })
}

/// Words in a row; a few of many.
pub(super) fn quoted(words: &[String]) -> String {
    words.iter().take(6).map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

/// Words in a row; a long row is cut.
pub(super) fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    const SHOWN: usize = 30;
    let words: Vec<String> = words.map(|word| format!("`{word}`")).collect();
    match words.len() {
        0..=SHOWN => words.join(", "),
        many => format!("{} and {} more", words[..SHOWN].join(", "), many - SHOWN),
    }
}
