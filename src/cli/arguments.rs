//! What may be said on the command line.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Calculation packages for light-frame wood structures: a YAML job file in, a PDF for sign-off out.
///
/// A calculation aid: the engineer of record answers for the input, the assumptions, what was not checked, and the code in force at
/// the site.
#[derive(Debug, Parser)]
#[command(name = "latewood", version, max_term_width = 100)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Write a commented starter job file; never over a file that is there.
    Init {
        /// The code that the job is designed to.
        #[arg(long, default_value = "american")]
        code: String,
        /// Where to write it.
        #[arg(default_value = "job.yaml")]
        file: PathBuf,
    },
    /// Check a job: a table for people, JSON for programs.
    ///
    /// Exit status: 0 all members pass, 1 a member fails, 2 bad input.
    Check(Check),
    /// Check a job, then write its calculation package.
    ///
    /// The file appears whole or not at all. A job with failing members is issued too, and says so on its cover (exit status 1).
    #[cfg(feature = "paper")]
    Issue(Issue),
    /// Get the job file back out of a package, byte for byte.
    ///
    /// A submittal carries nothing. An altered package gives nothing out.
    #[cfg(feature = "paper")]
    Extract(Extract),
    /// Recompute packages from what they carry, and say whether they are what they were.
    ///
    /// The digest in the file finds a byte that was altered; every result is computed again and compared, member by member; the version
    /// of the program that issued a package issues it again and compares every byte. All cores work at many packages. What this
    /// does not prove is who issued a file: whoever alters one on purpose can write a new digest. Only a digital signature proves that.
    ///
    /// Exit status: 0 all the same, 1 one differs or was altered, 2 one is not a package or cannot be read.
    #[cfg(feature = "paper")]
    Recheck(Recheck),
    /// Stamp an earlier package as replaced, its bytes as they were under the stamp.
    ///
    /// Every page says by which revision and of which date. The stamp is appended: what was issued is an unchanged beginning of the new
    /// file, and its attachments, outline and tags survive.
    #[cfg(feature = "paper")]
    Supersede(Supersede),
    /// File issued packages in an office folder, and ask it: which packages used a table's cell, what came out high, what may go.
    #[cfg(feature = "paper")]
    Archive {
        /// The folder; made where it is not there.
        folder: PathBuf,
        #[command(subcommand)]
        what: ArchiveWhat,
    },
    /// Species, grades, sizes, editions, units and cases known, with where our copy of each table comes from.
    Catalogue,
    /// The JSON Schema of a job file, or of the results, for editors and programs.
    Schema {
        /// What to describe.
        #[arg(value_enum, default_value_t = Described::Job)]
        what: Described,
    },
    /// Completions for a shell.
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
    /// The manual page.
    Man,
}

#[derive(Debug, Args)]
pub(super) struct Check {
    /// The job file; `-` for the standard input.
    pub job: PathBuf,
    /// How to print.
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
    /// Work out every combination that lost, too.
    #[arg(long)]
    pub all_combinations: bool,
    /// Print these members only.
    #[arg(long, value_name = "MARK")]
    pub member: Vec<String>,
}

#[cfg(feature = "paper")]
#[derive(Debug, Args)]
pub(super) struct Issue {
    /// The job file; `-` for the standard input.
    pub job: PathBuf,
    /// Where to write the package; beside the job file, under the job's number and revision, where left out.
    #[arg(long, short)]
    pub output: Option<PathBuf>,
    /// The office's record, with job file and results attached; the same pages for submittal, with nothing attached; or a brief for
    /// checking, with all that goes in and no result.
    #[arg(long = "for", value_enum, default_value_t = Copy::Record)]
    pub copy: Copy,
    /// The record of the earlier issue that this one replaces, or an archive that holds it: a change sheet says what changed and what came
    /// of it.
    #[arg(long, value_name = "PACKAGE")]
    pub after: Option<PathBuf>,
    /// A folder with the office's own templates.
    #[arg(long, value_name = "DIR")]
    pub templates: Option<PathBuf>,
    /// Write an authentication sheet beside the package: its name, pages and hashes, with lines to sign by hand.
    #[arg(long)]
    pub authentication: bool,
}

#[cfg(feature = "paper")]
#[derive(Debug, Args)]
pub(super) struct Extract {
    /// The package.
    pub package: PathBuf,
    /// Where to write the job file; the standard output where left out.
    #[arg(long, short)]
    pub output: Option<PathBuf>,
}

#[cfg(feature = "paper")]
#[derive(Debug, Args)]
pub(super) struct Recheck {
    /// The packages.
    #[arg(required = true, value_name = "PACKAGE")]
    pub packages: Vec<PathBuf>,
}

#[cfg(feature = "paper")]
#[derive(Debug, Args)]
pub(super) struct Supersede {
    /// The package that is replaced.
    pub old: PathBuf,
    /// The package that replaces it.
    #[arg(long, value_name = "NEW")]
    pub by: PathBuf,
    /// Where to write the stamped package; beside the old one, with `-superseded` behind its name, where left out.
    #[arg(long, short)]
    pub output: Option<PathBuf>,
}

#[cfg(feature = "paper")]
#[derive(Debug, Subcommand)]
pub(super) enum ArchiveWhat {
    /// File packages: record copies, each under its job number and revision. What is reported as filed is on the disk.
    File {
        /// The packages.
        #[arg(required = true, value_name = "PACKAGE")]
        packages: Vec<PathBuf>,
        /// Until when they must be kept; left out: as the job's `jurisdiction` has it, counted from the date of the issue.
        #[arg(long, value_name = "DATE")]
        keep_until: Option<String>,
    },
    /// Ask for issues to which all of this applies; for all issues where nothing is given.
    Ask(Ask),
}

#[cfg(feature = "paper")]
#[derive(Debug, Args)]
pub(super) struct Ask {
    /// Read a cell of this table; a part of its name will do.
    #[arg(long)]
    pub table: Option<String>,
    /// Read this cell; a part of its row and column will do.
    #[arg(long)]
    pub cell: Option<String>,
    /// Designed to this edition or loading standard, or citing this standard.
    #[arg(long)]
    pub edition: Option<String>,
    /// Issued by this version of the program.
    #[arg(long, value_name = "VERSION")]
    pub program: Option<String>,
    /// With members whose governing ratio is above this.
    #[arg(long, value_name = "RATIO")]
    pub above: Option<f64>,
    /// Of this job.
    #[arg(long, value_name = "NUMBER")]
    pub job: Option<String>,
    /// Only the newest issue of each job.
    #[arg(long)]
    pub newest: bool,
    /// To be kept until a day before this one.
    #[arg(long, value_name = "DATE")]
    pub past: Option<String>,
    /// How to print.
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    Table,
    Json,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(super) enum Described {
    Job,
    Results,
}

#[cfg(feature = "paper")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Copy {
    Record,
    Submittal,
    Checking,
}
