//! The checks of a sheet, governing first, with their lines.

use super::height::{self, BOLD, Lines, PITCH, SMALL_PITCH, TEXT};
use super::line::{Line, is_ratio, line};
use super::plan::Pieces;
use super::shared::Above;
use super::sheet::FAILS;
use super::{Scene, briefly, sheet};
use crate::equation::{LOADS, Step};
use crate::package::drawing::MARGIN_WIDTH;
use crate::package::markup::{Lexicon, Markup, inserted, letter_as_seen, literal};
use crate::package::printing::raised;
use crate::package::{printing, words};
use crate::results::{Check as Found, Deflection, Member};
use serde::Serialize;

/// A check as printed.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Check {
    name: String,
    place: Markup,
    /// What stands above already and is not worked again.
    above: Option<Markup>,
    fails: bool,
    ratio: f64,
    printed: String,
    lines: Vec<Line>,
    table: Vec<Deflected>,
    /// In points: what is computed, and its limit.
    table_columns: [f64; 2],
    /// What lost, in short.
    lost: Option<Markup>,
    remarks: Vec<Markup>,
    /// The whole check in one line, where that is enough.
    one_line: Option<Markup>,
    /// Whether that line is a sentence of its own.
    sentence: bool,
    /// Too tall for a page of its own: it goes on overleaf in every form.
    breaks: bool,
    /// Long enough to go on overleaf where that saves room.
    long: bool,
    /// Its first line that stays together with all that follows.
    ending: usize,
}

/// A deflection against its limit.
#[derive(Debug, Serialize)]
struct Deflected {
    place: String,
    load: Markup,
    value: String,
    limit: String,
    ratio: String,
    governs: bool,
    reference: Markup,
    lines: Lines,
}

/// Columns of the table of deflections beside those of the load, of what is computed and of its limit, with the gaps between them.
const BESIDE_LOAD: f64 = 148.0;
const PLACE: f64 = 78.0;

/// So many deflections stand in a line; more in a table.
const FEW: usize = 3;
/// Checks that lost, named one by one; the others are summed up.
const NAMED: usize = 5;
/// Below this a check may take one line.
const SLIGHT: f64 = 0.60;
/// Units of what a demand is made of.
const MADE_OF: [&str; 8] = ["lbf", "lbf ft", "kN", "kN m", "N", "kip", "in", "mm"];
/// So many values may stand in one line.
const SAID: usize = 3;
/// A reason no longer than this says nothing that a sheet would miss: `from the diagram`.
const SHORT: usize = 22;

impl Check {
    /// How tall it will be whole, in the pieces that a page may turn between: lines that keep together, the last with all that is said
    /// under them.
    pub(in crate::package) fn pieces(&self, text: f64) -> Pieces {
        let small = |markup: &Markup, above: f64| {
            let lines = height::lines(markup.plain(), 1.0, text);
            if lines > 0.0 { above + 5.4 + (lines - 1.0) * SMALL_PITCH } else { 0.0 }
        };
        let head = height::lines_of(&[(&self.name, BOLD), (self.place.plain(), TEXT), (if self.fails { FAILS } else { "" }, BOLD)], text);
        let mut pieces = vec![(12.0 + PITCH * (head - 1.0) + self.above.as_ref().map_or(0.0, |above| small(above, 3.5)), 0)];
        let mut keeps = true;
        for line in &self.lines {
            if !keeps {
                pieces.push((0.0, 0));
            }
            let last = pieces.len() - 1;
            pieces[last] = (pieces[last].0 + line.height, pieces[last].1 + 1);
            keeps = line.keep;
        }
        let rows: f64 = self.table.iter().map(|row| 9.8 + row.lines.further()).sum();
        let table = if self.table.is_empty() { 0.0 } else { 16.8 + rows };
        let said: f64 = self.lost.iter().chain(&self.remarks).map(|said| small(said, 5.4)).sum();
        let last = pieces.len() - 1;
        pieces[last].0 += table + said + 7.5;
        Pieces(pieces)
    }

    /// How tall it will be in one line, where that is enough for it.
    pub(in crate::package) fn in_short(&self, text: f64) -> Option<f64> {
        let said = self.one_line.as_ref()?;
        Some(12.0 + PITCH * (height::lines_of(&[(&self.name, BOLD), (said.plain(), TEXT)], text) - 1.0) + 7.5)
    }
}

/// The checks shown: the worst of each kind, governing first, then by ratio.
pub(in crate::package) fn of(scene: &Scene, member: &Member) -> Vec<Check> {
    let mut shown: Vec<&Found> = member.checks.iter().filter(|c| sheet::leads(c)).collect();
    shown.sort_by(|a, b| {
        b.governs.cmp(&a.governs).then(b.ratio.total_cmp(&a.ratio)).then(words::rank(&a.check).cmp(&words::rank(&b.check)))
    });
    let mut above = Above::default();
    shown.into_iter().map(|check| one(scene, member, check, &mut above)).collect()
}

fn one<'a>(scene: &Scene, member: &'a Member, check: &'a Found, above: &mut Above<'a>) -> Check {
    let steps = computed(member, check);
    let (new, known) = above.part(scene, steps);
    let one_line = one_line(scene, member, check);
    // What may take one line in some form of the sheet is no place to look.
    if one_line.is_none() {
        above.learn(&words::named(check), &new);
    }
    let lexicon = &scene.lexicon;
    let set = if check.load_set.is_empty() { String::new() } else { format!(", {}", check.load_set) };
    let place = if check.place.is_empty() { String::new() } else { format!("{}. ", check.place) };
    let mut table = if check.check == "deflection" { deflections(scene, member) } else { Vec::new() };
    let several = table.len() > FEW;
    let table_columns = [
        height::column(table.iter().map(|row| row.value.as_str()).chain(["Computed"])),
        height::column(table.iter().map(|row| row.limit.as_str())),
    ];
    let load = scene.room().0 - BESIDE_LOAD - table_columns[0] - table_columns[1];
    for row in &mut table {
        row.lines = height::row([(row.place.as_str(), PLACE), (row.load.plain(), load), (row.reference.plain(), MARGIN_WIDTH)]);
    }
    let mut whole = Check {
        name: words::capital(&words::named(check)),
        // A slenderness ratio has no combination.
        place: lexicon.set(&if check.check == "slenderness" {
            place.trim().to_owned()
        } else {
            format!("{place}{}{set}.", check.combination)
        }),
        fails: !check.passes,
        ratio: printing::drawn(check.ratio),
        printed: printing::ratio(check.ratio),
        above: known,
        lines: lines(scene, check, &new),
        lost: if check.check == "deflection" { in_line(scene, member, several) } else { lost(lexicon, check) },
        table: if several { table } else { Vec::new() },
        table_columns,
        remarks: check.remarks.iter().map(|r| lexicon.set(r)).collect(),
        one_line,
        sentence: check.check == "deflection",
        breaks: false,
        long: false,
        ending: 0,
    };
    let (text, page) = scene.room();
    let pieces = whole.pieces(text);
    (whole.long, whole.breaks) = (pieces.is_long(), pieces.is_too_tall(page));
    whole.ending = whole.lines.len() - pieces.in_last();
    whole
}

/// Factors stand in the account; only what is computed, or was looked up for this check alone, is a line here. Of a sum that may be 1.0
/// neither the limit nor the division by it is one.
fn computed<'a>(member: &Member, check: &'a Found) -> Vec<&'a Step> {
    let says_nothing = |step: &Step| is_sum(check) && (is_ratio(step) || step.symbol == check.capacity.symbol);
    let stands = |step: &Step| {
        step.equation.is_none()
            && (member.account.rows.iter().any(|r| r.symbol == step.symbol)
                || member.account.columns.iter().any(|c| c.symbol == step.symbol))
    };
    check.steps.iter().filter(|step| !stands(step) && !says_nothing(step)).collect()
}

/// Whether a check's demand is a sum of ratios that may be 1.0, and so its own ratio.
fn is_sum(check: &Found) -> bool {
    let limit = check.steps.iter().find(|s| s.symbol == check.capacity.symbol);
    limit.is_some_and(|s| s.equation.is_none() && s.unit.is_empty() && s.value == 1.0)
        && check.steps.iter().any(|s| s.symbol == check.demand.symbol && s.equation.is_some())
}

fn lines(scene: &Scene, check: &Found, shown: &[&Step]) -> Vec<Line> {
    let last = shown.len().saturating_sub(1);
    // The first line stays with the head, the last two together, and the last with what is said under it.
    let said = !check.others.is_empty() || !check.remarks.is_empty() || check.check == "deflection";
    let mut lines: Vec<Line> =
        shown.iter().enumerate().map(|(i, step)| line(scene, step, i == 0 || i + 1 == last || (i == last && said))).collect();
    if is_sum(check)
        && shown.last().is_some_and(|step| step.symbol == check.demand.symbol)
        && let (Some(line), Some(ratio)) = (lines.last_mut(), check.steps.iter().find(|step| is_ratio(step)))
    {
        line.is_the_ratio(&ratio.printed, check.passes);
    }
    lines
}

/// What lost, in one line.
fn lost(lexicon: &Lexicon, check: &Found) -> Option<Markup> {
    if check.others.is_empty() {
        return None;
    }
    let mut others: Vec<_> = check.others.iter().collect();
    others.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
    let named = if others.len() <= NAMED + 1 { others.len() } else { NAMED };
    let list: Vec<String> = others[..named].iter().map(|o| format!("{}: {}", o.what, printing::ratio(o.ratio))).collect();
    let rest =
        others.get(named).map(|next| format!("; {} more, at most {}", words::count(others.len() - named), printing::ratio(next.ratio)));
    Some(lexicon.set(&format!("Others: {}{}.", list.join("; "), rest.unwrap_or_default())))
}

/// The deflections that do not lead, where they are few.
fn in_line(scene: &Scene, member: &Member, several: bool) -> Option<Markup> {
    if several {
        return None;
    }
    let list = worst(member);
    let most = list.iter().filter_map(|d| d.ratio).fold(0.0, f64::max);
    let rest: Vec<&Deflection> = list.into_iter().filter(|d| d.ratio.is_none_or(|r| r < most)).collect();
    (!rest.is_empty()).then(|| scene.lexicon.set(&format!("{}.", words::capital(&deflected(scene, &rest)))))
}

/// Deflections with their limits in words.
fn deflected(scene: &Scene, list: &[&Deflection]) -> String {
    let said = |d: &&Deflection| {
        let value = scene.printing.with_unit(&d.value);
        match (&d.limit, d.ratio) {
            (Some(limit), Some(ratio)) => format!(
                "{}, {}: {value} of {} = {}, {}",
                d.what,
                d.combination,
                d.limit_as,
                scene.printing.with_unit(limit),
                printing::ratio(ratio)
            ),
            _ => format!("{}, {}: {value}, no limit", d.what, d.combination),
        }
    };
    list.iter().map(said).collect::<Vec<_>>().join("; ")
}

/// Of each kind of deflection and each span the combination that comes nearest to its limit, up and down apart.
fn worst(member: &Member) -> Vec<&Deflection> {
    let mut list: Vec<&Deflection> = Vec::new();
    let size = |d: &Deflection| d.ratio.unwrap_or(d.value.value.abs());
    for deflection in &member.deflections {
        let like = |known: &&mut &Deflection| {
            known.what == deflection.what && known.span == deflection.span && (known.value.value < 0.0) == (deflection.value.value < 0.0)
        };
        match list.iter_mut().find(like) {
            Some(known) if size(deflection) > size(known) => *known = deflection,
            Some(_) => {}
            None => list.push(deflection),
        }
    }
    list
}

fn deflections(scene: &Scene, member: &Member) -> Vec<Deflected> {
    let spans = member.reactions.len().saturating_sub(1);
    let most = member.deflections.iter().filter_map(|d| d.ratio).fold(0.0, f64::max);
    let place = |span: usize, up: bool| {
        let name = if span == 0 || span > spans {
            "Overhang".to_owned()
        } else if spans == 1 {
            "Span".to_owned()
        } else {
            format!("Span {span}")
        };
        if up { format!("{name}, upward") } else { name }
    };
    let row = |d: &Deflection| Deflected {
        place: place(d.span, d.value.value < 0.0),
        load: scene.lexicon.set(&format!("{}: {}", d.what, d.combination)),
        value: scene.printing.value(&d.value),
        limit: d.limit.as_ref().map_or_else(|| "no limit".to_owned(), |l| format!("{} = {}", d.limit_as, scene.printing.value(l))),
        ratio: d.ratio.map_or_else(|| "–".to_owned(), printing::ratio),
        governs: d.ratio.is_some_and(|r| r == most),
        reference: scene.lexicon.set(&briefly(scene, &d.reference)),
        lines: Lines::ONE,
    };
    worst(member).into_iter().map(row).collect()
}

/// Demand, capacity and clause in one line, where the ratio is slight and every factor stands in the account.
fn one_line(scene: &Scene, member: &Member, check: &Found) -> Option<Markup> {
    // A factor of the account is that of the worse of two checks of one name: the other one shows its own.
    let twin = |c: &&Found| c.check == check.check && sheet::leads(c) && c.what != check.what && c.ratio > check.ratio;
    let differs = |s: &Step, c: &Found| c.steps.iter().any(|t| t.symbol == s.symbol && t.value != s.value && s.symbol.starts_with("C_"));
    if member.checks.iter().filter(twin).any(|c| check.steps.iter().any(|s| differs(s, c))) {
        return None;
    }
    let slight = check.ratio < SLIGHT && check.passes && !check.governs && check.remarks.is_empty();
    if check.check == "deflection" {
        let list = worst(member);
        return (slight && list.len() <= FEW).then(|| scene.lexicon.set(&format!("{}.", words::capital(&deflected(scene, &list)))));
    }
    let computed: Vec<&Step> = check.steps.iter().filter(|s| s.equation.is_some() && !is_ratio(s)).collect();
    // Beside demand and capacity there may be the force that the demand is made of.
    let in_account =
        |s: &Step| member.account.rows.iter().any(|r| r.symbol == s.symbol) || member.account.columns.iter().any(|c| c.symbol == s.symbol);
    let plain = computed.iter().all(|s| {
        s.symbol == check.demand.symbol
            || s.symbol == check.capacity.symbol
            || MADE_OF.contains(&s.unit.as_str())
            || in_account(s)
            || stands_above(member, s)
    });
    // What comes straight from the diagram or the job file needs no line of its own.
    let stands = check
        .steps
        .iter()
        .filter(|s| s.equation.is_none())
        .all(|s| in_account(s) || s.reference == LOADS || s.because.chars().count() <= SHORT || stands_above(member, s));
    let worked = computed.iter().any(|s| s.symbol == check.demand.symbol);
    if !(slight && plain && stands && worked) {
        return None;
    }
    let set = if check.load_set.is_empty() { String::new() } else { format!(", {}", check.load_set) };
    let place = if check.place.is_empty() { String::new() } else { format!("{}, ", check.place) };
    let opening = scene.lexicon.set(&format!("{place}{}{set}: ", check.combination));
    let ratio = check.steps.iter().find(|s| is_ratio(s)).and_then(|s| s.equation.as_ref()).map(|e| scene.printing.equation(e));
    if let (true, Some(ratio)) = (computed.iter().all(|s| stands_above(member, s)), ratio) {
        let numbers = numbers(&scene.lexicon, &format!(" = {} ({}).", ratio.substituted, check.clause));
        let plain = format!("{}{}{}", opening.plain(), letter_as_seen(&ratio.plain), numbers.plain());
        let source = format!("{}#m({}, ${}$){}", opening.source(), literal(&ratio.words), ratio.typst, numbers.source());
        return Some(Markup::ours(source).read_as(plain));
    }
    let said: Vec<Markup> =
        computed.iter().filter(|s| s.symbol != check.capacity.symbol && !in_account(s)).filter_map(|s| in_short(scene, s)).collect();
    if said.len() > SAID {
        return None;
    }
    let step = check.steps.iter().rev().find(|s| s.symbol == check.capacity.symbol);
    let capacity =
        step.map_or_else(|| scene.printing.rounded(check.capacity.value, &check.capacity.unit), |s| scene.printing.number(&s.printed));
    let ending = scene.lexicon.set(&format!(" of {capacity} ({}).", check.clause));
    let join = |text: fn(&Markup) -> &str, comma: &str| {
        let list: Vec<&str> = said.iter().map(text).collect();
        format!("{}{}{}", text(&opening), list.join(comma), text(&ending))
    };
    Some(Markup::ours(join(Markup::source, &inserted(", "))).read_as(join(Markup::plain, ", ")))
}

/// Whether the governing check, which is printed whole, has this very line.
fn stands_above(member: &Member, step: &Step) -> bool {
    let governing = member.checks.iter().filter(|c| c.governs).flat_map(|c| &c.steps);
    governing.into_iter().any(|s| s.symbol == step.symbol && (s.value - step.value).abs() <= 1e-9 * s.value.abs())
}

/// A line without its letters: the letter, the numbers, the result.
fn in_short(scene: &Scene, step: &Step) -> Option<Markup> {
    let substituted = scene.printing.equation(step.equation.as_ref()?).substituted;
    let unit = if step.unit.is_empty() { String::new() } else { format!(" {}", raised(&step.unit)) };
    let result = numbers(&scene.lexicon, &format!(" = {substituted} = {}{unit}", scene.printing.number(&step.printed)));
    let plain = format!("{}{}", letter_as_seen(&step.symbol), result.plain());
    Some(Markup::ours(format!("#m({}, ${}$){}", literal(&step.words), step.typst, result.source())).read_as(plain))
}

/// Numbers in plain characters as paper has them: true signs, powers raised.
fn numbers(lexicon: &Lexicon, plain: &str) -> Markup {
    let text = plain.replace(" x ", " × ").replace(" - ", " − ");
    let mut parts = text.split('^');
    let mut set = vec![lexicon.set(parts.next().unwrap_or_default())];
    for part in parts {
        let (power, rest) = part.split_at(power(part));
        let raised = match printing::raised(power) {
            raised if raised.chars().all(|c| !c.is_ascii()) => Markup::text(&raised),
            _ => Markup::ours(format!("#super[{}];", inserted(power))).read_as(power.to_owned()),
        };
        set.extend([raised, lexicon.set(rest)]);
    }
    Markup::joined(&set, "")
}

/// How far the power at the head of a text goes: a number, or what a bracket holds.
fn power(text: &str) -> usize {
    let mut depth = 0_usize;
    for (at, c) in text.char_indices() {
        match c {
            '(' => depth += 1,
            ')' if depth == 1 => return at + 1,
            ')' if depth > 1 => depth -= 1,
            _ if depth == 0 && !(c.is_ascii_digit() || c == '.' && text[at + 1..].starts_with(|next: char| next.is_ascii_digit())) => {
                return at;
            }
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_are_raised() {
        let set = |plain: &str| numbers(&Lexicon::default(), plain).source().to_owned();
        assert_eq!(set("5.995 x 10^6 / 768"), r##"#"5.995 × 10";#"⁶";#" / 768";"##);
        assert_eq!(set("2.2^2 / 8."), r##"#"2.2";#"²";#" / 8.";"##);
        assert_eq!(set("min((600 / 480)^0.1, 1.1)"), r##"#"min((600 / 480)";#super[#"0.1";];#", 1.1)";"##);
        assert_eq!(set("100^(11.2 x 0.01 - 1) = 3."), r##"#"100";#super[#"(11.2 × 0.01 − 1)";];#" = 3.";"##);
    }
}
