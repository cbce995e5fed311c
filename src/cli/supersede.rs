//! `supersede`: an earlier package stamped as replaced.

use super::arguments::Supersede;
use super::issue::with_stem;
use super::output::{self, Guard};
use crate::pdf::{Kind, Signature};
use crate::study::{self, Which};
use anyhow::{Context, Result};

/// Writes the old package with its stamp, whole or not at all; the old file itself stays as it is.
pub(super) fn run(arguments: &Supersede) -> Result<u8> {
    let (old, new) = (super::package(&arguments.old)?, super::package(&arguments.by)?);
    let stamped = study::supersede(&old, &new).map_err(|fault| match fault.which() {
        Some(Which::Old) => anyhow::Error::new(fault).context(arguments.old.display().to_string()),
        Some(Which::New) => anyhow::Error::new(fault).context(arguments.by.display().to_string()),
        None => anyhow::Error::new(fault).context("nothing is superseded"),
    })?;
    let path = arguments.output.clone().unwrap_or_else(|| with_stem(&arguments.old, "-superseded.pdf"));
    let guard = Guard { replace: arguments.replace.into(), read: &[&arguments.old, &arguments.by] };
    let written = output::write(&path, &stamped, guard).context("the two packages stay as they are")?;
    if let Some(note) = note(&study::signatures(&old)) {
        eprintln!("note: {} {note}", arguments.old.display());
    }
    output::tell(&path, &written)
}

/// What a stamp means for the signatures under it.
fn note(signatures: &[Signature]) -> Option<String> {
    let names: Vec<&str> = signatures.iter().map(|signature| signature.field.as_str()).collect();
    let (first, more) = names.split_first()?;
    let names = more.iter().fold((*first).to_owned(), |all, name| format!("{all}, {name}"));
    let locked = signatures.iter().any(|signature| signature.kind == Kind::Certification { locked: true });
    let reader = if locked {
        "it was certified so that nothing may be added, and a PDF reader will call the stamped copy's certification broken"
    } else {
        "a PDF reader will say that the copy was changed after it was signed"
    };
    Some(format!("is signed ({names}): what was signed stays under the stamp unchanged; the stamp is an update after it, {reader}"))
}
