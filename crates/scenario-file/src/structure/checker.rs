//! Checking a text against the format: every mistake of structure, kind, unit and range at once.

use std::collections::HashSet;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use super::checked_value::{Node, Shaped, Value, path_of};
use super::file_kind::Holds;
use super::shape_fit::{begins_like, best_shape};
use crate::errors::excerpt::shorten;
use crate::errors::finding::{Finding, MOST_MISTAKES};
use crate::errors::position::Span;
use crate::errors::similar_words::nearest;
use crate::format::beside::addresses::OfAddress;
use crate::format::description::{Field, Kind, Object, Rule, Silence, reachable};
use crate::format::shared_fields::UNITS;
use crate::format::takes::Choice;
use crate::quantities::quantity::Units;

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
        problem: String,
        limit: Option<String>,
        cure: impl Into<String>,
    ) {
        if self.findings.len() >= MOST_MISTAKES {
            self.given_up = true;
            return;
        }
        let cure = cure.into();
        self.findings.push(Finding { place: place.to_string(), span, problem, limit, cure });
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
        let cure = match value {
            _ if place.is_empty() => {
                "a scenario is one object in braces: `bucketline new` writes one to start from"
                    .to_string()
            }
            ast::Value::NullKeyword(_) => {
                "leave the key out where there is nothing to say".to_string()
            }
            // Fill sites as keys are what one thinks of first.
            ast::Value::Object(_) if is_of(place, OfAddress::ROADS.key()) => {
                "write one entry for each fill site: [{\"to\": \"Mill pond\", \"miles\": 2.0}]"
                    .to_string()
            }
            ast::Value::Object(_) if wants(|kind| matches!(kind, Kind::List(..))) => {
                "put it into square brackets, also when it is the only one".to_string()
            }
            ast::Value::StringLit(_) if wants(|kind| matches!(kind, Kind::Switch)) => {
                "write true or false without quotes".to_string()
            }
            ast::Value::StringLit(_) if wants(|kind| matches!(kind, Kind::Count(_))) => {
                "write the number without quotes".to_string()
            }
            ast::Value::NumberLit(_) if wants(|kind| matches!(kind, Kind::Text(_))) => {
                "put it into quotes".to_string()
            }
            ast::Value::Array(_) => "take one value, without square brackets".to_string(),
            _ => format!("write {}", kind.what()),
        };
        let problem = format!("{} does not belong here", what_is(value));
        self.wrong(place, mark_of(value), problem, Some(kind.what()), cure);
    }

    fn list(
        &mut self,
        array: &ast::Array<'_>,
        element: &Kind,
        (least, most): (usize, usize),
        place: &str,
    ) -> Value {
        let count = array.elements.len();
        if count < least || count > most {
            let problem = match count {
                0 => "the list is empty".to_string(),
                _ => format!("the list has {count} entries"),
            };
            let limit = Some(format!("from {least} to {most} entries"));
            let mark = array.range.start..array.range.start + 1;
            let cure = match count {
                0 => "list at least one, or leave the key out where nothing is needed",
                _ if count < least => "list what is missing",
                _ => "keep those that matter most; equal tankers can share one entry with `count`",
            };
            self.wrong(place, mark, problem, limit, cure);
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
                let problem = format!("`{}` is stated twice", shorten(key));
                self.wrong(&path, key_span, problem, None, "keep one of the two");
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
            (Some((_, cure)), _, _) => (*cure).to_string(),
            (None, Some(near), _) => format!("a field with a similar name exists: `{near}`"),
            (None, None, Some(home)) => format!("`{key}` belongs in {}", home.what),
            (None, None, None) => format!("{} has {}", shape.what, keys_of(shape)),
        };
        let problem = format!("{} has no `{}`", shape.what, shorten(key));
        self.wrong(path, span, problem, None, cure);
        near.filter(|_| stray.is_none())
    }

    fn missing(&mut self, field: &Field, shape: &Object, span: Span, place: &str) {
        let path = path_of(place, field.key);
        let problem = format!("{} needs `{}`", shape.what, field.key);
        let limit = Some(field.kind.what());
        let cure = format!("add \"{}\": {}", field.key, field.doc);
        self.wrong(&path, span, problem, limit, cure);
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
                let all =
                    (keys.iter().map(|key| format!("`{key}`"))).collect::<Vec<_>>().join(" or ");
                let (span, problem) = match given.as_slice() {
                    [_] => return,
                    [] => (opening, format!("{all} is missing")),
                    [.., last] => (last.clone(), format!("{all}, not both")),
                };
                self.wrong(place, span, problem, None, *cure);
            }
            Rule::OnlyWith(key, other, cure) => {
                if let (Some(span), None) = (key_span(key), key_span(other)) {
                    let problem = format!("`{key}` without `{other}`");
                    self.wrong(&path_of(place, key), span, problem, None, *cure);
                }
            }
            Rule::NeverWith(key, other, cure) => {
                if let (Some(span), Some(_)) = (key_span(key), key_span(other)) {
                    let problem = format!("`{key}` beside `{other}`");
                    self.wrong(&path_of(place, key), span, problem, None, *cure);
                }
            }
        }
    }
}

/// Whether a path ends in this key of an entry.
fn is_of(place: &str, key: &str) -> bool {
    place.strip_suffix(key).is_some_and(|entry| entry.ends_with('.'))
}

fn keys_of(shape: &Object) -> String {
    let keys: Vec<String> = (shape.fields.iter()).map(|field| format!("`{}`", field.key)).collect();
    keys.join(", ")
}

fn what_is(value: &ast::Value<'_>) -> &'static str {
    match value {
        ast::Value::StringLit(_) => "text",
        ast::Value::NumberLit(_) => "a number",
        ast::Value::BooleanLit(_) => "true or false",
        ast::Value::NullKeyword(_) => "null",
        ast::Value::Object(_) => "an object",
        ast::Value::Array(_) => "a list",
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
