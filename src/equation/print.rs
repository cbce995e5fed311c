//! Printing a tape: symbols, numbers, plain characters, words.

use super::rework::{self, Digits, FEWEST};
use super::tape::{Node, Tape, Written};
use super::{Coherent, Equation, Facts, Letter, Step};
use crate::units::{Op, Unit, figures, grouped, is_short, places_of};

/// How tightly an expression holds together, loosest first.
const SUM: u8 = 1;
const PRODUCT: u8 = 2;
const POWER: u8 = 8;
const ATOM: u8 = 9;

impl Tape {
    /// All steps as printed; a value with a [`Fact`](super::Fact) is a step of its own before the line that first uses it.
    ///
    /// `sets` are the coherent sets of units that the code prints in; for each line the one that needs the fewest conversions is taken.
    pub fn steps(&self, facts: &Facts, sets: &[Coherent]) -> Vec<Step> {
        let (nodes, written) = (self.nodes.borrow(), self.steps.borrow());
        let digits = rework::choose(&nodes, &written, sets);
        let mut steps = Vec::new();
        let mut stated: Vec<&'static Letter> = Vec::new();
        for (i, line) in written.iter().enumerate() {
            rework::each_named(&nodes, line.expression, &mut |at, letter, value| {
                let given = matches!(nodes[at], Node::Named { step: None, .. });
                if let Some(fact) = facts.of(letter).filter(|_| given && !stated.iter().any(|known| std::ptr::eq(*known, letter))) {
                    stated.push(letter);
                    let printed = shown(letter, value, digits.by_node[at]);
                    steps.push(Step { reference: fact.reference.clone(), because: fact.because.clone(), ..step(letter, value, printed) });
                }
            });
            steps.push(self.line(&nodes, line, i, &digits));
        }
        steps
    }

    fn line(&self, nodes: &[Node], line: &Written, i: usize, digits: &Digits) -> Step {
        let set = digits.sets[i];
        let n = digits.by_node[digits.results[i]];
        let printed = shown(line.letter, line.value, n);
        let print = |style| Printer { nodes, digits: &digits.by_node, set, style, source: line.line.source }.print(line.expression);
        let bare = matches!(nodes[line.expression as usize], Node::Literal { .. });
        let unit = if line.letter.shown.name.is_empty() { String::new() } else { format!(" {}", spoken(line.letter.shown)) };
        let equation = Equation {
            plain: print(Style { typst: false, numbers: false, words: false }),
            substituted: print(Style { typst: false, numbers: true, words: false }),
            typst: print(Style { typst: true, numbers: false, words: false }),
            typst_substituted: print(Style { typst: true, numbers: true, words: false }),
            words: format!(
                "{} equals {}, equals {}, equals {printed}{unit}",
                line.letter.words,
                print(Style { typst: false, numbers: false, words: true }),
                print(Style { typst: false, numbers: true, words: true }),
            ),
            unrounded: digits.unrounded[i],
        };
        Step {
            reference: line.line.clause.to_owned(),
            because: line.line.because.to_owned(),
            equation: (!bare).then_some(equation),
            ..step(line.letter, line.value, printed)
        }
    }
}

fn step(letter: &Letter, value: f64, printed: String) -> Step {
    Step {
        symbol: letter.plain.to_owned(),
        typst: letter.typst.to_owned(),
        words: letter.words.to_owned(),
        value: ten_figures(letter.shown.number(value)),
        unit: letter.shown.name.to_owned(),
        printed: grouped(&printed, ","),
        reference: String::new(),
        because: String::new(),
        equation: None,
    }
}

/// A value rounded to ten figures, so that last bits never show as a change.
fn ten_figures(value: f64) -> f64 {
    figures(value, 10).parse().unwrap_or(value)
}

/// A value of a letter as printed: whole where few figures say it whole (a ratio keeps one place: 1.0), else with `n` figures.
pub(super) fn shown(letter: &Letter, value: f64, n: usize) -> String {
    let number = letter.shown.number(value);
    if letter.plain == rework::RATIO {
        return rework::ratio(number);
    }
    if !is_short(number, n.max(FEWEST)) {
        return figures(number, n);
    }
    let text = shortest(number);
    if letter.exponents == [0, 0, 0] && !text.contains('.') { format!("{text}.0") } else { text }
}

fn shortest(number: f64) -> String {
    places_of(number, 9).map_or_else(|| figures(number, FEWEST), |places| format!("{number:.places$}"))
}

/// The unit as it is said.
fn spoken(unit: &Unit) -> &'static str {
    match unit.name {
        "psi" => "pounds per square inch",
        "psf" => "pounds per square foot",
        "plf" => "pounds per foot",
        "lbf" => "pounds",
        "lbf ft" => "pound feet",
        "lbf in" => "pound inches",
        "in" => "inches",
        "ft" => "feet",
        "MPa" => "newtons per square millimetre",
        "kN" => "kilonewtons",
        "kN m" => "kilonewton metres",
        "kN/m" => "kilonewtons per metre",
        "mm" => "millimetres",
        "Hz" => "hertz",
        "kg/m2" => "kilograms per square metre",
        "N m2/m" => "newton square metres per metre",
        "m/(N s2)" => "metres per newton second squared",
        other => other,
    }
}

fn dimension_factor(exponents: crate::units::Exponents, set: Coherent) -> f64 {
    let power = |base: f64, n: i8| (0..n.unsigned_abs()).fold(1.0, |p, _| if n > 0 { p * base } else { p / base });
    power(set.length.factor, exponents[0]) * power(set.force.factor, exponents[1])
}

/// What a shown number is multiplied by to stand in a coherent line.
pub(super) fn conversion(letter: &Letter, set: Coherent) -> f64 {
    factor_in(letter.shown, set)
}

/// How many coherent units one of this unit is.
pub(super) fn factor_in(unit: &Unit, set: Coherent) -> f64 {
    let factor = unit.factor / dimension_factor(unit.exponents, set);
    if (factor - 1.0).abs() < 1e-9 { 1.0 } else { factor }
}

/// The set in which a line is worked: its result is coherent in it, and the fewest operands need a conversion.
pub(super) fn set_for(nodes: &[Node], line: &Written, sets: &[Coherent]) -> Coherent {
    let cost = |set: &Coherent| {
        let mut count = if factor_in(line.letter.shown, *set) == 1.0 { 0 } else { 100 };
        rework::each_named(nodes, line.expression, &mut |_, letter, _| count += usize::from(conversion(letter, *set) != 1.0));
        count
    };
    let mut best = sets[0];
    for set in &sets[1..] {
        if cost(set) < cost(&best) {
            best = *set;
        }
    }
    best
}

#[derive(Clone, Copy)]
struct Style {
    typst: bool,
    numbers: bool,
    words: bool,
}

struct Printer<'a> {
    nodes: &'a [Node],
    digits: &'a [usize],
    set: Coherent,
    style: Style,
    source: &'a str,
}

impl Printer<'_> {
    fn print(&self, at: u32) -> String {
        self.go(at).0
    }

    fn go(&self, at: u32) -> (String, u8) {
        match self.nodes[at as usize] {
            Node::Literal { value, unit } => {
                self.converted(self.number(&literal(value / unit.factor, self.source)), factor_in(unit, self.set))
            }
            Node::Named { letter, .. } if !self.style.numbers => {
                let text = if self.style.words {
                    letter.words
                } else if self.style.typst {
                    letter.typst
                } else {
                    letter.plain
                };
                (text.to_owned(), ATOM)
            }
            Node::Named { letter, value, .. } => {
                let text = shown(letter, value, self.digits[at as usize]);
                let (text, level) = self.converted(self.number(&text), conversion(letter, self.set));
                if text.starts_with(['-', '−']) { (self.bracket(text), ATOM) } else { (text, level) }
            }
            Node::One(op, a) => self.one(op, a),
            Node::Two(op, a, b) => self.two(op, a, b),
        }
    }

    /// A number and what it must be multiplied by to be coherent.
    fn converted(&self, text: String, factor: f64) -> (String, u8) {
        if factor == 1.0 || (!self.style.numbers && !self.style.words) {
            return (text, ATOM);
        }
        let (times, over) = if self.style.words { (" times ", " over ") } else { (self.times(), self.over()) };
        if factor > 1.0 {
            (format!("{text}{times}{}", self.number(&power_of_ten(factor, self.style))), PRODUCT)
        } else {
            (format!("{text}{over}{}", self.number(&power_of_ten(1.0 / factor, self.style))), PRODUCT)
        }
    }

    fn number(&self, text: &str) -> String {
        if !self.style.typst {
            return grouped(text, ",");
        }
        let minus = text.replace('-', "−");
        // A comma inside a Typst number would be taken as a list: it is set as an ordinary character.
        let grouped = grouped(&minus.replace('−', ""), "#sym.comma");
        let body = grouped.split("#sym.comma").collect::<Vec<_>>().join("class(\"normal\", \",\")");
        if minus.starts_with('−') { format!("−{body}") } else { body }
    }

    fn one(&self, op: Op, a: u32) -> (String, u8) {
        let inner = self.print(a);
        // (L²)² is L⁴.
        if let (Op::Square, Node::One(Op::Square, base)) = (op, self.nodes[a as usize]) {
            let base = self.tight(base, ATOM);
            return (if self.style.words { format!("{base} to the power 4") } else { format!("{base}^4") }, POWER);
        }
        // The square of a sine is sin² θ.
        if let (Op::Square, Node::Named { letter, .. }, Style { typst: true, numbers: false, .. }) =
            (op, self.nodes[a as usize], self.style)
            && let Some((name, angle)) = letter.typst.split_once(' ').filter(|(name, _)| matches!(*name, "sin" | "cos"))
        {
            return (format!("{name}^2 {angle}"), ATOM);
        }
        match (op, self.style) {
            (Op::Sqrt, Style { words: true, .. }) => (format!("the square root of {inner}"), ATOM),
            (Op::Sqrt, _) => (format!("sqrt({inner})"), ATOM),
            (Op::Square, Style { words: true, .. }) => (format!("{} squared", self.tight(a, ATOM)), POWER),
            (Op::Square, _) => (format!("{}^2", self.tight(a, ATOM)), POWER),
            (Op::Cube, Style { words: true, .. }) => (format!("{} cubed", self.tight(a, ATOM)), POWER),
            (Op::Cube, _) => (format!("{}^3", self.tight(a, ATOM)), POWER),
            (Op::Power(n), Style { words: true, .. }) => (format!("{} to the power {n}", self.tight(a, ATOM)), POWER),
            (Op::Power(n), Style { typst: true, .. }) => (format!("{}^{n}", self.tight(a, ATOM)), POWER),
            (Op::Power(n), _) => (format!("{}^{n}", self.tight(a, ATOM)), POWER),
            (Op::Ln, Style { words: true, .. }) => (format!("the natural logarithm of {inner}"), ATOM),
            (Op::Ln, _) => (format!("ln({inner})"), ATOM),
            _ => (inner, ATOM),
        }
    }

    fn two(&self, op: Op, a: u32, b: u32) -> (String, u8) {
        let words = self.style.words;
        match op {
            Op::Add => (format!("{}{}{}", self.tight(a, SUM), if words { " plus " } else { " + " }, self.tight(b, SUM)), SUM),
            Op::Sub => (
                format!(
                    "{}{}{}",
                    self.tight(a, SUM),
                    if words {
                        " minus "
                    } else if self.style.typst {
                        " − "
                    } else {
                        " - "
                    },
                    self.tight(b, PRODUCT)
                ),
                SUM,
            ),
            Op::Mul => (format!("{}{}{}", self.tight(a, PRODUCT), self.times(), self.tight(b, PRODUCT + 1)), PRODUCT),
            Op::Div if self.style.typst && self.built_up(a, b) => (format!("frac({}, {})", self.print(a), self.print(b)), POWER),
            Op::Div => (format!("{}{}{}", self.tight(a, PRODUCT), self.over(), self.tight(b, PRODUCT + 1)), PRODUCT),
            Op::Raise if words => (format!("{} to the power {}", self.tight(a, ATOM), self.tight(b, ATOM)), POWER),
            Op::Raise => (format!("{}^({})", self.tight(a, ATOM), self.print(b)), POWER),
            Op::Min | Op::Max => {
                let name = match (op, words) {
                    (Op::Min, true) => "the smaller of ",
                    (_, true) => "the larger of ",
                    (Op::Min, false) => "min",
                    _ => "max",
                };
                let (a, b) = (self.print(a), self.print(b));
                (if words { format!("{name}{a} and {b}") } else { format!("{name}({a}, {b})") }, ATOM)
            }
            _ => (String::new(), ATOM),
        }
    }

    /// Whether a quotient is built up: one part is a product, a sum or a quotient. Decided on the letters, so that both forms look alike.
    fn built_up(&self, a: u32, b: u32) -> bool {
        let plain = |at: u32| matches!(self.nodes[at as usize], Node::Literal { .. } | Node::Named { .. });
        !(plain(a) && plain(b))
    }

    fn tight(&self, at: u32, least: u8) -> String {
        let (text, level) = self.go(at);
        if level < least { self.bracket(text) } else { text }
    }

    fn bracket(&self, text: String) -> String {
        if self.style.words { format!("the quantity {text}, end of quantity") } else { format!("({text})") }
    }

    fn times(&self) -> &'static str {
        match self.style {
            Style { words: true, .. } => " times ",
            Style { typst: true, numbers: true, .. } => " times ",
            Style { typst: true, .. } => " thin ",
            Style { numbers: true, .. } => " x ",
            _ => " ",
        }
    }

    fn over(&self) -> &'static str {
        match self.style {
            Style { words: true, .. } => " over ",
            Style { typst: true, .. } => " slash ",
            _ => " / ",
        }
    }
}

/// A factor between units: whole tens as a power in print.
fn power_of_ten(factor: f64, style: Style) -> String {
    let exponent = libm::round(libm::log10(factor));
    if exponent >= 3.0 && (libm::exp10(exponent) / factor - 1.0).abs() < 1e-9 && !style.words {
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
