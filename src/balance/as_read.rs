//! The equations brought to what was read of a boat on the water.
//!
//! A trim that was read says where the pressure of the water must act to hold her so, and how strong it
//! must be. Two factors, the same at every speed and in every loading, are moved from 1 as little as it
//! takes: that on the distance of the centre of pressure, which stands for where her weight lies too,
//! and that on the lift, which stands for mass, beam and deadrise too. They are the most likely ones,
//! given how sure each reading is and how far the factors usually lie from 1 (Tarantola 2005, Inverse
//! Problem Theory, section 3.2, from memory). How sure the outcome is, `doubt` counts by drawing boats
//! that would have shown the same.

use uom::si::angle::degree;
use uom::si::f64::Angle;
use uom::si::velocity::meter_per_second;

use super::forces::{PlaneSize, Prism};
use super::root::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG, Precision, Root, Search};
use super::{Method, Settings};
use crate::boat::{Boat, Fault, Particulars, degrees};
use crate::numeric::LIKELY_DEVIATIONS;

/// Standard deviations of the logarithms of the two factors, before anything was read: of the centre of
/// pressure and of the lift of a sparsely described boat. Judged from what `doubt` draws.
const DEVIATIONS: [f64; 2] = [0.15, 0.2];
/// Logarithms beyond which no factor is moved.
const FURTHEST: f64 = 0.5;
/// Logarithms of the factor on the centre of pressure from which the search may begin.
const STARTS: [f64; 5] = [0.0, -0.15, 0.15, -0.3, 0.3];
/// Step of the slopes, as a logarithm.
const SLOPE_STEP: f64 = 1e-3;
/// Step at which the search has settled, as a logarithm.
const SETTLED: f64 = 1e-7;
/// Gauss–Newton steps at most, and times that one is halved.
const MOST_STEPS: [usize; 2] = [30, 8];

/// A trim that was read, with the boat as she was then.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sight {
    /// The boat in her loading then.
    pub boat: Particulars,
    /// The speed.
    pub speed_m_s: f64,
    /// The planes she had with their deflection, where she had any.
    pub planes: Option<(PlaneSize, f64)>,
    /// What was read.
    pub trim_deg: f64,
    /// Half of the range that holds nine such readings in ten.
    pub by_deg: f64,
}

impl Sight {
    /// Every reading of a boat with her in the loading that it was taken in.
    ///
    /// # Errors
    /// As [`Boat::in_condition`].
    pub fn all(boat: &Boat) -> Result<Vec<Self>, Fault> {
        let one = |seen: &crate::boat::Seen| {
            let then = boat.as_seen(seen)?;
            let pair = seen.planes.or(boat.planes()).filter(|_| seen.is_with_planes());
            Ok(Self {
                boat: then.particulars(),
                speed_m_s: seen.speed.get::<meter_per_second>(),
                planes: pair.map(|pair| (pair.into(), degrees(seen.deflection))),
                trim_deg: degrees(seen.trim),
                by_deg: degrees(seen.half_width()),
            })
        };
        boat.seen().iter().map(one).collect()
    }

    /// Deflection of the planes then.
    pub fn deflection(&self) -> Angle {
        Angle::new::<degree>(self.planes.map_or(0.0, |(_, deg)| deg))
    }

    /// Trim of a prism where this was read, from a trim that it is likely near; that at the end of the
    /// range where it finds no balance.
    pub fn trim_deg_of(&self, prism: &Prism, precision: Precision, near_deg: Option<f64>) -> f64 {
        let bare = prism.at(self.speed_m_s);
        let condition = match self.planes {
            Some((size, deflection_deg)) => bare.with_planes(size, deflection_deg),
            None => bare,
        };
        match Search::to(precision, &condition).root(near_deg) {
            Root::Found { forces, .. } => forces.trim_deg,
            Root::BowDown => LEAST_TRIM_DEG,
            Root::BowUp => LARGEST_TRIM_DEG,
        }
    }
}

/// The settings with the equations brought to what was read of a boat; as they are where nothing was, and
/// by the equations as printed.
#[must_use]
pub(crate) fn settings_as_read(boat: &Boat, settings: &Settings) -> Settings {
    if boat.seen().is_empty() || settings.method != Method::BestEstimate {
        return *settings;
    }
    let Ok(sights) = Sight::all(boat) else { return *settings };
    let readings = Readings { sights, settings };
    readings.moved(readings.most_likely())
}

/// Logarithms of the factors with what each trim is then over the one read.
type Standing = ([f64; 2], Vec<f64>);

/// The readings with the settings to be brought to them.
struct Readings<'a> {
    sights: Vec<Sight>,
    settings: &'a Settings,
}

impl Readings<'_> {
    fn moved(&self, logarithms: [f64; 2]) -> Settings {
        let mut settings = *self.settings;
        settings.form.centre_of_pressure *= logarithms[0].exp();
        settings.form.lift *= logarithms[1].exp();
        settings
    }

    /// What each trim computed is over the one read, in standard deviations of the reading.
    fn over(&self, logarithms: [f64; 2]) -> Vec<f64> {
        let settings = self.moved(logarithms);
        let over = |sight: &Sight| {
            let prism = Prism::of(&sight.boat, &settings);
            let trim_deg = sight.trim_deg_of(&prism, Precision::FINEST, Some(sight.trim_deg));
            LIKELY_DEVIATIONS * (trim_deg - sight.trim_deg) / sight.by_deg
        };
        self.sights.iter().map(over).collect()
    }

    /// The most likely logarithms of the factors.
    ///
    /// A boat without a balance has no slope there: the search begins where of some centres of pressure
    /// the loss is least.
    fn most_likely(&self) -> [f64; 2] {
        let starts = STARTS.map(|start| ([start, 0.0], self.over([start, 0.0])));
        let by_loss = |a: &Standing, b: &Standing| loss(a.0, &a.1).total_cmp(&loss(b.0, &b.1));
        starts.into_iter().min_by(by_loss).map_or([0.0; 2], |start| self.descended(start))
    }

    /// The least loss from a place downward, by Gauss–Newton steps.
    fn descended(&self, (mut at, mut over): Standing) -> [f64; 2] {
        for _ in 0..MOST_STEPS[0] {
            let slopes = [0, 1].map(|index| {
                let mut moved = at;
                moved[index] += SLOPE_STEP;
                let moved = self.over(moved);
                moved.iter().zip(&over).map(|(m, o)| (m - o) / SLOPE_STEP).collect::<Vec<_>>()
            });
            let step = step(at, &over, &slopes);
            let halved = (0..MOST_STEPS[1]).map(|times| 0.5_f64.powi(times as i32));
            let mut tried = halved.map(|share| {
                let place = [0, 1]
                    .map(|index| (at[index] + share * step[index]).clamp(-FURTHEST, FURTHEST));
                (place, self.over(place))
            });
            let better = tried.find(|(place, tried)| loss(*place, tried) < loss(at, &over));
            let Some((place, better)) = better else { break };
            let moved = (place[0] - at[0]).abs().max((place[1] - at[1]).abs());
            (at, over) = (place, better);
            if moved < SETTLED {
                break;
            }
        }
        at
    }
}

/// Twice the loss: squares of what is over, and of the logarithms in their deviations.
fn loss(logarithms: [f64; 2], over: &[f64]) -> f64 {
    let own = logarithms.iter().zip(DEVIATIONS).map(|(at, deviation)| (at / deviation).powi(2));
    own.sum::<f64>() + over.iter().map(|over| over * over).sum::<f64>()
}

/// The step to where the loss would be least on straight slopes: (JᵀJ + D⁻²)⁻¹ times its slope downward.
fn step(at: [f64; 2], over: &[f64], slopes: &[Vec<f64>; 2]) -> [f64; 2] {
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let own = DEVIATIONS.map(|deviation| 1.0 / (deviation * deviation));
    let down = [0, 1].map(|index| -dot(&slopes[index], over) - own[index] * at[index]);
    let [first, second] = [0, 1].map(|index| dot(&slopes[index], &slopes[index]) + own[index]);
    let both = dot(&slopes[0], &slopes[1]);
    let determinant = first * second - both * both;
    [
        (second * down[0] - both * down[1]) / determinant,
        (first * down[1] - both * down[0]) / determinant,
    ]
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;
    use uom::si::angle::degree;
    use uom::si::f64::{Angle, Velocity};
    use uom::si::velocity::knot;

    use super::*;
    use crate::balance::{Balance, LiftModel};

    const BOAT: &str = r#"
        name = "Boat"
        [hull]
        bottom_length = "6 m"
        chine_beam = "2.2 m"
        deadrise = "18 deg"
        [weight]
        mass = "2300 kg"
        lcg = "2.3 m"
        vcg = "0.7 m"
        [drive]
        thrust_angle = "0 deg"
        thrust_offset = "0.3 m"
        top_speed = "32 kn"
    "#;

    fn read(seen: &str) -> Boat {
        crate::input::parse_boat("boat", &format!("{BOAT}{seen}")).unwrap().boat
    }

    fn trim_deg(boat: &Boat, settings: &Settings, speed_kn: f64) -> f64 {
        let point = Balance::of(boat, settings)
            .point(Velocity::new::<knot>(speed_kn), Angle::default())
            .unwrap();
        degrees(point.running.unwrap().trim)
    }

    fn seen(speed_kn: f64, trim_deg: f64, by_deg: f64) -> String {
        format!(
            "[[seen]]\nspeed = \"{speed_kn} kn\"\ntrim = \"{trim_deg} deg\"\nby = \"{by_deg} deg\"\n"
        )
    }

    #[test]
    fn physics_she_trims_as_she_was_read() {
        let settings = Settings::default();
        let alone = trim_deg(&read(""), &settings, 12.0);
        let told = |by_deg: f64| {
            trim_deg(&read(&seen(12.0, alone - 1.0, by_deg)), &settings, 12.0) - (alone - 1.0)
        };
        // The surer it is read, the nearer.
        assert_abs_diff_eq!(told(0.1), 0.0, epsilon = 5e-3);
        let told = [0.2, 1.0, 4.0].map(told);
        assert!(told.is_sorted() && told[0] > 0.0 && told[2] < 1.0, "{told:?}");
        // A reading of ± 1° counts for nearly all, one as unsure as what is computed for about half.
        assert!(told[1] < 0.1 && (0.3..0.7).contains(&told[2]), "{told:?}");
        // At other speeds she moves the same way.
        let as_read = read(&seen(12.0, alone - 1.0, 0.1));
        for speed_kn in [16.0, 24.0] {
            let alone = trim_deg(&read(""), &settings, speed_kn);
            let less = alone - trim_deg(&as_read, &settings, speed_kn);
            assert!((0.2..1.2).contains(&less), "{speed_kn}: {less}");
        }
        // With her planes down in the reading too.
        let with_planes = format!(
            "[planes]\nspan = \"600 mm\"\nchord = \"230 mm\"\n{}deflection = \"8 deg\"\n",
            seen(12.0, 5.0, 0.1)
        );
        let as_read = read(&with_planes);
        let point = Balance::of(&as_read, &settings)
            .point(Velocity::new::<knot>(12.0), Angle::new::<degree>(8.0))
            .unwrap();
        assert_abs_diff_eq!(degrees(point.running.unwrap().trim), 5.0, epsilon = 1e-2);
    }

    /// By hand: the loss, with the trims along their slopes about the outcome, is least there.
    #[test]
    fn physics_two_readings_are_met_by_the_most_likely_factors() {
        let settings = Settings::default();
        let alone = [12.0, 22.0].map(|speed_kn| trim_deg(&read(""), &settings, speed_kn));
        let both = seen(12.0, alone[0] - 1.0, 0.5) + &seen(22.0, alone[1] - 0.8, 0.5);
        let boat = read(&both);
        let readings = Readings { sights: Sight::all(&boat).unwrap(), settings: &settings };
        let at = readings.most_likely();
        let least = loss(at, &readings.over(at));
        for index in [0, 1] {
            for step in [-0.01, 0.01] {
                let mut beside = at;
                beside[index] += step;
                assert!(loss(beside, &readings.over(beside)) > least, "{index} {step}");
            }
        }
        // Both lie nearer than by the file alone, and neither is missed by what it is sure to.
        for (speed_kn, read_deg) in [(12.0, alone[0] - 1.0), (22.0, alone[1] - 0.8)] {
            let off = trim_deg(&boat, &settings, speed_kn) - read_deg;
            assert!(off.abs() < 0.5, "{speed_kn}: {off}");
        }
    }

    #[test]
    fn regression_a_boat_without_a_balance_by_her_file_is_brought_to_the_reading() {
        let stern_heavy = BOAT.replace("2.3 m\"\n        vcg", "1.4 m\"\n        vcg");
        assert_ne!(stern_heavy, BOAT);
        let settings = Settings::default();
        let at = |text: &str| {
            let boat = crate::input::parse_boat("boat", text).unwrap().boat;
            let speed = Velocity::new::<knot>(12.0);
            let point = Balance::of(&boat, &settings).point(speed, Angle::default()).unwrap();
            point.running.map(|running| degrees(running.trim))
        };
        assert_eq!(at(&stern_heavy), None);
        let told_deg = at(&(stern_heavy + &seen(12.0, 9.0, 0.3))).unwrap();
        assert_abs_diff_eq!(told_deg, 9.0, epsilon = 0.3);
    }

    #[test]
    fn physics_the_equations_as_printed_change_nothing_and_other_lift_is_brought_too() {
        let full = Settings { method: Method::Full, ..Settings::default() };
        let other = Settings { model: LiftModel::Shuford1958, ..Settings::default() };
        let as_read = read(&seen(12.0, 5.0, 0.1));
        assert_eq!(trim_deg(&read(""), &full, 12.0), trim_deg(&as_read, &full, 12.0));
        assert_abs_diff_eq!(trim_deg(&as_read, &other, 12.0), 5.0, epsilon = 2e-2);
        let settings = Settings::default();
        assert_eq!(settings_as_read(&read(""), &settings), settings);
    }
}
