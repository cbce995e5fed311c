//! The authentication sheet: one page beside a package that names the file and its hashes, with lines to sign by hand.
//!
//! The hashes are those of the finished file. Nothing is written into the package for it, and nothing is signed.

use super::carried::BUILD;
use super::view::{Frame, Main, Scene};
use super::write::{Issue, options};
use super::{Build, Document, IssueLabel, apart};
use crate::pdf::{self, Bug, Options, Press, Standard};
use serde::{Deserialize, Serialize};

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

/// A package that the sheet is about.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Named {
    file: String,
    pages: usize,
    bytes: usize,
    sha256: String,
    sha1: String,
}

impl Named {
    /// A package by the name of its file and its bytes as they were written.
    ///
    /// # Errors
    /// It is not a PDF.
    pub fn of(file: &str, package: &[u8]) -> Result<Self, Bug> {
        Ok(Self {
            file: file.to_owned(),
            pages: pdf::page_count(package).map_err(|error| Bug::plain(error.to_string()))?,
            bytes: package.len(),
            sha256: pdf::sha256(package),
            sha1: pdf::sha1(package),
        })
    }
}

/// The authentication sheet of a package that was issued, as PDF bytes.
///
/// # Errors
/// A [`Bug`] of a template.
pub fn authentication(issue: &Issue, named: &Named, press: &mut Press) -> Result<Vec<u8>, Bug> {
    if let Some(answer) = apart::typeset(issue, press, BUILD, Some(named)) {
        return answer;
    }
    let Issue { job, results, templates, .. } = *issue;
    let scene = Scene::of(job, results, None, Build::Submittal);
    let filler = templates.filler()?;
    let main = Main::of(&scene, Build::Submittal, vec!["/authentication.typ".into()], Vec::new());
    let view = View {
        file: named.file.clone(),
        title: main.title().to_owned(),
        revision: format!("{}, {}", job.about.revision, job.about.date),
        pages: named.pages,
        bytes: named.bytes,
        sha256: named.sha256.clone(),
        sha1: named.sha1.clone(),
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
    press.pdf(&sheets, &[], &options)
}
