//! What a reissue changed.
//!
//! [`between`] takes what was issued and what is to be issued. The two job files are laid over one another as one tree in which each
//! place that differs is an edit that can be taken or left; the ratios are then walked from old to new by taking the edits
//! one after the other, in file order, and running the engine on each mixture. An edit that makes no valid job without another one
//! is taken together with it. So the parts of a ratio's change are computed, and sum to the whole.

mod chains;
mod compare;
mod edits;
mod merged;
mod reasons;
#[cfg(test)]
mod tests;
mod walk;
mod words;

use crate::Checked;
use crate::results::Results;
use crate::results::reissue::{Issued, KeptRevision, Reissue, Withdrawn};
use crate::text::Source;
use crate::yaml::{self, Node, Value};

/// An earlier issue: what a record package carries.
#[derive(Clone, Debug)]
pub struct Former {
    /// Its job file.
    pub job: String,
    /// Its results as they are attached.
    pub attached: Vec<u8>,
    /// Its results.
    pub results: Results,
}

/// Why an earlier package cannot be compared with a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// It carries no job file or no results.
    NothingAttached,
    /// Its results were written in a form that this version does not read.
    Results(String),
    /// Its job file is no YAML.
    Job,
    /// It belongs to another job.
    OtherJob {
        /// Its job number.
        former: String,
        /// The number of the job to be issued.
        now: String,
    },
    /// The job file still has the revision that was issued.
    SameRevision(String),
}

impl std::fmt::Display for Refused {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NothingAttached => f.write_str("it carries no job file and results; name the record copy (a submittal carries nothing)"),
            Self::Results(why) => write!(f, "its results cannot be read by this version: {why}"),
            Self::Job => f.write_str("the job file that it carries is not YAML"),
            Self::OtherJob { former, now } => write!(f, "it belongs to job {former}, and this is job {now}"),
            Self::SameRevision(mark) => {
                write!(f, "revision {mark} is issued already; give the job file a new `revision` and a row in its `revisions`")
            }
        }
    }
}

impl std::error::Error for Refused {}

impl Former {
    /// From the files that a package carries, by name.
    ///
    /// # Errors
    /// [`Refused`] where job file or results are missing or cannot be read.
    pub fn of(files: &[(String, Vec<u8>)]) -> Result<Self, Refused> {
        let file = |name: &str| files.iter().find(|(known, _)| known == name).map(|(_, bytes)| bytes.clone());
        let (Some(job), Some(attached)) = (file("job.yaml"), file("results.json")) else { return Err(Refused::NothingAttached) };
        Self::read(job, attached)
    }

    /// From a job file and its results.
    ///
    /// # Errors
    /// [`Refused`] where they cannot be read.
    pub fn read(job: Vec<u8>, attached: Vec<u8>) -> Result<Self, Refused> {
        let results = Results::read(&attached).map_err(Refused::Results)?;
        Ok(Self { job: String::from_utf8(job).map_err(|_| Refused::Job)?, attached, results })
    }
}

/// What a reissue changed.
///
/// # Errors
/// [`Refused`] where the two are not issues of one job, or have the same revision.
pub fn between(former: &Former, source: &Source, checked: &Checked) -> Result<Reissue, Refused> {
    let (then, now) = (&former.results, &checked.results);
    if then.job.number != now.job.number {
        return Err(Refused::OtherJob { former: then.job.number.clone(), now: now.job.number.clone() });
    }
    if then.job.revision == now.job.revision {
        return Err(Refused::SameRevision(now.job.revision.clone()));
    }
    let former_source = Source::read("the former job file", former.job.as_bytes()).map_err(|_| Refused::Job)?;
    let old = yaml::read(&former_source).0.ok_or(Refused::Job)?;
    let new = yaml::read(source).0.ok_or(Refused::Job)?;
    let mut plan = edits::plan(&old, &new);
    let loose = reasons::stand_with(&mut plan, &checked.job);
    let walked = walk::walk(&plan, &former_source, now);
    let (steps, not_walked) = match &walked {
        Ok(walked) => (walked.steps.iter().map(|step| step.edits.clone()).collect(), String::new()),
        Err(why) => (Vec::new(), why.to_string()),
    };
    let changed = compare::changed(then, now, &plan, walked.as_ref().ok());
    let marks = |results: &Results| -> Vec<String> { results.members.iter().map(|m| m.mark.clone()).collect() };
    let withdrawn = then.members.iter().filter(|m| now.member(&m.mark).is_none());
    Ok(Reissue {
        former: issued(then, &old),
        now: issued(now, &new),
        unchanged: marks(now).into_iter().filter(|m| then.member(m).is_some() && !changed.iter().any(|c| c.mark == *m)).collect(),
        added: marks(now).into_iter().filter(|m| then.member(m).is_none()).collect(),
        withdrawn: withdrawn.map(|m| Withdrawn { mark: m.mark.clone(), role: m.role.clone(), section: m.section.name.clone() }).collect(),
        inputs: plan.edits.into_iter().map(|edit| edit.input).collect(),
        others: plan.others,
        reasons: loose,
        steps,
        not_walked,
        changed,
        kept_revisions: kept(&old, checked),
        former_job: former.job.clone(),
        former_results: former.attached.clone(),
    })
}

fn issued(results: &Results, job: &Node) -> Issued {
    let date = job.entry("job").and_then(|entry| text(&entry.node, "date")).unwrap_or_default();
    Issued {
        revision: results.job.revision.clone(),
        date: date.to_owned(),
        job: results.fingerprint.job.clone(),
        program: format!("{} {}", results.program.name, results.program.version),
    }
}

/// Rows of the former revision table that the present one lacks; the former revision itself even where no table had it.
fn kept(old: &Node, checked: &Checked) -> Vec<KeptRevision> {
    let Some(about) = old.entry("job").map(|entry| &entry.node) else { return Vec::new() };
    let rows = about.entry("revisions").map(|entry| &entry.node.value);
    let mut all: Vec<KeptRevision> = match rows {
        Some(Value::List(rows)) => rows
            .iter()
            .filter_map(|row| {
                Some(KeptRevision {
                    mark: text(row, "mark")?.to_owned(),
                    date: text(row, "date").unwrap_or_default().to_owned(),
                    note: text(row, "note").unwrap_or_default().to_owned(),
                })
            })
            .collect(),
        _ => Vec::new(),
    };
    let mark = text(about, "revision").unwrap_or("A").to_owned();
    if !all.iter().any(|row| row.mark == mark) {
        all.push(KeptRevision { mark, date: text(about, "date").unwrap_or_default().to_owned(), note: String::new() });
    }
    all.retain(|row| checked.job.about.revisions.iter().all(|known| known.mark != row.mark));
    all
}

/// The text under a key of a map.
fn text<'a>(node: &'a Node, key: &str) -> Option<&'a str> {
    match &node.entry(key)?.node.value {
        Value::Scalar(text) => Some(text),
        _ => None,
    }
}
