//! Is a package what it was when it was issued, and does it come out the same today?
//!
//! Three things are asked of it. Its **digest**: is any byte other than when it was written. Its **members**: is each result what this
//! program computes from the job file that the package carries. Its **pages**: the same version of the program issues it again and
//! compares every byte. A stamp is taken off first: what lies under it is judged, and the build of the program that drew the stamp draws it
//! again and compares that too. What something else appended is judged object by object: signatures leave the package as it was. Other bytes mean an alteration only where the same build wrote them; another build of the same version may
//! draw otherwise, and the digest stands for its package.

use super::change::{self, Former};
use super::difference::{Difference, differences};
use crate::package::{BUILD, Build, Carried, Issue};
use crate::pdf::{self, Appended, Press, Stamp, Standing, Unreadable};
use crate::results::{JobInShort, Program, Results, upgraded};
use crate::text::Source;
use serde_json::Value;

/// Why a file cannot be rechecked at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// It is not a package of this program.
    Foreign,
    /// It is, and carries nothing to recompute it from: a submittal. Its digest may still say whether it was altered, and what was
    /// appended to it is judged.
    CarriesNothing(Standing, Vec<Appended>),
    /// It cannot be read, or is of a form that this program does not know.
    Unreadable(Unreadable),
}

/// How the pages compare with those that are issued today.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pages {
    /// Every byte is the same.
    Same,
    /// They are not, though this very build wrote them: somebody altered them and the digest.
    Differ {
        /// The first byte that is other.
        at: usize,
    },
    /// Another build of the same version made them, and this one draws other bytes.
    OtherBuild {
        /// Its name; empty where it does not say.
        build: String,
        /// The first byte that is other.
        at: usize,
    },
    /// Another version of the program made them: they are not compared.
    OtherVersion,
    /// The job file that it carries is refused today, or the pages cannot be made from it.
    NotIssued(String),
    /// What it carries cannot be read, because it was altered.
    NotRead(Unreadable),
}

/// A member, then and now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// Its mark.
    pub mark: String,
    /// Where its results differ; empty: nowhere.
    pub differences: Vec<Difference>,
}

/// A stamp over a package.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Over {
    /// What it says.
    pub stamp: Stamp,
    /// Whether it is, byte for byte, what this build draws; true of a stamp of another build, whose digest stands for it.
    pub genuine: bool,
}

/// What was found of one package.
#[derive(Clone, Debug, PartialEq)]
pub struct Recheck {
    /// What its digest says of the whole file.
    pub standing: Standing,
    /// Stamps over it, the last first.
    pub stamps: Vec<Over>,
    /// What something else appended, under a stamp or over all: signatures, a remark of a reader; the last first.
    pub appended: Vec<Appended>,
    /// How long the package itself is.
    pub bytes: usize,
    /// The program that issued it; none where that cannot be read.
    pub program: Option<Program>,
    /// The job; none where that cannot be read.
    pub job: Option<JobInShort>,
    /// Its pages.
    pub pages: Pages,
    /// Its members, in the order of the package.
    pub members: Vec<Compared>,
    /// Where its results differ outside the members.
    pub elsewhere: Vec<Difference>,
}

/// The answer in one word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It is what it was, and comes out the same today; stamps and signatures may lie over it.
    Same,
    /// It is what it was, and something comes out otherwise today, or something was appended to it that is no signature.
    Differs,
    /// It is not what it was.
    Altered,
}

impl Recheck {
    /// The answer in one word.
    pub fn verdict(&self) -> Verdict {
        let forged = matches!(self.pages, Pages::Differ { .. }) || self.stamps.iter().any(|over| !over.genuine);
        if matches!(self.standing, Standing::Altered | Standing::Missing) || forged {
            return Verdict::Altered;
        }
        let signed = self.appended.iter().all(Appended::only_signs);
        let same = signed && matches!(self.pages, Pages::Same | Pages::OtherVersion | Pages::OtherBuild { .. });
        let alike = self.elsewhere.is_empty() && self.members.iter().all(|member| member.differences.is_empty());
        if same && alike { Verdict::Same } else { Verdict::Differs }
    }
}

/// Rechecks a package. The press stays warm from one to the next.
///
/// # Errors
/// [`Unfit`] where there is nothing to recheck.
pub fn recheck(bytes: &[u8], press: &mut Press) -> Result<Recheck, Unfit> {
    let standing = pdf::standing(bytes);
    let (package, stamps, appended) = under(bytes);
    let mut found = Recheck {
        standing,
        stamps,
        appended,
        bytes: package.len(),
        program: None,
        job: None,
        pages: Pages::OtherVersion,
        members: Vec::new(),
        elsewhere: Vec::new(),
    };
    let carried = match Carried::of(package) {
        Ok(Some(carried)) => carried,
        Ok(None) if standing == Standing::Missing => return Err(Unfit::Foreign),
        Ok(None) => return Err(Unfit::CarriesNothing(standing, found.appended)),
        Err(unreadable) if standing == Standing::Altered => return Ok(Recheck { pages: Pages::NotRead(unreadable), ..found }),
        Err(unreadable) => return Err(Unfit::Unreadable(unreadable)),
    };
    if standing != Standing::Altered {
        carried.known().map_err(Unfit::Unreadable)?;
    }
    found.program = Some(carried.head.program.clone());
    found.job = Some(carried.head.job.clone());
    again(&mut found, &carried, package, press);
    Ok(found)
}

/// The package under stamps and under what something else appended.
fn under(bytes: &[u8]) -> (&[u8], Vec<Over>, Vec<Appended>) {
    let (mut package, mut stamps, mut appended) = (bytes, Vec::new(), Vec::new());
    for layer in pdf::layers(bytes) {
        package = layer.under;
        match &layer.stamp {
            None => appended.push(pdf::appended(&layer)),
            Some(stamp) => {
                let is_drawn_so = || pdf::stamp(layer.under, stamp).is_ok_and(|again| again == layer.with);
                stamps.push(Over { stamp: stamp.clone(), genuine: stamp.by != super::program() || is_drawn_so() });
            }
        }
    }
    (package, stamps, appended)
}

/// Computes and issues it again from what it carries.
fn again(found: &mut Recheck, carried: &Carried, package: &[u8], press: &mut Press) {
    let source = match Source::read("job.yaml", &carried.job) {
        Ok(source) => source,
        Err(refused) => return found.pages = Pages::NotIssued(refused.1.message.clone()),
    };
    let checked = match crate::check(&source, false) {
        Ok(checked) => checked,
        Err(faults) => {
            let first = faults.first().map(|fault| fault.message.clone()).unwrap_or_default();
            return found.pages = Pages::NotIssued(format!("its job file is refused, {} in all; the first: {first}", faults.len()));
        }
    };
    compare(found, carried, &checked.results);
    if found.program.as_ref() != Some(&checked.results.program) {
        return;
    }
    let former =
        carried.former.clone().map(|(job, results)| Former::read(job, results).and_then(|f| change::between(&f, &source, &checked)));
    let reissue = match former.transpose() {
        Ok(reissue) => reissue,
        Err(refused) => return found.pages = Pages::NotIssued(format!("the issue that it replaced: {refused}")),
    };
    let templates = carried.templates();
    if !templates.are_built_in() && press.program().is_none() {
        return found.pages =
            Pages::NotIssued("it carries templates, which run in a process apart, and no program for that is known".into());
    }
    let issue = Issue {
        job: &checked.job,
        results: &checked.results,
        job_file: &carried.job,
        build: Build::Record,
        templates: &templates,
        reissue: reissue.as_ref(),
    };
    let at = |again: &[u8]| again.iter().zip(package).take_while(|(a, b)| a == b).count();
    found.pages = match issue.pdf_of_build(press, &carried.build) {
        Ok(again) if again == package => Pages::Same,
        Ok(again) if carried.build != BUILD => Pages::OtherBuild { build: carried.build.clone(), at: at(&again) },
        Ok(again) => Pages::Differ { at: at(&again) },
        Err(bug) => Pages::NotIssued(bug.to_string()),
    };
}

/// Compares the results that it carries with those of today, member by member.
fn compare(found: &mut Recheck, carried: &Carried, today: &Results) {
    let Ok(then) = serde_json::from_slice::<Value>(&carried.results).map(upgraded) else {
        found.elsewhere.push(Difference { at: "results".into(), before: "not JSON".into(), after: "results".into() });
        return;
    };
    let Ok(now) = serde_json::to_value(today) else { return };
    let marked = |document: &Value, mark: &str| {
        let members = document.get("members")?.as_array()?;
        members.iter().find(|member| member.get("mark").and_then(Value::as_str) == Some(mark)).cloned()
    };
    let marks = |document: &Value| -> Vec<String> {
        let members = document.get("members").and_then(Value::as_array);
        members.into_iter().flatten().filter_map(|member| Some(member.get("mark")?.as_str()?.to_owned())).collect()
    };
    let mut all = marks(&then);
    all.extend(marks(&now));
    for mark in all {
        if found.members.iter().all(|member| member.mark != mark) {
            let (before, after) = (marked(&then, &mark), marked(&now, &mark));
            let differences = differences(&before.unwrap_or_default(), &after.unwrap_or_default());
            found.members.push(Compared { mark, differences });
        }
    }
    let rest = |mut document: Value| {
        if let Some(entries) = document.as_object_mut() {
            entries.remove("members");
            entries.remove("program");
        }
        document
    };
    found.elsewhere.extend(differences(&rest(then), &rest(now)));
}
