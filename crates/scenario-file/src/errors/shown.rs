//! Text from files and command lines as a terminal may be given it.

/// The text with every character that could steer a terminal or turn the reading order written as its JSON
/// escape: `\u001b`, `\u202e`. Line breaks and tabs stay. In JSON it is the same text as before.
pub fn harmless(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for letter in text.chars() {
        if matches!(letter, '\n' | '\t') || !is_harmful(letter) {
            shown.push(letter);
        } else {
            push_escaped(&mut shown, letter);
        }
    }
    shown
}

/// The JSON escape of a character, which a shell's `$'...'` takes too.
pub(crate) fn push_escaped(shown: &mut String, letter: char) {
    let mut units = [0; 2];
    for unit in letter.encode_utf16(&mut units) {
        shown.push_str(&format!("\\u{unit:04x}"));
    }
}

/// Whether a character does something on a terminal, or to the text around it, in place of being seen.
pub(crate) fn is_harmful(letter: char) -> bool {
    letter.is_control()
        || matches!(
            letter,
            // Marks, embeddings, overrides and isolates of the bidirectional algorithm (UAX 9, table 2).
            '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
            // Line and paragraph separators; a byte order mark within a text; invisible tags.
            | '\u{2028}' | '\u{2029}' | '\u{feff}' | '\u{e0000}'..='\u{e007f}'
        )
}

/// A word for a command to be typed into a POSIX shell: as it is where that is safe, else in quotes.
pub fn shell_quoted(word: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "_./-+=:,@%".contains(c);
    let word = if word.starts_with('-') { format!("./{word}") } else { word.to_string() };
    if !word.is_empty() && word.chars().all(plain) {
        return word;
    }
    if !word.chars().any(is_harmful) {
        return format!("'{}'", word.replace('\'', "'\\''"));
    }
    let mut quoted = "$'".to_string();
    for letter in word.chars() {
        match letter {
            '\'' | '\\' => quoted.extend(['\\', letter]),
            letter if u32::from(letter) > 0xffff && is_harmful(letter) => {
                quoted.push_str(&format!("\\U{:08x}", u32::from(letter)));
            }
            letter if is_harmful(letter) => push_escaped(&mut quoted, letter),
            letter => quoted.push(letter),
        }
    }
    quoted.push('\'');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_written_as_its_escape() {
        let rows = [
            ("Quarry Lane, Käse 木\n\tnext", "Quarry Lane, Käse 木\n\tnext"),
            ("\u{1b}[31mred\u{7}", "\\u001b[31mred\\u0007"),
            ("\u{9b}31m \u{7f} \r", "\\u009b31m \\u007f \\u000d"),
            ("a\u{202e}b\u{2066}c", "a\\u202eb\\u2066c"),
            ("\u{e0041}", "\\udb40\\udc41"),
        ];
        for (text, shown) in rows {
            assert_eq!(harmless(text), shown);
            // In JSON the escapes stand for the same text.
            let json = serde_json::to_string(text).unwrap();
            assert_eq!(serde_json::from_str::<String>(&harmless(&json)).unwrap(), text);
        }
    }

    /// The shell itself says what it makes of each word.
    #[cfg(unix)]
    #[test]
    fn a_quoted_word_comes_back_whole_from_the_shell() {
        for word in [
            "barn.json",
            "hay barn.json",
            "it's; rm $HOME.json",
            "-x.json",
            "a\u{1b}[2Jb",
            "",
            "ü*?",
        ] {
            let quoted = shell_quoted(word);
            assert!(!quoted.chars().any(is_harmful), "{quoted:?}");
            let said = std::process::Command::new("bash")
                .args(["-c", &format!("printf %s {quoted}")])
                .env("LC_ALL", "C.UTF-8")
                .output()
                .unwrap();
            let expected =
                if word.starts_with('-') { format!("./{word}") } else { word.to_string() };
            assert_eq!(String::from_utf8(said.stdout).unwrap(), expected, "{quoted}");
        }
    }
}
