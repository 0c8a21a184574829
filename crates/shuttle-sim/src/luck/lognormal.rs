//! The lognormal quantile by table: a draw costs one look and a cubic, and is monotone in its number, which
//! is what common random numbers want.

use std::sync::LazyLock;

use statrs::distribution::{ContinuousCDF, Normal};

/// Bits of the cell within an octave: sixteen cells between a half and a quarter, sixteen between a
/// quarter and an eighth, and so on. The quantile bends as the octaves do, so the error is the same in
/// all, and nearly all draws fall into the first few, which stay in the nearest cache.
const CELL_BITS: u32 = 4;
/// The least number a draw gives is 2^-53 (see `draws`), and the distance of the greatest from 1.
const OCTAVES: usize = 52;
/// Cells of one half of a table.
const CELLS: usize = OCTAVES << CELL_BITS;
/// Bits of a number's fraction.
const FRACTION_BITS: u32 = f64::MANTISSA_DIGITS - 1;
/// 1 in bits.
const ONE: u64 = 1023 << FRACTION_BITS;
const TWO_TO_53: f64 = 9_007_199_254_740_992.0;

/// Where the cells of the upper half begin: a power of two, so that every place in the table is found
/// by bits alone.
const UPPER: usize = (CELLS + 1).next_power_of_two();
/// Cells with the unused ones between the halves.
const ALL_CELLS: usize = 2 * UPPER;

/// The lognormal of mean 1 and this coefficient of variation: a cubic in each cell of a table, with
/// value and slope of the quantile at both ends.
#[derive(Debug)]
pub struct Lognormal {
    cv: f64,
    /// For the distance from 0, then for the distance from 1, each with one cell for the middle alone:
    /// the cubic's four factors, as [`cubic`] gives them.
    cells: Box<[[f64; 4]; ALL_CELLS]>,
}

/// The standard normal quantile and its slope at the ends of the lower half's cells: shared by all.
static NORMAL: LazyLock<Vec<[f64; 2]>> = LazyLock::new(|| {
    let root = (2.0 * std::f64::consts::PI).sqrt();
    (0..=CELLS)
        .map(|cell| {
            let z = Normal::standard().inverse_cdf(end(cell));
            [z, root * libm::exp(z * z / 2.0)]
        })
        .collect()
});

/// Where a cell begins; a half for the one after the last.
fn end(cell: usize) -> f64 {
    f64::from_bits(ONE + ((cell as u64) << (FRACTION_BITS - CELL_BITS))) / TWO_TO_53
}

impl Lognormal {
    pub fn new(cv: f64) -> Lognormal {
        let variance = libm::log1p(cv * cv);
        let (mu, sigma) = (-variance / 2.0, variance.sqrt());
        let mut cells = vec![[0.0; 4]; ALL_CELLS];
        // Seen from 1 the same quantile is the negative one, and falls as the distance grows.
        for (half, sign) in [(0, 1.0), (UPPER, -1.0)] {
            let points = NORMAL.iter().map(|[z, slope]| {
                let value = libm::exp(mu + sigma * sign * z);
                (value, value * sigma * sign * slope)
            });
            let points: Vec<(f64, f64)> = points.collect();
            for cell in 0..CELLS {
                let width = end(cell + 1) - end(cell);
                cells[half + cell] = cubic(points[cell], points[cell + 1], width);
            }
            cells[half + CELLS][0] = points[CELLS].0;
        }
        let cells = cells.try_into().expect("as many cells as there are");
        Lognormal { cv, cells }
    }

    /// The coefficient of variation.
    pub fn cv(&self) -> f64 {
        self.cv
    }

    /// The quantile at `u`, strictly between 0 and 1.
    pub fn at(&self, u: f64) -> f64 {
        let from_one = 1.0 - u;
        let (distance, half) = if u < from_one { (u, 0) } else { (from_one, UPPER) };
        self.cubic_at(distance * TWO_TO_53, half)
    }

    /// At this distance from 0, or from 1 if `half` is [`UPPER`], counted in the least there is, 2^-53.
    #[inline(always)]
    fn cubic_at(&self, distance: f64, half: usize) -> f64 {
        let bits = distance.to_bits();
        let cell = (bits.wrapping_sub(ONE) >> (FRACTION_BITS - CELL_BITS)) as usize;
        // How far into the cell: the rest of the fraction.
        let rest = (bits << CELL_BITS) & ((1 << FRACTION_BITS) - 1);
        let t = f64::from_bits(ONE | rest) - 1.0;
        let [c0, c2, c1, c3] = self.cells[(half + cell) % ALL_CELLS];
        (c0 + c1 * t) + (t * t) * (c2 + c3 * t)
    }
}

/// The cubic on 0 to 1 with these values and slopes at its ends; slopes are over `width`. Its factors of
/// the even powers, then those of the odd ones: so two and two are worked with at once.
fn cubic((v0, d0): (f64, f64), (v1, d1): (f64, f64), width: f64) -> [f64; 4] {
    let (d0, d1, rise) = (d0 * width, d1 * width, v1 - v0);
    [v0, 3.0 * rise - 2.0 * d0 - d1, d0, d0 + d1 - 2.0 * rise]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tables_agree_with_the_library() {
        // statrs' lognormal quantile is the outside value; its own error is about 1e-9 far out.
        for (cv, allowed) in [(0.05, 3e-8), (0.3, 2e-7), (1.0, 6e-7), (5.0, 2e-6)] {
            let ours = Lognormal::new(cv);
            let variance = libm::log1p(cv * cv);
            let (mu, sigma) = (-variance / 2.0, variance.sqrt());
            let theirs = statrs::distribution::LogNormal::new(mu, sigma).expect("sound");
            let even = (1..50_000).map(|k| f64::from(k) / 50_000.0);
            let out = (1..500).map(|k| libm::exp2(-53.0 + f64::from(k) * 0.1));
            let far = (1..300).map(|k| 1.0 - libm::exp2(-31.0 + f64::from(k) * 0.1));
            for u in even.chain(out).chain(far) {
                let (got, right) = (ours.at(u), theirs.inverse_cdf(u));
                assert!((got / right - 1.0).abs() < allowed, "cv {cv} at {u}: {got}, not {right}");
            }
        }
    }

    #[test]
    fn a_greater_number_never_gives_a_shorter_time() {
        let table = Lognormal::new(0.3);
        let numbers = (0..1_000_000_u32).map(|k| (f64::from(k) + 0.5) / 1e6);
        let times: Vec<f64> = numbers.map(|u| table.at(u)).collect();
        assert!(times.is_sorted());
        assert!(table.at(libm::exp2(-53.0)) > 0.0 && table.at(1.0 - libm::exp2(-53.0)) < 20.0);
    }
}
