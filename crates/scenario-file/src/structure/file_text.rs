//! The text of a file.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use crate::errors::message::{Message, count, says, typed};
use crate::errors::mistakes::ScenarioError;

/// The largest file that is read, bytes.
pub(crate) const MOST_BYTES: u64 = 8 * 1024 * 1024;

/// What is said of a larger one, and its cure.
pub(crate) const TOO_LARGE: &str = "it is larger than 8 MB, too large for a scenario";
pub(crate) const SMALLER: &str =
    "check that it is a scenario, and take out what does not belong in it";

/// The text of a file.
pub(crate) fn text_of(path: &Path) -> Result<String, ScenarioError> {
    let unreadable = |problem: Message, cure: &'static str| ScenarioError::Unreadable {
        path: path.to_path_buf(),
        problem,
        cure: cure.into(),
    };
    if path.is_dir() {
        let cure = "give the name of a scenario file in it";
        return Err(unreadable("it is a directory".into(), cure));
    }
    let mut bytes = Vec::new();
    let read = File::open(path).and_then(|file| file.take(MOST_BYTES + 1).read_to_end(&mut bytes));
    if let Err(error) = read {
        return Err(match error.kind() {
            std::io::ErrorKind::NotFound => {
                unreadable("there is no such file".into(), "check the name and the folder")
            }
            _ => unreadable(
                typed(error.to_string()).into(),
                "check that it is a file of yours to read",
            ),
        });
    }
    if bytes.len() as u64 > MOST_BYTES {
        return Err(unreadable(TOO_LARGE.into(), SMALLER));
    }
    match String::from_utf8(bytes) {
        Ok(text) => Ok(text),
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let before = error.as_bytes()[..at].iter();
            let line = before.filter(|byte| **byte == b'\n').count() + 1;
            let problem = says!["it is not UTF-8 text (line ", count(line), ")"];
            Err(unreadable(problem, "save it as UTF-8 in your editor"))
        }
    }
}

/// The text without the byte order mark that some editors put before UTF-8.
pub(crate) fn without_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}
