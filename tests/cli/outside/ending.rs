//! A reader that goes away, Ctrl-C, other signals to end, and a system that refuses threads.
#![cfg(unix)]

use std::process::Command;
use std::thread::sleep;
use std::time::{Duration, Instant};

use serde_json::Value;

use super::{CAUTION, ENDED_EARLY, Ended, PROGRAM, bucketline, call, folder, hay_barn};

/// `bucketline ... | head -0`: nobody reads, which is no fault of the program's.
#[test]
fn a_closed_pipe_is_no_error() {
    let folder = folder();
    let file = hay_barn();
    for arguments in [
        ["check", &*file].as_slice(),
        &["risk", &file, "--runs", "300", "--no-charts"],
        &["risk", &file, "--runs", "300", "--json"],
        &["size", &file, "--runs", "300", "--no-charts"],
        &["replay", &file, "--json"],
        &["schema"],
        &["completions", "bash"],
        &["man"],
        &["--help"],
    ] {
        let mut child = call(folder.path(), arguments).spawn().expect("the program starts");
        drop(child.stdout.take());
        let ended = Ended::of(child.wait_with_output().expect("the program ends"));
        assert_eq!(ended.code, Some(0), "{arguments:?}: {}", ended.err);
        assert_eq!(ended.err, "", "{arguments:?}");
    }
}

/// Starts a batch that would take hours, sends Ctrl-C after a while, waits for the end.
fn interrupted(arguments: &[&str], after: Duration) -> Ended {
    ended_by("-INT", arguments, after)
}

/// The same with any signal.
fn ended_by(signal: &str, arguments: &[&str], after: Duration) -> Ended {
    let folder = folder();
    let child = call(folder.path(), arguments).spawn().expect("the program starts");
    sleep(after);
    let sent = Command::new("kill").args([signal, &child.id().to_string()]).status();
    assert!(sent.is_ok_and(|status| status.success()), "the program had ended by itself");
    let asked = Instant::now();
    let ended = Ended::of(child.wait_with_output().expect("the program ends"));
    let took = asked.elapsed();
    assert!(took < Duration::from_secs(20), "it took {took:?} to end");
    assert_eq!(ended.code, Some(ENDED_EARLY), "{}", ended.err);
    assert_eq!(ended.err, "");
    ended
}

#[test]
fn ctrl_c_ends_a_batch_with_the_answer_so_far() {
    let file = hay_barn();
    let arguments = ["risk", &file, "--runs", "1000000000", "--no-charts"];
    let text = interrupted(&arguments, Duration::from_secs(1)).out;
    assert!(text.contains("\nEnded early: this rests on the fires simulated so far.\n"), "{text}");
    assert_eq!(text.lines().last(), Some(CAUTION));
    assert!(!text.contains("1,000,000,000 fires"), "{text}");
}

#[test]
fn ctrl_c_is_told_in_json_too() {
    let file = hay_barn();
    let arguments = ["risk", &file, "--runs", "1000000000", "--json"];
    let text = interrupted(&arguments, Duration::from_secs(1)).out;
    let json: Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(json["ended_early"], true);
    let runs = json["replications"].as_u64().expect("a count");
    assert!(runs < 1_000_000_000, "{runs}");
}

/// A size question so close to its target that no number of runs settles it soon.
#[test]
fn ctrl_c_ends_a_size_question() {
    let file = hay_barn();
    let arguments = ["size", &file, "--runs", "1000000000", "--target", "0.0001%", "--no-charts"];
    let text = interrupted(&arguments, Duration::from_secs(1)).out;
    assert!(text.contains("\nEnded early: this rests on the fires simulated so far.\n"), "{text}");
    assert_eq!(text.lines().last(), Some(CAUTION));
}

/// A share so near to all that no number of runs settles it soon.
#[test]
fn ctrl_c_ends_grading_and_reach() {
    let file = hay_barn();
    for command in ["grade", "reach"] {
        let arguments = [command, &file, "--runs", "1000000000", "--share", "99.99999%"];
        let text = interrupted(&arguments, Duration::from_secs(1)).out;
        assert!(text.contains("\nEnded early: "), "{text}");
        assert_eq!(text.lines().last(), Some(CAUTION));
    }
}

#[test]
fn a_signal_to_terminate_or_to_hang_up_ends_with_the_answer_so_far() {
    let file = hay_barn();
    for signal in ["-TERM", "-HUP"] {
        let arguments = ["risk", &file, "--runs", "1000000000", "--json"];
        let text = ended_by(signal, &arguments, Duration::from_secs(1)).out;
        let json: Value = serde_json::from_str(&text).expect("JSON");
        assert_eq!(json["ended_early"], true, "{signal}");
    }
}

/// With no room for the stack of another thread the one there is does the work, to the same figures.
#[test]
fn where_the_system_refuses_threads_the_answer_is_the_same() {
    let folder = folder();
    let file = hay_barn();
    let arguments = ["risk", &file, "--runs", "2000", "--json", "--threads"];
    let few = bucketline(folder.path(), &[&arguments[..], &["1"]].concat()).answered("one thread");
    // A second stack of this size does not go into 500 MiB of addresses.
    const STACK: &str = "400000000";
    let call: Vec<String> = [PROGRAM.to_string_lossy().into_owned()]
        .into_iter()
        .chain(arguments.map(str::to_owned))
        .chain(["2".to_owned()])
        .collect();
    let limited = Command::new("sh")
        .args(["-c", "ulimit -v 500000; exec \"$@\"", "sh"])
        .args(&call)
        .env("RUST_MIN_STACK", STACK)
        .output()
        .expect("a shell");
    let many = Ended::of(limited);
    assert_eq!(many.code, Some(0), "{}", many.err);
    assert!(many.out == few, "the figures differ");
}
