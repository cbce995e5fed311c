//! Quantities as people write them: `13 ft 6 in`, `13'-6"`, `1-1/2 in`, `40 psf`, `24 N/mm2`, `25 deg`.

use super::{Degrees, Dimension, Q, Ratio, UNITS, Unit};
use crate::text::nearest;
use std::fmt;

/// Why a text is not the quantity that is due; says what would do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Misread {
    /// A number without a unit.
    NoUnit {
        /// The number as written.
        number: String,
        /// What is due.
        wanted: &'static str,
        /// The same number with units that would do.
        would_do: String,
    },
    /// A unit of another quantity.
    WrongUnit {
        /// The unit as written.
        unit: String,
        /// What it measures.
        measures: &'static str,
        /// What is due.
        wanted: &'static str,
        /// Units that would do.
        would_do: String,
    },
    /// A word that is no unit.
    UnknownUnit {
        /// The word as written.
        unit: String,
        /// The unit that was probably meant.
        nearest: Option<&'static str>,
        /// Units that would do.
        would_do: String,
    },
    /// Not a number at all, or not a finite one.
    NotANumber {
        /// The text as written.
        text: String,
        /// What is due.
        wanted: &'static str,
        /// An example that would do.
        example: &'static str,
    },
}

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoUnit { number, wanted, .. } => write!(f, "`{number}` has no unit where {} is due", one(wanted)),
            Self::WrongUnit { unit, measures, wanted, .. } => write!(f, "`{unit}` is a unit of {measures} where {} is due", one(wanted)),
            Self::UnknownUnit { unit, .. } => write!(f, "`{unit}` is not a known unit"),
            Self::NotANumber { text, wanted, .. } => write!(f, "`{text}` is not {}", one(wanted)),
        }
    }
}

impl Misread {
    /// The same, with these units proposed first for a number that has none.
    pub fn proposing(mut self, first: &[&str]) -> Self {
        if let Self::NoUnit { number, would_do, .. } = &mut self {
            *would_do = first.iter().map(|unit| format!("`{number} {unit}`")).collect::<Vec<_>>().join(", ");
        }
        self
    }

    /// What to write instead.
    pub fn help(&self) -> String {
        match self {
            Self::NoUnit { would_do, .. } => format!("write {would_do}"),
            Self::WrongUnit { would_do, wanted, .. } => format!("{} is given in {would_do}", one(wanted)),
            Self::UnknownUnit { nearest: Some(word), .. } => format!("did you mean `{word}`?"),
            Self::UnknownUnit { would_do, .. } => format!("units that would do: {would_do}"),
            Self::NotANumber { example, wanted, .. } => format!("{} looks like {example}", one(wanted)),
        }
    }
}

/// The word with its article.
fn one(word: &str) -> String {
    format!("{} {word}", if word.starts_with('a') { "an" } else { "a" })
}

/// Reads a quantity of the dimension that is due; `kind` (one of [`super::kinds`]) chooses between quantities of one dimension in
/// what the messages propose.
///
/// Lengths may have several parts (`13 ft 6 in`, `13'-6"`), each less than one unit of the part before it. Numbers may be whole, decimal, a fraction or mixed (`1-1/2`, `1 1/2`).
///
/// # Errors
/// [`Misread`] says what is wrong and what would do.
pub fn read<D: Dimension>(text: &str, kind: &'static str) -> Result<Q<D>, Misread> {
    let example = example_of(kind);
    let not_a_number = || Misread::NotANumber { text: text.trim().to_owned(), wanted: kind, example };
    if text.as_bytes().windows(3).any(|b| b[0].is_ascii_digit() && b[1] == b',' && b[2].is_ascii_digit()) {
        let example = "`1200.5` and its unit: a point before decimals, nothing between thousands";
        return Err(Misread::NotANumber { text: text.trim().to_owned(), wanted: kind, example });
    }
    let mut rest = text.trim();
    let (mut total, mut parts, mut sign, mut before) = (0.0, 0, 1.0, f64::INFINITY);
    while !rest.is_empty() {
        let (number, after) = take_number(rest).ok_or_else(not_a_number)?;
        let (word, after) = take_unit(after);
        if word.is_empty() {
            let number = text.trim().to_owned();
            let would_do = proposals(D::EXPONENTS, kind).iter().map(|u| format!("`{number} {u}`")).collect::<Vec<_>>().join(", ");
            return Err(Misread::NoUnit { number, wanted: kind, would_do });
        }
        let unit = unit_of::<D>(word, kind)?;
        if parts == 0 && number.is_sign_negative() {
            sign = -1.0;
        } else if parts > 0 && (number < 0.0 || kind != super::kinds::LENGTH || number * unit.factor >= before) {
            return Err(not_a_number());
        }
        total += number.abs() * unit.factor;
        before = unit.factor;
        parts += 1;
        rest = after.trim_start();
        // 13'-6": the stroke between feet and inches is not a sign.
        if let Some(after) = rest.strip_prefix('-') {
            rest = after;
        }
    }
    let value = sign * total;
    if parts == 0 || !value.is_finite() { Err(not_a_number()) } else { Ok(Q::new(value)) }
}

/// Reads a number without a unit.
///
/// # Errors
/// [`Misread::NotANumber`].
pub fn read_number(text: &str) -> Result<Ratio, Misread> {
    match take_number(text.trim()) {
        Some((number, "")) if number.is_finite() => Ok(Ratio::new(number)),
        _ => Err(Misread::NotANumber { text: text.trim().to_owned(), wanted: "number", example: "`1.15`" }),
    }
}

/// Reads an angle, in degrees.
///
/// # Errors
/// [`Misread`] as for [`read`].
pub fn read_angle(text: &str) -> Result<Degrees, Misread> {
    let wanted = "angle";
    let text = text.trim();
    let (number, rest) = take_number(text).ok_or_else(|| Misread::NotANumber { text: text.to_owned(), wanted, example: "`25 deg`" })?;
    match rest.trim() {
        "deg" | "°" | "degrees" if number.is_finite() => Ok(Ratio::new(number)),
        "" => Err(Misread::NoUnit { number: text.to_owned(), wanted, would_do: format!("`{text} deg`") }),
        _ => Err(Misread::NotANumber { text: text.to_owned(), wanted, example: "`25 deg`" }),
    }
}

/// Reads a temperature; the answer is in degrees Fahrenheit.
///
/// # Errors
/// [`Misread`] as for [`read`].
pub fn read_temperature(text: &str) -> Result<Ratio, Misread> {
    let wanted = "temperature";
    let text = text.trim();
    let strange = || Misread::NotANumber { text: text.to_owned(), wanted, example: "`100 F`" };
    let (number, rest) = take_number(text).ok_or_else(strange)?;
    match rest.trim() {
        "F" | "°F" => Ok(Ratio::new(number)),
        "C" | "°C" => Ok(Ratio::new(number * 1.8 + 32.0)),
        "" => Err(Misread::NoUnit { number: text.to_owned(), wanted, would_do: format!("`{text} F`, `{text} C`") }),
        _ => Err(strange()),
    }
}

fn unit_of<D: Dimension>(word: &str, kind: &'static str) -> Result<&'static Unit, Misread> {
    let would_do = || proposals(D::EXPONENTS, kind).iter().map(|u| format!("`{u}`")).collect::<Vec<_>>().join(", ");
    let plain = plain(word);
    match UNITS.iter().find(|u| u.name == plain || u.also.contains(&plain.as_str())) {
        Some(unit) if unit.exponents == D::EXPONENTS => Ok(unit),
        Some(unit) => Err(Misread::WrongUnit { unit: word.to_owned(), measures: unit.kind, wanted: kind, would_do: would_do() }),
        None => {
            let names = UNITS.iter().filter(|u| u.exponents == D::EXPONENTS).map(|u| u.name);
            Err(Misread::UnknownUnit { unit: word.to_owned(), nearest: nearest(word, names), would_do: would_do() })
        }
    }
}

/// A unit as the table writes it: `kN/m²` and `kN/m^2` are `kN/m2`, `kN·m` is `kN.m`.
fn plain(word: &str) -> String {
    word.chars()
        .filter(|c| *c != '^')
        .map(|c| match c {
            '²' => '2',
            '³' => '3',
            '·' | '⋅' => '.',
            '′' | '’' => '\'',
            '″' | '”' => '"',
            other => other,
        })
        .collect()
}

/// Up to four units of the kind; of the dimension, where the kind has none of its own.
fn proposals(exponents: super::Exponents, kind: &str) -> Vec<&'static str> {
    let of_dimension = || UNITS.iter().copied().filter(|u| u.exponents == exponents);
    let own: Vec<&Unit> = of_dimension().filter(|u| u.kind == kind).collect();
    let units = if own.is_empty() { of_dimension().collect() } else { own };
    units.iter().take(4).map(|u| u.name).collect()
}

fn example_of(kind: &str) -> &'static str {
    use super::kinds;
    match kind {
        kinds::LENGTH => "`13 ft 6 in` or `2400 mm`",
        kinds::FORCE => "`300 lbf` or `1.2 kN`",
        kinds::AREA_LOAD => "`40 psf` or `1.9 kPa`",
        kinds::LINE_LOAD => "`80 plf` or `2.5 kN/m`",
        kinds::STRESS => "`900 psi` or `24 N/mm2`",
        kinds::MOMENT => "`500 lbf.ft` or `1.2 kN.m`",
        kinds::AREA => "`340 ft2` or `31 m2`",
        kinds::MASS => "`50 kg/m2`",
        kinds::WIDTH_STIFFNESS => "`2.2 kN.m2/m`",
        _ => "`35 pcf`",
    }
}

/// A number at the start of the text and what follows it: `12`, `-1.5`, `3/4`, `1-1/2`, `1 1/2`, `1e3`.
fn take_number(text: &str) -> Option<(f64, &str)> {
    let (sign, rest) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let (first, rest) = take_decimal(rest)?;
    if let Some((value, rest)) = take_fraction_after(first, rest) {
        return Some((sign * value, rest));
    }
    if rest.starts_with('/') {
        return None;
    }
    // A mixed number: the stroke or space must be followed by a fraction.
    if let Some(after) = rest.strip_prefix('-').or_else(|| rest.strip_prefix(' '))
        && let Some((numerator, after)) = take_decimal(after)
        && let Some((fraction, after)) = take_fraction_after(numerator, after)
    {
        return Some((sign * (first + fraction), after));
    }
    Some((sign * first, rest))
}

fn take_fraction_after(numerator: f64, rest: &str) -> Option<(f64, &str)> {
    let (denominator, rest) = take_decimal(rest.strip_prefix('/')?)?;
    (denominator != 0.0).then_some((numerator / denominator, rest))
}

/// Digits, at most one point, and an exponent where digits follow the `e`.
fn take_decimal(text: &str) -> Option<(f64, &str)> {
    let bytes = text.as_bytes();
    let run = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let mut end = run(0);
    if bytes.get(end) == Some(&b'.') {
        end += 1 + run(end + 1);
    }
    if !text[..end].bytes().any(|b| b.is_ascii_digit()) {
        return None;
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let digits = run((end + 1 + sign).min(bytes.len()));
        if digits > 0 {
            end += 1 + sign + digits;
        }
    }
    Some((text[..end].parse().ok()?, &text[end..]))
}

/// A unit word: up to the next number or white space, but `lbf ft`, `kN m` and the like are one word.
fn take_unit(text: &str) -> (&str, &str) {
    let text = text.trim_start();
    if let Some(mark) = text.chars().next().filter(|c| matches!(c, '\'' | '"' | '′' | '’' | '″' | '”')) {
        return text.split_at(mark.len_utf8());
    }
    let word_end = |t: &str| t.find(|c: char| c.is_whitespace()).unwrap_or(t.len());
    let first = word_end(text);
    let after = text[first..].trim_start();
    if after.starts_with(|c: char| c.is_ascii_alphabetic()) {
        let both = text.len() - after.len() + word_end(after);
        if UNITS.iter().any(|u| u.name == &text[..both]) {
            return text.split_at(both);
        }
    }
    text.split_at(first)
}

#[cfg(test)]
mod tests {
    use super::super::{AreaLoad, FT, IN, KN_M, KPA, LBF_FT, Length, LineLoad, Moment, kinds};
    use super::*;
    use proptest::prelude::*;

    fn inches(text: &str) -> f64 {
        read::<<Length as Of>::D>(text, kinds::LENGTH).map(|q| q.number_in(&IN)).unwrap_or(f64::NAN)
    }
    trait Of {
        type D;
    }
    impl<D> Of for Q<D> {
        type D = D;
    }

    #[test]
    fn lengths_as_they_are_written() {
        for (text, value) in [
            ("13 ft 6 in", 162.0),
            ("13'-6\"", 162.0),
            ("13' 6 1/2\"", 162.5),
            ("13.5 ft", 162.0),
            ("1-1/2 in", 1.5),
            ("6 3/4 in", 6.75),
            ("3/4 in", 0.75),
            ("-2 ft 6 in", -30.0),
            ("25.4 mm", 1.0),
            ("2.54cm", 1.0),
            ("1 ft", 12.0),
            ("13′-6″", 162.0),
            ("13’ 6”", 162.0),
            ("2 metres", 2000.0 / 25.4),
        ] {
            assert!((inches(text) - value).abs() < 1e-12 * value.abs(), "{text}: {}", inches(text));
        }
    }

    #[test]
    fn faults_say_what_would_do() {
        let read = |t: &str| read::<<Length as Of>::D>(t, kinds::LENGTH).unwrap_err();
        assert!(matches!(read("16"), Misread::NoUnit { .. }));
        assert_eq!(read("16").help(), "write `16 in`, `16 ft`, `16 mm`, `16 cm`");
        assert!(matches!(read("24 kN"), Misread::WrongUnit { measures: "force", .. }));
        assert!(matches!(read("12 inn"), Misread::UnknownUnit { nearest: Some("in"), .. }));
        for text in ["", "nan ft", "ten ft", "in", "1e999 ft", "--1 ft", "1/0 in", "4 m 2 m", "6 in 4 ft", "4 ft 13 in", "4 ft 12 in"] {
            assert!(matches!(read(text), Misread::NotANumber { .. }), "{text:?}: {:?}", read(text));
        }
    }

    #[test]
    fn units_of_two_words_are_one() {
        let moment = super::read::<<Moment as Of>::D>("500 lbf ft", kinds::MOMENT).unwrap();
        assert_eq!(moment, LBF_FT.of(500.0));
        assert!(super::read::<<LineLoad as Of>::D>("80 plf", kinds::LINE_LOAD).is_ok());
    }

    #[test]
    fn powers_and_points_are_written_in_several_ways() {
        for (text, kilopascals) in [("1.9 kN/m2", 1.9), ("1.9 kN/m²", 1.9), ("1.9 kN/m^2", 1.9), ("200 kgf/m²", 200.0 * 9.80665e-3)] {
            let load = super::read::<<AreaLoad as Of>::D>(text, kinds::AREA_LOAD).unwrap();
            assert!((load.number_in(&KPA) - kilopascals).abs() < 1e-12, "{text}");
        }
        for (text, kilonewton_metres) in [("1.2 kN·m", 1.2), ("1.2 kN-m", 1.2), ("900 lbf-ft", 0.9 * 1.355_817_948_331_400_4)] {
            let moment = super::read::<<Moment as Of>::D>(text, kinds::MOMENT).unwrap();
            assert!((moment.number_in(&KN_M) - kilonewton_metres).abs() < 1e-12, "{text}");
        }
        let comma = super::read::<<LineLoad as Of>::D>("1,200 plf", kinds::LINE_LOAD).unwrap_err();
        assert!(comma.help().contains("a point before decimals"), "{}", comma.help());
    }

    proptest! {
        #[test]
        fn every_unit_prints_and_reads_back(number in -1e6..1e6f64, which in 0..UNITS.len()) {
            let unit = UNITS[which];
            let text = format!("{number} {}", unit.name);
            let (value, rest) = take_number(&text).unwrap();
            let (word, rest) = take_unit(rest);
            prop_assert_eq!((value, word, rest), (number, unit.name, ""));
        }

        #[test]
        fn feet_and_inches_add_up(feet in 0u32..200, sixteenths in 0u32..192) {
            let text = format!("{feet} ft {}-{}/16 in", sixteenths / 16, sixteenths % 16);
            let expected = FT.factor * f64::from(feet) + IN.factor * f64::from(sixteenths) / 16.0;
            let read = super::read::<<Length as Of>::D>(&text, kinds::LENGTH).unwrap();
            prop_assert!((read.value() - expected).abs() <= 1e-9 * expected.max(1.0));
        }
    }
}
