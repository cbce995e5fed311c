//! Spans, overhangs, bearing lengths, bracing, notches.

use super::fault::Fault;
use super::keys::{Kind, Part};
use super::model::{Bracing, End, Notch, NotchPlace, Placed, SectionAsked, Spans};
use super::reader::{Form, Reader, written};
use crate::text::{Span, nearest};
use crate::units::{FT, IN, Length, MM, Unit, figures, kinds};
use crate::yaml::{Node, Value};

const NOUGHT: Length = Length::new(0.0);

/// What the file says of a member's length and supports; what could not be read is none.
pub(super) struct Reach {
    /// How many supports, also where the spans themselves could not be read.
    pub supports: Option<usize>,
    /// Spans and overhangs.
    pub spans: Option<Spans>,
    /// Bearing lengths by support.
    pub bearing: Option<Vec<Placed<Length>>>,
}

/// Reads spans, overhangs and bearing; faults of the whole member stand at `mark`.
pub(super) fn reach(reader: &mut Reader, form: &Form, mark: Span) -> Reach {
    let (lines, clear) = (form.entry("spans"), form.entry("clear-spans"));
    let given = lines.map(|entry| ("spans", entry)).or(clear.map(|entry| ("clear-spans", entry)));
    if let (Some(lines), Some(clear)) = (lines, clear) {
        reader.told(Fault::SpansTwice.at(clear.key_span).with_place(lines.key_span, ""));
    }
    let overhangs = form.entry("overhangs");
    let (left, right) = overhangs.map_or((Some(NOUGHT), Some(NOUGHT)), |entry| overhangs_of(reader, &entry.node));
    let mut spans = None;
    let mut supports = None;
    if let Some((name, entry)) = given {
        let items = reader.list(&entry.node, name, &Kind::Quantity(kinds::LENGTH));
        let is_list = matches!(entry.node.value, Value::List(_));
        let read: Vec<Placed<Length>> = items.iter().filter_map(|item| reader.positive(item, name, kinds::LENGTH)).collect();
        if items.is_empty() && is_list {
            reader.fault(&Fault::NoSpans, entry.key_span);
        }
        supports = (!items.is_empty() && is_list).then_some(items.len() + 1);
        spans = (!items.is_empty() && items.len() == read.len()).then_some(read);
    } else if let Some(overhangs) = overhangs.filter(|_| !form.says("spans") && !form.says("clear-spans")) {
        reader.fault(&Fault::OverhangAlone, overhangs.key_span);
    } else if !form.says("spans") && !form.says("clear-spans") {
        reader.fault(&Fault::NoSpans, mark);
    }
    let bearing = form.node("bearing").and_then(|node| bearing_of(reader, node, supports));
    if let (Some(clear), false) = (clear, form.says("bearing")) {
        reader.fault(&Fault::ClearSpansNoBearing, clear.key_span);
    }
    let from_clear = lines.is_none() && clear.is_some();
    let spans = spans.zip(left.zip(right)).map(|(spans, (left, right))| Spans { spans, left, right, from_clear });
    if let (Some(spans), Some(bearing)) = (spans.as_ref().filter(|_| !from_clear), &bearing) {
        bearings_apart(reader, form, spans, bearing);
    }
    let spans = if from_clear { spans.zip(bearing.as_deref()).map(|(spans, bearing)| between_lines(spans, bearing)) } else { spans };
    Reach { supports, spans, bearing }
}

/// Each span must leave something between the faces of its bearings, and no bearing may reach past its middle.
fn bearings_apart(reader: &mut Reader, form: &Form, spans: &Spans, bearing: &[Placed<Length>]) {
    let mut told = Vec::new();
    for (i, (span, ends)) in spans.spans.iter().zip(bearing.windows(2)).enumerate() {
        if span.value.at_most((ends[0].value + ends[1].value) / 2.0) {
            reader.fault(&Fault::BearingsMeet { span: i + 1 }, span.span);
            continue;
        }
        let past = (i..).zip(ends).find(|(_, length)| !length.value.at_most(span.value) && !told.contains(&length.span));
        if let Some((support, length)) = past {
            told.push(length.span);
            let text = form.node("bearing").map_or_else(String::new, |node| match &node.value {
                Value::List(items) => items.get(support).map(written).unwrap_or_default(),
                _ => written(node),
            });
            reader.fault(&Fault::BearingPastMiddle { text }, length.span);
        }
    }
}

/// From spans between faces to spans between lines: a line lies half a bearing length behind its face (readings 1 and 15).
fn between_lines(clear: Spans, bearing: &[Placed<Length>]) -> Spans {
    let half = |support: usize| bearing.get(support).map_or(NOUGHT, |length| length.value / 2.0);
    let from_line = |overhang: Length, support: usize| if overhang.is_zero() { overhang } else { overhang + half(support) };
    let last = clear.spans.len();
    let spans =
        clear.spans.iter().enumerate().map(|(i, span)| Placed { value: half(i) + span.value + half(i + 1), span: span.span }).collect();
    Spans { spans, left: from_line(clear.left, 0), right: from_line(clear.right, last), from_clear: true }
}

/// Spans between side supports; they reach from the first support line to the last.
pub(super) fn weak_spans(reader: &mut Reader, form: &Form, spans: Option<&Spans>) -> Option<Vec<Placed<Length>>> {
    let entry = form.entry("weak-spans")?;
    if !form.says("tilt") {
        reader.fault(&Fault::WeakSpansAlone, entry.key_span);
        return None;
    }
    let items = reader.list(&entry.node, "weak-spans", &Kind::Quantity(kinds::LENGTH));
    let read: Vec<Placed<Length>> = items.iter().filter_map(|item| reader.positive(item, "weak-spans", kinds::LENGTH)).collect();
    if read.len() != items.len() || items.is_empty() {
        return None;
    }
    let sum = |spans: &[Placed<Length>]| spans.iter().fold(NOUGHT, |sum, span| sum + span.value);
    let (given, due) = (sum(&read), sum(&spans?.spans));
    // What a person adds up in sixteenths may differ in the last figure.
    if (given.value() - due.value()).abs() > 1e-6 * due.value() {
        let text = written(&items[0]);
        reader.fault(&Fault::WeakSpansDiffer { given: shown(given, &text, &FT), due: shown(due, &text, &FT) }, entry.node.span);
        return None;
    }
    Some(read)
}

fn overhangs_of(reader: &mut Reader, node: &Node) -> (Option<Length>, Option<Length>) {
    let Some(form) = reader.form(node, Part::Overhangs) else { return (None, None) };
    let mut side = |name| match form.node(name) {
        Some(node) => reader.not_negative(node, name, kinds::LENGTH).map(|length| length.value),
        None => Some(NOUGHT),
    };
    (side("left"), side("right"))
}

fn bearing_of(reader: &mut Reader, node: &Node, supports: Option<usize>) -> Option<Vec<Placed<Length>>> {
    let Value::List(items) = &node.value else {
        let one: Placed<Length> = reader.positive(node, "bearing", kinds::LENGTH)?;
        return Some(vec![one; supports?]);
    };
    let read: Vec<Placed<Length>> = items.iter().filter_map(|item| reader.positive(item, "bearing", kinds::LENGTH)).collect();
    if let Some(supports) = supports
        && items.len() != supports
    {
        let due = format!("one for each of the {supports} supports");
        reader.fault(&Fault::WrongCount { what: "bearing", given: items.len(), due }, node.span);
        return None;
    }
    (read.len() == items.len()).then_some(read)
}

/// A place along the member: `mid`, or a length from its left end; none where it lies off the member.
pub(super) fn place(reader: &mut Reader, node: &Node, what: &str, length: Option<Length>) -> Option<Placed<Length>> {
    place_or(reader, node, what, length, &["mid"])
}

/// A place, where other words than `mid` would do as well.
fn place_or(reader: &mut Reader, node: &Node, what: &str, length: Option<Length>, words: &[&'static str]) -> Option<Placed<Length>> {
    let text = reader.scalar(node, what, &Kind::Place)?;
    if text == "mid" {
        return length.map(|length| Placed { value: length / 2.0, span: node.span });
    }
    if text.starts_with(char::is_alphabetic) {
        let wanted =
            format!("{} or a length from the left end", words.iter().map(|word| format!("`{word}`,")).collect::<Vec<_>>().join(" "));
        let nearest = nearest(text, words.iter().copied());
        let fault = Fault::WrongText { text: text.to_owned(), what: format!("`{what}`"), wanted, nearest };
        reader.fault(&fault, node.span);
        return None;
    }
    let at: Placed<Length> = reader.quantity(node, what, kinds::LENGTH)?;
    // Where the length could not be read, that has been told; a place from the left end is one all the same.
    let Some(length) = length else { return Some(at) };
    if at.value.at_least(NOUGHT) && at.value.at_most(length) {
        return Some(at);
    }
    let text = written(node);
    let shown = shown(length, &text, &FT);
    reader.fault(&Fault::OffTheEnd { what: format!("`{what}`"), text, length: shown }, node.span);
    None
}

/// A length in mm where another was written so, else in the unit given.
fn shown(length: Length, like: &str, long: &Unit) -> String {
    let number = figures(length.number_in(if like.contains('m') { &MM } else { long }), 4);
    let short = if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { &number };
    format!("{short} {}", if like.contains('m') { MM.name } else { long.name })
}

/// How an edge is held.
pub(super) fn bracing(reader: &mut Reader, node: &Node, what: &'static str, length: Option<Length>) -> Option<Bracing> {
    if let Value::Scalar(text) = &node.value {
        let held = match text.as_str() {
            "sheathed" => Bracing::Sheathed,
            "continuous" => Bracing::Continuous,
            "none" => Bracing::None,
            _ => {
                let nearest = nearest(text, ["sheathed", "continuous", "none"]);
                let wanted = "`sheathed`, `continuous`, `none`, or places such as `{at: 4 ft}`".to_owned();
                reader.fault(&Fault::WrongText { text: text.clone(), what: format!("`{what}`"), wanted, nearest }, node.span);
                return None;
            }
        };
        return Some(held);
    }
    let form = reader.form(node, Part::BracedAt)?;
    let at = form.node("at")?;
    match &at.value {
        Value::List(items) => {
            let places: Vec<Length> = items.iter().filter_map(|item| place(reader, item, "at", length)).map(|at| at.value).collect();
            (places.len() == items.len()).then_some(Bracing::Places(places))
        }
        Value::Scalar(text) if text == "mid" => Some(Bracing::Places(vec![length? / 2.0])),
        _ => reader.positive(at, "at", kinds::LENGTH).map(|spacing| Bracing::Every(spacing.value)),
    }
}

/// A notch.
pub(super) fn notch(reader: &mut Reader, node: &Node, length: Option<Length>, section: Option<&SectionAsked>) -> Option<Notch> {
    let form = reader.form(node, Part::Notch)?;
    let at = match form.text("at") {
        Some("left") => Some(NotchPlace::End(End::Left)),
        Some("right") => Some(NotchPlace::End(End::Right)),
        _ => form.node("at").and_then(|node| place_or(reader, node, "at", length, &["left", "right", "mid"])).map(NotchPlace::At),
    };
    // Reading 63; a side that could not be read has been told of.
    let bottom = reader.word(&form, "side").is_none_or(|side| side.value == "bottom");
    let depth: Option<Placed<Length>> = form.node("depth").and_then(|node| reader.positive(node, "depth", kinds::LENGTH));
    let along = form.node("length").and_then(|node| {
        let along: Placed<Length> = reader.positive(node, "length", kinds::LENGTH)?;
        if length.is_some_and(|length| !along.value.at_most(length)) {
            let text = written(node);
            let length = length.map(|length| shown(length, &text, &FT)).unwrap_or_default();
            reader.fault(&Fault::OffTheEnd { what: "`length`".into(), text, length }, node.span);
            return None;
        }
        Some(along.value)
    });
    if let (Some(notch), Some(SectionAsked::Size { depth, .. }), Some(node)) = (&depth, section, form.node("depth"))
        && notch.value.at_least(*depth)
    {
        let section = shown(*depth, &written(node), &IN);
        reader.fault(&Fault::NotchTooDeep { depth: written(node), section }, node.span);
    }
    Some(Notch { at: at?, bottom, depth: depth?, length: along? })
}

/// Whether a notch is where it can be checked: at an end that bears, and at one support only.
pub(super) fn notch_stands(reader: &mut Reader, node: &Node, notch: &Notch, spans: Option<&Spans>, cosine: f64) -> bool {
    let Some(spans) = spans else { return true };
    let free = match notch.at {
        NotchPlace::End(End::Left) => (!spans.left.is_zero()).then_some("left"),
        NotchPlace::End(End::Right) => (!spans.right.is_zero()).then_some("right"),
        NotchPlace::At(_) => None,
    };
    if let Some(end) = free {
        let span = node.entry("at").map_or(node.span, |at| at.node.span);
        reader.fault(&Fault::NotchAtFreeEnd { end }, span);
        return false;
    }
    let (from, to) = notch.extent(spans, cosine);
    if spans.supports().iter().filter(|support| support.at_least(from) && support.at_most(to)).count() > 1 {
        let span = node.entry("length").map_or(node.span, |length| length.node.span);
        reader.fault(&Fault::NotchPastSupport, span);
        return false;
    }
    true
}
