//! The members.

use super::basis::{limits, moisture_of, service_class};
use super::draft::{MaterialDraft, MemberDraft, Rest};
use super::fault::Fault;
use super::floor;
use super::geometry::{self, Reach};
use super::keys::{Kind, LOAD, Part};
use super::loads::{self, Around};
use super::material;
use super::model::{Area, Bracing, Ceiling, Conditions, Limits, Load, LoadCase, Placed, Retardant, Ridge, Slope, Spans, Standing, Use};
use super::plausible;
use super::reader::{Form, Reader, written};
use super::reductions;
use super::rests_on::{self, Support};
use super::standing;
use super::taken::Taken;
use crate::text::{Span, nearest};
use crate::units::{self, Degrees, Length, Misread, Ratio, kinds, ratio};
use crate::yaml::{Node, Value};
use std::collections::BTreeMap;

/// The most plies that are taken for one member.
const MOST_PLIES: u32 = 5;

/// All marks of a file and the members that have them; the first where two have the same.
#[derive(Default)]
pub(super) struct Marks(BTreeMap<String, usize>);

impl Marks {
    /// The member of a mark.
    pub fn find(&self, mark: &str) -> Option<usize> {
        self.0.get(mark).copied()
    }

    /// All marks.
    pub fn all(&self) -> impl Iterator<Item = &str> + Clone {
        self.0.keys().map(String::as_str)
    }

    /// Collects the marks; tells of those that cannot be one and of those that are there twice.
    pub fn collect(reader: &mut Reader, members: &[Node]) -> Self {
        let mut first: BTreeMap<String, (usize, Span)> = BTreeMap::new();
        for (index, member) in members.iter().enumerate() {
            let Some((Value::Scalar(mark), span)) = member.entry("mark").map(|entry| (&entry.node.value, entry.node.span)) else {
                continue;
            };
            if !mark.chars().all(|c| c.is_ascii_alphanumeric() || c == '.') || mark.is_empty() {
                reader.fault(&Fault::BadMark { mark: mark.clone() }, span);
            }
            match first.get(mark) {
                Some((_, other)) => {
                    reader.faults.push(Fault::MarkTwice { mark: mark.clone() }.at(span).with_place(*other, "the first one"));
                }
                None => drop(first.insert(mark.clone(), (index, span))),
            }
        }
        Self(first.into_iter().map(|(mark, (index, _))| (mark, index)).collect())
    }
}

/// A reaction that one member receives from another; members by their place in the file.
#[derive(Clone, Debug)]
pub(super) struct Link {
    pub giver: usize,
    pub receiver: usize,
    /// Where the giver's mark stands in the receiver's loads.
    pub span: Span,
    pub support: Option<Placed<u32>>,
    /// Whether it is a thrust.
    pub thrust: bool,
}

/// A member while the file is read, with what its neighbors ask of it.
pub(super) struct Draft<'n> {
    pub mark: String,
    pub role: Option<Use>,
    pub supports: Option<usize>,
    /// Its whole length.
    pub length: Option<Length>,
    /// Whether it says a spacing, and the spacing.
    pub is_row: bool,
    pub spacing: Option<Length>,
    /// Whether it leans.
    pub leans: bool,
    /// What each of its supports rests on.
    pub rests_on: Vec<Support<'n>>,
    /// What is to be told where no member rests on it either.
    pub unloaded: Option<(Fault, Span)>,
    pub member: MemberDraft,
}

impl Draft<'_> {
    /// A member of which nothing could be read.
    fn unreadable(span: Span) -> Self {
        Self {
            mark: String::new(),
            role: None,
            supports: None,
            length: None,
            is_row: false,
            spacing: None,
            leans: false,
            rests_on: Vec::new(),
            unloaded: None,
            member: MemberDraft::unreadable(span),
        }
    }
}

/// What all members of a job may name.
pub(super) struct Given<'a> {
    pub cases: &'a [LoadCase],
    pub areas: &'a [Area],
    pub marks: &'a Marks,
}

/// Reads one member.
pub(super) fn member<'n>(
    reader: &mut Reader,
    node: &'n Node,
    index: usize,
    given: &Given,
    links: &mut Vec<Link>,
    taken: &mut Taken,
) -> Draft<'n> {
    let Some(form) = reader.form(node, Part::Member) else { return Draft::unreadable(node.span) };
    let before = reader.unread.len();
    let mark = reader.placed_text(&form, "mark");
    let (role, likely) = role_of(reader, &form);
    let known = role.or_else(|| slip(&form));
    let name = mark.as_ref().map(|mark| mark.value.clone()).unwrap_or_default();
    let stands = likely.is_standing();
    let begin = mark.as_ref().map_or(Span::new(node.span.start, node.span.start), |mark| mark.span);
    let Reach { supports, spans, bearing } =
        if stands { standing::reach(reader, &form, begin, likely) } else { geometry::reach(reader, &form, begin) };
    let length = spans.as_ref().map(Spans::length);

    let section = form.node("section").and_then(|node| material::section(reader, node));
    let one = || (!form.says("plies")).then_some(Placed { value: 1, span: begin });
    let plies = form.node("plies").map_or_else(one, |node| reader.whole(node, "plies", 1, MOST_PLIES));
    let material = form.node("material").map_or(MaterialDraft::Unread, |node| material::material(reader, node));
    let spacing = form.node("spacing").and_then(|node| reader.positive(node, "spacing", kinds::LENGTH));
    let slope = slope(reader, &form, likely, begin);
    let tilt = tilt(reader, &form);
    let weak_spans = geometry::weak_spans(reader, &form, spans.as_ref());
    let (edges, standing) = held(reader, &form, likely, length);
    let own_weight = reader.yes_no(&form, "self-weight");
    let around = Around {
        cases: given.cases,
        areas: given.areas,
        marks: given.marks,
        member: index,
        role: likely,
        length,
        spaced: form.says("spacing"),
        leans: form.says("tilt"),
    };
    let self_weight = own_weight.unwrap_or(matches!(likely, Use::Beam | Use::Header | Use::Post));
    let bears_itself = self_weight || (form.says("self-weight") && own_weight.is_none());
    let (loads, unloaded) = loads_of(reader, &form, &around, links, (bears_itself, begin));
    let cosine = slope.as_ref().map_or(1.0, |slope| libm::cos(slope.value.angle.value().to_radians()));
    let notches = each_of(reader, &form, "notches", &Kind::Map(Part::Notch), |reader, node| {
        let notch = geometry::notch(reader, node, length, section.as_ref().map(|section| &section.value))?;
        geometry::notch_stands(reader, node, &notch, spans.as_ref(), cosine).then_some(notch)
    });
    let hangers = each_of(reader, &form, "hangers", &Kind::Whole, |reader, node| {
        let most = supports.and_then(|supports| u32::try_from(supports).ok()).unwrap_or(1000);
        reader.whole(node, "hangers", 1, most).map(|support| support.value as usize)
    });
    let floor =
        form.node("floor").and_then(|node| floor::floor(reader, node, form.says("spacing") || !matches!(likely, Use::Joist | Use::Beam)));
    let camber = form.node("camber").and_then(|node| reader.positive(node, "camber", kinds::LENGTH));
    let ceiling = reader.word(&form, "ceiling").map(|word| match word.value {
        "gypsum" => Ceiling::Gypsum,
        "none" => Ceiling::None,
        _ => Ceiling::Other,
    });
    let ridge = ridge(reader, &form, slope.as_ref(), spans.as_ref());
    let tie_up = tie_up(reader, &form, ridge, slope.as_ref(), spans.as_ref());
    let place = reader.text(&form, "place");
    let drawing = reader.text(&form, "drawing");
    let rests_on = rests_on::read(reader, &form, supports);
    let names = |support: &Support| support.on.iter().map(|rest| rest.name.clone()).collect();
    let named: Vec<Vec<Placed<String>>> = rests_on.iter().map(names).collect();
    let system = reader.placed_yes_no(&form, "system");
    let conditions = conditions(reader, &form);
    let limits = form.node("limits").map_or_else(Limits::default, |node| limits(reader, node));
    for (text, span) in spans.iter().flat_map(|spans| plausible::too_loose(&limits, spans)) {
        let least = format!("L/{}", plausible::limit(plausible::LOOSEST));
        reader.fault(&Fault::LimitTooLoose { text, least }, span);
    }
    let live_reduction = form.node("live-reduction").and_then(|node| reductions::live(reader, node));
    let roof_live_reduction = form.node("roof-live-reduction").and_then(|node| reductions::roof_live(reader, node, slope.as_ref()));
    let notes = reader.texts(&form, "notes");
    defaults(taken, &form, &name, self_weight, stands);
    let (is_row, leans) = (around.spaced, around.leans);
    let apart = spacing.as_ref().map(|spacing| spacing.value);

    let mut unread: Vec<&'static str> = reader.unread[before..].iter().filter_map(|place| form.key_at(*place)).collect();
    unread.extend(form.meant());
    // A rafter without a slope has been told of; loads without an end reach to that of the member.
    unread.extend((likely == Use::Rafter && slope.is_none()).then_some("slope"));
    unread.extend(spans.is_none().then_some("loads"));
    let member = MemberDraft {
        mark,
        role,
        likely,
        section,
        plies,
        material,
        spans,
        unread,
        begin,
        rest: Rest {
            place,
            drawing,
            rests_on: named,
            spacing,
            system,
            slope,
            tilt,
            weak_spans,
            standing,
            bearing,
            edges,
            conditions,
            notches,
            limits,
            live_reduction,
            roof_live_reduction,
            notes,
            hangers,
            floor,
            ridge,
            tie_up,
            camber,
            ceiling,
            self_weight,
            loads,
            span: node.span,
        },
    };
    Draft { mark: name, role: known, supports, length, is_row, spacing: apart, leans, rests_on, unloaded, member }
}

/// The use whose word was probably meant.
fn slip(form: &Form) -> Option<Use> {
    let word = nearest(form.text("use")?, Use::ALL.map(Use::word))?;
    Use::ALL.into_iter().find(|role| role.word() == word)
}

/// The use, and where it could not be read the one that is likely: by its word, or by what else the entry says.
fn role_of(reader: &mut Reader, form: &Form) -> (Option<Use>, Use) {
    let role = reader.word(form, "use").and_then(|word| Use::ALL.into_iter().find(|role| role.word() == word.value));
    if let Some(known) = role.or_else(|| slip(form)) {
        reader.check_use(form, known);
        return (role, known);
    }
    let spans = form.says("spans") || form.says("clear-spans");
    let likely = match () {
        () if form.says("length") && !spans => Use::Post,
        () if form.says("slope") => Use::Rafter,
        () if form.says("spacing") => Use::Joist,
        () => Use::Beam,
    };
    (None, likely)
}

/// What is taken for an edge of which nothing is said.
const EDGES: [(&str, &str); 2] =
    [("top", "The top edge is held at supports only."), ("bottom", "The bottom edge is held at supports only.")];

/// What was taken for this member where the file is silent.
fn defaults(taken: &mut Taken, form: &Form, mark: &str, self_weight: bool, stands: bool) {
    let silent = |name: &str| form.node(name).is_none();
    if silent("plies") {
        taken.member(mark, "One ply; the job file gives no number.");
    }
    let braced = form.node("braced");
    let edges = if stands { standing::EDGES } else { EDGES };
    for (edge, text) in edges {
        if braced.is_none_or(|node| node.entry(edge).is_none()) {
            taken.member(mark, text);
        }
    }
    if stands && silent("ends") {
        taken.member(mark, standing::PINNED);
    }
    if silent("bearing") && !stands {
        taken.member(mark, "No bearing lengths given: bearing is not checked, and the support line stands for the face of the support.");
    }
    if silent("self-weight") && !self_weight {
        taken.member(mark, "Own weight is held to be in the loads given, and is not added.");
    }
    let notches = if let Some(Node { value: Value::List(items), .. }) = form.node("notches") { items.as_slice() } else { &[] };
    if notches.iter().any(|notch| notch.entry("side").is_none()) {
        taken.member(mark, "A notch whose side is not given is in the bottom edge.");
    }
    let conditions = form.node("conditions");
    for (key, text) in [("incised", "Not incised."), ("flat", "Bent on edge, not flat.")] {
        if stands && key == "flat" {
            continue;
        }
        if conditions.is_none_or(|node| node.entry(key).is_none()) {
            taken.member(mark, text);
        }
    }
}

fn each_of<T>(reader: &mut Reader, form: &Form, name: &str, of: &Kind, read: impl Fn(&mut Reader, &Node) -> Option<T>) -> Vec<T> {
    let Some(node) = form.node(name) else { return Vec::new() };
    reader.list(node, name, of).iter().filter_map(|item| read(reader, item)).collect()
}

/// The loads that a member lists; where it lists none, what is to be told unless members rest on it.
fn loads_of(
    reader: &mut Reader,
    form: &Form,
    around: &Around,
    links: &mut Vec<Link>,
    (self_weight, begin): (bool, Span),
) -> (Vec<Load>, Option<(Fault, Span)>) {
    let Some(entry) = form.entry("loads") else {
        let key = form.part.keys().find(|key| key.name == "loads" && !form.says("loads"));
        return (Vec::new(), key.map(|key| (Fault::MissingKey { key }, begin)));
    };
    let before = reader.faults.len();
    let items = reader.list(&entry.node, "loads", &LOAD);
    let none = items.is_empty() && !self_weight && reader.faults.len() == before;
    let loads = items.iter().filter_map(|item| loads::load(reader, item, around, links)).collect();
    (loads, none.then_some((Fault::NoLoads, entry.key_span)))
}

fn slope(reader: &mut Reader, form: &Form, role: Use, begin: Span) -> Option<Placed<Slope>> {
    let Some(node) = form.node("slope") else {
        if role == Use::Rafter && !form.says("slope") {
            reader.fault(&Fault::SlopeMissing { of: "rafter" }, begin);
        }
        return None;
    };
    slope_of(reader, node)
}

/// A slope, as a ratio or an angle.
pub(super) fn slope_of(reader: &mut Reader, node: &Node) -> Option<Placed<Slope>> {
    let text = reader.scalar(node, "slope", &Kind::Slope)?;
    let wrong = |reader: &mut Reader| {
        let fault = Fault::WrongText { text: text.to_owned(), what: "`slope`".into(), wanted: Kind::Slope.words(), nearest: None };
        reader.fault(&fault, node.span);
        None
    };
    if !text.starts_with(|c: char| c.is_ascii_digit() || "+-.".contains(c)) {
        return wrong(reader);
    }
    let angle = match text.split_once(':') {
        Some((rise, run)) => {
            let rise = reader.keep(units::read_number(rise), node, "slope")?.value.value();
            let run = reader.keep(units::read_number(run), node, "slope")?.value.value();
            // A run of nought is upright, whatever the rise; a run below it is upright too, so that it is refused.
            if run > 0.0 { libm::atan2(rise, run).to_degrees() } else { 90.0 }
        }
        None => match units::read_angle(text) {
            Ok(angle) => angle.value(),
            Err(Misread::NoUnit { number, .. }) => {
                let would_do = if number.contains('/') { String::new() } else { format!("`{number} deg`, or ") };
                let would_do = format!(
                    "{would_do}rise and run such as `{}`",
                    if number.contains('/') { number.replace('/', ":") } else { "6:12".to_owned() }
                );
                let why = Misread::NoUnit { number, wanted: "slope", would_do };
                reader.fault(&Fault::Misread { what: "`slope`".into(), why }, node.span);
                return None;
            }
            Err(_) => return wrong(reader),
        },
    };
    if (0.0..90.0).contains(&angle) {
        return Some(Placed { value: Slope { text: text.to_owned(), angle: ratio(angle) }, span: node.span });
    }
    reader.fault(&Fault::SlopeTooSteep { text: written(node) }, node.span);
    None
}

/// What holds the upper end of a rafter; a board asks for one span, and for a slope that makes a thrust of some measure.
fn ridge(reader: &mut Reader, form: &Form, slope: Option<&Placed<Slope>>, spans: Option<&Spans>) -> Ridge {
    let Some(word) = reader.word(form, "ridge").filter(|word| word.value == "board") else { return Ridge::Beam };
    if spans.is_some_and(|spans| spans.spans.len() > 1 || !spans.right.is_zero()) {
        reader.fault(&Fault::BoardSpans, word.span);
    }
    let least = libm::atan2(3.0, 12.0).to_degrees();
    if let Some(flat) = slope.filter(|slope| !slope.value.angle.at_least(ratio(least))) {
        reader.fault(&Fault::BoardTooFlat { text: flat.value.text.clone() }, flat.span);
    }
    Ridge::Board
}

/// The part of the rise at which the tie stands; above the lower third it is a collar tie, which holds no thrust.
fn tie_up(reader: &mut Reader, form: &Form, ridge: Ridge, slope: Option<&Placed<Slope>>, spans: Option<&Spans>) -> Ratio {
    let none = ratio(0.0);
    let Some(entry) = form.entry("tie-above") else { return none };
    let height: Option<Placed<Length>> = reader.positive(&entry.node, "tie-above", kinds::LENGTH);
    let Some(height) = height else { return none };
    if ridge != Ridge::Board {
        reader.fault(&Fault::TieWithoutBoard, entry.key_span);
        return none;
    }
    let (Some(slope), Some(spans)) = (slope, spans) else { return none };
    let run = spans.spans.first().map_or(0.0, |span| span.value.value());
    let part = height.value.value() / (run * libm::tan(slope.value.angle.value().to_radians()));
    if part > 1.0 / 3.0 + 1e-9 {
        reader.fault(&Fault::CollarTie { part: crate::units::decimals(part, 2) }, height.span);
        return none;
    }
    ratio(part)
}

/// The lean of a member's depth from the vertical.
fn tilt(reader: &mut Reader, form: &Form) -> Option<Placed<Degrees>> {
    let node = form.node("tilt")?;
    let text = reader.scalar(node, "tilt", &Kind::Angle)?;
    let angle = reader.keep(units::read_angle(text), node, "tilt")?;
    if (0.0..=90.0).contains(&angle.value.value()) {
        return Some(angle);
    }
    reader.fault(&Fault::TiltTooFar { text: written(node) }, node.span);
    None
}

/// How top and bottom edge are held; of a post, stud or tie, which is held about its axes, what it has in place of spans.
fn held(reader: &mut Reader, form: &Form, role: Use, length: Option<Length>) -> ([Bracing; 2], Option<Standing>) {
    if !role.is_standing() {
        return (braced(reader, form, role, length, ["top", "bottom"]), None);
    }
    let [weak, strong] = braced(reader, form, role, length, ["weak", "strong"]);
    // The edges of a tie are held where it is held about its weak axis.
    let edge = if role == Use::Tie { weak.clone() } else { Bracing::None };
    ([edge.clone(), edge], Some(standing::standing(reader, form, weak, strong)))
}

fn braced(reader: &mut Reader, form: &Form, role: Use, length: Option<Length>, edges: [&'static str; 2]) -> [Bracing; 2] {
    let Some(form) = form.node("braced").and_then(|node| reader.form(node, Part::Braced)) else { return edges.map(|_| Bracing::None) };
    reader.check_use(&form, role);
    edges.map(|name| form.node(name).and_then(|node| geometry::bracing(reader, node, name, length)).unwrap_or(Bracing::None))
}

/// Factors of a treatment: parts of what was there before.
fn retardant(reader: &mut Reader, node: &Node) -> Option<Retardant> {
    let form = reader.form(node, Part::Retardant)?;
    let mut factor = |name| {
        let node = form.node(name)?;
        let number = reader.number(node, name)?.value;
        if number.value() > 0.0 && number.value() <= 1.0 {
            return Some(number);
        }
        reader.fault(&Fault::NotAPart { what: name, text: written(node) }, node.span);
        None
    };
    let factors = [factor("F_b"), factor("F_t"), factor("F_v"), factor("F_c_perp"), factor("F_c"), factor("E")];
    let source = reader.text(&form, "source");
    let [bending, tension, shear, across, along, modulus] = factors;
    Some(Retardant {
        source: source?,
        bending: bending?,
        tension: tension?,
        shear: shear?,
        across: across?,
        along: along?,
        modulus: modulus?,
    })
}

fn conditions(reader: &mut Reader, form: &Form) -> Conditions {
    let Some(form) = form.node("conditions").and_then(|node| reader.form(node, Part::Conditions)) else { return Conditions::default() };
    Conditions {
        moisture: reader.word(&form, "moisture").map(moisture_of),
        service_class: service_class(reader, &form),
        temperature: reader.temperature(&form, "temperature"),
        incised: reader.placed_yes_no(&form, "incised").filter(|said| said.value).map(|said| said.span),
        flat: reader.placed_yes_no(&form, "flat").filter(|said| said.value).map(|said| said.span),
        retardant: form.node("retardant").and_then(|node| retardant(reader, node)),
        green: reader.word(&form, "installed").map(|word| word.value == "green"),
    }
}
