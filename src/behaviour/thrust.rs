//! What the engines push with at a speed.
//!
//! T = η_D(V) P/V, never above the bollard pull: the rated power of all engines,
//! the share of it that reaches the water, and the most a propeller pushes at rest.

use uom::si::f64::{Force, Ratio, Velocity};
use uom::si::{force::newton, power::watt, ratio::ratio as one, velocity::meter_per_second};

use crate::boat::propulsion::{usual_bollard_pull, usual_efficiency};
use crate::boat::{Boat, Estimate, Fault, Measure};
use crate::hydro;
use crate::numeric::level_interpolation;

/// Efficiency near the hump as a share of that when planing. Common practice, no source.
///
/// A propeller chosen for top speed slips more there, and its engine does not reach rated speed.
pub const SHARE_AT_HUMP: f64 = 0.8;
/// Cv up to which the efficiency is that of the hump.
pub const HUMP_SPEED_COEFFICIENT: f64 = 1.0;
/// Cv from which the efficiency is that of planing.
pub const PLANING_SPEED_COEFFICIENT: f64 = 2.0;

/// Propulsive efficiency η_D, effective power over rated shaft power, by speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Efficiency {
    /// Speeds in m/s, rising, with the efficiency there.
    points: Vec<[f64; 2]>,
    estimate: Option<Estimate>,
    is_curve: bool,
}

impl Efficiency {
    /// The curve of the boat file; else one efficiency when planing (given, or estimated), a fifth
    /// lower up to Cv 1 and rising along a straight line to Cv 2.
    #[must_use]
    pub fn of(boat: &Boat) -> Self {
        let given = boat.propulsion();
        if !given.efficiency_curve.is_empty() {
            let point = |at: &crate::boat::EfficiencyAt| {
                [at.speed.get::<meter_per_second>(), at.efficiency.get::<one>()]
            };
            let points = given.efficiency_curve.iter().map(point).collect();
            return Self { points, estimate: None, is_curve: true };
        }
        let estimate = given.efficiency.is_none().then(usual_efficiency);
        let efficiency = match (&estimate, given.efficiency) {
            (Some(Estimate { value: Measure::Share(share), .. }), _) => share.get::<one>(),
            (_, share) => share.map_or(0.0, |share| share.get::<one>()),
        };
        let speed_m_s = |cv| hydro::speed_at(cv, boat.hull().chine_beam).get::<meter_per_second>();
        let points = vec![
            [speed_m_s(HUMP_SPEED_COEFFICIENT), SHARE_AT_HUMP * efficiency],
            [speed_m_s(PLANING_SPEED_COEFFICIENT), efficiency],
        ];
        Self { points, estimate, is_curve: false }
    }

    /// The estimate behind it, when the boat file gives none.
    #[must_use]
    pub const fn estimate(&self) -> Option<&Estimate> {
        self.estimate.as_ref()
    }

    /// Whether the boat file gives a curve.
    #[must_use]
    pub const fn is_curve(&self) -> bool {
        self.is_curve
    }

    /// The efficiency at a speed.
    #[must_use]
    pub fn at(&self, speed: Velocity) -> Ratio {
        Ratio::new::<one>(self.at_m_s(speed.get::<meter_per_second>()))
    }

    /// Between two points of the curve along a straight line, level outside them.
    pub(crate) fn at_m_s(&self, speed_m_s: f64) -> f64 {
        level_interpolation(&self.points, speed_m_s)
    }
}

/// The thrust of all engines at full power.
#[derive(Clone, Debug, PartialEq)]
pub struct Thrust {
    power_w: f64,
    bollard_n: f64,
    efficiency: Efficiency,
    bollard_estimate: Option<Estimate>,
}

impl Thrust {
    /// The thrust of a boat's engines.
    ///
    /// # Errors
    /// A [`Fault`] when the boat file gives no power.
    pub fn of(boat: &Boat) -> Result<Self, Fault> {
        let Some(power) = boat.drive().power else {
            return Err(Fault {
                key: "drive.power".to_owned(),
                problem: "is not given, and the thrust comes from it".to_owned(),
                remedy: "give the rated shaft power of all engines together, for example power = \"220 kW\""
                    .to_owned(),
            });
        };
        let given = boat.propulsion().bollard_pull;
        let estimate = given.is_none().then(|| usual_bollard_pull(power));
        let bollard = match (&estimate, given) {
            (Some(Estimate { value: Measure::Force(force), .. }), _) => *force,
            (_, given) => given.unwrap_or_default(),
        };
        Ok(Self {
            power_w: power.get::<watt>(),
            bollard_n: bollard.get::<newton>(),
            efficiency: Efficiency::of(boat),
            bollard_estimate: estimate,
        })
    }

    /// Thrust at full power at a speed.
    #[must_use]
    pub fn at(&self, speed: Velocity) -> Force {
        Force::new::<newton>(self.at_m_s(speed.get::<meter_per_second>()))
    }

    pub(crate) fn at_m_s(&self, speed_m_s: f64) -> f64 {
        let by_power_n = self.efficiency.at_m_s(speed_m_s) * self.power_w / speed_m_s;
        // At rest the power would push without end.
        if by_power_n < self.bollard_n { by_power_n } else { self.bollard_n }
    }

    /// Thrust at rest with full power.
    #[must_use]
    pub fn bollard_pull(&self) -> Force {
        Force::new::<newton>(self.bollard_n)
    }

    /// The efficiency behind it.
    #[must_use]
    pub const fn efficiency(&self) -> &Efficiency {
        &self.efficiency
    }

    /// What was estimated for it.
    pub fn estimates(&self) -> impl Iterator<Item = &Estimate> {
        self.efficiency.estimate().into_iter().chain(&self.bollard_estimate)
    }

    pub(crate) const fn power_w(&self) -> f64 {
        self.power_w
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;

    const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
        deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\n[drive]\npower = \"200 kW\"\n";

    fn thrust(more: &str) -> Thrust {
        Thrust::of(&parse_boat("b.toml", &format!("{BOAT}{more}")).unwrap().boat).unwrap()
    }

    #[test]
    fn physics_thrust_times_speed_is_the_power_that_reaches_the_water() {
        let thrust = thrust("propulsive_efficiency = \"50 %\"\n");
        // Far above Cv 2, which is 9.4 m/s here: 0.5 x 200 kW / 15 m/s.
        assert_relative_eq!(thrust.at_m_s(15.0), 100_000.0 / 15.0, max_relative = 1e-12);
        // Up to Cv 1 a fifth lower.
        assert_relative_eq!(thrust.efficiency.at_m_s(3.0), 0.40, max_relative = 1e-12);
    }

    #[test]
    fn physics_never_above_the_bollard_pull_and_without_a_jump() {
        let thrust = thrust("bollard_pull = \"9 kN\"\n");
        assert_relative_eq!(thrust.at_m_s(0.0), 9000.0);
        let mut last_n = thrust.at_m_s(0.0);
        for step in 1..=3000 {
            let speed_m_s = 0.01 * f64::from(step);
            let here_n = thrust.at_m_s(speed_m_s);
            assert!(here_n <= 9000.0 && (here_n - last_n).abs() < 40.0, "{speed_m_s}");
            last_n = here_n;
        }
    }

    #[test]
    fn physics_a_curve_holds_at_its_points_and_level_past_them() {
        let thrust = thrust(
            "[[drive.efficiency]]\nspeed = \"10 kn\"\npropulsive_efficiency = \"40 %\"\n\
             [[drive.efficiency]]\nspeed = \"20 kn\"\npropulsive_efficiency = \"60 %\"\n",
        );
        let at = |knots: f64| thrust.efficiency.at_m_s(knots * 1852.0 / 3600.0);
        for (knots, efficiency) in [(5.0, 0.4), (10.0, 0.4), (15.0, 0.5), (20.0, 0.6), (30.0, 0.6)]
        {
            assert_relative_eq!(at(knots), efficiency, max_relative = 1e-12);
        }
        assert_eq!(thrust.estimates().count(), 1);
    }

    #[test]
    fn error_no_power() {
        let text = BOAT.replace("power = \"200 kW\"", "top_speed = \"30 kn\"");
        let fault = Thrust::of(&parse_boat("b.toml", &text).unwrap().boat).unwrap_err();
        assert_eq!(fault.to_string(), "drive.power: is not given, and the thrust comes from it");
    }
}
