//! Numbers as people type them into a spreadsheet or at a prompt: "2,000", "$2,400", "11,000 L", in curly quotes.

pub(crate) mod two_flows;
mod worked;

use scenario_file::{currency, one_number};
use serde_json::{Number, Value};

/// A number for a scenario file: plain, or a text of the number and its unit, such as "11000 L".
///
/// Its unit and its limits are not looked at here: the scenario file's own check does that.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount(Value);

/// Why something typed is no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoAmount {
    /// It does not begin with a number.
    NoNumber,
    /// It looks like minutes and seconds, or hours and minutes.
    Clock,
    /// Its commas, points or spaces can be read in more than one way.
    Separators,
    /// It may be a share or a percentage.
    ShareOrPercent,
    /// It does not say of how many.
    OfHowMany,
}

impl NoAmount {
    /// What is wrong with it, and what would put it right.
    pub fn told(self) -> (&'static str, &'static str) {
        match self {
            NoAmount::NoNumber => (
                "it does not begin with a number",
                "write a number, such as 2,000, or one with its unit: 11,000 L",
            ),
            NoAmount::Clock => ("it reads like a clock", "write minutes, such as 1.5, or 90 s"),
            NoAmount::Separators => (
                "its commas, points or spaces can be read in more than one way",
                "write 2000 or 2,000, and 2.5 with a decimal point",
            ),
            NoAmount::ShareOrPercent => (
                "it can be a share or a percentage",
                "write it with its sign: 1% or 100%, 1.5% or 150%",
            ),
            NoAmount::OfHowMany => (
                "it does not say how often",
                "write 9 in 10, or 90%, or always; an estimate will do",
            ),
        }
    }
}

impl Amount {
    /// A plain number. Not finite: nothing, which a scenario file refuses.
    pub fn plain(value: f64) -> Amount {
        // A whole number is written without its point.
        if value.fract() == 0.0 && value.abs() < 1e15 {
            return Amount(Value::Number(Number::from(value as i64)));
        }
        Amount(Number::from_f64(value).map_or(Value::Null, Value::Number))
    }

    /// What was typed.
    ///
    /// - Given: a number with or without thousands separators (comma, space, apostrophe), a decimal point or
    ///   comma, a currency sign before it or a unit behind it, in quotes of any kind or none.
    /// - Errors: [`NoAmount`].
    pub fn typed(text: &str) -> Result<Amount, NoAmount> {
        let text = unquoted(text);
        if let Some(amount) = currency(&text) {
            return amount.parse().map(Amount::plain).map_err(|_| NoAmount::Separators);
        }
        let (sign, unsigned) = match text.strip_prefix(['-', '\u{2212}']) {
            Some(rest) => (-1.0, rest),
            None => (1.0, text.strip_prefix('+').unwrap_or(&text)),
        };
        let is_written = |c: char| c.is_ascii_digit() || ",. '_".contains(c);
        let end = unsigned.find(|c| !is_written(c)).unwrap_or(unsigned.len());
        let (written, unit) = unsigned.split_at(end);
        let (written, unit) = (written.trim_end(), unit.trim());
        if !written.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
            return Err(NoAmount::NoNumber);
        }
        if unit.starts_with(':') {
            return Err(NoAmount::Clock);
        }
        let plain = one_number(written).unwrap_or_else(|| written.to_owned());
        let value = sign * plain.parse::<f64>().map_err(|_| NoAmount::Separators)?;
        let amount = Amount::plain(value);
        if unit.is_empty() {
            return Ok(amount);
        }
        Ok(Amount(Value::String(format!("{} {unit}", amount.0))))
    }

    /// How often something happens, as typed: "4 in 5", "9 of 10", "90%", 0.9, 90, always.
    ///
    /// - Errors: [`NoAmount`]; of a bare number as [`Amount::often`].
    pub fn how_often(text: &str) -> Result<Amount, NoAmount> {
        let plain = unquoted(text).to_lowercase().replace(" times", "");
        if plain == "always" {
            return Ok(Amount::plain(1.0));
        }
        let parts =
            [" out of ", " in ", " of ", "/"].iter().find_map(|word| plain.split_once(word));
        // "usually" is no number, and says as little.
        let often = |why| if why == NoAmount::NoNumber { NoAmount::OfHowMany } else { why };
        let Some((some, all)) = parts else {
            let typed = Amount::typed(text).map_err(often)?;
            return typed.0.as_f64().map_or(Ok(typed), Amount::often);
        };
        let number = |text: &str| Amount::typed(text).map(|one| one.0.as_f64()).map_err(often);
        match (number(some)?, number(all)?) {
            (Some(some), Some(all)) if all > 0.0 => Ok(Amount::plain(some / all)),
            _ => Err(NoAmount::OfHowMany),
        }
    }

    /// How often something happens, by a bare number: 0.9 is a share and 90 a percentage. 1 is always: nobody lists who
    /// comes to one call in a hundred. A few may be times in ten as well as percent.
    ///
    /// - Errors: [`NoAmount::OfHowMany`] where it may be either.
    pub fn often(number: f64) -> Result<Amount, NoAmount> {
        /// Up to so many people count the times: "5" is five in ten sooner than 5%.
        const COUNTED: f64 = 20.0;
        match number {
            1.0 => Ok(Amount::plain(1.0)),
            _ if number > 1.0 && number <= COUNTED => Err(NoAmount::OfHowMany),
            _ => Amount::part_of_all(number),
        }
    }

    /// A part of a whole, as typed: "50%", 0.5, 50, half, all.
    ///
    /// - Errors: [`NoAmount`]; of a bare number that may be a share or a percentage, such as 1, that.
    pub fn share(text: &str) -> Result<Amount, NoAmount> {
        let plain = unquoted(text).to_lowercase();
        let said = plain.trim_end_matches(" of it").trim_start_matches("a ");
        match said {
            "all" | "whole" => return Ok(Amount::plain(1.0)),
            "half" => return Ok(Amount::percent(50.0)),
            "quarter" => return Ok(Amount::percent(25.0)),
            "third" => return Ok(Amount::percent(33.0)),
            "two thirds" => return Ok(Amount::percent(67.0)),
            "three quarters" => return Ok(Amount::percent(75.0)),
            _ => {}
        }
        let typed = Amount::typed(text)?;
        typed.0.as_f64().map_or(Ok(typed), Amount::part_of_all)
    }

    fn part_of_all(number: f64) -> Result<Amount, NoAmount> {
        /// From here on it can only be a percentage: five times the whole is meant by nobody.
        const PERCENT: f64 = 5.0;
        match number {
            _ if (1.0..PERCENT).contains(&number) => Err(NoAmount::ShareOrPercent),
            _ if (PERCENT..=100.0).contains(&number) => Ok(Amount::percent(number)),
            // A share; or what is out of range, which a scenario file refuses.
            _ => Ok(Amount::plain(number)),
        }
    }

    fn percent(number: f64) -> Amount {
        Amount::plain(number).in_unit("%")
    }

    /// A bare number with this unit behind it; `None` where it has one.
    pub(crate) fn bare_in(&self, unit: &str) -> Option<Amount> {
        self.0.is_number().then(|| self.in_unit(unit))
    }

    fn in_unit(&self, unit: &str) -> Amount {
        Amount(Value::String(format!("{} {unit}", self.0)))
    }

    fn number_and_unit(&self) -> Option<(f64, &str)> {
        match &self.0 {
            Value::String(text) => {
                let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
                Some((number.parse().ok()?, unit))
            }
            other => Some((other.as_f64()?, "")),
        }
    }

    /// As a person writes it, and reads it back: "2,000", "11,000 L".
    pub(crate) fn told(&self) -> String {
        match self.number_and_unit() {
            Some((number, "")) => grouped(number),
            Some((number, "%")) => format!("{}%", grouped(number)),
            Some((number, unit)) => format!("{} {unit}", grouped(number)),
            None => self.0.as_str().map_or_else(|| self.0.to_string(), str::to_owned),
        }
    }

    /// The same, a bare number with the unit it is in.
    pub(crate) fn told_in(&self, unit: &str) -> String {
        if self.0.is_number() { format!("{} {unit}", self.told()) } else { self.told() }
    }

    /// A share, as a person says it: "80%".
    pub(crate) fn told_as_share(&self) -> String {
        match self.0.as_f64() {
            Some(share) => format!("{}%", grouped((share * 1000.0).round() / 10.0)),
            None => self.told(),
        }
    }

    /// Of a value as it stands in a scenario file.
    pub(crate) fn of_json(value: &Value) -> Amount {
        Amount(value.clone())
    }

    /// As it stands in a scenario file.
    pub fn json(&self) -> Value {
        self.0.clone()
    }
}

/// A number with commas between its thousands.
fn grouped(number: f64) -> String {
    let plain = Amount::plain(number).0.to_string();
    let (whole, decimals) = plain.split_once('.').map_or((&*plain, None), |(a, b)| (a, Some(b)));
    let (sign, digits) = whole.strip_prefix('-').map_or(("", whole), |rest| ("-", rest));
    let mut told = sign.to_owned();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place) % 3 == 0 {
            told.push(',');
        }
        told.push(digit);
    }
    decimals.map_or(told.clone(), |decimals| format!("{told}.{decimals}"))
}

/// A text without the spaces and the pair of quotes around it, its special spaces and apostrophes made plain.
pub fn unquoted(text: &str) -> String {
    const PAIRS: [(char, char); 6] =
        [('"', '"'), ('\'', '\''), ('“', '”'), ('‘', '’'), ('„', '“'), ('«', '»')];
    let plain: String = (text.trim().chars())
        .map(|c| match c {
            '\u{a0}' | '\u{202f}' | '\u{2009}' | '\u{2007}' => ' ',
            other => other,
        })
        .collect();
    let inner = PAIRS.iter().find_map(|(open, close)| {
        plain.strip_prefix(*open).and_then(|rest| rest.strip_suffix(*close))
    });
    inner.unwrap_or(&plain).trim().replace(['’', '‘'], "'")
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn numbers_are_read_as_people_type_them() {
        let rows = [
            ("2000", json!(2000)),
            ("2,000", json!(2000)),
            ("2 000", json!(2000)),
            ("2\u{a0}000", json!(2000)),
            ("2\u{202f}000", json!(2000)),
            ("2’000", json!(2000)),
            ("“2,000”", json!(2000)),
            ("\"2,000\"", json!(2000)),
            ("$2,400", json!(2400)),
            ("3,000 gal", json!("3000 gal")),
            ("“3,000 gal”", json!("3000 gal")),
            ("11,000 L", json!("11000 L")),
            ("2.4", json!(2.4)),
            ("2,4", json!(2.4)),
            ("2,4 km", json!("2.4 km")),
            ("35mph", json!("35 mph")),
            ("1,200.50", json!(1200.5)),
            ("-5", json!(-5)),
            ("\u{2212}5 min", json!("-5 min")),
            ("95%", json!("95 %")),
        ];
        for (text, expected) in rows {
            assert_eq!(Amount::typed(text).map(|amount| amount.json()), Ok(expected), "{text:?}");
        }
    }

    #[test]
    fn how_often_and_how_fast_are_read_as_they_are_said() {
        assert_eq!(Amount::how_often("always").map(|often| often.json()), Ok(json!(1)));
        for text in ["4 in 5", "8 of 10", "4 out of 5", "4 times in 5", "4/5", "0.8"] {
            assert_eq!(Amount::how_often(text).map(|often| often.json()), Ok(json!(0.8)), "{text}");
        }
        for text in ["80%", "80", "80 %"] {
            assert_eq!(
                Amount::how_often(text).map(|often| often.json()),
                Ok(json!("80 %")),
                "{text}"
            );
        }
        for text in ["most of them", "usually", "5", "9", "20", "3 in all"] {
            assert_eq!(Amount::how_often(text), Err(NoAmount::OfHowMany), "{text}");
        }
    }

    /// 50 of a whole can only be 50 in a hundred; 1 is all of it or one in a hundred.
    #[test]
    fn a_share_is_taken_only_where_it_can_be_one_thing() {
        for text in ["50", "50%", "50 percent"] {
            let share = Amount::share(text).map(|share| share.told());
            assert!(share.as_ref().is_ok_and(|told| told.starts_with("50")), "{text}: {share:?}");
        }
        assert_eq!(Amount::share("50").map(|share| share.json()), Ok(json!("50 %")));
        assert_eq!(Amount::share("0.5").map(|share| share.json()), Ok(json!(0.5)));
        for (words, percent) in
            [("half", "50 %"), ("a quarter of it", "25 %"), ("two thirds", "67 %")]
        {
            assert_eq!(
                Amount::share(words).map(|share| share.json()),
                Ok(json!(percent)),
                "{words}"
            );
        }
        assert_eq!(Amount::share("all").map(|share| share.json()), Ok(json!(1)));
        for text in ["1", "1.5", "4"] {
            assert_eq!(Amount::share(text), Err(NoAmount::ShareOrPercent), "{text}");
        }
        assert_eq!(Amount::often(1.0).map(|often| often.json()), Ok(json!(1)));
        assert_eq!(Amount::often(2.0), Err(NoAmount::OfHowMany));
        // More than all is refused by the scenario's own limits.
        assert_eq!(Amount::share("150").map(|share| share.json()), Ok(json!(150)));
    }

    /// What is shown in brackets is what Enter takes.
    #[test]
    fn what_is_told_is_read_back_as_it_was() {
        for text in ["2000", "2.5", "11000 L", "0.5 mi", "80%", "1234567.5 gal", "-5"] {
            let amount = Amount::typed(text).expect("a number");
            assert_eq!(Amount::typed(&amount.told()), Ok(amount), "{text}");
        }
        let told = |text: &str| Amount::typed(text).expect("a number").told();
        assert_eq!([told("2000"), told("11000 L"), told("999")], ["2,000", "11,000 L", "999"]);
        assert_eq!(Amount::plain(0.8).told_as_share(), "80%");
    }

    #[test]
    fn what_could_be_two_numbers_is_none() {
        let rows = [
            ("", NoAmount::NoNumber),
            ("about 300", NoAmount::NoNumber),
            ("two", NoAmount::NoNumber),
            ("1:30", NoAmount::Clock),
            ("2 4", NoAmount::Separators),
            ("1,20,300", NoAmount::Separators),
            ("3.000.0", NoAmount::Separators),
            ("2 1/2", NoAmount::Separators),
        ];
        for (text, why) in rows {
            assert_eq!(Amount::typed(text), Err(why), "{text:?}");
        }
    }
}
