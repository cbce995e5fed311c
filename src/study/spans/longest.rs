//! The longest span of a member of one span: where its governing ratio is 1.

use crate::analysis::crossing;
use crate::codes::{Arranged, Asks, Code, Combination, Kind, Prepared, Search, Worst};
use crate::job::model::{Arrival, Job, LoadKind, Member};
use crate::units::Length;

/// A member of one span under loads along its whole length, whose span is sought.
///
/// Kept from one section to the next: what stopped the last one is tried first on the next, and where it stopped is a good guess.
pub struct Line<'a> {
    code: &'a dyn Code,
    job: &'a Job,
    combinations: &'a [Combination],
    member: Member,
    asks: Option<Asks>,
    last: Option<(f64, usize)>,
}

/// A longest span.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Longest {
    /// mm.
    pub length: f64,
    /// The check that stops it.
    pub check: Kind,
}

/// No span is sought beyond this, mm.
const FARTHEST: f64 = 100_000.0;
/// Nor below this.
const NEAREST: f64 = 1.0;
/// A logarithm of a ratio as small as this is nought.
const NOTHING: f64 = 1e-12;
/// A ratio that is no more above 1 than this is 1.
const NEAR: f64 = 1e-10;

impl<'a> Line<'a> {
    /// A member of the job; its own span is the first guess.
    pub fn of(code: &'a dyn Code, job: &'a Job, combinations: &'a [Combination], member: &Member) -> Self {
        Self { code, job, combinations, member: member.clone(), asks: None, last: None }
    }

    /// The member that is looked at: section, material and spacing may be changed from one call to the next, spans, loads and limits not.
    pub fn member(&mut self) -> &mut Member {
        &mut self.member
    }

    /// The span at which the governing ratio is 1; none where no check ever stops it, or the loads do not go along the whole length.
    ///
    /// Ratios are taken to grow with the span. Each is very nearly a power of it, so that a secant between logarithms finds where one of
    /// them is 1 in a few steps; then all are looked at there, and if another is worse it is solved next.
    pub fn longest(&mut self, prepared: &dyn Prepared) -> Option<Longest> {
        if self.member.spans.spans.len() != 1 || !self.goes_along() {
            return None;
        }
        let (mut length, mut ask) = match self.last {
            Some(last) => last,
            None => {
                let length = self.member.spans.length().value();
                let worst = self.look(prepared, length, None)?;
                (length, worst.ask)
            }
        };
        let turns = self.asks.as_ref().map_or(0, Asks::count) + 2;
        for _ in 0..turns {
            length = self.solve(prepared, ask, length)?;
            let worst = self.look(prepared, length, None)?;
            if worst.ratio <= 1.0 + NEAR && worst.ratio >= 1.0 - NEAR {
                self.last = Some((length, worst.ask));
                return Some(Longest { length, check: prepared.resolved().checks[worst.check].kind });
            }
            ask = worst.ask;
        }
        None
    }

    /// Whether every load goes along the whole member, so that it can grow with it.
    fn goes_along(&self) -> bool {
        let whole = self.member.spans.length();
        let overhangs = self.member.spans.has_overhang();
        !overhangs
            && self.member.loads.iter().all(|load| match &load.kind {
                LoadKind::Area { from, to, .. } | LoadKind::Line { from, to, .. } => from.is_zero() && to.at_least(whole),
                _ => false,
            })
    }

    /// Gives the member a span, and its loads the same length.
    fn stretch(&mut self, length: f64) {
        let length = Length::new(length);
        self.member.spans.spans[0].value = length;
        for load in &mut self.member.loads {
            match &mut load.kind {
                LoadKind::Area { to, .. } | LoadKind::Line { to, .. } => *to = length,
                LoadKind::Reaction { arrives: Arrival::Every { to, .. }, .. } => *to = length,
                _ => {}
            }
        }
    }

    /// The worst of one ask, or of all, at a span.
    fn look(&mut self, prepared: &dyn Prepared, length: f64, ask: Option<usize>) -> Option<Worst> {
        self.stretch(length);
        let arranged = Arranged::quiet(self.code, self.job, &self.member, prepared, &[]).ok()?;
        let search = Search { code: self.code, job: self.job, member: &self.member, prepared, arranged: &arranged };
        let asks = self.asks.get_or_insert_with(|| Asks::of(&search, self.combinations));
        match ask {
            Some(ask) => Some(asks.ratio(&search, ask, None)),
            None => asks.worst(&search),
        }
    }

    /// The span at which one ask is 1, from a guess on.
    fn solve(&mut self, prepared: &dyn Prepared, ask: usize, guess: f64) -> Option<f64> {
        let mut at = |x: f64| self.look(prepared, libm::exp(x), Some(ask)).map_or(f64::NAN, |worst| libm::log(worst.ratio));
        let (least, most) = (libm::log(NEAREST), libm::log(FARTHEST));
        let mut before = (libm::log(guess), 0.0);
        before.1 = at(before.0);
        // A moment grows with the square of the span.
        let mut x = before.0 - 0.5 * before.1;
        for _ in 0..8 {
            if before.1.abs() <= NOTHING {
                return Some(libm::exp(before.0));
            }
            if !(least..=most).contains(&x) {
                break;
            }
            let here = (x, at(x));
            let slope = (here.1 - before.1) / (here.0 - before.0);
            if slope.is_nan() || slope <= 0.0 {
                break;
            }
            (x, before) = (here.0 - here.1 / slope, here);
        }
        // A ratio that jumps: bracket it.
        let (low, high) = ((least, at(least)), (most, at(most)));
        let found = low.1 <= 0.0 && (high.1 > 0.0 || high.1.is_nan());
        found.then(|| libm::exp(crossing(low, high, at)))
    }
}
