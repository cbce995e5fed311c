//! From loads to diagrams: each span as if cut free, then the slopes at the supports that join the spans again.

use super::beam::turning;
use crate::analysis::{Beam, Diagram, Load, Piece, Polynomial, SAME_PLACE};
use std::ops::Range;

impl Beam {
    /// The diagram of one set of loads.
    ///
    /// # Panics
    /// If the beam does not carry a load; see [`Beam::carries`].
    pub fn solve(&self, loads: &[Load]) -> Diagram {
        let grid = Grid::of(self, loads);
        self.solve_on(&grid, loads)
    }

    /// The diagrams of several sets of loads, such as load cases, all with the same breaks, so that they can be combined.
    ///
    /// # Panics
    /// If the beam does not carry a load; see [`Beam::carries`].
    pub fn solve_all(&self, cases: &[Vec<Load>]) -> Vec<Diagram> {
        let grid = Grid::of(self, cases.iter().flatten());
        cases.iter().map(|loads| self.solve_on(&grid, loads)).collect()
    }

    fn solve_on(&self, grid: &Grid, loads: &[Load]) -> Diagram {
        let applied = Applied::of(grid, loads, self.shear);
        let held: Vec<usize> = self.supports.iter().map(|s| grid.nearest(s.at)).collect();
        let (Some(&first), Some(&last), end) = (held.first(), held.last(), grid.0.len() - 1) else { return Diagram::default() };

        let left = applied.left_overhang(grid, first);
        let right = applied.right_overhang(grid, last);
        let spans: Vec<Span> = held.windows(2).map(|pair| applied.span(grid, pair[0]..pair[1])).collect();

        let mut moments: Vec<f64> = held.iter().map(|&i| applied.moments[i]).collect();
        moments[0] += left.end.moment;
        moments[held.len() - 1] -= right.moment;
        for (i, span) in spans.iter().enumerate() {
            let (near, far) = turning(span.length, self.shear);
            moments[i] += near * span.slopes.0 + far * span.slopes.1;
            moments[i + 1] += far * span.slopes.0 + near * span.slopes.1;
        }
        let slopes = self.slopes(moments);

        // What acts just left of each support, then what starts just right of it.
        let mut pieces = Vec::with_capacity(end);
        let mut before = applied.walk(grid, 0..first, left.start(grid.0[first], slopes[0]), |piece| pieces.push(piece));
        let mut diagram = Diagram::default();
        for (i, &here) in held.iter().enumerate() {
            let (range, after) = match spans.get(i) {
                Some(span) => (here..held[i + 1], span.start(slopes[i], slopes[i + 1], self.shear)),
                None => (here..end, State { slope: slopes[i], ..right }),
            };
            diagram.reactions.push(after.shear - before.shear + applied.forces[here]);
            let fixing = after.moment - before.moment - applied.moments[here];
            diagram.fixing_moments.push(if self.supports[i].fixed { fixing } else { 0.0 });
            before = applied.walk(grid, range, after, |piece| pieces.push(piece));
        }
        Diagram { pieces, ..diagram }
    }
}

/// The breaks: the ends of the beam, its supports, and every place where a load begins, ends or acts.
struct Grid(Vec<f64>);

impl Grid {
    fn of<'a>(beam: &Beam, loads: impl IntoIterator<Item = &'a Load>) -> Grid {
        let mut firm: Vec<f64> = beam.supports.iter().map(|s| s.at).chain([0.0, beam.length]).collect();
        firm.sort_by(f64::total_cmp);
        firm.dedup();
        let mut places = Vec::new();
        for load in loads {
            assert!(beam.carries(load), "{load:?} is not on a beam {} long", beam.length);
            match *load {
                Load::Line { from, to, .. } => places.extend([from, to]),
                Load::Point { at, .. } | Load::Moment { at, .. } => places.push(at),
            }
        }
        places.sort_by(f64::total_cmp);
        let near = SAME_PLACE * beam.length;
        let firm_grid = Grid(firm);
        places.retain(|&x| (x - firm_grid.0[firm_grid.nearest(x)]).abs() > near);
        places.dedup_by(|b, a| *b - *a <= near);
        let Grid(mut breaks) = firm_grid;
        breaks.extend(places);
        breaks.sort_by(f64::total_cmp);
        Grid(breaks)
    }

    /// The break nearest to a place.
    fn nearest(&self, x: f64) -> usize {
        let above = self.0.partition_point(|&b| b < x).min(self.0.len() - 1);
        if above > 0 && x - self.0[above - 1] < self.0[above] - x { above - 1 } else { above }
    }
}

/// Everything just right of a place.
#[derive(Debug, Clone, Copy, Default)]
struct State {
    shear: f64,
    moment: f64,
    /// Of the cross-section; the axis leans by the shear strain more.
    slope: f64,
    deflection: f64,
}

/// A set of loads on the grid: forces and moments on the breaks, line loads between them.
struct Applied {
    forces: Vec<f64>,
    moments: Vec<f64>,
    lines: Vec<Polynomial>,
    /// EI over the shear stiffness.
    shear: f64,
}

/// An overhang on the left, for a slope and a deflection of 0 at its free end.
struct LeftOverhang {
    free: State,
    end: State,
}

/// A span on its own, simply supported.
struct Span {
    length: f64,
    shear: f64,
    slopes: (f64, f64),
}

impl Applied {
    fn of(grid: &Grid, loads: &[Load], shear: f64) -> Applied {
        let count = grid.0.len();
        let (forces, moments, lines) = (vec![0.0; count], vec![0.0; count], vec![Polynomial::default(); count - 1]);
        let mut applied = Applied { forces, moments, lines, shear };
        for load in loads {
            match *load {
                Load::Point { at, force } => applied.forces[grid.nearest(at)] += force,
                Load::Moment { at, moment } => applied.moments[grid.nearest(at)] += moment,
                Load::Line { from, to, start, end } => {
                    let slope = if to > from { (end - start) / (to - from) } else { 0.0 };
                    for i in grid.nearest(from)..grid.nearest(to) {
                        applied.lines[i].0[0] += start + slope * (grid.0[i] - from);
                        applied.lines[i].0[1] += slope;
                    }
                }
            }
        }
        applied
    }

    /// Integrates four times from left to right, handing out the pieces; answers what holds just left of the end.
    fn walk(&self, grid: &Grid, range: Range<usize>, start: State, mut give: impl FnMut(Piece)) -> State {
        let mut state = start;
        for i in range.clone() {
            if i > range.start {
                state.shear -= self.forces[i];
                state.moment += self.moments[i];
            }
            let (from, to, load) = (grid.0[i], grid.0[i + 1], self.lines[i]);
            let shear = load.negated().integral(state.shear);
            let moment = shear.integral(state.moment);
            let turned = moment.negated().integral(state.slope);
            let slope = turned.plus(self.shear, &shear);
            let deflection = slope.integral(state.deflection);
            let h = to - from;
            state = State { shear: shear.at(h), moment: moment.at(h), slope: turned.at(h), deflection: deflection.at(h) };
            give(Piece { from, to, load, shear, moment, slope, deflection });
        }
        state
    }

    fn left_overhang(&self, grid: &Grid, first: usize) -> LeftOverhang {
        if first == 0 {
            return LeftOverhang { free: State::default(), end: State::default() };
        }
        let free = State { shear: -self.forces[0], moment: self.moments[0], ..State::default() };
        LeftOverhang { free, end: self.walk(grid, 0..first, free, |_| ()) }
    }

    /// What must hold just right of the last support for the free end to be free.
    fn right_overhang(&self, grid: &Grid, last: usize) -> State {
        let end = grid.0.len() - 1;
        if last == end {
            return State::default();
        }
        let tip = self.walk(grid, last..end, State::default(), |_| ());
        let shear = self.forces[end] - tip.shear;
        let moment = -(tip.moment + self.moments[end] + shear * (grid.0[end] - grid.0[last]));
        State { shear, moment, ..State::default() }
    }

    fn span(&self, grid: &Grid, range: Range<usize>) -> Span {
        let length = grid.0[range.end] - grid.0[range.start];
        let end = self.walk(grid, range, State::default(), |_| ());
        let shear = -end.moment / length;
        let left = -end.deflection / length + shear * (length * length / 6.0 - self.shear);
        let right = left + end.slope - shear * length * length / 2.0;
        Span { length, shear, slopes: (left, right) }
    }
}

impl LeftOverhang {
    /// At the free end, when the support at the other end turns by `slope`.
    fn start(&self, length: f64, slope: f64) -> State {
        let slope = slope - self.end.slope;
        State { slope, deflection: -(self.end.deflection + slope * length), ..self.free }
    }
}

impl Span {
    /// Just right of its left support, when its supports turn by `left` and `right`: the end moments make up the difference.
    fn start(&self, left: f64, right: f64, shear: f64) -> State {
        let (a, b) = (left - self.slopes.0, right - self.slopes.1);
        let (near, far) = turning(self.length, shear);
        let moments = (near * a + far * b, -(far * a + near * b));
        State { shear: self.shear + (moments.1 - moments.0) / self.length, moment: moments.0, slope: left, deflection: 0.0 }
    }
}
