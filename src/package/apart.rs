//! Templates of an office's own, run in a process apart: a template is a program, and one that never ends, or takes all memory, must not
//! take this program with it.
//!
//! The process is this program again, with the job file and the templates on its standard input; it computes the job anew, and answers with
//! the PDF or with what a template got wrong. It ends by itself when its time is over, and where the platform limits the memory of a
//! process it gets no more than its part. Our own templates need none of this, and get none.

use super::authentication::Named;
use super::carried::BUILD;
use super::write::Issue;
use super::{Build, Templates};
use crate::pdf::{Bug, Limits, Press};
use serde::{Deserialize, Serialize};
use std::io::{Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};

/// The command that answers; it is no command for people.
pub const COMMAND: &str = "typeset-apart";
/// The exit status of a process whose templates got something wrong.
pub const WRONG: u8 = 1;
/// The exit status of one whose time is over.
pub const LATE: u8 = 3;

/// What is typeset apart.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Request {
    /// The build that asks: another one would not draw the same.
    program: String,
    /// The job file.
    pub job_file: String,
    /// Which copy.
    pub copy: Build,
    /// The build that is named in the package.
    pub build: String,
    /// The templates, by name.
    templates: Vec<(String, String)>,
    /// Job file and results of the issue that it replaces.
    pub former: Option<(String, String)>,
    /// The file whose authentication sheet is asked for; none: the package itself.
    pub sheet: Option<Named>,
    /// What it may take.
    pub limits: Limits,
}

impl Request {
    fn of(issue: &Issue, build: &str, sheet: Option<Named>, limits: Limits) -> Result<Self, Bug> {
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).map_err(|_| Bug::plain("the job file is no text"));
        let former = issue.reissue.map(|reissue| Ok::<_, Bug>((reissue.former_job.clone(), text(&reissue.former_results)?)));
        Ok(Self {
            program: BUILD.to_owned(),
            job_file: text(issue.job_file)?,
            copy: issue.build,
            build: build.to_owned(),
            templates: issue.templates.own(),
            former: former.transpose()?,
            sheet,
            limits,
        })
    }

    /// Reads what was asked, on the other side.
    ///
    /// # Errors
    /// It is no request, or one of another build of the program.
    pub fn read(from: impl Read) -> Result<Self, Bug> {
        let request: Self = serde_json::from_reader(from).map_err(|why| Bug::plain(format!("nothing that can be typeset: {why}")))?;
        if request.program == BUILD { Ok(request) } else { Err(Bug::plain("the program was replaced by another build while it ran")) }
    }

    /// The templates.
    pub fn templates(&self) -> Templates {
        Templates::with_office(self.templates.iter().cloned())
    }
}

/// Has an issue typeset apart, where the press knows the program for it and the templates are not all our own.
pub(super) fn typeset(issue: &Issue, press: &Press, build: &str, sheet: Option<&Named>) -> Option<Result<Vec<u8>, Bug>> {
    let (program, limits) = press.program().filter(|_| !issue.templates.are_built_in())?;
    let limits = limits.unwrap_or_else(|| Limits::of(issue.results.members.len()));
    Some(Request::of(issue, build, sheet.cloned(), limits).and_then(|request| answer(program, &request)))
}

fn answer(program: &Path, request: &Request) -> Result<Vec<u8>, Bug> {
    let failed = |why: std::io::Error| Bug::plain(format!("the typesetter for templates of an office's own cannot be started: {why}"));
    let asked = serde_json::to_vec(request).map_err(|why| Bug::plain(why.to_string()))?;
    let mut child =
        Command::new(program).arg(COMMAND).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().map_err(failed)?;
    // One that ends before it has read all says why by its status.
    if let Some(mut input) = child.stdin.take() {
        let _ = input.write_all(&asked);
    }
    let output = child.wait_with_output().map_err(failed)?;
    let Limits { seconds, megabytes, .. } = request.limits;
    match output.status.code().map(u8::try_from) {
        Some(Ok(0)) => Ok(output.stdout),
        Some(Ok(WRONG)) => Err(Bug { lines: String::from_utf8_lossy(&output.stdout).lines().map(str::to_owned).collect() }),
        Some(Ok(LATE)) => Err(Bug::plain(format!("typesetting with the office's own templates was stopped after {seconds} s"))),
        _ => Err(Bug::plain(format!("typesetting with the office's own templates broke off; it may take {megabytes} MB of memory"))),
    }
}
