//! How a sheet is set: open or close steps, the size of its figure, slight checks in one line, where its pages turn.
//!
//! A sheet is first set in the form that fits best by the heights that [`super::height`] estimates. Once it is laid out, the heights of
//! what stands on one page are known, and the choice is made again; it is settled when it stays the same.
//!
//! Checks stay whole where that costs no page; else a long one goes on overleaf, its head with its first lines, its ratio with its last.

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
    /// Long checks go on overleaf where a page ends.
    pub(in crate::package) flows: bool,
    /// Where a page is turned on purpose.
    pub(in crate::package) turn: Turn,
}

/// Where a page is turned on purpose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub(in crate::package) enum Turn {
    /// Nowhere.
    Nowhere,
    /// Before the account of factors.
    Account,
    /// Before a check; they count from 0.
    Check(usize),
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
    /// The account with what stands about it, with open steps; the steps in it.
    pub(in crate::package) account: (f64, usize),
    /// Each check whole and, where it may be, in one line; with open steps.
    pub(in crate::package) checks: Vec<[Pieces; 2]>,
    pub(in crate::package) tail: f64,
    /// Height of the text on a page.
    pub(in crate::package) page: f64,
    pub(in crate::package) found: BTreeMap<(Part, Form), f64>,
    /// Pages turned, and what was used of the last, in the forms in which the sheet was laid out.
    pub(in crate::package) taken: BTreeMap<Form, (usize, f64)>,
}

/// A check in pieces between which a page may turn: their heights with open steps, and the steps in each.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::package) struct Pieces(pub(in crate::package) Vec<(f64, usize)>);

impl Pieces {
    /// How tall they are together.
    fn height(&self, close: bool) -> f64 {
        self.each(close).sum()
    }

    /// How tall each is.
    fn each(&self, close: bool) -> impl Iterator<Item = f64> {
        self.0.iter().map(move |(height, steps)| height - if close { SAVED * *steps as f64 } else { 0.0 })
    }

    /// Whether it is long enough to go on overleaf.
    pub(in crate::package) fn is_long(&self) -> bool {
        self.0.len() >= LONG
    }

    /// Whether a page of its own would hardly hold it.
    pub(in crate::package) fn is_too_tall(&self, page: f64) -> bool {
        self.is_long() && self.height(false) > TOO_TALL * page
    }

    /// The steps in the last of them.
    pub(in crate::package) fn in_last(&self) -> usize {
        self.0.last().map_or(0, |(_, steps)| *steps)
    }
}

/// Pieces of a check that may go on overleaf; a shorter one stays together.
const LONG: usize = 4;
/// Estimates of what fills a page are right to so many points.
const NARROW: f64 = 4.0;
/// White between two parts, which the height of the upper one holds; at the foot of a page it needs no room.
const BETWEEN: f64 = 7.5;
/// Where a check breaks is known to a few points; so much is kept free for it.
const UNSURE: f64 = 8.0;
/// A check that takes more of a page than this goes on overleaf in every form.
const TOO_TALL: f64 = 0.85;
/// What close steps save at each, as the style sheet has it.
const SAVED: f64 = 1.5;
/// White at the foot of a page that nobody minds.
const WHITE: f64 = 60.0;

/// What a form makes of a sheet, in points of white that it is worth.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Cost(f64);

impl Form {
    /// The form that a sheet has where nothing speaks against it.
    pub(in crate::package) const USUAL: Self = Self { close: false, size: Size::Medium, short: false, flows: false, turn: Turn::Nowhere };

    /// All forms of a sheet with so many checks, those liked best first.
    fn all(checks: usize) -> impl Iterator<Item = Self> {
        let turns = move || [Turn::Nowhere].into_iter().chain((0..checks).map(Turn::Check)).chain([Turn::Account]);
        let habits = [false, true].into_iter().flat_map(|flows| {
            [false, true].into_iter().flat_map(move |short| [false, true].map(move |close| Self { close, short, flows, ..Self::USUAL }))
        });
        [Size::Medium, Size::Tall, Size::Low]
            .into_iter()
            .flat_map(move |size| habits.clone().flat_map(move |form| turns().map(move |turn| Self { size, turn, ..form })))
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

/// What a page costs, and a difference that only a page makes.
const PAGE: f64 = 1000.0;
const SAVES_A_PAGE: f64 = 0.7 * PAGE;
/// What another layout must save, in points of white: a page, or a last page that is nearly empty.
const WORTH: f64 = 120.0;
/// What a check that goes on overleaf is disliked, in points of white.
const BROKEN: f64 = 40.0;

/// Pages while they fill.
#[derive(Default)]
struct Filling {
    turned: usize,
    used: f64,
    white: f64,
    broken: usize,
}

impl Filling {
    fn turn(&mut self, page: f64) {
        self.white += (page - self.used - WHITE).max(0.0);
        self.turned += 1;
        self.used = 0.0;
    }

    /// Whether a part surely has room on this page.
    fn has_room(&self, height: f64, page: f64) -> bool {
        self.used + height - BETWEEN + NARROW <= page
    }

    /// Sets what stays together, on the next page where this one has no room; whether a page was turned for it.
    fn set(&mut self, height: f64, page: f64) -> bool {
        let turns = self.used > 0.0 && !self.has_room(height, page);
        if turns {
            // It may fit after all, and then what follows stands alone; a page turned on purpose is sure.
            self.white += if self.has_room(height - 2.0 * NARROW, page) { NARROW } else { 0.0 };
            self.turn(page);
        }
        self.used += height;
        while self.used - BETWEEN > page {
            self.turned += 1;
            self.used -= page;
        }
        turns
    }
}

impl Heights {
    /// The height of a part in a form: as found, else as estimated.
    fn of(&self, part: Part, form: Form) -> f64 {
        if let Some(found) = self.found.get(&(part, self.alike(part, form))) {
            return *found;
        }
        match part {
            Part::Front => self.front[form.size as usize],
            Part::Account => self.account.0 - if form.close { SAVED * self.account.1 as f64 } else { 0.0 },
            Part::Tail => self.tail,
            Part::Check(i) => self.checks[i][usize::from(form.short)].height(form.close),
        }
    }

    /// The pieces of a check that may be broken in a form.
    fn pieces(&self, part: Part, form: Form) -> Option<&Pieces> {
        let Part::Check(i) = part else { return None };
        let pieces = &self.checks[i][usize::from(form.short)];
        (form.flows && pieces.is_long() || pieces.is_too_tall(self.page)).then_some(pieces)
    }

    /// The form without what makes no difference to a part.
    fn alike(&self, part: Part, form: Form) -> Form {
        match part {
            Part::Front => Form { size: form.size, ..Form::USUAL },
            Part::Check(i) => {
                let [whole, short] = &self.checks[i];
                Form { close: form.close, short: form.short && short != whole, ..Form::USUAL }
            }
            Part::Account => Form { close: form.close, ..Form::USUAL },
            Part::Tail => Form::USUAL,
        }
    }

    /// The parts of a sheet in their order.
    fn parts(&self) -> impl Iterator<Item = Part> + use<> {
        [Part::Front, Part::Account].into_iter().chain((0..self.checks.len()).map(Part::Check)).chain([Part::Tail])
    }

    /// Remembers how far below a part the next one began when it was laid out in a form; the last ends where it ends.
    pub(in crate::package) fn learn(&mut self, part: Part, form: Form, height: f64) {
        let below = if part == Part::Tail { BETWEEN } else { 0.0 };
        self.found.insert((part, self.alike(part, form)), height + below);
    }

    /// Remembers how many pages were turned in a form, and what was used of the last.
    pub(in crate::package) fn took(&mut self, form: Form, turned: usize, used: f64) {
        self.taken.insert(form, (turned, used));
    }

    /// The form that costs least, the one liked best among equals.
    pub(in crate::package) fn best(&self) -> Form {
        self.best_of(Form::all(self.checks.len()))
    }

    /// The same for the last time: of those in which the sheet was laid out, as no surprise is left in them, but where another should
    /// save a page.
    fn best_at_last(&self) -> Form {
        let best = self.best();
        let taken = self.best_of(Form::all(self.checks.len()).filter(|form| self.taken.contains_key(form)));
        if self.cost(best).0 + SAVES_A_PAGE < self.cost(taken).0 { best } else { taken }
    }

    /// The form to go on with after a sheet was laid out in one: another where that is worth a further layout.
    pub(in crate::package) fn after(&self, form: Form, last: bool) -> Form {
        let best = if last { self.best_at_last() } else { self.best() };
        if self.cost(best).0 + WORTH < self.cost(form).0 { best } else { form }
    }

    fn best_of(&self, forms: impl Iterator<Item = Form>) -> Form {
        let mut best = Form::USUAL;
        let mut least = Cost(f64::INFINITY);
        for form in forms {
            let cost = self.cost(form);
            if cost < least {
                (best, least) = (form, cost);
            }
        }
        best
    }

    /// Sets the parts on pages, none broken that fits on one and may not go on overleaf, and weighs what is left white.
    fn cost(&self, form: Form) -> Cost {
        let mut pages = Filling::default();
        let page = self.page;
        for part in self.parts() {
            let height = self.of(part, form);
            let turned = match form.turn {
                Turn::Nowhere => false,
                Turn::Check(i) => part == Part::Check(i),
                Turn::Account => part == Part::Account,
            };
            if pages.used > 0.0 && turned {
                pages.turn(page);
            }
            match self.pieces(part, form) {
                Some(pieces) if !pages.has_room(height, page) => {
                    let scale = height / pieces.height(form.close);
                    for (i, piece) in pieces.each(form.close).enumerate() {
                        let turned = pages.set(scale * piece + if i == 0 { UNSURE } else { 0.0 }, page);
                        if turned && i > 0 {
                            pages.broken += 1;
                            pages.used += UNSURE;
                        }
                    }
                }
                _ => {
                    pages.set(height, page);
                }
            }
        }
        if let Some((turned, used)) = self.taken.get(&form) {
            (pages.turned, pages.used) = (*turned, *used);
        }
        let last = if pages.turned > 0 { (page / 3.0 - pages.used).max(0.0) } else { 0.0 };
        let dislike = form.dislike(pages.turned + 1) + BROKEN * pages.broken as f64;
        Cost(PAGE * pages.turned as f64 + 0.4 * pages.white + last + dislike)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heights(front: f64, account: f64, checks: &[f64]) -> Heights {
        let whole = |c: f64| Pieces(vec![(c / 3.0, 1), (c / 3.0, 1), (c / 3.0, 2)]);
        let checks = checks.iter().map(|c| [whole(*c), Pieces(vec![(c.min(30.0), 0)])]).collect();
        Heights { front: [front - 20.0, front, front + 50.0], account: (account, 0), checks, tail: 40.0, page: 678.0, ..Heights::default() }
    }

    #[test]
    fn what_fits_one_page_takes_one() {
        let form = heights(240.0, 150.0, &[120.0, 60.0]).best();
        assert_eq!(form, Form::USUAL);
        // A little too much: steps move together before checks are cut short, and those before a second page.
        assert!(heights(240.0, 150.0, &[150.0, 103.0]).best().close);
        assert!(heights(240.0, 150.0, &[150.0, 150.0]).best().short);
    }

    #[test]
    fn two_pages_take_the_tall_figure_and_no_page_is_nearly_empty() {
        let mut heights = heights(260.0, 160.0, &[300.0, 150.0, 120.0]);
        // None of them is slight.
        for check in &mut heights.checks {
            check[1] = check[0].clone();
        }
        let form = heights.best();
        assert_eq!((form.size, form.short), (Size::Tall, false));
        assert!(heights.cost(form) < Cost(1100.0));
    }

    #[test]
    fn a_long_check_goes_on_overleaf_where_that_saves_a_page() {
        let mut heights = heights(400.0, 200.0, &[]);
        heights.tail = 0.0;
        let pieces = |count: usize| Pieces(vec![(60.0, 0); count]);
        // It fills the second page: whole.
        heights.checks = vec![[pieces(9), pieces(9)]];
        assert!(!heights.best().flows);
        // With what follows it does not fit there.
        heights.checks.push([pieces(3), pieces(3)]);
        let form = heights.best();
        assert!(form.flows && heights.cost(form) < Cost(1300.0), "{form:?}");
    }

    #[test]
    fn what_was_found_counts_for_more_than_what_was_guessed() {
        let mut heights = heights(240.0, 150.0, &[120.0, 60.0]);
        let form = heights.best();
        heights.learn(Part::Account, form, 900.0);
        assert!(heights.cost(form) > Cost(1000.0));
    }

    #[test]
    fn pages_that_were_turned_count_for_more_than_those_that_should_be() {
        let mut heights = heights(240.0, 150.0, &[120.0, 60.0]);
        let form = heights.best();
        heights.took(form, 1, 30.0);
        assert!(heights.cost(form) > Cost(1000.0));
        let other = heights.best();
        assert!(other != form && heights.best_at_last() == other, "it should save a page");
        // What was to save it did not: the better one of those that were tried.
        for tried in Form::all(2) {
            heights.took(tried, 1, if tried == form { 300.0 } else { 30.0 });
        }
        assert_eq!(heights.best_at_last(), form);
    }
}
