//! Trim above which a planing hull porpoises.
//!
//! Two published curves that differ; the band between them is shown, and the
//! lower one is used for advice. Both take √(C_L/2) with C_L the lift
//! coefficient carried by the hull: what the planes carry is taken off first.

/// Day, J. P. & Haag, R. J. (1952), as drawn in Savitsky (1964) figure 18.
///
/// These three lists are a machine's reading of the drawn curves, ±0.3°; none
/// of their numbers is printed. The one printed limit, 4.5° at 0.186 and 10° of
/// deadrise, is the author's own reading of the same figure; `planewright
/// check` holds the lists against it.
const DAY_HAAG_ABSCISSA: [f64; 5] = [0.13, 0.15, 0.20, 0.25, 0.30];
/// Deadrise of the three curves, degrees.
const DAY_HAAG_DEADRISE_DEG: [f64; 3] = [0.0, 10.0, 20.0];
/// Limit trim, degrees: one row for each deadrise.
const DAY_HAAG_LIMIT_DEG: [[f64; 5]; 3] =
    [[1.1, 1.8, 3.8, 6.2, 9.1], [2.7, 3.3, 4.9, 7.0, 9.5], [3.4, 4.0, 5.7, 7.9, 10.3]];

/// Lowest deadrise of Celano's fit, degrees.
const CELANO_LOWEST_DEADRISE_DEG: f64 = 5.0;

/// The two published limits at a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PorpoisingLimit {
    /// Limit trim from the Day & Haag curves, degrees.
    pub day_haag_deg: f64,
    /// Limit trim from Celano's fit, degrees; none at 5° of deadrise and below.
    pub celano_deg: Option<f64>,
    /// Whether the point lies off the Day & Haag curves, so that their end value stands in.
    pub clamped: bool,
}

impl PorpoisingLimit {
    /// Limits for a hull that carries the lift coefficient `lift_coefficient` on q b².
    #[must_use]
    pub fn at(lift_coefficient: f64, deadrise_deg: f64) -> Self {
        let abscissa = (0.5 * lift_coefficient.max(0.0)).sqrt();
        let (day_haag_deg, clamped) = day_haag_deg(abscissa, deadrise_deg);
        let celano_deg =
            (deadrise_deg > CELANO_LOWEST_DEADRISE_DEG).then(|| celano_deg(abscissa, deadrise_deg));
        Self { day_haag_deg, celano_deg, clamped }
    }

    /// The lower of the two, degrees; the one to stay under.
    #[must_use]
    pub fn lower_deg(&self) -> f64 {
        self.celano_deg.map_or(self.day_haag_deg, |celano| celano.min(self.day_haag_deg))
    }

    /// The higher of the two, degrees.
    #[must_use]
    pub fn upper_deg(&self) -> f64 {
        self.celano_deg.map_or(self.day_haag_deg, |celano| celano.max(self.day_haag_deg))
    }
}

/// Day & Haag limit, degrees, and whether the curves' end value stands in for a point off them.
///
/// Linear between the points read off and between the deadrises; never
/// extrapolated: 0.13 ≤ √(C_L/2) ≤ 0.30, 0 ≤ β ≤ 20°.
fn day_haag_deg(abscissa: f64, deadrise_deg: f64) -> (f64, bool) {
    let (column, across, off_curve) = position(&DAY_HAAG_ABSCISSA, abscissa);
    let (row, between, off_deadrise) = position(&DAY_HAAG_DEADRISE_DEG, deadrise_deg);
    let along = |row: usize| {
        let curve = &DAY_HAAG_LIMIT_DEG[row];
        curve[column] + across * (curve[column + 1] - curve[column])
    };
    (along(row) + between * (along(row + 1) - along(row)), off_curve || off_deadrise)
}

/// Interval of a rising list that holds `x`, the share of the interval below it, and whether `x` lay off the list.
fn position(list: &[f64], x: f64) -> (usize, f64, bool) {
    let last = list.len() - 1;
    let clamped = x.clamp(list[0], list[last]);
    let interval = list[1..last].iter().take_while(|&&node| node <= clamped).count();
    let width = list[interval + 1] - list[interval];
    let off = (x - clamped).abs() > 1e-12;
    (interval, (clamped - list[interval]) / width, off)
}

/// τ = 0.1197 β^0.7651 exp(15.7132 √(C_L/2) β^−0.2629), β in degrees above 5.
///
/// Source: Celano, T. (1998), The Prediction of Porpoising Inception for Modern
/// Planing Craft, US Naval Academy Trident report 254. From memory.
fn celano_deg(abscissa: f64, deadrise_deg: f64) -> f64 {
    0.1197 * deadrise_deg.powf(0.7651) * (15.7132 * abscissa * deadrise_deg.powf(-0.2629)).exp()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// Savitsky (1964), Table 2: 4.5° at √(C_L/2) = 0.186 and 10° of deadrise, read by its author off the same figure.
    #[test]
    fn published_savitsky_reads_4_5_degrees() {
        let limit = PorpoisingLimit::at(2.0 * 0.186 * 0.186, 10.0);
        assert_abs_diff_eq!(limit.day_haag_deg, 4.5, epsilon = 0.1);
    }

    #[test]
    fn physics_never_extrapolated_and_rising_with_load_and_deadrise() {
        let light = PorpoisingLimit::at(0.001, 10.0);
        assert!(light.clamped);
        assert_abs_diff_eq!(light.day_haag_deg, 2.7, epsilon = 1e-12);
        let mut last = 0.0;
        for step in 0..=40 {
            let abscissa = 0.12 + 0.005 * f64::from(step);
            let limit = PorpoisingLimit::at(2.0 * abscissa * abscissa, 15.0).day_haag_deg;
            assert!(limit >= last);
            last = limit;
        }
        let deep = PorpoisingLimit::at(0.08, 24.0);
        assert!(deep.clamped && deep.day_haag_deg > PorpoisingLimit::at(0.08, 12.0).day_haag_deg);
    }

    #[test]
    fn physics_the_advice_follows_the_lower_curve() {
        let limit = PorpoisingLimit::at(0.06, 18.0);
        let celano = limit.celano_deg.unwrap();
        assert_abs_diff_eq!(limit.lower_deg(), celano.min(limit.day_haag_deg));
        assert_eq!(PorpoisingLimit::at(0.06, 4.0).celano_deg, None);
    }
}
