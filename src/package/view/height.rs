//! How much room the parts of a sheet will take, nearly: enough to choose how it is set before it is laid out. Where they really stand,
//! the typesetter tells afterwards; then [`super::plan`] looks again.

pub(super) use crate::package::drawing::lines;
use crate::package::drawing::width_of;
use crate::pdf;
use serde::{Serialize, Serializer};

pub(super) use crate::package::drawing::SMALL_PITCH;
/// Baseline to baseline of text, as the style sheet has it.
pub(super) const PITCH: f64 = 12.6;
/// Text of 9.5 points against small text of 8.
pub(super) const TEXT: f64 = 9.5 / 8.0;
/// A row of a formula without fractions.
pub(super) const ROW: f64 = 9.4;

/// What an estimated width of small text is multiplied by where it must surely fit, and where it surely does not.
const SURELY: f64 = 1.06;
const HARDLY: f64 = 0.98;

/// Lines of a row of a table, as they are estimated at least and at most; where the two differ the typesetter measures the row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Lines {
    pub(super) least: u32,
    pub(super) most: u32,
}

impl Lines {
    /// A row whose every cell has one line.
    pub(super) const ONE: Self = Self { least: 1, most: 1 };

    /// The same with a line for a name over it.
    pub(super) fn under_a_name(self) -> Self {
        Self { least: self.least + 1, most: self.most + 1 }
    }
}

impl Serialize for Lines {
    /// The number of lines; 0 where it has to be measured.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(if self.least == self.most { self.most } else { 0 })
    }
}

/// The lines of a row of a table, from its cells in small text and the room that each has.
pub(super) fn row<'a>(cells: impl IntoIterator<Item = (&'a str, f64)>) -> Lines {
    let (mut least, mut most) = (1.0_f64, 1.0_f64);
    for (text, room) in cells {
        most = most.max(lines(text, SURELY, room));
        least = least.max(lines(text, HARDLY, room));
    }
    Lines { least: least as u32, most: most as u32 }
}

/// A column of a table that surely holds each of these texts on one line, in points.
pub(super) fn column<'a>(texts: impl IntoIterator<Item = &'a str>) -> f64 {
    texts.into_iter().map(|text| SURELY * width_of(text) + 1.0).fold(0.0, f64::max).ceil()
}

/// Width and height of a formula.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Extent {
    pub(super) width: f64,
    pub(super) height: f64,
}

/// Size of a formula, and of its sub- and superscripts against it.
const SIZE: f64 = 9.5;
const SCRIPT: f64 = 0.7;
/// Spaces that the typesetter leaves, in ems: about a relation, about a plus, after a function.
const THICK: f64 = 5.0 / 18.0;
const MEDIUM: f64 = 4.0 / 18.0;
const THIN: f64 = 3.0 / 18.0;
/// Space after a script, in ems.
const AFTER_SCRIPT: f64 = 0.056;
/// Brackets about more than this grow.
const TALL: f64 = 13.0;

/// The extent of a formula in display, from its source. The width is its letters', as the font has them, and is right to a few hundredths:
/// [`SURE`] covers the rest.
pub(super) fn formula(typst: &str) -> Extent {
    sized(typst, SIZE)
}

/// What an estimated width is multiplied by where a formula must surely fit.
pub(super) const SURE: f64 = 1.03;

fn sized(typst: &str, size: f64) -> Extent {
    let mut extent = Extent { width: 0.0, height: ROW * size / SIZE };
    let space = |ems: f64| if size < SIZE { 0.0 } else { ems * size };
    let advance = |text: &str| size * pdf::advance(pdf::Face::Math, text);
    // A sign between two things stands free of them; one before a thing does not.
    let mut between = false;
    // How far the last letter leans: what hangs at its foot stands under that. Scripts of one letter stand over one another.
    let mut leans = 0.0;
    let mut scripts = None;
    let mut rest = typst;
    while let Some(c) = rest.chars().next() {
        if let Some((inner, after)) = script(rest) {
            let from = *scripts.get_or_insert(extent.width);
            let wide = sized(inner, SCRIPT * size).width + AFTER_SCRIPT * size;
            extent.width = extent.width.max(from + wide - if c == '_' { leans } else { 0.0 });
            if c != '_' {
                extent.height = extent.height.max(ROW * size / SIZE + 1.6);
            }
            rest = after;
            continue;
        }
        (leans, scripts) = (0.0, None);
        let former = std::mem::replace(&mut between, true);
        if let Some((inner, after)) = call(rest, "frac(") {
            let (over, under) = inner.split_at(comma(inner));
            let (over, under) = (sized(over, size), sized(under.trim_start_matches(','), size));
            extent.width += over.width.max(under.width) + 0.2 * size;
            extent.height = extent.height.max(over.height + under.height + 4.4);
            rest = after;
        } else if let Some((inner, after)) = call(rest, "sqrt(") {
            let under = sized(inner, size);
            extent.width += under.width + advance("√") + if under.height > TALL { 1.6 } else { 0.0 };
            extent.height = extent.height.max(under.height + 2.6);
            rest = after;
        } else if let Some((inner, after)) = call(rest, "class(") {
            extent.width += if inner.contains(',') { advance(",") } else { 0.0 };
            rest = after;
        } else if let Some((inner, after)) = call(rest, "#h(") {
            extent.width += size * inner.trim_end_matches("em").parse().unwrap_or(0.0);
            rest = after;
        } else if let Some((inner, after)) = call(rest, "(") {
            // Brackets about scripts grow a little, about fractions much.
            let (wider, taller) = if inner.contains('^') {
                (2.0, 4.5)
            } else if inner.contains('_') {
                (2.0, 1.5)
            } else {
                (0.0, 0.0)
            };
            let inner = sized(inner, size);
            extent.width += inner.width + advance("()") + if inner.height > TALL { 7.6 } else { wider };
            extent.height = extent.height.max(inner.height + taller);
            rest = after;
        } else if let Some((quoted, after)) = rest.strip_prefix('"').and_then(|text| text.split_once('"')) {
            extent.width += advance(quoted);
            rest = after;
        } else if let Some((word, after)) = word(rest) {
            extent.width += match word {
                "times" => advance("×") + space(2.0 * MEDIUM),
                "thin" => THIN * size,
                "slash" => advance("/"),
                "sin" | "cos" | "tan" => advance(word) + space(THIN),
                "min" | "max" => advance(word),
                _ => advance(sign(word)),
            };
            between = !matches!(word, "times" | "thin");
            rest = after;
        } else {
            extent.width += match c {
                ' ' => 0.0,
                '=' | '<' | '>' => advance("=") + space(2.0 * THICK),
                '+' | '−' => advance(&rest[..c.len_utf8()]) + if former { space(2.0 * MEDIUM) } else { 0.0 },
                ',' => advance(",") + space(THIN),
                c => {
                    leans = size * pdf::lean(italic(c));
                    advance(italic(c).encode_utf8(&mut [0; 4])) + leans
                }
            };
            between = if c == ' ' { former } else { !matches!(c, '=' | '<' | '>' | '+' | '−' | ',') };
            rest = &rest[c.len_utf8()..];
        }
    }
    extent
}

/// A letter as formulas have it.
fn italic(c: char) -> char {
    let from = |start: u32, first: char| char::from_u32(start + u32::from(c) - u32::from(first)).unwrap_or(c);
    match c {
        'h' => 'ℎ',
        'a'..='z' => from(0x1D44E, 'a'),
        'A'..='Z' => from(0x1D434, 'A'),
        _ => c,
    }
}

/// A sign by its name.
fn sign(name: &str) -> &str {
    match name {
        "alpha" => "𝛼",
        "beta" => "𝛽",
        "gamma" => "𝛾",
        "delta" => "𝛿",
        "theta" => "𝜃",
        "lambda" => "𝜆",
        "pi" => "𝜋",
        "rho" => "𝜌",
        "sigma" => "𝜎",
        "tau" => "𝜏",
        "phi" => "𝜙",
        "psi" => "𝜓",
        "ell" => "ℓ",
        "perp" => "⟂",
        _ => "𝑚",
    }
}

/// What stands as a script at the foot or head of a letter, and what follows it: `_b`, `^2`, `_"ef"`, `_ell`, `_(c perp)`, `'`.
fn script(text: &str) -> Option<(&str, &str)> {
    if let Some(rest) = text.strip_prefix('\'') {
        return Some(("′", rest));
    }
    let script = text.strip_prefix(['_', '^'])?;
    let end = match script.chars().next()? {
        '(' => return call(script, "("),
        '"' => script[1..].find('"').map_or(script.len(), |i| i + 2),
        c if c.is_ascii_digit() => script.find(|c: char| !c.is_ascii_digit()).unwrap_or(script.len()),
        c if c.is_ascii_alphabetic() => script.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(script.len()),
        c => c.len_utf8(),
    };
    Some(script.split_at(end))
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
    fn formulas_are_as_wide_as_the_typesetter_finds_them() {
        let formulas = [
            "f_(#h(-0.1em) b) slash F'_b",
            "f_(#h(-0.1em) c perp) slash F'_(c perp)",
            "frac(3 thin V, 2 thin b thin d)",
            "frac(5 times 26.67 times 162.0^4, 384 times (1.4 times 10^6) times 98.93)",
            "5.542 times 10^6 slash 1class(\"normal\", \",\")536class(\"normal\", \",\")000",
            "F_b thin C_D thin C_M thin C_t thin C_L thin C_F thin C_(f u) thin C_i thin C_r",
            "900 times 1.15 times 1.0 times 1.0 times 0.9826 times 1.1 times 1.0 times 1.0 times 1.15",
            "frac(1 + F_(b E) slash F_b^*, 1.9) − sqrt((frac(1 + F_(b E) slash F_b^*, 1.9))^2 − frac(F_(b E) slash F_b^*, 0.95))",
            "frac(5 thin q_k thin ell^4, 384 thin E_(0,\"mean\") thin I_y) + frac(1.2 thin q_k thin ell^2, 8 thin G_\"mean\" thin A)",
            "sigma_(m,y,d) slash (k_\"crit\" thin f_(m,y,d))",
            "min(min(30, 0), min(200, 6200 slash 2))",
            "0.4940 + 0.6986",
            "sigma_(m,y,d)",
            "−0.5 times 10^3",
            "frac(F_c^* thin F'_(c perp), F_c^* thin sin^2 theta + F'_(c perp) thin cos^2 theta)",
        ];
        let set = "#set text(font: \"XCharter\", size: 9.5pt)\n#show math.equation: set text(font: (\"XCharter Math\", \"XCharter\"))\n#set block(spacing: 0pt)";
        // A block as tall as the formula is wide, between two labels.
        let block = |f: &str| format!("#context block(height: measure(math.equation(math.display($ {f} $.body))).width)");
        let one = |(i, f): (usize, &&str)| format!("\n#metadata(none)<from{i}>\n{}\n#metadata(none)<to{i}>\n#pagebreak()", block(f));
        let shown: String = formulas.iter().enumerate().map(one).collect();
        let sheets = [pdf::Sheet { path: "/main.typ".to_owned(), text: format!("{set}{shown}"), origins: Vec::new() }];
        let mut press = pdf::Press::new();
        let laid = press.lay(&sheets, &[]).map_err(|bug| bug.to_string()).unwrap();
        for (i, typst) in formulas.iter().enumerate() {
            let at = |label: &str| laid.place(&format!("{label}{i}")).map_or(f64::NAN, |place| place.y);
            let (found, estimate) = (at("to") - at("from"), formula(typst).width);
            assert!(found <= SURE * estimate && estimate <= SURE * found, "{typst}: {estimate} against {found}");
        }
    }
}
