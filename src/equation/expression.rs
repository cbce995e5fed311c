//! An expression in its forms: letters or numbers, in plain characters, as Typst math or in words.

use super::print::{Texts, conversion, factor_in, shortest};
use super::tape::Node;
use super::{Coherent, Letter};
use crate::units::{Op, push_grouped};
use std::fmt::Write as _;

/// How tightly an expression holds together, loosest first.
const SUM: u8 = 1;
const PRODUCT: u8 = 2;
const POWER: u8 = 8;
const ATOM: u8 = 9;

/// In what an expression is written.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// Plain characters.
    Plain,
    /// Typst math.
    Typst,
    /// Words.
    Words,
}

/// Writes the expressions of one line in one form.
#[derive(Clone, Copy)]
pub(super) struct Printer<'a> {
    pub texts: &'a Texts<'a>,
    pub set: Coherent,
    /// The line as it stands in the source, for the literals of the standard.
    pub source: &'a str,
    pub form: Form,
    /// Numbers in place of letters.
    pub numbers: bool,
}

impl Printer<'_> {
    /// An expression.
    pub fn print(&self, at: u32) -> String {
        let mut text = String::new();
        self.put(at, &mut text);
        text
    }

    /// An expression at the end of a text.
    pub fn put(&self, at: u32, text: &mut String) {
        match self.node(at) {
            Node::Literal { value, unit } => self.converted(&literal(value / unit.factor, self.source), factor_in(unit, self.set), text),
            Node::Named { letter, .. } if !self.numbers => text.push_str(self.letter(letter)),
            Node::Named { letter, .. } => {
                let (number, factor) = (self.texts.of_node(at as usize), conversion(letter, self.set));
                if number.starts_with('-') {
                    self.bracketed(text, |text| self.converted(number, factor, text));
                } else {
                    self.converted(number, factor, text);
                }
            }
            Node::One(op, a) => self.one(op, a, text),
            Node::Two(op, a, b) => self.two(op, a, b, text),
        }
    }

    /// An expression that must hold together at least so tightly, else it stands in brackets.
    fn tight(&self, at: u32, least: u8, text: &mut String) {
        if self.level(at) < least {
            self.bracketed(text, |text| self.put(at, text));
        } else {
            self.put(at, text);
        }
    }

    /// How tightly an expression holds together as [`Printer::put`] writes it.
    fn level(&self, at: u32) -> u8 {
        let number = |factor| if self.converts(factor) { PRODUCT } else { ATOM };
        match self.node(at) {
            Node::Literal { unit, .. } => number(factor_in(unit, self.set)),
            Node::Named { letter, .. } if self.numbers && !self.texts.of_node(at as usize).starts_with('-') => {
                number(conversion(letter, self.set))
            }
            Node::Named { .. } => ATOM,
            Node::One(Op::Square, a) if self.function(a).is_some() => ATOM,
            Node::One(Op::Square | Op::Cube | Op::Power(_), _) => POWER,
            Node::One(..) => ATOM,
            Node::Two(Op::Add | Op::Sub, ..) => SUM,
            Node::Two(Op::Mul, ..) => PRODUCT,
            Node::Two(Op::Div, a, b) => {
                if self.built_up(a, b) {
                    POWER
                } else {
                    PRODUCT
                }
            }
            Node::Two(Op::Raise, ..) => POWER,
            Node::Two(..) => ATOM,
        }
    }

    fn node(&self, at: u32) -> Node {
        self.texts.nodes[at as usize]
    }

    fn letter(&self, letter: &'static Letter) -> &'static str {
        match self.form {
            Form::Plain => letter.plain,
            Form::Typst => letter.typst,
            Form::Words => letter.words,
        }
    }

    /// Whether a number is written with what makes it coherent.
    fn converts(&self, factor: f64) -> bool {
        factor != 1.0 && (self.numbers || self.form == Form::Words)
    }

    /// A number and what it must be multiplied by to be coherent.
    fn converted(&self, number: &str, factor: f64, text: &mut String) {
        self.number(number, text);
        if self.converts(factor) {
            let words = self.form == Form::Words;
            let (sign, factor) = if factor > 1.0 { (self.times(), factor) } else { (self.over(), 1.0 / factor) };
            text.push_str(sign);
            self.number(&power_of_ten(factor, words), text);
        }
    }

    fn number(&self, number: &str, text: &mut String) {
        if self.form != Form::Typst {
            return push_grouped(text, number, ",");
        }
        let size = number.strip_prefix('-').inspect(|_| text.push('−')).unwrap_or(number);
        // A comma inside a Typst number would be taken as a list: it is set as an ordinary character.
        push_grouped(text, size, "class(\"normal\", \",\")");
    }

    fn one(&self, op: Op, a: u32, text: &mut String) {
        let words = self.form == Form::Words;
        let (before, after) = match op {
            Op::Square => return self.square(a, text),
            Op::Cube => return self.power(a, if words { " cubed" } else { "^3" }, text),
            Op::Power(n) => {
                self.power(a, if words { " to the power " } else { "^" }, text);
                let _ = write!(text, "{n}");
                return;
            }
            Op::Sqrt if words => ("the square root of ", ""),
            Op::Sqrt => ("sqrt(", ")"),
            Op::Ln if words => ("the natural logarithm of ", ""),
            Op::Ln => ("ln(", ")"),
            _ => ("", ""),
        };
        text.push_str(before);
        self.put(a, text);
        text.push_str(after);
    }

    fn square(&self, a: u32, text: &mut String) {
        let words = self.form == Form::Words;
        // (L²)² is L⁴.
        if let Node::One(Op::Square, base) = self.node(a) {
            return self.power(base, if words { " to the power 4" } else { "^4" }, text);
        }
        if let Some((name, angle)) = self.function(a) {
            let _ = write!(text, "{name}^2 {angle}");
            return;
        }
        self.power(a, if words { " squared" } else { "^2" }, text);
    }

    /// The function and the angle of a letter whose square is written as sin² θ.
    fn function(&self, at: u32) -> Option<(&'static str, &'static str)> {
        match self.node(at) {
            Node::Named { letter, .. } if self.form == Form::Typst && !self.numbers => {
                letter.typst.split_once(' ').filter(|(name, _)| matches!(*name, "sin" | "cos"))
            }
            _ => None,
        }
    }

    fn power(&self, base: u32, power: &str, text: &mut String) {
        self.tight(base, ATOM, text);
        text.push_str(power);
    }

    fn two(&self, op: Op, a: u32, b: u32, text: &mut String) {
        let words = self.form == Form::Words;
        let joined = |text: &mut String, [before, between, after]: [&str; 3]| {
            text.push_str(before);
            self.put(a, text);
            text.push_str(between);
            self.put(b, text);
            text.push_str(after);
        };
        let (sign, [left, right]) = match op {
            Op::Add => (if words { " plus " } else { " + " }, [SUM, SUM]),
            Op::Sub => (self.minus(), [SUM, PRODUCT]),
            Op::Mul => (self.times(), [PRODUCT, PRODUCT + 1]),
            Op::Div if self.built_up(a, b) => return joined(text, ["frac(", ", ", ")"]),
            Op::Div => (self.over(), [PRODUCT, PRODUCT + 1]),
            Op::Raise if words => (" to the power ", [ATOM, ATOM]),
            Op::Raise => {
                self.power(a, "^", text);
                return self.enclosed(text, ["(", ")"], |text| self.put(b, text));
            }
            Op::Min if words => return joined(text, ["the smaller of ", " and ", ""]),
            Op::Max if words => return joined(text, ["the larger of ", " and ", ""]),
            Op::Min => return joined(text, ["min(", ", ", ")"]),
            Op::Max => return joined(text, ["max(", ", ", ")"]),
            _ => return,
        };
        self.tight(a, left, text);
        text.push_str(sign);
        self.tight(b, right, text);
    }

    /// Whether a quotient is built up, in Typst: one part is a product, a sum or a quotient. Decided on the letters, so that both forms
    /// look alike.
    fn built_up(&self, a: u32, b: u32) -> bool {
        let plain = |at: u32| matches!(self.node(at), Node::Literal { .. } | Node::Named { .. });
        self.form == Form::Typst && !(plain(a) && plain(b))
    }

    fn bracketed(&self, text: &mut String, inside: impl FnOnce(&mut String)) {
        let brackets = if self.form == Form::Words { ["the quantity ", ", end of quantity"] } else { ["(", ")"] };
        self.enclosed(text, brackets, inside);
    }

    fn enclosed(&self, text: &mut String, [before, after]: [&str; 2], inside: impl FnOnce(&mut String)) {
        text.push_str(before);
        inside(text);
        text.push_str(after);
    }

    fn times(&self) -> &'static str {
        match (self.form, self.numbers) {
            (Form::Words, _) | (Form::Typst, true) => " times ",
            (Form::Typst, false) => " thin ",
            (Form::Plain, true) => " x ",
            (Form::Plain, false) => " ",
        }
    }

    fn over(&self) -> &'static str {
        match self.form {
            Form::Words => " over ",
            Form::Typst => " slash ",
            Form::Plain => " / ",
        }
    }

    fn minus(&self) -> &'static str {
        match self.form {
            Form::Words => " minus ",
            Form::Typst => " − ",
            Form::Plain => " - ",
        }
    }
}

/// A factor between units: whole tens as a power in print.
fn power_of_ten(factor: f64, words: bool) -> String {
    let exponent = libm::round(libm::log10(factor));
    if exponent >= 3.0 && (libm::exp10(exponent) / factor - 1.0).abs() < 1e-9 && !words {
        format!("10^{exponent}")
    } else {
        shortest(factor)
    }
}

/// A literal as it was written, whole numbers without a point: `1.20` stays, `2.0` is 2.
fn literal(number: f64, source: &str) -> String {
    if number == number.trunc() {
        return format!("{number:.0}");
    }
    let is_part = |c: char| c.is_ascii_digit() || c == '.';
    source
        .split(|c: char| !is_part(c) && c != '_')
        .find(|word| word.starts_with(|c: char| c.is_ascii_digit()) && word.parse::<f64>().is_ok_and(|v| v == number))
        .map_or_else(|| shortest(number), str::to_owned)
}
