//! A fault of a template or of the program: never of the job file.

use super::Sheet;
use typst::WorldExt;
use typst::diag::SourceDiagnostic;

/// Something that a template, ours or an office's, got wrong, in words that name the template and its line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bug {
    /// One line a fault, the first few of them.
    pub lines: Vec<String>,
}

/// Faults told; more than these tell no more.
const TOLD: usize = 6;

impl Bug {
    /// A bug without a place.
    pub fn plain(message: impl Into<String>) -> Self {
        Self { lines: vec![message.into()] }
    }

    /// A bug at a line of a template.
    pub fn at(template: &str, line: usize, message: impl std::fmt::Display) -> Self {
        Self { lines: vec![format!("template {template}, line {line}: {message}")] }
    }

    /// What the typesetter found, each with the template line that wrote the place, or with the place in the source.
    pub(super) fn located(world: &super::world::World, sheets: &[Sheet], found: &[SourceDiagnostic]) -> Self {
        let mut lines: Vec<String> = found.iter().map(|d| line_of(world, sheets, d)).collect();
        lines.dedup();
        lines.truncate(TOLD);
        Self { lines }
    }
}

fn line_of(world: &super::world::World, sheets: &[Sheet], diagnostic: &SourceDiagnostic) -> String {
    let hints: String = diagnostic.hints.iter().map(|hint| format!("; {}", hint.v)).collect();
    let message = format!("{}{hints}", diagnostic.message);
    // A fault inside a function of the style sheet is of use only with the call that led to it.
    let spans = std::iter::once(diagnostic.span).chain(diagnostic.trace.iter().map(|t| t.span.into()));
    let places: Vec<String> = spans.filter_map(|span| place(world, sheets, span)).collect();
    if places.is_empty() { message } else { format!("{}: {message}", places.join(", called from ")) }
}

fn place(world: &super::world::World, sheets: &[Sheet], span: typst::syntax::DiagSpan) -> Option<String> {
    let path = super::world::path(span.id()?);
    let start = world.range(span)?.start;
    let sheet = sheets.iter().find(|sheet| sheet.path == path)?;
    if let Some(origin) = sheet.origins.iter().find(|origin| origin.range.contains(&start)) {
        return Some(format!("template {}, line {}", origin.template, origin.line));
    }
    let line = sheet.text.get(..start)?.matches('\n').count() + 1;
    Some(format!("{}, line {line}", path.trim_start_matches('/')))
}

impl std::fmt::Display for Bug {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.lines.join("\n"))
    }
}

impl std::error::Error for Bug {}
