//! Text and markup of the typesetter, and the border between them.
//!
//! A [`String`] in a view is text: the templates' formatter writes it as a string literal, which is harmless wherever it stands.
//! [`Markup`] passes as it is. Only this room makes it, from printed equations, drawn figures and literals.

use super::letters::Letter;
use crate::units::UNITS;
use minijinja::value::Value;
use serde::{Serialize, Serializer};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

/// Typst markup that a template may place as it stands.
#[derive(Clone, Debug)]
pub(super) struct Markup {
    source: Value,
    /// What a reader sees, where that is a sentence: by it the room that it takes is estimated.
    plain: String,
}

impl Serialize for Markup {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.source.serialize(serializer)
    }
}

impl Markup {
    /// Source that this program made.
    pub(super) fn ours(source: String) -> Self {
        Self { source: Value::from_safe_string(source), plain: String::new() }
    }

    /// The same, with what a reader sees of it.
    pub(super) fn read_as(mut self, plain: String) -> Self {
        self.plain = plain;
        self
    }

    /// A text and nothing else.
    pub(super) fn text(text: &str) -> Self {
        Self::ours(inserted(text)).read_as(text.to_owned())
    }

    /// Several, one after another.
    pub(super) fn joined(parts: &[Self], between: &str) -> Self {
        let all = |text: fn(&Self) -> &str, between: &str| parts.iter().map(text).collect::<Vec<_>>().join(between);
        let set = if between.is_empty() { String::new() } else { inserted(between) };
        Self::ours(all(Self::source, &set)).read_as(all(Self::plain, between))
    }

    /// A formula, as an argument of a function.
    pub(super) fn formula(typst: &str) -> Self {
        Self::ours(format!("${typst}$"))
    }

    /// The source.
    pub(super) fn source(&self) -> &str {
        self.source.as_str().unwrap_or_default()
    }

    /// What a reader sees, where that is a sentence.
    pub(super) fn plain(&self) -> &str {
        &self.plain
    }
}

/// A Typst string literal: the one form in which any text is harmless in markup, math and code.
pub(super) fn literal(text: &str) -> String {
    let mut literal = String::with_capacity(text.len() + 2);
    literal.push('"');
    for c in text.chars() {
        match c {
            '"' => literal.push_str("\\\""),
            '\\' => literal.push_str("\\\\"),
            '\n' => literal.push_str("\\n"),
            '\t' => literal.push(' '),
            c if c.is_control() => {}
            c => literal.push(c),
        }
    }
    literal.push('"');
    literal
}

/// A text as it is inserted into markup or math.
pub(super) fn inserted(text: &str) -> String {
    format!("#{};", literal(text))
}

/// What stands for a word of a text: a letter's formula, or a link.
#[derive(Clone, Debug)]
enum Stand {
    Case { letter: String, foot: String },
    Letter { typst: String, words: String },
    Link { label: String },
}

impl Stand {
    /// What stands for the word, as markup.
    fn set(&self, word: &str) -> String {
        match self {
            Self::Case { letter, foot } => format!("#footed({}, {});", literal(letter), literal(foot)),
            Self::Letter { typst, words } => format!("#m({}, ${typst}$);", literal(words)),
            Self::Link { label } => format!("#to({}, {});", literal(label), literal(word)),
        }
    }
}

/// A word that looks like a letter with small feet (`K_e`, `F_bx`), though no line has brought it along.
fn unbidden(word: &str) -> Option<String> {
    let (_, foot) = word.split_once('_')?;
    let foot = foot.trim_end_matches('*').trim_end_matches(|c: char| c.is_ascii_digit());
    let small = !foot.is_empty() && foot.bytes().all(|b| b.is_ascii_lowercase() || b == b',');
    let Letter { typst, words } = Letter::of(word).filter(|_| small)?;
    Some(format!("#m({}, ${typst}$);", literal(&words)))
}

/// Turns plain sentences of the results into markup: letters become formulas, numbers of assumptions and marks become links.
#[derive(Clone, Debug, Default)]
pub(super) struct Lexicon(BTreeMap<String, Stand>);

impl Lexicon {
    /// From now on the plain letter is set as this formula, which is said so.
    pub(super) fn letter(&mut self, plain: &str, typst: &str, words: &str) {
        // One plain character is as likely a word or a load case as a letter of a formula.
        if plain.chars().count() > 1 && plain != "ratio" {
            self.0.entry(plain.to_owned()).or_insert_with(|| Stand::Letter { typst: typst.to_owned(), words: words.to_owned() });
        }
    }

    /// From now on the letter of a load case with a foot (`L_r`) is set as text with a subscript.
    pub(super) fn case(&mut self, letter: &str) {
        if let Some((letter_only, foot)) = letter.split_once('_') {
            self.0.insert(letter.to_owned(), Stand::Case { letter: letter_only.to_owned(), foot: foot.to_owned() });
        }
    }

    /// From now on this word links to a label.
    pub(super) fn link(&mut self, word: &str, label: String) {
        self.0.insert(word.to_owned(), Stand::Link { label });
    }

    /// A sentence as markup.
    pub(super) fn set(&self, text: &str) -> Markup {
        let (mut source, mut seen) = (String::new(), String::new());
        let mut plain = String::new();
        let text = with_units(&quoted(text));
        for (word, after) in words(&text) {
            match self.0.get(word).map(|stand| stand.set(word)).or_else(|| unbidden(word)) {
                Some(set) => {
                    if !plain.is_empty() {
                        source.push_str(&inserted(&plain));
                        plain.clear();
                    }
                    source.push_str(&set);
                    let is_link = matches!(self.0.get(word), Some(Stand::Link { .. }));
                    seen.push_str(&if is_link { word.to_owned() } else { letter_as_seen(word) });
                }
                None => {
                    plain.push_str(word);
                    seen.push_str(word);
                }
            }
            plain.push_str(after);
            seen.push_str(after);
        }
        if !plain.is_empty() {
            source.push_str(&inserted(&plain));
        }
        Markup::ours(source).read_as(seen)
    }
}

/// A letter with a foot as a reader sees it (`f_c,perp` as `fc⟂`), but for the size of the foot.
pub(super) fn letter_as_seen(plain: &str) -> String {
    plain.replace("perp", "⟂").replace(['_', ','], "")
}

/// Words between backticks, as a terminal shows them, stand between quotation marks on paper.
fn quoted(text: &str) -> String {
    let mut open = false;
    text.chars()
        .map(|c| match c {
            '`' => {
                open = !open;
                if open { '‘' } else { '’' }
            }
            c => c,
        })
        .collect()
}

/// Numbers keep their units: no line ends between them.
fn with_units(text: &str) -> String {
    static NAMES: LazyLock<BTreeSet<&str>> = LazyLock::new(|| {
        let names = UNITS.iter().flat_map(|unit| unit.also.iter().chain([&unit.name]));
        names.filter_map(|name| name.split(' ').next()).collect()
    });
    let is_unit = |word: &str| {
        let end = word.find([' ', ',', ';', ':', ')']).unwrap_or(word.len());
        let plain = word[..end].trim_end_matches('.').replace('²', "2").replace('³', "3");
        NAMES.contains(plain.as_str())
    };
    let mut kept = String::with_capacity(text.len());
    for (at, c) in text.char_indices() {
        let after_number = c == ' ' && kept.ends_with(|c: char| c.is_ascii_digit());
        kept.push(if after_number && is_unit(&text[at + 1..]) { '\u{a0}' } else { c });
    }
    kept
}

/// A text in words, each with what stands between it and the next.
fn words(text: &str) -> Vec<(&str, &str)> {
    let is_break = |c: char| c.is_whitespace() || matches!(c, ';' | ':' | '(' | ')' | '=' | '/' | '×');
    let mut parts = Vec::new();
    let mut rest = text;
    while !rest.is_empty() {
        let mut end = rest.find(is_break).unwrap_or(rest.len());
        // A comma or full stop belongs to a letter (f_c,perp) or a name (No.2) only inside it.
        while end > 0 && matches!(rest.as_bytes()[end - 1], b',' | b'.') {
            end -= 1;
        }
        let next = rest[end..].find(|c: char| !is_break(c) && !matches!(c, ',' | '.')).map_or(rest.len(), |i| end + i);
        parts.push((&rest[..end], &rest[end..next]));
        rest = &rest[next..];
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_ends_before_a_number_and_not_behind_it() {
        let set = Lexicon::default().set("13.0 mm of L/250, 16.2 N/mm² (3 kN m); at 2 in span 1; 12 times");
        assert_eq!(set.plain(), "13.0\u{a0}mm of L/250, 16.2\u{a0}N/mm² (3\u{a0}kN m); at 2\u{a0}in span 1; 12 times");
    }

    #[test]
    fn a_text_is_a_literal_whatever_it_says() {
        assert_eq!(literal("*x* $x$ #panic() \\ [..] \"\n\u{7}"), r#""*x* $x$ #panic() \\ [..] \"\n""#);
    }

    #[test]
    fn letters_and_numbers_of_assumptions_are_found_in_a_sentence() {
        let mut lexicon = Lexicon::default();
        lexicon.letter("f_c,perp", "f_(c perp)", "f c perpendicular");
        lexicon.letter("D", "D", "D");
        lexicon.link("A-3", "A-3".to_owned());
        let set = lexicon.set("D + L: f_c,perp, see A-3.");
        assert_eq!(set.source(), r##"#"D + L: ";#m("f c perpendicular", $f_(c perp)$);#", see ";#to("A-3", "A-3");#".";"##);
    }

    #[test]
    fn a_letter_that_nothing_brought_along_is_set_all_the_same() {
        let set = Lexicon::default().set("of K_e 1.0, drawing S_201, part_b");
        assert_eq!(set.source(), r##"#"of ";#m("K e", $K_(e)$);#" 1.0, drawing S_201, part_b";"##);
    }

    #[test]
    fn a_sentence_loses_nothing() {
        for text in ["", ".", "a, b. c", "No.2 (1-1/2 × 9)", "  x=  y"] {
            let again: String = words(text).into_iter().flat_map(|(a, b)| [a, b]).collect();
            assert_eq!(again, text);
        }
    }
}
