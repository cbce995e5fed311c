//! The longest span of a member of one span: where its governing ratio is 1.

use crate::analysis::crossing;
use crate::codes::{Arranged, Asks, Code, Combination, Kind, Prepared, Search, Worst};
use crate::job::model::{Arrival, Job, LoadKind, Member};
use crate::text::Faults;
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

/// How far a member may span.
#[derive(Clone, Debug, PartialEq)]
pub enum Reach {
    /// To a span at which its governing ratio is 1.
    To(Longest),
    /// No check stops it within 100 m.
    NoBound,
    /// It fails however short it is.
    NonePasses,
    /// Nothing can be said, for these reasons.
    NotChecked(Vec<String>),
}

/// Why nothing more is found of one ask.
enum Stop {
    NoBound,
    NonePasses,
}

/// No span is sought beyond this, mm.
const FARTHEST: f64 = 100_000.0;
/// Nor below this.
const NEAREST: f64 = 1.0;
/// A logarithm of a ratio as small as this is nought.
const NOTHING: f64 = 1e-12;
/// A ratio that is no more above 1 than this is 1.
const NEAR: f64 = 1e-10;

/// Why nothing is said of a span.
const NOTHING_APPLIES: &str = "no check applies to its loads";

impl Reach {
    fn not_checked(why: &str) -> Self {
        Self::NotChecked(vec![why.to_owned()])
    }
}

impl<'a> Line<'a> {
    /// A member of the job; its own span is the first guess.
    pub fn of(code: &'a dyn Code, job: &'a Job, combinations: &'a [Combination], member: &Member) -> Self {
        Self { code, job, combinations, member: member.clone(), asks: None, last: None }
    }

    /// The member that is looked at: section, material and spacing may be changed from one call to the next, spans, loads and limits not.
    pub fn member(&mut self) -> &mut Member {
        &mut self.member
    }

    /// The span at which the governing ratio is 1.
    ///
    /// Ratios are taken to grow with the span. Each is very nearly a power of it, so that a secant between logarithms finds where one of
    /// them is 1 in a few steps; then all are looked at there, and if another is worse it is solved next.
    ///
    /// # Errors
    /// A bug of the program: the member cannot be solved.
    pub fn longest(&mut self, prepared: &dyn Prepared) -> Result<Reach, Faults> {
        if self.member.spans.spans.len() != 1 || !self.goes_along() {
            return Ok(Reach::not_checked("not one span under loads along all of it"));
        }
        let (mut length, mut ask) = match self.last {
            Some(last) => last,
            None => {
                let length = self.member.spans.length().value();
                let worst = self.look(prepared, length, None)?;
                if let Some(unmade) = self.asks.as_ref().map(Asks::unmade).filter(|unmade| !unmade.is_empty()) {
                    return Ok(Reach::NotChecked(unmade.to_vec()));
                }
                let Some(worst) = worst else { return Ok(Reach::not_checked(NOTHING_APPLIES)) };
                (length, worst.ask)
            }
        };
        let turns = self.asks.as_ref().map_or(0, Asks::count) + 2;
        for _ in 0..turns {
            length = match self.solve(prepared, ask, length) {
                Ok(length) => length,
                Err(Stop::NonePasses) => return Ok(Reach::NonePasses),
                Err(Stop::NoBound) => FARTHEST,
            };
            let worst = self.look(prepared, length, None)?;
            match worst.filter(|worst| !worst.ratio.is_nothing()) {
                None => return Ok(Reach::not_checked(NOTHING_APPLIES)),
                Some(Worst { ask, check, ratio }) if (ratio.value() - 1.0).abs() <= NEAR => {
                    self.last = Some((length, ask));
                    return Ok(Reach::To(Longest { length, check: prepared.resolved().checks[check].kind }));
                }
                // Nothing stops it there, not even another ask than the one that was solved.
                Some(worst) if length >= FARTHEST && worst.ratio.passes() => return Ok(Reach::NoBound),
                Some(worst) => ask = worst.ask,
            }
        }
        Ok(Reach::not_checked("the search for the longest span does not settle"))
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
    fn look(&mut self, prepared: &dyn Prepared, length: f64, ask: Option<usize>) -> Result<Option<Worst>, Faults> {
        self.stretch(length);
        let arranged = Arranged::quiet(self.code, self.job, &self.member, prepared, &[])?;
        let search = Search { code: self.code, job: self.job, member: &self.member, prepared, arranged: &arranged };
        let asks = self.asks.get_or_insert_with(|| Asks::of(&search, self.combinations));
        Ok(match ask {
            Some(ask) => Some(asks.ratio(&search, ask, None)),
            None => asks.worst(&search),
        })
    }

    /// The span at which one ask is 1, from a guess on.
    fn solve(&mut self, prepared: &dyn Prepared, ask: usize, guess: f64) -> Result<f64, Stop> {
        // A span that cannot be solved is told where all asks are looked at.
        let mut at = |x: f64| {
            let worst = self.look(prepared, libm::exp(x), Some(ask)).ok().flatten();
            worst.map_or(f64::NAN, |worst| libm::log(worst.ratio.value()))
        };
        let (least, most) = (libm::log(NEAREST), libm::log(FARTHEST));
        let mut before = (libm::log(guess), 0.0);
        before.1 = at(before.0);
        // A moment grows with the square of the span.
        let mut x = before.0 - 0.5 * before.1;
        for _ in 0..8 {
            if before.1.abs() <= NOTHING {
                return Ok(libm::exp(before.0));
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
        if low.1 > 0.0 || low.1.is_nan() {
            return Err(Stop::NonePasses);
        }
        if high.1 <= 0.0 {
            return Err(Stop::NoBound);
        }
        Ok(libm::exp(crossing(low, high, at)))
    }
}
