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
    /// So many points thick.
    Thick(f64),
}

impl Stroke {
    fn source(self) -> String {
        match self {
            Self::Hair => "hair".into(),
            Self::Ink => "ink".into(),
            Self::Envelope => "envelope".into(),
            Self::Thick(points) => format!("{points}pt + black"),
        }
    }
}

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
        if points.len() < 2 {
            return;
        }
        let list: String = points.iter().map(|(x, y)| format!("({}, {}), ", pt(*x), pt(*y))).collect();
        let _ = writeln!(self.source, "poly(({list}), stroke: {})", stroke.source());
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
    let space = size * width_of(" ");
    let mut lines = 0.0;
    for part in text.lines() {
        let mut used = f64::INFINITY;
        for word in part.split_whitespace() {
            let wide = size * width_of(word);
            if used + wide > column {
                lines += 1.0;
                used = 0.0;
            }
            used += wide + space;
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_broken_between_them() {
        assert_eq!(lines("", 1.0, 100.0), 0.0);
        assert_eq!(lines("one", 1.0, 100.0), 1.0);
        let wide = width_of("one two ");
        assert_eq!(lines("one two three", 1.0, wide), 2.0);
        assert_eq!(lines("one two three", 1.0, 1.0), 3.0);
    }
}
