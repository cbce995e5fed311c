//! Reading values out of the located tree: a wrong value is nothing and one fault, and reading goes on.

use super::fault::Fault;
use super::keys::{Key, Kind, Need, Part};
use super::model::{CodeName, Date, Placed, Use};
use super::plausible;
use crate::text::{Diagnostic, Faults, Span, nearest};
use crate::units::{self, Dimension, Exponents, Misread, Q, Ratio, kinds};
use crate::yaml::{Entry, Node, Value};
use std::ops::RangeInclusive;

/// Collects what is wrong while a job is read.
#[derive(Debug)]
pub(super) struct Reader {
    pub faults: Faults,
    /// Places of values that could not be read, or contradict others.
    pub unread: Vec<Span>,
    /// The code, once it is known: keys of other codes are refused.
    pub code: Option<CodeName>,
}

/// An entry of a form.
#[derive(Clone, Copy, Debug)]
struct Known<'a> {
    key: &'static Key,
    entry: &'a Entry,
    /// Whether it is written under another name, which has been told.
    renamed: bool,
}

/// A map with its part of the key table: it holds only keys that the table knows.
#[derive(Clone, Debug)]
pub(super) struct Form<'a> {
    pub part: Part,
    pub span: Span,
    entries: Vec<Known<'a>>,
    /// Keys that unknown ones were probably meant to be, whose value is not of their kind.
    meant: Vec<&'static str>,
}

impl<'a> Form<'a> {
    /// The entry under a key; none where it is left out, or is empty, which has been told.
    pub fn entry(&self, name: &str) -> Option<&'a Entry> {
        debug_assert!(self.part.keys().any(|key| key.name == name), "{:?} has no row for `{name}`", self.part);
        self.entries.iter().find(|known| known.key.name == name).map(|known| known.entry).filter(|entry| !is_empty(&entry.node))
    }

    /// Whether a key is there, with a value or without, or was probably meant by one that is not known.
    pub fn says(&self, name: &str) -> bool {
        self.meant.contains(&name) || self.entries.iter().any(|known| known.key.name == name)
    }

    /// The place of a key, with a value or without.
    pub fn key_span(&self, name: &str) -> Option<Span> {
        self.entries.iter().find(|known| known.key.name == name).map(|known| known.entry.key_span)
    }

    /// The value under a key; none where it is left out, or is empty, which has been told.
    pub fn node(&self, name: &str) -> Option<&'a Node> {
        self.entry(name).map(|entry| &entry.node)
    }

    /// The key in whose entry a place lies.
    pub fn key_at(&self, place: Span) -> Option<&'static str> {
        let holds = |known: &&Known| {
            let Entry { key_span, node, .. } = known.entry;
            key_span.start <= place.start && place.end <= node.span.end.max(key_span.end)
        };
        self.entries.iter().find(holds).map(|known| known.key.name)
    }

    /// Keys that were probably meant, and could not be read under another name.
    pub fn meant(&self) -> impl Iterator<Item = &'static str> + '_ {
        self.meant.iter().copied()
    }

    /// The text under a key, if it has one.
    pub fn text(&self, name: &str) -> Option<&'a str> {
        match &self.node(name)?.value {
            Value::Scalar(text) => Some(text),
            _ => None,
        }
    }
}

/// Sizes between which every quantity of a building of light-frame wood lies where it is not zero, in N, mm and s (no source: our own,
/// wide bounds). A unit or a power of ten in error is refused before it leaves the range in which a beam can be solved.
fn possible(exponents: Exponents) -> RangeInclusive<f64> {
    match exponents {
        [1, 0, 0] => 0.01..=1e6,
        [0, 1, 0] => 1e-3..=1e9,
        [-1, 1, 0] => 1e-6..=1e6,
        [-2, 1, 0] => 1e-9..=1e7,
        _ => 1e-12..=1e12,
    }
}

impl Reader {
    pub fn fault(&mut self, fault: &Fault, span: Span) {
        if fault.spoils() {
            self.unread.push(span);
        }
        self.faults.push(fault.at(span));
    }

    /// The same of a fault that points at other places too.
    pub fn told(&mut self, fault: Diagnostic) {
        self.unread.push(fault.primary.span);
        self.faults.push(fault);
    }

    /// A map as a part of the file: unknown keys, keys of other codes, keys not covered and needed keys left out are told here.
    pub fn form<'a>(&mut self, node: &'a Node, part: Part) -> Option<Form<'a>> {
        let Value::Map(entries) = &node.value else {
            self.wrong_shape(node, part.words().to_owned(), &Kind::Map(part));
            return None;
        };
        let form = Form { part, span: node.span, entries: Vec::with_capacity(entries.len()), meant: Vec::new() };
        let form = self.entries(form, entries, role_of(node, part));
        for key in part.keys().filter(|key| key.need == Need::Needed && !form.says(key.name)) {
            self.fault(&Fault::MissingKey { key }, entries.first().map_or(node.span, |entry| entry.key_span));
        }
        Some(form)
    }

    /// The entries under their keys; those under an unknown key come last, under the key that was probably meant.
    fn entries<'a>(&mut self, mut form: Form<'a>, entries: &'a [Entry], role: Option<Use>) -> Form<'a> {
        let mut unknown = Vec::new();
        for entry in entries {
            let Some(key) = form.part.keys().find(|key| key.name == entry.key) else {
                unknown.push(entry);
                continue;
            };
            if self.check_covered(key, entry) && is_empty(&entry.node) && !key.may_be_empty {
                self.fault(&Fault::EmptyValue { key }, entry.key_span);
            }
            form.entries.push(Known { key, entry, renamed: false });
        }
        for entry in unknown {
            let key = form.part.meant(&entry.key, role, self.code);
            let fault = Fault::UnknownKey { key: entry.key.clone(), part: form.part, meant: key };
            self.fault(&fault, entry.key_span);
            match key {
                Some(key) if key.kind.may_be(&entry.node.value) && !form.says(key.name) => {
                    form.entries.push(Known { key, entry, renamed: true });
                }
                Some(key) => form.meant.push(key.name),
                None => {}
            }
        }
        form
    }

    /// The keys of a part that a map has, and no more: where it is not known what the map should be.
    pub fn glimpse<'a>(&self, node: &'a Node, part: Part) -> Form<'a> {
        let entries = if let Value::Map(entries) = &node.value { entries.as_slice() } else { &[] };
        let known = entries.iter().filter_map(|entry| {
            let key = part.keys().find(|key| key.name == entry.key)?;
            Some(Known { key, entry, renamed: false })
        });
        Form { part, span: node.span, entries: known.collect(), meant: Vec::new() }
    }

    /// Whether a key belongs to the code and is covered; tells where it does not.
    fn check_covered(&mut self, key: &'static Key, entry: &Entry) -> bool {
        let foreign = self.code.filter(|code| !key.codes.is_empty() && !key.codes.contains(code));
        // Where the code itself is not covered one fault has said so.
        let covered = |code: &CodeName| super::basis::COVERED.contains(code);
        if let Some(code) = foreign.filter(covered) {
            let codes = key.codes.iter().map(|code| code.word()).collect();
            let value = if let Value::Scalar(text) = &entry.node.value { text.clone() } else { String::new() };
            self.fault(&Fault::KeyOfOtherCode { key: key.name, value, codes, code: code.word() }, entry.key_span);
            return false;
        }
        if key.need == Need::Later && self.code.as_ref().is_none_or(covered) {
            self.fault(&Fault::KeyNotCovered { key: key.name }, entry.key_span);
            return false;
        }
        true
    }

    /// Refuses the keys that mean nothing for a use.
    pub fn check_use(&mut self, form: &Form, role: Use) {
        for Known { key, entry, .. } in form.entries.iter().filter(|known| !known.renamed) {
            if !key.uses.is_empty() && !key.uses.contains(&role) {
                let uses = key.uses.iter().map(|role| role.word()).collect();
                self.fault(&Fault::KeyOfOtherUse { key: key.name, uses, role: role.word() }, entry.key_span);
            }
        }
    }

    /// Tells that a name is not among those that are known.
    pub fn unknown_name<'n>(&mut self, name: &str, thing: &'static str, known: impl Iterator<Item = &'n str> + Clone, span: Span) {
        // A file with thousands of wrong names would be compared with thousands of right ones.
        const PATIENCE: usize = 200;
        let nearest = if self.faults.len() < PATIENCE { nearest(name, known.clone()).map(str::to_owned) } else { None };
        let known = known.take(PATIENCE.saturating_sub(self.faults.len())).map(str::to_owned).collect();
        self.fault(&Fault::UnknownName { name: name.to_owned(), thing, known, nearest }, span);
    }

    pub fn wrong_shape(&mut self, node: &Node, what: String, wanted: &Kind) {
        self.fault(&Fault::WrongShape { found: node.kind(), what, wanted: wanted.words() }, node.span);
    }

    /// A scalar's text.
    pub fn scalar<'a>(&mut self, node: &'a Node, what: &str, wanted: &Kind) -> Option<&'a str> {
        match &node.value {
            Value::Scalar(text) if !text.trim().is_empty() => Some(text),
            _ => {
                self.wrong_shape(node, format!("`{what}`"), wanted);
                None
            }
        }
    }

    /// The entries of a list; an entry that stands alone, without the list, is told and read too.
    pub fn list<'a>(&mut self, node: &'a Node, what: &str, of: &Kind) -> &'a [Node] {
        match &node.value {
            Value::List(items) => return items,
            Value::Scalar(text) => self.fault(&Fault::ListDue { what: format!("`{what}`"), text: text.clone() }, node.span),
            _ => self.wrong_shape(node, format!("`{what}`"), &Kind::List(&Kind::Text)),
        }
        if of.may_be_item(&node.value) { std::slice::from_ref(node) } else { &[] }
    }

    /// The entries of a map whose keys are names.
    pub fn named<'a>(&mut self, node: &'a Node, what: &str, of: &'static Kind) -> &'a [Entry] {
        match &node.value {
            Value::Map(entries) => return entries,
            _ => self.wrong_shape(node, format!("`{what}`"), &Kind::Named(of)),
        }
        &[]
    }

    /// The text under a key.
    pub fn text(&mut self, form: &Form, name: &str) -> Option<String> {
        self.placed_text(form, name).map(|text| text.value)
    }

    pub fn placed_text(&mut self, form: &Form, name: &str) -> Option<Placed<String>> {
        let node = form.node(name)?;
        let text = self.scalar(node, name, &Kind::Text)?.trim();
        Some(Placed { value: text.to_owned(), span: node.span })
    }

    /// The texts of a list under a key.
    pub fn texts(&mut self, form: &Form, name: &str) -> Vec<String> {
        let Some(node) = form.node(name) else { return Vec::new() };
        self.list(node, name, &Kind::Text).iter().filter_map(|item| self.scalar(item, name, &Kind::Text).map(str::to_owned)).collect()
    }

    /// One of the words that the key table has for a key, by its place among them.
    pub fn word(&mut self, form: &Form, name: &str) -> Option<Placed<&'static str>> {
        let node = form.node(name)?;
        let kind = form.part.keys().find(|key| key.name == name)?.kind;
        let Kind::Word(words) = kind else { return None };
        let text = self.scalar(node, name, &kind)?;
        let word = self.one_of(text, node.span, words, || format!("`{name}`"))?;
        Some(Placed { value: word, span: node.span })
    }

    /// One of these words.
    pub fn one_of(&mut self, text: &str, span: Span, words: &'static [&'static str], what: impl Fn() -> String) -> Option<&'static str> {
        let found = words.iter().copied().find(|word| *word == text);
        if found.is_none() {
            let nearest = nearest(text, words.iter().copied());
            self.fault(&Fault::UnknownWord { word: text.to_owned(), what: what(), known: words.to_vec(), nearest }, span);
        }
        found
    }

    pub fn yes_no(&mut self, form: &Form, name: &str) -> Option<bool> {
        self.placed_yes_no(form, name).map(|said| said.value)
    }

    /// The same with its place.
    pub fn placed_yes_no(&mut self, form: &Form, name: &str) -> Option<Placed<bool>> {
        let node = form.node(name)?;
        let said = |value| Some(Placed { value, span: node.span });
        match self.scalar(node, name, &Kind::YesNo)?.to_lowercase().as_str() {
            "yes" | "true" => said(true),
            "no" | "false" => said(false),
            word => {
                let word = word.to_owned();
                self.fault(&Fault::UnknownWord { word, what: format!("`{name}`"), known: vec!["yes", "no"], nearest: None }, node.span);
                None
            }
        }
    }

    pub fn date(&mut self, form: &Form, name: &str) -> Option<Date> {
        self.placed_date(form, name).map(|date| date.value)
    }

    /// The same with its place.
    pub fn placed_date(&mut self, form: &Form, name: &str) -> Option<Placed<Date>> {
        let node = form.node(name)?;
        let text = self.scalar(node, name, &Kind::Date)?;
        let date = Date::read(text);
        if date.is_none() {
            self.fault(&Fault::NotADate { text: text.to_owned() }, node.span);
        }
        date.map(|value| Placed { value, span: node.span })
    }

    /// A quantity, as it was read and whatever its sign.
    pub fn quantity<D: Dimension>(&mut self, node: &Node, what: &str, kind: &'static str) -> Option<Placed<Q<D>>> {
        let text = self.scalar(node, what, &Kind::Quantity(kind))?;
        let read = units::read(text, kind);
        let read = if kind == kinds::LENGTH { read.map_err(|why| why.proposing(usual_units(what, text))) } else { read };
        let read: Placed<Q<D>> = self.keep(read, node, what)?;
        let size = read.value.value().abs();
        if size == 0.0 || possible(D::EXPONENTS).contains(&size) {
            return Some(read);
        }
        self.fault(&Fault::BeyondMeasure { what: format!("`{what}`"), text: text.to_owned() }, node.span);
        None
    }

    /// A quantity that must be more than nought.
    pub fn positive<D: Dimension>(&mut self, node: &Node, what: &str, kind: &'static str) -> Option<Placed<Q<D>>> {
        let placed: Placed<Q<D>> = self.quantity(node, what, kind)?;
        if placed.value.value() > 0.0 {
            return Some(placed);
        }
        self.fault(&Fault::NotPositive { what: format!("`{what}`"), text: written(node) }, node.span);
        None
    }

    /// A quantity that must not be less than nought.
    pub fn not_negative<D: Dimension>(&mut self, node: &Node, what: &str, kind: &'static str) -> Option<Placed<Q<D>>> {
        let placed: Placed<Q<D>> = self.quantity(node, what, kind)?;
        if placed.value.value() >= 0.0 {
            return Some(placed);
        }
        self.fault(&Fault::Negative { what: format!("`{what}`"), text: written(node) }, node.span);
        None
    }

    /// A number without unit.
    pub fn number(&mut self, node: &Node, what: &str) -> Option<Placed<Ratio>> {
        let text = self.scalar(node, what, &Kind::Number)?;
        let read = self.keep(units::read_number(text), node, what)?;
        if read.value.value().abs() <= 1e6 {
            return Some(read);
        }
        self.fault(&Fault::BeyondMeasure { what: format!("`{what}`"), text: text.to_owned() }, node.span);
        None
    }

    pub fn temperature(&mut self, form: &Form, name: &str) -> Option<Placed<Ratio>> {
        let node = form.node(name)?;
        let text = self.scalar(node, name, &Kind::Temperature)?;
        let read = self.keep(units::read_temperature(text), node, name)?;
        let lowest = plausible::limit("lowest temperature, refused");
        if read.value.value() < lowest {
            self.fault(&Fault::TooCold { text: text.to_owned(), lowest: lowest.to_string() }, node.span);
            return None;
        }
        if read.value.value() <= 1000.0 {
            return Some(read);
        }
        self.fault(&Fault::BeyondMeasure { what: format!("`{name}`"), text: text.to_owned() }, node.span);
        None
    }

    /// A whole number from `from` to `to`.
    pub fn whole(&mut self, node: &Node, what: &str, from: u32, to: u32) -> Option<Placed<u32>> {
        let text = self.scalar(node, what, &Kind::Whole)?;
        match text.parse::<u32>().ok().filter(|number| (from..=to).contains(number)) {
            Some(value) => Some(Placed { value, span: node.span }),
            None => {
                let fault = Fault::OutOfRange { what: format!("`{what}`"), text: text.to_owned(), from: from.into(), to: to.into() };
                self.fault(&fault, node.span);
                None
            }
        }
    }

    /// The value, or the fault why there is none.
    pub fn keep<T>(&mut self, read: Result<T, Misread>, node: &Node, what: &str) -> Option<Placed<T>> {
        match read {
            Ok(value) => Some(Placed { value, span: node.span }),
            Err(why) => {
                self.fault(&Fault::Misread { what: format!("`{what}`"), why }, node.span);
                None
            }
        }
    }
}

/// The units in which a length of a key is usually given, as far as its number fits them.
fn usual_units(key: &str, text: &str) -> &'static [&'static str] {
    const LONG: [&str; 10] = ["spans", "clear-spans", "weak-spans", "left", "right", "at", "from", "to", "length", "effective-length"];
    let number = units::read_number(text).map_or(0.0, Ratio::value);
    match (LONG.contains(&key), number) {
        (true, n) if n >= 100.0 => &["mm", "in", "ft"],
        (true, _) => &["ft", "m", "in"],
        (false, n) if n >= 36.0 => &["mm", "in"],
        (false, _) => &["in", "mm", "ft"],
    }
}

/// Whether nothing is written there.
fn is_empty(node: &Node) -> bool {
    match &node.value {
        Value::Null => true,
        Value::Scalar(text) => text.trim().is_empty(),
        Value::List(_) | Value::Map(_) => false,
    }
}

/// The use that a member's entry names.
fn role_of(node: &Node, part: Part) -> Option<Use> {
    let entry = node.entry("use").filter(|_| part == Part::Member)?;
    if let Value::Scalar(text) = &entry.node.value { Use::ALL.into_iter().find(|role| role.word() == text) } else { None }
}

/// What a scalar says, for a message.
pub(super) fn written(node: &Node) -> String {
    match &node.value {
        Value::Scalar(text) => text.clone(),
        _ => node.kind().to_owned(),
    }
}
