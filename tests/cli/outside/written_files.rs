//! What is written over, and what is not: devices, pipes, folders, links out of the folder, protected files.
#![cfg(unix)]

use std::fs::{self, Permissions};
use std::os::unix::fs::{MetadataExt, PermissionsExt, chown, symlink};
use std::path::Path;
use std::process::Command;

use super::{
    ANSWERED, CANNOT_WRITE, Ended, PROGRAM, WHOSE_PICTURES, bucketline, folder, hay_barn, names_in,
    scenario,
};

/// Both ways to write over a file that is there, and how each must refuse.
fn refused_by_both(folder: &Path, name: &str, part: &str) {
    let building = scenario("buildings/hay_barn");
    for arguments in [["new", name, "--force"].as_slice(), &["flow", &building, "--write", name]] {
        let said = bucketline(folder, arguments).refused(CANNOT_WRITE, arguments[0]);
        assert!(said.contains(&format!("cannot write {name}: ")), "{said}");
        assert!(said.contains(part) && said.contains("cure: "), "{said}");
    }
}

#[test]
fn devices_pipes_and_folders_are_not_written_over() {
    let folder = folder();
    let made = Command::new("mkfifo").arg(folder.path().join("pipe.json")).status();
    assert!(made.is_ok_and(|status| status.success()));
    fs::create_dir(folder.path().join("folder.json")).expect("made");
    refused_by_both(folder.path(), "pipe.json", "a device, a pipe or a socket");
    refused_by_both(folder.path(), "/dev/null", "a device, a pipe or a socket");
    refused_by_both(folder.path(), "folder.json", "it is a folder");
    assert_eq!(names_in(folder.path()), ["folder.json", "pipe.json"]);
}

#[test]
fn a_link_is_followed_within_its_folder_and_not_out_of_it() {
    let folder = folder();
    let here = folder.path().join("here");
    fs::create_dir(&here).expect("made");
    let text = fs::read_to_string(hay_barn()).expect("the scenario");
    let outside = folder.path().join("outside.json");
    fs::write(&outside, &text).expect("written");
    symlink("../outside.json", here.join("away.json")).expect("linked");
    symlink("nothing.json", here.join("nowhere.json")).expect("linked");
    refused_by_both(&here, "away.json", "out of its folder");
    refused_by_both(&here, "nowhere.json", "a link to nothing.json");
    assert_eq!(fs::read_to_string(&outside).expect("there"), text);
    // Within the folder the link stays a link, and its file is written.
    fs::write(here.join("plan.json"), &text).expect("written");
    symlink("plan.json", here.join("near.json")).expect("linked");
    let building = scenario("buildings/hay_barn");
    bucketline(&here, &["flow", &building, "--write", "near.json"]).answered("flow");
    assert!(here.join("near.json").is_symlink());
    assert!(fs::read_to_string(here.join("plan.json")).expect("there").contains("\"building\""));
}

/// Replacing a file asks only for the folder's permission, so the file's own has to be looked at: even the
/// system administrator is refused.
#[test]
fn a_protected_file_is_not_written_over() {
    let folder = folder();
    let file = folder.path().join("mine.json");
    let text = fs::read_to_string(hay_barn()).expect("the scenario");
    fs::write(&file, &text).expect("written");
    fs::set_permissions(&file, Permissions::from_mode(0o444)).expect("protected");
    refused_by_both(folder.path(), "mine.json", "protected against writing");
    assert_eq!(fs::read_to_string(&file).expect("there"), text);
    assert_eq!(names_in(folder.path()), ["mine.json"]);
}

#[test]
fn a_file_keeps_its_mode_and_owner() {
    let folder = folder();
    let file = folder.path().join("mine.json");
    fs::copy(hay_barn(), &file).expect("copied");
    fs::set_permissions(&file, Permissions::from_mode(0o640)).expect("set");
    // Only the administrator may give a file away.
    let given = chown(&file, Some(12_345), Some(12_346)).is_ok();
    let building = scenario("buildings/hay_barn");
    bucketline(folder.path(), &["flow", &building, "--write", "mine.json"]).answered("flow");
    let after = fs::metadata(&file).expect("there");
    assert_eq!(after.mode() & 0o7777, 0o640);
    if given {
        assert_eq!((after.uid(), after.gid()), (12_345, 12_346));
    }
}

#[test]
fn a_new_file_is_as_open_as_the_umask_says() {
    for (umask, mode) in [("077", 0o600), ("022", 0o644), ("002", 0o664)] {
        let folder = folder();
        let script = format!("umask {umask}; exec \"$0\" new barn.json");
        let said = Command::new("sh")
            .args(["-c", &script])
            .arg(&*PROGRAM)
            .current_dir(folder.path())
            .output();
        assert_eq!(Ended::of(said.expect("the shell starts")).code, Some(ANSWERED));
        let file = fs::metadata(folder.path().join("barn.json")).expect("there");
        assert_eq!(file.mode() & 0o777, mode, "{umask}");
    }
}

#[test]
fn a_chart_is_not_written_through_a_link() {
    let folder = folder();
    let charts = folder.path().join("charts");
    fs::create_dir(&charts).expect("made");
    fs::write(folder.path().join("mine.txt"), "my own work").expect("written");
    symlink("../mine.txt", charts.join("replay-planned.svg")).expect("linked");
    let arguments = ["replay", &*hay_barn(), "--planned", "--out", "charts"];
    // The answer is given; the picture is told to be missing.
    let ended = bucketline(folder.path(), &arguments);
    assert_eq!(ended.code, Some(CANNOT_WRITE), "{}", ended.err);
    assert!(ended.out.contains("With every duration at its mean"), "{}", ended.out);
    assert!(ended.err.contains("no picture `replay-planned`"), "{}", ended.err);
    assert_eq!(fs::read_to_string(folder.path().join("mine.txt")).expect("there"), "my own work");
}

/// Two scenarios of one name in two folders have one folder of pictures: the second says what it writes over.
#[test]
fn pictures_of_another_scenario_are_not_written_over_without_a_word() {
    let folder = folder();
    let answer = |from: &str| {
        let ended =
            bucketline(folder.path(), &["replay", &format!("{from}/barn.json"), "--planned"]);
        assert_eq!(ended.code, Some(ANSWERED), "{}", ended.err);
        ended.err
    };
    for from in ["north", "south"] {
        fs::create_dir(folder.path().join(from)).expect("made");
        fs::copy(hay_barn(), folder.path().join(from).join("barn.json")).expect("copied");
    }
    assert_eq!(answer("north"), "");
    assert_eq!(answer("north"), "");
    let said = answer("south");
    let north = folder.path().canonicalize().expect("there").join("north/barn.json");
    let expected = format!("out/barn/ were those of {}; they are written over", north.display());
    assert!(said.contains(&expected), "{said}");
    assert_eq!(answer("south"), "");
    let whose = fs::read_to_string(folder.path().join("out/barn").join(WHOSE_PICTURES));
    assert!(whose.expect("there").ends_with("south/barn.json\n"));
}
