//! What stands on every page, and how the pages follow one another.

use super::Scene;
use crate::job::model::{CodeName, Date, Paper, Purpose};
use crate::package::drawing::width_of;
use crate::package::{Build, words};
use serde::Serialize;

/// Head and foot of every page, and the paper.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Frame {
    paper: &'static str,
    language: &'static str,
    region: &'static str,
    /// Number and title of the job, cut where they would not fit on a line.
    head: String,
    revision: String,
    date: String,
    status: String,
    caution: &'static str,
    /// Sheets that differ from the former issue, by their labels.
    revised: Vec<String>,
}

impl Frame {
    pub(in crate::package) fn of(scene: &Scene) -> Self {
        let about = &scene.job.about;
        Self {
            paper: if about.paper == Paper::A4 { "a4" } else { "letter" },
            language: "en",
            region: match scene.job.basis.code.value {
                CodeName::American => "US",
                CodeName::Canadian => "CA",
                CodeName::European => "GB",
            },
            head: head(about.number.as_deref(), &about.title, scene.room().0),
            revision: about.revision.clone(),
            date: about.date.to_string(),
            status: if scene.brief { "Brief for an independent check; no results".to_owned() } else { status(scene) },
            caution: words::CAUTION_LINE,
            revised: revised(scene),
        }
    }
}

/// Number and title on one line so wide, cut short where they are longer.
fn head(number: Option<&str>, title: &str, wide: f64) -> String {
    let mut head = number.map_or_else(String::new, |number| format!("{number}\u{2002}\u{2002}")) + title;
    if width_of(&head) > wide {
        while width_of(&head) + width_of("…") > wide && head.pop().is_some() {}
        head.push('…');
    }
    head
}

/// Labels of the sheets, and of the basis, that a reissue changes.
fn revised(scene: &Scene) -> Vec<String> {
    let Some(reissue) = scene.reissue else { return Vec::new() };
    let sheets = scene.results.members.iter().filter(|member| reissue.touches(&member.mark)).map(|member| super::sheet_label(&member.mark));
    let basis = reissue.inputs.iter().any(|input| input.mark.is_empty()).then(|| "basis".to_owned());
    basis.into_iter().chain(sheets).collect()
}

impl Frame {
    /// Head and foot of a document that is no package: it has no number and no revision.
    pub(in crate::package) fn of_document(title: String, status: String, date: Date, paper: Paper) -> Self {
        Self {
            paper: if paper == Paper::A4 { "a4" } else { "letter" },
            language: "en",
            region: if paper == Paper::A4 { "GB" } else { "US" },
            head: title,
            revision: String::new(),
            date: date.to_string(),
            status,
            caution: words::CAUTION_LINE,
            revised: Vec::new(),
        }
    }
}

/// The status line: what it is issued for, how many members fail or are not checked, whether it was checked independently, what is open.
fn status(scene: &Scene) -> String {
    let about = &scene.job.about;
    let mut said = vec![format!("Issued for {}", about.issued_for.word())];
    said.extend(scene.results.tally());
    if about.checked_by.is_none() {
        said.push("not independently checked".to_owned());
    }
    if about.issued_for == Purpose::Permit && !scene.results.open.is_empty() {
        said.push(format!("{} open", words::counted(scene.results.open.len(), "item")));
    }
    said.join("; ")
}

/// The document: what it says about itself, which sheets it takes in, what it carries.
#[derive(Debug, Serialize)]
pub(in crate::package) struct Main {
    title: String,
    author: String,
    description: String,
    year: u16,
    month: u8,
    day: u8,
    sheets: Vec<String>,
    record: bool,
    reissue: bool,
    office_templates: Vec<String>,
}

impl Main {
    pub(in crate::package) fn of(scene: &Scene, build: Build, sheets: Vec<String>, office_templates: Vec<String>) -> Self {
        let about = &scene.job.about;
        let number = about.number.as_ref().map(|n| format!("{n} ")).unwrap_or_default();
        let author = about.firm.clone().or_else(|| about.prepared_by.clone()).unwrap_or_default();
        Self {
            title: format!("{number}{}, revision {}", about.title, about.revision),
            author,
            description: format!("Structural calculations of wood members; issued for {}", about.issued_for.word()),
            year: about.date.year(),
            month: about.date.month(),
            day: about.date.day(),
            sheets,
            record: build == Build::Record,
            reissue: scene.reissue.is_some(),
            office_templates,
        }
    }

    /// What the document is called.
    pub(in crate::package) fn title(&self) -> &str {
        &self.title
    }

    /// The same for something beside the package, which says what it is before the title.
    pub(in crate::package) fn named(self, what: &str) -> Self {
        Self { title: format!("{what}: {}", self.title), ..self }
    }
}
