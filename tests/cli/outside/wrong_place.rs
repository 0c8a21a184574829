//! Files that cannot be read and places that cannot be written to.

use std::fs;
use std::path::Path;

use super::{CANNOT_READ, CANNOT_WRITE, bucketline, folder, hay_barn, names_in};

const READERS: [&str; 4] = ["check", "risk", "size", "replay"];

fn assert_unreadable(folder: &Path, name: &str, telling: &[&str]) {
    let before = names_in(folder);
    for command in READERS {
        let what = format!("{command} {name}");
        let said = bucketline(folder, &[command, name]).refused(CANNOT_READ, &what);
        assert!(said.starts_with(&format!("bucketline: cannot read {name}: ")), "{said}");
        for part in telling {
            assert!(said.contains(part), "{what}: no {part:?} in {said}");
        }
        assert_eq!(names_in(folder), before, "{what} left something behind");
    }
}

#[test]
fn what_cannot_be_read_is_told_with_its_cure() {
    let folder = folder();
    fs::write(folder.path().join("latin.json"), b"{\n\"title\": \"Caf\xE9\"}").expect("written");
    fs::create_dir(folder.path().join("a_folder")).expect("made");
    assert_unreadable(
        folder.path(),
        "latin.json",
        &["not UTF-8 text (line 2)", "save it as UTF-8"],
    );
    assert_unreadable(folder.path(), "a_folder", &["it is a directory", "a scenario file in it"]);
    assert_unreadable(folder.path(), "none.json", &["no such file", "check the name"]);
    assert_unreadable(folder.path(), "latin.json/x.json", &["Not a directory"]);
    fs::write(folder.path().join("big.json"), vec![b' '; 9 << 20]).expect("written");
    assert_unreadable(folder.path(), "big.json", &["larger than 8 MB"]);
}

#[cfg(unix)]
#[test]
fn what_is_not_ours_to_read_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder();
    let file = folder.path().join("closed.json");
    fs::write(&file, "{}").expect("written");
    fs::set_permissions(&file, fs::Permissions::from_mode(0o000)).expect("permissions can be set");
    if fs::read(&file).is_ok() {
        // The system administrator may read everything: nothing to see here.
        return;
    }
    assert_unreadable(folder.path(), "closed.json", &["ermission denied"]);
}

/// No folder can be made below a regular file, whoever asks.
#[test]
fn charts_that_cannot_be_written_are_told() {
    let folder = folder();
    let file = hay_barn();
    fs::write(folder.path().join("file"), "mine").expect("written");
    for arguments in
        [["risk", "--runs", "200"].as_slice(), &["size", "--runs", "200"], &["replay", "--planned"]]
    {
        for out in ["file", "file/charts"] {
            let mut all = arguments.to_vec();
            all.extend([&*file, "--out", out]);
            let said = bucketline(folder.path(), &all).refused(CANNOT_WRITE, arguments[0]);
            assert!(said.contains(&format!("cannot write {out}: ")), "{said}");
            assert!(said.contains("cure: check that the folder exists"), "{said}");
            assert_eq!(names_in(folder.path()), ["file"], "{}", arguments[0]);
        }
    }
    assert_eq!(fs::read_to_string(folder.path().join("file")).expect("there"), "mine");
}

#[test]
fn new_into_a_missing_folder_is_told() {
    let folder = folder();
    let said = bucketline(folder.path(), &["new", "none/barn.json"]).refused(CANNOT_WRITE, "new");
    assert!(said.starts_with("bucketline: cannot write none/barn.json: "), "{said}");
    assert!(said.contains("cure: check that the folder exists"), "{said}");
    // The file it would have written through is nobody's business.
    assert!(!said.contains(".tmp"), "{said}");
    assert_eq!(names_in(folder.path()), [""; 0]);
}

/// Not even `--force` puts a file in the place of a folder, and nothing is left of the try.
#[test]
fn new_over_a_folder_is_told() {
    let folder = folder();
    fs::create_dir(folder.path().join("barn.json")).expect("made");
    for arguments in [["new", "barn.json"].as_slice(), &["new", "barn.json", "--force"]] {
        let said = bucketline(folder.path(), arguments).refused(CANNOT_WRITE, "new");
        assert!(said.contains("barn.json"), "{said}");
        assert_eq!(names_in(folder.path()), ["barn.json"]);
        assert_eq!(names_in(&folder.path().join("barn.json")), [""; 0]);
    }
}

#[cfg(unix)]
#[test]
fn a_written_file_is_for_everyone_to_read() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder();
    bucketline(folder.path(), &["new", "barn.json"]).answered("new");
    let mode = fs::metadata(folder.path().join("barn.json")).expect("there").permissions().mode();
    assert_eq!(mode & 0o777, 0o644);
}
