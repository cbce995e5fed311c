//! Files that appear whole or not at all, and text for the terminal.

use anyhow::{Context, Result};
use std::io::Write;
use std::path::Path;

/// Writes a file through a temporary one beside it: synced, then renamed over what was there.
///
/// # Errors
/// The folder is not there or not writable, the disk is full. What stood at `path` before is then untouched.
pub(super) fn write_whole(path: &Path, bytes: &[u8]) -> Result<()> {
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let failed = || format!("cannot write {}", path.display());
    // The error names a temporary file that nobody asked for: its kind is enough.
    let made = tempfile::Builder::new().prefix(".latewood-").tempfile_in(folder);
    let mut file = made.map_err(|error| std::io::Error::from(error.kind())).with_context(failed)?;
    file.write_all(bytes).with_context(failed)?;
    file.as_file().sync_all().with_context(failed)?;
    // A temporary file is its owner's alone; a package is an ordinary file.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        file.as_file().set_permissions(std::fs::Permissions::from_mode(0o644)).with_context(failed)?;
    }
    file.persist(path).with_context(failed)?;
    Ok(())
}

/// Prints a text and its line end; a reader that hangs up early is not an error.
pub(super) fn print(text: &str) -> Result<u8> {
    let mut out = std::io::stdout().lock();
    match writeln!(out, "{}", text.trim_end_matches('\n')) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error).context("cannot print"),
        _ => Ok(0),
    }
}
