//! Numbers as people read them, in the reader's units.

/// The units a scenario and its reports are in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    /// US gallons, gpm, miles, feet, psi.
    #[default]
    Us,
    /// Litres, L/min, km, metres, kPa.
    Metric,
}

/// Litres in a US gallon (exact by definition: 231 cubic inches of 25.4 mm).
pub const LITRES_PER_GALLON: f64 = 3.785_411_784;
/// Kilometres in a mile (exact by definition).
pub const KM_PER_MILE: f64 = 1.609_344;
/// Metres in a foot (exact by definition).
pub const METRES_PER_FOOT: f64 = 0.3048;

impl Units {
    /// A volume for a chart's axis or a table, from gallons.
    pub fn volume(self, gallons: f64) -> f64 {
        match self {
            Units::Us => gallons,
            Units::Metric => gallons * LITRES_PER_GALLON,
        }
    }

    /// A flow, from gpm.
    pub fn flow(self, gpm: f64) -> f64 {
        self.volume(gpm)
    }

    /// A distance, from miles.
    pub fn distance(self, miles: f64) -> f64 {
        match self {
            Units::Us => miles,
            Units::Metric => miles * KM_PER_MILE,
        }
    }

    /// The unit symbol of a volume: "gal" or "L".
    pub fn length_sign(self) -> &'static str {
        match self {
            Units::Us => "ft",
            Units::Metric => "m",
        }
    }

    /// A length of hose or a height in these units.
    ///
    /// - Given: feet.
    pub fn length(self, feet: f64) -> f64 {
        match self {
            Units::Us => feet,
            Units::Metric => feet * METRES_PER_FOOT,
        }
    }

    /// The sign of volumes.
    pub fn volume_sign(self) -> &'static str {
        match self {
            Units::Us => "gal",
            Units::Metric => "L",
        }
    }

    /// The unit symbol of a flow: "gpm" or "L/min".
    pub fn flow_sign(self) -> &'static str {
        match self {
            Units::Us => "gpm",
            Units::Metric => "L/min",
        }
    }

    /// The unit symbol of a distance: "mi" or "km".
    pub fn distance_sign(self) -> &'static str {
        match self {
            Units::Us => "mi",
            Units::Metric => "km",
        }
    }

    /// "1,250 gal": a volume in words, whole.
    pub fn gallons(self, gallons: f64) -> String {
        format!("{} {}", whole(self.volume(gallons)), self.volume_sign())
    }

    /// "500 gpm": a flow in words, whole.
    pub fn gpm(self, gpm: f64) -> String {
        format!("{} {}", whole(self.flow(gpm)), self.flow_sign())
    }

    /// "2.4 mi": a distance in words.
    pub fn miles(self, miles: f64) -> String {
        format!("{:.1} {}", self.distance(miles), self.distance_sign())
    }
}

/// A whole number with its thousands separated.
pub fn whole(number: f64) -> String {
    if !number.is_finite() {
        return "no limit".to_owned();
    }
    let digits = format!("{:.0}", number.abs().round());
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if number.round() < 0.0 {
        text.insert(0, '-');
    }
    text
}

/// A moment as people say it, to the whole minute: "11". Times are kept in whole ticks, a little off; half a minute is
/// told up wherever it comes from.
pub fn clock(minute: f64) -> String {
    const A_TICK: f64 = 1e-4;
    whole(minute + A_TICK)
}

/// Minutes to a tenth: "9.0".
pub fn minutes(minutes: f64) -> String {
    format!("{:.1}", if minutes.abs() < 0.05 { 0.0 } else { minutes })
}

/// A chance as a percentage with no more digits than `runs` support. A rare or near-certain event is never
/// rounded to never or always: "<0.01%", ">99.99%".
pub fn percent(chance: f64, runs: u64) -> String {
    percent_to(chance, percent_digits(chance, runs))
}

/// Decimal places of a chance as a percentage that `runs` support.
pub fn percent_digits(chance: f64, runs: u64) -> usize {
    let percent = 100.0 * chance;
    // Half the width of a 95% interval, in percentage points; digits below it are noise.
    let noise = 196.0 * (chance * (1.0 - chance) / runs.max(1) as f64).sqrt();
    let from_the_end = percent.min(100.0 - percent);
    if noise < 0.05 && from_the_end > 0.0 && from_the_end < 10.0 {
        2
    } else {
        usize::from(noise < 1.0 || from_the_end < 1.0)
    }
}

/// A chance as a percentage with `digits` decimal places, formatted as by [`percent`].
pub fn percent_to(chance: f64, digits: usize) -> String {
    let text = format!("{:.digits$}", 100.0 * chance);
    let step = 10f64.powi(-(digits as i32));
    match text.parse::<f64>() {
        Ok(0.0) if chance > 0.0 => format!("<{step:.digits$}%"),
        Ok(100.0) if chance < 1.0 => format!(">{:.digits$}%", 100.0 - step),
        _ => format!("{text}%"),
    }
}

/// A lower bound of a chance as a percentage, rounded down: "at least 99.98%".
pub fn percent_at_least(chance: f64, runs: u64) -> String {
    let digits = percent_digits(chance, runs);
    let scale = 10f64.powi(digits as i32);
    format!("{:.digits$}%", (100.0 * chance * scale).floor() / scale)
}

/// An upper bound of a chance as a percentage, rounded up: "at most 0.02%".
pub fn percent_at_most(chance: f64, runs: u64) -> String {
    let digits = percent_digits(chance, runs);
    let scale = 10f64.powi(digits as i32);
    format!("{:.digits$}%", (100.0 * chance * scale).ceil() / scale)
}

/// A chance in spoken words: "about 1 fire in 6", "no fire in 20,000 runs" when it never happened.
pub fn fires(hits: u64, runs: u64) -> String {
    if hits == 0 {
        return format!("in none of {} simulated fires", whole(runs as f64));
    }
    if hits == runs {
        return format!("in every one of {} simulated fires", whole(runs as f64));
    }
    let chance = hits as f64 / runs.max(1) as f64;
    if chance < 0.5 {
        let one_in = 1.0 / chance;
        let one_in = if one_in < 20.0 {
            one_in.round()
        } else {
            let step = 10f64.powf(one_in.log10().floor() - 1.0);
            (one_in / step).round() * step
        };
        if one_in <= 2.0 {
            "in about half of fires".to_owned()
        } else {
            format!("in about 1 fire of {}", whole(one_in))
        }
    } else {
        let (part, of) = [(1, 2), (3, 5), (2, 3), (3, 4), (4, 5), (5, 6), (9, 10), (19, 20)]
            .into_iter()
            .min_by(|a, b| {
                let off =
                    |(part, of): &(i32, i32)| (f64::from(*part) / f64::from(*of) - chance).abs();
                off(a).total_cmp(&off(b))
            })
            .unwrap_or((1, 2));
        match (part, of) {
            (1, 2) => "in about half of fires".to_owned(),
            _ if chance > 0.975 => "in nearly every fire".to_owned(),
            _ => format!("in about {part} fires of {of}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_are_separated() {
        assert_eq!(whole(1_234_567.4), "1,234,567");
        assert_eq!(whole(999.6), "1,000");
        assert_eq!(whole(-1_250.0), "-1,250");
        assert_eq!(whole(-0.2), "0");
    }

    #[test]
    fn chances_are_said_as_a_chief_would() {
        assert_eq!(fires(172, 1000), "in about 1 fire of 6");
        assert_eq!(fires(660, 1000), "in about 2 fires of 3");
        assert_eq!(fires(500, 1000), "in about half of fires");
        assert_eq!(fires(13, 20_000), "in about 1 fire of 1,500");
        assert_eq!(fires(0, 20_000), "in none of 20,000 simulated fires");
    }

    #[test]
    fn a_percentage_shows_no_digit_the_runs_do_not_support() {
        assert_eq!(percent(0.172, 20_000), "17.2%");
        assert_eq!(percent(0.172, 200), "17%");
        assert_eq!(percent(0.00042, 1_000_000), "0.04%");
    }

    #[test]
    fn seldom_is_not_never_and_a_bound_is_not_rounded_past_itself() {
        assert_eq!(percent(1.0, 20_000), "100.0%");
        assert_eq!(percent(0.0, 20_000), "0.0%");
        assert_eq!(percent(1e-6, 1_000_000), "<0.01%");
        assert_eq!(percent(0.0003, 3_000), "<0.1%");
        assert_eq!(percent(1.0 - 1e-6, 1_000_000), ">99.99%");
        // Clopper-Pearson, all of n or none: 0.025^(1/n), https://doi.org/10.1093/biomet/26.4.404.
        for (runs, low, high) in [(20_000, "99.98%", "0.02%"), (600, "99.3%", "0.7%")] {
            let bound = 0.025_f64.powf(1.0 / runs as f64);
            assert_eq!(percent_at_least(bound, runs), low);
            assert_eq!(percent_at_most(1.0 - bound, runs), high);
        }
    }
}
