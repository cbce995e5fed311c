//! The job: what the engineer wrote, read and resolved.
//!
//! [`read`] goes through the whole file whatever it meets: a wrong value is one fault and reading goes on, so that all mistakes come
//! in one run. [`keys`] holds a row for every key of the file; the reader, what it proposes for a misspelt key and the [`schema`] are
//! made from it.

mod about;
mod areas;
mod basis;
pub mod bounds;
mod fault;
mod floor;
mod geometry;
mod handed;
pub mod keys;
mod links;
mod loads;
mod material;
mod members;
pub mod model;
pub mod path;
mod plausible;
mod prices;
pub mod profile;
mod reader;
mod reductions;
mod remarks;
mod rests_on;
mod schema;
mod standing;
mod taken;
#[cfg(test)]
mod tests;

use crate::text::{Diagnostic, Faults, Source};
use crate::yaml::{self, Node};
use keys::{Kind, Part};
use members::{Given, Marks};
use model::{Area, BuildUp, Job, LoadCase};
use reader::{Form, Reader};
use taken::Taken;

pub use fault::IDS;
pub use plausible::Warning;
pub use prices::{Price, Prices};
pub use reader::day;
pub use schema::schema;

/// A job file, as far as it could be read.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The job. Where there are faults it is a draft: it is there if title, date and basis could be read, and holds the members
    /// whose mark, use, section and material could be read, so that they can be tried against the code's tables. What else was
    /// wrong in them is left out or a stand-in: a draft must not be calculated.
    pub job: Option<Job>,
    /// All that is wrong, in file order; empty where the job is whole.
    pub faults: Faults,
}

impl Reading {
    /// The job, if it has no faults.
    ///
    /// # Errors
    /// All that is wrong.
    pub fn whole(self) -> Result<Job, Faults> {
        match self.job {
            Some(job) if self.faults.is_empty() => Ok(job),
            _ => Err(self.faults),
        }
    }
}

/// Reads a job file; the whole of it, whatever is wrong.
pub fn read(source: &Source) -> Reading {
    let (node, faults) = yaml::read(source);
    let mut reader = Reader { faults, code: None };
    let mut job = node.and_then(|node| job(&mut reader, &node));
    let mut faults = reader.faults;
    faults.sort_by_key(|fault| fault.primary.span);
    // A draft is not what the engineer means.
    if let Some(job) = job.as_mut().filter(|_| faults.is_empty()) {
        job.warnings = plausible::warnings(job);
    }
    Reading { job, faults }
}

/// The fault of a basis whose code has no folder yet; [`read`] tells it too.
pub fn not_covered_code(basis: &model::Basis) -> Faults {
    vec![fault::Fault::NotCovered { what: format!("the {} code", basis.code.value.word()) }.at(basis.code.span)]
}

/// The fault of a member of which more would be tried than [`bounds::TRIALS`].
pub fn too_many_trials(member: &model::Member, combinations: usize, trials: usize) -> Diagnostic {
    fault::Fault::TooManyTrials { spans: member.spans.panels(), combinations, trials, most: bounds::TRIALS }.at(member.mark.span)
}

fn job(reader: &mut Reader, node: &Node) -> Option<Job> {
    reader.code = node.entry("basis").and_then(|entry| basis::code_of(&entry.node));
    let form = reader.form(node, Part::File)?;
    bounds::check(reader, node);
    let mut taken = Taken::default();
    let place = form.node("basis").and_then(|node| node.entry("jurisdiction")).map(|entry| reader::written(&entry.node));
    let place = profile::Profile::of(&place.unwrap_or_default());
    let about = form.node("job").and_then(|node| about::read(reader, node, place, &mut taken));
    let (cases, basis) = form.node("basis").map_or_else(|| (basis::plain_cases(), None), |node| basis::read(reader, node, &mut taken));
    let build_ups: Vec<BuildUp> = form.node("build-ups").map(|node| areas::build_ups(reader, node)).unwrap_or_default();
    let areas: Vec<Area> = form.node("areas").map(|node| areas::areas(reader, node, &cases, &build_ups)).unwrap_or_default();
    let prices = form.node("prices").and_then(|node| prices::read(reader, node));
    let (members, path, marks) = members_of(reader, &form, about.as_ref(), (&cases, &areas), &mut taken);
    let comments = remarks::comments(reader, &form, &marks);
    let checker = form.node("checker").and_then(|node| remarks::checker(reader, node, &marks));
    Some(Job {
        comments,
        checker,
        about: about?,
        basis: basis?,
        build_ups,
        areas,
        members,
        path,
        prices,
        defaults: taken.0,
        warnings: Vec::new(),
    })
}

fn members_of(
    reader: &mut Reader,
    form: &Form,
    about: Option<&model::About>,
    (cases, areas): (&[LoadCase], &[Area]),
    taken: &mut Taken,
) -> (Vec<model::Member>, Vec<usize>, Marks) {
    let Some(entry) = form.entry("members") else { return (Vec::new(), Vec::new(), Marks::default()) };
    let before = reader.faults.len();
    let items = reader.list(&entry.node, "members", &Kind::Map(Part::Member));
    if items.is_empty() && reader.faults.len() == before {
        reader.fault(&fault::Fault::NoMembers, entry.key_span);
    }
    let marks = Marks::collect(reader, items);
    let given = Given { cases, areas, marks: &marks };
    let mut links = Vec::new();
    let mut drafts: Vec<_> =
        items.iter().enumerate().map(|(index, item)| members::member(reader, item, index, &given, &mut links, taken)).collect();
    handed::hand_on(reader, &mut drafts, &mut links, &given, taken);
    let (members, path) = links::resolve(reader, drafts, &links, about);
    (members, path, marks)
}
