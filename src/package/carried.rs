//! What a record carries, read back: enough to make the package again.

use super::{Templates, templates};
use crate::pdf::{self, Unreadable};
use crate::results::{FORMAT, JobInShort, Program, Results};
use serde::Deserialize;

/// The names under which files are attached.
pub(super) const JOB: &str = "job.yaml";
pub(super) const RESULTS: &str = "results.json";
pub(super) const TEMPLATES: &str = "templates.sha256";
pub(super) const PROGRAM: &str = "program.txt";
pub(super) const OFFICE: &str = "templates/";
pub(super) const FORMER_JOB: &str = "former-job.yaml";
pub(super) const FORMER_RESULTS: &str = "former-results.json";

/// What names this build of the program: a fingerprint of all the files that it was made from, the same on every machine.
pub const BUILD: &str = env!("LATEWOOD_BUILD");

/// Before the name of the build, in a line of its own.
const BUILT: &str = "build ";

/// What a record says of the program that made it.
pub(super) fn program(program: &Program, build: &str) -> String {
    format!("{} {}\n{BUILT}{build}\n", program.name, program.version)
}

/// What a record carries.
#[derive(Clone, Debug)]
pub struct Carried {
    /// The job file, byte for byte.
    pub job: Vec<u8>,
    /// The results, as JSON.
    pub results: Vec<u8>,
    /// The hash of each template that its pages were made with.
    pub fingerprint: String,
    /// Templates of the office's own: name and text.
    pub office: Vec<(String, String)>,
    /// Job file and results of the issue that it replaced, byte for byte; none for a first issue.
    pub former: Option<(Vec<u8>, Vec<u8>)>,
    /// The build of the program that made it; empty where it does not say.
    pub build: String,
    /// What its results say of themselves.
    pub head: Head,
}

/// The head of a results document: what holds in every version of it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Head {
    /// The version of its form.
    pub format: u32,
    /// The program that made it.
    pub program: Program,
    /// The job.
    pub job: JobInShort,
}

impl Carried {
    /// What a package carries; none where nothing is attached, as in a submittal.
    ///
    /// # Errors
    /// [`Unreadable`] where the bytes are not a PDF, or what is attached is not what this program attaches.
    pub fn of(pdf: &[u8]) -> Result<Option<Self>, Unreadable> {
        let mut files = pdf::attachments(pdf)?;
        if files.is_empty() {
            return Ok(None);
        }
        let mut take = |name: &str| {
            let at = files.iter().position(|(known, _)| known == name);
            at.map(|at| files.swap_remove(at).1).ok_or_else(|| Unreadable(format!("it has attachments, but no {name}")))
        };
        let (job, results, fingerprint) = (take(JOB)?, take(RESULTS)?, take(TEMPLATES)?);
        let program = take(PROGRAM).ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default();
        let build = program.lines().find_map(|line| line.strip_prefix(BUILT)).unwrap_or_default().to_owned();
        let former = take(FORMER_JOB).ok().zip(take(FORMER_RESULTS).ok());
        let head = serde_json::from_slice(&results).map_err(|error| Unreadable(format!("its {RESULTS} has no head: {error}")))?;
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).map_err(|_| Unreadable("a template in it is not text".into()));
        let mut office = Vec::new();
        for (name, bytes) in files {
            if let Some(name) = name.strip_prefix(OFFICE) {
                office.push((name.to_owned(), text(bytes)?));
            }
        }
        office.sort();
        if let Some(why) = templates::too_much(&office) {
            return Err(Unreadable(format!("its templates: {why}")));
        }
        Ok(Some(Self { job, results, fingerprint: text(fingerprint)?, office, former, build, head }))
    }

    /// The templates that make its pages again, where this program has the same as the one that made it.
    pub fn templates(&self) -> Templates {
        Templates::with_office(self.office.iter().cloned())
    }

    /// The results themselves.
    ///
    /// # Errors
    /// [`Unreadable`] where they are of a newer form than this program knows, or do not have the form that they say.
    pub fn results(&self) -> Result<Results, Unreadable> {
        self.known()?;
        Results::read(&self.results).map_err(|error| Unreadable(format!("its {RESULTS} cannot be read: {error}")))
    }

    /// Whether this program knows the form of the results.
    ///
    /// # Errors
    /// [`Unreadable`] where it is a newer one.
    pub fn known(&self) -> Result<(), Unreadable> {
        let Head { format, program, .. } = &self.head;
        if *format > FORMAT {
            let (name, version) = (&program.name, &program.version);
            let message = format!("it was written by {name} {version}; its results have form {format}, this program knows {FORMAT}");
            return Err(Unreadable(message));
        }
        Ok(())
    }
}
