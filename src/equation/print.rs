//! Printing a tape: a step a line, each with its value, its source and its expression in every form.

use super::expression::{Form, Printer};
use super::rework::{self, Digits, FEWEST};
use super::tape::{Node, Tape, Written};
use super::{Coherent, Equation, Facts, Letter, Step};
use crate::units::{self, Unit, figures, grouped, is_short};
use std::cell::OnceCell;

impl Tape {
    /// All steps as printed; a value with a [`Fact`](super::Fact) is a step of its own before the line that first uses it.
    ///
    /// `sets` are the coherent sets of units that the code prints in; for each line the one that needs the fewest conversions is taken.
    pub fn steps(&self, facts: &Facts, sets: &[Coherent]) -> Vec<Step> {
        let (nodes, written) = (self.nodes.borrow(), self.steps.borrow());
        let digits = rework::choose(&nodes, &written, sets);
        let texts = Texts::of(&nodes, &digits.by_node);
        let mut steps = Vec::with_capacity(2 * written.len());
        let mut stated: Vec<&'static Letter> = Vec::new();
        for (i, line) in written.iter().enumerate() {
            rework::each_named(&nodes, line.expression, &mut |at, letter, value| {
                let given = matches!(nodes[at], Node::Named { step: None, .. });
                if !given || stated.iter().any(|known| std::ptr::eq(*known, letter)) {
                    return;
                }
                if let Some(fact) = facts.of(letter) {
                    stated.push(letter);
                    let printed = texts.of_node(at);
                    steps.push(Step {
                        reference: fact.reference.to_string(),
                        because: fact.because.to_string(),
                        ..step(letter, value, printed)
                    });
                }
            });
            steps.push(self.line(line, i, &digits, &texts));
        }
        steps
    }

    fn line(&self, line: &Written, i: usize, digits: &Digits, texts: &Texts<'_>) -> Step {
        let printed = texts.of_node(digits.results[i]);
        let printer = Printer { texts, set: digits.sets[i], source: line.line.source, form: Form::Plain, numbers: false };
        let [letters, numbers] = [false, true].map(|numbers| Printer { numbers, ..printer });
        let bare = matches!(texts.nodes[line.expression as usize], Node::Literal { .. });
        let equation = || Equation {
            plain: letters.print(line.expression),
            substituted: numbers.print(line.expression),
            typst: Printer { form: Form::Typst, ..letters }.print(line.expression),
            typst_substituted: Printer { form: Form::Typst, ..numbers }.print(line.expression),
            words: {
                let mut words = format!("{} equals ", line.letter.words);
                Printer { form: Form::Words, ..letters }.put(line.expression, &mut words);
                words.push_str(", equals ");
                Printer { form: Form::Words, ..numbers }.put(line.expression, &mut words);
                words.push_str(", equals ");
                words.push_str(printed);
                if !line.letter.shown.name.is_empty() {
                    words.push(' ');
                    words.push_str(spoken(line.letter.shown));
                }
                words
            },
            unrounded: digits.unrounded[i],
        };
        Step {
            reference: line.line.clause.to_owned(),
            because: line.line.because.to_owned(),
            equation: (!bare).then(equation),
            ..step(line.letter, line.value, printed)
        }
    }
}

/// The named values of a tape as printed, each put together when it is first asked for.
pub(super) struct Texts<'a> {
    pub nodes: &'a [Node],
    digits: &'a [usize],
    known: Vec<OnceCell<String>>,
}

impl<'a> Texts<'a> {
    fn of(nodes: &'a [Node], digits: &'a [usize]) -> Self {
        Self { nodes, digits, known: nodes.iter().map(|_| OnceCell::new()).collect() }
    }

    /// The value of a named node; nothing of any other.
    pub fn of_node(&self, at: usize) -> &str {
        self.known[at].get_or_init(|| match self.nodes[at] {
            Node::Named { letter, value, .. } => shown(letter, value, self.digits[at]),
            _ => String::new(),
        })
    }
}

fn step(letter: &Letter, value: f64, printed: &str) -> Step {
    Step {
        symbol: letter.plain.to_owned(),
        typst: letter.typst.to_owned(),
        words: letter.words.to_owned(),
        value: units::rounded(letter.shown.number(value), 10),
        unit: letter.shown.name.to_owned(),
        printed: grouped(printed, ","),
        reference: String::new(),
        because: String::new(),
        equation: None,
    }
}

/// A value of a letter as printed: whole where few figures say it whole (a ratio keeps one place: 1.0), else with `n` figures.
fn shown(letter: &Letter, value: f64, n: usize) -> String {
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

/// The number with the fewest places that say it whole, up to nine.
pub(super) fn shortest(number: f64) -> String {
    units::shortest(number, 9).unwrap_or_else(|| figures(number, FEWEST))
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
    sets.iter().copied().min_by_key(cost).unwrap_or(sets[0])
}
