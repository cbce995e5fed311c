//! What a process that typesets templates of an office's own answers: see [`Request`].

use super::change::{self, Former};
use crate::package::{self, Issue, Request};
use crate::pdf::{Bug, Press};
use crate::text::Source;

/// Computes the job of a request and typesets what it asks for.
///
/// # Errors
/// A [`Bug`] of a template; the job file is one that was checked before.
pub fn typeset(request: &Request) -> Result<Vec<u8>, Bug> {
    let refused = |why: &dyn std::fmt::Display| Bug::plain(format!("the job cannot be typeset: {why}"));
    let source = Source::read("job.yaml", request.job_file.as_bytes()).map_err(|why| refused(&why.1.message))?;
    let checked = crate::check(&source, false).map_err(|faults| refused(&format!("{} faults in it", faults.len())))?;
    let former = request.former.clone().map(|(job, results)| Former::read(job.into_bytes(), results.into_bytes()));
    let reissue = former.map(|former| change::between(&former?, &source, &checked)).transpose().map_err(|why| refused(&why))?;
    let templates = request.templates();
    let issue = Issue {
        job: &checked.job,
        results: &checked.results,
        job_file: request.job_file.as_bytes(),
        build: request.copy,
        templates: &templates,
        reissue: reissue.as_ref(),
    };
    let mut press = Press::new().with_most_pages(request.limits.pages);
    match &request.sheet {
        Some(named) => package::authentication(&issue, named, &mut press),
        None => issue.pdf_of_build(&mut press, &request.build),
    }
}
