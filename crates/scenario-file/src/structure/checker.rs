//! Checking a text against the format: every mistake of structure, kind, unit and range at once.

use std::collections::HashSet;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use super::checked_value::{Node, Shaped, Value, path_of};
use super::file_kind::Holds;
use super::shape_fit::{begins_like, best_shape};
use crate::errors::excerpt::shorten;
use crate::errors::finding::{Finding, MOST_MISTAKES};
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, count, joined, key as a_key, on_file, on_page, says};
use crate::errors::position::Span;
use crate::errors::similar_words::nearest;
use crate::format::beside::addresses::OfAddress;
use crate::format::description::{Field, Kind, Object, Rule, Silence, reachable};
use crate::format::shared_fields::UNITS;
use crate::format::takes::Choice;
use crate::quantities::quantity::{Units, leave_out};

/// A checked text: its values, and what is wrong with it.
pub(crate) struct Structure {
    pub(crate) root: Node,
    pub(crate) units: Units,
    pub(crate) findings: Vec<Finding>,
    /// Whether checking stopped because there were too many mistakes.
    pub(crate) given_up: bool,
}

/// Checks a whole file.
pub(crate) fn check(value: &ast::Value<'_>, holds: Holds) -> Structure {
    let mut checker =
        Checker { units: units_of(value), holds, findings: Vec::new(), given_up: false };
    let root = checker.value(value, &holds.kind(), "");
    Structure { root, units: checker.units, findings: checker.findings, given_up: checker.given_up }
}

/// The units must be known before any number is read; a wrong word is reported later, at its place.
fn units_of(value: &ast::Value<'_>) -> Units {
    let stated = (value.as_object())
        .and_then(|root| root.properties.iter().find(|p| p.name.as_str() == UNITS.key()))
        .and_then(|property| property.value.as_string_lit());
    match stated {
        Some(text) if text.value == Units::Metric.word() => Units::Metric,
        _ => Units::Us,
    }
}

/// The mistakes so far. The methods for single values are in `single_value`.
pub(crate) struct Checker {
    pub(crate) units: Units,
    holds: Holds,
    findings: Vec<Finding>,
    given_up: bool,
}

impl Checker {
    pub(crate) fn wrong(
        &mut self,
        place: &str,
        span: Span,
        kind: MistakeKind,
        (problem, limit, cure): (Message, Option<Message>, Message),
    ) {
        if self.findings.len() >= MOST_MISTAKES {
            self.given_up = true;
            return;
        }
        self.findings.push(Finding { place: place.to_string(), span, kind, problem, limit, cure });
    }

    fn value(&mut self, value: &ast::Value<'_>, kind: &Kind, place: &str) -> Node {
        let span = span_of(value);
        let known = (kind.alternatives().into_iter()).find(|kind| begins_like(kind, value));
        let value = match (known, value) {
            _ if self.given_up => Value::Wrong,
            (Some(Kind::Shapes(shapes)), ast::Value::Object(object)) => {
                self.object(object, shapes, place)
            }
            (Some(Kind::List(element, least, most)), ast::Value::Array(array)) => {
                self.list(array, element, (least, most), place)
            }
            (Some(single), value) => self.single(value, &single, place),
            (None, value) => {
                self.wrong_kind(value, kind, place);
                Value::Wrong
            }
        };
        Node { span, value }
    }

    fn wrong_kind(&mut self, value: &ast::Value<'_>, kind: &Kind, place: &str) {
        let wanted = kind.alternatives();
        let wants = |test: fn(&Kind) -> bool| wanted.iter().any(test);
        let by_hand =
            |cure: &'static str| says![on_file(cure), on_page(says!["state ", kind.what()])];
        let cure = match value {
            _ if place.is_empty() => says![
                on_file(
                    "a scenario is one object in braces: `bucketline new` writes one to start from"
                ),
                on_page("choose a plan that was saved as a scenario")
            ],
            ast::Value::NullKeyword(_) => says![leave_out(), " where there is nothing to say"],
            // Fill sites as keys are what one thinks of first.
            ast::Value::Object(_) if is_of(place, OfAddress::ROADS.key()) => by_hand(
                "write one entry for each fill site: [{\"to\": \"Mill pond\", \"miles\": 2.0}]",
            ),
            ast::Value::Object(_) if wants(|kind| matches!(kind, Kind::List(..))) => {
                by_hand("put it into square brackets, also when it is the only one")
            }
            ast::Value::StringLit(_) if wants(|kind| matches!(kind, Kind::Switch)) => {
                by_hand("write true or false without quotes")
            }
            ast::Value::StringLit(_) if wants(|kind| matches!(kind, Kind::Count(_))) => {
                by_hand("write the number without quotes")
            }
            ast::Value::NumberLit(_) if wants(|kind| matches!(kind, Kind::Text(_))) => {
                by_hand("put it into quotes")
            }
            ast::Value::Array(_) => by_hand("take one value, without square brackets"),
            _ => says![on_file("write "), on_page("state "), kind.what()],
        };
        let problem = says![what_is(value), " does not belong here"];
        let told = (problem, Some(kind.what()), cure);
        self.wrong(place, mark_of(value), MistakeKind::WrongType, told);
    }

    fn list(
        &mut self,
        array: &ast::Array<'_>,
        element: &Kind,
        (least, most): (usize, usize),
        place: &str,
    ) -> Value {
        let entries = array.elements.len();
        if entries < least || entries > most {
            let problem = match entries {
                0 => "the list is empty".into(),
                _ => says!["the list has ", count(entries), " entries"],
            };
            let limit = Some(says!["from ", count(least), " to ", count(most), " entries"]);
            let mark = array.range.start..array.range.start + 1;
            let cure = match entries {
                0 => says!["list at least one, or ", leave_out(), " where nothing is needed"],
                _ if entries < least => "list what is missing".into(),
                _ => {
                    "keep those that matter most; equal {tankers} can share one entry with `count`"
                        .into()
                }
            };
            self.wrong(place, mark, MistakeKind::WrongLength, (problem, limit, cure));
            return Value::Wrong;
        }
        let entries = (array.elements.iter().enumerate())
            .map(|(index, value)| self.value(value, element, &format!("{place}[{index}]")));
        Value::List(entries.collect())
    }

    fn object(
        &mut self,
        object: &ast::Object<'_>,
        shapes: &[&'static Object],
        place: &str,
    ) -> Value {
        let shape = best_shape(object, shapes);
        let mut fields: Vec<(&'static str, Node)> = Vec::new();
        let mut seen: HashSet<&str> = HashSet::new();
        let mut meant: Vec<&str> = Vec::new();
        for property in &object.properties {
            if self.given_up {
                return Value::Wrong;
            }
            let key = property.name.as_str();
            let key_span = property.name.range();
            let key_span = key_span.start..key_span.end;
            let path = path_of(place, key);
            if !seen.insert(key) {
                let problem = says![a_key(&shorten(key)), " is stated twice"];
                let told = (problem, None, "keep one of the two".into());
                self.wrong(&path, key_span, MistakeKind::StatedTwice, told);
                continue;
            }
            match shape.field(key) {
                Some(field) => {
                    let node = self.value(&property.value, &field.kind, &path);
                    fields.push((field.key, node));
                }
                None => meant.extend(self.unknown_key(key, key_span, shape, &path)),
            }
        }
        let opening = object.range.start..object.range.start + 1;
        for field in shape.fields {
            if matches!(field.silence, Silence::Required)
                && !seen.contains(field.key)
                && !meant.contains(&field.key)
            {
                self.missing(field, shape, opening.clone(), place);
            }
        }
        for rule in shape.rules {
            self.rule(rule, object, place);
        }
        Value::Object(Shaped { shape, fields })
    }

    /// Reports an unknown key and returns the known one that was likely meant.
    fn unknown_key(
        &mut self,
        key: &str,
        span: Span,
        shape: &'static Object,
        path: &str,
    ) -> Option<&'static str> {
        let stray = shape.strays.iter().find(|(stray, _)| *stray == key);
        let near = nearest(key, shape.fields.iter().map(|field| field.key));
        let home =
            (reachable(self.holds.object()).into_iter()).find(|other| other.field(key).is_some());
        let cure = match (stray, near, home) {
            (Some((_, cure)), _, _) => (*cure).into(),
            (None, Some(near), _) => {
                says!["a field with a similar name exists: ", a_key(near)]
            }
            (None, None, Some(home)) => says![a_key(key), " belongs in ", home.what],
            (None, None, None) => says![shape.what, " has ", keys_of(shape)],
        };
        let problem = says![shape.what, " has no ", a_key(&shorten(key))];
        self.wrong(path, span, MistakeKind::UnknownKey, (problem, None, cure));
        near.filter(|_| stray.is_none())
    }

    fn missing(&mut self, field: &Field, shape: &Object, span: Span, place: &str) {
        let path = path_of(place, field.key);
        let problem = says![shape.what, " needs ", a_key(field.key)];
        let limit = Some(field.kind.what());
        let add = says!["add \"", field.key, "\": "];
        let cure = says![on_file(add), on_page("state it: "), field.about()];
        self.wrong(&path, span, MistakeKind::Missing, (problem, limit, cure));
    }

    fn rule(&mut self, rule: &Rule, object: &ast::Object<'_>, place: &str) {
        let opening = object.range.start..object.range.start + 1;
        let key_span = |key: &str| {
            let property = (object.properties.iter()).find(|p| p.name.as_str() == key)?;
            let range = property.name.range();
            Some(range.start..range.end)
        };
        match rule {
            Rule::ExactlyOne(keys, cure) => {
                let given: Vec<_> = keys.iter().filter_map(|key| key_span(key)).collect();
                let all = joined(keys.iter().map(|key| a_key(key).into()), " or ");
                let (span, kind, problem) = match given.as_slice() {
                    [_] => return,
                    [] => (opening, MistakeKind::Missing, says![all, " is missing"]),
                    [.., last] => {
                        (last.clone(), MistakeKind::NotTogether, says![all, ", not both"])
                    }
                };
                self.wrong(place, span, kind, (problem, None, (*cure).into()));
            }
            Rule::OnlyWith(key, other, cure) => {
                if let (Some(span), None) = (key_span(key), key_span(other)) {
                    let problem = says![a_key(key), " without ", a_key(other)];
                    let told = (problem, None, (*cure).into());
                    self.wrong(&path_of(place, key), span, MistakeKind::NotTogether, told);
                }
            }
            Rule::NeverWith(key, other, cure) => {
                if let (Some(span), Some(_)) = (key_span(key), key_span(other)) {
                    let problem = says![a_key(key), " beside ", a_key(other)];
                    let told = (problem, None, (*cure).into());
                    self.wrong(&path_of(place, key), span, MistakeKind::NotTogether, told);
                }
            }
        }
    }
}

/// Whether a path ends in this key of an entry.
fn is_of(place: &str, key: &str) -> bool {
    place.strip_suffix(key).is_some_and(|entry| entry.ends_with('.'))
}

fn keys_of(shape: &Object) -> Message {
    joined(shape.fields.iter().map(|field| a_key(field.key).into()), ", ")
}

fn what_is(value: &ast::Value<'_>) -> Message {
    match value {
        ast::Value::StringLit(_) => "text".into(),
        ast::Value::NumberLit(_) => "a number".into(),
        ast::Value::BooleanLit(_) => "{true} or {false}".into(),
        ast::Value::NullKeyword(_) => says![on_file("null"), on_page("an empty value")],
        ast::Value::Object(_) => says![on_file("an object"), on_page("a group of values")],
        ast::Value::Array(_) => "a list".into(),
    }
}

fn span_of(value: &ast::Value<'_>) -> Span {
    let range = value.range();
    range.start..range.end
}

/// The value, or of an object or list the bracket it begins with.
fn mark_of(value: &ast::Value<'_>) -> Span {
    let span = span_of(value);
    match value {
        ast::Value::Object(_) | ast::Value::Array(_) => span.start..span.start + 1,
        _ => span,
    }
}
