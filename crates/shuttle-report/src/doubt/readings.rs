//! Which readings would narrow the range: what part of it each input makes, and what ten readings leave of that.
//!
//! The chance is fitted by a sum over inputs of a straight line and a bend in how far each is off. What an input
//! makes of the variance is that of its part of the sum, less what chance alone would give. Ten readings leave of it
//! what they leave of the variance of the input: n / (n + 10) where it rests on n readings; of a guess with
//! standard deviation g (of the logarithm) (s^2 / 10) / (g^2 + s^2 / 10), where a single reading spreads by s. The
//! range then narrows as the standard deviation does, shown around its median: what is to be expected, by the law of
//! total variance; the readings themselves will move its middle too.

use shuttle_sim::RestsOn;

use super::posterior::log_sd_of_guess;

/// Readings that are thought of.
pub const MORE: u32 = 10;
/// What a single reading of an input spreads by where the plan states no spread, as a standard deviation of its
/// logarithm. Judgement: times of work mostly have a cv of 0.2 to 0.4.
const SPREAD_OF_A_READING: f64 = 0.3;
/// Draws there must be for each number that is fitted.
const DRAWS_A_NUMBER: usize = 8;

/// By input, the share of the variance of the chance that it makes, 0 to 1.
///
/// - Given: by draw the chance as estimated; by input and draw how far it is off; `variance` of the chance over
///   the draws without noise. All zero where nothing varies or there are too many inputs to tell them apart.
pub fn shares(chances: &[f64], off_by: &[Vec<f64>], variance: f64) -> Vec<f64> {
    let none = vec![0.0; off_by.len()];
    let scores: Vec<Vec<f64>> = off_by.iter().map(|one| standardised(one)).collect();
    let bent = chances.len() >= DRAWS_A_NUMBER * 2 * scores.len();
    if variance <= 0.0 || chances.len() < DRAWS_A_NUMBER * scores.len() {
        return none;
    }
    let mut columns = vec![vec![1.0; chances.len()]];
    columns.extend(scores.iter().cloned());
    if bent {
        columns.extend(scores.iter().map(|one| bend(one)));
    }
    let Some((fitted, errors)) = fit(&columns, chances) else { return none };
    // A bend and a line are uncorrelated, of variance 1 and 1.
    let part = |place: usize| (fitted[place].powi(2) - errors[place]).max(0.0);
    (0..scores.len())
        .map(|input| {
            let bend = if bent { part(1 + scores.len() + input) } else { 0.0 };
            ((part(1 + input) + bend) / variance).min(1.0)
        })
        .collect()
}

/// What [`MORE`] readings leave of the variance of an input, 0 to 1.
///
/// - Given: `spread`, of a single reading, where the plan states one.
pub fn left_by_readings(rests_on: RestsOn, spread: Option<f64>) -> f64 {
    let more = f64::from(MORE);
    match rests_on {
        RestsOn::Readings(readings) => f64::from(readings) / (f64::from(readings) + more),
        RestsOn::Guess(factor) => {
            let read = spread.unwrap_or(SPREAD_OF_A_READING).powi(2) / more;
            read / (log_sd_of_guess(factor).powi(2) + read)
        }
    }
}

/// By how much the width of the range shrinks to, 0 to 1, when so much of the variance of an input is left that makes
/// this share of all.
pub fn width_left(share: f64, left: f64) -> f64 {
    (1.0 - share * (1.0 - left)).max(0.0).sqrt()
}

/// With mean 0 and standard deviation 1; all 0 where nothing varies.
fn standardised(values: &[f64]) -> Vec<f64> {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let variance = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / count;
    if variance <= f64::EPSILON * mean * mean || variance == 0.0 {
        return vec![0.0; values.len()];
    }
    values.iter().map(|value| (value - mean) / variance.sqrt()).collect()
}

/// The square, made uncorrelated with the scores themselves, with mean 0 and standard deviation 1.
fn bend(scores: &[f64]) -> Vec<f64> {
    let count = scores.len() as f64;
    let skew = scores.iter().map(|z| z.powi(3)).sum::<f64>() / count;
    let bent: Vec<f64> = scores.iter().map(|z| z * z - skew * z).collect();
    standardised(&bent)
}

/// Least squares: the factor of each column and the variance of its error.
///
/// A column that is nothing but zeros gets the factor 0. `None` where columns cannot be told apart.
fn fit(columns: &[Vec<f64>], values: &[f64]) -> Option<(Vec<f64>, Vec<f64>)> {
    let kept: Vec<usize> = (0..columns.len())
        .filter(|place| columns[*place].iter().any(|value| *value != 0.0))
        .collect();
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let size = kept.len();
    let mut squares: Vec<Vec<f64>> = (kept.iter())
        .map(|a| kept.iter().map(|b| dot(&columns[*a], &columns[*b])).collect())
        .collect();
    let right: Vec<f64> = kept.iter().map(|place| dot(&columns[*place], values)).collect();
    let inverse = inverted(&mut squares)?;
    let factors: Vec<f64> = inverse.iter().map(|row| dot(row, &right)).collect();
    let residual: f64 = (0..values.len())
        .map(|draw| {
            let fitted: f64 = kept
                .iter()
                .zip(&factors)
                .map(|(place, factor)| factor * columns[*place][draw])
                .sum();
            (values[draw] - fitted).powi(2)
        })
        .sum::<f64>()
        / (values.len() - size).max(1) as f64;
    let (mut all, mut errors) = (vec![0.0; columns.len()], vec![0.0; columns.len()]);
    for (row, place) in kept.iter().enumerate() {
        all[*place] = factors[row];
        errors[*place] = residual * inverse[row][row];
    }
    Some((all, errors))
}

/// The inverse of a symmetric positive matrix by elimination with pivots; `None` where it has none.
fn inverted(matrix: &mut [Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let size = matrix.len();
    let mut inverse: Vec<Vec<f64>> =
        (0..size).map(|row| (0..size).map(|column| f64::from(row == column)).collect()).collect();
    for column in 0..size {
        let pivot = (column..size)
            .max_by(|a, b| matrix[*a][column].abs().total_cmp(&matrix[*b][column].abs()))?;
        if matrix[pivot][column].abs() < 1e-9 {
            return None;
        }
        matrix.swap(column, pivot);
        inverse.swap(column, pivot);
        let scale = matrix[column][column];
        matrix[column].iter_mut().for_each(|value| *value /= scale);
        inverse[column].iter_mut().for_each(|value| *value /= scale);
        let (own, own_inverse) = (matrix[column].clone(), inverse[column].clone());
        for row in (0..size).filter(|row| *row != column) {
            let by = matrix[row][column];
            for place in 0..size {
                matrix[row][place] -= by * own[place];
                inverse[row][place] -= by * own_inverse[place];
            }
        }
    }
    Some(inverse)
}

#[cfg(test)]
mod tests;
