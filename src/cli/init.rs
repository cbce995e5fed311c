//! `init`: a commented starter job file.

use super::output;
use crate::text::nearest;
use anyhow::{Result, bail};
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
    if file.exists() {
        bail!("{} is there already; name another file", file.display());
    }
    output::write_whole(file, starter.as_bytes())?;
    output::print(&format!("{} written; edit it, then: latewood check {0}", file.display()))
}
