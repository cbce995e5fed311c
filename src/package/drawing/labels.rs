//! Where a label stands: off every curve, every other label and the support lines.

use super::canvas::{Anchor, Canvas, width_of};

/// Height of a capital at 8 pt, and the white kept round it.
const TALL: f64 = 5.6;
const AIR: f64 = 1.4;

/// A rectangle: left, top, right, bottom.
#[derive(Clone, Copy, Debug)]
struct Area(f64, f64, f64, f64);

impl Area {
    fn overlap(self, other: Self) -> f64 {
        let width = (self.2.min(other.2) - self.0.max(other.0)).max(0.0);
        let height = (self.3.min(other.3) - self.1.max(other.1)).max(0.0);
        width * height
    }

    /// The length of a line inside, at least 1 where it is touched at all.
    fn crossed(self, a: (f64, f64), b: (f64, f64)) -> f64 {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        // The part of the line on the inner side of each edge in turn.
        for (along, room) in [(-dx, a.0 - self.0), (dx, self.2 - a.0), (-dy, a.1 - self.1), (dy, self.3 - a.1)] {
            if along == 0.0 && room < 0.0 {
                return 0.0;
            }
            if along < 0.0 {
                from = from.max(room / along);
            } else if along > 0.0 {
                to = to.min(room / along);
            }
        }
        if from >= to { 0.0 } else { ((to - from) * (dx * dx + dy * dy).sqrt()).max(1.0) }
    }
}

/// What labels have to keep off, and the labels placed so far.
#[derive(Debug, Default)]
pub(super) struct Crowd {
    curves: Vec<Vec<(f64, f64)>>,
    /// Lines that a label may cross if it must (support lines, axes).
    faint: Vec<((f64, f64), (f64, f64))>,
    taken: Vec<Area>,
    /// Left and right end of the room.
    room: (f64, f64),
    /// Whether a curve between a point and its label would mislead.
    pub(super) close: bool,
}

impl Crowd {
    /// A crowd between two verticals.
    pub(super) fn between(left: f64, right: f64) -> Self {
        Self { room: (left, right), ..Self::default() }
    }

    /// A curve that no label may touch.
    pub(super) fn curve(&mut self, points: &[(f64, f64)]) {
        self.curves.push(points.to_vec());
    }

    /// A line that a label may stand on, with white under it.
    pub(super) fn faint(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.faint.push((from, to));
    }

    /// Lowest and highest edge of all labels placed so far.
    pub(super) fn extent(&self) -> Option<(f64, f64)> {
        let top = self.taken.iter().map(|a| a.1).reduce(f64::min)?;
        let bottom = self.taken.iter().map(|a| a.3).reduce(f64::max)?;
        Some((top, bottom))
    }

    /// Whether a curve other than its own lies between a point and its label.
    fn strays(&self, at: (f64, f64), label: (f64, f64)) -> bool {
        let far = ((label.0 - at.0), (label.1 - at.1));
        let long = (far.0 * far.0 + far.1 * far.1).sqrt().max(1e-6);
        // A little way off the point, or its own curve would count.
        let from = (at.0 + far.0 / long * 2.5, at.1 + far.1 / long * 2.5);
        self.curves.iter().flat_map(|c| c.windows(2)).any(|w| cross(from, label, w[0], w[1]))
    }

    fn cost(&self, area: Area) -> f64 {
        let labels: f64 = self.taken.iter().map(|other| area.overlap(*other)).sum();
        let curves: f64 = self.curves.iter().flat_map(|c| c.windows(2)).map(|w| area.crossed(w[0], w[1])).sum();
        let faint: f64 = self.faint.iter().map(|(a, b)| area.crossed(*a, *b)).sum();
        let outside = (self.room.0 - area.0).max(0.0) + (area.2 - self.room.1).max(0.0);
        labels * 20.0 + curves * 12.0 + faint * 0.8 + outside * 30.0
    }

    /// Places one of the texts (the first that can stand clear, else the last) beside a point; `up` is the side looked at first.
    ///
    /// The order of places: the outer side of the curve, the inner side, left and right of the point, further away.
    pub(super) fn place(&mut self, canvas: &mut Canvas, at: (f64, f64), texts: &[String], up: bool) {
        let mut best: Option<(f64, Area, usize)> = None;
        for (i, text) in texts.iter().enumerate() {
            let wide = width_of(text);
            for (n, (dx, dy)) in offsets(wide, up).into_iter().enumerate() {
                // How far a place is from the first choice; none can cost less.
                let far = n as f64 * 0.9 + i as f64 * 9.0;
                if best.as_ref().is_some_and(|(least, ..)| *least <= far) {
                    break;
                }
                let (x, y) = (at.0 + dx, at.1 + dy);
                let area = Area(x - wide / 2.0 - AIR, y - TALL / 2.0 - AIR, x + wide / 2.0 + AIR, y + TALL / 2.0 + AIR);
                let stray = if self.close && self.strays(at, (x, y)) { 400.0 } else { 0.0 };
                let cost = self.cost(area) + stray + far;
                if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
                    best = Some((cost, area, i));
                }
            }
        }
        if let Some((_, area, i)) = best {
            canvas.text(((area.0 + area.2) / 2.0, (area.1 + area.3) / 2.0), &texts[i], Anchor::Centre, true);
            self.taken.push(area);
        }
    }
}

/// Whether two lines cross.
fn cross(a: (f64, f64), b: (f64, f64), c: (f64, f64), d: (f64, f64)) -> bool {
    let side = |p: (f64, f64), q: (f64, f64), r: (f64, f64)| (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Centres to try, best first.
fn offsets(wide: f64, up: bool) -> Vec<(f64, f64)> {
    let side = wide / 2.0 + 5.0;
    let s = if up { -1.0 } else { 1.0 };
    let mut tried = vec![
        (0.0, 7.5 * s),
        (side, 4.5 * s),
        (-side, 4.5 * s),
        (side, 0.0),
        (-side, 0.0),
        (0.0, -7.5 * s),
        (side, -4.5 * s),
        (-side, -4.5 * s),
    ];
    for far in [11.0, 15.0, 20.0] {
        tried.extend([(0.0, far * s), (side, far * s), (-side, far * s), (0.0, -far * s), (side, -far * s), (-side, -far * s)]);
    }
    tried
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_measured_inside_an_area() {
        let area = Area(0.0, 0.0, 10.0, 4.0);
        assert_eq!(area.crossed((-5.0, 2.0), (15.0, 2.0)), 10.0);
        assert_eq!(area.crossed((5.0, -9.0), (5.0, 9.0)), 4.0);
        assert_eq!(area.crossed((-5.0, 5.0), (15.0, 5.0)), 0.0);
        assert_eq!(area.crossed((2.0, 2.0), (5.0, 2.0)), 3.0);
    }

    #[test]
    fn labels_at_one_place_do_not_overlap() {
        let mut crowd = Crowd::between(0.0, 400.0);
        let mut canvas = Canvas::default();
        for _ in 0..4 {
            crowd.place(&mut canvas, (200.0, 50.0), &["1579".to_owned()], true);
        }
        let taken = crowd.taken;
        assert!((0..4).all(|i| (0..i).all(|j| taken[i].overlap(taken[j]) < 1e-9)));
    }
}
