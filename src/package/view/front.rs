//! The contents, how to read a sheet, the letters.

use super::{Scene, height, sheet_label};
use crate::job::model::Member as Entry;
use crate::package::markup::Markup;
use crate::package::words;
use crate::results::Member;
use serde::Serialize;

/// More sheets than this, and the rest of the page would not fit under their lines.
const MANY: usize = 18;

/// What the contents page says.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Contents {
    register: String,
    since: Vec<super::since::Entry>,
    sheets: Vec<Line>,
    letters: Vec<Letter>,
    /// The column of letters, in points: names of the engineer's own cases stand there too.
    letters_width: f64,
    /// The column of names, in points.
    names: f64,
    /// So many sheets that their lines stand closer.
    many: bool,
    /// What the account of factors starts from, and ends with.
    value_names: [String; 2],
}

#[derive(Debug, Serialize)]
struct Line {
    mark: String,
    label: String,
    what: String,
    verdict: &'static str,
}

#[derive(Debug, Serialize)]
struct Letter {
    letter: Markup,
    meaning: String,
}

impl Contents {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let assumptions = scene.results.assumptions.len();
        let parts = if scene.job.about.deferred.is_empty() { "" } else { ", parts left to others" };
        let sheets = scene.members().map(|(entry, member)| Line {
            mark: member.mark.clone(),
            label: sheet_label(&member.mark),
            what: what(scene, entry, member),
            verdict: member.verdict.mark(),
        });
        Self {
            register: if assumptions == 0 {
                "assumption register".to_owned()
            } else {
                format!("assumption register A-1 to A-{assumptions}{parts}")
            },
            since: super::since::contents(scene),
            sheets: sheets.collect(),
            letters: letters(scene),
            letters_width: height::column(scene.results.cases.iter().filter(|case| case.acts).map(|case| case.letter.as_str()))
                .clamp(30.0, 86.0),
            names: (height::TEXT * scene.marks() + 4.0).max(60.0),
            many: scene.results.members.len() > MANY,
            value_names: scene.results.value_names.clone(),
        }
    }
}

/// `Joist 2x10 at 16 in, 13 ft 6 in and an overhang`.
fn what(scene: &Scene, entry: &Entry, member: &Member) -> String {
    let spans: Vec<String> = entry.spans.spans.iter().map(|s| scene.printing.length(s.value)).collect();
    let overhangs = usize::from(entry.spans.left.value() > 0.0) + usize::from(entry.spans.right.value() > 0.0);
    let ends = match overhangs {
        0 => "",
        1 => " and an overhang",
        _ => " and two overhangs",
    };
    format!("{}, {}{ends}", used_size(scene, entry, member), spans.join(", "))
}

/// `Joist 2x10 at 16 in`
fn used_size(scene: &Scene, entry: &Entry, member: &Member) -> String {
    format!("{} {}", words::capital(&member.role), size(scene, entry, member))
}

/// `2x10 at 16 in`; a section of several plies says so in its name.
pub(super) fn size(scene: &Scene, entry: &Entry, member: &Member) -> String {
    let spacing = entry.spacing.as_ref().map(|s| format!(" at {}", scene.printing.spacing(s.value))).unwrap_or_default();
    format!("{}{spacing}", member.section.name)
}

/// Letters of loads, then those of the code; the shorthand that our own sheets use stands last.
fn letters(scene: &Scene) -> Vec<Letter> {
    let acting = scene.results.cases.iter().filter(|case| case.acts);
    let mut letters: Vec<Letter> =
        acting.map(|case| Letter { letter: scene.lexicon.set(&case.letter), meaning: case.meaning.clone() }).collect();
    let of_code = scene.results.letters.iter().map(|l| Letter {
        letter: Markup::ours(format!("#m({}, ${}$)", crate::package::markup::literal(&l.words), l.typst)),
        meaning: l.meaning.clone(),
    });
    letters.extend(of_code);
    letters
}
