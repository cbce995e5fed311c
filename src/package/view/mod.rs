//! The view: what each page says, in strings already rounded. Templates place it and add nothing.

mod basis;
mod brief;
mod changes;
mod checker;
mod checks;
mod comments;
mod cover;
mod formula;
mod frame;
mod front;
mod height;
mod lessened;
mod line;
mod path;
mod plan;
mod proof;
mod proof_rows;
mod references;
mod reserve;
mod shared;
mod sheet;
mod since;
mod span_table;
mod summary;

pub(super) use basis::Basis;
pub(super) use brief::{Brief, BriefCover};
pub(super) use cover::Cover;
pub(super) use frame::{Frame, Main};
pub(super) use front::Contents;
pub(super) use path::Path;
pub(super) use plan::{Form, Heights, Part};
pub(super) use proof::ProofView;
pub(super) use references::References;
pub(super) use sheet::Draft;
pub(super) use since::Since;
pub(super) use span_table::SpanTableView;
pub(super) use summary::Summary;

use super::Build;
use super::markup::Lexicon;
use super::printing::Printing;
use crate::job::model::{Job, Member as Entry, Paper};
use crate::results::{Member, Reissue, Results};
use serde::Serialize;

/// What every view is made from.
pub(super) struct Scene<'a> {
    pub(super) job: &'a Job,
    pub(super) results: &'a Results,
    pub(super) printing: Printing,
    /// Letters and links that hold on every page.
    pub(super) lexicon: Lexicon,
    /// What is changed of an earlier issue.
    pub(super) reissue: Option<&'a Reissue>,
    /// For an independent checker: no page says what came out.
    pub(super) brief: bool,
}

impl<'a> Scene<'a> {
    /// The scene of a job and its results.
    pub(super) fn of(job: &'a Job, results: &'a Results, reissue: Option<&'a Reissue>, build: Build) -> Self {
        let mut lexicon = Lexicon::default();
        for member in &results.members {
            for column in &member.account.columns {
                lexicon.letter(&column.symbol, &column.typst, &column.words);
            }
            for row in &member.account.rows {
                lexicon.letter(&row.symbol, &row.typst, &row.words);
            }
            for step in member.checks.iter().flat_map(|c| &c.steps) {
                lexicon.letter(&step.symbol, &step.typst, &step.words);
            }
            lexicon.link(&member.mark, sheet_label(&member.mark));
        }
        for assumption in &results.assumptions {
            lexicon.link(&assumption.id, assumption.id.clone());
        }
        for case in &results.cases {
            lexicon.case(&case.letter);
        }
        for part in &job.about.deferred {
            lexicon.link(&part.id, part.id.clone());
        }
        Self { job, results, printing: Printing::of(results), lexicon, reissue, brief: build == Build::Checking }
    }

    /// The members of the results with their entries in the job file.
    pub(super) fn members(&self) -> impl Iterator<Item = (&'a Entry, &'a Member)> {
        let (job, results) = (self.job, self.results);
        results.members.iter().filter_map(move |member| Some((job.members.iter().find(|e| e.mark.value == member.mark)?, member)))
    }

    /// Width of both columns of a page, in points; the style sheet has the same.
    pub(super) fn width(&self) -> f64 {
        self.room().0 + if self.job.about.paper == Paper::Letter { 126.0 } else { 125.0 }
    }

    /// The column of marks in tables of small text, in points: as wide as the longest of them.
    pub(super) fn marks(&self) -> f64 {
        let longest = height::column(self.results.members.iter().map(|m| m.mark.as_str()));
        (height::SURELY_BOLD * longest).ceil().clamp(24.0, 150.0)
    }

    /// Width of the text column and height of a page's text, in points; the style sheet has the same.
    pub(super) fn room(&self) -> (f64, f64) {
        match self.job.about.paper {
            Paper::Letter => (372.0, 678.0),
            Paper::A4 => (366.0, 727.8),
        }
    }
}

/// Columns of a table and the gaps between them, in points: what is left of the page goes to the columns of these shares.
#[derive(Debug, Serialize)]
struct Columns {
    columns: Vec<f64>,
    gaps: Vec<f64>,
}

impl Columns {
    /// Columns of a table so wide; one without a width takes its share of what is left.
    fn of<const N: usize>(width: f64, columns: [Column; N], gaps: &[f64]) -> Self {
        let fixed: f64 = columns.iter().map(|c| if let Column::Wide(w) = c { *w } else { 0.0 }).sum();
        let shares: f64 = columns.iter().map(|c| if let Column::Share(s) = c { *s } else { 0.0 }).sum();
        let left = (width - fixed - gaps.iter().sum::<f64>()).max(0.0);
        let wide = |column: &Column| match column {
            Column::Wide(width) => *width,
            Column::Share(share) => left * share / shares,
        };
        Self { columns: columns.iter().map(wide).collect(), gaps: gaps.to_vec() }
    }
}

/// How wide a column is.
#[derive(Clone, Copy, Debug)]
enum Column {
    /// In points.
    Wide(f64),
    /// Its share of what is left.
    Share(f64),
}

/// The label of a member's sheet.
pub(super) fn sheet_label(mark: &str) -> String {
    format!("sheet-{mark}")
}

/// A table's name as the margin has room for it; the references page has it whole.
fn briefly(scene: &Scene, reference: &str) -> String {
    scene.results.standards.iter().fold(reference.to_owned(), |text, standard| text.replace(&standard.short, &standard.brief))
}

/// From the top of a page to its text, in points, as the style sheet has it.
pub(super) const TOP: f64 = 57.0;

/// What stands for something that the job file leaves out.
const NOT_GIVEN: &str = "not given";

fn given(text: Option<&String>) -> String {
    text.cloned().unwrap_or_else(|| NOT_GIVEN.to_owned())
}
