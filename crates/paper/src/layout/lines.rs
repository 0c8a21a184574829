//! Text in lines. Nothing is cut off: a word that is wider than the line goes on in the next.

use shuttle_report::chart::drawing::{Weight, width};

/// Height of a line over the size of its letters.
pub const LEADING: f64 = 1.22;

/// The text in lines no wider than `room`, the first no wider than `first`.
pub fn lines(text: &str, size: f64, weight: Weight, first: f64, room: f64) -> Vec<String> {
    let mut all: Vec<String> = vec![String::new()];
    let wide = |text: &str| width(text, size, weight);
    for word in text.split_whitespace() {
        let mut room_here = if all.len() == 1 { first } else { room };
        let line = all.last_mut().expect("there is a line from the start");
        let with = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if wide(&with) <= room_here {
            *line = with;
            continue;
        }
        if !line.is_empty() || (all.len() == 1 && first < room) {
            all.push(String::new());
            room_here = room;
        }
        let mut part = String::new();
        for letter in word.chars() {
            if !part.is_empty() && wide(&format!("{part}{letter}")) > room_here {
                *all.last_mut().expect("as above") = std::mem::take(&mut part);
                all.push(String::new());
            }
            part.push(letter);
        }
        *all.last_mut().expect("as above") = part;
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_too_wide_and_no_letter_is_lost() {
        let long = "Tamarack-County-Mutual-Aid-Tanker-Number-Fourteen-of-the-Second-Division";
        for text in ["one two three four five six seven", long, &format!("a {long} b"), ""] {
            for room in [60.0, 90.0, 200.0] {
                let lines = lines(text, 12.0, Weight::Regular, room - 20.0, room);
                let kept: String = lines.concat().replace(' ', "");
                assert_eq!(kept, text.replace(' ', ""));
                for line in &lines {
                    assert!(width(line, 12.0, Weight::Regular) <= room, "{line} in {room}");
                }
            }
        }
    }
}
