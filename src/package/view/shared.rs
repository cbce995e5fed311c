//! Lines that a sheet has worked already: a later check says their values and where they stand instead of working them again.

use super::Scene;
use crate::equation::Step;
use crate::package::markup::{Markup, inserted, literal};
use crate::package::printing::raised;

/// A line that says where values stand is worth it from so many lines on.
const WORTH: usize = 3;

/// The lines worked so far on a sheet, each with the check that has it.
#[derive(Default)]
pub(super) struct Above<'a>(Vec<(&'a Step, String)>);

impl<'a> Above<'a> {
    /// The lines of a check that are to be printed, and what is said of those that stand above; all of them where it is not worth it.
    pub(super) fn part(&self, scene: &Scene, steps: Vec<&'a Step>) -> (Vec<&'a Step>, Option<Markup>) {
        let (known, new): (Vec<&Step>, Vec<&Step>) = steps.iter().partition(|step| self.of(step).is_some());
        let used: Vec<&Step> = known.iter().copied().filter(|step| new.iter().any(|line| uses(line, &step.symbol))).collect();
        if known.len() < WORTH {
            return (steps, None);
        }
        (new, Some(self.said(scene, &used)))
    }

    /// Remembers the lines of a check that is printed whole in every form of its sheet.
    pub(super) fn learn(&mut self, check: &str, steps: &[&'a Step]) {
        for step in steps {
            if self.of(step).is_none() {
                self.0.push((step, check.to_owned()));
            }
        }
    }

    /// The check that has this very line: the same letter by the same way, and the same value.
    fn of(&self, step: &Step) -> Option<&str> {
        let letters = |step: &'_ Step| step.equation.as_ref().map(|e| e.plain.clone());
        let same = |known: &Step| {
            known.symbol == step.symbol
                && known.unit == step.unit
                && known.reference == step.reference
                && known.because == step.because
                && (known.value - step.value).abs() <= 1e-9 * step.value.abs()
                && letters(known) == letters(step)
        };
        self.0.iter().find(|(known, _)| same(known)).map(|(_, check)| check.as_str())
    }

    /// `f_c = 86.45 psi as in compression; E'_min = 580,000 psi as in bending and compression.`
    fn said(&self, scene: &Scene, used: &[&Step]) -> Markup {
        let mut groups: Vec<(&str, Vec<&Step>)> = Vec::new();
        for step in used {
            let Some(check) = self.of(step) else { continue };
            match groups.iter_mut().find(|(known, _)| *known == check) {
                Some((_, steps)) => steps.push(step),
                None => groups.push((check, vec![step])),
            }
        }
        let (mut source, mut plain) = (String::new(), String::new());
        for (i, (check, steps)) in groups.iter().enumerate() {
            for (j, step) in steps.iter().enumerate() {
                let between = if j > 0 {
                    ", "
                } else if i > 0 {
                    "; "
                } else {
                    ""
                };
                let unit = if step.unit.is_empty() { String::new() } else { format!(" {}", raised(&step.unit)) };
                let value = format!(" = {}{unit}", scene.printing.number(&step.printed));
                source.push_str(&format!("{}#m({}, ${}$){}", inserted(between), literal(&step.words), step.typst, inserted(&value)));
                plain.push_str(&format!("{between}{}{value}", step.symbol));
            }
            let end = format!(" as in {check} above{}", if i + 1 == groups.len() { "." } else { "" });
            source.push_str(&inserted(&end));
            plain.push_str(&end);
        }
        Markup::ours(source).read_as(plain)
    }
}

/// Whether a line's equation has a letter.
fn uses(line: &Step, symbol: &str) -> bool {
    let Some(equation) = &line.equation else { return false };
    let text = &equation.plain;
    let in_letter = |c: char| c.is_alphanumeric() || matches!(c, '_' | '\'' | '*');
    text.match_indices(symbol).any(|(at, _)| {
        let (before, after) = (text[..at].chars().next_back(), &text[at + symbol.len()..]);
        // `f_c,perp` goes on behind its comma, `min(a, b)` does not.
        let goes_on = after.starts_with(in_letter) || (after.starts_with([',', '/']) && !after[1..].starts_with(' '));
        !before.is_some_and(in_letter) && !goes_on
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equation::Equation;

    fn line(plain: &str) -> Step {
        let equation = Equation {
            plain: plain.to_owned(),
            substituted: String::new(),
            typst: String::new(),
            typst_substituted: String::new(),
            words: String::new(),
            unrounded: false,
        };
        Step {
            symbol: "x".to_owned(),
            typst: "x".to_owned(),
            words: "x".to_owned(),
            value: 1.0,
            unit: String::new(),
            printed: "1.0".to_owned(),
            reference: String::new(),
            because: String::new(),
            equation: Some(equation),
        }
    }

    #[test]
    fn a_letter_is_found_whole_or_not_at_all() {
        for (plain, symbol, found) in [
            ("f_c / F_cE2 + (f_b1 / F_bE)^2", "F_cE2", true),
            ("f_c / F_cE2 + (f_b1 / F_bE)^2", "F_cE", false),
            ("f_c / F_cE2 + (f_b1 / F_bE)^2", "f_c", true),
            ("F_c* C_P", "F_c", false),
            ("F_c* C_P", "F_c*", true),
            ("min(F_cE1, F_cE2)", "F_cE1", true),
            ("f_c,perp / F'_c,perp", "f_c", false),
            ("f_c,perp / F'_c,perp", "F'_c,perp", true),
            ("E'_min", "E", false),
        ] {
            assert_eq!(uses(&line(plain), symbol), found, "{symbol} in {plain}");
        }
    }
}
