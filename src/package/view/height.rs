//! How much room the parts of a sheet will take, nearly: enough to choose how it is set before it is laid out. Where they really stand,
//! the typesetter tells afterwards; then [`super::plan`] looks again.

use crate::package::drawing::width_of;

/// Baseline to baseline of text and of small text, as the style sheet has it.
pub(super) const PITCH: f64 = 12.6;
pub(super) const SMALL_PITCH: f64 = 10.4;
/// Text of 9.5 points against small text of 8.
pub(super) const TEXT: f64 = 9.5 / 8.0;
/// A row of a formula without fractions.
const ROW: f64 = 9.4;

/// Lines that a text takes in a column; `size` against small text.
pub(super) fn lines(text: &str, size: f64, column: f64) -> f64 {
    let (mut lines, mut used) = (0.0, f64::INFINITY);
    for word in text.split_whitespace() {
        let wide = size * width_of(word);
        if used + wide > column {
            lines += 1.0;
            used = 0.0;
        }
        used += wide + size * width_of(" ");
    }
    lines
}

/// Width and height of a formula.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Extent {
    pub(super) width: f64,
    pub(super) height: f64,
}

/// The extent of a formula, from its source.
pub(super) fn formula(typst: &str) -> Extent {
    let mut extent = Extent { width: 0.0, height: ROW };
    let mut rest = typst;
    while let Some(c) = rest.chars().next() {
        if let Some((inner, after)) = call(rest, "frac(") {
            let (over, under) = inner.split_at(comma(inner));
            let (over, under) = (formula(over), formula(under.trim_start_matches(',')));
            extent.width += over.width.max(under.width) + 3.0;
            extent.height = extent.height.max(over.height + under.height + 4.4);
            rest = after;
        } else if let Some((inner, after)) = call(rest, "sqrt(") {
            let under = formula(inner);
            extent.width += under.width + 9.0;
            extent.height = extent.height.max(under.height + 2.6);
            rest = after;
        } else if let Some((inner, after)) = call(rest, "class(") {
            extent.width += if inner.contains(',') { 2.6 } else { 0.0 };
            rest = after;
        } else if let Some((inner, after)) = call(rest, "_(").or_else(|| call(rest, "^(")) {
            extent.width += 0.7 * formula(inner).width;
            rest = after;
        } else if let Some((word, after)) = word(rest) {
            extent.width += match word {
                "times" => 11.0,
                "thin" => 1.6,
                "sin" | "cos" | "min" | "max" => TEXT * width_of(word),
                // The name of a sign.
                _ => 6.0,
            };
            rest = after;
        } else {
            if c == '^' {
                extent.height = extent.height.max(ROW + 1.6);
            }
            extent.width += match c {
                '_' | '^' | ' ' | '"' => 0.0,
                '+' | '−' | '=' | '<' | '>' => 11.0,
                _ => TEXT * width_of(c.encode_utf8(&mut [0; 4])),
            };
            rest = &rest[c.len_utf8()..];
        }
    }
    extent
}

/// A name of several letters that the text begins with, and what follows it.
fn word(text: &str) -> Option<(&str, &str)> {
    let end = text.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(text.len());
    (end > 1).then(|| text.split_at(end))
}

/// What stands between the brackets of a call that the text begins with, and what follows it.
fn call<'a>(text: &'a str, name: &str) -> Option<(&'a str, &'a str)> {
    let inside = text.strip_prefix(name)?;
    let mut depth = 1;
    for (at, c) in inside.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Some((&inside[..at], &inside[at + 1..]));
        }
    }
    None
}

/// Where the first comma outside of brackets stands; the end if there is none.
fn comma(text: &str) -> usize {
    let mut depth = 0;
    for (at, c) in text.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            ',' if depth == 0 => return at,
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fraction_is_as_wide_as_its_wider_part_and_as_tall_as_both() {
        let (letter, fraction) = (formula("L"), formula("frac(w L^2, 8)"));
        assert!(fraction.height > 2.0 * letter.height);
        assert!(fraction.width < formula("w L^2 8").width);
        assert!(formula("f_b slash F_b").width < 45.0);
        assert_eq!(formula("sqrt(frac(1, 2))").height, formula("frac(1, 2)").height + 2.6);
    }

    #[test]
    fn words_are_broken_between_them() {
        assert_eq!(lines("", 1.0, 100.0), 0.0);
        assert_eq!(lines("one", 1.0, 100.0), 1.0);
        let wide = width_of("one two ");
        assert_eq!(lines("one two three", 1.0, wide), 2.0);
        assert_eq!(lines("one two three", 1.0, 1.0), 3.0);
    }
}
