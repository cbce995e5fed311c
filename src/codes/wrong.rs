//! All that a code finds wrong with a job file, in one pass.

use super::Code;
use crate::cores;
use crate::job::Reading;
use crate::job::model::Job;
use crate::text::{Faults, in_order};

/// How often a file is looked at again. Each time takes out what was found, so that this is how many faults may hide behind one another in
/// one entry.
const LOOKS: usize = 12;

/// What the code of a job file finds wrong with it: also where parts of the file could not be read, and also what a fault found first would
/// hide. Values that were found wrong are taken out, and the rest is looked at again, until nothing more is found.
pub fn wrong(reading: &Reading) -> Faults {
    let mut told = Faults::new();
    let Some(code) = reading.code().and_then(super::named) else { return told };
    let stand_ins = code.stand_ins();
    let mut rest = None;
    for _ in 0..LOOKS {
        let found = rest.as_ref().unwrap_or(reading).wrong_whatever(&stand_ins, |job| ask(code, job));
        let before = told.len();
        told.extend(found);
        told = in_order(told);
        if told.len() == before {
            break;
        }
        let Some(next) = reading.without(told.iter().map(|fault| fault.primary.span)) else { break };
        rest = Some(next);
    }
    told
}

/// The faults of the basis, then those of each member.
fn ask(code: &dyn Code, job: &Job) -> Vec<Faults> {
    let mut faults = vec![code.faults(&job.basis)];
    faults.extend(cores::each(&job.members, |member| code.prepare(job, member).err().unwrap_or_default()));
    faults
}
