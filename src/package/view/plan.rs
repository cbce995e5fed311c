//! How a sheet is set: open or close steps, the size of its figure, slight checks in one line, where its pages turn.
//!
//! A sheet is first set in the form that fits best by the heights that [`super::height`] estimates. Once it is laid out, the heights of
//! what stands on one page are known, and the choice is made again; it is settled when it stays the same.

use crate::package::drawing::Size;
use serde::Serialize;
use std::collections::BTreeMap;

/// How a sheet is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub(in crate::package) struct Form {
    /// Little room between steps.
    pub(in crate::package) close: bool,
    /// How tall its diagrams are.
    pub(in crate::package) size: Size,
    /// Slight checks take one line.
    pub(in crate::package) short: bool,
    /// Where a page is turned on purpose.
    pub(in crate::package) turn: Turn,
}

/// Where a page is turned on purpose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub(in crate::package) enum Turn {
    /// Nowhere.
    Nowhere,
    /// Before the checks.
    Checks,
    /// Before the account of factors.
    Account,
}

/// A part of a sheet; its checks count from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::package) enum Part {
    /// Head, finding and figure.
    Front,
    /// Section, account of factors, reactions handed down.
    Account,
    /// A check.
    Check(usize),
    /// Notes.
    Tail,
}

/// Heights of parts in points: as estimated for every form, and as found where they were laid out.
#[derive(Clone, Debug, Default)]
pub(in crate::package) struct Heights {
    /// Head, finding, and the figure in each size.
    pub(in crate::package) front: [f64; 3],
    pub(in crate::package) account: f64,
    /// Each check whole and, where it may be, in one line; with open steps; its steps in both.
    pub(in crate::package) checks: Vec<[(f64, usize); 2]>,
    pub(in crate::package) tail: f64,
    /// Height of the text on a page.
    pub(in crate::package) page: f64,
    pub(in crate::package) found: BTreeMap<(Part, Form), f64>,
}

/// What close steps save at each, as the style sheet has it.
const SAVED: f64 = 1.5;
/// White at the foot of a page that nobody minds.
const WHITE: f64 = 60.0;

/// What a form makes of a sheet, in points of white that it is worth.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Cost(f64);

impl Form {
    /// All forms, those liked best first.
    fn all() -> impl Iterator<Item = Self> {
        let turns = [Turn::Nowhere, Turn::Checks, Turn::Account];
        let each = move |size| {
            [false, true].map(move |short| [false, true].map(move |close| turns.map(move |turn| Self { close, size, short, turn })))
        };
        [Size::Medium, Size::Tall, Size::Low].into_iter().flat_map(each).flatten().flatten()
    }

    /// What is given up by it, the same on every sheet.
    fn dislike(self, pages: usize) -> f64 {
        let figure = match self.size {
            Size::Low => 12.0,
            Size::Medium if pages > 1 => 8.0,
            Size::Medium | Size::Tall => 0.0,
        };
        figure + if self.close { 5.0 } else { 0.0 } + if self.short { 25.0 } else { 0.0 }
    }
}

impl Heights {
    /// The height of a part in a form: as found, else as estimated.
    fn of(&self, part: Part, form: Form) -> f64 {
        if let Some(found) = self.found.get(&(part, alike(part, form))) {
            return *found;
        }
        match part {
            Part::Front => self.front[form.size as usize],
            Part::Account => self.account,
            Part::Tail => self.tail,
            Part::Check(i) => {
                let (height, steps) = self.checks[i][usize::from(form.short)];
                height - if form.close { SAVED * steps as f64 } else { 0.0 }
            }
        }
    }

    /// The parts of a sheet in their order.
    fn parts(&self) -> impl Iterator<Item = Part> + use<> {
        [Part::Front, Part::Account].into_iter().chain((0..self.checks.len()).map(Part::Check)).chain([Part::Tail])
    }

    /// Remembers how tall a part was when it was laid out in a form.
    pub(in crate::package) fn learn(&mut self, part: Part, form: Form, height: f64) {
        self.found.insert((part, alike(part, form)), height);
    }

    /// The form that costs least, the one liked best among equals.
    pub(in crate::package) fn best(&self) -> Form {
        let mut best = Form { close: false, size: Size::Medium, short: false, turn: Turn::Nowhere };
        let mut least = Cost(f64::INFINITY);
        for form in Form::all() {
            let cost = self.cost(form);
            if cost < least {
                (best, least) = (form, cost);
            }
        }
        best
    }

    /// Sets the parts on pages, none broken that fits on one, and weighs what is left white.
    fn cost(&self, form: Form) -> Cost {
        let (mut pages, mut used, mut white) = (1_usize, 0.0, 0.0);
        for part in self.parts() {
            let height = self.of(part, form);
            let turned = match form.turn {
                Turn::Nowhere => false,
                Turn::Checks => part == Part::Check(0),
                Turn::Account => part == Part::Account,
            };
            if used > 0.0 && (turned || used + height > self.page) {
                white += (self.page - used - WHITE).max(0.0);
                pages += 1;
                used = 0.0;
            }
            used += height;
            while used > self.page {
                pages += 1;
                used -= self.page;
            }
        }
        let last = if pages > 1 { (self.page / 3.0 - used).max(0.0) } else { 0.0 };
        Cost(1000.0 * (pages - 1) as f64 + 0.4 * white + last + form.dislike(pages))
    }
}

/// The form without what makes no difference to a part.
fn alike(part: Part, form: Form) -> Form {
    let plain = Form { close: false, size: Size::Medium, short: false, turn: Turn::Nowhere };
    match part {
        Part::Front => Form { size: form.size, ..plain },
        Part::Check(_) => Form { close: form.close, short: form.short, ..plain },
        Part::Account | Part::Tail => plain,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heights(front: f64, account: f64, checks: &[f64]) -> Heights {
        let checks = checks.iter().map(|c| [(*c, 4), (c.min(30.0), 0)]).collect();
        Heights { front: [front - 20.0, front, front + 50.0], account, checks, tail: 40.0, page: 678.0, ..Heights::default() }
    }

    #[test]
    fn what_fits_one_page_takes_one() {
        let form = heights(240.0, 150.0, &[120.0, 60.0]).best();
        assert_eq!(form, Form { close: false, size: Size::Medium, short: false, turn: Turn::Nowhere });
        // A little too much: steps move together before checks are cut short, and those before a second page.
        assert!(heights(240.0, 150.0, &[150.0, 103.0]).best().close);
        assert!(heights(240.0, 150.0, &[150.0, 150.0]).best().short);
    }

    #[test]
    fn two_pages_take_the_tall_figure_and_no_page_is_nearly_empty() {
        let mut heights = heights(260.0, 160.0, &[300.0, 150.0, 120.0]);
        // None of them is slight.
        for check in &mut heights.checks {
            check[1] = check[0];
        }
        let form = heights.best();
        assert_eq!((form.size, form.short), (Size::Tall, false));
        assert!(heights.cost(form) < Cost(1100.0));
    }

    #[test]
    fn what_was_found_counts_for_more_than_what_was_guessed() {
        let mut heights = heights(240.0, 150.0, &[120.0, 60.0]);
        let form = heights.best();
        heights.learn(Part::Account, form, 900.0);
        assert!(heights.cost(form) > Cost(1000.0));
    }
}
