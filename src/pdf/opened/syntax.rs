//! Objects of a PDF from their bytes (ISO 32000-1, 7.2 and 7.3), strictly: what two readers could read in two ways is refused.
//!
//! An object is read within bytes that no other object has, so that the work of reading a whole file grows with its length.

use super::super::attachments::Unreadable;
use lopdf::{Dictionary, Object, StringFormat};

/// Arrays and dictionaries in each other.
const DEEPEST: usize = 64;
/// Parts of one object: an array of a thousand member sheets has a tenth of them.
const MOST: usize = 500_000;

/// Reads one thing after another.
pub(super) struct Cursor<'a> {
    bytes: &'a [u8],
    at: usize,
    parts: usize,
}

pub(super) fn is_space(byte: u8) -> bool {
    matches!(byte, b'\0' | b'\t' | b'\n' | b'\x0c' | b'\r' | b' ')
}

fn is_regular(byte: u8) -> bool {
    !is_space(byte) && !matches!(byte, b'(' | b')' | b'<' | b'>' | b'[' | b']' | b'{' | b'}' | b'/' | b'%')
}

impl<'a> Cursor<'a> {
    /// A cursor at a place in these bytes.
    pub(super) fn at(bytes: &'a [u8], at: usize) -> Self {
        Self { bytes, at, parts: 0 }
    }

    /// Where it stands.
    pub(super) fn place(&self) -> usize {
        self.at
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn wrong<T>(&self, what: &str) -> Result<T, Unreadable> {
        Err(Unreadable(format!("{what} at byte {}", self.at)))
    }

    /// Passes over white space.
    pub(super) fn blank(&mut self) {
        while self.peek().is_some_and(is_space) {
            self.at += 1;
        }
    }

    /// Passes over white space and comments.
    pub(super) fn space(&mut self) {
        self.blank();
        while self.peek() == Some(b'%') {
            while self.peek().is_some_and(|byte| !matches!(byte, b'\r' | b'\n')) {
                self.at += 1;
            }
            self.blank();
        }
    }

    /// Passes over these characters, if they stand here.
    pub(super) fn takes(&mut self, text: &[u8]) -> bool {
        let there = self.bytes.get(self.at..).is_some_and(|rest| rest.starts_with(text));
        if there {
            self.at += text.len();
        }
        there
    }

    /// Passes over a word, which has to stand here.
    pub(super) fn word(&mut self, word: &str) -> Result<(), Unreadable> {
        let start = self.at;
        if self.takes(word.as_bytes()) && !self.peek().is_some_and(is_regular) {
            return Ok(());
        }
        self.at = start;
        self.wrong(&format!("no {word}"))
    }

    /// A whole number without a sign.
    pub(super) fn number(&mut self) -> Result<usize, Unreadable> {
        let start = self.at;
        while self.peek().is_some_and(|byte| byte.is_ascii_digit()) {
            self.at += 1;
        }
        let digits = std::str::from_utf8(&self.bytes[start..self.at]).unwrap_or_default();
        match digits.parse() {
            Ok(number) if !self.peek().is_some_and(is_regular) => Ok(number),
            _ => {
                self.at = start;
                self.wrong("no number")
            }
        }
    }

    /// So many bytes.
    pub(super) fn bytes(&mut self, count: usize) -> Result<&'a [u8], Unreadable> {
        match self.at.checked_add(count).and_then(|end| self.bytes.get(self.at..end)) {
            Some(bytes) => {
                self.at += count;
                Ok(bytes)
            }
            None => self.wrong("a stream is longer than its place"),
        }
    }

    /// An object that is no stream.
    pub(super) fn object(&mut self) -> Result<Object, Unreadable> {
        self.object_in(DEEPEST)
    }

    fn object_in(&mut self, depth: usize) -> Result<Object, Unreadable> {
        self.parts += 1;
        if self.parts > MOST {
            return self.wrong("an object of too many parts");
        }
        if depth == 0 {
            return self.wrong("nested too deep");
        }
        self.space();
        match self.peek() {
            Some(b'/') => Ok(Object::Name(self.name()?)),
            Some(b'(') => self.literal(),
            Some(b'[') => self.array(depth),
            Some(b'<') if self.bytes.get(self.at + 1) == Some(&b'<') => Ok(Object::Dictionary(self.dictionary(depth)?)),
            Some(b'<') => self.hexadecimal(),
            Some(b'+' | b'-' | b'.' | b'0'..=b'9') => self.numeric(),
            _ => self.constant(),
        }
    }

    fn constant(&mut self) -> Result<Object, Unreadable> {
        for (word, object) in [("true", Object::Boolean(true)), ("false", Object::Boolean(false)), ("null", Object::Null)] {
            if self.word(word).is_ok() {
                return Ok(object);
            }
        }
        self.wrong("no object")
    }

    fn array(&mut self, depth: usize) -> Result<Object, Unreadable> {
        self.at += 1;
        let mut items = Vec::new();
        loop {
            self.space();
            if self.takes(b"]") {
                return Ok(Object::Array(items));
            }
            items.push(self.object_in(depth - 1)?);
        }
    }

    fn dictionary(&mut self, depth: usize) -> Result<Dictionary, Unreadable> {
        self.at += 2;
        let mut entries = Dictionary::new();
        loop {
            self.space();
            if self.takes(b">>") {
                return Ok(entries);
            }
            if self.peek() != Some(b'/') {
                return self.wrong("no key");
            }
            let key = self.name()?;
            if entries.has(&key) {
                return self.wrong("a key that is given twice");
            }
            let value = self.object_in(depth - 1)?;
            entries.set(key, value);
        }
    }

    fn name(&mut self) -> Result<Vec<u8>, Unreadable> {
        self.at += 1;
        let mut name = Vec::new();
        while let Some(byte) = self.peek().filter(|byte| is_regular(*byte)) {
            self.at += 1;
            if byte != b'#' {
                name.push(byte);
                continue;
            }
            match (self.digit(), self.digit()) {
                (Some(high), Some(low)) => name.push(high << 4 | low),
                _ => return self.wrong("a name that is broken"),
            }
        }
        Ok(name)
    }

    /// A hexadecimal digit, passed over.
    fn digit(&mut self) -> Option<u8> {
        let digit = char::from(self.peek()?).to_digit(16)?;
        self.at += 1;
        u8::try_from(digit).ok()
    }

    fn hexadecimal(&mut self) -> Result<Object, Unreadable> {
        self.at += 1;
        let (mut text, mut high) = (Vec::new(), None);
        loop {
            self.blank();
            if self.takes(b">") {
                text.extend(high.map(|high| high << 4));
                return Ok(string(text));
            }
            let Some(digit) = self.digit() else { return self.wrong("a string that is broken") };
            match high.take() {
                Some(high) => text.push(high << 4 | digit),
                None => high = Some(digit),
            }
        }
    }

    fn literal(&mut self) -> Result<Object, Unreadable> {
        self.at += 1;
        let (mut text, mut open) = (Vec::new(), 1_usize);
        loop {
            let Some(byte) = self.peek() else { return self.wrong("a string without an end") };
            self.at += 1;
            match byte {
                b'\\' => {
                    self.escaped(&mut text);
                    continue;
                }
                b'(' => open += 1,
                b')' => open -= 1,
                b'\r' => {
                    self.takes(b"\n");
                    text.push(b'\n');
                    continue;
                }
                _ => {}
            }
            if open == 0 {
                return Ok(string(text));
            }
            text.push(byte);
        }
    }

    /// What stands behind a backslash.
    fn escaped(&mut self, text: &mut Vec<u8>) {
        let Some(byte) = self.peek() else { return };
        self.at += 1;
        match byte {
            b'n' => text.push(b'\n'),
            b'r' => text.push(b'\r'),
            b't' => text.push(b'\t'),
            b'b' => text.push(8),
            b'f' => text.push(12),
            b'\n' => {}
            b'\r' => {
                self.takes(b"\n");
            }
            b'0'..=b'7' => {
                let mut code = u32::from(byte - b'0');
                for _ in 0..2 {
                    let Some(digit) = self.peek().filter(|byte| matches!(byte, b'0'..=b'7')) else { break };
                    code = code * 8 + u32::from(digit - b'0');
                    self.at += 1;
                }
                text.push(code.to_le_bytes()[0]);
            }
            other => text.push(other),
        }
    }

    /// A number, or a reference: `12 0 R`.
    fn numeric(&mut self) -> Result<Object, Unreadable> {
        if let Some(reference) = self.reference() {
            return Ok(reference);
        }
        let start = self.at;
        while self.peek().is_some_and(is_regular) {
            self.at += 1;
        }
        let text = std::str::from_utf8(&self.bytes[start..self.at]).unwrap_or_default();
        let is_plain = text.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'+' | b'-' | b'.'));
        let number = match text.parse::<i64>() {
            Ok(whole) => Some(Object::Integer(whole)),
            Err(_) => text.parse::<f32>().ok().filter(|real| is_plain && real.is_finite()).map(Object::Real),
        };
        match number {
            Some(number) => Ok(number),
            None => {
                self.at = start;
                self.wrong("no number")
            }
        }
    }

    fn reference(&mut self) -> Option<Object> {
        let start = self.at;
        let mut read = || {
            let number = u32::try_from(self.number().ok()?).ok()?;
            self.blank();
            let generation = u16::try_from(self.number().ok()?).ok()?;
            self.blank();
            self.word("R").ok()?;
            Some(Object::Reference((number, generation)))
        };
        let found = read();
        if found.is_none() {
            self.at = start;
        }
        found
    }
}

/// A string, whichever way it was written.
fn string(text: Vec<u8>) -> Object {
    Object::String(text, StringFormat::Literal)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Object, Unreadable> {
        Cursor::at(text.as_bytes(), 0).object()
    }

    #[test]
    fn objects_are_read_as_the_standard_writes_them() {
        // ISO 32000-1, 7.3: the examples of its clauses, shortened.
        assert_eq!(read("-98"), Ok(Object::Integer(-98)));
        assert_eq!(read("+123.6"), Ok(Object::Real(123.6)));
        assert_eq!(read("4."), Ok(Object::Real(4.0)));
        assert_eq!(read("/Lime#20Green"), Ok(Object::Name(b"Lime Green".to_vec())));
        assert_eq!(read("<901FA>"), Ok(string(vec![0x90, 0x1f, 0xa0])));
        assert_eq!(read("(a(b)\\)\\053\\\nc)"), Ok(string(b"a(b))+c".to_vec())));
        assert_eq!(read("[1 0 R 2 0]"), Ok(Object::Array(vec![Object::Reference((1, 0)), 2.into(), 0.into()])));
        assert_eq!(read("<</A% a remark\n null/B<</C true>>>>").map(|o| o.as_dict().map(Dictionary::len).unwrap_or(0)), Ok(2));
    }

    #[test]
    fn what_could_be_read_in_two_ways_or_without_end_is_refused() {
        let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
        let long = format!("[{}]", "0 ".repeat(MOST));
        for text in ["", "[", "(", "<<", "<</A 1/A 2>>", "<</A>>", "1e5", "nan", "--1", "<9z>", "/A#zz", "truely", &deep, &long] {
            assert!(read(text).is_err(), "{}", text.chars().take(40).collect::<String>());
        }
    }
}
