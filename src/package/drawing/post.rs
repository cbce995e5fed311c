//! A post or stud upright, to scale: once as it bends about its strong axis, once about its weak one.

use super::canvas::{Anchor, Canvas, Stroke, width_of};
use super::in_unit;
use super::loads::{Axis, said};
use super::member::{Figure, Size};
use super::note::Note;
use crate::job::model::{Axis as About, Bracing, EndHeld, Member as Entry, Standing};
use crate::package::markup::{Lexicon, Markup};
use crate::package::printing::Printing;
use crate::package::words;
use crate::results::{Diagram, Load, Member, Results, Value};
use crate::units::Length;

/// From line to line of the names of loads.
const LINE: f64 = 11.0;
/// The longest label, as the style sheet has it.
const LABEL: f64 = 300.0;
/// Length of the arrows of side loads at their largest.
const ARROW: f64 = 20.0;
/// The largest ordinate of a curve.
const ORDINATE: f64 = 30.0;
/// Points on a curved piece.
const SAMPLES: usize = 16;

/// Draws a post or stud in a text column so many points wide.
pub(super) fn draw(
    all: &Results,
    entry: &Entry,
    standing: &Standing,
    results: &Member,
    size: Size,
    column: f64,
    lexicon: &Lexicon,
) -> Figure {
    let printing = Printing::of(all);
    let unit = results.reactions.first().map_or("ft", |r| r.at.unit.as_str());
    let length = in_unit(&Value { value: entry.spans.length().value(), unit: "mm".into() }, unit);
    let tall = match size {
        Size::Low => 92.0,
        Size::Medium => 122.0,
        Size::Tall => 170.0,
    };
    let mut canvas = Canvas::default();
    let side = side_notes(results, all, printing, unit, length);
    let mut notes: Vec<Note> = side.iter().map(|text| Note::text(0.0, lexicon.set(text))).collect();
    let mut y = 5.0;
    for line in along(results, all, printing).iter().flat_map(|line| broken(line)) {
        canvas.text((8.0, y), &line, Anchor::Left, false);
        y += LINE;
    }
    let top = y + 16.0;
    notes.push(Note::section(top, &results.section, printing, &section(standing, lexicon, printing)));
    let elevation = Elevation { entry, standing, results, unit, length, scale: tall / length, top, bottom: top + tall };
    for (about, centre, deep) in
        [(About::Strong, 0.27 * column, &results.section.depth), (About::Weak, 0.76 * column, &results.section.width)]
    {
        let wide = (in_unit(deep, unit) * elevation.scale).max(2.0);
        elevation.body(&mut canvas, about, centre, wide);
        elevation.sideways(&mut canvas, about, centre - wide / 2.0);
        elevation.dimensions(&mut canvas, printing, about, centre - wide / 2.0 - ARROW - 24.0);
        let seen = printing.as_read(deep);
        let caption = format!("about the {} axis, {seen} wide here", about.word());
        canvas.text((centre, elevation.bottom + 19.0), &caption, Anchor::Centre, false);
    }
    let right = 0.27 * column + in_unit(&results.section.depth, unit) * elevation.scale / 2.0 + 10.0;
    // Where the deflection governs it is drawn, else the largest moment.
    let drawn = if results.governing.check == "deflection" { "deflection" } else { "moment" };
    if let Some(diagram) = results.diagrams.iter().find(|d| d.quantity == drawn) {
        elevation.bent(&mut canvas, printing, diagram, right);
        let governs = &results.governing.combination;
        let other = if diagram.combination == *governs { String::new() } else { format!(". The governing combination is {governs}.") };
        let set = lexicon.set(&format!(", {}, strong axis, {}{other}", diagram.unit, diagram.combination));
        let name = words::capital(&diagram.quantity);
        let text = Markup::ours(format!("*{name}*{}", set.source())).read_as(format!("{name}{}", set.plain()));
        notes.push(Note::text(top + tall * 0.62, text));
    }
    Figure::of(elevation.bottom + 26.0, canvas.done(), notes)
}

/// Forces along the member, one line a source: `B1, support 2: D 915, L 2700 lbf`.
fn along(results: &Member, all: &Results, printing: Printing) -> Vec<String> {
    let mut lines: Vec<(String, String)> = Vec::new();
    for load in results.loads.iter().filter(|l| l.kind == "axial") {
        let what = format!("{} {}", words::case(all, &load.case), printing.with_unit(&load.start));
        match lines.iter_mut().find(|(because, _)| *because == load.because) {
            Some((_, text)) => text.push_str(&format!(", {what}")),
            None => lines.push((load.because.clone(), what)),
        }
    }
    lines
        .into_iter()
        .map(|(because, what)| {
            format!("{}: {what}", words::capital(&because.strip_prefix("reaction ").unwrap_or(&because).replace(" x ", " × ")))
        })
        .collect()
}

/// A line that is longer than a label may be in several, broken at commas.
fn broken(line: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for part in line.split_inclusive(", ") {
        match lines.last_mut() {
            Some(last) if 1.05 * width_of(&format!("{last}{}", part.trim_end())) <= LABEL => last.push_str(part),
            _ => lines.push(part.to_owned()),
        }
    }
    lines
}

/// Side loads in words, one note a case and axis.
fn side_notes(results: &Member, all: &Results, printing: Printing, unit: &str, length: f64) -> Vec<String> {
    let axis = Axis { left: 0.0, scale: 1.0, unit, length };
    let mut groups: Vec<(&str, bool)> = results.loads.iter().filter(|l| l.kind != "axial").map(|l| (l.case.as_str(), l.across)).collect();
    groups.sort_by_key(|(case, across)| (words::case_rank(all, case), *across));
    groups.dedup();
    groups
        .into_iter()
        .map(|(case, across)| {
            let of = |l: &&Load| l.kind != "axial" && l.case == case && l.across == across;
            let (lines, points): (Vec<&Load>, Vec<&Load>) = results.loads.iter().filter(of).partition(|l| l.kind == "line");
            let spread = Some(said(&lines, axis, printing)).filter(|text| !text.is_empty());
            let single =
                points.iter().map(|l| format!("{} at {}: {}", printing.with_unit(&l.start), printing.with_unit(&l.from), l.because));
            let list: Vec<String> = spread.into_iter().chain(single).collect();
            format!("{} sideways\u{2002}{}", words::case(all, case), list.join("; "))
        })
        .collect()
}

struct Elevation<'a> {
    entry: &'a Entry,
    standing: &'a Standing,
    results: &'a Member,
    unit: &'a str,
    length: f64,
    scale: f64,
    top: f64,
    bottom: f64,
}

impl Elevation<'_> {
    /// Points of a place, which is measured from the foot.
    fn y(&self, place: f64) -> f64 {
        self.bottom - place * self.scale
    }

    fn of(&self, length: Length) -> f64 {
        in_unit(&Value { value: length.value(), unit: "mm".into() }, self.unit)
    }

    const fn bracing(&self, about: About) -> &Bracing {
        match about {
            About::Strong => &self.standing.strong,
            About::Weak => &self.standing.weak,
        }
    }

    /// Braces between the ends, from the foot.
    fn braces(&self, about: About) -> Vec<f64> {
        let places = match self.bracing(about) {
            Bracing::Places(places) => places.iter().map(|p| self.of(*p)).collect(),
            Bracing::Every(spacing) => {
                let step = self.of(*spacing);
                (1..=((self.length / step) as usize).min(200)).map(|k| k as f64 * step).collect()
            }
            _ => Vec::new(),
        };
        places.into_iter().filter(|p: &f64| *p > 1e-6 && *p < self.length - 1e-6).collect()
    }

    /// The outline, its ends, its braces and the force on its head.
    fn body(&self, canvas: &mut Canvas, about: About, centre: f64, wide: f64) {
        let (left, right) = (centre - wide / 2.0, centre + wide / 2.0);
        canvas.outline((left, self.top), wide, self.bottom - self.top);
        if matches!(self.bracing(about), Bracing::Sheathed | Bracing::Continuous) {
            canvas.line((left, self.top), (left, self.bottom), Stroke::Thick(2.0));
            canvas.line((right, self.top), (right, self.bottom), Stroke::Thick(2.0));
        }
        for place in self.braces(about) {
            let y = self.y(place);
            canvas.line((left - 6.0, y), (left, y), Stroke::Thick(1.2));
            canvas.line((right, y), (right + 6.0, y), Stroke::Thick(1.2));
        }
        if self.results.loads.iter().any(|l| l.kind == "axial") {
            canvas.arrow(centre, self.top - 14.0, self.top, 1.0);
        }
        for (held, y, out) in [(self.standing.top, self.top, -1.0), (self.standing.bottom, self.bottom, 1.0)] {
            match held {
                EndHeld::Free => {}
                EndHeld::Pinned if out > 0.0 => canvas.call("support", &[centre, y, 0.0], ""),
                EndHeld::Pinned => {
                    canvas.line((left - 6.0, y), (left - 1.0, y), Stroke::Thick(0.9));
                    canvas.line((right + 1.0, y), (right + 6.0, y), Stroke::Thick(0.9));
                }
                EndHeld::Fixed => {
                    let y = y + 0.8 * out;
                    canvas.line((left - 8.0, y), (right + 8.0, y), Stroke::Thick(1.6));
                    for i in 0..5 {
                        let x = left - 8.0 + (wide + 16.0) * f64::from(i) / 4.0;
                        canvas.line((x, y), (x - 3.0, y + 5.0 * out), Stroke::Hair);
                    }
                }
            }
        }
    }

    /// Side loads about an axis: a row of arrows to the right, longer where the load is larger.
    fn sideways(&self, canvas: &mut Canvas, about: About, face: f64) {
        let loads: Vec<&Load> =
            (self.results.loads.iter()).filter(|l| l.kind != "axial" && l.across == (about == About::Weak) && l.kind != "moment").collect();
        let most = loads.iter().filter(|l| l.kind == "line").flat_map(|l| [l.start.value.abs(), l.end.value.abs()]).fold(0.0, f64::max);
        for load in loads {
            let (from, to) = (in_unit(&load.from, self.unit), in_unit(&load.to, self.unit));
            if load.kind == "point" {
                arrow(canvas, face - ARROW - 2.0, face - 1.0, self.y(from), 1.0);
                continue;
            }
            let long = |v: f64| ARROW * v.abs() / most.max(1e-9);
            let ends = [(from, long(load.start.value)), (to, long(load.end.value))];
            canvas.curve(&ends.map(|(at, l)| (face - 2.0 - l, self.y(at))), Stroke::Hair);
            let count = (((to - from) * self.scale / 12.0) as usize).clamp(1, 20);
            for i in 0..=count {
                let part = i as f64 / count as f64;
                let (at, l) = (from + (to - from) * part, ends[0].1 + (ends[1].1 - ends[0].1) * part);
                if l > 4.5 {
                    arrow(canvas, face - 2.0 - l, face - 2.0, self.y(at), 0.4);
                }
            }
        }
    }

    /// The length, or the gaps between braces.
    fn dimensions(&self, canvas: &mut Canvas, printing: Printing, about: About, x: f64) {
        let whole = self.entry.spans.length();
        let mut places = self.braces(about);
        places.extend([0.0, self.length]);
        places.sort_by(f64::total_cmp);
        let crowded = places.windows(2).any(|w| (w[1] - w[0]) * self.scale < 12.0);
        if crowded {
            places = vec![0.0, self.length];
        }
        canvas.line((x, self.top), (x, self.bottom), Stroke::Thick(0.35));
        for place in &places {
            let y = self.y(*place);
            canvas.line((x - 3.5, y), (x + 3.5, y), Stroke::Thick(0.35));
            canvas.line((x - 2.0, y + 2.0), (x + 2.0, y - 2.0), Stroke::Thick(0.7));
        }
        for pair in places.windows(2) {
            let part = (pair[1] - pair[0]) / self.length;
            let text = printing.length(whole * crate::units::ratio(part));
            canvas.text((x, self.y((pair[0] + pair[1]) / 2.0)), &text, Anchor::Centre, true);
        }
    }

    /// Moment or deflection by side loads about the strong axis, beside the elevation.
    fn bent(&self, canvas: &mut Canvas, printing: Printing, diagram: &Diagram, x: f64) {
        let at = |piece: &crate::results::Piece, s: f64| piece.polynomial.iter().rev().fold(0.0, |sum, c| sum * s + c);
        let mut points: Vec<(f64, f64)> = Vec::new();
        for piece in &diagram.pieces {
            let (from, to) = (in_unit(&piece.from, self.unit), in_unit(&piece.to, self.unit));
            points.extend((0..=SAMPLES).map(|i| {
                let s = (to - from) * i as f64 / SAMPLES as f64;
                (from + s, at(piece, s))
            }));
        }
        let most = points.iter().map(|(_, m)| m.abs()).fold(0.0, f64::max);
        if most <= 0.0 {
            return;
        }
        let drawn: Vec<(f64, f64)> = points.iter().map(|(p, m)| (x + ORDINATE * m.abs() / most, self.y(*p))).collect();
        canvas.line((x, self.top), (x, self.bottom), Stroke::Hair);
        canvas.curve(&drawn, Stroke::Ink);
        if let Some((p, m)) = points.iter().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs())) {
            let place = (x + ORDINATE, self.y(*p));
            canvas.dot(place);
            canvas.text((place.0 + 4.0, place.1), &printing.rounded(m.abs(), &diagram.unit), Anchor::Left, true);
        }
    }
}

/// An arrow to the right.
fn arrow(canvas: &mut Canvas, from: f64, to: f64, y: f64, thick: f64) {
    canvas.line((from, y), (to, y), Stroke::Thick(thick));
    canvas.line((to - 3.2, y - 1.3), (to, y), Stroke::Thick(thick));
    canvas.line((to - 3.2, y + 1.3), (to, y), Stroke::Thick(thick));
}

/// The section cut across, and what the figure says of ends and braces.
fn section(standing: &Standing, lexicon: &Lexicon, printing: Printing) -> Markup {
    let ends = if standing.top == standing.bottom {
        format!("Both ends {}.", standing.top.word())
    } else {
        format!("Top {}, foot {}.", standing.top.word(), standing.bottom.word())
    };
    let mut said = vec![ends];
    for (axis, held) in [("Strong", &standing.strong), ("Weak", &standing.weak)] {
        said.push(match held {
            Bracing::Sheathed => format!("{axis} axis held by sheathing."),
            Bracing::Continuous => format!("{axis} axis held throughout."),
            Bracing::None => format!("{axis} axis held at the ends only."),
            Bracing::Every(spacing) => format!("{axis} axis held every {}.", printing.spacing(*spacing)),
            Bracing::Places(places) => {
                let list: Vec<String> = places.iter().map(|p| printing.length(*p)).collect();
                format!("{axis} axis held at {}.", words::list(&list))
            }
        });
    }
    if let Some(joined) = standing.joined {
        said.push(format!("Plies {}.", joined.word()));
    }
    lexicon.set(&said.join(" "))
}
