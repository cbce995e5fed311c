//! One line of calculation: its letters and numbers, row by row, its result, and the clause in the margin.

use super::formula::{self, Extent, SURE};
use super::height::{self, SMALL_PITCH, TEXT};
use super::{Scene, briefly};
use crate::equation::{Equation, Step};
use crate::package::drawing::{MARGIN_WIDTH, width_of};
use crate::package::markup::{Markup, literal};
use crate::package::printing::raised;
use serde::Serialize;

/// One line of calculation.
#[derive(Debug, Serialize)]
pub(super) struct Line {
    words: String,
    letter: Markup,
    /// What stands on the right of the equals sign, a row each.
    rows: Vec<Markup>,
    result: Markup,
    /// What a long result takes of the room beside it, in points.
    extra: f64,
    clause: Markup,
    /// What stands under the line.
    why: Option<Markup>,
    /// How far the clause hangs below the line in the margin, in points.
    hangs: f64,
    /// Its numbers are built up, and want room between two lines of them.
    is_tall: bool,
    pub(super) keep: bool,
    #[serde(skip)]
    pub(super) height: f64,
}

/// Room of a line for its left-hand side, for its result, and for an equals sign, as the style sheet has it.
const LEFT: f64 = 50.0;
const RIGHT: f64 = 76.0;
const EQUALS: f64 = 12.6;
/// What a row that goes on from the one above stands in from its equals sign, on top of it.
const GOES_ON: f64 = 12.0;
/// A margin note longer than this stands under its line instead.
const MARGIN: usize = 27;

impl Line {
    /// Its result is the ratio of its check, which may be 1.0.
    pub(super) fn is_the_ratio(&mut self, printed: &str, passes: bool) {
        let limit = if passes { " ≤ 1.0" } else { " > 1.0" };
        self.result = Markup::ours(format!("strong({}) + {}", literal(printed), literal(limit)));
    }
}

/// Whether it is the last line of a check.
pub(super) fn is_ratio(step: &Step) -> bool {
    step.symbol == "ratio"
}

/// A line as it is printed; `keep` holds it to the next.
pub(super) fn line(scene: &Scene, step: &Step, keep: bool) -> Line {
    let equation = step.equation.as_ref().map(|e| scene.printing.equation(e));
    let number = scene.printing.number(&step.printed);
    let unit = if step.unit.is_empty() { String::new() } else { format!(" {}", raised(&step.unit)) };
    let result = if is_ratio(step) { format!("strong({})", literal(&number)) } else { literal(&format!("{number}{unit}")) };
    let mut notes = briefly(scene, &step.reference);
    if let Some(other) = scene.printing.other(step.value, &step.unit).filter(|_| scene.job.basis.show_both_units) {
        notes = format!("{notes} ({other})");
    }
    let mut under = Vec::new();
    let because = step.because.trim();
    if !because.is_empty() {
        if step.equation.is_some() && notes.chars().count() + because.chars().count() + 2 <= MARGIN {
            notes = joined(&notes, because)
        } else {
            under.push(because.to_owned())
        }
    }
    if equation.as_ref().is_some_and(|e| e.unrounded) {
        under.push("Worked with unrounded values; the printed ones do not give the last figure.".to_owned());
    }
    let words = equation.as_ref().map_or_else(|| format!("{} equals {number}{unit}", step.words), |e| e.words.clone());
    let room = scene.room().0 - LEFT - RIGHT;
    let mut why = (!under.is_empty()).then(|| scene.lexicon.set(&under.join(" ")));
    let mut letter = Markup::formula(&step.typst);
    let (rows, height) = match &equation {
        Some(e) => {
            let set = Rows::of(e, is_ratio(step), room);
            if set.left {
                letter = Markup::formula(&e.typst);
            }
            (set.rows, set.height)
        }
        // What a value was taken from stands between letter and value, where it fits.
        None => {
            let inline = why.take_if(|w| 11.0 + 1.05 * width_of(w.plain()) <= room);
            let row = inline.map_or_else(|| "[]".to_owned(), |w| format!("reason([{}])", w.source()));
            (vec![Markup::ours(row)], formula::extent(&step.typst).height())
        }
    };
    let reason = why.as_ref().map_or(0.0, |w| 8.0 + SMALL_PITCH * (height::lines(w.plain(), 1.0, room + RIGHT - 11.0) - 1.0));
    let hangs = ((height::lines(&notes, 1.0, MARGIN_WIDTH) - 1.0) * SMALL_PITCH - (height - formula::ROW) - reason).max(0.0);
    let extra = (EQUALS + 1.06 * TEXT * width_of(&format!("{number}{unit}")) - RIGHT).max(0.0);
    Line {
        words,
        letter,
        rows,
        extra,
        result: Markup::ours(result),
        clause: scene.lexicon.set(&notes),
        why,
        hangs,
        is_tall: equation.as_ref().is_some_and(|e| e.typst_substituted.contains("frac(")),
        keep,
        height: 5.4 + height + reason + hangs,
    }
}

/// How the letters and numbers of a line stand.
struct Rows {
    /// What stands on the right of the equals sign, row by row.
    rows: Vec<Markup>,
    /// How tall they are.
    height: f64,
    /// The letters stand on the left, in place of the letter.
    left: bool,
}

impl Rows {
    /// Letters and numbers side by side where there is room; else the numbers under the letters, broken before a factor.
    fn of(equation: &Equation, ratio: bool, room: f64) -> Self {
        let (letters, numbers) = (formula::extent(&equation.typst), formula::extent(&equation.typst_substituted));
        let both = equation.typst != equation.typst_substituted;
        let row = |text: &str| Markup::ours(format!("row($= {text}$)"));
        let fits = |wide: f64| SURE * wide <= room;
        // The letters of a ratio stand on the left, where they fit; a fraction would be too small there.
        let left = ratio && SURE * letters.width <= LEFT && !equation.typst.contains("frac(");
        let wide = |formula: Extent| EQUALS + formula.width;
        let above = both && !left;
        if fits(wide(numbers) + if above { wide(letters) } else { 0.0 }) {
            let numbers_only = &equation.typst_substituted;
            let all = if above { format!("{} = {numbers_only}", equation.typst) } else { numbers_only.clone() };
            return Self { rows: vec![row(&all)], height: letters.beside(numbers).height(), left };
        }
        let mut rows: Vec<String> = Vec::new();
        let mut used = f64::INFINITY;
        for part in factors(&equation.typst_substituted) {
            let wide = formula::extent(&part).width;
            match rows.last_mut() {
                Some(last) if fits(used + wide) => {
                    last.push_str(&part);
                    used += wide;
                }
                last => {
                    used = if last.is_some() { GOES_ON } else { EQUALS } + wide;
                    rows.push(part);
                }
            }
        }
        // What is wider than its room has its result on a row of its own.
        let over = !fits(used);
        let count = rows.len() as f64;
        let between = if equation.typst_substituted.contains("frac(") { 6.0 } else { 1.8 };
        let symbols = above.then(|| row(&equation.typst));
        let set = rows.iter().enumerate().map(|(i, text)| if i == 0 { row(text) } else { Markup::ours(format!("further($\"\"{text}$)")) });
        Self {
            rows: symbols.into_iter().chain(set).chain(over.then(|| Markup::ours("[]".to_owned()))).collect(),
            height: if above { letters.height() + between } else { 0.0 }
                + count * numbers.height()
                + (count - 1.0) * between
                + if over { formula::ROW + between } else { 0.0 },
            left,
        }
    }
}

fn joined(a: &str, b: &str) -> String {
    if a.is_empty() { b.to_owned() } else { format!("{a}; {b}") }
}

/// The numbers of a line, cut before each factor or term that no bracket holds, where a long line may break.
fn factors(numbers: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    let mut depth = 0_i32;
    let mut start = 0;
    for (at, c) in numbers.char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            ' ' if depth == 0 && at > start && [" times ", " + ", " − "].iter().any(|sign| numbers[at..].starts_with(sign)) => {
                parts.push(numbers[start..at].to_owned());
                start = at;
            }
            _ => {}
        }
    }
    parts.push(numbers[start..].to_owned());
    parts
}
