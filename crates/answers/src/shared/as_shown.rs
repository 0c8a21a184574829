//! Figures as they stand on a page: whoever works them out with a pencil comes to what stands beside them.

use shuttle_report::units::Units;

/// A number as it is printed with so many decimal places.
pub fn to(of: f64, digits: usize) -> f64 {
    format!("{of:.digits$}").parse().unwrap_or(of)
}

/// A volume or a flow as it is printed, whole in the reader's units.
pub fn whole(of: f64, units: Units) -> f64 {
    units.volume(of).round() / units.volume(1.0)
}

/// A flow that was worked out, as it is printed: in litres to three figures, for it supports no more.
pub fn worked_flow(gpm: f64, units: Units) -> f64 {
    let flow = units.flow(gpm);
    let step = match units {
        Units::Metric if flow >= 1_000.0 => 10.0,
        _ => 1.0,
    };
    (flow / step).round() * step / units.flow(1.0)
}

/// Decimal places, at most three, with which parts add up to what their sum is to a tenth; three where fewer do not.
///
/// - Given: the parts, their sum, and what else must come out as it does with the exact sum.
pub fn digits_that_add_up(parts: &[f64], sum: f64, comes_out: impl Fn(f64) -> bool) -> usize {
    let adds_up = |digits: &usize| {
        let added = added_up(parts, *digits);
        to(added, 1) == to(sum, 1) && comes_out(added)
    };
    (1..3).find(adds_up).unwrap_or(3)
}

/// The sum of the parts as they stand there.
pub fn added_up(parts: &[f64], digits: usize) -> f64 {
    to(parts.iter().map(|part| to(*part, digits)).sum(), digits)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1.24 + 2.24 + 3.24 = 6.72, but 1.2 + 2.2 + 3.2 = 6.6; 1.2 + 2.3 = 3.5.
    #[test]
    fn parts_have_as_many_places_as_their_sum_needs() {
        let parts = [1.24, 2.24, 3.24];
        assert_eq!(digits_that_add_up(&parts, 6.72, |_| true), 2);
        assert_eq!(added_up(&parts, 2), 6.72);
        assert_eq!(digits_that_add_up(&[1.2, 2.3], 3.5, |_| true), 1);
        assert_eq!(digits_that_add_up(&[1.2, 2.3], 3.5, |_| false), 3);
    }

    /// A tie is printed to the even digit, as the standard library's formatting does: 5.25 as 5.2.
    #[test]
    fn a_number_is_what_is_printed_of_it() {
        for (number, digits) in [(5.25, 1), (5.35, 1), (0.05, 1), (2.5, 0), (1_250.49, 0)] {
            assert_eq!(format!("{number:.digits$}").parse(), Ok(to(number, digits)));
        }
        // 330 gpm are 1,249.19 L/min, and stand there as 1,250; 200 gpm are 757.08.
        for (gpm, litres) in [(330.0, 1_250.0), (200.0, 757.0)] {
            let shown = Units::Metric.flow(worked_flow(gpm, Units::Metric));
            assert!((shown - litres).abs() < 1e-6, "{gpm}: {shown}");
        }
    }
}
