//! Sizing: the lightest sections, grades or plies that pass, or the cheapest of a price list.
//!
//! Members are sized down the load path, so that the weight and the reactions of what was chosen above go to what carries it. Every
//! choice lighter than the one taken has been tried and fails; the next one down of the same width is named with the check that it
//! fails in. [`written`] puts the choices into a copy of the job file and leaves everything else as it stands there.

mod choices;
mod edit;

pub use choices::{Choice, Vary};
pub use edit::written;

use crate::codes::{Arranged, Asks, Code, Combination, HandedDown, Kind, Offer, Prepared, Search, Utilization, Verdict, Worst};
use crate::job::model::{Job, Member, Placed, SectionAsked};
use crate::text::{Diagnostic, Faults, Label, Severity};

/// What is asked for.
#[derive(Clone, Debug, Default)]
pub struct Wanted {
    /// Marks of the members to be sized; empty: all.
    pub marks: Vec<String>,
    /// What may be changed of them.
    pub vary: Vary,
    /// Names of sections to choose from; empty: the code's catalogue, or the price list.
    pub among: Vec<String>,
}

/// A member that was sized.
#[derive(Clone, Debug)]
pub struct Sized {
    /// Its index in the job.
    pub member: usize,
    /// What the job file has.
    pub was: Tried,
    /// The lightest, or cheapest, that passes; none where nothing does, or where the member is not checked and there is nothing to choose by.
    pub chosen: Option<Tried>,
    /// The next one down, which fails; none where nothing lighter was there to try.
    pub next_down: Option<Tried>,
    /// How many choices were tried.
    pub tried: usize,
    /// Whether nothing is chosen because a choice that fails in nothing is not checked for all that it is asked.
    pub not_checked: bool,
}

/// A choice, and how it does.
#[derive(Clone, Debug)]
pub struct Tried {
    /// The choice.
    pub choice: Choice,
    /// The section as the code names it.
    pub section: String,
    /// The material as the code names it.
    pub material: String,
    /// Its governing check; none where nothing loads it.
    pub check: Option<Kind>,
    /// Its governing ratio.
    pub ratio: Utilization,
    /// The verdict on it.
    pub verdict: Verdict,
}

/// Sizes a job. `prepared` are its members as they stand in the job file. The answer is in job order, wanted members only.
///
/// # Errors
/// A bug of the program: a member that cannot be solved.
pub fn size(code: &dyn Code, job: &Job, prepared: &[Box<dyn Prepared>], wanted: &Wanted) -> Result<Vec<Sized>, Faults> {
    let combinations = code.combinations(&job.basis);
    // What was chosen above stands in the job that what is below is prepared in.
    let mut job = job.clone();
    let mut handed: Vec<Option<HandedDown>> = vec![None; job.members.len()];
    let mut sized = Vec::new();
    for index in &job.path.clone() {
        let member = job.members[*index].clone();
        let trial = Trial { code, job: &job, combinations: &combinations, handed: &handed };
        let is_wanted = wanted.marks.is_empty() || wanted.marks.contains(&member.mark.value);
        let mut stands = (member.clone(), None);
        if is_wanted {
            let one = trial.size(*index, prepared[*index].as_ref(), wanted)?;
            if let Some(chosen) = &one.chosen {
                let with = chosen.choice.on(&member);
                stands = (with.clone(), code.prepare(&job, &with).ok());
            }
            sized.push(one);
        }
        let (member, new) = stands;
        let prepared = new.as_deref().unwrap_or_else(|| prepared[*index].as_ref());
        let arranged = Arranged::quiet(code, &job, &member, prepared, &handed)?;
        handed[*index] = Some(arranged.handed_down(&job.basis));
        job.members[*index] = member;
    }
    sized.sort_by_key(|one| one.member);
    Ok(sized)
}

/// Sections of the price list that the code's catalogue does not have.
pub fn unknown_prices(code: &dyn Code, job: &Job) -> Faults {
    let Some(prices) = &job.prices else { return Faults::new() };
    let known: Vec<Offer> = job.members.iter().flat_map(|member| code.sections(&job.basis, member)).collect();
    let fault = |section: &Placed<SectionAsked>| {
        let SectionAsked::Named(name) = &section.value else { return None };
        let here = known.iter().any(|offer| choices::is_named(&offer.section, name));
        let message = format!("the catalogue has no section `{name}` for a member of this job");
        let fault = Diagnostic::new("unpriced-section", Severity::Error, message, Label::bare(section.span));
        (!here).then(|| fault.with_help("name a section of `latewood catalogue`, or give its width and depth".to_owned()))
    };
    prices.list.iter().filter_map(|price| fault(&price.section)).collect()
}

/// One member, with what its members above hand down.
struct Trial<'a> {
    code: &'a dyn Code,
    job: &'a Job,
    combinations: &'a [Combination],
    handed: &'a [Option<HandedDown>],
}

impl Trial<'_> {
    fn size(&self, index: usize, prepared: &dyn Prepared, wanted: &Wanted) -> Result<Sized, Faults> {
        let member = &self.job.members[index];
        let was = self.tried(member, prepared, &Choice::of(member, &prepared.resolved().section))?;
        let mut sized = Sized { member: index, was, chosen: None, next_down: None, tried: 0, not_checked: false };
        let (mut asks, mut first): (Option<Asks>, usize) = (None, 0);
        let mut failed: Vec<Choice> = Vec::new();
        for choice in choices::of(self.code, self.job, member, &prepared.resolved().section, wanted) {
            let with = choice.on(member);
            let Ok(prepared) = self.code.prepare(self.job, &with) else { continue };
            let arranged = Arranged::quiet(self.code, self.job, &with, prepared.as_ref(), self.handed)?;
            let search = Search { code: self.code, job: self.job, member: &with, prepared: prepared.as_ref(), arranged: &arranged };
            // What is asked hangs on the material, not on the section.
            if failed.last().is_none_or(|last| last.material != choice.material) {
                asks = None;
            }
            let asks = asks.get_or_insert_with(|| Asks::of(&search, self.combinations));
            sized.tried += 1;
            match asks.failing(&search, first) {
                Some(fails) => {
                    first = fails.ask;
                    failed.push(choice);
                }
                None => {
                    let tried = self.tried(&with, prepared.as_ref(), &choice)?;
                    sized.not_checked = !tried.verdict.passes();
                    sized.chosen = Some(tried).filter(|tried| tried.verdict.passes());
                    break;
                }
            }
        }
        let next = sized.chosen.as_ref().and_then(|chosen| chosen.choice.next_down(&failed));
        let next = next.map(|choice| (choice, choice.on(member)));
        let next = next.and_then(|(choice, with)| Some((choice, self.code.prepare(self.job, &with).ok()?, with)));
        sized.next_down = next.map(|(choice, prepared, with)| self.tried(&with, prepared.as_ref(), choice)).transpose()?;
        Ok(sized)
    }

    fn tried(&self, member: &Member, prepared: &dyn Prepared, choice: &Choice) -> Result<Tried, Faults> {
        let arranged = Arranged::quiet(self.code, self.job, member, prepared, self.handed)?;
        let search = Search { code: self.code, job: self.job, member, prepared, arranged: &arranged };
        let asks = Asks::of(&search, self.combinations);
        let found = asks.worst(&search).map(|worst| (worst, asks.verdict(worst)));
        let (Worst { check, ratio, .. }, verdict) =
            found.unwrap_or((Worst { ask: 0, check: 0, ratio: Utilization::NOTHING }, Verdict::NotChecked));
        Ok(Tried {
            choice: choice.clone(),
            section: prepared.resolved().section.name.clone(),
            material: prepared.resolved().material.name.clone(),
            check: (!ratio.is_nothing()).then(|| prepared.resolved().checks[check].kind),
            ratio,
            verdict,
        })
    }
}
