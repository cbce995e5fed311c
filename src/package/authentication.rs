//! The authentication sheet: one page beside a package that names the file and its hashes, with lines to sign by hand.
//!
//! The hashes are those of the finished file. Nothing is written into the package for it, and nothing is signed.

use super::view::{Frame, Main, Scene};
use super::write::options;
use super::{Build, Document, IssueLabel, Templates};
use crate::job::model::Job;
use crate::pdf::{self, Bug, Options, Press, Standard};
use crate::results::Results;
use serde::Serialize;

/// What the sheet says.
#[derive(Debug, Serialize)]
struct View {
    file: String,
    title: String,
    revision: String,
    pages: usize,
    bytes: usize,
    sha256: String,
    sha1: String,
    license: &'static str,
    program: String,
}

/// The authentication sheet of a package, as PDF bytes.
///
/// `file` is the name of the package, `package` its bytes as they were written.
///
/// # Errors
/// A [`Bug`] of a template, or where the package is not a PDF.
pub fn authentication(job: &Job, results: &Results, file: &str, package: &[u8], templates: &Templates) -> Result<Vec<u8>, Bug> {
    let scene = Scene::of(job, results, None, Build::Submittal);
    let filler = templates.filler()?;
    let main = Main::of(&scene, Build::Submittal, vec!["/authentication.typ".into()], Vec::new());
    let view = View {
        file: file.to_owned(),
        title: main.title().to_owned(),
        revision: format!("{}, {}", job.about.revision, job.about.date),
        pages: pdf::page_count(package).map_err(|error| Bug::plain(error.to_string()))?,
        bytes: package.len(),
        sha256: pdf::sha256(package),
        sha1: pdf::sha1(package),
        license: "License number",
        program: format!("{} {}", results.program.name, results.program.version),
    };
    let sheets = [
        filler.fill("package.typ", "/main.typ", main.named("Authentication sheet"))?,
        filler.fill("job.typ", "/job.typ", Frame::of(&scene))?,
        templates.style(),
        filler.fill("authentication.typ", "/authentication.typ", view)?,
    ];
    let of_package = options(job, results, Build::Submittal);
    let label = IssueLabel::of(Document::AuthenticationSheet, job, results);
    let options =
        Options { standard: Standard::Submittal, ident: format!("{} authentication", of_package.ident), note: label.note(), ..of_package };
    Press::new().pdf(&sheets, &[], &options)
}
