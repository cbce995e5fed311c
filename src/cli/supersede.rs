//! `supersede`: an earlier package stamped as replaced.

use super::arguments::Supersede;
use super::output;
use crate::study::{self, Which};
use anyhow::{Context, Result};
use std::path::{Path, PathBuf};

/// Writes the old package with its stamp, whole or not at all; the old file itself stays as it is.
pub(super) fn run(arguments: &Supersede) -> Result<u8> {
    let (old, new) = (super::package(&arguments.old)?, super::package(&arguments.by)?);
    let stamped = study::supersede(&old, &new).map_err(|fault| match fault.which() {
        Some(Which::Old) => anyhow::Error::new(fault).context(arguments.old.display().to_string()),
        Some(Which::New) => anyhow::Error::new(fault).context(arguments.by.display().to_string()),
        None => anyhow::Error::new(fault).context("nothing is superseded"),
    })?;
    let path = arguments.output.clone().unwrap_or_else(|| beside(&arguments.old));
    let place = output::place(&path, &[&arguments.old, &arguments.by]).context("the two packages stay as they are")?;
    output::write_whole(&place, &stamped)?;
    output::print(&path.display().to_string())
}

/// `26-031-A-superseded.pdf` beside `26-031-A.pdf`.
fn beside(old: &Path) -> PathBuf {
    let stem = old.file_stem().map_or_else(|| "package".into(), std::ffi::OsStr::to_os_string);
    old.with_file_name([stem, "-superseded.pdf".into()].into_iter().collect::<std::ffi::OsString>())
}
