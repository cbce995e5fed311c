//! The index made anew from the packages.

use super::{Archive, Entry, Error, Facts, Index, entry, in_order, index, under};
use crate::pdf::{self, Standing};
use std::collections::BTreeMap;
use std::path::Path;

/// What making the index anew found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rebuilt {
    /// The entries of the new index.
    pub entries: Vec<Entry>,
    /// Files of the archive that have no entry of their own, and why.
    pub left_out: Vec<(String, String)>,
    /// Entries of the old index whose package is not there any longer, or is another: they stay, since they tell that it was.
    pub without_package: Vec<Entry>,
}

impl Archive {
    /// Makes the index anew from the packages that lie in the archive. Entries stand in the order of the old index, then those that it
    /// lacks by date, job number and revision. A retention date is that of the old index, else what `facts` has.
    ///
    /// # Errors
    /// The archive cannot be read or written. The old index then stands.
    pub fn rebuild(&self, facts: impl Fn(&[u8]) -> Result<Facts, String>) -> Result<Rebuilt, Error> {
        let lock = index::lock(&self.folder.join("index.lock"))?;
        let old = if self.index().exists() { self.read()? } else { Index::default() };
        let mut dates: BTreeMap<&str, &str> = old.damaged.iter().filter_map(|d| d.kept.as_ref()).map(|(p, d)| (&**p, &**d)).collect();
        dates.extend(old.entries.iter().filter_map(|entry| Some((&*entry.package, &**entry.keep_until.as_ref()?))));
        let mut found = Found::default();
        for path in self.lying()? {
            let name = path.strip_prefix(&self.folder).unwrap_or(&path).to_string_lossy().replace('\\', "/");
            if let Err(why) = found.take(&path, &name, &facts) {
                found.left_out.push((name, why));
            }
        }
        let mut rebuilt = found.entries(&old);
        for entry in &mut rebuilt.entries {
            if let Some(date) = dates.get(&*entry.package) {
                entry.keep_until = Some((*date).to_owned());
            }
        }
        index::write(&self.index(), &rebuilt.entries)?;
        let _ = index::put(&self.folder.join("index.txt"), entry::table(&rebuilt.entries).as_bytes());
        drop(lock);
        Ok(rebuilt)
    }
}

/// What lies in the archive.
#[derive(Default)]
struct Found {
    /// Issues, by the hash of their bytes.
    issues: BTreeMap<String, Entry>,
    /// Stamped copies: name, bytes, and the hash of the issue that lies under the stamp.
    copies: Vec<(String, Vec<u8>, String)>,
    left_out: Vec<(String, String)>,
}

impl Found {
    fn take(&mut self, path: &Path, name: &str, facts: &impl Fn(&[u8]) -> Result<Facts, String>) -> Result<(), String> {
        let bytes = std::fs::read(path).map_err(|why| why.to_string())?;
        if matches!(pdf::standing(&bytes), Standing::Altered | Standing::Missing) {
            return Err("it was altered, or is no package of this program".to_owned());
        }
        let (issued, stamp) = under(&bytes);
        if stamp.is_some() {
            let hash = super::fingerprint(issued);
            self.copies.push((name.to_owned(), bytes, hash));
            return Ok(());
        }
        let entry = Entry::of(&bytes, &facts(&bytes)?).map_err(|why| why.to_string())?;
        let entry = Entry { file: name.to_owned(), ..entry };
        match self.issues.get(&entry.package) {
            Some(other) => Err(format!("it holds the same bytes as {}", other.file)),
            None => {
                self.issues.insert(entry.package.clone(), entry);
                Ok(())
            }
        }
    }

    /// The entries in the order of the new index.
    fn entries(mut self, old: &Index) -> Rebuilt {
        for (name, bytes, of) in std::mem::take(&mut self.copies) {
            let stamp = under(&bytes).1;
            match (self.issues.remove(&of), stamp) {
                (Some(entry), Some(stamp)) if entry.superseded.is_none() => {
                    let (mut entry, _) = entry.superseded(&bytes, &stamp);
                    if let Some(copy) = &mut entry.superseded {
                        copy.file = name;
                    }
                    self.issues.insert(of, entry);
                }
                (issue, _) => {
                    let why = if issue.is_some() { "another stamped copy of its issue lies there" } else { "its issue is not there" };
                    self.issues.extend(issue.map(|entry| (of, entry)));
                    self.left_out.push((name, format!("a stamped copy: {why}")));
                }
            }
        }
        let mut rebuilt = Rebuilt { left_out: self.left_out, ..Rebuilt::default() };
        for known in &old.entries {
            match self.issues.remove(&known.package) {
                Some(entry) => rebuilt.entries.push(entry),
                None => {
                    rebuilt.without_package.push(known.clone());
                    rebuilt.entries.push(known.clone());
                }
            }
        }
        let mut new: Vec<Entry> = self.issues.into_values().collect();
        new.sort_by(|a, b| {
            let by_number = || in_order(&a.number, &b.number).then_with(|| a.revision.cmp(&b.revision));
            a.date.cmp(&b.date).then_with(by_number).then_with(|| a.file.cmp(&b.file))
        });
        for entry in new {
            match rebuilt.entries.iter().find(|known| known.number == entry.number && known.revision == entry.revision) {
                Some(known) => {
                    let why = format!("revision {} of job {} is filed as {}", entry.revision, entry.number, known.file);
                    rebuilt.left_out.push((entry.file, why));
                }
                None => rebuilt.entries.push(entry),
            }
        }
        rebuilt
    }
}
