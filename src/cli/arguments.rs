//! What may be said on the command line.

use crate::job::model::Date;
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
    /// Typeset a request of this program itself.
    #[cfg(feature = "paper")]
    #[command(hide = true)]
    TypesetApart,
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
    /// A member is NOT CHECKED where no strength check applies to its loads, or where a specified check cannot be made. Exit status: 0 all
    /// members pass, 1 a member fails or is not checked, 2 bad input.
    Check(Check),
    /// Check a job, then write its calculation package.
    ///
    /// The file appears whole or not at all. A job with members that fail or are not checked is issued too, and says so on its cover (exit status 1).
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
    /// Find the lightest sections that pass, or the cheapest of the job's price list, down the load path.
    ///
    /// Every lighter one is tried and fails; the next one down is shown with the check that it fails in. Exit status: 0 all members pass
    /// as sized, 1 a member does not, 2 bad input.
    Size(Size),
    /// Make a span table: the longest spans that pass, by material, section and spacing.
    Spans(Spans),
    /// Run the published cases and the span tables that are law on this machine, and report what agrees, what differs, what could not be
    /// checked.
    ///
    /// Exit status: 0 everything agrees, 1 something differs.
    Prove(Prove),
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
    /// Where to write the package, `-` for the standard output; default: beside the job file, under the job's number and revision.
    #[arg(long, short)]
    pub output: Option<PathBuf>,
    /// Overwrite an existing file of any kind, also a package that may have been sent or signed, or one of another job or revision.
    #[arg(long)]
    pub replace: bool,
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
    /// Go on until Ctrl-C: issue again whenever the job file or a template is saved. A file with faults leaves the package as it was.
    #[arg(long)]
    pub watch: bool,
}

#[cfg(feature = "paper")]
#[derive(Debug, Args)]
pub(super) struct Extract {
    /// The package.
    pub package: PathBuf,
    /// Where to write the job file; the standard output where left out.
    #[arg(long, short)]
    pub output: Option<PathBuf>,
    /// Overwrite an existing file of any kind.
    #[arg(long)]
    pub replace: bool,
}

#[cfg(feature = "paper")]
#[derive(Debug, Args)]
pub(super) struct Recheck {
    /// The packages.
    #[arg(required_unless_present = "archive", value_name = "PACKAGE")]
    pub packages: Vec<PathBuf>,
    /// All packages of an archive: one line a package, then how many are the same. Missing ones are said.
    #[arg(long, value_name = "FOLDER", conflicts_with = "packages")]
    pub archive: Option<PathBuf>,
    /// Of the archive, from this job number on; 26-9 comes before 26-10. With `--to` a part of the work, as for one of several machines.
    #[arg(long, value_name = "JOB", requires = "archive")]
    pub from: Option<String>,
    /// Of the archive, up to this job number and with it.
    #[arg(long, value_name = "JOB", requires = "archive")]
    pub to: Option<String>,
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
    /// Overwrite an existing file of any kind.
    #[arg(long)]
    pub replace: bool,
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
        #[arg(long, value_name = "DATE", value_parser = date)]
        keep_until: Option<Date>,
    },
    /// Ask for issues to which all of this applies; for all issues where nothing is given.
    ///
    /// A damaged line of the index is reported and skipped (exit status 2).
    Ask(Ask),
    /// Rebuild the index from the packages in the folder; retention dates of the old index are kept.
    ///
    /// Exit status: 0 every package has its entry and every entry its package, 2 otherwise; those without are listed.
    Rebuild,
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
    #[arg(long, value_name = "DATE", value_parser = date)]
    pub past: Option<Date>,
    /// How to print.
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub format: Format,
}

#[derive(Debug, Args)]
pub(super) struct Size {
    /// The job file; `-` for the standard input.
    pub job: PathBuf,
    /// Size these members only.
    #[arg(long, value_name = "MARK")]
    pub member: Vec<String>,
    /// What may change beside the section.
    #[arg(long, value_enum, value_delimiter = ',')]
    pub vary: Vec<Varied>,
    /// Choose from these sections only.
    #[arg(long, value_name = "SECTION", value_delimiter = ',')]
    pub section: Vec<String>,
    /// Write a copy of the job file with the choices in it, comments kept.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Overwrite an existing file of any kind.
    #[arg(long)]
    pub replace: bool,
}

#[derive(Debug, Args)]
pub(super) struct Spans {
    /// Species group, as the standard names it; may be given more than once.
    #[arg(long)]
    pub species: Vec<String>,
    /// Grade, as the standard names it; may be given more than once.
    #[arg(long, value_delimiter = ',')]
    pub grade: Vec<String>,
    /// Strength class, where the code has classes.
    #[arg(long, value_delimiter = ',')]
    pub class: Vec<String>,
    /// Sections, the rows.
    #[arg(long, value_delimiter = ',', required = true)]
    pub section: Vec<String>,
    /// Spacings, the columns, such as `16 in`.
    #[arg(long, value_delimiter = ',', required = true)]
    pub spacing: Vec<String>,
    /// Area loads by load case, such as `dead=10 psf,live=40 psf`.
    #[arg(long, value_name = "CASE=LOAD", value_delimiter = ',', required = true)]
    pub load: Vec<String>,
    /// Deflection limits, such as `live=L/360,total=none`; those of the code where left out.
    #[arg(long, value_name = "NAME=LIMIT", value_delimiter = ',')]
    pub limit: Vec<String>,
    /// The code.
    #[arg(long, default_value = "american")]
    pub code: String,
    /// Other keys of a job file's basis, such as `moisture=wet` or `method=LRFD`.
    #[arg(long, value_name = "KEY=VALUE", value_delimiter = ',')]
    pub basis: Vec<String>,
    /// What the members do.
    #[arg(long = "use", default_value = "joist", value_parser = ["joist", "rafter", "beam", "header"])]
    pub role: String,
    /// Slope of rafters, such as `6:12`; their spans are on plan.
    #[arg(long)]
    pub slope: Option<String>,
    /// How spans are rounded in print: down, so that what is printed passes, or to the nearest, as the tables of the law are.
    #[arg(long, value_enum, default_value_t = Round::Down)]
    pub round: Round,
    /// How to print; by the ending of the output file where left out.
    #[arg(long, value_enum)]
    pub format: Option<SheetFormat>,
    /// Where to write it; the terminal where left out.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Overwrite an existing file of any kind.
    #[arg(long)]
    pub replace: bool,
    /// The date on a PDF, such as `2026-03-18`; the program never asks the clock.
    #[arg(long, value_parser = date)]
    pub date: Option<Date>,
}

#[derive(Debug, Args)]
pub(super) struct Prove {
    /// How to print; by the ending of the output file where left out.
    #[arg(long, value_enum)]
    pub format: Option<SheetFormat>,
    /// Where to write the report, such as `verification.pdf`; the terminal where left out.
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Overwrite an existing file of any kind.
    #[arg(long)]
    pub replace: bool,
    /// The date on a PDF, such as `2026-03-18`; the program never asks the clock.
    #[arg(long, value_parser = date)]
    pub date: Option<Date>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Varied {
    Grade,
    Plies,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Round {
    Down,
    Nearest,
}

/// How a span table or a report is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum SheetFormat {
    Table,
    Csv,
    Json,
    Pdf,
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

/// A date as a job file has it.
fn date(text: &str) -> Result<Date, String> {
    Date::read(text).ok_or_else(|| "write year, month and day of the calendar, such as 2026-03-18".to_owned())
}
