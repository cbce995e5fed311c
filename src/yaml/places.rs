//! The first pass: what the parser's events say about places, and the refusal of what could hurt.

use super::fault::Fault;
use super::{DEEPEST, MOST};
use crate::text::{Diagnostic, Faults, Source, Span};
use saphyr_parser::{Event, Parser, ScalarStyle};
use std::collections::BTreeMap;

/// A node's place, and those of its parts.
#[derive(Debug)]
pub(super) struct Place {
    pub span: Span,
    pub parts: Parts,
}

/// The parts of a node.
#[derive(Debug)]
pub(super) enum Parts {
    Scalar,
    List(Vec<Place>),
    Map(Vec<KeyPlace>),
}

/// A key's place and its value's.
#[derive(Debug)]
pub(super) struct KeyPlace {
    pub key: String,
    pub span: Span,
    pub place: Place,
    /// Whether the map has this key already; a fault has been told.
    pub again: bool,
}

/// Places of all nodes, and all faults that can be found; no places where the text cannot be read on.
pub(super) fn find(source: &Source) -> (Option<Place>, Faults) {
    let mut walk = Walk { bytes: Bytes::of(source), open: Vec::new(), root: None, nodes: 0, documents: 0, faults: Vec::new() };
    for event in Parser::new_from_str(source.text()) {
        let stopped = match event {
            Ok((event, span)) => {
                let span = Span::new(walk.bytes.byte(span.start.index()), walk.bytes.byte(span.end.index()));
                walk.take(source, &event, span).err().map(|fault| *fault)
            }
            Err(error) => {
                let at = walk.bytes.byte(error.marker().index());
                // The parser looks ahead, and has a limit of its own.
                let too_deep = error.info().contains("recursion limit");
                Some(if too_deep { Fault::TooDeep.at(Span::new(at, at)) } else { syntax(source, at, error.info()) })
            }
        };
        if let Some(fault) = stopped {
            walk.faults.push(fault);
            return (None, walk.faults);
        }
    }
    let Some(root) = walk.root else {
        walk.faults.push(Fault::Empty.at(Span::default()));
        return (None, walk.faults);
    };
    // Keys given twice are the only faults that one can read on with.
    let readable = walk.faults.iter().all(|fault| fault.id == "key-twice");
    (readable.then_some(root), walk.faults)
}

/// A syntax fault at a byte; a tab in the indentation of that line, or of the one before, or a tab behind a sign right before that
/// byte, is what is wrong then.
pub(super) fn syntax(source: &Source, at: usize, says: &str) -> Diagnostic {
    let text = source.text();
    let at = (0..=at.min(text.len())).rev().find(|i| text.is_char_boundary(*i)).unwrap_or_default();
    let line = text[..at].rfind('\n').map_or(0, |i| i + 1);
    let before = text[..line.saturating_sub(1)].rfind('\n').map_or(0, |i| i + 1);
    for start in [line, before] {
        let indent = text[start..].find(|c| c != ' ' && c != '\t').unwrap_or(text.len() - start);
        if let Some(tab) = text[start..start + indent].find('\t') {
            return Fault::Tab.at(Span::new(start + tab, start + tab + 1));
        }
    }
    let blank = text[line..at].trim_end_matches([' ', '\t']).len() + line;
    if let (true, Some(tab)) = (text[..blank].ends_with([':', '-', '?', ',']), text[blank..].find('\t').map(|i| blank + i))
        && text[blank..tab].trim().is_empty()
    {
        return Fault::TabAfter.at(Span::new(tab, tab + 1));
    }
    let end = at + text[at..].chars().next().filter(|c| *c != '\n').map_or(0, char::len_utf8);
    Fault::Syntax { parser_says: says.to_owned() }.at(Span::new(at, end))
}

/// From the parser's characters to bytes.
pub(super) struct Bytes {
    starts: Option<Vec<usize>>,
    end: usize,
}

impl Bytes {
    pub(super) fn of(source: &Source) -> Self {
        let text = source.text();
        let starts = (!text.is_ascii()).then(|| text.char_indices().map(|(i, _)| i).collect());
        Self { starts, end: text.len() }
    }

    pub(super) fn byte(&self, character: usize) -> usize {
        match &self.starts {
            None => character.min(self.end),
            Some(starts) => starts.get(character).copied().unwrap_or(self.end),
        }
    }
}

/// A list or map that has begun.
enum Open {
    List { start: Span, items: Vec<Place> },
    Map { start: Span, entries: Vec<KeyPlace>, seen: BTreeMap<String, Span>, key: Option<(String, Span, bool)> },
}

struct Walk {
    bytes: Bytes,
    open: Vec<Open>,
    root: Option<Place>,
    nodes: usize,
    documents: usize,
    faults: Faults,
}

impl Walk {
    /// Takes one event; an error is a fault that one cannot read on after.
    fn take(&mut self, source: &Source, event: &Event, span: Span) -> Result<(), Box<Diagnostic>> {
        match event {
            Event::DocumentStart(_) => {
                self.documents += 1;
                return if self.documents > 1 { Err(Fault::TwoDocuments.at(span).into()) } else { Ok(()) };
            }
            Event::Alias(_) | Event::Scalar(_, _, 1.., _) | Event::SequenceStart(1.., _) | Event::MappingStart(1.., _) => {
                return Err(Fault::Anchor.at(span).into());
            }
            Event::Scalar(_, _, _, Some(_)) | Event::SequenceStart(_, Some(_)) | Event::MappingStart(_, Some(_)) => {
                return Err(Fault::Tag.at(span).into());
            }
            Event::SequenceEnd | Event::MappingEnd => {
                self.close(source, span);
                return Ok(());
            }
            Event::Scalar(..) | Event::SequenceStart(..) | Event::MappingStart(..) => {}
            Event::Nothing | Event::StreamStart | Event::StreamEnd | Event::DocumentEnd => return Ok(()),
        }
        self.nodes += 1;
        if self.nodes > MOST {
            return Err(Fault::TooMany.at(span).into());
        }
        if self.open.len() >= DEEPEST {
            return Err(Fault::TooDeep.at(span).into());
        }
        if let Some(Open::Map { key: key @ None, seen, .. }) = self.open.last_mut() {
            let Event::Scalar(name, ..) = event else { return Err(Fault::KeyNotText.at(span).into()) };
            let name = name.to_string();
            let first = seen.get(&name).copied();
            if let Some(first) = first {
                self.faults.push(Fault::KeyTwice { key: name.clone() }.at(span).with_place(first, "given here first"));
            } else {
                seen.insert(name.clone(), span);
            }
            *key = Some((name, span, first.is_some()));
            return Ok(());
        }
        match event {
            Event::SequenceStart(..) => self.open.push(Open::List { start: span, items: Vec::new() }),
            Event::MappingStart(..) => {
                self.open.push(Open::Map { start: span, entries: Vec::new(), seen: BTreeMap::new(), key: None });
            }
            Event::Scalar(text, style, ..) => {
                // Nothing written: the parser's place is that of whatever comes next.
                let span = match self.open.last() {
                    Some(Open::Map { key: Some((_, key, _)), .. }) if text.is_empty() && *style == ScalarStyle::Plain => *key,
                    _ => span,
                };
                self.put(Place { span, parts: Parts::Scalar });
            }
            _ => {}
        }
        Ok(())
    }

    fn close(&mut self, source: &Source, end: Span) {
        let Some(open) = self.open.pop() else { return };
        let (start, first, last, parts) = match open {
            Open::List { start, items } => {
                let ends = (items.first().map(|p| p.span), items.last().map(|p| p.span));
                (start, ends.0, ends.1, Parts::List(items))
            }
            Open::Map { start, entries, .. } => {
                let last = entries.last().map(|e| e.place.span.max(e.span));
                (start, entries.first().map(|e| e.span), last, Parts::Map(entries))
            }
        };
        // A block has no end mark of its own: it ends with its last part.
        let in_brackets = source.text()[start.start..].starts_with(['[', '{']) && first.is_none_or(|first| start.start < first.start);
        let span = match (first, last) {
            (Some(first), Some(last)) if !in_brackets => Span::new(first.start.min(start.start), last.end),
            _ => Span::new(start.start, end.end.max(start.start)),
        };
        self.put(Place { span, parts });
    }

    fn put(&mut self, place: Place) {
        match self.open.last_mut() {
            Some(Open::List { items, .. }) => items.push(place),
            Some(Open::Map { entries, key, .. }) => {
                if let Some((key, span, again)) = key.take() {
                    entries.push(KeyPlace { key, span, place, again });
                }
            }
            None => self.root = Some(place),
        }
    }
}
