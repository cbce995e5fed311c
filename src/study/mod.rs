//! Studies: what is asked of a package or a job beyond its check.
//!
//! - [`typeset`]: templates of an office's own, in a process apart;
//! - [`change`]: what a reissue changed, and how much each changed input contributed;
//! - [`size`]: the lightest sections that pass, or the cheapest, written back into the job file;
//! - [`spans`]: the longest spans that pass;
//! - [`prove`]: published cases and tables that are law, on the machine where it runs;
//! - [`recheck()`]: is a package what it was when it was issued, and does it come out the same today;
//! - [`supersede()`]: an earlier package stamped as replaced, its bytes as they were under the stamp.

#[cfg(feature = "paper")]
mod apart;
pub mod change;
#[cfg(feature = "paper")]
mod difference;
pub mod prove;
#[cfg(feature = "paper")]
mod recheck;
pub mod size;
pub mod spans;
#[cfg(feature = "paper")]
mod supersede;

#[cfg(feature = "paper")]
pub use apart::typeset;
#[cfg(feature = "paper")]
pub use difference::{Difference, differences};
#[cfg(feature = "paper")]
pub use recheck::{Compared, Over, Pages, Recheck, Unfit, Verdict, recheck};
#[cfg(feature = "paper")]
pub use supersede::{NotSuperseded, Which, signatures, supersede};

/// This program, its version and its build, as it names itself in a stamp.
#[cfg(feature = "paper")]
fn program() -> String {
    format!("{} {} build {}", env!("CARGO_PKG_NAME"), env!("CARGO_PKG_VERSION"), crate::package::BUILD)
}
