//! Whether our fonts can print a text.

use super::world::FACES;
use std::collections::BTreeSet;

/// The characters of a text that none of our fonts holds, each once, in order; line ends and tabs are not looked at.
///
/// A package must not print an empty box where a name should stand: a job file with such a character is refused, with its place.
pub fn lacking(text: &str) -> Vec<char> {
    let wanted: BTreeSet<char> = text.chars().filter(|c| !matches!(c, '\n' | '\r' | '\t')).collect();
    wanted.into_iter().filter(|c| !FACES.iter().any(|face| face.info().coverage.contains(u32::from(*c)))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_lacking_is_told_once() {
        assert_eq!(lacking("Æðelþryð 13'-6\" × 40 psf ½ ≤ ∑ é\n\t"), Vec::<char>::new());
        assert_eq!(lacking("a 木 b 木 c 家"), ['家', '木']);
    }
}
