//! Text from a file or the command line never steers the terminal, and every title makes charts.

use std::fs;

use serde_json::Value;

use super::{PROGRAM, WRONG_COMMAND, WRONG_SCENARIO, bucketline, folder, names_in, write_changed};

/// Whether a text would do something on a terminal: C0 and C1 controls, and what turns the reading order
/// (Unicode Standard Annex 9, table 2). Written down here on its own.
fn steers(text: &str) -> bool {
    let harmful = |c: char| {
        let c = u32::from(c);
        (c < 0x20 && c != 0x0a && c != 0x09)
            || (0x7f..=0x9f).contains(&c)
            || [0x61c, 0x200e, 0x200f].contains(&c)
            || (0x202a..=0x202e).contains(&c)
            || (0x2066..=0x2069).contains(&c)
    };
    text.chars().any(harmful)
}

/// A name that turns the reading order, and characters that are none.
const TITLE: &str = "Barn \u{202e}nrab\u{2066} \u{ffff}\u{fffe}\u{fdd0} Lane";

#[test]
fn a_title_that_turns_the_reading_order_is_shown_as_escapes_and_makes_every_chart() {
    let folder = folder();
    write_changed(&folder.path().join("barn.json"), |value| {
        value["title"] = TITLE.into();
        value["tankers"][1]["name"] = "Tanker \u{202e}5".into();
    });
    let charts = |arguments: &[&str]| {
        let mut arguments = arguments.to_vec();
        arguments.extend(["--out", "charts"]);
        let said = bucketline(folder.path(), &arguments).answered(arguments[0]);
        assert!(!steers(&said), "{said:?}");
        assert!(said.contains("\\u202e"), "{said}");
    };
    charts(&["risk", "barn.json", "--runs", "300"]);
    charts(&["size", "barn.json", "--runs", "300"]);
    charts(&["replay", "barn.json", "--planned"]);
    charts(&["lose", "barn.json", "--runs", "100"]);
    charts(&["levers", "barn.json", "--runs", "100"]);
    let names = names_in(&folder.path().join("charts"));
    assert!(names.iter().filter(|name| name.ends_with(".png")).count() >= 5, "{names:?}");
    // In JSON the escapes stand for the title as it is.
    let said = bucketline(folder.path(), &["risk", "barn.json", "--runs", "300", "--json"])
        .answered("risk");
    assert!(!steers(&said));
    let json: Value = serde_json::from_str(&said).expect("JSON");
    assert_eq!(json["title"], TITLE);
}

#[test]
fn mistakes_show_what_stands_in_the_file_as_escapes() {
    let folder = folder();
    for bad in ["\u{9b}31m", "\u{1b}[31m", "\u{202e}", "\u{7f}"] {
        let text = format!("{{\"title\": \"A{bad}\", \"{bad}\": \"{bad}\", \"units\": \"{bad}\"}}");
        let name = format!("{bad}.json");
        fs::write(folder.path().join(&name), text).expect("written");
        let said = bucketline(folder.path(), &["check", &name]).refused(WRONG_SCENARIO, "check");
        assert!(!steers(&said), "{said:?}");
        assert!(said.contains("\\u00") || said.contains("\\u202e"), "{said}");
        let said = bucketline(folder.path(), &[bad]).refused(WRONG_COMMAND, "no command");
        assert!(!steers(&said), "{said:?}");
        let said = bucketline(folder.path(), &["check", "none.json", bad])
            .refused(WRONG_COMMAND, "too many");
        assert!(!steers(&said), "{said:?}");
    }
}

/// The command that is suggested is typed into a shell as it stands.
#[cfg(unix)]
#[test]
fn the_replay_that_is_suggested_runs_whatever_the_file_is_called() {
    let folder = folder();
    for name in ["hay barn.json", "it's $HOME;.json", "\u{1b}[31m.json", "-barn.json"] {
        write_changed(&folder.path().join(name), |_| {});
        let given = format!("./{name}");
        let arguments = ["risk", &*given, "--runs", "300", "--no-charts"];
        let said = bucketline(folder.path(), &arguments).answered(name);
        // The answer is wrapped: the command may stand on two lines.
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        // It ends where the next label begins.
        let ended = |rest: &str| {
            let ends = [" Cure ", " No gain ", " Luck "].map(|label| rest.find(label));
            rest[..ends.into_iter().flatten().min().unwrap_or(rest.len())].to_owned()
        };
        let command = said.split(": bucketline replay ").nth(1).map(ended);
        let command = command.unwrap_or_else(|| panic!("no replay in {said}"));
        let script = format!("\"$0\" replay {command} --no-charts");
        let ended = std::process::Command::new("bash")
            .args(["-c", &script])
            .arg(&*PROGRAM)
            .env("LC_ALL", "C.UTF-8")
            .current_dir(folder.path())
            .output()
            .expect("the shell starts");
        assert!(ended.status.success(), "{script}: {}", String::from_utf8_lossy(&ended.stderr));
    }
}
