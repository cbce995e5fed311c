//! The cases and the cells of the verification report, a figure a row.

use crate::package::letters::Letter;
use crate::package::markup::{Lexicon, Markup, literal};
use crate::package::printing::{in_group, raised, trimmed};
use crate::package::words;
use crate::results::proof::{Case, Cell, Figure, Kind, Law, Proof};
use crate::units::{decimals, figures};
use serde::Serialize;

/// The cases of one kind.
#[derive(Debug, Serialize)]
pub(super) struct KindPart {
    title: &'static str,
    label: &'static str,
    /// What its column of expected values is called.
    expected: &'static str,
    cases: Vec<CasePart>,
}

#[derive(Debug, Serialize)]
struct CasePart {
    id: String,
    title: Markup,
    source: Markup,
    status: String,
    fault: String,
    rows: Vec<Row>,
    /// What the source printed, or why a figure may differ by more: each once, with the figures that it is of.
    remarks: Option<Markup>,
}

/// A figure: what, expected, computed, difference, tolerance; the verdict is said where it is not agreement.
#[derive(Debug, Serialize)]
struct Row {
    what: Markup,
    letter: Markup,
    unit: String,
    expected: String,
    computed: String,
    difference: String,
    tolerance: String,
    differs: bool,
}

#[derive(Debug, Serialize)]
pub(super) struct CellPart {
    table: String,
    title: String,
    label: String,
    source: Markup,
    notes: Markup,
    /// What all of its cells have in common.
    common: String,
    unit: String,
    rows: Vec<CellRow>,
    /// What the marks beside the rows stand for.
    remarks: String,
}

#[derive(Debug, Serialize)]
struct CellRow {
    what: String,
    mark: String,
    stopped_by: String,
    printed: String,
    computed: String,
    rounded: String,
    difference: String,
    differs: bool,
    because: String,
}

/// The letters that the cases have, of load cases and of lines.
pub(super) fn lexicon_of(proof: &Proof) -> Lexicon {
    let mut lexicon = Lexicon::default();
    let combinations = proof.cases.iter().flat_map(|c| &c.figures).map(|f| f.combination.as_str());
    for word in combinations.flat_map(str::split_whitespace).filter(|word| word.contains('_')) {
        lexicon.case(word);
    }
    for figure in proof.cases.iter().flat_map(|c| &c.figures) {
        if !figure.typst.is_empty() {
            lexicon.letter(&figure.symbol, &figure.typst, &figure.words);
        }
    }
    lexicon
}

/// A sentence begins with a capital, unless its first word is an address, a formula or a name written otherwise.
pub(super) fn capital_of_a_sentence(text: &str) -> String {
    let first = text.split_whitespace().next().unwrap_or_default().trim_end_matches([',', ';', ':']);
    if first.bytes().all(|b| b.is_ascii_lowercase()) { words::capital(text) } else { text.to_owned() }
}

impl KindPart {
    pub(super) fn of(proof: &Proof, kind: Kind, lexicon: &Lexicon) -> Self {
        let (title, expected) = match kind {
            Kind::Published => ("Published cases", "Published"),
            Kind::ClosedForm => ("Closed forms", "By the form"),
            Kind::OwnArithmetic => ("Own arithmetic", "By hand"),
            Kind::FromMemory => ("From memory", "Recalled"),
        };
        let cases = proof.cases.iter().filter(|case| case.kind == kind).map(|of| case(of, lexicon)).collect();
        Self { title, label: Self::label(kind), expected, cases }
    }

    /// The label of its heading.
    pub(super) fn label(kind: Kind) -> &'static str {
        match kind {
            Kind::Published => "published",
            Kind::ClosedForm => "closed-forms",
            Kind::OwnArithmetic => "own-arithmetic",
            Kind::FromMemory => "from-memory",
        }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.cases.is_empty()
    }
}

fn case(case: &Case, lexicon: &Lexicon) -> CasePart {
    CasePart {
        id: case.id.clone(),
        title: lexicon.set(&case.title),
        source: lexicon.set(&powers(&capital_of_a_sentence(&case.source))),
        status: case.status.clone(),
        fault: case.fault.clone(),
        rows: case.figures.iter().map(|f| row(f, case, lexicon)).collect(),
        remarks: remarks(case, lexicon),
    }
}

/// A row of a case. All its numbers but the expected one end at the place to which its tolerance has two figures.
fn row(f: &Figure, case: &Case, lexicon: &Lexicon) -> Row {
    let tolerance = figures(f.tolerance, 2);
    let places = tolerance.split_once('.').map_or(0, |(_, places)| places.len());
    let between = if case.code == "european" { "\u{2009}" } else { "," };
    let number = |text: &str| in_group(text, between);
    Row {
        what: what(f, case, lexicon),
        letter: letter(f).unwrap_or_else(|| Markup::text("")),
        unit: raised(&f.unit),
        expected: number(&trimmed(&figures(f.expected, 7))),
        computed: f.computed.map_or_else(|| "none".to_owned(), |v| number(&decimals(v, places))),
        difference: f.difference.map(|d| number(&decimals(d, places))).unwrap_or_default(),
        tolerance: number(&tolerance),
        differs: !f.agrees,
    }
}

/// Member, check, place and combination; what a figure of beam theory is; the words of a handbook's table.
fn what(f: &Figure, case: &Case, lexicon: &Lexicon) -> Markup {
    let name = match (f.check.as_str(), letter(f)) {
        ("beam_theory", _) => match f.symbol.chars().next() {
            Some('R') => "reaction".to_owned(),
            Some('M') => "moment".to_owned(),
            Some('d') => "deflection".to_owned(),
            _ => "place".to_owned(),
        },
        ("handbook", None) => f.symbol.clone(),
        ("handbook", Some(_)) => f.symbol.split_once(", ").map_or_else(|| f.symbol.clone(), |(_, words)| words.to_owned()),
        _ => format!("{} {}", f.member, words::check(&f.check)).trim().to_owned(),
    };
    let mut said = vec![name];
    said.extend([f.place.as_str(), f.combination.as_str()].into_iter().filter(|part| !part.is_empty()).map(str::to_owned));
    let kind = if f.kind == case.kind { String::new() } else { format!(" ({})", f.kind.name()) };
    lexicon.set(&format!("{}{kind}", said.join(", ")))
}

/// The letter of a figure; none where a handbook has words in its place.
fn letter(f: &Figure) -> Option<Markup> {
    let set = |typst: &str, words: &str| Markup::ours(format!("#m({}, ${typst}$);", literal(words))).read_as(f.symbol.clone());
    if !f.typst.is_empty() {
        return Some(set(&f.typst, &f.words));
    }
    let plain = if f.check == "handbook" { f.symbol.split(',').next().filter(|first| first.contains('_'))? } else { &f.symbol };
    Some(Letter::of(plain).map_or_else(|| Markup::text(plain), |letter| set(&letter.typst, &letter.words)))
}

/// What is remarked of the figures of a case, each remark once.
fn remarks(case: &Case, lexicon: &Lexicon) -> Option<Markup> {
    let several = case.figures.iter().any(|f| f.member != case.figures[0].member);
    let mut found: Vec<(&str, Vec<Markup>)> = Vec::new();
    for f in case.figures.iter().filter(|f| !f.because.is_empty()) {
        let letter = letter(f).unwrap_or_else(|| Markup::text(&f.symbol));
        let of = if several { Markup::joined(&[Markup::text(&f.member), letter], " ") } else { letter };
        match found.iter_mut().find(|(because, _)| *because == f.because) {
            Some((_, all)) if all.iter().any(|known| known.source() == of.source()) => {}
            Some((_, all)) => all.push(of),
            None => found.push((&f.because, vec![of])),
        }
    }
    let said = |(because, of): &(&str, Vec<Markup>)| {
        let because = because.replace("in2", "in²").replace("in3", "in³").replace(" x ", " × ").replace(" - ", " − ");
        Markup::joined(&[Markup::joined(of, ", "), lexicon.set(&powers(&because))], ": ")
    };
    let all: Vec<Markup> = found.iter().map(said).collect();
    (!all.is_empty()).then(|| Markup::joined(&all, "; "))
}

/// Small whole powers stand raised.
fn powers(text: &str) -> String {
    [("^2", "²"), ("^3", "³"), ("^4", "⁴")].iter().fold(text.to_owned(), |text, (plain, set)| text.replace(plain, set))
}

impl CellPart {
    pub(super) fn of(law: &Law, label: String, lexicon: &Lexicon) -> Self {
        let common = common(law);
        let mut remarks: Vec<&str> = Vec::new();
        let rows = law.cells.iter().map(|cell| cell_row(cell, &common, &mut remarks)).collect();
        Self {
            table: law.table.clone(),
            title: law.title.clone(),
            label,
            source: lexicon.set(&capital_of_a_sentence(&law.source)),
            notes: lexicon.set(&on_paper(&law.notes)),
            common: if common.is_empty() { String::new() } else { format!("Every cell: {}.", common.join(", ")) },
            unit: law.cells.first().map(|c| c.unit.clone()).unwrap_or_default(),
            rows,
            remarks: remarks.iter().enumerate().map(|(i, remark)| format!("{}: {remark}", letter_of(i))).collect::<Vec<_>>().join("; "),
        }
    }
}

fn cell_row<'a>(cell: &'a Cell, common: &[&str], remarks: &mut Vec<&'a str>) -> CellRow {
    let own: Vec<&str> = cell.what.split(", ").filter(|part| !common.contains(part)).collect();
    CellRow {
        what: own.join(", "),
        mark: if cell.agrees { mark(remarks, &cell.because) } else { String::new() },
        stopped_by: words::check(&cell.governed_by),
        printed: cell.printed.clone(),
        computed: decimals(cell.computed, 2),
        rounded: cell.rounded.clone(),
        difference: cell.difference.map(|d| in_group(&decimals(d, 2), ",")).unwrap_or_default(),
        differs: !cell.agrees,
        because: words::capital(&cell.because),
    }
}

/// The mark of a remark, by which it is found at the head of its table; nothing where there is none.
fn mark<'a>(remarks: &mut Vec<&'a str>, because: &'a str) -> String {
    if because.is_empty() {
        return String::new();
    }
    let at = remarks.iter().position(|known| *known == because).unwrap_or_else(|| {
        remarks.push(because);
        remarks.len() - 1
    });
    letter_of(at)
}

/// `a`, `b` …, a number where letters end.
fn letter_of(index: usize) -> String {
    u8::try_from(index).ok().filter(|i| *i < 26).map_or_else(|| index.to_string(), |i| char::from(b'a' + i).to_string())
}

/// The parts of its name that all cells of a law have.
fn common(law: &Law) -> Vec<&str> {
    let parts = |cell: &'_ Cell, part: &str| cell.what.split(", ").any(|own| own == part);
    let first = law.cells.first().map(|cell| cell.what.split(", ").collect::<Vec<_>>()).unwrap_or_default();
    first.into_iter().filter(|part| law.cells.iter().all(|cell| parts(cell, part))).collect()
}

/// The notes of a table without those on the columns of our file, which paper does not have.
fn on_paper(notes: &str) -> String {
    let said = notes.split(". ").filter(|sentence| !sentence.starts_with('`')).collect::<Vec<_>>().join(". ");
    if said.ends_with('.') { said } else { format!("{said}.") }
}
