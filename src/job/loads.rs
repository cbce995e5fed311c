//! The loads of a member.

use super::basis::case_of;
use super::fault::Fault;
use super::geometry::place;
use super::keys::Part;
use super::members::{Link, Marks, slope_of};
use super::model::{Area, Arrival, Axis, Case, Eccentricity, Footprint, Load, LoadCase, LoadKind, Nature, Use};
use super::reader::{Form, Reader};
use crate::text::{Span, nearest};
use crate::units::{Length, LineLoad, kinds};
use crate::yaml::{Entry, Node, Value};

/// The kinds of loads: the key that says so, and the part whose keys it then has.
const KINDS: [(&str, Part); 7] = [
    ("area", Part::AreaLoad),
    ("line", Part::LineLoad),
    ("point", Part::PointLoad),
    ("moment", Part::MomentLoad),
    ("reaction", Part::ReactionLoad),
    ("thrust", Part::ThrustLoad),
    ("axial", Part::AxialLoad),
];

/// What a load has to know of its member and of the rest of the job.
pub(super) struct Around<'a> {
    pub cases: &'a [LoadCase],
    pub areas: &'a [Area],
    pub marks: &'a Marks,
    /// The member's place in the file.
    pub member: usize,
    pub role: Use,
    pub length: Option<Length>,
    /// Whether the member says a spacing.
    pub spaced: bool,
    /// Whether it leans.
    pub leans: bool,
}

/// Reads one load; a reaction is put down as a link too, whether its place can be read or not.
pub(super) fn load(reader: &mut Reader, node: &Node, around: &Around, links: &mut Vec<Link>) -> Option<Load> {
    let Value::Map(entries) = &node.value else {
        let fault = Fault::WrongShape { found: node.kind(), what: "a load".into(), wanted: "a map such as `{area: floor}`".into() };
        reader.fault(&fault, node.span);
        return None;
    };
    let Some(part) = kind_of(reader, node, entries) else {
        glance(reader, node, around);
        return None;
    };
    let form = reader.form(node, part)?;
    reader.check_use(&form, around.role);
    let kind = match part {
        Part::AreaLoad => area(reader, &form, around),
        Part::LineLoad => line(reader, &form, around),
        Part::PointLoad => point(reader, &form, around),
        Part::MomentLoad => moment(reader, &form, around),
        Part::ReactionLoad => reaction(reader, &form, around, links),
        Part::ThrustLoad => thrust(reader, &form, around, links),
        Part::AxialLoad => axial(reader, &form, around),
        _ => None,
    }?;
    Some(Load { kind, span: node.span })
}

fn kind_of(reader: &mut Reader, node: &Node, entries: &[Entry]) -> Option<Part> {
    let mut found = KINDS.iter().filter(|(key, _)| entries.iter().any(|entry| entry.key == *key));
    let first = found.next();
    match (first, found.next()) {
        (Some((_, part)), None) => Some(*part),
        (Some((first, _)), Some((second, _))) => {
            reader.fault(&Fault::LoadOfTwoKinds { first, second }, node.span);
            None
        }
        (None, _) => {
            // A misspelt kind is the key that no kind of load has; its map is read as that kind, and tells of it.
            let known = |entry: &&Entry| KINDS.iter().any(|(_, part)| part.keys().any(|key| key.name == entry.key));
            let guess = entries.iter().filter(|entry| !known(entry)).find_map(|entry| meant(&entry.key));
            if guess.is_none() {
                let keys: Vec<String> = entries.iter().map(|entry| entry.key.clone()).collect();
                reader.fault(&Fault::LoadUnknown { keys }, node.span);
            }
            guess
        }
    }
}

/// The kind of load that a key which no load has was probably meant for.
fn meant(word: &str) -> Option<Part> {
    let lower = word.to_lowercase();
    let names = |name: &str, part: &Part| part.keys().any(|key| key.name == name && key.synonyms.contains(&lower.as_str()));
    let slip = || nearest(word, KINDS.iter().map(|(key, _)| *key));
    let part = KINDS.iter().find(|(key, part)| names(key, part)).or_else(|| {
        let slip = slip()?;
        KINDS.iter().find(|(key, _)| *key == slip)
    });
    part.map(|(_, part)| *part)
}

/// What every kind of load that has these keys would read, where it is not known which it is.
fn glance(reader: &mut Reader, node: &Node, around: &Around) {
    let (line, point) = (reader.glimpse(node, Part::LineLoad), reader.glimpse(node, Part::PointLoad));
    case(reader, &line, around);
    stretch(reader, &line, around);
    at(reader, &point, around);
}

fn case(reader: &mut Reader, form: &Form, around: &Around) -> Option<Case> {
    let name = reader.placed_text(form, "case")?;
    case_of(reader, around.cases, &name.value, name.span)
}

/// `from` and `to`, or the whole member.
fn stretch(reader: &mut Reader, form: &Form, around: &Around) -> Option<(Length, Length)> {
    let mut end = |name, default: Option<Length>| match form.node(name) {
        Some(node) => place(reader, node, name, around.length).map(|at| at.value),
        None => default,
    };
    let (from, to) = (end("from", Some(Length::new(0.0))), end("to", around.length));
    let (from, to) = (from?, to?);
    if to.at_most(from) {
        let span = form.node("to").or(form.node("from")).map_or(form.span, |node| node.span);
        reader.fault(&Fault::FromBehindTo, span);
        return None;
    }
    Some((from, to))
}

fn at(reader: &mut Reader, form: &Form, around: &Around) -> Option<Length> {
    form.node("at").and_then(|node| place(reader, node, "at", around.length)).map(|at| at.value)
}

fn area(reader: &mut Reader, form: &Form, around: &Around) -> Option<LoadKind> {
    let name = reader.placed_text(form, "area");
    let area = name.as_ref().and_then(|name| {
        let found = around.areas.iter().position(|area| area.name == name.value);
        if found.is_none() {
            reader.unknown_name(&name.value, "area load", around.areas.iter().map(|area| area.name.as_str()), name.span);
        }
        found
    });
    let width = form.node("width").map(|node| widths(reader, node));
    let slope = form.node("slope").map(|node| slope_of(reader, node));
    if let (true, Some(entry)) = (around.leans, form.entry("slope")) {
        reader.fault(&Fault::SlopeAndTilt, entry.key_span);
    }
    if let (false, false, Some(name)) = (form.says("width"), around.spaced, &name) {
        reader.fault(&Fault::NoWidth { area: name.value.clone() }, name.span);
    }
    let (from, to) = stretch(reader, form, around)?;
    let width = match width {
        Some(width) => Some(width?),
        None => None,
    };
    let slope = match slope {
        Some(slope) => Some(slope?.value),
        None => None,
    };
    Some(LoadKind::Area { area: area?, width, slope, from, to })
}

/// A tributary width, or its values at both ends, one of which may be nought.
fn widths(reader: &mut Reader, node: &Node) -> Option<[Length; 2]> {
    let Value::List(items) = &node.value else {
        return reader.positive(node, "width", kinds::LENGTH).map(|width| [width.value; 2]);
    };
    let read: Vec<Length> =
        items.iter().filter_map(|item| reader.not_negative(item, "width", kinds::LENGTH)).map(|width| width.value).collect();
    if items.len() != 2 {
        reader.fault(&Fault::WrongCount { what: "width", given: items.len(), due: "one for each end".into() }, node.span);
    }
    let [start, end] = *read.as_slice() else { return None };
    if start.is_zero() && end.is_zero() {
        reader.fault(&Fault::NotPositive { what: "`width`".into(), text: "0".into() }, node.span);
        return None;
    }
    Some([start, end])
}

fn line(reader: &mut Reader, form: &Form, around: &Around) -> Option<LoadKind> {
    let case = case(reader, form, around);
    let ends = form.node("line").and_then(|node| line_ends(reader, node));
    let (stretch, about) = (stretch(reader, form, around), about(reader, form));
    let ((from, to), (start, end)) = (stretch?, ends?);
    Some(LoadKind::Line { case: case?, start, end, from, to, about })
}

fn line_ends(reader: &mut Reader, node: &Node) -> Option<(LineLoad, LineLoad)> {
    let Value::List(items) = &node.value else {
        return reader.quantity(node, "line", kinds::LINE_LOAD).map(|load| (load.value, load.value));
    };
    let read: Vec<LineLoad> =
        items.iter().filter_map(|item| reader.quantity(item, "line", kinds::LINE_LOAD)).map(|load| load.value).collect();
    if items.len() != 2 {
        reader.fault(&Fault::WrongCount { what: "line", given: items.len(), due: "one for each end".into() }, node.span);
    }
    match read.as_slice() {
        [start, end] => Some((*start, *end)),
        _ => None,
    }
}

/// The axis that a load bends the member about; the strong one where nothing is said.
fn about(reader: &mut Reader, form: &Form) -> Axis {
    if reader.word(form, "about").is_some_and(|word| word.value == "weak") { Axis::Weak } else { Axis::Strong }
}

fn point(reader: &mut Reader, form: &Form, around: &Around) -> Option<LoadKind> {
    let force = form.node("point").and_then(|node| reader.quantity(node, "point", kinds::FORCE));
    let (case, at, about) = (case(reader, form, around), at(reader, form, around), about(reader, form));
    Some(LoadKind::Point { case: case?, force: force?.value, at: at?, about })
}

fn moment(reader: &mut Reader, form: &Form, around: &Around) -> Option<LoadKind> {
    let moment = form.node("moment").and_then(|node| reader.quantity(node, "moment", kinds::MOMENT));
    let (case, at, about) = (case(reader, form, around), at(reader, form, around), about(reader, form));
    Some(LoadKind::Moment { case: case?, moment: moment?.value, at: at?, about })
}

fn reaction(reader: &mut Reader, form: &Form, around: &Around, links: &mut Vec<Link>) -> Option<LoadKind> {
    let giver = reader.placed_text(form, "reaction").and_then(|mark| giver(reader, around, &mark.value, mark.span).zip(Some(mark.span)));
    let support = form.node("support").and_then(|node| reader.whole(node, "support", 1, 1000));
    if let Some((giver, span)) = giver {
        links.push(Link { giver, receiver: around.member, span, support: support.clone(), thrust: false });
    }
    let arrives = arrival(reader, Some(form), around, None, form.span).unwrap_or_else(|both| {
        reader.fault(&Fault::HowReactionArrives { both }, form.span);
        None
    });
    let footprint = match form.node("bearing") {
        Some(node) => Some(footprint(reader, node)?),
        None => None,
    };
    let support = support?.value as usize;
    Some(LoadKind::Reaction { from_member: giver?.0, support, or_supports: Vec::new(), arrives: arrives?, footprint })
}

/// How a reaction arrives at a member, as a map says, if there is one; none where that could not be read. `row` is how far apart the
/// members are that rest on it, where the map does not say.
///
/// # Errors
/// It is not said, or said in two ways.
pub(super) fn arrival(
    reader: &mut Reader,
    form: Option<&Form>,
    around: &Around,
    row: Option<Length>,
    span: Span,
) -> Result<Option<Arrival>, bool> {
    if around.role.is_upright() {
        return Ok(head(reader, form, around, row, span));
    }
    let entry = |name| form.and_then(|form| form.entry(name));
    let spacing = match (entry("at"), entry("every"), row) {
        (Some(_), Some(_), _) => return Err(true),
        (Some(_), None, _) => return Ok(form.and_then(|form| at(reader, form, around)).map(Arrival::At)),
        (None, Some(every), _) => reader.positive(&every.node, "every", kinds::LENGTH).map(|spacing| spacing.value),
        (None, None, Some(row)) => Some(row),
        // A place or a distance that is there, but could not be read, has been told of.
        (None, None, None) if form.is_some_and(|form| form.says("at") || form.says("every")) => return Ok(None),
        (None, None, None) => return Err(false),
    };
    let stretch = match form {
        Some(form) => stretch(reader, form, around),
        None => around.length.map(|length| (Length::new(0.0), length)),
    };
    Ok(spacing.zip(stretch).map(|(spacing, (from, to))| Arrival::Every { spacing, from, to }))
}

/// What the foot of a post covers: its length along the member that it stands on, or length and width of a plate under it.
pub(super) fn footprint(reader: &mut Reader, node: &Node) -> Option<Footprint> {
    let Value::List(items) = &node.value else {
        return reader.positive(node, "bearing", kinds::LENGTH).map(|along| Footprint { along, across: None });
    };
    let read: Vec<_> = items.iter().filter_map(|item| reader.positive(item, "bearing", kinds::LENGTH)).collect();
    if items.len() != 2 {
        let wanted = "one length, or the length and the width of a plate: `[6 in, 3-1/2 in]`";
        reader.fault(&Fault::WrongShape { found: "another list", what: "`bearing`".into(), wanted: wanted.into() }, node.span);
    }
    match read.as_slice() {
        [along, across] => Some(Footprint { along: along.clone(), across: Some(across.value) }),
        _ => None,
    }
}

/// The thrust of a rafter; of a row of them over the tie's spacing.
fn thrust(reader: &mut Reader, form: &Form, around: &Around, links: &mut Vec<Link>) -> Option<LoadKind> {
    let giver = reader.placed_text(form, "thrust").and_then(|mark| giver(reader, around, &mark.value, mark.span).zip(Some(mark.span)));
    if let Some((giver, span)) = giver {
        links.push(Link { giver, receiver: around.member, span, support: None, thrust: true });
    }
    let every = match form.entry("every") {
        None => None,
        Some(entry) => {
            if !around.spaced {
                reader.fault(&Fault::RowWithoutSpacing { role: around.role.word() }, entry.key_span);
            }
            Some(reader.positive(&entry.node, "every", kinds::LENGTH)?.value)
        }
    };
    Some(LoadKind::Thrust { from_member: giver?.0, every })
}

/// A reaction on the head of a post or stud; a row of them over the stud's spacing (reading 45).
fn head(reader: &mut Reader, form: Option<&Form>, around: &Around, row: Option<Length>, span: Span) -> Option<Arrival> {
    let entry = form.and_then(|form| form.entry("every"));
    let eccentricity = form.map(|form| eccentricity(reader, form, around)).unwrap_or_default();
    if (entry.is_some() || row.is_some()) && around.role == Use::Stud && !around.spaced {
        reader.fault(&Fault::RowWithoutSpacing { role: around.role.word() }, entry.map_or(span, |entry| entry.key_span));
    }
    let every = match entry {
        Some(entry) => Some(reader.positive(&entry.node, "every", kinds::LENGTH)?.value),
        None => row,
    };
    Some(Arrival::Head { every, eccentricity })
}

/// A force along the member; loads of gravity do not pull at a post nor push a tie.
fn axial(reader: &mut Reader, form: &Form, around: &Around) -> Option<LoadKind> {
    let node = form.node("axial")?;
    let force = reader.quantity(node, "axial", kinds::FORCE);
    let (case, eccentricity) = (case(reader, form, around), eccentricity(reader, form, around));
    let (case, force) = (case?, force?);
    let nature = around.cases[case.0].nature;
    if force.value.value() < 0.0 && !matches!(nature, Nature::Wind | Nature::Seismic) {
        let case = around.cases[case.0].name.clone();
        reader.fault(&Fault::WrongSense { role: around.role.word(), text: super::reader::written(node), case }, node.span);
        return None;
    }
    Some(LoadKind::Axial { case, force: force.value, eccentricity })
}

fn eccentricity(reader: &mut Reader, form: &Form, around: &Around) -> Eccentricity {
    let Some(form) = form.node("eccentricity").and_then(|node| reader.form(node, Part::Eccentricity)) else {
        return Eccentricity::default();
    };
    reader.check_use(&form, around.role);
    let height = at(reader, &form, around);
    let mut of = |name| form.node(name).and_then(|node| reader.quantity(node, name, kinds::LENGTH));
    let (strong, weak) = (of("strong"), of("weak"));
    if let (Some(_), None, None, Some(node)) = (height, &strong, &weak, form.node("at")) {
        reader.fault(&Fault::BracketWithoutArm, node.span);
    }
    // A height that could not be read has been told of; the force still stands on a bracket.
    let height = height.or_else(|| form.node("at").map(|_| Length::new(0.0)));
    Eccentricity { strong, weak, at: height }
}

fn giver(reader: &mut Reader, around: &Around, mark: &str, span: Span) -> Option<usize> {
    match around.marks.find(mark) {
        Some(member) if member == around.member => {
            reader.fault(&Fault::OwnReaction { mark: mark.to_owned() }, span);
            None
        }
        Some(member) => Some(member),
        None => {
            reader.unknown_name(mark, "member", around.marks.all(), span);
            None
        }
    }
}
