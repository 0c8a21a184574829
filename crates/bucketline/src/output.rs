//! Printing to the terminal, and the folder that charts go to.

use std::io::Write;
use std::path::{Path, PathBuf};

use answers::text::wrapped_lines;
use scenario_file::harmless;

use crate::failure::Failure;

/// Prints to standard output. A reader that has gone away (`| head`) is no error. Names in the text may come
/// from anyone, so nothing in it steers the terminal.
pub fn print(text: &str) -> Result<(), Failure> {
    let text = harmless(text);
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            Err(Failure::CannotWrite { path: "standard output".into(), error })
        }
        _ => Ok(()),
    }
}

/// Prints a result as JSON.
pub fn print_json(result: &impl serde::Serialize) -> Result<(), Failure> {
    let mut text = serde_json::to_string_pretty(result).unwrap_or_default();
    text.push('\n');
    print(&text)
}

/// Prints to standard error; if that fails there is nowhere left to say so. On a terminal no line is wider than it; in a
/// file each stays one line, as programs read them.
pub fn complain(text: &str) {
    let stderr = std::io::stderr();
    let text = harmless(text);
    let text = match terminal_size::terminal_size_of(&stderr) {
        Some((width, _)) => wrapped_lines(&text, usize::from(width.0)),
        None => text,
    };
    let _ = stderr.lock().write_all(text.as_bytes());
}

/// Makes a folder with all above it.
pub fn make_folder(path: &Path) -> Result<(), Failure> {
    std::fs::create_dir_all(path)
        .map_err(|error| Failure::CannotWrite { path: path.to_owned(), error })
}

/// Makes a folder with all above it, and tries to write into it.
///
/// - Errors: [`Failure::CannotWrite`].
pub fn try_folder(path: &Path) -> Result<(), Failure> {
    make_folder(path)?;
    tempfile::NamedTempFile::new_in(path).map(|_| ()).map_err(|error| Failure::CannotWrite {
        path: path.to_owned(),
        error: std::io::Error::from(error.kind()),
    })
}

/// The folder for a scenario's charts: the one asked for, or `out/` and the title in plain letters.
pub fn chart_folder(asked: Option<&Path>, title: &str) -> PathBuf {
    if let Some(folder) = asked {
        return folder.to_owned();
    }
    let mut name = String::new();
    for letter in title.chars() {
        if letter.is_alphanumeric() {
            name.extend(letter.to_lowercase());
        } else if !name.ends_with('-') && !name.is_empty() {
            name.push('-');
        }
    }
    let name: String = name.trim_end_matches('-').chars().take(60).collect();
    let name = if name.is_empty() { "scenario" } else { name.trim_end_matches('-') };
    Path::new("out").join(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_is_named_after_the_title() {
        let folder = |title| chart_folder(None, title);
        assert_eq!(folder("Hay barn, Quarry Lane"), Path::new("out/hay-barn-quarry-lane"));
        assert_eq!(folder("../.. /"), Path::new("out/scenario"));
    }
}
