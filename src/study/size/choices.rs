//! What may be chosen for a member, lightest or cheapest first.

use super::Wanted;
use crate::codes::{Code, Offer, Section};
use crate::job::model::{Job, MaterialAsked, Member, SectionAsked};
use crate::job::{Price, Prices};
use crate::units::{IN, Length};
use std::cmp::Reverse;

/// What may be changed of a member; the section always.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Vary {
    /// The grade or class, within the species.
    pub grade: bool,
    /// The number of plies, up to three.
    pub plies: bool,
}

/// The most plies that are tried.
const MOST_PLIES: u32 = 3;

/// A section, its plies and its material.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The section, as a job file asks for it.
    pub section: SectionAsked,
    /// Width of one ply, mm.
    pub width: f64,
    /// Depth, mm.
    pub depth: f64,
    /// Plies.
    pub plies: u32,
    /// The material.
    pub material: MaterialAsked,
    /// Price of all plies along one length of the price list; none without such a list.
    pub price: Option<f64>,
}

impl Choice {
    /// What a member has.
    pub(super) fn of(member: &Member, section: &Section) -> Self {
        let plies = member.plies.value;
        Self {
            section: member.section.value.clone(),
            width: section.width / f64::from(plies),
            depth: section.depth,
            plies,
            material: member.material.value.clone(),
            price: None,
        }
    }

    /// The member with this choice.
    pub(super) fn on(&self, member: &Member) -> Member {
        let mut with = member.clone();
        with.section.value = self.section.clone();
        with.plies.value = self.plies;
        with.material.value = self.material.clone();
        with
    }

    /// Area of all plies, mm²: what its weight goes by.
    pub fn area(&self) -> f64 {
        self.width * self.depth * f64::from(self.plies)
    }

    /// Of the choices that fail, in their order, the next one down: the deepest of the same width, plies and material, else the last.
    pub(super) fn next_down<'f>(&self, failed: &'f [Choice]) -> Option<&'f Choice> {
        let alike = |c: &&Choice| (c.width, c.plies) == (self.width, self.plies) && c.material == self.material && c.depth < self.depth;
        failed.iter().filter(alike).max_by(|a, b| a.depth.total_cmp(&b.depth)).or(failed.last())
    }
}

/// Everything that may be chosen for a member: the cheapest first where the job has a price list, else the lightest; of equals the
/// weaker grade, then fewer plies.
pub(super) fn of(code: &dyn Code, job: &Job, member: &Member, section: &Section, wanted: &Wanted) -> Vec<Choice> {
    let own = Choice::of(member, section);
    let offers = match &job.prices {
        Some(prices) => priced(code, job, member, prices),
        None => code.sections(&job.basis, member),
    };
    let named = |offer: &Offer| match &offer.section {
        SectionAsked::Named(name) => wanted.among.is_empty() || wanted.among.iter().any(|a| a.eq_ignore_ascii_case(name)),
        SectionAsked::Size { .. } => wanted.among.is_empty(),
    };
    let materials = if wanted.vary.grade { code.grades(&job.basis, member) } else { vec![own.material.clone()] };
    let plies: Vec<u32> = if wanted.vary.plies { (1..=MOST_PLIES.max(own.plies)).collect() } else { vec![own.plies] };
    let mut choices = Vec::new();
    for offer in offers.into_iter().filter(named) {
        for (rank, material) in materials.iter().enumerate() {
            for plies in &plies {
                let price = job.prices.as_ref().map(|prices| price_of(prices, &offer.section, material));
                // What a price list does not have cannot be bought.
                if price == Some(None) {
                    continue;
                }
                let choice = Choice {
                    section: offer.section.clone(),
                    width: offer.width,
                    depth: offer.depth,
                    plies: *plies,
                    material: material.clone(),
                    price: price.flatten().map(|price| price * f64::from(*plies)),
                };
                choices.push((choice, rank));
            }
        }
    }
    choices.sort_by(|(a, rank_a), (b, rank_b)| {
        let by_price = a.price.unwrap_or(0.0).total_cmp(&b.price.unwrap_or(0.0));
        by_price.then(a.area().total_cmp(&b.area())).then(Reverse(rank_a).cmp(&Reverse(rank_b))).then(a.plies.cmp(&b.plies))
    });
    choices.into_iter().map(|(choice, _)| choice).collect()
}

/// The sections of a price list, each once; a name by the code's catalogue.
fn priced(code: &dyn Code, job: &Job, member: &Member, prices: &Prices) -> Vec<Offer> {
    let catalogue = code.sections(&job.basis, member);
    let mut offers: Vec<Offer> = Vec::new();
    for price in &prices.list {
        let offer = match &price.section.value {
            SectionAsked::Size { width, depth } => {
                Some(Offer { section: price.section.value.clone(), width: width.value(), depth: depth.value() })
            }
            SectionAsked::Named(name) => catalogue.iter().find(|offer| is_named(&offer.section, name)).cloned(),
        };
        offers.extend(offer.filter(|offer| !offers.contains(offer)));
    }
    offers
}

/// The least price of a section in a material.
fn price_of(prices: &Prices, section: &SectionAsked, material: &MaterialAsked) -> Option<f64> {
    let (species, grade) = match material {
        MaterialAsked::Graded { species, grade } => (Some(&species.value), &grade.value),
        MaterialAsked::Class(word) => (None, &word.value),
        MaterialAsked::Combination { name, species } => (species.as_ref().map(|s| &s.value), &name.value),
        MaterialAsked::Custom { name, .. } => (None, name),
    };
    let fits = |price: &&Price| {
        let section_fits = match (&price.section.value, section) {
            (SectionAsked::Named(name), other) => is_named(other, name),
            (size, other) => size == other,
        };
        let same = |asked: &Option<String>, has: Option<&String>| {
            asked.as_ref().is_none_or(|asked| has.is_some_and(|has| plain(asked) == plain(has)))
        };
        section_fits && same(&price.species, species) && same(&price.grade, Some(grade))
    };
    prices.list.iter().filter(fits).map(|p| p.price).min_by(f64::total_cmp)
}

/// Whether a section has a name; blanks and letters' case do not count.
pub(super) fn is_named(section: &SectionAsked, name: &str) -> bool {
    matches!(section, SectionAsked::Named(known) if plain(known) == plain(name))
}

fn plain(text: &str) -> String {
    text.to_lowercase().replace([' ', '×'], "")
}

/// A section as a job file writes it.
pub(super) fn in_words(section: &SectionAsked) -> String {
    let length = |l: Length| {
        let sixteenths = IN.number(l.value()) * 16.0;
        if (sixteenths - libm::round(sixteenths)).abs() < 1e-6 { format!("{} in", sixteenths / 16.0) } else { format!("{} mm", l.value()) }
    };
    match section {
        SectionAsked::Named(name) => name.clone(),
        SectionAsked::Size { width, depth } => format!("{{width: {}, depth: {}}}", length(*width), length(*depth)),
    }
}
