//! What is wrong, where, and what to write instead.

use super::Span;

/// How much it matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Severity {
    /// The job cannot be read; nothing is written.
    Error,
    /// The job can be read; the remark ends up as a note in the package.
    Warning,
}

/// A place with a few words to stand beside it; the words may be empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// What is to be said there.
    pub words: String,
}

impl Label {
    /// A place without words.
    pub fn bare(span: Span) -> Self {
        Self { span, words: String::new() }
    }
}

/// A text that would mend the fault, to be put in place of the span.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Replacement {
    /// What is replaced.
    pub span: Span,
    /// By what.
    pub text: String,
}

/// One fault or warning, in words that stand alone.
///
/// `message` is one terse line saying what is wrong; `helps` say what to write instead; `secondary` points at other places that
/// take part (the mark that was given first, the other end of a circle).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// A stable name, such as `unknown-key`.
    pub id: &'static str,
    /// Error or warning.
    pub severity: Severity,
    /// What is wrong.
    pub message: String,
    /// Where.
    pub primary: Label,
    /// Other places that take part.
    pub secondary: Vec<Label>,
    /// What to write instead, or what to know.
    pub helps: Vec<String>,
    /// The mend, where there is only one.
    pub replacement: Option<Replacement>,
}

impl Diagnostic {
    /// A diagnostic without secondary places, helps or mend.
    pub fn new(id: &'static str, severity: Severity, message: String, primary: Label) -> Self {
        Self { id, severity, message, primary, secondary: Vec::new(), helps: Vec::new(), replacement: None }
    }

    /// An error of the program that a file brought out, not of the file: it asks to be reported.
    pub(crate) fn bug(id: &'static str, message: String, span: Span) -> Self {
        let help = "this is an error of the program: please report it with the file".to_owned();
        Self::new(id, Severity::Error, message, Label::bare(span)).with_help(help)
    }

    /// The same with one more help.
    #[must_use]
    pub fn with_help(mut self, help: String) -> Self {
        self.helps.push(help);
        self
    }

    /// The same with one more place.
    #[must_use]
    pub fn with_place(mut self, span: Span, words: impl Into<String>) -> Self {
        self.secondary.push(Label { span, words: words.into() });
        self
    }
}

/// All faults of one reading, in the order in which they were found; never empty where it is an error.
pub type Faults = Vec<Diagnostic>;

/// Faults in file order, each once.
pub(crate) fn in_order(mut faults: Faults) -> Faults {
    faults.sort_by_key(|fault| fault.primary.span);
    let mut told = Faults::with_capacity(faults.len());
    for fault in faults {
        let here = told.iter().rev().take_while(|known: &&Diagnostic| known.primary.span == fault.primary.span);
        if !here.into_iter().any(|known| *known == fault) {
            told.push(fault);
        }
    }
    told
}

/// Gives the faults of a room their stable names: the list `IDS`, which the tests go through, and `Fault::id` come from one table.
macro_rules! fault_ids {
    ($($fault:pat => $id:literal,)*) => {
        /// The stable names of all faults that are found here; each has a file in `tests/faults`.
        pub const IDS: &[&str] = &[$($id),*];

        impl Fault {
            /// The stable name.
            const fn id(&self) -> &'static str {
                match self { $($fault => $id),* }
            }
        }
    };
}
pub(crate) use fault_ids;
