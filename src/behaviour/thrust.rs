//! What the engines push with at a speed.
//!
//! Two ends are known best: the bollard pull T₀ at rest, and the thrust at top
//! speed, η_D P/V. Between them the thrust of a propeller falls all the way. It
//! is taken along the smooth curve through both ends
//!
//! 1/T² = 1/T₀² + (V/P_e)²,
//!
//! with P_e from the end at top speed: level at rest, and near a constant
//! effective power when fast. Common practice, no source. A straight line
//! between the ends would be as good on most boats, but has fast boats with a
//! strong bollard pull at 70 % efficiency in the middle. Where the boat file
//! gives the efficiency by speed, T = η_D(V) P/V, never above the bollard pull.

use uom::si::f64::{Angle, Force, Ratio, Velocity};
use uom::si::{force::newton, power::watt, ratio::ratio as one, velocity::meter_per_second};

use crate::balance::{Balance, Settings};
use crate::boat::propulsion::{
    believable_efficiency, implied_efficiency, usual_bollard_pull, usual_efficiency,
};
use crate::boat::{Boat, Estimate, Fault, Measure};
use crate::field::by_word;
use crate::flag::{Flag, Flags};
use crate::hydro;
use crate::numeric::level_interpolation;

/// Efficiency near the hump as a share of that when planing, running steadily. Common practice, no source.
///
/// A propeller chosen for top speed works off its best slip there.
pub const SHARE_AT_HUMP: f64 = 0.8;
/// Cv up to which the efficiency is that of the hump.
pub const HUMP_SPEED_COEFFICIENT: f64 = 1.0;
/// Cv from which the efficiency is that of planing.
pub const PLANING_SPEED_COEFFICIENT: f64 = 2.0;

/// Where an efficiency comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EfficiencyBasis {
    /// A curve by speed in the boat file.
    Curve,
    /// One value in the boat file.
    Given,
    /// What her power and top speed imply.
    Implied,
    /// What is usual.
    Usual,
}

impl EfficiencyBasis {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Curve => "curve",
            Self::Given => "given",
            Self::Implied => "implied-by-top-speed",
            Self::Usual => "usual",
        }
    }
}

by_word!(EfficiencyBasis);

/// Propulsive efficiency η_D of steady running, effective power over shaft power, by speed.
///
/// At full power below top speed it is less: the engines are held down by their
/// propellers, and the thrust is that of [`Thrust`].
#[derive(Clone, Debug, PartialEq)]
pub struct Efficiency {
    /// Speeds in m/s, rising, with the efficiency there.
    points: Vec<[f64; 2]>,
    basis: EfficiencyBasis,
    estimate: Option<Estimate>,
    believable: bool,
}

impl Efficiency {
    /// The curve of the boat file; else one efficiency when planing, a fifth lower up to Cv 1 and rising along a straight line to Cv 2.
    ///
    /// The one efficiency is that of the boat file; else what power and top
    /// speed imply where it gives both, with planes up and the loads as they are
    /// listed; else what is usual.
    #[must_use]
    pub fn of(boat: &Boat, settings: &Settings) -> Self {
        let given = boat.propulsion();
        if !given.efficiency_curve.is_empty() {
            let point = |at: &crate::boat::EfficiencyAt| {
                [at.speed.get::<meter_per_second>(), at.efficiency.get::<one>()]
            };
            let points = given.efficiency_curve.iter().map(point).collect();
            let basis = EfficiencyBasis::Curve;
            return Self { points, basis, estimate: None, believable: true };
        }
        if let Some(efficiency) = given.efficiency {
            return Self::planing(boat, efficiency, EfficiencyBasis::Given, None);
        }
        let implied = implied(boat, settings);
        let (basis, estimate) = match implied {
            Some(asked) => (EfficiencyBasis::Implied, implied_efficiency(asked)),
            None => (EfficiencyBasis::Usual, usual_efficiency()),
        };
        let Measure::Share(efficiency) = estimate.value else { unreachable!("a share") };
        let believable = implied.is_none_or(believable_efficiency);
        Self { believable, ..Self::planing(boat, efficiency, basis, Some(estimate)) }
    }

    fn planing(
        boat: &Boat,
        efficiency: Ratio,
        basis: EfficiencyBasis,
        estimate: Option<Estimate>,
    ) -> Self {
        let share = efficiency.get::<one>();
        let speed_m_s = |cv| hydro::speed_at(cv, boat.hull().chine_beam).get::<meter_per_second>();
        let points = vec![
            [speed_m_s(HUMP_SPEED_COEFFICIENT), SHARE_AT_HUMP * share],
            [speed_m_s(PLANING_SPEED_COEFFICIENT), share],
        ];
        Self { points, basis, estimate, believable: true }
    }

    /// The estimate behind it, when the boat file gives none.
    #[must_use]
    pub const fn estimate(&self) -> Option<&Estimate> {
        self.estimate.as_ref()
    }

    /// Where it comes from.
    #[must_use]
    pub const fn basis(&self) -> EfficiencyBasis {
        self.basis
    }

    /// What to know before trusting it.
    #[must_use]
    pub const fn flags(&self) -> Flags {
        let mut flags = Flags::NONE;
        flags.insert_if(!self.believable, Flag::EfficiencyNotBelievable);
        flags
    }

    /// The efficiency at a speed.
    #[must_use]
    pub fn at(&self, speed: Velocity) -> Ratio {
        Ratio::new::<one>(self.at_m_s(speed.get::<meter_per_second>()))
    }

    /// The efficiency when planing; the last of a curve.
    #[must_use]
    pub fn when_planing(&self) -> Ratio {
        Ratio::new::<one>(self.points.last().map_or(0.0, |last| last[1]))
    }

    /// Between two points of the curve along a straight line, level outside them.
    pub(crate) fn at_m_s(&self, speed_m_s: f64) -> f64 {
        level_interpolation(&self.points, speed_m_s)
    }
}

/// η_D = R V/P at the top speed that the boat file gives, planes up and the loads as they are listed.
///
/// None without power or top speed, and where she does not run so fast.
fn implied(boat: &Boat, settings: &Settings) -> Option<Ratio> {
    let power = boat.drive().power?;
    let top_speed = boat.input().drive.top_speed?;
    // One engine and one propeller push her in every condition.
    let listed = boat.in_condition(&boat.conditions()[0].name).ok()?;
    let balance = Balance::of(&listed, settings).with_planes(None);
    let running = balance.point(top_speed, Angle::default()).ok()?.running?;
    Some(running.resistance * top_speed / power)
}

/// How the thrust falls with speed.
#[derive(Clone, Debug, PartialEq)]
enum Fall {
    /// η_D(V) P/V, never above the bollard pull.
    ByEfficiency,
    /// The smooth curve, with 1/P_e² in 1/W².
    Smooth { inverse_square: f64 },
}

/// The thrust of all engines at full power.
#[derive(Clone, Debug, PartialEq)]
pub struct Thrust {
    power_w: f64,
    bollard_n: f64,
    fall: Fall,
    efficiency: Efficiency,
    bollard_estimate: Option<Estimate>,
}

impl Thrust {
    /// The thrust of a boat's engines.
    ///
    /// # Errors
    /// A [`Fault`] when the boat file gives no power.
    pub fn of(boat: &Boat, settings: &Settings) -> Result<Self, Fault> {
        let Some(power) = boat.drive().power else {
            return Err(Fault {
                key: "drive.power".to_owned(),
                problem: "is not given, and the thrust comes from it".to_owned(),
                remedy: "give the rated shaft power of all engines together, for example power = \"220 kW\""
                    .to_owned(),
            });
        };
        let efficiency = Efficiency::of(boat, settings);
        let top_m_s = boat.drive().top_speed.get::<meter_per_second>();
        let at_top_n = efficiency.at_m_s(top_m_s) * power.get::<watt>() / top_m_s;
        let given = boat.propulsion().bollard_pull;
        let estimate =
            given.is_none().then(|| usual_bollard_pull(power, Force::new::<newton>(at_top_n)));
        let bollard = match (&estimate, given) {
            (Some(Estimate { value: Measure::Force(force), .. }), _) => *force,
            (_, given) => given.unwrap_or_default(),
        };
        let bollard_n = bollard.get::<newton>();
        let fall = match efficiency.basis() {
            EfficiencyBasis::Curve => Fall::ByEfficiency,
            _ => falling([bollard_n, at_top_n], top_m_s),
        };
        let power_w = power.get::<watt>();
        Ok(Self { power_w, bollard_n, fall, efficiency, bollard_estimate: estimate })
    }

    /// Thrust at full power at a speed.
    #[must_use]
    pub fn at(&self, speed: Velocity) -> Force {
        Force::new::<newton>(self.at_m_s(speed.get::<meter_per_second>()))
    }

    pub(crate) fn at_m_s(&self, speed_m_s: f64) -> f64 {
        match self.fall {
            Fall::ByEfficiency => {
                let by_power_n = self.efficiency.at_m_s(speed_m_s) * self.power_w / speed_m_s;
                // At rest the power would push without end.
                if by_power_n < self.bollard_n { by_power_n } else { self.bollard_n }
            }
            Fall::Smooth { inverse_square } => {
                let share = self.bollard_n * speed_m_s;
                self.bollard_n / (1.0 + inverse_square * share * share).sqrt()
            }
        }
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

/// The smooth curve from the bollard pull to the thrust at top speed; level where that is no less.
fn falling([bollard_n, at_top_n]: [f64; 2], top_m_s: f64) -> Fall {
    let [rest, top] = [bollard_n, at_top_n].map(|thrust_n| 1.0 / (thrust_n * thrust_n));
    Fall::Smooth { inverse_square: ((top - rest) / (top_m_s * top_m_s)).max(0.0) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;

    const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
        deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\n[drive]\npower = \"200 kW\"\n";

    fn thrust(more: &str) -> Thrust {
        let boat = parse_boat("b.toml", &format!("{BOAT}{more}")).unwrap().boat;
        Thrust::of(&boat, &Settings::default()).unwrap()
    }

    #[test]
    fn physics_the_thrust_meets_the_bollard_pull_and_the_power_at_top_speed() {
        let thrust = thrust(
            "propulsive_efficiency = \"50 %\"\nbollard_pull = \"11 kN\"\ntop_speed = \"15 m/s\"\n",
        );
        assert_relative_eq!(thrust.at_m_s(0.0), 11_000.0, max_relative = 1e-12);
        // 0.5 x 200 kW / 15 m/s.
        assert_relative_eq!(thrust.at_m_s(15.0), 100_000.0 / 15.0, max_relative = 1e-12);
        // Steady running: up to Cv 1 a fifth lower.
        assert_relative_eq!(thrust.efficiency.at_m_s(3.0), 0.40, max_relative = 1e-12);
        assert_eq!(thrust.efficiency.basis(), EfficiencyBasis::Given);
    }

    /// A propeller pushes the less the faster it goes, and is not better below its top speed than there.
    #[test]
    fn physics_the_thrust_falls_all_the_way_and_its_power_rises() {
        for top in ["9 m/s", "16 m/s", "30 m/s"] {
            let thrust =
                thrust(&format!("propulsive_efficiency = \"50 %\"\ntop_speed = \"{top}\"\n"));
            let at: Vec<f64> = (1..=60).map(|step| 0.5 * f64::from(step)).collect();
            for pair in at.windows(2) {
                let [slow, fast] = [pair[0], pair[1]].map(|v| thrust.at_m_s(v));
                assert!(fast < slow && fast * pair[1] > slow * pair[0], "{top}: {pair:?}");
            }
        }
    }

    #[test]
    fn physics_a_boat_that_gives_power_and_top_speed_says_how_good_her_propeller_is() {
        let text = format!("{BOAT}top_speed = \"30 kn\"\n");
        let boat = parse_boat("b.toml", &text).unwrap().boat;
        let thrust = Thrust::of(&boat, &Settings::default()).unwrap();
        assert_eq!(thrust.efficiency.basis(), EfficiencyBasis::Implied);
        assert!(thrust.efficiency.flags().is_empty());
        let balance = Balance::of(&boat, &Settings::default());
        let top = boat.drive().top_speed;
        let running = balance.point(top, Angle::default()).unwrap().running.unwrap();
        assert_relative_eq!(
            thrust.at(top).get::<newton>(),
            running.resistance.get::<newton>(),
            max_relative = 1e-12
        );
        // By hand: effective over shaft power.
        let share = running.effective_power.get::<watt>() / 200_000.0;
        assert_relative_eq!(
            thrust.efficiency.when_planing().get::<one>(),
            share,
            max_relative = 1e-12
        );
        let estimate = thrust.efficiency.estimate().unwrap();
        let [low, high] = [estimate.low, estimate.high].map(|end| end.value() / 100.0);
        assert!(low < share && share < high);
        // A top speed that is itself a guess from the power says nothing of the propeller.
        let guessed = parse_boat("b.toml", BOAT).unwrap().boat;
        let efficiency = Efficiency::of(&guessed, &Settings::default());
        assert_eq!(efficiency.basis(), EfficiencyBasis::Usual);
        assert_relative_eq!(efficiency.when_planing().get::<one>(), 0.52, max_relative = 1e-12);
    }

    #[test]
    fn physics_an_efficiency_that_nobody_believes_is_held_and_flagged() {
        for (power, held) in [("60 kW", 0.75), ("900 kW", 0.25)] {
            let text = BOAT.replace("200 kW", power) + "top_speed = \"30 kn\"\n";
            let boat = parse_boat("b.toml", &text).unwrap().boat;
            let efficiency = Efficiency::of(&boat, &Settings::default());
            assert!(efficiency.flags().contains(Flag::EfficiencyNotBelievable), "{power}");
            assert_relative_eq!(efficiency.when_planing().get::<one>(), held, max_relative = 1e-12);
            assert!(efficiency.estimate().unwrap().rule.contains("not believed"));
        }
    }

    /// One propeller pushes her however she is loaded.
    #[test]
    fn physics_the_efficiency_is_that_of_the_loads_as_listed() {
        let text = format!(
            "{BOAT}top_speed = \"30 kn\"\n[[condition]]\nname = \"deep\"\n[[condition.load]]\n\
             item = \"guests\"\nmass = \"400 kg\"\nforward = \"2.4 m\"\nup = \"1 m\"\n"
        );
        let boat = parse_boat("b.toml", &text).unwrap().boat;
        let deep = boat.in_condition("deep").unwrap();
        let of = |boat| Efficiency::of(boat, &Settings::default()).when_planing();
        assert_eq!(of(&boat), of(&deep));
    }

    #[test]
    fn physics_never_above_the_bollard_pull_and_without_a_jump() {
        let thrust = thrust(
            "bollard_pull = \"9 kN\"\n[[drive.efficiency]]\nspeed = \"10 kn\"\n\
             propulsive_efficiency = \"42 %\"\n",
        );
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
        let boat = parse_boat("b.toml", &text).unwrap().boat;
        let fault = Thrust::of(&boat, &Settings::default()).unwrap_err();
        assert_eq!(fault.to_string(), "drive.power: is not given, and the thrust comes from it");
    }
}
