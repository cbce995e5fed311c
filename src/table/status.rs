//! What a row says of where its values come from.

/// Where the value of a cell comes from.
///
/// Read from the row's `status` text, which is a few clauses with semicolons between them. A clause is `VERB (why)` or
/// `COLUMN, COLUMN VERB (why)`; the first that names a column holds for it, else the first that names none. The verbs:
/// `read`; `computed`; `from memory`; `fixed`: the only value that fits what a law prints, which says that it is right but not that it
/// was seen, so that it still counts as from memory; `recalled twice`: by two readings from memory that differ, which counts as from memory
/// too; `unsure`: recalled with doubt, and refused where it would be needed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Status {
    /// The whole row was read, here.
    Read(String),
    /// The row was read in part, and this value is in that part.
    Part(String),
    /// Recalled, not seen.
    Memory,
    /// Not seen, but the only value that reproduces what a law prints.
    Fixed,
    /// Recalled by two readings that differ: what they are.
    Twice(String),
    /// Computed from values of the same row.
    Computed,
    /// Not known for sure: it must never become a default.
    Unsure,
}

impl Status {
    /// Whether the value was read, in the whole row or in the part of it.
    pub const fn is_read(&self) -> bool {
        matches!(self, Self::Read(_) | Self::Part(_))
    }

    /// The word of the results document.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Read(_) | Self::Part(_) => "read",
            Self::Memory | Self::Fixed | Self::Twice(_) => "from memory",
            Self::Computed => "computed",
            Self::Unsure => "unsure",
        }
    }
}

/// The status of every column by a row's text; none of one that no clause speaks of.
pub(super) fn of_columns(text: &str, columns: &[String]) -> Vec<Option<Status>> {
    let clauses: Vec<Clause<'_>> = clauses(text).into_iter().filter_map(Clause::read).collect();
    columns.iter().map(|column| of(&clauses, column)).collect()
}

fn of(clauses: &[Clause<'_>], column: &str) -> Option<Status> {
    let naming = clauses.iter().find(|c| c.columns.contains(&column));
    let clause = naming.or_else(|| clauses.iter().find(|c| c.columns.is_empty()))?;
    let partly = !clause.columns.is_empty() || clauses.iter().any(|c| c.verb != clause.verb);
    Some(match clause.verb {
        "read" if partly => Status::Part(clause.why.to_owned()),
        "read" => Status::Read(clause.why.to_owned()),
        "computed" => Status::Computed,
        "unsure" => Status::Unsure,
        "fixed" => Status::Fixed,
        "recalled twice" => Status::Twice(clause.why.to_owned()),
        _ => Status::Memory,
    })
}

/// Whether every clause has a verb and names only these columns.
pub(super) fn is_well_formed(text: &str, columns: &[String]) -> bool {
    clauses(text)
        .into_iter()
        .all(|text| Clause::read(text).is_some_and(|c| c.columns.iter().all(|named| columns.iter().any(|column| column == named))))
}

struct Clause<'a> {
    columns: Vec<&'a str>,
    verb: &'static str,
    why: &'a str,
}

impl<'a> Clause<'a> {
    fn read(text: &'a str) -> Option<Self> {
        let (head, why) = match text.split_once('(') {
            Some((head, why)) => (head.trim(), why.strip_suffix(')')?),
            None => (text.trim(), ""),
        };
        let verb =
            ["read", "computed", "from memory", "fixed", "unsure", "recalled twice"].into_iter().find(|verb| head.ends_with(verb))?;
        let names = head.strip_suffix(verb)?.trim();
        let columns = names.split(',').map(str::trim).filter(|name| !name.is_empty() && *name != "rest").collect();
        Some(Self { columns, verb, why })
    }
}

/// The text at its semicolons, but for those in brackets.
fn clauses(text: &str) -> Vec<&str> {
    let (mut depth, mut start, mut parts) = (0_i32, 0, Vec::new());
    for (at, letter) in text.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth -= 1,
            ';' if depth == 0 => {
                parts.push(text[start..at].trim());
                start = at + 1;
            }
            _ => {}
        }
    }
    parts.push(text[start..].trim());
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str, column: &str) -> Option<Status> {
        of_columns(text, &[column.to_owned()]).remove(0)
    }

    #[test]
    fn a_value_is_read_only_where_its_row_says_so() {
        let whole = "read (problem 4.30)";
        assert_eq!(of(whole, "F_b"), Some(Status::Read("problem 4.30".into())));
        let partly = "F_b, E read (a worked example; page 3); E_min computed; rest from memory";
        assert_eq!(of(partly, "F_b"), Some(Status::Part("a worked example; page 3".into())));
        assert_eq!(of(partly, "E_min"), Some(Status::Computed));
        assert_eq!(of(partly, "G"), Some(Status::Memory));
        let mixed = "F_b fixed (span tables); F_c recalled twice (975 and 1000); rest from memory";
        assert_eq!(of(mixed, "F_b"), Some(Status::Fixed));
        assert_eq!(of(mixed, "F_c"), Some(Status::Twice("975 and 1000".into())));
        assert!(["F_b", "F_c", "E"].into_iter().all(|column| of(mixed, column).is_some_and(|s| s.word() == "from memory" && !s.is_read())));
        assert_eq!(of("F_b read (a page)", "G"), None);
    }

    #[test]
    fn slips_are_noticed() {
        let columns = ["F_b".to_owned(), "E".to_owned()];
        assert!(is_well_formed("F_b, E read (a page); rest from memory", &columns));
        assert!(!is_well_formed("Fb read (a page); rest from memory", &columns));
        assert!(!is_well_formed("superseded", &columns));
        assert!(!is_well_formed("read (a page", &columns));
        assert!(!is_well_formed("", &columns));
    }
}
