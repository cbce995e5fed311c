//! A text that somebody else wrote, shown on one line.

/// A text without characters that move a cursor, colour a terminal, end a line or turn the direction of writing: each is shown as its
/// number, `\u{1b}`.
pub fn on_one_line(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        if is_hidden(c) { shown.extend(c.escape_unicode()) } else { shown.push(c) }
    }
    shown
}

/// A JSON document with the same characters as JSON escapes them; line ends between its entries stay.
pub fn in_json(json: &str) -> String {
    let mut shown = String::with_capacity(json.len());
    for c in json.chars() {
        if c != '\n' && is_hidden(c) {
            // All of them are below U+FFFF.
            shown.push_str(&format!("\\u{:04x}", u32::from(c)));
        } else {
            shown.push(c);
        }
    }
    shown
}

/// Control characters (Unicode Cc), ends of lines and paragraphs, and marks of direction (UAX 9).
fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{2028}' | '\u{2029}' | '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_moves_the_cursor() {
        assert_eq!(on_one_line("A\u{1b}[2J\nB\u{9b}\u{202e}Ü№"), "A\\u{1b}[2J\\u{a}B\\u{9b}\\u{202e}Ü№");
        let text = "\u{7f}\u{85}\u{2028}";
        let json = in_json(&serde_json::to_string(&[text]).expect("JSON"));
        assert!(json.is_ascii() && serde_json::from_str::<Vec<String>>(&json).expect("JSON") == [text], "{json}");
    }
}
