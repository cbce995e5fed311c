//! `init`: a commented starter job file.

use super::output::{self, Guard, Replace, Written};
use crate::text::nearest;
use anyhow::{Result, bail, ensure};
use std::path::Path;

/// Starter files by code.
static STARTERS: &[(&str, &str)] =
    &[("american", include_str!("starter-american.yaml")), ("european", include_str!("starter-european.yaml"))];

/// Writes the starter of a code; never over a file that is there.
pub(super) fn run(code: &str, file: &Path) -> Result<u8> {
    let Some((_, starter)) = STARTERS.iter().find(|(known, _)| *known == code) else {
        let known: Vec<&str> = STARTERS.iter().map(|(known, _)| *known).collect();
        let hint = nearest(code, known.iter().copied()).map(|m| format!("; did you mean {m}?")).unwrap_or_default();
        bail!("no starter for code {code}{hint} (known: {})", known.join(", "));
    };
    let guard = Guard { replace: Replace::Never, read: &[] };
    let ready = output::ready(file, starter.as_bytes(), guard, |_| Err("is there already: name another file".to_owned()))?;
    ensure!(ready.write()? != Written::Unchanged, "{} is there already: name another file", file.display());
    output::print(&format!("{} written; edit it, then: latewood check {0}", file.display()))
}
