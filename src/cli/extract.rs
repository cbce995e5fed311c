//! `extract`: the job file back out of a package.

use super::arguments::Extract;
use super::output::{self, Guard};
use crate::package::Carried;
use crate::pdf::{self, Standing};
use anyhow::{Context, Result, bail};
use std::io::Write;

/// Writes the job file that a package carries, byte for byte.
pub(super) fn run(arguments: &Extract) -> Result<u8> {
    let name = arguments.package.display();
    let bytes = super::package(&arguments.package)?;
    let standing = pdf::standing(&bytes);
    let carried = match (standing, Carried::of(&bytes)) {
        (Standing::Altered, _) => {
            bail!("{name} was altered since it was written; nothing is taken out of it (`latewood recheck` says more)")
        }
        (_, Err(unreadable)) => return Err(unreadable).with_context(|| name.to_string()),
        (Standing::Missing, Ok(None)) => bail!("{name} is not a package of this program"),
        (_, Ok(None)) => bail!("{name} is a submittal: it carries nothing; name the record of the same issue"),
        (Standing::Missing, _) => bail!("{name} has lost the digest of itself: it was altered since it was written"),
        (_, Ok(Some(carried))) => carried,
    };
    match &arguments.output {
        Some(path) => {
            let guard = Guard { replace: arguments.replace.into(), read: &[&arguments.package] };
            output::tell(path, &output::write(path, &carried.job, guard)?)
        }
        None => match std::io::stdout().lock().write_all(&carried.job) {
            Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error).context("cannot print"),
            _ => Ok(0),
        },
    }
}
