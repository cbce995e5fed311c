//! Where two job files differ.

use super::merged::{Merged, Mixture};
use super::words::{self, Here};
use crate::results::reissue::Input;
use crate::yaml::{Node, Value};
use std::collections::{BTreeMap, BTreeSet};

/// What an edit can reach.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Reach {
    /// A member, and what rests on or below it.
    Member(String),
    /// Members that an area load acts on.
    Area(String),
    /// Areas that use a build-up.
    BuildUp(String),
    /// The whole job.
    All,
}

/// A place that differs.
#[derive(Clone, Debug)]
pub(super) struct Edit {
    pub input: Input,
    pub reach: Reach,
}

/// What a member of either file takes from elsewhere.
#[derive(Clone, Debug, Default)]
pub(super) struct Takes {
    /// Marks whose reactions it receives.
    pub from: BTreeSet<String>,
    /// Area loads that act on it.
    pub areas: BTreeSet<String>,
}

/// Two job files laid over one another.
#[derive(Clone, Debug, Default)]
pub(super) struct Plan {
    /// The edits that calculations may hang on, in file order.
    pub edits: Vec<Edit>,
    /// What else differs.
    pub others: Vec<Input>,
    /// Both files.
    pub mixture: Mixture,
    /// By mark, of both files together.
    pub takes: BTreeMap<String, Takes>,
    /// Build-ups by the area that uses them, of both files together.
    pub built_up: BTreeMap<String, BTreeSet<String>>,
}

/// Keys of the part `job` that change with every issue.
const OF_AN_ISSUE: [&str; 3] = ["revision", "revisions", "date"];
/// Parts of the file that calculations hang on.
const CALCULATED: [&str; 4] = ["basis", "build-ups", "areas", "members"];
/// Keys that name an entry of a list.
const NAMES: [&str; 7] = ["mark", "id", "layer", "item", "number", "name", "table"];
/// Longer lists are not aligned entry by entry.
const ALIGNED: usize = 1000;

/// Lays the former file and the present one over one another.
pub(super) fn plan(old: &Node, new: &Node) -> Plan {
    let mut differ = Differ::default();
    let mut plan = Plan::default();
    for (key, former, now) in pairs(entries(old), entries(new)) {
        let here = Here::part(key);
        match key {
            "members" => plan.mixture.members = differ.members(&here, former, now),
            // What is said of people and papers is taken as it is now.
            "job" => plan.mixture.parts.extend(now.map(|node| (key.to_owned(), Merged::Same(node.clone())))),
            key if CALCULATED.contains(&key) => {
                if let Some(part) = differ.node(&here, former, now) {
                    plan.mixture.parts.push((key.to_owned(), part));
                }
            }
            _ => {}
        }
    }
    plan.edits = std::mem::take(&mut differ.edits);
    for (key, former, now) in pairs(entries(old), entries(new)).into_iter().filter(|(key, ..)| !CALCULATED.contains(key)) {
        let _ = differ.node(&Here::part(key), former, now);
    }
    plan.others = differ.edits.into_iter().map(|edit| edit.input).filter(|input| !of_an_issue(&input.path)).collect();
    for file in [old, new] {
        takes(file, &mut plan);
    }
    plan
}

fn of_an_issue(path: &str) -> bool {
    path.strip_prefix("job.").is_some_and(|rest| OF_AN_ISSUE.contains(&rest.split('.').next().unwrap_or_default()))
}

/// Equal but for places, remarks and the order of keys.
pub(super) fn same(a: &Node, b: &Node) -> bool {
    match (&a.value, &b.value) {
        (Value::Null, Value::Null) => true,
        (Value::Scalar(a), Value::Scalar(b)) => a == b,
        (Value::List(a), Value::List(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b)),
        (Value::Map(a), Value::Map(_)) => {
            let Value::Map(entries) = &b.value else { return false };
            a.len() == entries.len() && a.iter().all(|entry| b.entry(&entry.key).is_some_and(|other| same(&entry.node, &other.node)))
        }
        _ => false,
    }
}

#[derive(Default)]
struct Differ {
    edits: Vec<Edit>,
}

impl Differ {
    /// Both sides of one place; none where neither file has it.
    fn node(&mut self, here: &Here, former: Option<&Node>, now: Option<&Node>) -> Option<Merged> {
        Some(match (former, now) {
            (None, None) => return None,
            (Some(a), Some(b)) if same(a, b) => Merged::Same(b.clone()),
            (Some(Node { value: Value::Map(a), .. }), Some(Node { value: Value::Map(b), .. })) => {
                let pairs = pairs(keyed(a), keyed(b));
                Merged::Map(pairs.into_iter().filter_map(|(key, a, b)| Some((key.to_owned(), self.node(&here.key(key), a, b)?))).collect())
            }
            (Some(Node { value: Value::List(a), .. }), Some(Node { value: Value::List(b), .. })) => self.list(here, a, b, former, now),
            _ => self.edit(here, former, now),
        })
    }

    fn edit(&mut self, here: &Here, former: Option<&Node>, now: Option<&Node>) -> Merged {
        let id = self.edits.len();
        let input = Input {
            path: here.path.clone(),
            mark: here.mark.clone(),
            of: here.of.clone(),
            item: here.item.clone(),
            former: former.map(words::said),
            now: now.map(words::said),
            why: String::new(),
            who: String::new(),
        };
        self.edits.push(Edit { input, reach: here.reach.clone() });
        Merged::Edit { id, former: former.cloned(), now: now.cloned() }
    }

    fn list(&mut self, here: &Here, a: &[Node], b: &[Node], former: Option<&Node>, now: Option<&Node>) -> Merged {
        let flat = |list: &[Node]| list.iter().all(|item| matches!(item.value, Value::Scalar(_) | Value::Null));
        if here.is_by_place() || flat(a) && flat(b) {
            if a.len() != b.len() {
                return self.edit(here, former, now);
            }
            let items = a.iter().zip(b).enumerate();
            return Merged::List(items.filter_map(|(i, (x, y))| self.node(&here.numbered(i, b.len()), Some(x), Some(y))).collect());
        }
        if let Some(name) = NAMES.into_iter().find(|name| names(a, name).is_some() && names(b, name).is_some()) {
            let named = |list| names(list, name).unwrap_or_default();
            let pairs = pairs(named(a), named(b));
            return Merged::List(pairs.into_iter().filter_map(|(name, a, b)| self.node(&here.named(name), a, b)).collect());
        }
        let aligned = align(a, b);
        Merged::List(aligned.into_iter().filter_map(|(i, x, y)| self.node(&here.entry(i, y.or(x)), x, y)).collect())
    }

    fn members(&mut self, here: &Here, former: Option<&Node>, now: Option<&Node>) -> Vec<(String, Merged)> {
        let marked = |node: Option<&'_ Node>| match node.map(|node| &node.value) {
            Some(Value::List(items)) => items.clone(),
            _ => Vec::new(),
        };
        let (a, b) = (marked(former), marked(now));
        let (a, b) = (names(&a, "mark").unwrap_or_default(), names(&b, "mark").unwrap_or_default());
        pairs(a, b)
            .into_iter()
            .filter_map(|(mark, a, b)| {
                let here = here.member(mark);
                let whole = if a.is_none() || b.is_none() { here.whole(b.is_some()) } else { here };
                Some((mark.to_owned(), self.node(&whole, a, b)?))
            })
            .collect()
    }
}

fn keyed(entries: &[crate::yaml::Entry]) -> Vec<(&str, &Node)> {
    entries.iter().map(|entry| (entry.key.as_str(), &entry.node)).collect()
}

fn entries(node: &Node) -> Vec<(&str, &Node)> {
    match &node.value {
        Value::Map(entries) => keyed(entries),
        _ => Vec::new(),
    }
}

/// Entries of a list by their name under a key; none where one has no such name or shares it.
fn names<'a>(items: &'a [Node], key: &str) -> Option<Vec<(&'a str, &'a Node)>> {
    let mut seen = BTreeSet::new();
    items.iter().map(|item| super::text(item, key).filter(|name| seen.insert(*name)).map(|name| (name, item))).collect()
}

/// Pairs by name, in the order of the present file; what only the former has stands last.
fn pairs<'a>(a: Vec<(&'a str, &'a Node)>, b: Vec<(&'a str, &'a Node)>) -> Vec<(&'a str, Option<&'a Node>, Option<&'a Node>)> {
    let former: BTreeMap<&str, &Node> = a.iter().copied().collect();
    let now: BTreeSet<&str> = b.iter().map(|(name, _)| *name).collect();
    let mut pairs: Vec<_> = b.into_iter().map(|(name, node)| (name, former.get(name).copied(), Some(node))).collect();
    pairs.extend(a.into_iter().filter(|(name, _)| !now.contains(name)).map(|(name, node)| (name, Some(node), None)));
    pairs
}

type Aligned<'a> = (usize, Option<&'a Node>, Option<&'a Node>);

/// Pairs two lists without names: what is the same in both stands fast (the longest such row), and between such entries those of one kind
/// are one entry that changed.
fn align<'a>(a: &'a [Node], b: &'a [Node]) -> Vec<Aligned<'a>> {
    let fast = fast(a, b);
    let mut out: Vec<Aligned<'a>> = Vec::new();
    let (mut i, mut j) = (0, 0);
    for (at_a, at_b) in fast.into_iter().chain([(a.len(), b.len())]) {
        let mut left: Vec<&Node> = a[i..at_a].iter().collect();
        for (n, item) in b[j..at_b].iter().enumerate() {
            let partner = left.iter().position(|other| words::kind(other) == words::kind(item)).map(|k| left.remove(k));
            out.push((j + n, partner, Some(item)));
        }
        out.extend(left.into_iter().map(|item| (at_b, Some(item), None)));
        if at_a < a.len() {
            out.push((at_b, Some(&a[at_a]), Some(&b[at_b])));
        }
        (i, j) = (at_a + 1, at_b + 1);
    }
    out
}

/// The longest row of entries that both lists have in the same order.
fn fast(a: &[Node], b: &[Node]) -> Vec<(usize, usize)> {
    if a.len() > ALIGNED || b.len() > ALIGNED {
        return Vec::new();
    }
    let mut longest = vec![vec![0_usize; b.len() + 1]; a.len() + 1];
    for i in (0..a.len()).rev() {
        for j in (0..b.len()).rev() {
            longest[i][j] = if same(&a[i], &b[j]) { longest[i + 1][j + 1] + 1 } else { longest[i + 1][j].max(longest[i][j + 1]) };
        }
    }
    let (mut i, mut j, mut row) = (0, 0, Vec::new());
    while i < a.len() && j < b.len() {
        if same(&a[i], &b[j]) {
            row.push((i, j));
            (i, j) = (i + 1, j + 1);
        } else if longest[i + 1][j] >= longest[i][j + 1] {
            i += 1;
        } else {
            j += 1;
        }
    }
    row
}

/// All that an entry of `rests-on` names, marks among it.
fn named(node: &Node) -> Vec<&str> {
    match &node.value {
        Value::Scalar(text) => vec![text.trim()],
        Value::List(items) => items.iter().flat_map(named).collect(),
        _ => super::text(node, "mark").into_iter().collect(),
    }
}

/// What members and areas of a file take from elsewhere.
fn takes(file: &Node, plan: &mut Plan) {
    let list = |node: &Node, key: &str| match node.entry(key).map(|entry| &entry.node.value) {
        Some(Value::List(items)) => items.clone(),
        _ => Vec::new(),
    };
    let members = list(file, "members");
    let marks: BTreeSet<&str> = members.iter().filter_map(|member| super::text(member, "mark")).collect();
    for member in &members {
        let Some(mark) = super::text(member, "mark") else { continue };
        for on in member.entry("rests-on").into_iter().flat_map(|entry| named(&entry.node)).filter(|on| marks.contains(on)) {
            plan.takes.entry(on.to_owned()).or_default().from.insert(mark.to_owned());
        }
        let takes = plan.takes.entry(mark.to_owned()).or_default();
        for load in list(member, "loads") {
            takes.from.extend(super::text(&load, "reaction").or_else(|| super::text(&load, "thrust")).map(str::to_owned));
            takes.areas.extend(super::text(&load, "area").map(str::to_owned));
        }
    }
    for (name, area) in file.entry("areas").map(|entry| entries(&entry.node)).unwrap_or_default() {
        let values = entries(area).into_iter().filter_map(|(_, node)| match &node.value {
            Value::Scalar(text) => Some(text.clone()),
            _ => None,
        });
        plan.built_up.entry(name.to_owned()).or_default().extend(values);
    }
}
