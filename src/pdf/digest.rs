//! The digest that a PDF keeps of itself: SHA-256 over every byte of the file but its own sixty-four letters, as a signature's byte
//! range leaves out the signature.
//!
//! It stands in a comment before the last `startxref`: a comment is white space to every reader (ISO 32000, 7.2), so that the digest is
//! no object, changes no page and touches no rule of PDF/A or PDF/UA. An update that is appended later comes after it and leaves it
//! as it was.
//!
//! It finds damage and careless change. Whoever alters a file on purpose can write a new digest too: that nobody did so, and who
//! issued the file, only a digital signature proves.

use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::ops::Range;

/// Before the digest.
const DIGEST: &[u8] = b"%latewood sha256 ";
/// Before a note.
const NOTE: &[u8] = b"%latewood note ";
/// Letters of the digest.
const LETTERS: usize = 64;
/// Before the place of the last cross-reference.
const TAIL: &[u8] = b"startxref\n";
/// The end of a file, and of every update.
const END: &[u8] = b"\n%%EOF";
/// Ends of which the digest is worked out; a file has one and one a later update.
const MOST: usize = 16;

/// What the digest in a file says of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It holds: no byte is other than when the file was written.
    Whole,
    /// It holds for the first bytes of the file; the rest was appended later by something else, such as a signature.
    Appended {
        /// How many bytes it holds for.
        to: usize,
    },
    /// There is one, and it does not hold.
    Altered,
    /// There is none: the file was not written by this program, or its end is gone.
    Missing,
}

/// The standing of a file.
pub fn standing(bytes: &[u8]) -> Standing {
    for end in ends(bytes).take(MOST) {
        if let Some(place) = place(&bytes[..end])
            && digest(&bytes[..end], &place).as_bytes() == &bytes[place]
        {
            return if end == bytes.len() { Standing::Whole } else { Standing::Appended { to: end } };
        }
    }
    if bytes.windows(DIGEST.len()).any(|part| part == DIGEST) { Standing::Altered } else { Standing::Missing }
}

/// Writes the digest, and a note before it, into a finished PDF; none where the bytes do not end as a PDF does.
pub(crate) fn kept(mut bytes: Vec<u8>, note: Option<&str>) -> Option<Vec<u8>> {
    let at = bytes.windows(TAIL.len()).rposition(|part| part == TAIL)?;
    let mut lines = Vec::new();
    if let Some(note) = note {
        lines.extend([NOTE, note.as_bytes(), b"\n"].concat());
    }
    lines.extend(DIGEST);
    let start = at + lines.len();
    lines.extend([b'0'; LETTERS]);
    lines.push(b'\n');
    bytes.splice(at..at, lines);
    let place = start..start + LETTERS;
    if self::place(&bytes) != Some(place.clone()) {
        return None;
    }
    let digest = digest(&bytes, &place);
    bytes[place].copy_from_slice(digest.as_bytes());
    Some(bytes)
}

/// The note at the end of a file; none where it has none.
pub fn note(bytes: &[u8]) -> Option<&str> {
    let before = bytes[..place(bytes)?.start - DIGEST.len()].strip_suffix(b"\n")?;
    let line = before.iter().rposition(|byte| *byte == b'\n').map_or(0, |i| i + 1);
    std::str::from_utf8(before[line..].strip_prefix(NOTE)?).ok()
}

/// SHA-256 in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

/// SHA-1 in hexadecimal: some authorities name it for the list of files that they want; it is weak against a forger.
pub fn sha1(bytes: &[u8]) -> String {
    hexadecimal(&sha1::Sha1::digest(bytes))
}

/// Where in these bytes, which end as a PDF does, the digest stands.
fn place(bytes: &[u8]) -> Option<Range<usize>> {
    let before = bytes.strip_suffix(END)?;
    let digits = before.iter().rev().take_while(|byte| byte.is_ascii_digit()).count();
    let before = before[..before.len() - digits].strip_suffix(TAIL)?.strip_suffix(b"\n")?;
    let start = before.len().checked_sub(LETTERS)?;
    let letters = before[start..].iter().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'));
    (digits > 0 && letters && before[..start].ends_with(DIGEST)).then_some(start..start + LETTERS)
}

fn digest(bytes: &[u8], place: &Range<usize>) -> String {
    hexadecimal(&Sha256::new().chain_update(&bytes[..place.start]).chain_update(&bytes[place.end..]).finalize())
}

/// Where the file, or an earlier state of it, ends; the last first.
fn ends(bytes: &[u8]) -> impl Iterator<Item = usize> {
    (0..=bytes.len()).rev().filter(|end| bytes[..*end].ends_with(END))
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(2 * bytes.len()), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAIN: &[u8] = b"%PDF-1.7\n1 0 obj\n1\nendobj\nxref\ntrailer\n<</Size 2>>\nstartxref\n26\n%%EOF";

    #[test]
    fn every_byte_counts() {
        let kept = kept(PLAIN.to_vec(), None).expect("ends as a PDF does");
        assert_eq!(standing(&kept), Standing::Whole);
        for at in 0..kept.len() {
            for bit in 0..8 {
                let mut altered = kept.clone();
                altered[at] ^= 1 << bit;
                assert!(matches!(standing(&altered), Standing::Altered | Standing::Missing), "byte {at}, bit {bit}");
            }
            assert_ne!(standing(&kept[..at]), Standing::Whole, "cut at {at}");
        }
        assert_eq!(standing(PLAIN), Standing::Missing);
    }

    #[test]
    fn what_is_appended_leaves_it_as_it_was() {
        let first = kept(PLAIN.to_vec(), None).expect("ends as a PDF does");
        let other = [first.as_slice(), b"\n2 0 obj\n2\nendobj\nstartxref\n9\n%%EOF\n"].concat();
        assert_eq!(standing(&other), Standing::Appended { to: first.len() });
        let second = kept([first.as_slice(), b"\n2 0 obj\n2\nendobj\nstartxref\n9\n%%EOF"].concat(), Some("a note")).expect("a PDF");
        assert_eq!((standing(&second), note(&second), note(&first)), (Standing::Whole, Some("a note"), None));
        assert!(second.starts_with(&first));
    }

    #[test]
    fn the_digest_is_that_of_all_other_bytes() {
        let kept = kept(PLAIN.to_vec(), None).expect("ends as a PDF does");
        let at = kept.windows(DIGEST.len()).position(|part| part == DIGEST).expect("the comment") + DIGEST.len();
        let rest = [&kept[..at], &kept[at + LETTERS..]].concat();
        assert_eq!(&kept[at..at + LETTERS], sha256(&rest).as_bytes());
        // FIPS 180-4, the example "abc".
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(sha1(b"abc"), "a9993e364706816aba3e25717850c26c9cd0d89d");
    }
}
