//! Pocket-calculator digits: each line is printed with the fewest figures that give the printed result.
//!
//! A letter is printed with one number of figures wherever it stands, so that a result is carried into later lines as it was printed.

use super::Coherent;
use super::print::conversion;
use super::tape::{Node, Written};
use crate::units::{Letter, Op, decimals, figures, is_short};
use std::cell::Cell;

/// Fewest figures a value is printed with.
pub(super) const FEWEST: usize = 4;
/// Most figures a value is printed with; a line that needs more says that it was worked with unrounded values.
pub(super) const MOST: usize = 7;

/// Figures by node; only the entries of named nodes mean anything.
pub(super) struct Digits {
    /// Figures by letter's node.
    pub by_node: Vec<usize>,
    /// Steps that no number of figures up to [`MOST`] makes true.
    pub unrounded: Vec<bool>,
    /// The node that holds the result of each step.
    pub results: Vec<usize>,
    /// The set of units in which each step is worked.
    pub sets: Vec<Coherent>,
}

/// The values of a tape as printed, each rounded once for each number of figures.
pub(super) struct Rounded<'a> {
    nodes: &'a [Node],
    /// Not-a-number where nobody has asked yet.
    known: Vec<[Cell<f64>; MOST + 1 - FEWEST]>,
}

impl<'a> Rounded<'a> {
    /// Nothing rounded yet.
    pub fn of(nodes: &'a [Node]) -> Self {
        Self { nodes, known: nodes.iter().map(|_| [const { Cell::new(f64::NAN) }; MOST + 1 - FEWEST]).collect() }
    }

    /// A named value as it is printed with `n` figures, in the unit it is shown in.
    fn printed(&self, at: usize, shown: f64, n: usize) -> f64 {
        let Some(known) = self.known[at].get(n.wrapping_sub(FEWEST)) else { return rounded(shown, n) };
        if known.get().is_nan() {
            known.set(rounded(shown, n));
        }
        known.get()
    }
}

fn rounded(shown: f64, n: usize) -> f64 {
    figures(shown, n).parse().unwrap_or(shown)
}

/// Chooses the figures of every value on a tape.
pub(super) fn choose(nodes: &[Node], steps: &[Written], sets: &[Coherent]) -> Digits {
    let mut results = vec![0; steps.len()];
    for (at, node) in nodes.iter().enumerate() {
        if let Node::Named { step: Some(step), .. } = node {
            results[*step] = at;
        }
    }
    let sets: Vec<Coherent> = steps.iter().map(|step| super::print::set_for(nodes, step, sets)).collect();
    let mut digits = Digits { by_node: vec![FEWEST; nodes.len()], unrounded: vec![false; steps.len()], results, sets };
    let values = Rounded::of(nodes);
    for _ in 0..MOST * steps.len().max(1) {
        let mut changed = false;
        for (i, step) in steps.iter().enumerate() {
            if digits.unrounded[i] || holds(&values, step, i, &digits) {
                continue;
            }
            let mut raisable = Vec::new();
            each_named(nodes, step.expression, &mut |at, letter, value| {
                let n = digits.by_node[at];
                let shown = letter.shown.number(value);
                if n < MOST && !is_short(shown, n) && !raisable.contains(&at) {
                    raisable.push(at);
                }
            });
            // One value with one more figure, where that is enough; else all of them.
            let enough = raisable.iter().copied().find(|at| {
                digits.by_node[*at] += 1;
                let holds = holds(&values, step, i, &digits);
                digits.by_node[*at] -= 1;
                holds
            });
            match enough {
                Some(at) => digits.by_node[at] += 1,
                None => raisable.iter().for_each(|at| digits.by_node[*at] += 1),
            }
            digits.unrounded[i] = raisable.is_empty();
            changed = true;
        }
        if !changed {
            break;
        }
    }
    digits
}

/// The plain letter of a check's final ratio.
pub(super) const RATIO: &str = "ratio";

/// A ratio with three places, and with as many more as show that one above 1 is above it.
pub(super) fn ratio(number: f64) -> String {
    let fails = |text: &str| number > 1.0 + 1e-9 && text.parse() == Ok(1.0);
    (3..=9).map(|places| decimals(number, places)).find(|text| !fails(text)).unwrap_or_else(|| decimals(number, 9))
}

fn holds(values: &Rounded<'_>, step: &Written, i: usize, digits: &Digits) -> bool {
    let set = digits.sets[i];
    let shown = rework(values, step.expression, &digits.by_node, set) * coherent_to_shown(step.letter, set);
    let exact = step.letter.shown.number(step.value);
    if shown == exact {
        return true;
    }
    let n = digits.by_node[digits.results[i]];
    let printed = |number: f64| if step.letter.plain == RATIO { ratio(number) } else { figures(number, n) };
    printed(shown) == printed(exact)
}

fn coherent_to_shown(letter: &Letter, set: Coherent) -> f64 {
    1.0 / conversion(letter, set)
}

/// The expression worked again with the printed figures, in the coherent units of the line.
pub(super) fn rework(values: &Rounded<'_>, at: u32, digits: &[usize], set: Coherent) -> f64 {
    match values.nodes[at as usize] {
        Node::Literal { value, unit } => value / unit.factor * super::print::factor_in(unit, set),
        Node::Named { letter, value, .. } => {
            values.printed(at as usize, letter.shown.number(value), digits[at as usize]) * conversion(letter, set)
        }
        Node::One(op, a) => {
            let a = rework(values, a, digits, set);
            match op {
                Op::Sqrt => a.sqrt(),
                Op::Square => a * a,
                Op::Cube => a * a * a,
                Op::Power(n) => libm::pow(a, n),
                Op::Ln => libm::log(a),
                _ => f64::NAN,
            }
        }
        Node::Two(op, a, b) => {
            let (a, b) = (rework(values, a, digits, set), rework(values, b, digits, set));
            match op {
                Op::Add => a + b,
                Op::Sub => a - b,
                Op::Mul => a * b,
                Op::Div => a / b,
                Op::Min => a.min(b),
                Op::Max => a.max(b),
                Op::Raise => libm::pow(a, b),
                _ => f64::NAN,
            }
        }
    }
}

/// Calls `visit` for every named value in an expression, from the left.
pub(super) fn each_named(nodes: &[Node], at: u32, visit: &mut impl FnMut(usize, &'static Letter, f64)) {
    match nodes[at as usize] {
        Node::Literal { .. } => {}
        Node::Named { letter, value, .. } => visit(at as usize, letter, value),
        Node::One(_, a) => each_named(nodes, a, visit),
        Node::Two(_, a, b) => {
            each_named(nodes, a, visit);
            each_named(nodes, b, visit);
        }
    }
}
