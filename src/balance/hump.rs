//! The hump: where the bow rides highest on the way from planing to top speed, with planes up.
//!
//! One speed for everything that is told of a boat. Where a *resistance* or a
//! *thrust* is tightest is another place, and goes by another name.

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::Settings;
use super::prism::Prism;
use super::root::{LARGEST_TRIM_DEG, Root, Search};
use super::sweep::planing_start;
use crate::boat::Boat;
use crate::field::by_word;
use crate::numeric::least_between;

/// Even steps through the planing range at which the hump is first looked for.
const STEPS: u32 = 40;
/// Precision of the hump's speed, m/s.
const PRECISION_M_S: f64 = 1e-4;
/// Stands in for the trim where she finds no balance: under every real one.
const NO_TRIM_DEG: f64 = -90.0;
/// A trim that is larger by less than this is none, degrees: a range that falls all the way begins with its hump.
const LARGER_DEG: f64 = 1e-6;

/// Where in the planing range the hump lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HumpPlace {
    /// At its start: the bow comes down from there on.
    PlaningStart,
    /// Between its ends.
    Inside,
    /// At top speed: she does not get over it.
    TopSpeed,
}

impl HumpPlace {
    /// The stable word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::PlaningStart => "planing-start",
            Self::Inside => "inside",
            Self::TopSpeed => "top-speed",
        }
    }
}

by_word!(HumpPlace);

/// The hump of a boat with planes up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hump {
    /// Its speed.
    pub speed: Velocity,
    /// The trim there; none where her bow rises beyond what the equations balance.
    pub trim: Option<Angle>,
    /// Where in the planing range it lies.
    pub place: HumpPlace,
}

impl Hump {
    /// The largest trim with planes up between the start of planing and top speed; none when she runs nowhere there and is bow-up nowhere.
    ///
    /// Where her stern is too heavy for any balance the bow is highest of all: then it is the speed at
    /// which the moment that is left at the largest trim looked at holds the bow up most. That is where
    /// the hump of a boat lies that trims just so far, so that it does not jump when she is laden more.
    #[must_use]
    pub fn of(boat: &Boat, settings: &Settings) -> Option<Self> {
        Self::of_prism(boat, &Prism::new(boat, settings))
    }

    /// The same of a boat that is ready to be balanced.
    pub(crate) fn of_prism(boat: &Boat, prism: &Prism) -> Option<Self> {
        let start_m_s = planing_start(boat).get::<meter_per_second>();
        let top_m_s = boat.drive().top_speed.get::<meter_per_second>().max(start_m_s);
        hump_between(prism, [start_m_s, top_m_s])
    }

    /// Its speed, m/s.
    pub(crate) fn speed_m_s(&self) -> f64 {
        self.speed.get::<meter_per_second>()
    }
}

/// What the bow does at a speed with planes up.
#[derive(Clone, Copy, PartialEq)]
enum Bow {
    Trims(f64),
    /// Beyond every balance: the moment that is left at the largest trim, over weight × beam, bow up negative.
    Up(f64),
    Under,
}

fn bow(prism: &Prism, speed_m_s: f64, start_deg: Option<f64>) -> Bow {
    match Search::new(&prism.at(speed_m_s)).root(start_deg) {
        Root::Found { forces, .. } => Bow::Trims(forces.trim_deg),
        Root::BowUp => Bow::Up(moment_at_largest_trim(prism, speed_m_s)),
        Root::BowDown => Bow::Under,
    }
}

/// What is left of the moment at the largest trim looked at, over weight × beam, bow up negative.
fn moment_at_largest_trim(prism: &Prism, speed_m_s: f64) -> f64 {
    Search::new(&prism.at(speed_m_s)).sample(LARGEST_TRIM_DEG).moment
}

/// Even steps find the interval, Brent's method the place in it.
fn hump_between(prism: &Prism, [start_m_s, top_m_s]: [f64; 2]) -> Option<Hump> {
    let speed_at =
        |step: u32| start_m_s + (top_m_s - start_m_s) * f64::from(step) / f64::from(STEPS);
    let mut last_deg = None;
    let mut highest: Option<(u32, f64)> = None;
    let mut bow_up: Option<(u32, f64)> = None;
    for step in 0..=STEPS {
        match bow(prism, speed_at(step), last_deg) {
            Bow::Trims(trim_deg) => {
                last_deg = Some(trim_deg);
                if highest.is_none_or(|(_, most_deg)| trim_deg > most_deg + LARGER_DEG) {
                    highest = Some((step, trim_deg));
                }
            }
            Bow::Up(moment) => {
                if bow_up.is_none_or(|(_, most)| moment < most) {
                    bow_up = Some((step, moment));
                }
            }
            Bow::Under => {}
        }
    }
    let of = |speed_m_s: f64, trim_deg: Option<f64>| Hump {
        speed: Velocity::new::<meter_per_second>(speed_m_s),
        trim: trim_deg.map(Angle::new::<degree>),
        place: if speed_m_s <= start_m_s + PRECISION_M_S {
            HumpPlace::PlaningStart
        } else if speed_m_s >= top_m_s - PRECISION_M_S {
            HumpPlace::TopSpeed
        } else {
            HumpPlace::Inside
        },
    };
    let about = |step: u32| [speed_at(step.saturating_sub(1)), speed_at((step + 1).min(STEPS))];
    if let Some((step, most)) = bow_up {
        let [below, above] = about(step);
        let moment = |speed_m_s: f64| moment_at_largest_trim(prism, speed_m_s);
        let finer = least_between(below, above, PRECISION_M_S, moment);
        let finer = finer.filter(|&[_, moment]| moment < most);
        return Some(of(finer.map_or(speed_at(step), |[speed_m_s, _]| speed_m_s), None));
    }
    let (step, most_deg) = highest?;
    let [below, above] = about(step);
    let under = |speed_m_s: f64| match bow(prism, speed_m_s, Some(most_deg)) {
        Bow::Trims(trim_deg) => -trim_deg,
        Bow::Up(_) | Bow::Under => -NO_TRIM_DEG,
    };
    let finer =
        if above > below { least_between(below, above, PRECISION_M_S, under) } else { None };
    let finer = finer.filter(|[_, value]| -value > most_deg + LARGER_DEG);
    Some(match finer {
        Some([speed_m_s, value]) => of(speed_m_s, Some(-value)),
        None => of(speed_at(step), Some(most_deg)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::balance::{Balance, Outcome};
    use crate::input::parse_boat;

    fn boat(more: &str) -> Boat {
        let text = format!(
            "hull = {{ bottom_length = \"6.5 m\", chine_beam = \"2.25 m\", deadrise = \"18 deg\" }}\n{more}"
        );
        parse_boat("b.toml", &text).unwrap().boat
    }

    const USUAL: &str = "weight = { mass = \"2800 kg\", lcg = \"2.45 m\", vcg = \"0.75 m\" }\n";

    /// Against two thousand speeds one by one, which share nothing with the search.
    #[test]
    fn physics_the_hump_is_the_largest_trim_of_a_fine_sweep() {
        for lcg in ["2.3 m", "2.45 m", "2.7 m"] {
            let boat = boat(&USUAL.replace("2.45 m", lcg));
            let hump = Hump::of(&boat, &Settings::default()).unwrap();
            assert_eq!(hump.place, HumpPlace::Inside, "{lcg}");
            let balance = Balance::of(&boat, &Settings::default());
            let step = (boat.drive().top_speed - planing_start(&boat)) / 2000.0;
            let trims = (0..=2000).filter_map(|index| {
                let speed = planing_start(&boat) + step * f64::from(index);
                let running = balance.point(speed, Angle::default()).unwrap().running?;
                Some((speed, running.trim.get::<degree>()))
            });
            let (speed, finest_deg) = trims.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
            let trim_deg = hump.trim.unwrap().get::<degree>();
            assert!(trim_deg >= finest_deg - 1e-9 && trim_deg < finest_deg + 1e-4, "{lcg}");
            assert!((hump.speed - speed).abs() <= step, "{lcg}");
        }
    }

    /// A boat that planes only past her hump trims the less the faster she goes; and one that cannot pass it has it at her top speed.
    #[test]
    fn physics_a_hump_at_an_end_of_the_range_is_said_to_be_there() {
        let light = boat("weight = { mass = \"600 kg\", lcg = \"1.5 m\", vcg = \"0.75 m\" }\n");
        let hump = Hump::of(&light, &Settings::default()).unwrap();
        assert_eq!(hump.place, HumpPlace::PlaningStart);
        assert_eq!(hump.speed, planing_start(&light));
        let slow = boat(&format!("{USUAL}drive = {{ top_speed = \"10.5 kn\" }}\n"));
        let hump = Hump::of(&slow, &Settings::default()).unwrap();
        assert_eq!(hump.place, HumpPlace::TopSpeed);
    }

    /// Her stern holds the bow up beyond all balance; and with the weight a little further forward than
    /// where that begins, and a little further aft, the hump lies at nearly the same speed.
    #[test]
    fn physics_a_stern_too_heavy_has_its_hump_without_a_trim() {
        let laden = |lcg_m: f64| {
            boat(&format!(
                "weight = {{ mass = \"3400 kg\", lcg = \"{lcg_m} m\", vcg = \"0.75 m\" }}\n"
            ))
        };
        let hump = |lcg_m: f64| Hump::of(&laden(lcg_m), &Settings::default()).unwrap();
        let heavy = hump(1.35);
        assert_eq!(heavy.trim, None);
        let boat = laden(1.35);
        let balance = Balance::of(&boat, &Settings::default());
        let outcome = |speed| balance.point(speed, Angle::default()).unwrap().outcome;
        assert_eq!(outcome(heavy.speed), Outcome::NoBalanceBowUp);
        let (mut runs_m, mut bow_up_m) = (2.45, 1.35);
        while runs_m - bow_up_m > 1e-4 {
            let middle_m = 0.5 * (runs_m + bow_up_m);
            let end = if hump(middle_m).trim.is_some() { &mut runs_m } else { &mut bow_up_m };
            *end = middle_m;
        }
        let [runs, bow_up] = [hump(runs_m), hump(bow_up_m)];
        assert!(runs.trim.unwrap().get::<degree>() > LARGEST_TRIM_DEG - 0.1, "{runs:?}");
        assert!((runs.speed / bow_up.speed).value > 0.98, "{runs:?} {bow_up:?}");
        assert!((runs.speed / bow_up.speed).value < 1.02, "{runs:?} {bow_up:?}");
    }
}
