//! Shear, moment and deflection on the member's own axis.

use super::canvas::{Canvas, Stroke};
use super::labels::Crowd;
use super::loads::Axis;
use super::note::Note;
use super::{Size, in_unit};
use crate::package::markup::{Lexicon, Markup, inserted};
use crate::package::printing::Printing;
use crate::package::words::capital;
use crate::results::{Diagram, Envelope, Extreme, Member, Piece};

/// Points on a curved piece.
const SAMPLES: usize = 24;

/// Draws the three diagrams one under the other; gives the height reached, and the notes for the margin as markup.
pub(super) fn draw(
    canvas: &mut Canvas,
    axis: Axis,
    member: &Member,
    printing: Printing,
    size: Size,
    lexicon: &Lexicon,
    top: f64,
) -> (f64, Vec<Note>) {
    let mut crowd = Crowd::between(axis.left - 8.0, axis.x(axis.length) + 8.0);
    for reaction in &member.reactions {
        let x = axis.at(&reaction.at);
        crowd.faint((x, top), (x, top + 900.0));
    }
    let mut y = top;
    let mut notes = Vec::new();
    let mut last = top;
    for quantity in ["shear", "moment", "deflection"] {
        let Some(diagram) = member.diagrams.iter().find(|d| d.quantity == quantity) else { continue };
        let crowded = member.reactions.len() > 2 || member.load_sets > 1;
        let envelope = member.envelopes.iter().find(|e| e.quantity == quantity && member.load_sets > 1);
        let panel = Panel { axis, diagram, envelope, printing, height: size.height(quantity, crowded), crowded };
        let (base, reached) = panel.draw(canvas, &mut crowd, y);
        last = base - 9.0;
        notes.push(Note::text(last, note(diagram, lexicon)));
        y = reached;
    }
    if !notes.is_empty() && !member.envelopes.is_empty() && member.load_sets > 1 {
        let said = format!("Broken lines: the largest and smallest of all {} load sets", member.load_sets);
        notes.push(Note::text(last + 26.0, Markup::text(&said)));
    }
    (y, notes)
}

fn note(diagram: &Diagram, lexicon: &Lexicon) -> Markup {
    let sense = if diagram.quantity == "moment" {
        ", sagging up"
    } else if diagram.quantity == "deflection" {
        ", down"
    } else {
        ""
    };
    let set =
        if diagram.load_set.is_empty() { diagram.combination.clone() } else { format!("{}, {}", diagram.combination, diagram.load_set) };
    let (name, unit) = (capital(&diagram.quantity), format!(", {}{sense}\n", diagram.unit));
    Markup::ours(format!("*{name}*{}{}", inserted(&unit), lexicon.set(&set).source())).read_as(format!("{name}{unit}{set}"))
}

struct Panel<'a> {
    axis: Axis<'a>,
    diagram: &'a Diagram,
    envelope: Option<&'a Envelope>,
    printing: Printing,
    height: f64,
    /// Several spans or load sets: curves on both sides of the axis, labels outside them.
    crowded: bool,
}

impl Panel<'_> {
    /// Sagging and upward shear are drawn up, deflection down.
    fn up(&self) -> f64 {
        if self.diagram.quantity == "deflection" { -1.0 } else { 1.0 }
    }

    /// Draws the panel under `top`; gives its axis and the height reached.
    fn draw(&self, canvas: &mut Canvas, crowd: &mut Crowd, top: f64) -> (f64, f64) {
        let curve = self.curve();
        let bounds: Vec<[(f64, f64); 2]> = self.envelope.map(|e| self.bounds(e)).unwrap_or_default();
        let all = || curve.iter().copied().chain(bounds.iter().flatten().copied());
        let most = all().map(|(_, v)| v.abs()).fold(0.0, f64::max);
        let scale = if most > 0.0 { self.height / most * self.up() } else { 0.0 };
        let above = all().map(|(_, v)| v * scale).fold(0.0, f64::max);
        let below = all().map(|(_, v)| -v * scale).fold(0.0, f64::max);
        let labelled = self.labelled(most);
        let high = labelled.iter().any(|(e, _)| e.value * scale > 0.3 * self.height);
        let air = match (high && self.crowded, self.diagram.quantity.as_str()) {
            (true, _) => 12.0,
            (false, "shear") => 7.0,
            (false, _) => 4.0,
        };
        let base = top + above + air;
        let place = |(x, v): (f64, f64)| (self.axis.x(x), base - v * scale);
        let drawn: Vec<(f64, f64)> = curve.iter().map(|p| place(*p)).collect();
        let left: Vec<(f64, f64)> = bounds.iter().map(|b| place(b[0])).collect();
        let right: Vec<(f64, f64)> = bounds.iter().map(|b| place(b[1])).collect();
        for bound in [&left, &right] {
            canvas.curve(bound, Stroke::Envelope);
            crowd.curve(bound);
        }
        let (start, end) = (self.axis.x(0.0), self.axis.x(self.axis.length));
        canvas.line((start, base), (end, base), Stroke::Hair);
        crowd.faint((start, base), (end, base));
        canvas.curve(&drawn, Stroke::Ink);
        crowd.curve(&drawn);
        // Shears of all load sets start from the same supports; elsewhere a label must stand on its own side of the other curves.
        crowd.close = self.diagram.quantity != "shear";
        for (extreme, governing) in labelled {
            let at = place((in_unit(&extreme.at, self.axis.unit), extreme.value));
            let value = self.printing.rounded(extreme.value, &self.diagram.unit);
            let full = format!("{value} at {}", self.printing.with_unit(&extreme.at));
            let texts = if self.at_a_support(extreme) { vec![value] } else { vec![full, value] };
            if governing && self.diagram.quantity != "shear" {
                canvas.dot(at);
            }
            // The moment of a simple span has room for its label under the curve.
            let inside = !self.crowded && self.diagram.quantity == "moment";
            crowd.place(canvas, at, &texts, (at.1 <= base) != inside);
        }
        let reached = crowd.extent().map_or(base + below, |(_, bottom)| bottom.max(base + below));
        (base, reached + 4.0)
    }

    fn at_a_support(&self, extreme: &Extreme) -> bool {
        let end = in_unit(&extreme.at, self.axis.unit);
        self.diagram.quantity == "shear" || end < 1e-6 || end > self.axis.length - 1e-6
    }

    /// The extremes worth a label, the governing curve's first.
    fn labelled(&self, most: f64) -> Vec<(&Extreme, bool)> {
        let counts = |e: &&Extreme| e.value.abs() > 0.04 * most;
        let mut list: Vec<(&Extreme, bool)> = self.diagram.extremes.iter().filter(counts).map(|e| (e, true)).collect();
        if let Some(envelope) = self.envelope.filter(|_| self.diagram.quantity == "moment") {
            let near = |a: &Extreme, b: &Extreme| {
                let apart = (in_unit(&a.at, self.axis.unit) - in_unit(&b.at, self.axis.unit)).abs();
                (apart < 0.02 * self.axis.length && (a.value - b.value).abs() < 0.01 * most)
                    || (apart < 0.12 * self.axis.length && a.value * b.value > 0.0 && a.value.abs() <= b.value.abs() * 1.001)
            };
            let larger = envelope.extremes.iter().filter(counts).filter(|e| !self.diagram.extremes.iter().any(|own| near(e, own)));
            let more: Vec<(&Extreme, bool)> = larger.filter(|e| e.value.abs() > 0.15 * most).map(|e| (e, false)).collect();
            list.extend(more);
        }
        list
    }

    fn curve(&self) -> Vec<(f64, f64)> {
        let mut points: Vec<(f64, f64)> = Vec::new();
        for piece in &self.diagram.pieces {
            let (from, to) = (in_unit(&piece.from, self.axis.unit), in_unit(&piece.to, self.axis.unit));
            let parts = if piece.polynomial.len() > 2 { SAMPLES } else { 1 };
            for i in 0..=parts {
                let along = (to - from) * i as f64 / parts as f64;
                let point = (from + along, value_at(piece, along));
                if points.last() != Some(&point) {
                    points.push(point);
                }
            }
        }
        points
    }

    fn bounds(&self, envelope: &Envelope) -> Vec<[(f64, f64); 2]> {
        envelope.points.iter().map(|[x, least, most]| [(*x, *least), (*x, *most)]).collect()
    }
}

/// The polynomial of a piece, so far from its beginning.
fn value_at(piece: &Piece, along: f64) -> f64 {
    piece.polynomial.iter().rev().fold(0.0, |sum, c| sum * along + c)
}
