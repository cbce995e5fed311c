//! Pocket-calculator digits: each line is printed with the fewest figures that give the printed result.
//!
//! A letter is printed with one number of figures wherever it stands, so that a result is carried into later lines as it was printed.

use super::Coherent;
use super::print::conversion;
use super::tape::{Node, Written};
use crate::units::{Letter, Op, decimals, is_short, rounded};

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
    for _ in 0..MOST * steps.len().max(1) {
        let mut changed = false;
        for (i, step) in steps.iter().enumerate() {
            if digits.unrounded[i] || holds(nodes, step, i, &digits) {
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
                let holds = holds(nodes, step, i, &digits);
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

fn holds(nodes: &[Node], step: &Written, i: usize, digits: &Digits) -> bool {
    let set = digits.sets[i];
    let shown = rework(nodes, step.expression, &digits.by_node, set) * coherent_to_shown(step.letter, set);
    let exact = step.letter.shown.number(step.value);
    if shown == exact {
        return true;
    }
    let n = digits.by_node[digits.results[i]];
    if step.letter.plain == RATIO {
        return ratio(shown) == ratio(exact);
    }
    let (shown, exact) = (rounded(shown, n), rounded(exact, n));
    shown == exact || (shown.is_nan() && exact.is_nan())
}

fn coherent_to_shown(letter: &Letter, set: Coherent) -> f64 {
    1.0 / conversion(letter, set)
}

/// The expression worked again with the printed figures, in the coherent units of the line.
fn rework(nodes: &[Node], at: u32, digits: &[usize], set: Coherent) -> f64 {
    match nodes[at as usize] {
        Node::Literal { value, unit } => value / unit.factor * super::print::factor_in(unit, set),
        Node::Named { letter, value, .. } => rounded(letter.shown.number(value), digits[at as usize]) * conversion(letter, set),
        Node::One(op, a) => {
            let a = rework(nodes, a, digits, set);
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
            let (a, b) = (rework(nodes, a, digits, set), rework(nodes, b, digits, set));
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
