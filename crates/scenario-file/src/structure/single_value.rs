//! Checking one value that is neither object nor list: text, choice, switch, count, number.

use std::ops::RangeBounds;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use super::checked_value::Value;
use super::checker::Checker;
use crate::errors::excerpt::shorten;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{
    Message, count, joined, key as a_key, on_file, on_page, quoted, says, typed,
};
use crate::errors::position::Span;
use crate::errors::similar_words::nearest;
use crate::format::description::{Kind, choice as choice_word};
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
                        self.wrong(place, span, bad.kind, (bad.problem, limit, bad.cure));
                        Value::Wrong
                    }
                }
            }
            (kind, _) => unreachable!("{place}: {} is no single value", kind.what()),
        }
    }

    fn text(&mut self, text: &str, most: usize, lines: bool, place: &str, span: Span) -> Value {
        let allowed = |c: char| !c.is_control() || (lines && matches!(c, '\n' | '\r' | '\t'));
        let (problem, cure): (Message, &str) = if text.trim().is_empty() && !lines {
            ("the text is empty".into(), "write something that tells it from the others")
        } else if text.chars().count() > most {
            let problem = says!["the text has ", count(text.chars().count()), " characters"];
            (problem, "say it shorter; what is longer belongs into `notes`")
        } else if !text.chars().all(allowed) {
            ("the text holds a control character".into(), "type the text again in place of it")
        } else {
            return Value::Text(text.to_string());
        };
        let limit = Some(says!["1 to ", count(most), " characters, no control characters"]);
        self.wrong(place, span, MistakeKind::BadText, (problem, limit, cure.into()));
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
            (Some((word, doc)), _) => says![choice_word(word), " is ", *doc],
            (None, Some(near)) => says!["a similar one exists: ", choice_word(near)],
            (None, None) => meanings(choices),
        };
        let problem = says![quoted(given), " is none of the choices"];
        let limit = Some(Kind::Choice(choices).what());
        self.wrong(place, span, MistakeKind::NotAChoice, (problem, limit, cure));
        Value::Wrong
    }

    fn count(&mut self, literal: &str, bounds: Bounds, place: &str, span: Span) -> Value {
        let limit = Quantity::Plain.show_bounds(bounds, Units::Us);
        let number = literal.parse().unwrap_or(f64::NAN);
        let given = Quantity::Plain.told(number, shorten(literal));
        let (kind, problem, cure) = if bounds.contains(&number) && number.fract() == 0.0 {
            return Value::Number(number);
        } else if bounds.contains(&number) {
            let whole = Quantity::Plain.show(number.floor().max(1.0), Units::Us);
            let problem = says![given, " is no whole number"];
            (MistakeKind::BadNumber, problem, says!["count them: ", whole])
        } else {
            let cure = Quantity::Plain.cure_out_of_range(number, bounds);
            (MistakeKind::OutOfRange, says![given, " is out of range"], cure)
        };
        self.wrong(place, span, kind, (problem, Some(limit), cure));
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
            let problem = says![typed(shorten(literal)), " is too large a number"];
            let limit = Some(quantity.show_bounds(bounds, self.units));
            let told = (problem, limit, "check it for extra digits".into());
            self.wrong(place, span, MistakeKind::BadNumber, told);
            return Value::Wrong;
        }
        let miles = matches!(quantity, Quantity::Miles | Quantity::MilesPerHour);
        if miles && self.units == Units::Metric {
            let (unit, key) = match quantity {
                Quantity::Miles => ("mi", "km"),
                _ => ("mph", "kmh"),
            };
            let number = plain(number);
            let with_unit = || typed(format!("\"{number} {unit}\""));
            let problem =
                says![typed(number.as_str()), " is a bare number in ", unit, ", in a metric file"];
            let limit = says![
                on_file("a string with a unit"),
                on_page("a number with its unit"),
                ", such as ",
                with_unit()
            ];
            let cure = says!["write ", a_key(key), " with a metric number, or ", with_unit()];
            self.wrong(place, span, MistakeKind::WrongUnit, (problem, Some(limit), cure));
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
        let problem = says![shown, " is out of range"];
        self.wrong(place, span, MistakeKind::OutOfRange, (problem, limit, cure));
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
fn meanings(choices: &'static [(&'static str, &'static str)]) -> Message {
    let each = choices
        .iter()
        .map(|(word, doc)| says![choice_word(word), " is ", doc.trim_end_matches('.')]);
    joined(each, "; ")
}
