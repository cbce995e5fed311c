//! How wide a text is in our fonts, without laying it out.

use super::world;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use typst::layout::Abs;
use typst::text::{FontInstance, FontStyle, FontVariations, FontWeight};

/// A face that pages are set in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The text.
    Text,
    /// Formulas.
    Math,
}

struct Faces {
    text: Option<FontInstance>,
    math: Option<FontInstance>,
}

static FACES: LazyLock<Faces> = LazyLock::new(|| {
    let named = |family: &str| {
        let font = world::FACES.iter().find(|font| {
            let info = font.info();
            info.family == family && info.variant.style == FontStyle::Normal && info.variant.weight < FontWeight::SEMIBOLD
        })?;
        let variant = font.info().variant;
        Some(font.clone().instantiate(variant, Abs::pt(10.0), &FontVariations::default()))
    };
    Faces { text: named("XCharter"), math: named("XCharter Math") }
});

/// The width of a text in ems: what its letters advance, without kerning, which changes it by a hundredth at most.
///
/// What a face does not hold counts as an en.
pub fn advance(face: Face, text: &str) -> f64 {
    let font = match face {
        Face::Text => &FACES.text,
        Face::Math => &FACES.math,
    };
    let Some(font) = font else { return 0.5 * text.chars().count() as f64 };
    let one = |c| font.ttf().glyph_index(c).and_then(|glyph| font.x_advance(glyph.0)).map_or(0.5, |width| width.get());
    text.chars().map(one).sum()
}

/// How far a slanted letter of a formula leans beyond its advance, in ems.
pub fn lean(letter: char) -> f64 {
    let lean = |font: &FontInstance| {
        let glyph = font.ttf().glyph_index(letter)?;
        let beyond = font.ttf().tables().math?.glyph_info?.italic_corrections?.get(glyph)?;
        Some(font.to_em(beyond.value).get())
    };
    FACES.math.as_ref().and_then(lean).unwrap_or(0.0)
}

/// How far the ink of a letter of a formula reaches above its baseline and below it, in ems.
///
/// What the face does not hold counts as a capital.
pub fn ink(letter: char) -> (f64, f64) {
    INKS.get(&letter).copied().unwrap_or((0.68, 0.0))
}

/// The ink of what formulas are made of: to find it is to draw the letter.
static INKS: LazyLock<BTreeMap<char, (f64, f64)>> = LazyLock::new(|| {
    let letters = [' '..='~', '\u{1D434}'..='\u{1D467}', '\u{1D6FC}'..='\u{1D71B}'].into_iter().flatten().chain("×−√ℎℓ⟂′∗".chars());
    let Some(font) = &FACES.math else { return BTreeMap::new() };
    let ems = |units: i16| font.to_em(units).get();
    let one = |letter| {
        let ink = font.ttf().glyph_bounding_box(font.ttf().glyph_index(letter)?)?;
        Some((letter, (ems(ink.y_max), -ems(ink.y_min))))
    };
    letters.filter_map(one).collect()
});

/// How tall a sign of a formula is that grows with what it holds, in ems: its smallest drawing that is at least so tall.
pub fn grown(sign: char, least: f64) -> f64 {
    let drawings = |font: &FontInstance| {
        let tables = font.ttf().tables().math?.variants?;
        let drawn = tables.vertical_constructions.get(font.ttf().glyph_index(sign)?)?;
        drawn.variants.into_iter().map(|v| font.to_em(v.advance_measurement).get()).find(|height| *height >= least)
    };
    FACES.math.as_ref().and_then(drawings).unwrap_or(least)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_of_one_width_and_an_m_is_wider_than_an_i() {
        for face in [Face::Text, Face::Math] {
            assert_eq!(advance(face, "1111"), advance(face, "8080"));
            assert!(advance(face, "m") > 1.5 * advance(face, "i"));
        }
    }
}
