//! A sheet of drawing paper: calls of the style sheet's drawing functions, collected.

use crate::package::markup::{Markup, literal};
use crate::pdf;
use std::fmt::Write as _;

/// Places and sizes are in points, x from the left edge of the text column, y downward.
#[derive(Debug, Default)]
pub(in crate::package) struct Canvas {
    source: String,
}

/// On which side of its place a text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::package) enum Anchor {
    /// Begins there.
    Left,
    /// Is centred there.
    Centre,
    /// Ends there.
    Right,
}

impl Anchor {
    const fn letter(self) -> &'static str {
        match self {
            Self::Left => "l",
            Self::Centre => "c",
            Self::Right => "r",
        }
    }
}

/// A line of the style sheet.
#[derive(Clone, Copy, Debug)]
pub(in crate::package) enum Stroke {
    /// Axes.
    Hair,
    /// The curve of the governing combination.
    Ink,
    /// Largest and smallest of all load sets, broken.
    Envelope,
    /// A load that is taken off in the governing set, broken.
    Idle,
    /// So many points thick.
    Thick(f64),
}

impl Stroke {
    fn source(self) -> String {
        match self {
            Self::Hair => "hair".into(),
            Self::Ink => "ink".into(),
            Self::Envelope => "envelope".into(),
            Self::Idle => "idle".into(),
            Self::Thick(points) => format!("{points}pt + black"),
        }
    }
}

/// How far the arrows of a load along a line stand apart, nearly.
const ARROWS_APART: f64 = 24.0;

/// A number of points: two places, never a nought with a sign.
fn pt(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    format!("{}pt", if rounded == 0.0 { 0.0 } else { rounded })
}

impl Canvas {
    /// A straight line.
    pub(in crate::package) fn line(&mut self, from: (f64, f64), to: (f64, f64), stroke: Stroke) {
        let _ = writeln!(self.source, "seg({}, {}, {}, {}, stroke: {})", pt(from.0), pt(from.1), pt(to.0), pt(to.1), stroke.source());
    }

    /// A line through points.
    pub(in crate::package) fn curve(&mut self, points: &[(f64, f64)], stroke: Stroke) {
        let kept = corners(points);
        let [(x, y), rest @ ..] = kept.as_slice() else { return };
        let _ = write!(self.source, "place(curve(stroke: {}, curve.move(({}, {}))", stroke.source(), pt(*x), pt(*y));
        for (x, y) in rest {
            let _ = write!(self.source, ", curve.line(({}, {}))", pt(*x), pt(*y));
        }
        self.source.push_str("))\n");
    }

    /// A text; `clear` puts white under it.
    pub(in crate::package) fn text(&mut self, at: (f64, f64), text: &str, anchor: Anchor, clear: bool) {
        let _ = writeln!(self.source, "tag({}, {}, {}, anchor: \"{}\", white: {clear})", pt(at.0), pt(at.1), worded(text), anchor.letter());
    }

    /// A text, its first part bold.
    pub(in crate::package) fn named(&mut self, at: (f64, f64), bold: &str, rest: &str, anchor: Anchor) {
        let (x, y) = (pt(at.0), pt(at.1));
        let _ = writeln!(
            self.source,
            "tag({x}, {y}, strong({}) + {}, anchor: \"{}\", white: true)",
            literal(bold),
            worded(rest),
            anchor.letter()
        );
    }

    /// An arrow along the vertical.
    pub(in crate::package) fn arrow(&mut self, x: f64, from: f64, to: f64, thick: f64) {
        let _ = writeln!(self.source, "arrow({}, {}, {}, stroke: {thick}pt)", pt(x), pt(from), pt(to));
    }

    /// A load along a line at `y`: how high it stands at each end, arrows down to the line. An upward one (less than nought) hangs from the
    /// line, its arrows turned; one that is `idle` has none.
    pub(in crate::package) fn spread(&mut self, ends: [f64; 2], y: f64, high: [f64; 2], idle: bool) {
        let upward = high[0].min(high[1]) < -1.0;
        let outer = |stroke| ((ends[0], y - high[0]), (ends[1], y - high[1]), stroke);
        let (from, to, stroke) = match (upward, idle) {
            (false, true) => outer(Stroke::Idle),
            (false, false) => outer(Stroke::Thick(0.5)),
            (true, _) => ((ends[0], y), (ends[1], y), Stroke::Thick(0.5)),
        };
        self.line(from, to, stroke);
        if idle && !upward {
            return;
        }
        let parts = ((ends[1] - ends[0]) / ARROWS_APART).round().max(2.0);
        let at = |i: u32| [ends, high].map(|[first, last]| first + (last - first) * f64::from(i) / parts);
        let arrows = || (0..=parts as u32).map(at).filter(|[_, high]| if upward { *high < -4.0 } else { *high > 4.0 });
        if arrows().next().is_none() {
            return;
        }
        let (mut shafts, mut heads) = (String::new(), String::new());
        for [x, high] in arrows() {
            let (tail, tip, down) = if upward { (y, y + high, -1.0) } else { (y - high, y, 1.0) };
            let _ = write!(shafts, ", curve.move(({0}, {1})), curve.line(({0}, {2}))", pt(x), pt(tail), pt(tip - down));
            let (left, right, wide) = (pt(x - 1.15), pt(x + 1.15), pt(tip - 3.8 * down));
            let _ = write!(
                heads,
                ", curve.move(({left}, {wide})), curve.line(({right}, {wide})), curve.line(({}, {})), curve.close(mode: \"straight\")",
                pt(x),
                pt(tip)
            );
        }
        let _ = writeln!(self.source, "place(curve(stroke: fine{shafts}))\nplace(curve(fill: black{heads}))");
    }

    /// The dot of an extreme.
    pub(in crate::package) fn dot(&mut self, at: (f64, f64)) {
        let _ = writeln!(self.source, "dot({}, {})", pt(at.0), pt(at.1));
    }

    /// A rectangle without fill.
    pub(in crate::package) fn outline(&mut self, at: (f64, f64), width: f64, height: f64) {
        let (x, y) = (pt(at.0), pt(at.1));
        let _ = writeln!(self.source, "place(dx: {x}, dy: {y}, rect(width: {}, height: {}, stroke: 0.9pt))", pt(width), pt(height));
    }

    /// A call of a drawing function with points for arguments, and what follows them.
    pub(in crate::package) fn call(&mut self, function: &str, points: &[f64], rest: &str) {
        let list: Vec<String> = points.iter().map(|p| pt(*p)).collect();
        let _ = writeln!(self.source, "{function}({}{rest})", list.join(", "));
    }

    /// What was drawn.
    pub(in crate::package) fn done(self) -> Markup {
        Markup::ours(self.source)
    }
}

/// How far a curve may pass a point that is left out of it, in points of paper: a fifth of the thinnest line.
const UNSEEN: f64 = 0.08;

/// The points that a line through all of these needs so that nobody sees the others missing.
fn corners(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut kept: Vec<(f64, f64)> = points.first().copied().into_iter().collect();
    let mut from = 0;
    while from + 1 < points.len() {
        let passes = |to: &usize| points[from + 1..*to].iter().all(|point| beside(points[from], points[*to], *point) <= UNSEEN);
        let to = (from + 2..points.len()).take_while(passes).last().unwrap_or(from + 1);
        kept.push(points[to]);
        from = to;
    }
    kept
}

/// How far a point lies from the line that runs from one to another and ends there.
fn beside(from: (f64, f64), to: (f64, f64), point: (f64, f64)) -> f64 {
    let (along, up) = (to.0 - from.0, to.1 - from.1);
    let (x, y) = (point.0 - from.0, point.1 - from.1);
    let part = ((x * along + y * up) / (along * along + up * up).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    let (x, y) = (x - part * along, y - part * up);
    (x * x + y * y).sqrt()
}

/// A text with the feet of load cases' letters set low.
fn worded(text: &str) -> String {
    text.split("L_r").map(literal).collect::<Vec<_>>().join(" + footed(\"L\", \"r\") + ")
}

/// How wide a text of 8 pt is, but for kerning.
pub(in crate::package) fn width_of(text: &str) -> f64 {
    8.0 * pdf::advance(pdf::Face::Text, text)
}

/// Baseline to baseline of small text, as the style sheet has it.
pub(in crate::package) const SMALL_PITCH: f64 = 10.4;

/// How wide the margin beside the text is, as the style sheet has it.
pub(in crate::package) const MARGIN_WIDTH: f64 = 110.0;

/// Lines that a text takes in a column; `size` against text of 8 pt.
pub(in crate::package) fn lines(text: &str, size: f64, column: f64) -> f64 {
    lines_of(&[(text, size)], column)
}

/// The same for a text in parts, each with its size.
pub(in crate::package) fn lines_of(parts: &[(&str, f64)], column: f64) -> f64 {
    let mut lines = 0.0;
    let mut used = f64::INFINITY;
    for (text, size) in parts {
        let space = size * width_of(" ");
        for (i, line) in text.lines().enumerate() {
            if i > 0 {
                used = f64::INFINITY;
            }
            for word in line.split_ascii_whitespace() {
                let wide = size * width_of(word);
                if used + wide > column {
                    lines += 1.0;
                    used = 0.0;
                }
                used += wide + space;
            }
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_line_needs_two_points_and_a_bent_one_stays_near_all_of_its_own() {
        let straight: Vec<(f64, f64)> = (0..=60).map(|i| (f64::from(i), 3.0 - 0.5 * f64::from(i))).collect();
        assert_eq!(corners(&straight), [straight[0], straight[60]]);
        // A parabola over the width of a drawing.
        let bent: Vec<(f64, f64)> = (0..=120).map(|i| (3.0 * f64::from(i), 0.015 * f64::from(i * (120 - i)))).collect();
        let kept = corners(&bent);
        assert!(kept.len() < 50, "{}", kept.len());
        for point in &bent {
            let near = kept.windows(2).filter(|pair| pair[0].0 <= point.0 && point.0 <= pair[1].0);
            assert!(near.map(|pair| beside(pair[0], pair[1], *point)).fold(f64::INFINITY, f64::min) <= UNSEEN);
        }
        assert_eq!(corners(&[(0.0, 0.0), (0.0, 5.0), (0.0, 0.0)]), [(0.0, 0.0), (0.0, 5.0), (0.0, 0.0)]);
        assert!(corners(&[]).is_empty());
    }

    #[test]
    fn words_are_broken_between_them() {
        assert_eq!(lines("", 1.0, 100.0), 0.0);
        assert_eq!(lines("one", 1.0, 100.0), 1.0);
        let wide = width_of("one two ");
        assert_eq!(lines("one two three", 1.0, wide), 2.0);
        assert_eq!(lines("one two three", 1.0, 1.0), 3.0);
    }
}
