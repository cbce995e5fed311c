//! The job: what the engineer wrote, read and resolved.
//!
//! [`read`] goes through the whole file whatever it meets: a wrong value is one fault and reading goes on, so that all mistakes come
//! in one run. [`keys`] holds a row for every key of the file; the reader, what it proposes for a misspelt key and the [`schema`] are
//! made from it.

mod about;
mod areas;
mod basis;
pub mod bounds;
mod draft;
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
mod revisions;
mod schema;
mod standing;
mod taken;
#[cfg(test)]
mod tests;

use crate::text::{Diagnostic, Faults, Source, Span};
use crate::yaml::{self, Node};
use draft::{JobDraft, MemberDraft};
use keys::{Kind, Part};
use members::{Given, Marks};
use model::{Area, BuildUp, Job, LoadCase};
use reader::{Form, Reader};
use taken::Taken;

pub use draft::StandIns;
pub use fault::IDS;
pub use plausible::Warning;
pub use prices::{Price, Prices};
pub use schema::schema;

/// A job file, as far as it could be read.
#[derive(Clone, Debug)]
pub struct Reading {
    /// All that is wrong, in file order; empty where the job is whole.
    pub faults: Faults,
    tree: Option<Node>,
    draft: Option<JobDraft>,
}

impl Reading {
    fn of(tree: Option<Node>, faults: Faults) -> Self {
        let mut reader = Reader { faults, unread: Vec::new(), code: None };
        let draft = tree.as_ref().and_then(|tree| job(&mut reader, tree));
        let mut faults = reader.faults;
        faults.sort_by_key(|fault| fault.primary.span);
        Self { faults, tree, draft }
    }

    /// The job, if it has no faults.
    ///
    /// # Errors
    /// All that is wrong.
    pub fn whole(self) -> Result<Job, Faults> {
        if !self.faults.is_empty() {
            return Err(self.faults);
        }
        let mut job = self.draft.and_then(JobDraft::whole).ok_or_else(|| vec![not_read()])?;
        job.warnings = plausible::warnings(&job);
        Ok(job)
    }

    /// Title, people, dates and revisions, if title and date could be read.
    pub fn about(&self) -> Option<&model::About> {
        self.draft.as_ref()?.about.as_ref()
    }

    /// The place whose habits the job follows, if its code could be read.
    pub fn jurisdiction(&self) -> Option<&str> {
        self.draft.as_ref()?.basis.as_ref().map(|basis| basis.jurisdiction.as_str())
    }

    /// The code that the job is designed to, or probably is meant to be.
    pub fn code(&self) -> Option<model::CodeName> {
        self.draft.as_ref().and_then(JobDraft::code)
    }

    /// What a code finds wrong, whatever takes the place of what could not be read; see [`JobDraft::wrong_whatever`].
    pub(crate) fn wrong_whatever(&self, stand_ins: &StandIns, ask: impl Fn(&Job) -> Vec<Faults>) -> Faults {
        self.draft.as_ref().map(|draft| draft.wrong_whatever(stand_ins, ask)).unwrap_or_default()
    }

    /// The same file read without the values at these places; none where there is nothing more to take out.
    pub(crate) fn without(&self, places: impl Iterator<Item = Span>) -> Option<Self> {
        let tree = self.tree.as_ref()?;
        let mut rest = tree.clone();
        for deepest in places.filter_map(|place| tree.deepest(place)).filter(|deepest| !deepest.key.is_some_and(is_kept)) {
            rest.erase(&deepest.way);
        }
        (rest != *tree).then(|| Self::of(Some(rest), Faults::new()))
    }
}

/// Keys whose values the whole entry hangs on: a fault told at one of them is about the entry.
fn is_kept(key: &str) -> bool {
    matches!(key, "mark" | "use" | "code")
}

/// The fault of a reader that took nothing for something without telling: of the program, not of the file.
fn not_read() -> Diagnostic {
    let message = "a value of this file was not read, and nothing says why".to_owned();
    Diagnostic::bug("not-read", message, Span::default())
}

/// Reads a job file; the whole of it, whatever is wrong.
pub fn read(source: &Source) -> Reading {
    let (tree, faults) = yaml::read(source);
    Reading::of(tree, faults)
}

/// The fault of a basis whose code has no folder yet; [`read`] tells it too.
pub fn not_covered_code(basis: &model::Basis) -> Faults {
    vec![fault::Fault::NotCovered { what: format!("the {} code", basis.code.value.word()) }.at(basis.code.span)]
}

/// The fault of a member of which more would be tried than [`bounds::TRIALS`].
pub fn too_many_trials(member: &model::Member, combinations: usize, trials: usize) -> Diagnostic {
    fault::Fault::TooManyTrials { spans: member.spans.panels(), combinations, trials, most: bounds::TRIALS }.at(member.mark.span)
}

fn job(reader: &mut Reader, node: &Node) -> Option<JobDraft> {
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
    let areas_unread = reader.unread.iter().any(|place| matches!(form.key_at(*place), Some("areas" | "build-ups" | "basis")));
    let unread = unread(node, &reader.unread);
    let defaults = taken.0;
    Some(JobDraft { about, basis, build_ups, areas, members, path, prices, defaults, comments, checker, unread, areas_unread })
}

/// The entries that could not be read, in file order.
fn unread(tree: &Node, places: &[Span]) -> Vec<Span> {
    let deepest = places.iter().filter_map(|place| tree.deepest(*place));
    let mut unread: Vec<Span> = deepest.filter(|deepest| !deepest.key.is_some_and(is_kept)).map(|deepest| deepest.span).collect();
    unread.sort_by_key(|span| (span.start, std::cmp::Reverse(span.end)));
    let mut reached = 0;
    unread.retain(|span| {
        let outermost = span.end > reached;
        reached = reached.max(span.end);
        outermost
    });
    unread
}

/// Members written as a map from their marks, as the list that is due, so that what else is wrong in them is told too.
fn members_by_mark(node: &yaml::Node) -> Option<Vec<yaml::Node>> {
    let yaml::Value::Map(entries) = &node.value else { return None };
    let marked = |entry: &yaml::Entry| {
        let yaml::Value::Map(inner) = &entry.node.value else { return None };
        let mark = yaml::Node { span: entry.key_span, value: yaml::Value::Scalar(entry.key.clone()) };
        let own = yaml::Entry { key: "mark".to_owned(), key_span: entry.key_span, node: mark };
        let others = inner.iter().filter(|entry| entry.key != "mark").cloned();
        let value = yaml::Value::Map(std::iter::once(own).chain(others).collect());
        Some(yaml::Node { span: entry.node.span, value })
    };
    let is_one_member = Kind::Map(Part::Member).may_be_item(&node.value);
    if is_one_member || entries.is_empty() { None } else { entries.iter().map(marked).collect() }
}

fn members_of(
    reader: &mut Reader,
    form: &Form,
    about: Option<&model::About>,
    (cases, areas): (&[LoadCase], &[Area]),
    taken: &mut Taken,
) -> (Vec<MemberDraft>, Option<Vec<usize>>, Marks) {
    let Some(entry) = form.entry("members") else { return (Vec::new(), Some(Vec::new()), Marks::default()) };
    let before = reader.faults.len();
    let by_mark = members_by_mark(&entry.node);
    let items = match &by_mark {
        Some(items) => {
            reader.fault(&fault::Fault::MembersByMark, entry.key_span);
            items.as_slice()
        }
        None => reader.list(&entry.node, "members", &Kind::Map(Part::Member)),
    };
    if items.is_empty() && reader.faults.len() == before {
        reader.fault(&fault::Fault::NoMembers, entry.key_span);
    }
    let marks = Marks::collect(reader, items);
    let given = Given { cases, areas, marks: &marks };
    let mut links = Vec::new();
    let mut drafts: Vec<_> =
        items.iter().enumerate().map(|(index, item)| members::member(reader, item, index, &given, &mut links, taken)).collect();
    handed::hand_on(reader, &mut drafts, &mut links, &given, taken);
    let path = links::resolve(reader, &drafts, &links, about);
    (drafts.into_iter().map(|draft| draft.member).collect(), path, marks)
}
