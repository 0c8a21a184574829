//! The reader: units, and the word for a truck that carries water. Here values become words.

use scenario_file::Before;
use shuttle_report::units::{Units, clock, minutes, percent, percent_to, whole};

use crate::say::{Chances, FileNote, Piece, Sentence};

/// Kilopascals in a pound a square inch (NIST Special Publication 811, appendix B).
const KPA_PER_PSI: f64 = 6.894_757;

/// Who reads an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reader {
    /// The units of volumes, flows and distances.
    pub units: Units,
    /// Whether a truck that carries water is a tender to the reader, not a tanker.
    pub tender: bool,
}

impl Reader {
    /// "tanker" or "tender".
    pub fn tanker(&self) -> &'static str {
        if self.tender { "tender" } else { "tanker" }
    }

    /// "tankers" or "tenders".
    pub fn tankers(&self) -> &'static str {
        if self.tender { "tenders" } else { "tankers" }
    }

    /// The sentence in words.
    pub fn put(&self, sentence: &Sentence) -> String {
        let mut text = String::new();
        for piece in &sentence.0 {
            text.push_str(&self.piece(piece));
        }
        text
    }

    /// What a note says, its line left out; for whoever has no file before him with what it is about.
    pub(crate) fn note(&self, note: &FileNote) -> String {
        if !note.on_page {
            return note.told.in_file();
        }
        let before = Before::Page { tender: self.tender };
        match note.about.to(before).as_str() {
            "" => note.told.to(before),
            about => format!("{about}: {}", note.told.to(before)),
        }
    }

    fn piece(&self, piece: &Piece) -> String {
        let units = self.units;
        match piece {
            Piece::Words(words) => words.clone().into_owned(),
            Piece::Name(name) => name.clone(),
            Piece::Tanker => self.tanker().to_owned(),
            Piece::Tankers => self.tankers().to_owned(),
            Piece::Count(count) => spoken(*count),
            Piece::TankerCount(1) => format!("one {}", self.tanker()),
            Piece::TankerCount(count) => format!("{} {}", spoken(*count), self.tankers()),
            Piece::Volume(gallons) => units.gallons(*gallons),
            Piece::Flow(gpm) => units.gpm(*gpm),
            Piece::Distance(miles) => units.miles(*miles),
            Piece::ExactDistance(miles) => {
                let value = units.distance(*miles);
                format!("{} {}", number(value, places(value)), units.distance_sign())
            }
            Piece::Length(feet) => {
                format!("{} {}", whole(units.length(*feet)), units.length_sign())
            }
            Piece::Pressure(psi) => match units {
                Units::Us => format!("{} psi", whole(*psi)),
                Units::Metric => format!("{} kPa", whole(psi * KPA_PER_PSI)),
            },
            Piece::Speed(mph) => match units {
                Units::Us => format!("{} mph", whole(*mph)),
                Units::Metric => format!("{} km/h", whole(units.distance(*mph))),
            },
            Piece::Minutes(value) => match minutes(*value).as_str() {
                "1.0" => "1 minute".to_owned(),
                other => format!("{} minutes", other.trim_end_matches(".0")),
            },
            Piece::Clock(value) => format!("minute {}", clock(*value)),
            Piece::Duration(value) => duration(*value),
            Piece::Fires(chances) => fires(*chances),
            Piece::Percent(of) => percent(of.share, of.fires),
            Piece::PercentTo(of, digits) => percent_to(of.share, *digits),
            Piece::Share(share) => as_asked(*share),
            Piece::Number(value, digits) => number(*value, *digits),
            Piece::Signed(value, digits) => {
                let text = number(*value, *digits);
                let is_zero = text.chars().all(|c| matches!(c, '0' | '.' | '-'));
                match (is_zero, *value > 0.0) {
                    (true, _) => text.trim_start_matches('-').to_owned(),
                    (false, true) => format!("+{text}"),
                    (false, false) => text,
                }
            }
            Piece::BareVolume(gallons) => whole(units.volume(*gallons)),
            Piece::BareFlow(gpm) => whole(units.flow(*gpm)),
            Piece::BareDistance(miles) => number(units.distance(*miles), 1),
            Piece::VolumeSign => units.volume_sign().to_owned(),
            Piece::FlowSign => units.flow_sign().to_owned(),
            Piece::LengthSign => units.length_sign().to_owned(),
            Piece::DistanceSign => units.distance_sign().to_owned(),
            Piece::Command(words) => {
                words.iter().map(|word| quoted(word)).collect::<Vec<_>>().join(" ")
            }
            Piece::Within(sentence) => self.put(sentence),
            Piece::Worked(fireground::told::Part::Tanker) => self.tanker().to_owned(),
            Piece::Worked(part) => match units {
                Units::Us => part.in_us_units(),
                Units::Metric => part.in_metric_units(),
            },
            Piece::OfHundred(chances, digits) => of_hundred(*chances, *digits),
            Piece::ByMedium { command, .. } => (*command).to_owned(),
            Piece::FileNote(note) => match note.line.filter(|_| !note.on_page) {
                Some(line) => format!("line {}: {}", whole(line as f64), self.note(note)),
                None => self.note(note),
            },
            Piece::Key { path, .. } => path.clone(),
        }
    }
}

/// One decimal place, or more up to three where there is something in them.
fn places(value: f64) -> usize {
    /// What is left of a conversion between units.
    const ROUNDING: f64 = 1e-6;
    let is_told = |digits: &usize| {
        let scale = 10f64.powi(*digits as i32);
        ((value * scale).round() / scale - value).abs() < ROUNDING
    };
    (1..3).find(is_told).unwrap_or(3)
}

/// "no", "one", "nine", "12".
fn spoken(count: usize) -> String {
    const SPOKEN: [&str; 10] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    SPOKEN.get(count).map_or_else(|| whole(count as f64), |word| (*word).to_owned())
}

/// "1,250.5": thousands separated, with this many decimal places.
fn number(value: f64, digits: usize) -> String {
    let text = format!("{value:.digits$}");
    match text.split_once('.') {
        Some((left, right)) => {
            let sign = if left.starts_with('-') { "-" } else { "" };
            format!("{sign}{}.{right}", whole(left.trim_start_matches('-').parse().unwrap_or(0.0)))
        }
        None => whole(value),
    }
}

/// "2 hours", "90 minutes".
fn duration(minutes: f64) -> String {
    let hours = minutes / 60.0;
    if hours == 1.0 {
        "1 hour".to_owned()
    } else if hours >= 2.0 && (hours * 2.0).fract() == 0.0 {
        format!("{hours} hours")
    } else {
        format!("{} minutes", number(minutes, usize::from(minutes.fract() != 0.0)))
    }
}

/// "5%", "2.5%": a share as it was asked for; two times in three are "66.7%".
fn as_asked(share: f64) -> String {
    /// More digits behind the point come of a fraction.
    const MOST_TYPED: usize = 3;
    let percent = 100.0 * share;
    let text = format!("{percent:.6}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    let digits = text.split_once('.').map_or(0, |(_, behind)| behind.len());
    if digits > MOST_TYPED && percent >= 1.0 {
        format!("{percent:.1}%")
    } else {
        format!("{text}%")
    }
}

/// How often, as a chief says it: "29 fires of 100"; what is rarer by "1 fire of 2,000", what is all but
/// certain by "all but 1 fire of 500".
fn fires(of: Chances) -> String {
    let rare = |share: f64| {
        let one_in = 1.0 / share;
        let step = 10f64.powf(one_in.log10().floor() - 1.0).max(1.0);
        whole((one_in / step).round() * step)
    };
    let hundredths = 100.0 * of.share;
    if of.is_never() {
        format!("none of {} fires", whole(of.fires as f64))
    } else if of.is_always() {
        format!("every one of {} fires", whole(of.fires as f64))
    } else if hundredths < 0.95 {
        format!("1 fire of {}", rare(of.share))
    } else if hundredths > 99.05 {
        format!("all but 1 fire of {}", rare(1.0 - of.share))
    } else if hundredths.round() == 1.0 {
        "1 fire of 100".to_owned()
    } else {
        format!("{:.0} fires of 100", hundredths)
    }
}

/// Fires of 100 as a bare number: "none", "under 1", "29", "over 99", "100".
pub(crate) fn of_hundred(of: Chances, digits: usize) -> String {
    let hundredths = 100.0 * of.share;
    let step = 10f64.powi(-(digits as i32));
    if of.is_never() {
        "none".to_owned()
    } else if of.is_always() {
        "100".to_owned()
    } else if hundredths < step / 2.0 {
        format!("under {step:.digits$}")
    } else if 100.0 - hundredths < step / 2.0 {
        format!("over {:.digits$}", 100.0 - step)
    } else {
        format!("{hundredths:.digits$}")
    }
}

/// A word for a shell: quoted where it needs it; our own flags as they are.
fn quoted(word: &str) -> String {
    if word.starts_with("--") { word.to_owned() } else { scenario_file::shell_quoted(word) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say;

    const US: Reader = Reader { units: Units::Us, tender: false };

    #[test]
    fn chances_are_said_as_a_chief_would() {
        for (share, said) in [
            (0.0, "none of 20,000 fires"),
            (0.0005, "1 fire of 2,000"),
            (0.0096, "1 fire of 100"),
            (0.29, "29 fires of 100"),
            (0.989, "99 fires of 100"),
            (0.998, "all but 1 fire of 500"),
            (1.0, "every one of 20,000 fires"),
        ] {
            assert_eq!(fires(Chances::of(share, 20_000)), said);
        }
    }

    #[test]
    fn fires_of_100_are_never_rounded_to_none_or_all() {
        for (share, digits, said) in [
            (0.0, 1, "none"),
            (0.004, 0, "under 1"),
            (0.004, 1, "0.4"),
            (0.29, 0, "29"),
            (0.9996, 0, "over 99"),
            (0.9996, 1, "over 99.9"),
            (1.0, 1, "100"),
        ] {
            assert_eq!(of_hundred(Chances::of(share, 20_000), digits), said);
        }
    }

    #[test]
    fn a_name_is_never_altered_and_our_word_is_the_readers() {
        let sentence =
            say!["one more ", Piece::Tanker, " like ", say::name("Tender 3,000 gal tanker")];
        let metric = Reader { units: Units::Metric, tender: true };
        assert_eq!(metric.put(&sentence), "one more tender like Tender 3,000 gal tanker");
    }

    #[test]
    fn a_command_can_be_pasted() {
        let words = ["bucketline", "replay", "a barn's fire.json"].map(str::to_owned).to_vec();
        assert_eq!(
            US.put(&say![Piece::Command(words)]),
            r"bucketline replay 'a barn'\''s fire.json'"
        );
    }

    #[test]
    fn signs_and_thousands() {
        let put = |piece| US.put(&say![piece]);
        assert_eq!(put(Piece::Signed(-0.001, 2)), "0.00");
        assert_eq!(put(Piece::Signed(1_234.56, 1)), "+1,234.6");
        assert_eq!(put(Piece::Number(-0.4, 1)), "-0.4");
        assert_eq!(put(Piece::Share(0.05)), "5%");
        assert_eq!(put(Piece::Share(0.000_001)), "0.0001%");
        assert_eq!(put(Piece::Share(0.999_5)), "99.95%");
        assert_eq!(put(Piece::Share(2.0 / 3.0)), "66.7%");
        assert_eq!(put(Piece::Minutes(1.0)), "1 minute");
        assert_eq!(put(Piece::Duration(150.0)), "2.5 hours");
    }
}
