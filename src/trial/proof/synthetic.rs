//! Logs made by the equations for boats that are known, read with the usual errors.

use rayon::iter::{IntoParallelIterator, ParallelIterator};
use statrs::distribution::{ContinuousCDF, Normal};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Power, Ratio, Velocity};
use uom::si::{power::watt, ratio::ratio, velocity::meter_per_second};

use crate::balance::Settings;
use crate::boat::{Boat, Measure};
use crate::input::parse_boat;
use crate::trial::model::Model;
use crate::trial::noise;
use crate::trial::pair::{Averaged, Measurement};
use crate::trial::unknown::{COLUMNS, EFFICIENCY};
use crate::trial::{Interval, Options, Unknown, learn};
use crate::units::factor::M_S_PER_KNOT;

/// What a log is made like.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// Errors over the usual ones.
    pub noise: f64,
    /// Share of trims that are wild: off by 1.5 to 4 degrees.
    pub wild: f64,
    /// Whether power is measured.
    pub power: bool,
    /// How the boats of the logs really behave.
    pub nature: Settings,
    /// How the log is read out.
    pub settings: Settings,
}

impl Default for Plan {
    fn default() -> Self {
        let settings = Settings::default();
        Self { noise: 1.0, wild: 0.0, power: true, nature: settings, settings }
    }
}

/// How often an interval held the truth.
#[derive(Clone, Copy, Debug, Default)]
pub struct Found {
    pub logs: u32,
    pub held: u32,
    pub held_with_form: u32,
    /// Mean half width of the interval.
    pub mean_half: f64,
}

impl Found {
    pub fn share(&self) -> f64 {
        f64::from(self.held) / f64::from(self.logs)
    }
    pub fn share_with_form(&self) -> f64 {
        f64::from(self.held_with_form) / f64::from(self.logs)
    }
}

/// How often each held.
#[derive(Clone, Copy, Debug, Default)]
pub struct Coverage {
    found: [Found; 3],
    pub refused: u32,
}

impl Coverage {
    pub fn each(&self) -> impl Iterator<Item = (Unknown, &Found)> {
        Unknown::ALL.into_iter().zip(&self.found)
    }
    pub fn of(&self, unknown: Unknown) -> Found {
        self.found[unknown.index()]
    }
    fn add(&mut self, other: &Self) {
        self.refused += other.refused;
        for (mine, theirs) in self.found.iter_mut().zip(&other.found) {
            let logs = mine.logs + theirs.logs;
            if logs > 0 {
                let sum = mine.mean_half * f64::from(mine.logs)
                    + theirs.mean_half * f64::from(theirs.logs);
                mine.mean_half = sum / f64::from(logs);
            }
            mine.logs = logs;
            mine.held += theirs.held;
            mine.held_with_form += theirs.held_with_form;
        }
    }
}

/// A stream of numbers that is the same on every machine (splitmix64; Steele, Lea & Flood 2014).
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0xD1B5_4A32_D192_ED03)
    }
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        ((z >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }
    pub fn normal(&mut self) -> f64 {
        Normal::standard().inverse_cdf(self.share())
    }
}

/// The demo boats with planes, and the speeds they are tried at, kn.
pub fn boats() -> Vec<(Boat, Vec<f64>)> {
    let lantern = include_str!("../../../data/boats/lantern.toml");
    let holm = include_str!("../../../data/boats/holm.toml");
    let speeds =
        |from: f64, to: f64| (0..8).map(|i| from + (to - from) * f64::from(i) / 7.0).collect();
    vec![
        (parse_boat("lantern", lantern).unwrap().boat, speeds(12.0, 33.0)),
        (parse_boat("holm", holm).unwrap().boat, speeds(14.0, 25.0)),
    ]
}

/// Coverage over logs with these seeds; the sum does not depend on the threads that share them.
pub fn covered(logs: u64, plan: &Plan) -> Coverage {
    let boats = boats();
    let one = |seed: u64| {
        let (boat, speeds) = &boats[(seed % 2) as usize];
        one(boat, speeds, plan, seed)
    };
    let each: Vec<Coverage> = (0..logs).into_par_iter().map(one).collect();
    let mut all = Coverage::default();
    each.iter().for_each(|coverage| all.add(coverage));
    all
}

/// One log: the true values drawn from what is known before, the readings from their errors.
fn one(boat: &Boat, speeds: &[f64], plan: &Plan, seed: u64) -> Coverage {
    let mut chance = Chance::new(seed);
    let given = Ratio::new::<ratio>(0.55);
    let model = Model::new(boat, &plan.nature, (given, 0.03));
    let mut truth = [0.0; COLUMNS];
    truth[..=EFFICIENCY].fill_with(|| chance.normal());
    let index = Unknown::Roughness.index();
    // No bottom is smoother than smooth, and the prior is not for slime a hand thick.
    truth[index] = truth[index].abs().min(2.5) + 0.2;
    let log = log(&model, &truth, speeds, plan, &mut chance);
    let options = Options { efficiency: Some(given) };
    let mut coverage = Coverage::default();
    let Ok(learned) = learn(boat, &plan.settings, &log, &options) else {
        coverage.refused = 1;
        return coverage;
    };
    for fitted in learned.fitted.iter().filter(|fitted| fitted.unknown.is_of_the_boat()) {
        let unknown = fitted.unknown;
        let value = model.prior.value(unknown, truth[unknown.index()]);
        let inside = |interval: &Interval| {
            u32::from((interval.low.value()..=interval.high.value()).contains(&value))
        };
        let half = |measure: Measure| measure.value();
        coverage.found[unknown.index()] = Found {
            logs: 1,
            held: inside(&fitted.interval),
            held_with_form: inside(&fitted.with_form),
            mean_half: 0.5 * (half(fitted.interval.high) - half(fitted.interval.low)),
        };
    }
    coverage
}

/// Two-way runs at every speed with planes up; at every other with planes down, 4 degrees one way and 8 degrees both ways.
///
/// Nobody drives the bow under 2 degrees of trim for a reading: such a run is left out.
pub fn log(
    model: &Model,
    truth: &[f64; COLUMNS],
    speeds_kn: &[f64],
    plan: &Plan,
    chance: &mut Chance,
) -> Vec<Measurement> {
    let placed = model.at(truth);
    let mut log = Vec::new();
    let mut line = 1;
    for (index, &speed_kn) in speeds_kn.iter().enumerate() {
        let down: &[f64] = if index % 2 == 1 { &[0.0, 4.0, 8.0] } else { &[0.0] };
        for &deflection_deg in down {
            let averaged =
                if deflection_deg == 4.0 { Averaged::OneRun } else { Averaged::BothWays };
            let [speed_m_s, trim_deg, angle_deg, power] =
                noise::readings(averaged).map(|error| error * plan.noise * chance.normal());
            let true_m_s = speed_kn * M_S_PER_KNOT;
            let really = placed.predict_at(true_m_s, deflection_deg, None);
            if deflection_deg > 0.0 && really.trim_deg < 2.0 {
                continue;
            }
            let wild = if chance.share() < plan.wild {
                let size = 1.5 + 2.5 * chance.share();
                if chance.share() < 0.5 { size } else { -size }
            } else {
                0.0
            };
            let runs = if averaged == Averaged::BothWays { 2 } else { 1 };
            let read_deg =
                if deflection_deg > 0.0 { (deflection_deg + angle_deg).max(0.1) } else { 0.0 };
            log.push(Measurement {
                lines: (0..runs).map(|run| line + run).collect(),
                averaged,
                speed: Velocity::new::<meter_per_second>(true_m_s + speed_m_s),
                trim: Angle::new::<degree>(really.trim_deg + trim_deg + wild),
                deflection: Angle::new::<degree>(read_deg),
                power: really
                    .power_w
                    .filter(|_| plan.power)
                    .map(|watts| Power::new::<watt>(watts * power.exp())),
                fuel: None,
                notes: Vec::new(),
            });
            line += runs;
        }
    }
    log
}

/// The text of an invented log of the demo boat: two-way runs in a current, planes up and down, one of them in a wake.
pub fn demo_log() -> String {
    let (boat, _) = boats().swap_remove(0);
    let model = Model::new(&boat, &Settings::default(), (Ratio::new::<ratio>(0.55), 0.03));
    let mut truth = [0.0; COLUMNS];
    truth[Unknown::CentreOfGravity.index()] = -0.8;
    truth[Unknown::PlaneEffectiveness.index()] = 0.8;
    truth[Unknown::Roughness.index()] = 1.2;
    truth[Unknown::InclinometerZero.index()] = 0.3;
    let placed = model.at(&truth);
    let mut chance = Chance::new(7);
    let mut text = "# An invented log for the demo boat data/boats/lantern.toml, loaded as she is listed.\n\
        # Measured by GPS, a digital inclinometer set to zero on the keel line, and the engines' displays.\n\
        speed (kn),trim (deg),deflection (deg),power (hp),rpm,pair,direction,note\n"
        .to_owned();
    let runs = [
        (13.0, 0.0),
        (15.0, 0.0),
        (17.0, 0.0),
        (20.0, 0.0),
        (23.0, 0.0),
        (26.0, 0.0),
        (29.0, 0.0),
        (32.0, 0.0),
        (15.0, 4.0),
        (15.0, 8.0),
        (20.0, 4.0),
        (20.0, 8.0),
        (25.0, 4.0),
    ];
    for (pair, (speed_kn, deflection_deg)) in runs.into_iter().enumerate() {
        let really = placed.predict_at(speed_kn * M_S_PER_KNOT, deflection_deg, None);
        let horsepower = really.power_w.unwrap() / crate::units::factor::W_PER_HORSEPOWER;
        let rpm = 1150.0 + 96.0 * speed_kn;
        for (way, current_kn) in [("out", 0.7), ("back", -0.7)] {
            let speed_kn = speed_kn + current_kn + 0.15 * chance.normal();
            let mut trim_deg = really.trim_deg + 0.13 * chance.normal();
            let mut note = "";
            if (pair, way) == (5, "back") {
                (trim_deg, note) = (trim_deg + 2.6, "wake of a ferry");
            }
            text.push_str(&format!(
                "{speed_kn:.1},{trim_deg:.1},{deflection_deg:.0},{:.0},{:.0},{},{way},{note}\n",
                horsepower * (0.02 * chance.normal()).exp(),
                rpm + 15.0 * chance.normal(),
                char::from(b'A' + pair as u8),
            ));
        }
    }
    text
}
