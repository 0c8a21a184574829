//! Checking one value that is neither object nor list: text, choice, switch, count, number.

use std::ops::RangeBounds;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use super::checked_value::Value;
use super::checker::Checker;
use crate::errors::excerpt::shorten;
use crate::errors::position::Span;
use crate::errors::similar_words::nearest;
use crate::format::description::Kind;
use crate::quantities::figures::plain;
use crate::quantities::quantity::{Bounds, Quantity, Units};

/// Most characters of one note.
const LONGEST_TEXT: usize = 10_000;

impl Checker {
    /// A value of the JSON type that its kind asks for.
    pub(crate) fn single(&mut self, value: &ast::Value<'_>, kind: &Kind, place: &str) -> Value {
        let range = value.range();
        let span = range.start..range.end;
        match (kind, value) {
            (Kind::Null | Kind::Anything, _) => Value::Null,
            (Kind::Switch, ast::Value::BooleanLit(flag)) => Value::Flag(flag.value),
            (Kind::Text(most), ast::Value::StringLit(text)) => {
                self.text(&text.value, *most, false, place, span)
            }
            (Kind::LongText, ast::Value::StringLit(text)) => {
                self.text(&text.value, LONGEST_TEXT, true, place, span)
            }
            (Kind::Choice(choices), ast::Value::StringLit(text)) => {
                self.choice(&text.value, choices, place, span)
            }
            (Kind::Count(bounds), ast::Value::NumberLit(number)) => {
                self.count(number.value, *bounds, place, span)
            }
            (Kind::Number(quantity, bounds), ast::Value::NumberLit(number)) => {
                self.bare_number(number.value, *quantity, *bounds, place, span)
            }
            (Kind::Number(quantity, bounds), ast::Value::StringLit(text)) => {
                match quantity.read_text(&text.value, self.units) {
                    Ok(number) => self.within(number, *quantity, *bounds, place, span),
                    Err(bad) => {
                        let limit = Some(quantity.show_bounds(*bounds, self.units));
                        self.wrong(place, span, bad.problem, limit, bad.cure);
                        Value::Wrong
                    }
                }
            }
            (kind, _) => unreachable!("{place}: {} is no single value", kind.what()),
        }
    }

    fn text(&mut self, text: &str, most: usize, lines: bool, place: &str, span: Span) -> Value {
        let allowed = |c: char| !c.is_control() || (lines && matches!(c, '\n' | '\r' | '\t'));
        let (problem, cure) = if text.trim().is_empty() && !lines {
            ("the text is empty".to_string(), "write something that tells it from the others")
        } else if text.chars().count() > most {
            let problem = format!("the text has {} characters", text.chars().count());
            (problem, "say it shorter; what is longer belongs into `notes`")
        } else if !text.chars().all(allowed) {
            ("the text holds a control character".to_string(), "type the text again in place of it")
        } else {
            return Value::Text(text.to_string());
        };
        let limit = Some(format!("1 to {most} characters, no control characters"));
        self.wrong(place, span, problem, limit, cure);
        Value::Wrong
    }

    fn choice(
        &mut self,
        given: &str,
        choices: &'static [(&'static str, &'static str)],
        place: &str,
        span: Span,
    ) -> Value {
        if choices.iter().any(|(word, _)| *word == given) {
            return Value::Text(given.to_string());
        }
        let near = nearest(given, choices.iter().map(|(word, _)| *word));
        let meant = choices.iter().find(|(_, doc)| speaks_of(doc, given));
        let cure = match (meant, near) {
            (Some((word, doc)), _) => format!("\"{word}\" is {doc}"),
            (None, Some(near)) => format!("a similar one exists: \"{near}\""),
            (None, None) => meanings(choices),
        };
        let problem = format!("\"{}\" is none of the choices", shorten(given));
        self.wrong(place, span, problem, Some(Kind::Choice(choices).what()), cure);
        Value::Wrong
    }

    fn count(&mut self, literal: &str, bounds: Bounds, place: &str, span: Span) -> Value {
        let limit = Quantity::Plain.show_bounds(bounds, Units::Us);
        let number = literal.parse().unwrap_or(f64::NAN);
        let (problem, cure) = if bounds.contains(&number) && number.fract() == 0.0 {
            return Value::Number(number);
        } else if bounds.contains(&number) {
            let whole = plain(number.floor().max(1.0));
            (format!("{} is no whole number", shorten(literal)), format!("count them: {whole}"))
        } else {
            let cure = Quantity::Plain.cure_out_of_range(number, bounds);
            (format!("{} is out of range", shorten(literal)), cure)
        };
        self.wrong(place, span, problem, Some(limit), cure);
        Value::Wrong
    }

    fn bare_number(
        &mut self,
        literal: &str,
        quantity: Quantity,
        bounds: Bounds,
        place: &str,
        span: Span,
    ) -> Value {
        let number = literal.parse().unwrap_or(f64::NAN);
        if !number.is_finite() {
            let problem = format!("{} is too large a number", shorten(literal));
            let limit = Some(quantity.show_bounds(bounds, self.units));
            self.wrong(place, span, problem, limit, "check it for extra digits");
            return Value::Wrong;
        }
        let miles = matches!(quantity, Quantity::Miles | Quantity::MilesPerHour);
        if miles && self.units == Units::Metric {
            let (unit, key) = match quantity {
                Quantity::Miles => ("mi", "km"),
                _ => ("mph", "kmh"),
            };
            let number = plain(number);
            let problem = format!("{number} is a bare number in {unit}, in a metric file");
            let limit = Some(format!("a string with a unit, such as \"{number} {unit}\""));
            let cure = format!("write `{key}` with a metric number, or \"{number} {unit}\"");
            self.wrong(place, span, problem, limit, cure);
            return Value::Wrong;
        }
        let number = quantity.read_bare(number, self.units);
        self.within(number, quantity, bounds, place, span)
    }

    /// A number in internal units, against its range.
    fn within(
        &mut self,
        number: f64,
        quantity: Quantity,
        bounds: Bounds,
        place: &str,
        span: Span,
    ) -> Value {
        if number.is_finite() && bounds.contains(&number) {
            return Value::Number(number);
        }
        let cure = quantity.cure_out_of_range(number, bounds);
        let shown = quantity.show(number, self.units);
        let limit = Some(quantity.show_bounds(bounds, self.units));
        let problem = format!("{shown} is out of range");
        self.wrong(place, span, problem, limit, cure);
        Value::Wrong
    }
}

/// Whether an explanation has the given word in it, such as "hay".
fn speaks_of(doc: &str, given: &str) -> bool {
    const SHORTEST: usize = 3;
    let given = given.trim();
    given.len() >= SHORTEST
        && doc.split(|c: char| !c.is_alphanumeric()).any(|word| word.eq_ignore_ascii_case(given))
}

/// What each choice stands for.
fn meanings(choices: &[(&str, &str)]) -> String {
    let each: Vec<String> = (choices.iter())
        .map(|(word, doc)| format!("\"{word}\" is {}", doc.trim_end_matches('.')))
        .collect();
    each.join("; ")
}
