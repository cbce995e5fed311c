//! Loads as rows of arrows, one row a case, and point loads as arrows with their names.

use super::canvas::{Anchor, Canvas, width_of};
use super::in_unit;
use super::note;
use crate::package::printing::Printing;
use crate::package::words;
use crate::results::{Load, Member, Results, Value};

/// Height of the fullest part of a row.
const ROW: f64 = 12.0;
/// From row to row.
const PITCH: f64 = 16.0;
/// The widest name of a case to the left of its row.
const LABEL: f64 = 40.0;
/// From line to line of the names of point loads.
const LINE: f64 = 11.0;

/// The axis that everything is drawn on: x from the left end in the unit of the results.
#[derive(Clone, Copy, Debug)]
pub(super) struct Axis<'a> {
    /// Points from the left edge to the member's left end.
    pub(super) left: f64,
    /// Points to one unit.
    pub(super) scale: f64,
    /// The unit.
    pub(super) unit: &'a str,
    /// The member's length.
    pub(super) length: f64,
}

impl Axis<'_> {
    /// A place in points.
    pub(super) fn x(&self, place: f64) -> f64 {
        self.left + place * self.scale
    }

    /// A place in points.
    pub(super) fn at(&self, place: &Value) -> f64 {
        self.x(in_unit(place, self.unit))
    }
}

/// A part of the member without variable load in the set that is drawn.
pub(super) type Off = (f64, f64);

/// Draws all loads from the top down; gives the height reached, and a note for the margin at each row.
pub(super) fn draw(
    canvas: &mut Canvas,
    axis: Axis,
    member: &Member,
    all: &Results,
    printing: Printing,
    off: &[Off],
) -> (f64, Vec<(f64, String)>) {
    let mut notes = Vec::new();
    let points = points(member, all, printing);
    let levels = levels_of(axis, &points);
    let mut y = names(canvas, axis, &points, &levels) as f64 * LINE;
    if let Some(pull) = pull(member, all, printing) {
        notes.push((y, pull));
        y += PITCH;
    }
    let mut rows: Vec<(&str, bool)> = member.loads.iter().filter(|l| l.kind == "line").map(|l| (l.case.as_str(), l.across)).collect();
    rows.sort_by_key(|(case, across)| (words::case_rank(all, case), *across));
    rows.dedup();
    for (case, across) in rows {
        let letter = words::case(all, case);
        let loads: Vec<&Load> = member.loads.iter().filter(|l| l.kind == "line" && l.case == case && l.across == across).collect();
        let patterned = all.cases.iter().any(|c| c.name == case && c.by_span);
        let way = if across { " across the depth" } else { "" };
        let words = format!("{letter}{way}\u{2002}{}", said(&loads, axis, printing));
        // A note over more than one line pushes the next row down.
        let note = note::room(&words);
        notes.push((y, words));
        row(canvas, axis, &loads, y + 2.0 + ROW, if patterned { off } else { &[] });
        // A name too long for the page's margin stands in the note beside the row alone.
        if width_of(letter) <= LABEL {
            canvas.text((axis.left - 9.0, y + 4.5), letter, Anchor::Right, false);
        }
        y += PITCH.max(note);
    }
    y += if y > 0.0 { 1.0 } else { 4.0 };
    for (point, level) in points.iter().zip(levels) {
        let x = axis.x(point.at);
        let top = level as f64 * LINE + 1.0;
        if point.couple {
            canvas.call("couple", &[x, y + 6.0], if point.upward { ", -1" } else { ", 1" });
        } else if point.upward {
            canvas.arrow(x, y, top, 1.0);
        } else {
            canvas.arrow(x, top, y, 1.0);
        }
    }
    (y, notes)
}

/// What pulls along a tie, in words; none on other members.
fn pull(member: &Member, all: &Results, printing: Printing) -> Option<String> {
    let of = |l: &&Load| l.kind == "axial";
    let list: Vec<String> =
        (member.loads.iter().filter(of)).map(|l| format!("{} {}", words::case(all, &l.case), printing.with_unit(&l.start))).collect();
    (!list.is_empty()).then(|| format!("Pull along it\u{2002}{}", list.join(", ")))
}

/// A point load, or a couple, with all its cases.
struct Point {
    at: f64,
    name: String,
    upward: bool,
    couple: bool,
}

impl Point {
    /// Where the name runs, on the side with more room.
    fn extent(&self, axis: Axis) -> (f64, f64) {
        let (x, wide) = (axis.x(self.at), width_of(&self.name));
        // To the left of its arrow only where it stays on the page.
        let to_right = x + 5.0 + wide <= axis.x(axis.length) + 6.0 || x - 5.0 - wide < 0.0;
        if to_right { (x + 5.0, x + 5.0 + wide) } else { (x - 5.0 - wide, x - 5.0) }
    }
}

/// The line of each name: the first where no earlier name is in the way, and where neither its arrow nor an earlier one runs through a name.
fn levels_of(axis: Axis, points: &[Point]) -> Vec<usize> {
    let mut levels: Vec<usize> = Vec::new();
    for point in points {
        let (a, b) = point.extent(axis);
        let own = axis.x(point.at);
        let (mut taken, mut first) = (Vec::new(), 0);
        for (other, level) in points.iter().zip(&levels) {
            let (c, d) = other.extent(axis);
            let arrow = axis.x(other.at);
            if (a < d + 6.0 && c < b + 6.0) || (arrow > a - 3.0 && arrow < b + 3.0) {
                taken.push(*level);
            }
            // An arrow runs down from its name.
            if own > c - 3.0 && own < d + 3.0 {
                first = first.max(level + 1);
            }
        }
        levels.push((first..).find(|level| !taken.contains(level)).unwrap_or(first));
    }
    levels
}

fn points(member: &Member, all: &Results, printing: Printing) -> Vec<Point> {
    let mut found: Vec<(Point, &str)> = Vec::new();
    for load in member.loads.iter().filter(|l| l.kind != "line" && l.kind != "axial") {
        let at = load.from.value;
        let what = format!("{} {}", words::case(all, &load.case), printing.with_unit(&load.start));
        let couple = load.kind == "moment";
        match found.iter_mut().find(|(p, because)| p.at == at && p.couple == couple && *because == load.because) {
            Some((point, _)) => point.name.push_str(&format!(", {what}")),
            None => {
                let from = if load.from_member.is_empty() {
                    String::new()
                } else {
                    format!("{}, support {}: ", load.from_member, load.from_support.unwrap_or(1))
                };
                found.push((Point { at, name: format!("{from}{what}"), upward: load.start.value < 0.0, couple }, &load.because));
            }
        }
    }
    let mut points: Vec<Point> = found.into_iter().map(|(point, _)| point).collect();
    points.sort_by(|a, b| a.at.total_cmp(&b.at));
    points
}

/// Writes the names of point loads on these lines; gives how many they take.
fn names(canvas: &mut Canvas, axis: Axis, points: &[Point], levels: &[usize]) -> usize {
    let mut lines = 0;
    for (point, level) in points.iter().zip(levels) {
        let (a, b) = point.extent(axis);
        let y = *level as f64 * LINE + 5.0;
        if a > axis.x(point.at) {
            canvas.text((a, y), &point.name, Anchor::Left, true);
        } else {
            canvas.text((b, y), &point.name, Anchor::Right, true);
        }
        lines = lines.max(level + 1);
    }
    lines
}

/// One row: the sum of the case's line loads along the member, higher where it is larger.
fn row(canvas: &mut Canvas, axis: Axis, loads: &[&Load], y: f64, off: &[Off]) {
    let mut ends: Vec<f64> = loads.iter().flat_map(|l| [in_unit(&l.from, axis.unit), in_unit(&l.to, axis.unit)]).collect();
    ends.extend(off.iter().flat_map(|(a, b)| [*a, *b]));
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let height = |x: f64, from: f64, to: f64| -> f64 { loads.iter().map(|load| intensity(load, x, (from + to) / 2.0, axis)).sum() };
    let parts: Vec<(f64, f64)> = ends.windows(2).map(|w| (w[0], w[1])).collect();
    let most = parts.iter().flat_map(|(a, b)| [height(*a, *a, *b).abs(), height(*b, *a, *b).abs()]).fold(0.0, f64::max);
    if most <= 0.0 {
        return;
    }
    for (a, b) in parts {
        // Heights compare within a row; where there is no room for an arrow the line stands alone.
        let tall = |v: f64| ROW * v / most;
        let (start, end) = (tall(height(a, a, b)), tall(height(b, a, b)));
        if start.abs().max(end.abs()) < 1e-6 {
            continue;
        }
        let is_off = off.iter().any(|(c, d)| a >= c - 1e-6 && b <= d + 1e-6);
        // Upward loads hang from the row's line with their arrows turned.
        canvas.spread([axis.x(a), axis.x(b)], y, [start, end], is_off);
    }
}

/// The intensity of a load at a place, looked at from inside a part.
fn intensity(load: &Load, x: f64, inside: f64, axis: Axis) -> f64 {
    let (from, to) = (in_unit(&load.from, axis.unit), in_unit(&load.to, axis.unit));
    if inside < from || inside > to || to <= from {
        return 0.0;
    }
    load.start.value + (load.end.value - load.start.value) * ((x - from) / (to - from))
}

/// Where a load comes from: a mark and its support; of an area only the product, where the row holds no other area.
fn source(load: &Load, row: &[&Load]) -> String {
    let text = load.because.strip_prefix("reaction ").unwrap_or(&load.because).replace(" x ", " × ");
    let areas = row.iter().filter(|l| l.because.starts_with("area ")).count();
    match text.strip_prefix("area ").and_then(|area| area.split_once(", ")) {
        Some((_, product)) if areas == 1 => product.replace('-', "−"),
        Some((name, product)) => format!("{name}, {}", product.replace('-', "−")),
        None => text,
    }
}

/// The loads of a row in words: value, where it comes from, and from where to where if not all along.
pub(super) fn said(loads: &[&Load], axis: Axis, printing: Printing) -> String {
    let one = |load: &&Load| {
        let (from, to) = (in_unit(&load.from, axis.unit), in_unit(&load.to, axis.unit));
        let value = if load.start == load.end {
            printing.with_unit(&load.start)
        } else {
            format!("{} to {}", printing.value(&load.start), printing.with_unit(&load.end))
        };
        let whole = from < 1e-6 && to > axis.length - 1e-6;
        let place =
            if whole { String::new() } else { format!(", from {} to {}", printing.value(&load.from), printing.with_unit(&load.to)) };
        let because = source(load, loads);
        format!("{value}: {because}{place}")
    };
    let mut counted: Vec<(String, usize)> = Vec::new();
    for words in loads.iter().map(one) {
        match counted.iter_mut().find(|(known, _)| *known == words) {
            Some((_, n)) => *n += 1,
            None => counted.push((words, 1)),
        }
    }
    let list: Vec<String> = counted.into_iter().map(|(words, n)| if n == 1 { words } else { format!("{n} × {words}") }).collect();
    list.join("; ")
}
