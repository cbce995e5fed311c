//! Faults as they are shown in a terminal: in their place in the file, or one line each.

use crate::text::{Diagnostic, Severity, Source, Span};
use annotate_snippets::{AnnotationKind, Group, Level, Patch, Renderer, Snippet};
use std::ops::Range;

/// The most faults that are shown; a broken file may have thousands.
const MOST: usize = 100;

/// Every fault with the lines of the file that it speaks of, what to write instead, and a count at the end.
pub fn render(source: &Source, faults: &[Diagnostic], colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let mut text = String::new();
    for fault in faults.iter().take(MOST) {
        text.push_str(&renderer.render(&groups(source, fault)));
        text.push_str("\n\n");
    }
    text + &count(source, faults)
}

/// Every fault on a line of its own: `file:line:column: error[id]: message; help`.
pub fn lines(source: &Source, faults: &[Diagnostic]) -> String {
    let mut text = String::new();
    for fault in faults {
        let (line, column) = source.line_column(fault.primary.span.start);
        let kind = match fault.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
        };
        let said: Vec<&str> = std::iter::once(fault.message.as_str()).chain(fault.helps.iter().map(String::as_str)).collect();
        let said: String = said.join("; ").chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
        text.push_str(&format!("{}:{line}:{column}: {kind}[{}]: {said}\n", source.name(), fault.id));
    }
    text
}

fn count(source: &Source, faults: &[Diagnostic]) -> String {
    let what = if faults.iter().all(|fault| fault.severity == Severity::Warning) { "warning" } else { "fault" };
    let told = match faults.len() {
        0 => return String::new(),
        1 => format!("1 {what}"),
        many => format!("{many} {what}s"),
    };
    let shown = if faults.len() > MOST { format!(", the first {MOST} shown") } else { String::new() };
    format!("{}: {told}{shown}\n", source.name())
}

fn groups<'a>(source: &'a Source, fault: &'a Diagnostic) -> Vec<Group<'a>> {
    let level = match fault.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let window = Window::around(source, std::iter::once(fault.primary.span).chain(fault.secondary.iter().map(|label| label.span)));
    let primary = AnnotationKind::Primary.span(window.range(fault.primary.span)).label(words(&fault.primary.words));
    let mut snippet = window.snippet().path(source.name()).annotation(primary);
    for label in &fault.secondary {
        snippet = snippet.annotation(AnnotationKind::Context.span(window.range(label.span)).label(words(&label.words)));
    }
    let main = level.primary_title(fault.message.as_str()).id(fault.id).element(snippet);
    // Where there is one way to mend it, the last help is shown with the mended line.
    let Some((mend, (last, helps))) = fault.replacement.as_ref().zip(fault.helps.split_last()) else {
        return vec![main.elements(fault.helps.iter().map(|help| Level::HELP.message(help.as_str())))];
    };
    let main = main.elements(helps.iter().map(|help| Level::HELP.message(help.as_str())));
    let window = Window::around(source, std::iter::once(mend.span));
    let patch = window.patch(Patch::new(window.range(mend.span), mend.text.as_str()));
    vec![main, Level::HELP.secondary_title(last.as_str()).element(patch)]
}

fn words(text: &str) -> Option<&str> {
    (!text.is_empty()).then_some(text)
}

/// The whole lines around some places: the renderer works through all the text that it is given, for each fault again.
struct Window<'a> {
    text: &'a str,
    start: usize,
    first_line: usize,
}

impl<'a> Window<'a> {
    fn around(source: &'a Source, spans: impl Iterator<Item = Span>) -> Self {
        let whole = source.text();
        let (from, to) = spans.fold((whole.len(), 0), |(from, to), span| (from.min(span.start), to.max(span.end)));
        let from = (0..=from.min(whole.len())).rev().find(|i| whole.is_char_boundary(*i)).unwrap_or_default();
        let to = (to.max(from)..whole.len()).find(|i| whole.is_char_boundary(*i)).unwrap_or(whole.len());
        let start = whole[..from].rfind('\n').map_or(0, |i| i + 1);
        let end = whole[to..].find('\n').map_or(whole.len(), |i| to + i);
        Self { text: &whole[start..end], start, first_line: source.line_column(start).0 }
    }

    fn range(&self, span: Span) -> Range<usize> {
        span.start - self.start..(span.end - self.start).max(span.start - self.start)
    }

    fn snippet<T: Clone>(&self) -> Snippet<'a, T> {
        Snippet::source(self.text).line_start(self.first_line)
    }

    fn patch(&self, patch: Patch<'a>) -> Snippet<'a, Patch<'a>> {
        self.snippet().patch(patch)
    }
}
