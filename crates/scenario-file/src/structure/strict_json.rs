//! From text to JSON with positions, strictly: only what other programs and editors accept too.

use jsonc_parser::{CollectOptions, ParseOptions, parse_to_ast};

use super::syntax_cures::{NOT_JSON, plain_space, slip, strict_cure};
use crate::errors::finding::Finding;
use crate::errors::kinds::MistakeKind;
use crate::errors::message::{Message, on_file, says, typed};
use crate::errors::position::Span;

/// Parses strict JSON: only what other programs and editors accept too.
pub(super) fn parse(text: &str) -> Result<jsonc_parser::ast::Value<'_>, Finding> {
    let strict = ParseOptions {
        allow_comments: false,
        allow_loose_object_property_names: false,
        allow_trailing_commas: false,
        allow_missing_commas: false,
        allow_single_quoted_strings: false,
        allow_hexadecimal_numbers: false,
        allow_unary_plus_numbers: false,
        allow_bare_decimal_point_numbers: false,
        allow_non_finite_numbers: false,
        allow_extended_string_escapes: false,
    };
    let finding = |span: Span, problem: Message, cure: Message| Finding {
        place: String::new(),
        span,
        kind: MistakeKind::NotJson,
        problem,
        limit: None,
        cure,
    };
    match parse_to_ast(text, &CollectOptions::default(), &strict) {
        Ok(parsed) => parsed.value.ok_or_else(|| {
            let cure = says![
                "start from a scenario that runs and change it",
                on_file(": `bucketline new` writes one")
            ];
            finding(0..0, "the file holds nothing".into(), cure)
        }),
        Err(error) => {
            let slip = slip(text, &error);
            Err(finding(slip.span, slip.problem, slip.cure))
        }
    }
}

/// The parser with positions accepts a little more than JSON, such as line breaks inside text.
pub(super) fn strictly_json(text: &str) -> Result<(), Finding> {
    let Err(error) = serde_json::from_str::<serde_json::Value>(text) else {
        return Ok(());
    };
    let line = text.split_inclusive('\n').take(error.line() - 1);
    let start: usize = line.map(str::len).sum();
    // Column 0 is the line break before it.
    let mut at = (start + error.column()).saturating_sub(1).min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    let said = error.to_string();
    let said = said.split(" at line ").next().unwrap_or_default();
    Err(Finding {
        place: String::new(),
        span: at..at + 1,
        kind: MistakeKind::NotJson,
        problem: says![NOT_JSON, typed(said)],
        limit: None,
        cure: plain_space(&text[at..]).unwrap_or_else(|| strict_cure(said).into()),
    })
}
