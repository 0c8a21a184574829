//! What would put right a text that is not JSON: first the slips that people make, by what stands there, then
//! one cure for each kind of error that the parser knows.

use jsonc_parser::ParseStringErrorKind;
use jsonc_parser::errors::{ParseError, ParseErrorKind};

use crate::errors::excerpt::shorten;
use crate::errors::message::{Message, on_file, says, typed};
use crate::errors::position::Span;
use crate::quantities::quantity::leave_out;
use crate::quantities::slips::{CLOCK, currency, one_number};

/// An error of the parser as a person is told of it.
pub(super) struct Slip {
    pub(super) span: Span,
    pub(super) problem: Message,
    pub(super) cure: Message,
}

/// What is said of a text that is no JSON, before what is wrong with it.
pub(super) const NOT_JSON: &str = "this is not JSON: ";

/// What is wrong at an error of the parser, and what would put it right.
pub(super) fn slip(text: &str, error: &ParseError) -> Slip {
    let range = error.range();
    let span = range.start..range.end;
    let said = lower(&error.kind().to_string());
    let told = |span: Span, problem: Message, cure: Message| Slip {
        span,
        problem: says![NOT_JSON, problem],
        cure,
    };
    if looks_like_a_table(text) {
        let cure = says![
            "a table (CSV) as a spreadsheet saves it is no scenario: start one",
            on_file(" with `bucketline new`"),
            " and copy the values into it"
        ];
        return told(span, "it looks like a table".into(), cure);
    }
    if let Some(open) = text_over_lines(&text[..span.start]) {
        let cure = "add the closing \" where the text ends; a line break inside it is written \\n";
        return told(
            open,
            "the text that begins here does not end on its line".into(),
            cure.into(),
        );
    }
    let cure = slip_at(text, &span).unwrap_or_else(|| cure_of(error.kind(), text, &span));
    told(span, typed(said).into(), cure)
}

/// The cure of a slip that is known by what stands at the error; `None`: the kind of error has to do.
fn slip_at(text: &str, span: &Span) -> Option<Message> {
    let first = text[span.start..].chars().next();
    let after = text[span.end.min(text.len())..].chars().next();
    let line_start = text[..span.start].rfind('\n').map_or(0, |end| end + 1);
    let before = &text[line_start..span.start];
    let rest = text[span.start..].lines().next().unwrap_or_default();
    let typographic =
        |c: &char| matches!(c, '“' | '”' | '„' | '‟' | '«' | '»' | '‘' | '’' | '‚' | '″');
    if let Some(quote) = first.filter(typographic).or(after.filter(typographic)) {
        let quote = typed(quote);
        return Some(says![
            "write the straight quote \" for ",
            quote,
            ", which a word processor put there"
        ]);
    }
    if let Some(cure) = plain_space(&text[span.start..]) {
        return Some(cure);
    }
    if let Some(amount) = currency(rest) {
        return Some(says!["write the plain number: ", typed(amount)]);
    }
    let in_number = |c: char| c.is_ascii_digit() || matches!(c, ',' | '.' | ' ' | '_' | '\'');
    let left = before.rfind(|c| !in_number(c)).map_or(0, |at| at + last_width(before, at));
    let right = rest.find(|c| !in_number(c)).unwrap_or(rest.len());
    let digits = format!("{}{}", &before[left..], &rest[..right]);
    if let Some(number) = one_number(digits.trim_matches([' ', ',', '.'])) {
        let spaced = digits.trim().contains(' ');
        let two = if spaced { "; for two numbers put a comma between them" } else { "" };
        return Some(says!["write ", typed(number), ": a number has no separators", two]);
    }
    let ends_in_digit = before.trim_end().ends_with(|c: char| c.is_ascii_digit());
    let digit_next = |text: &str| text.trim_start().starts_with(|c: char| c.is_ascii_digit());
    if ends_in_digit && rest.strip_prefix(':').is_some_and(digit_next) {
        return Some(CLOCK.into());
    }
    // "1800 gal" without quotes: the number is read, the unit is left over.
    let word: String =
        rest.trim_start().chars().take_while(|c| c.is_alphabetic() || *c == '%').collect();
    let mut leading = before.trim_end().rsplit(|c: char| !(c.is_ascii_digit() || c == '.'));
    let number = leading.next().unwrap_or_default();
    if ends_in_digit && !word.is_empty() {
        let space = if word.starts_with('%') { "" } else { " " };
        let written = format!("\"{number}{space}{}\"", shorten(&word));
        return Some(says!["put a number with its unit into quotes: ", typed(written)]);
    }
    if matches!(number, "0" | "00") && digit_next(rest) {
        let rest: String = rest.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
        return Some(says!["a number has no leading zeros: write ", typed(rest)]);
    }
    instead_of(word.as_str())
}

fn last_width(text: &str, at: usize) -> usize {
    text[at..].chars().next().map_or(0, char::len_utf8)
}

/// Words of other notations, each with what JSON has in their place.
fn instead_of(word: &str) -> Option<Message> {
    match word {
        "True" | "TRUE" | "yes" | "Yes" | "on" => Some("write true".into()),
        "False" | "FALSE" | "no" | "No" | "off" => Some("write false".into()),
        "None" | "nil" | "Null" | "NULL" | "undefined" | "NaN" | "nan" | "NA" | "Infinity"
        | "inf" => Some(says![A_NUMBER, leave_out()]),
        _ => None,
    }
}

const A_NUMBER: &str = "write a number; where it is not known, ";

/// The cure that goes with a kind of error, whatever stands there.
fn cure_of(kind: &ParseErrorKind, text: &str, span: &Span) -> Message {
    let there = text[span.start..].chars().next();
    let start = text.len() - text.trim_start().len();
    let cure = match kind {
        ParseErrorKind::BareDecimalPointNumbersNotAllowed => {
            "write a digit before and after the point: 0.5 and 5.0"
        }
        ParseErrorKind::CommentsNotAllowed | ParseErrorKind::UnterminatedCommentBlock => {
            "JSON has no comments: write what it says into `notes`"
        }
        ParseErrorKind::ExpectedColonAfterObjectKey => {
            "put a colon and a value after the key: \"capacity\": 2000"
        }
        ParseErrorKind::ExpectedObjectValue => "write the value after the colon, and the closing }",
        ParseErrorKind::ExpectedDigit | ParseErrorKind::ExpectedPlusMinusOrDigitInNumberLiteral => {
            "write the number out: 1500 for 1.5e3"
        }
        ParseErrorKind::ExpectedDigitFollowingNegativeSign => {
            return says![
                "a minus stands right before the digits of a number; a - alone says nothing: ",
                leave_out()
            ];
        }
        ParseErrorKind::ExpectedStringObjectProperty => "put the key into quotes",
        ParseErrorKind::HexadecimalNumbersNotAllowed => "write the number in decimal digits",
        ParseErrorKind::ExpectedComma => "add a comma",
        ParseErrorKind::MultipleRootJsonValues => match there {
            Some('}' | ']') => "take this bracket out: everything is closed before it",
            _ => "a file holds one scenario: take out what follows it",
        },
        ParseErrorKind::NonFiniteNumbersNotAllowed => {
            return says![A_NUMBER, leave_out()];
        }
        ParseErrorKind::SingleQuotedStringsNotAllowed => "write \" for '",
        ParseErrorKind::String(kind) => match kind {
            ParseStringErrorKind::UnterminatedStringLiteral => {
                "add the closing \" where the text ends"
            }
            ParseStringErrorKind::ExpectedFourHexDigits
            | ParseStringErrorKind::ExpectedTwoHexDigits
            | ParseStringErrorKind::InvalidUnicodeEscapeSequence(_) => {
                "write the character itself in place of its \\u code"
            }
            ParseStringErrorKind::InvalidEscape
            | ParseStringErrorKind::InvalidEscapeInSingleQuoteString
            | ParseStringErrorKind::InvalidEscapeInDoubleQuoteString => {
                "write \\\\ for a backslash, \\\" for a quote, and ' as it is"
            }
        },
        ParseErrorKind::TrailingCommasNotAllowed => "remove the comma",
        ParseErrorKind::UnaryPlusNumbersNotAllowed => "write the number without the +",
        ParseErrorKind::UnexpectedCloseBrace => {
            "write a value before the }, or close the list with ]"
        }
        ParseErrorKind::UnexpectedCloseBracket => "write a value before the ], or take the ] out",
        ParseErrorKind::UnexpectedColon => {
            "a colon stands only between a key and its value, in braces"
        }
        ParseErrorKind::UnexpectedComma => "write a value before this comma, or take the comma out",
        ParseErrorKind::UnexpectedTokenInObject => match there {
            Some(']') => "close the object with } before this ]",
            Some(',') => "take one comma out",
            Some('{' | '[') => "give it its key: \"tankers\": [...], after a comma",
            _ => "between braces stand keys with values: \"capacity\": 2000, \"response\": 9",
        },
        // Nothing stands before the mistake: the file is something else.
        ParseErrorKind::UnexpectedToken | ParseErrorKind::UnexpectedWord if span.start == start => {
            return says![
                "a scenario is JSON and begins with {: start one",
                on_file(" with `bucketline new`")
            ];
        }
        ParseErrorKind::UnexpectedToken | ParseErrorKind::UnexpectedWord => {
            "put text into quotes, and take out what is neither text nor number"
        }
        ParseErrorKind::UnterminatedArray => "add the closing ]",
        ParseErrorKind::UnterminatedObject => "add the closing }",
        ParseErrorKind::NestingDepthExceeded => {
            "close the brackets that were opened: nothing in a scenario lies so deep"
        }
    };
    cure.into()
}

/// Whether the text is lines of fields with one separator, and no JSON at all.
fn looks_like_a_table(text: &str) -> bool {
    let mut lines = text.lines().filter(|line| !line.trim().is_empty());
    let (Some(head), Some(next)) = (lines.next(), lines.next()) else { return false };
    let bare = |line: &str| !line.contains(['{', '}', '[', ']']);
    [',', ';', '\t'].into_iter().any(|separator| {
        let count = |line: &str| line.matches(separator).count();
        count(head) > 0 && count(head) == count(next) && bare(head) && bare(next)
    })
}

/// The quote that opens the first text with a line break in it: there its closing quote is missing, wherever
/// the parser stumbles.
fn text_over_lines(text: &str) -> Option<Span> {
    let mut open = None;
    let mut escaped = false;
    for (at, byte) in text.bytes().enumerate() {
        match (open, byte) {
            (Some(_), _) if escaped => escaped = false,
            (Some(_), b'\\') => escaped = true,
            (Some(_), b'"') => open = None,
            (Some(start), b'\n') => return Some(start..start + 1),
            (None, b'"') => open = Some(at),
            _ => {}
        }
    }
    None
}

/// The cure where a space that JSON does not know begins the text.
pub(super) fn plain_space(text: &str) -> Option<Message> {
    let space = text.chars().next().filter(|c| c.is_whitespace() && !c.is_ascii())?;
    let code = typed(format!("U+{:04X}", u32::from(space)));
    Some(says!["put a plain space for this one (", code, ")"])
}

/// What is not strictly JSON though the parser with positions takes it, told by another parser.
pub(super) fn strict_cure(said: &str) -> &'static str {
    match said {
        said if said.starts_with("control character") => {
            "text stands on one line; write \\n for a line break in it"
        }
        "recursion limit exceeded" => "nothing in a scenario lies so deep: take brackets out",
        "number out of range" => "check it for extra digits",
        said if said.contains("escape")
            || said.contains("unicode")
            || said.contains("surrogate") =>
        {
            "write the character itself in place of its \\u code"
        }
        _ => "put plain spaces between the values, and see that quotes, commas and brackets pair",
    }
}

fn lower(text: &str) -> String {
    let mut characters = text.chars();
    match characters.next() {
        Some(first) => first.to_lowercase().chain(characters).collect(),
        None => String::new(),
    }
}
