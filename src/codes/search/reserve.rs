//! Reserve: by how much one load case of a member may grow, the others standing, before its governing ratio is 1.
//!
//! What grows is the case's whole load on this member as it is analysed: its own weight with the dead load, a received reaction as
//! handed down. Everything is linear in it, so that growing a case is multiplying its factors; every ratio is then a convex function of
//! the factor, and of all of them the first that reaches 1 is sought: the one that is nearest is solved alone, all are looked at where
//! it reaches 1, and what is worse there is solved next, until nothing is.

use super::Search;
use super::asks::{Asks, Worst};
use crate::analysis::crossing;
use crate::cores;
use crate::job::model::Case;

/// How far one case may grow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reserved {
    /// The case.
    pub case: Case,
    /// The factor on this case alone with which the governing ratio is 1: below 1 where the member fails as it is, 0 where it fails without
    /// the case too; none: without bound.
    pub factor: Option<f64>,
    /// The check that stops it, a row of the code's list.
    pub check: Option<usize>,
}

/// A factor past which a case is held to grow without bound.
const BOUND: f64 = 1e6;
/// From so many asks on the cases are worth several cores.
const MANY: usize = 1000;
/// A ratio that is no more above 1 than this is 1.
const NEAR: f64 = 1e-11;

/// The reserve of every case that loads a member; `now` is the worst of the first asks as things stand, any others are looked at here.
pub(super) fn of(search: &Search<'_>, asks: &Asks, mut now: Vec<Worst>) -> Vec<Reserved> {
    now.extend((now.len()..asks.count()).map(|ask| asks.ratio(search, ask, None)));
    let grown = |case: &Case| Growth { search, asks, case: *case, now: &now }.reserve();
    let cases = &search.arranged.present;
    if asks.count() < MANY { cases.iter().map(grown).collect() } else { cores::each(cases, grown) }
}

/// One case that grows.
struct Growth<'a> {
    search: &'a Search<'a>,
    asks: &'a Asks,
    case: Case,
    now: &'a [Worst],
}

impl Growth<'_> {
    fn reserve(&self) -> Reserved {
        let found = |factor, check| Reserved { case: self.case, factor, check };
        let (moving, still): (Vec<Worst>, Vec<Worst>) = self.now.iter().partition(|w| self.asks.has(w.ask, self.case));
        if let Some(fails) = worst(still.into_iter()).filter(|w| w.ratio.value() > 1.0 + NEAR) {
            return found(Some(0.0), Some(fails.check));
        }
        let (mut limit, mut stops) = match worst(moving.iter().copied()) {
            Some(fails) if fails.ratio.value() > 1.0 + NEAR => (1.0, fails),
            _ => match self.first_bound(&moving) {
                Some(bound) => bound,
                None => return found(None, None),
            },
        };
        // Asks that may reach 1 before the limit does.
        let mut open: Vec<usize> = moving.iter().map(|w| w.ask).collect();
        // Each turn another ask lowers the limit; there are no more turns than asks.
        for _ in 0..=moving.len() {
            let at_limit: Vec<Worst> = open.iter().map(|ask| self.at(*ask, limit)).collect();
            if let Some(known) = at_limit.iter().find(|w| w.ask == stops.ask) {
                stops = *known;
            }
            let beyond: Vec<Worst> = at_limit.into_iter().filter(|w| w.ratio.value() > 1.0 + NEAR).collect();
            // What is convex and at most 1 both now and at the limit is so all the way between.
            if limit > 1.0 {
                open = beyond.iter().map(|w| w.ask).collect();
            }
            let Some(beyond) = worst(beyond.into_iter()) else { break };
            let from = if limit > 1.0 { 1.0 } else { 0.0 };
            let low = if limit > 1.0 { self.now[beyond.ask] } else { self.at(beyond.ask, 0.0) };
            stops = beyond;
            if low.ratio.value() > 1.0 {
                limit = 0.0;
                break;
            }
            limit = self.solve(beyond.ask, (from, low.ratio.value()), (limit, beyond.ratio.value()));
        }
        found(Some(limit), Some(stops.check))
    }

    /// Where the ask that is nearest to 1 reaches it, if any does.
    fn first_bound(&self, moving: &[Worst]) -> Option<(f64, Worst)> {
        let mut order = moving.to_vec();
        order.sort_by_key(|one| std::cmp::Reverse(one.ratio));
        order.into_iter().find_map(|start| {
            let (mut low, mut by) = ((1.0, start.ratio.value()), 2.0);
            while low.0 < BOUND {
                let next = self.at(start.ask, by);
                let ratio = next.ratio.value();
                if ratio > 1.0 {
                    return Some((self.solve(start.ask, low, (by, ratio)), next));
                }
                // A secant of a convex function falls short of the place: half as far again is past it, or nearly.
                let slope = (ratio - low.1) / (by - low.0);
                let reach = if slope > 0.0 { by + 1.5 * (1.0 - ratio) / slope } else { f64::INFINITY };
                low = (by, ratio);
                by = reach.clamp(1.25 * by, 16.0 * by);
            }
            None
        })
    }

    fn at(&self, ask: usize, by: f64) -> Worst {
        self.asks.ratio(self.search, ask, Some((self.case, by)))
    }

    fn solve(&self, ask: usize, low: (f64, f64), high: (f64, f64)) -> f64 {
        crossing((low.0, low.1 - 1.0), (high.0, high.1 - 1.0), |by| self.at(ask, by).ratio.value() - 1.0)
    }
}

fn worst(of: impl Iterator<Item = Worst>) -> Option<Worst> {
    of.reduce(Worst::or)
}
