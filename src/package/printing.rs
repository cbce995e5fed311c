//! Numbers and lengths as printed: rounded here, and nowhere computed.

use super::markup::Markup;
use crate::equation::Equation;
use crate::results::{Member, Results, Value};
pub(super) use crate::results::{fails, ratio};
use crate::units::{FT, IN, KN, KN_M, KN_PER_M, LBF, LBF_FT, Length, MM, MPA, PLF, PSI, Unit, at_least, decimals, figures, grouped};

/// How this job's numbers look.
#[derive(Clone, Copy, Debug)]
pub(super) struct Printing {
    /// Feet and inches; else millimetres.
    feet: bool,
}

impl Printing {
    /// As the job's code prints.
    pub(super) fn of(results: &Results) -> Self {
        Self { feet: results.job.units == "inch-pound" }
    }

    /// Whether lengths are in feet and inches.
    pub(super) fn in_feet(self) -> bool {
        self.feet
    }

    /// A number that was already rounded, as text: five digits and more in groups, a true minus sign.
    pub(super) fn number(self, text: &str) -> String {
        in_group(&ungrouped(text, ""), if self.feet { "," } else { "\u{2009}" })
    }

    /// An equation with its numbers grouped as the place groups them: the results have a comma between thousands.
    pub(super) fn equation(self, equation: &Equation) -> Equation {
        if self.feet {
            return equation.clone();
        }
        let math = |typst: &str| typst.replace("class(\"normal\", \",\")", " thin ");
        Equation {
            typst: math(&equation.typst),
            typst_substituted: math(&equation.typst_substituted),
            substituted: ungrouped(&equation.substituted, "\u{2009}"),
            ..equation.clone()
        }
    }

    /// A value rounded as its unit is read, without the unit.
    pub(super) fn value(self, value: &Value) -> String {
        self.rounded(value.value, &value.unit)
    }

    /// A number rounded as its unit is read.
    pub(super) fn rounded(self, value: f64, unit: &str) -> String {
        self.number(&match unit {
            "lbf" | "N" => at_least(value, 0, 3),
            "kN" | "kip" => at_least(value, 2, 3),
            "lbf ft" | "lbf in" => decimals(value, 0),
            "in" => decimals(value, 3),
            "mm" => decimals(value, 1),
            "ft" | "m" | "kN m" | "kip ft" => decimals(value, 2),
            "plf" | "psf" | "lbf/in" => trimmed(&decimals(value, 1)),
            "kN/m" | "kPa" => trimmed(&decimals(value, 2)),
            "psi" | "MPa" => figures(value, 4),
            _ => trimmed(&figures(value, 5)),
        })
    }

    /// A value with its unit.
    pub(super) fn with_unit(self, value: &Value) -> String {
        if value.unit.is_empty() { self.value(value) } else { format!("{} {}", self.value(value), raised(&value.unit)) }
    }

    /// A value of a table as it was read, without noughts behind.
    pub(super) fn as_read(self, value: &Value) -> String {
        let number = self.number(&trimmed(&figures(value.value, 6)));
        if value.unit.is_empty() { number } else { format!("{number} {}", raised(&value.unit)) }
    }

    /// A length as it is said on site: `13 ft 6 in`, `4115 mm`.
    pub(super) fn length(self, length: Length) -> String {
        if !self.feet {
            return format!("{} mm", self.number(&trimmed(&decimals(length.value(), 1))));
        }
        match sixteenths(length) {
            Some(n) if n < 192 => format!("{} in", inches(n)),
            Some(n) => format!("{} ft {} in", n / 192, inches(n % 192)),
            None => format!("{} ft", decimals(length.number_in(&FT), 3)),
        }
    }

    /// A value in the other system of units, four figures; none where there is no such unit.
    pub(super) fn other(self, value: f64, unit: &str) -> Option<String> {
        const PAIRS: [(&Unit, &Unit); 6] = [(&PSI, &MPA), (&LBF, &KN), (&LBF_FT, &KN_M), (&PLF, &KN_PER_M), (&IN, &MM), (&FT, &MM)];
        let (from, to) = PAIRS.iter().find_map(|(a, b)| match unit {
            u if u == a.name => Some((a, b)),
            u if u == b.name => Some((b, a)),
            _ => None,
        })?;
        Some(format!("{} {}", self.number(&figures(to.number(value * from.factor), 4)), to.name))
    }

    /// A spacing: inches up to four feet.
    pub(super) fn spacing(self, length: Length) -> String {
        match sixteenths(length) {
            Some(n) if self.feet && n <= 768 => format!("{} in", inches(n)),
            None if self.feet && length.at_most(FT.of(4.0)) => format!("{} in", trimmed(&decimals(length.number_in(&IN), 2))),
            _ => self.length(length),
        }
    }

    /// A length in a crowded table: `13-6`, `4115`.
    pub(super) fn short_length(self, length: Length) -> String {
        if !self.feet {
            return self.number(&trimmed(&decimals(length.value(), 1)));
        }
        match sixteenths(length) {
            Some(n) => format!("{}-{}", n / 192, inches(n % 192)),
            None => decimals(length.number_in(&FT), 3),
        }
    }
}

/// A number's digits in groups, with a true minus sign.
pub(super) fn in_group(text: &str, between: &str) -> String {
    grouped(text, between).replace('-', "−")
}

/// A text with something else in place of the commas between digits.
fn ungrouped(text: &str, instead: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let digit = |at: Option<usize>| at.and_then(|i| letters.get(i)).is_some_and(char::is_ascii_digit);
    let mut changed = String::with_capacity(text.len());
    for (i, c) in letters.iter().enumerate() {
        if *c == ',' && digit(i.checked_sub(1)) && digit(Some(i + 1)) { changed.push_str(instead) } else { changed.push(*c) }
    }
    changed
}

/// Sixteenths of an inch, where the length is a whole number of them.
fn sixteenths(length: Length) -> Option<u64> {
    let sixteenths = length.number_in(&IN) * 16.0;
    let whole = sixteenths.round();
    ((sixteenths - whole).abs() < 0.02 && whole >= 0.0).then_some(whole as u64)
}

/// Inches from sixteenths: `6`, `3-1/2`, `5/8`.
fn inches(sixteenths: u64) -> String {
    let (whole, part) = (sixteenths / 16, sixteenths % 16);
    if part == 0 {
        return whole.to_string();
    }
    let common = 1 << part.trailing_zeros();
    let fraction = format!("{}/{}", part / common, 16 / common);
    if whole == 0 { fraction } else { format!("{whole}-{fraction}") }
}

/// A number without noughts behind its point.
pub(super) fn trimmed(number: &str) -> String {
    if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.').to_owned() } else { number.to_owned() }
}

/// A unit with its power raised: `in2` is in².
pub(super) fn raised(unit: &str) -> String {
    [('2', "²"), ('3', "³"), ('4', "⁴"), ('6', "⁶")].iter().fold(unit.to_owned(), |text, (digit, raised)| text.replace(*digit, raised))
}

/// The governing ratio of a member; a dash where no check governs.
pub(super) fn governing(member: &Member) -> String {
    if member.is_governed() { ratio(member.governing.ratio) } else { "–".to_owned() }
}

/// The governing ratio on its scale mark.
pub(super) fn drawn_governing(member: &Member) -> Markup {
    on_scale(member.is_governed().then_some(member.governing.ratio))
}

/// A ratio on a scale mark, as the style sheet takes it: `none` where no check was made.
pub(super) fn on_scale(ratio: Option<f64>) -> Markup {
    Markup::ours(ratio.map_or_else(|| "none".to_owned(), |ratio| drawn(ratio).to_string()))
}

/// A ratio for the drawing of its scale mark: not-a-number stands where failures stand.
pub(super) fn drawn(ratio: f64) -> f64 {
    if ratio.is_finite() { ratio } else { 9.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FEET: Printing = Printing { feet: true };
    const METRIC: Printing = Printing { feet: false };

    #[test]
    fn lengths_are_said_as_on_site() {
        assert_eq!(FEET.length(FT.of(13.5)), "13 ft 6 in");
        assert_eq!(FEET.length(IN.of(1.5)), "1-1/2 in");
        assert_eq!(FEET.length(FT.of(8.0)), "8 ft 0 in");
        assert_eq!(FEET.length(IN.of(0.625)), "5/8 in");
        assert_eq!(FEET.spacing(FT.of(2.0)), "24 in");
        assert_eq!(FEET.short_length(FT.of(9.25)), "9-3");
        assert_eq!(METRIC.length(Length::new(4115.0)), "4115 mm");
    }

    #[test]
    fn numbers_are_grouped_with_a_true_minus() {
        assert_eq!(FEET.rounded(-17475.2, "lbf"), "−17,475");
        assert_eq!(METRIC.rounded(12.345, "kN"), "12.35");
        assert_eq!(METRIC.number("233,280,000"), "233\u{2009}280\u{2009}000");
        assert_eq!(ungrouped("min(30, 4,110/2)", ""), "min(30, 4110/2)");
    }
}
