//! A member to scale, from its loads down to its deflection.

use super::canvas::{Anchor, Canvas, Stroke, width_of};
use super::loads::{self, Axis, Off};
use super::note::{self, Note};
use super::{diagrams, in_unit};
use crate::job::model::{Bracing, End, Member as Entry, NotchPlace, Use};
use crate::package::markup::{Lexicon, Markup, literal};
use crate::package::printing::Printing;
use crate::package::words;
use crate::results::{Member, Reaction, Results, Value};
use crate::units::{Length, trimmed};

/// How tall the diagrams are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub(in crate::package) enum Size {
    /// Where a sheet would not fit its page otherwise.
    Low,
    /// The usual one.
    Medium,
    /// Where a sheet takes two pages anyway.
    Tall,
}

impl Size {
    /// All, lowest first, as they count.
    pub(in crate::package) const ALL: [Self; 3] = [Self::Low, Self::Medium, Self::Tall];

    /// Height of the largest ordinate of a diagram.
    pub(super) fn height(self, quantity: &str, crowded: bool) -> f64 {
        let [shear, moment, deflection] = match (self, crowded) {
            (Self::Low, false) => [13.0, 15.0, 8.0],
            (Self::Medium, false) => [17.0, 21.0, 12.0],
            (Self::Low, true) => [22.0, 24.0, 16.0],
            (Self::Medium, true) => [28.0, 30.0, 22.0],
            (Self::Tall, false) => [30.0, 36.0, 24.0],
            (Self::Tall, true) => [40.0, 42.0, 34.0],
        };
        match quantity {
            "shear" => shear,
            "moment" => moment,
            _ => deflection,
        }
    }
}

/// A drawn member.
#[derive(Debug, serde::Serialize)]
pub(in crate::package) struct Figure {
    /// Its height in points.
    height: f64,
    /// Drawing calls.
    body: Markup,
    /// Notes for the margin: height in points, text.
    notes: Vec<(f64, Markup)>,
}

impl Figure {
    /// A figure that was drawn, as tall as it and its notes are.
    pub(super) fn of(height: f64, body: Markup, notes: Vec<Note>) -> Self {
        let (end, notes) = note::settled(notes);
        Self { height: height.max(end), body, notes }
    }

    /// How tall it is.
    pub(in crate::package) fn height(&self) -> f64 {
        self.height
    }
}

/// The most that a member's depth takes, in points; a short deep member is drawn at a smaller scale instead.
const DEEPEST: f64 = 42.0;
/// What the ends of a dimension line take of its length.
const ARROWS: f64 = 15.0;
/// From the edge of the text column to the member's left end.
const INDENT: f64 = 8.0;

/// Draws a member in a text column so many points wide.
pub(in crate::package) fn member(all: &Results, entry: &Entry, results: &Member, size: Size, column: f64, lexicon: &Lexicon) -> Figure {
    if let Some(standing) = entry.standing.as_ref().filter(|_| entry.role.is_upright()) {
        return super::post::draw(all, entry, standing, results, size, column, lexicon);
    }
    let printing = Printing::of(all);
    let unit = results.reactions.first().map_or("ft", |r| r.at.unit.as_str());
    let length = length_of(entry, results, unit);
    let deep = in_unit(&results.section.depth, unit);
    let scale = ((column - 2.0 * INDENT) / length).min(DEEPEST / deep);
    let axis = Axis { left: INDENT, scale, unit, length };
    let mut canvas = Canvas::default();
    let off = off_parts(results, axis);
    let (top, rows) = loads::draw(&mut canvas, axis, results, all, printing, &off);
    let mut notes: Vec<Note> = rows.into_iter().map(|(y, text)| Note::text(y, lexicon.set(&text))).collect();
    let bottom = top + deep * scale;
    // Support lines run from under the member to the last diagram; they are drawn first, so that all else stands over them.
    let plan = Plan { axis, entry, results, top, bottom };
    plan.body(&mut canvas);
    // What pulls along a tie is no reaction across it.
    let single = entry.role != Use::Tie && shows_reactions(all, results, printing, column);
    plan.supports(&mut canvas, all, printing, single);
    notes.push(plan.section(top + 2.0, printing, lexicon));
    let line = bottom + 19.0;
    plan.dimensions(&mut canvas, printing, line);
    let (height, more) =
        diagrams::draw(&mut canvas, axis, results, printing, size, lexicon, line + if plan.has_narrow(printing) { 14.0 } else { 5.0 });
    notes.extend(more);
    let mut under = Canvas::default();
    for reaction in &results.reactions {
        under.call("guide", &[axis.at(&reaction.at), bottom + 9.0, height - 2.0], "");
    }
    Figure::of(height, Markup::ours(format!("{}{}", under.done().source(), canvas.done().source())), notes)
}

/// The member's length in the unit of its support places. Where no diagram says it: the spans, which are on plan, up the slope.
fn length_of(entry: &Entry, results: &Member, unit: &str) -> f64 {
    let drawn = results.diagrams.iter().flat_map(|d| d.pieces.iter()).map(|piece| in_unit(&piece.to, unit)).fold(0.0, f64::max);
    if drawn > 0.0 {
        return drawn;
    }
    let cosine = entry.slope.as_ref().map_or(1.0, |slope| libm::cos(slope.value.angle.value().to_radians()));
    in_unit(&Value { value: entry.spans.length().value() / cosine, unit: "mm".into() }, unit)
}

/// Where panels are without variable load in the set whose moment is drawn.
fn off_parts(results: &Member, axis: Axis) -> Vec<Off> {
    let Some(diagram) = results.diagrams.iter().find(|d| d.quantity == "moment") else { return Vec::new() };
    let supports: Vec<f64> = results.reactions.iter().map(|r| in_unit(&r.at, axis.unit)).collect();
    let end = |panel: usize| if panel == 0 { 0.0 } else { supports.get(panel - 1).copied().unwrap_or(axis.length) };
    diagram.off_panels.iter().map(|panel| (end(*panel), supports.get(*panel).copied().unwrap_or(axis.length))).collect()
}

/// Whether reactions stand at their supports in the figure; else they take a table.
pub(in crate::package) fn shows_reactions(all: &Results, results: &Member, printing: Printing, column: f64) -> bool {
    let wide: f64 = results.reactions.iter().map(|r| width_of(&forces(r, all, printing))).sum();
    results.reactions.len() == 2 && wide < column - 60.0
}

struct Plan<'a> {
    axis: Axis<'a>,
    entry: &'a Entry,
    results: &'a Member,
    top: f64,
    bottom: f64,
}

impl Plan<'_> {
    /// Points along the axis of a length on plan; a sloping member is drawn along its slope.
    fn along(&self, plan: Length) -> f64 {
        self.axis.x(plan.value() / self.entry.spans.length().value() * self.axis.length)
    }

    fn body(&self, canvas: &mut Canvas) {
        let (left, right) = (self.axis.x(0.0), self.axis.x(self.axis.length));
        canvas.outline((left, self.top), right - left, self.bottom - self.top);
        self.edge(canvas, &self.entry.top, self.top, 1.0);
        self.edge(canvas, &self.entry.bottom, self.bottom, -1.0);
        for notch in &self.entry.notches {
            let deep = notch.depth.value.value() / self.entry.spans.length().value() * self.axis.length * self.axis.scale;
            // A sloping member is drawn along its slope, and so is the length of a notch.
            let cosine = self.entry.slope.as_ref().map_or(1.0, |slope| libm::cos(slope.value.angle.value().to_radians()));
            let long = self.along(cosine * notch.length) - left;
            let from = match &notch.at {
                NotchPlace::End(End::Left) => left,
                NotchPlace::End(End::Right) => right - long,
                NotchPlace::At(at) => self.along(at.value) - long / 2.0,
            };
            let y = if notch.bottom { self.bottom - deep } else { self.top };
            canvas.call(
                "notch",
                &[from, y, long, deep],
                &format!(", bottom: {}, ends: ({}, {})", notch.bottom, from > left + 0.1, from + long < right - 0.1),
            );
        }
    }

    /// How an edge is held: heavy where throughout, ticks where at places.
    fn edge(&self, canvas: &mut Canvas, held: &Bracing, y: f64, inward: f64) {
        let (left, right) = (self.axis.x(0.0), self.axis.x(self.axis.length));
        let places: Vec<f64> = match held {
            Bracing::Sheathed | Bracing::Continuous => {
                canvas.line((left, y), (right, y), Stroke::Thick(2.0));
                return;
            }
            Bracing::None => return,
            Bracing::Places(places) => places.iter().map(|p| self.along(*p)).collect(),
            Bracing::Every(spacing) => {
                let step = self.along(*spacing) - left;
                let n = if step > 1.0 { ((right - left) / step + 1e-6) as usize } else { 0 };
                (1..=n).map(|i| left + step * i as f64).filter(|x| *x < right - 0.5).collect()
            }
        };
        for x in places {
            canvas.line((x, y), (x, y + 3.6 * inward), Stroke::Thick(0.6));
        }
    }

    fn supports(&self, canvas: &mut Canvas, all: &Results, printing: Printing, single: bool) {
        for reaction in &self.results.reactions {
            let x = self.axis.at(&reaction.at);
            let wide = reaction.bearing.as_ref().map_or(0.0, |b| in_unit(b, self.axis.unit) * self.axis.scale);
            canvas.call("support", &[x, self.bottom, wide], "");
            let y = self.bottom + 8.5;
            let number = reaction.support.to_string();
            let clear = 7.0_f64.max(wide / 2.0 + 2.0);
            if single {
                let forces = format!("\u{2002}{}", forces(reaction, all, printing));
                if reaction.support == 1 {
                    canvas.named((x + clear, y), &number, &forces, Anchor::Left);
                } else {
                    canvas.named((x - clear, y), "", &format!("{}\u{2002}", forces.trim_start_matches('\u{2002}')), Anchor::Right);
                    canvas.named((x + clear, y), &number, "", Anchor::Left);
                }
            } else {
                canvas.named((x + clear, y), &number, "", Anchor::Left);
            }
        }
    }

    /// Whether a dimension is too short for its text, which then stands under the line.
    fn has_narrow(&self, printing: Printing) -> bool {
        let spans = &self.entry.spans;
        let ends = [spans.left, spans.right].into_iter().filter(|l| l.value() > 0.0);
        ends.chain(spans.spans.iter().map(|s| s.value)).any(|l| self.along(l) - self.axis.x(0.0) <= width_of(&printing.length(l)) + ARROWS)
    }

    fn dimensions(&self, canvas: &mut Canvas, printing: Printing, y: f64) {
        let spans = &self.entry.spans;
        let mut lengths: Vec<Length> = Vec::new();
        if spans.left.value() > 0.0 {
            lengths.push(spans.left);
        }
        lengths.extend(spans.spans.iter().map(|s| s.value));
        if spans.right.value() > 0.0 {
            lengths.push(spans.right);
        }
        let mut places = vec![self.axis.x(0.0)];
        let mut sum = Length::new(0.0);
        for length in &lengths {
            sum = sum + *length;
            places.push(self.along(sum));
        }
        let mut labels = Vec::new();
        for (i, length) in lengths.iter().enumerate() {
            let text = printing.length(*length);
            let room = places[i + 1] - places[i];
            if room > width_of(&text) + ARROWS {
                labels.push(literal(&text));
            } else {
                labels.push("none".into());
                let x = (places[i] + places[i + 1]) / 2.0;
                let anchor = if i == 0 {
                    Anchor::Left
                } else if i + 1 == lengths.len() {
                    Anchor::Right
                } else {
                    Anchor::Centre
                };
                let x = match anchor {
                    Anchor::Left => places[0],
                    Anchor::Right => places[i + 1],
                    Anchor::Centre => x,
                };
                canvas.text((x, y + 8.5), &text, anchor, true);
            }
        }
        let list = |items: Vec<String>| format!("({},)", items.join(", "));
        let xs = list(places.iter().map(|x| format!("{x:.2}pt")).collect());
        canvas.call("dimension", &[], &format!("{xs}, {y:.2}pt, {}", list(labels)));
    }

    /// The section cut across, and what the figure says of edges and supports.
    fn section(&self, at: f64, printing: Printing, lexicon: &Lexicon) -> Note {
        let mut said = Vec::new();
        let assumed = |topic: &str| self.results.assumed.get(topic).map(|id| format!(", {id}")).unwrap_or_default();
        if self.entry.role != Use::Tie {
            said.push(format!("{}{}.", edge_in_words("Top", &self.entry.top, printing), assumed("top edge")));
            let hogs = self.results.reactions.len() > 2 || (self.entry.spans.left + self.entry.spans.right).value() > 0.0;
            if self.entry.bottom != Bracing::None || hogs {
                said.push(format!("{}{}.", edge_in_words("Bottom", &self.entry.bottom, printing), assumed("bottom edge")));
            }
        }
        if let Some(slope) = &self.entry.slope {
            let slope = slope.value.text.replace(" deg", "°");
            said.push(format!("Drawn along the slope, {slope}: spans on plan, places along it."));
        }
        if let Some(tilt) = &self.entry.tilt {
            said.push(format!("The depth leans {}° from upright.", trimmed(tilt.value.value(), 4)));
            let across = self.entry.weak_spans.iter().flatten().map(|span| printing.length(span.value)).collect::<Vec<_>>();
            let between = if across.is_empty() { "the supports".to_owned() } else { format!("side supports: {}", across.join(", ")) };
            said.push(format!("Across it, spans between {between}."));
        }
        let mut text = lexicon.set(&said.join(" "));
        if self.results.reactions.len() == 2 {
            for reaction in &self.results.reactions {
                let received = lexicon.set(&received(reaction));
                text = Markup::ours(format!("{}\\ *{}* {}", text.source(), reaction.support, received.source())).read_as(format!(
                    "{}\n{} {}",
                    text.plain(),
                    reaction.support,
                    received.plain()
                ));
            }
        }
        Note::section(at, &self.results.section, printing, &text)
    }
}

/// Who receives a reaction, in a few words.
fn received(reaction: &Reaction) -> String {
    match reaction.receiver.as_str() {
        "nobody" => "receiver not given".to_owned(),
        _ => format!("on {}", reaction.received_by),
    }
}

/// How an edge is held, in words.
fn edge_in_words(edge: &str, held: &Bracing, printing: Printing) -> String {
    match held {
        Bracing::Sheathed => format!("{edge} edge held by sheathing"),
        Bracing::Continuous => format!("{edge} edge held throughout"),
        Bracing::None => format!("{edge} edge held at supports only"),
        Bracing::Every(spacing) => format!("Ticks: {} edge held every {}", edge.to_lowercase(), printing.spacing(*spacing)),
        Bracing::Places(places) => {
            let list: Vec<String> = places.iter().map(|p| printing.length(*p)).collect();
            format!("Ticks: {} edge held at {}", edge.to_lowercase(), words::list(&list))
        }
    }
}

/// Reactions by case: `D 108, L 360 lbf`.
fn forces(reaction: &Reaction, all: &Results, printing: Printing) -> String {
    let mut cases: Vec<(&String, &Value)> = reaction.by_case.iter().collect();
    cases.sort_by_key(|(case, _)| words::case_rank(all, case));
    let unit = cases.first().map(|(_, v)| v.unit.clone()).unwrap_or_default();
    let list: Vec<String> = cases.iter().map(|(case, v)| format!("{} {}", words::case(all, case), printing.value(v))).collect();
    format!("{} {unit}", list.join(", "))
}
