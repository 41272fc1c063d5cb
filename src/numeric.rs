//! The numerical methods that more than one file needs.

use argmin::core::{CostFunction, Error, Executor, State, TerminationReason, TerminationStatus};
use argmin::solver::brent::BrentOpt;

/// Quantile of the standard normal distribution at the upper end of a likely range: nine in ten lie within so many deviations to each side.
///
/// Any table of the normal distribution has 1.645; a test holds the digits against statrs.
pub(crate) const LIKELY_DEVIATIONS: f64 = 1.644_853_626_951_472_2;
/// Steps after which a search for a root is given up; halving alone takes some sixty between places of one size.
pub(crate) const MOST_STEPS: u32 = 200;

/// Root of a function between two places where its sign differs, by Chandrupatla's method; `a` and `b` are places with their values.
///
/// Values may be infinite at an end. Ends when a value is within `close_enough` of
/// zero or the bracket is as narrow as rounding allows; none when neither came about
/// in [`MOST_STEPS`].
///
/// Source: Chandrupatla, T. R. (1997), A new hybrid quadratic/bisection
/// algorithm for finding the zero of a nonlinear function without using
/// derivatives, Advances in Engineering Software 28.
pub(crate) fn root_between(
    mut a: [f64; 2],
    mut b: [f64; 2],
    close_enough: f64,
    mut value_at: impl FnMut(f64) -> f64,
) -> Option<f64> {
    let mut share = a[1] / (a[1] - b[1]);
    if !share.is_finite() {
        share = 0.5;
    }
    for _ in 0..MOST_STEPS {
        let best = if a[1].abs() < b[1].abs() { a } else { b };
        let width = (b[0] - a[0]).abs();
        let finest = 4.0 * f64::EPSILON * best[0].abs() + f64::MIN_POSITIVE;
        if best[1].abs() <= close_enough || width <= finest {
            return Some(best[0]);
        }
        let margin = 0.5 * finest / width;
        let place = a[0] + share.clamp(margin, 1.0 - margin) * (b[0] - a[0]);
        let next = [place, value_at(place)];
        let c;
        if (next[1] > 0.0) == (a[1] > 0.0) {
            c = a;
        } else {
            c = b;
            b = a;
        }
        a = next;
        share = quadratic_share(a, b, c);
    }
    None
}

/// Where to look next between a and b: by inverse quadratic interpolation where that is safe, else in the middle.
pub(crate) fn quadratic_share(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    let xi = (a[0] - b[0]) / (c[0] - b[0]);
    let phi = (a[1] - b[1]) / (c[1] - b[1]);
    if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
        let share = a[1] / (b[1] - a[1]) * c[1] / (b[1] - c[1])
            + (c[0] - a[0]) / (b[0] - a[0]) * a[1] / (c[1] - a[1]) * b[1] / (c[1] - b[1]);
        if share.is_finite() { share } else { 0.5 }
    } else {
        0.5
    }
}

/// The value at a place along straight lines between points of rising place, level outside them; zero without points.
pub(crate) fn level_interpolation(points: &[[f64; 2]], place: f64) -> f64 {
    let after = points.partition_point(|point| point[0] <= place);
    match (after.checked_sub(1).map(|before| points[before]), points.get(after)) {
        (Some(below), Some(above)) => {
            let share = (place - below[0]) / (above[0] - below[0]);
            below[1] + share * (above[1] - below[1])
        }
        (Some(last), None) => last[1],
        (None, Some(first)) => first[1],
        (None, None) => 0.0,
    }
}

/// The value at a place of the monotone piecewise cubic through points of rising place; none outside them or with fewer than three.
///
/// Slopes inside are weighted harmonic means of those of the two neighbouring
/// chords, nought where these differ in sign; at an end the parabola through
/// three points, held to the sign of the first chord and to three times it. The
/// curve has no corner and keeps between its two neighbours.
///
/// Source: Fritsch, F. N. & Butland, J. (1984), A method for constructing local
/// monotone piecewise cubic interpolants, SIAM J. Sci. Stat. Comput. 5. From memory.
pub(crate) fn monotone_interpolation(points: &[[f64; 2]], place: f64) -> Option<f64> {
    let (first, last) = (points.first()?, points.last()?);
    if points.len() < 3 || !(first[0]..=last[0]).contains(&place) {
        return None;
    }
    let above = points.partition_point(|point| point[0] <= place).clamp(1, points.len() - 1);
    let [below, above] = [above - 1, above];
    let [start, end] = [points[below], points[above]];
    let width = end[0] - start[0];
    let t = (place - start[0]) / width;
    let [rises, falls] = [t * t * (3.0 - 2.0 * t), (1.0 - t) * (1.0 - t) * (1.0 + 2.0 * t)];
    let slopes = [below, above].map(|at| monotone_slope(points, at));
    let bend = t * (1.0 - t) * ((1.0 - t) * slopes[0] - t * slopes[1]);
    Some(falls * start[1] + rises * end[1] + width * bend)
}

/// The slope of [`monotone_interpolation`] at one of its points.
fn monotone_slope(points: &[[f64; 2]], at: usize) -> f64 {
    let width = |from: usize| points[from + 1][0] - points[from][0];
    let chord = |from: usize| (points[from + 1][1] - points[from][1]) / width(from);
    let last = points.len() - 1;
    if at == 0 || at == last {
        let [near, far] = if at == 0 { [0, 1] } else { [last - 1, last - 2] };
        let (near, far) = ([width(near), chord(near)], [width(far), chord(far)]);
        let slope = ((2.0 * near[0] + far[0]) * near[1] - near[0] * far[1]) / (near[0] + far[0]);
        return if slope * near[1] <= 0.0 {
            0.0
        } else if near[1] * far[1] <= 0.0 && slope.abs() > 3.0 * near[1].abs() {
            3.0 * near[1]
        } else {
            slope
        };
    }
    let (before, after) = ([width(at - 1), chord(at - 1)], [width(at), chord(at)]);
    if before[1] * after[1] <= 0.0 {
        return 0.0;
    }
    let weights = [2.0 * after[0] + before[0], after[0] + 2.0 * before[0]];
    (weights[0] + weights[1]) / (weights[0] / before[1] + weights[1] / after[1])
}

/// A cost of one number, for the optimiser.
struct Cost<F>(F);

impl<F: Fn(f64) -> f64> CostFunction for Cost<F> {
    type Param = f64;
    type Output = f64;

    fn cost(&self, place: &f64) -> Result<f64, Error> {
        let value = (self.0)(*place);
        // Brent's method takes a value that is no number for a converged one.
        if value.is_finite() { Ok(value) } else { Err(Error::msg("the cost is not a number")) }
    }
}

/// Place and value of the least of a function with one valley between two places, by Brent's method.
///
/// None when the function is not finite somewhere on the way, or the method did not converge.
pub(crate) fn least_between(
    low: f64,
    high: f64,
    precision: f64,
    value_at: impl Fn(f64) -> f64,
) -> Option<[f64; 2]> {
    let solver = BrentOpt::new(low, high).set_tolerance(1e-9, precision);
    let result = Executor::new(Cost(value_at), solver)
        .configure(|state| state.max_iters(100))
        .timer(false)
        .run()
        .ok()?;
    let state = result.state();
    let converged = matches!(
        state.get_termination_status(),
        TerminationStatus::Terminated(TerminationReason::SolverConverged)
    );
    let place = *state.get_best_param()?;
    converged.then(|| [place, state.get_best_cost()])
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn physics_roots_are_found_from_either_side_and_past_infinite_ends() {
        let cubic = |x: f64| x * x * x - 2.0;
        let root = root_between([0.0, cubic(0.0)], [2.0, cubic(2.0)], 0.0, cubic);
        assert_relative_eq!(root.unwrap(), 2.0_f64.cbrt(), max_relative = 1e-14);
        let pole = |x: f64| if x > 1.5 { f64::INFINITY } else { x - 1.0 };
        let root = root_between([2.0, pole(2.0)], [0.0, pole(0.0)], 0.0, pole);
        assert_relative_eq!(root.unwrap(), 1.0, max_relative = 1e-14);
    }

    /// Two places 600 powers of ten from the root: the steps run out, and no place is given out for a root.
    #[test]
    fn error_a_search_that_runs_out_of_steps_has_no_root() {
        let jump = |x: f64| if x > 1e-300 { 1.0 } else { -1.0 };
        assert_eq!(root_between([-1e300, -1.0], [1e300, 1.0], 0.0, jump), None);
        let near =
            root_between([-1.0, -1.0], [3.0, 1.0], 0.0, |x| if x > 0.5 { 1.0 } else { -1.0 });
        assert_relative_eq!(near.unwrap(), 0.5, max_relative = 1e-14);
    }

    #[test]
    fn physics_a_monotone_cubic_meets_its_points_and_a_straight_line() {
        let line = [0.0, 1.0, 2.5, 4.0].map(|x| [x, 3.0 - 2.0 * x]);
        for place in [0.0, 0.3, 1.0, 2.4, 4.0] {
            let value = monotone_interpolation(&line, place).unwrap();
            assert_relative_eq!(value, 3.0 - 2.0 * place, max_relative = 1e-14);
        }
        assert_eq!(monotone_interpolation(&line, 4.001), None);
        assert_eq!(monotone_interpolation(&line, f64::NAN), None);
        assert_eq!(monotone_interpolation(&line[..2], 0.5), None);
    }

    #[test]
    fn physics_a_monotone_cubic_has_no_corner_and_keeps_between_its_points() {
        let points = [[0.0, 0.0], [1.0, 5.0], [1.5, 5.5], [3.0, 1.0], [4.0, 1.0]];
        let at = |x: f64| monotone_interpolation(&points, x).unwrap();
        for pair in points.windows(2) {
            let (low, high) = (pair[0][1].min(pair[1][1]), pair[0][1].max(pair[1][1]));
            for step in 0..=50_u32 {
                let x = pair[0][0] + (pair[1][0] - pair[0][0]) * f64::from(step) / 50.0;
                assert!((low - 1e-12..=high + 1e-12).contains(&at(x)), "{x}");
            }
        }
        for [x, _] in &points[1..4] {
            let step = 1e-6;
            let [left, right] = [(at(*x) - at(x - step)) / step, (at(x + step) - at(*x)) / step];
            assert_relative_eq!(left, right, epsilon = 1e-4);
        }
    }

    #[test]
    fn physics_the_least_is_found_inside_and_at_an_end() {
        let [place, value] = least_between(0.0, 3.0, 1e-7, |x| (x - 1.2).powi(2) + 5.0).unwrap();
        assert_relative_eq!(place, 1.2, max_relative = 1e-5);
        assert_relative_eq!(value, 5.0, max_relative = 1e-10);
        let [place, _] = least_between(0.0, 3.0, 1e-7, |x| x).unwrap();
        assert!(place < 1e-4, "{place}");
        assert_eq!(least_between(0.0, 3.0, 1e-7, |_| f64::NAN), None);
    }
}
