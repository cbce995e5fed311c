//! The process apart in which templates of an office's own are typeset, within limits of time and memory.

use crate::package::{LATE, Request, WRONG};
use crate::study;
use anyhow::{Context, Result};
use std::io::Write;
use std::time::Duration;

/// Answers the request on the standard input: a PDF, or with the status [`WRONG`] what is wrong.
pub(super) fn run() -> Result<u8> {
    let answer = Request::read(std::io::stdin().lock()).and_then(|request| {
        limit_memory(request.limits.megabytes);
        let seconds = request.limits.seconds;
        std::thread::spawn(move || {
            std::thread::sleep(Duration::from_secs(seconds));
            std::process::exit(i32::from(LATE));
        });
        study::typeset(&request)
    });
    let (bytes, status) = match answer {
        Ok(pdf) => (pdf, 0),
        Err(bug) => (bug.to_string().into_bytes(), WRONG),
    };
    std::io::stdout().lock().write_all(&bytes).context("cannot answer")?;
    Ok(status)
}

/// Where the platform has no such limit, time and pages are still limited.
fn limit_memory(megabytes: u64) {
    #[cfg(unix)]
    {
        use rustix::process::{Resource, Rlimit, setrlimit};
        let most = Some(megabytes << 20);
        let _ = setrlimit(Resource::As, Rlimit { current: most, maximum: most });
        // One that is stopped for its memory leaves no image of it behind.
        let _ = setrlimit(Resource::Core, Rlimit { current: Some(0), maximum: Some(0) });
    }
    #[cfg(not(unix))]
    let _ = megabytes;
}
