//! Changes files as people and programs spoil them: a value of another size or kind, a key misspelt or gone, an
//! entry twice, parts exchanged, options that change what is not there, and slips in the text itself.

use serde_json::{Map, Value, json};

/// Numbers drawn one after the other from a seed: SplitMix64 (Steele, Lea and Flood 2014).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.roll() % count.max(1) as u64) as usize
    }

    fn of<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len())]
    }
}

/// One of the texts with one to three changes, mostly one; the same number gives the same text.
pub fn mutated(originals: &[String], number: u64) -> String {
    let mut dice = Dice(number);
    let original = dice.of(originals);
    let mut document: Value = serde_json::from_str(original).expect("the originals are sound");
    for _ in 0..*dice.of(&[1, 1, 1, 2, 3]) {
        change(&mut document, &mut dice);
    }
    let mut text = match dice.below(2) {
        0 => document.to_string(),
        _ => serde_json::to_string_pretty(&document).expect("JSON can be written"),
    };
    // One in eight is spoilt as a text too.
    if dice.below(8) == 0 {
        spoil(&mut text, &mut dice);
    }
    text
}

fn change(document: &mut Value, dice: &mut Dice) {
    let mut pointers = Vec::new();
    list_pointers(document, "", &mut pointers);
    let at = dice.of(&pointers).clone();
    match dice.below(14) {
        0..=7 => {
            let there = document.pointer(&at).cloned().unwrap_or_default();
            let other = other_value(&there, document, dice);
            set(document, &at, other);
        }
        8 => take_out(document, &at),
        9 => rename(document, &at, dice),
        10 => double(document, &at),
        11 => {
            let other = dice.of(&pointers).clone();
            let (a, b) = (document.pointer(&at).cloned(), document.pointer(&other).cloned());
            // One within the other would be gone.
            if let (Some(a), Some(b)) = (a, b)
                && !at.starts_with(&other)
                && !other.starts_with(&at)
            {
                set(document, &at, b);
                set(document, &other, a);
            }
        }
        12 => add_option(document, &pointers, dice),
        _ => {
            let copied = document.pointer(&at).cloned().unwrap_or_default();
            let key = dice.of(&KEYS);
            let holder = dice.of(&pointers).clone();
            if let Some(Value::Object(fields)) = document.pointer_mut(&holder) {
                fields.insert((*key).to_owned(), copied);
            }
        }
    }
}

/// Keys of the format and near it.
const KEYS: [&str; 16] = [
    "count",
    "repair",
    "restart_level",
    "one_lane",
    "handling",
    "hose",
    "crew",
    "aid",
    "options",
    "supply",
    "volume",
    "recharge",
    "lay",
    "pump",
    "samples",
    "capcity",
];

fn list_pointers(value: &Value, at: &str, found: &mut Vec<String>) {
    found.push(at.to_owned());
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                list_pointers(
                    value,
                    &format!("{at}/{}", key.replace('~', "~0").replace('/', "~1")),
                    found,
                );
            }
        }
        Value::Array(entries) => {
            for (index, value) in entries.iter().enumerate() {
                list_pointers(value, &format!("{at}/{index}"), found);
            }
        }
        _ => {}
    }
}

fn set(document: &mut Value, at: &str, value: Value) {
    if let Some(there) = document.pointer_mut(at) {
        *there = value;
    }
}

/// What stands there in another size, or something of another kind.
fn other_value(there: &Value, document: &Value, dice: &mut Dice) -> Value {
    if let (Some(number), true) = (there.as_f64(), dice.below(4) > 0) {
        return match dice.below(24) {
            0 => json!(0),
            1 => json!(-number),
            2 => json!(number * 10.0),
            3 => json!(number * 1e3),
            4 => json!(number / 10.0),
            5 => json!(number / 1e3),
            6 => json!(number + 0.5),
            7 => json!(1e300),
            8 => json!(5e-324),
            9 => json!(format!("{number} L")),
            10 => json!(format!("{number} gpm")),
            11 => json!(format!("{number} s")),
            12 => json!({"mean": number, "cv": 0.3}),
            13 => json!({"low": number, "high": number * 2.0}),
            // Most are the size of what was there.
            mild => json!(number * (0.1 * mild as f64 - 1.0)),
        };
    }
    let texts: Vec<&str> = vec![
        "",
        " ",
        "2,000",
        "1:10",
        "$2,400",
        "12 furlongs",
        "1e999 gal",
        "Tanker 1",
        "scene",
        "us",
        "metric",
        "\u{202e}x",
        "\u{1b}[2J",
        "\u{0}",
        "true",
        "5%",
        "-5 min",
        "x\ny",
    ];
    match dice.below(8) {
        0 => Value::Null,
        1 => json!(dice.below(2) == 0),
        2 => json!([]),
        3 => json!({}),
        4 => json!([there.clone(), there.clone()]),
        5 => json!({"minutes": there.clone()}),
        6 => {
            let mut pointers = Vec::new();
            list_pointers(document, "", &mut pointers);
            document.pointer(&pointers[dice.below(pointers.len())]).cloned().unwrap_or_default()
        }
        _ => json!(*dice.of(&texts)),
    }
}

/// The holder of a place, and its key there.
fn holder_of<'v>(document: &'v mut Value, at: &str) -> Option<(&'v mut Value, String)> {
    let (holder, key) = at.rsplit_once('/')?;
    Some((document.pointer_mut(holder)?, key.replace("~1", "/").replace("~0", "~")))
}

fn take_out(document: &mut Value, at: &str) {
    match holder_of(document, at) {
        Some((Value::Object(fields), key)) => {
            fields.remove(&key);
        }
        Some((Value::Array(entries), key)) => {
            entries.remove(key.parse().expect("a place in the list"));
        }
        _ => {}
    }
}

/// A key with two letters exchanged, or one doubled.
fn rename(document: &mut Value, at: &str, dice: &mut Dice) {
    let Some((Value::Object(fields), key)) = holder_of(document, at) else { return };
    let mut letters: Vec<char> = key.chars().collect();
    let place = dice.below(letters.len());
    match letters.get(place + 1) {
        Some(_) if dice.below(2) == 0 => letters.swap(place, place + 1),
        _ => letters.insert(place, 'e'),
    }
    let renamed: String = letters.into_iter().collect();
    let moved: Map<String, Value> = (std::mem::take(fields).into_iter())
        .map(|(name, value)| (if name == key { renamed.clone() } else { name }, value))
        .collect();
    *fields = moved;
}

/// An entry of a list twice.
fn double(document: &mut Value, at: &str) {
    if let Some((Value::Array(entries), key)) = holder_of(document, at) {
        let place: usize = key.parse().expect("a place in the list");
        entries.insert(place, entries[place].clone());
    }
}

/// An option that changes something, or what is not there, or what a path cannot say.
fn add_option(document: &mut Value, pointers: &[String], dice: &mut Dice) {
    let mut path = dice.of(pointers).clone();
    match dice.below(8) {
        0 => path.push_str("/00"),
        1 => path.push_str("/~2"),
        2 => path.push_str("/-"),
        3 => path = path.trim_start_matches('/').to_owned(),
        4 => path.push_str("/nothing"),
        _ => {}
    }
    let from = dice.of(pointers).clone();
    let there = document.pointer(&path).cloned().unwrap_or_default();
    let value = other_value(&there, document, dice);
    let change = match dice.below(6) {
        0 => json!({"op": "remove", "path": path}),
        1 => json!({"op": "copy", "from": from, "path": path}),
        2 => json!({"op": "move", "from": from, "path": path}),
        3 => json!({"op": "test", "path": path, "value": there}),
        4 => json!({"op": "add", "path": path, "value": value}),
        _ => json!({"op": "replace", "path": path, "value": value}),
    };
    let option = json!({"name": format!("option {}", dice.below(3)), "changes": [change]});
    if let Value::Object(fields) = document {
        match fields.entry("options").or_insert_with(|| json!([])) {
            Value::Array(options) => options.push(option),
            other => *other = json!([option]),
        }
    }
}

/// A slip in the text: something put in, taken out, exchanged, or all of the rest gone.
fn spoil(text: &mut String, dice: &mut Dice) {
    const PIECES: [&str; 20] = [
        ",", ":", "\"", "{", "}", "[", "]", "'", "“", "”", "\\", "\\u12", "//", "/*", "0", "-",
        "NaN", "\u{a0}", "\u{feff}", "\n",
    ];
    let boundary = |at: usize| (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
    let at = boundary(dice.below(text.len()));
    let next = text[at..].chars().next().map_or(0, char::len_utf8);
    let piece = dice.of::<&str>(&PIECES);
    match dice.below(5) {
        0 => text.truncate(at),
        1 => text.replace_range(at..at + next, ""),
        2 => text.replace_range(at..at + next, piece),
        3 => *text = text[at..].to_owned(),
        _ => text.insert_str(at, piece),
    }
}
