//! The known word that was probably meant.

/// The known word nearest to `word`, if one is near enough to be a slip of it.
///
/// Compares without regard to case. Near enough: at least 60 % alike by edit distance with transpositions, or one is the start of
/// the other. The first of equals wins.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = word.to_lowercase();
    let mut best: Option<(f64, &str)> = None;
    for candidate in known {
        let other = candidate.to_lowercase();
        let mut alike = strsim::normalized_damerau_levenshtein(&wanted, &other);
        if wanted.len() >= 3 && (other.starts_with(&wanted) || wanted.starts_with(&other)) {
            alike = alike.max(0.75);
        }
        if alike >= 0.6 && best.is_none_or(|(b, _)| alike > b) {
            best = Some((alike, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn finds_slips_and_leaves_strangers_alone() {
        let known = ["spans", "spacing", "species", "slope"];
        assert_eq!(nearest("spanns", known), Some("spans"));
        assert_eq!(nearest("Spaicng", known), Some("spacing"));
        assert_eq!(nearest("notch", known), None);
    }
}
