//! JSON laid out for a person: what fits on a line stands on one.

use serde_json::Value;

/// The longest line that is not broken.
const WIDTH: usize = 100;

/// The text of a value, with a line break at its end.
pub(crate) fn tidy(value: &Value) -> String {
    let mut text = String::new();
    write(&mut text, value, 0, 0);
    text.push('\n');
    text
}

fn write(text: &mut String, value: &Value, depth: usize, before: usize) {
    let line = on_one_line(value);
    // The whole file is always broken up.
    if depth > 0 && 2 * depth + before + line.len() < WIDTH {
        text.push_str(&line);
        return;
    }
    let margin = "  ".repeat(depth + 1);
    let (open, close, entries): (_, _, Vec<(String, &Value)>) = match value {
        Value::Object(fields) if !fields.is_empty() => (
            '{',
            '}',
            fields.iter().map(|(key, value)| (format!("{}: ", quoted(key)), value)).collect(),
        ),
        Value::Array(entries) if !entries.is_empty() => {
            ('[', ']', entries.iter().map(|value| (String::new(), value)).collect())
        }
        _ => {
            text.push_str(&line);
            return;
        }
    };
    text.push(open);
    for (number, (key, value)) in entries.iter().enumerate() {
        text.push_str(if number == 0 { "\n" } else { ",\n" });
        text.push_str(&margin);
        text.push_str(key);
        write(text, value, depth + 1, key.len());
    }
    text.push('\n');
    text.push_str(&"  ".repeat(depth));
    text.push(close);
}

fn on_one_line(value: &Value) -> String {
    match value {
        Value::Object(fields) => {
            let fields: Vec<String> = (fields.iter())
                .map(|(key, value)| format!("{}: {}", quoted(key), on_one_line(value)))
                .collect();
            format!("{{{}}}", fields.join(", "))
        }
        Value::Array(entries) => {
            let entries: Vec<String> = entries.iter().map(on_one_line).collect();
            format!("[{}]", entries.join(", "))
        }
        other => other.to_string(),
    }
}

fn quoted(key: &str) -> String {
    Value::from(key).to_string()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn the_layout_changes_no_value() {
        let long = "a title \"in quotes\" that is long enough to be broken up if it were a list of words, which it is not";
        let value = json!({"title": long, "list": [], "nothing": {}, "short": {"mean": 1, "cv": 0.3},
            "many": vec![json!({"name": "Tanker 1", "capacity": 2000.5}); 6]});
        let text = tidy(&value);
        assert_eq!(serde_json::from_str::<Value>(&text).expect("JSON"), value);
        assert!(text.contains("  \"short\": {\"mean\": 1, \"cv\": 0.3},\n"), "{text}");
        assert!(text.contains("    {\"name\": \"Tanker 1\", \"capacity\": 2000.5},\n"), "{text}");
    }
}
