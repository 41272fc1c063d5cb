//! What is asked about a boat before she is believed: her own questions, and those that need the balance.
//!
//! Power and top speed belong together by the resistance there: what pushes
//! the boat, R V, is a share of the rated power, the propulsive efficiency.
//! Usual ones are 0.3 to 0.7 (common practice, no source). Resistance in calm
//! water by equations, without the air and the appendages where the file does
//! not give them, is itself good to a tenth or two; so a question is asked
//! only well outside, and only if no end of the likely range of an estimate
//! brings her inside.

use uom::si::f64::{Angle, Power, Velocity};
use uom::si::{power::watt, velocity::meter_per_second};

use crate::balance::sweep::planing_start;
use crate::balance::{Balance, Settings};
use crate::boat::sense::{
    Draft, Guess, MASSES, POWERS, Question, SPEEDS, Slip, in_unit, questions, slips, within, write,
};
use crate::boat::{Boat, BoatInput, Feature, Measure, WeightInput, bound_of};
use crate::size::Silence;

/// Usual efficiency of the propulsion at top speed. Common practice, no source.
const EFFICIENCY: [f64; 2] = [0.3, 0.7];
/// Efficiency outside which a question is asked.
const ASKED_OUTSIDE: [f64; 2] = [0.25, 0.75];
/// Step of the speeds that are tried for the usual range, m/s.
const STEP_M_S: f64 = 0.25;
/// Questions that put mass, size or balance in doubt: what depends on them is not asked yet.
const FIRST_TO_SETTLE: [&str; 3] =
    ["beam-against-length", "mass-against-size", "centre-of-gravity-along"];

const SPEED: &str = "drive.top_speed";
const POWER: &str = "drive.power";

/// What is asked about a boat, and whether anything can be said about planes for her.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sense {
    /// The questions, in the order of the boat file.
    pub questions: Vec<Question>,
    /// Why nothing can be said, for each loading condition where that is so.
    pub silences: Vec<Silent>,
}

/// A loading condition in which nothing can be said about planes.
#[derive(Clone, Debug, PartialEq)]
pub struct Silent {
    /// Its name; none where it is so in all that are asked about.
    pub condition: Option<String>,
    /// Why.
    pub silence: Silence,
}

impl Sense {
    /// What is asked about one boat in each of some loading conditions, balanced with the settings given.
    #[must_use]
    pub fn of(boats: &[Boat], settings: &Settings) -> Self {
        Self { questions: all_questions(boats), silences: silences(boats, settings) }
    }

    /// Whether there is nothing to settle.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        self.questions.is_empty() && self.silences.is_empty()
    }
}

/// Each question once, with the condition it was found in where it is not found in all.
fn all_questions(boats: &[Boat]) -> Vec<Question> {
    let each: Vec<Vec<Question>> = boats.iter().map(questions).collect();
    let same = |one: &Question, other: &Question| one.word == other.word && one.key == other.key;
    let mut all: Vec<Question> = Vec::new();
    for (boat, own) in boats.iter().zip(&each) {
        for question in own {
            if all.iter().any(|known| same(known, question)) {
                continue;
            }
            let everywhere = each.iter().all(|other| other.iter().any(|q| same(q, question)));
            let condition = (!everywhere).then(|| boat.condition().name.clone());
            all.push(Question { condition, ..question.clone() });
        }
    }
    let is_doubted = all.iter().any(|question| FIRST_TO_SETTLE.contains(&question.word));
    if let Some(first) = boats.first().filter(|_| !is_doubted) {
        let index = all.iter().position(|question| question.key.starts_with("planes."));
        let index = index.unwrap_or(all.len());
        all.splice(index..index, speed_against_power(first));
    }
    all
}

fn silences(boats: &[Boat], settings: &Settings) -> Vec<Silent> {
    let silent = |boat: &Boat| {
        let silence = Silence::of(boat, settings)?;
        Some(Silent { condition: Some(boat.condition().name.clone()), silence })
    };
    let mut all: Vec<Silent> = boats.iter().filter_map(silent).collect();
    let first = all.first().map(|silent| silent.silence.word());
    let alike = all.iter().all(|silent| Some(silent.silence.word()) == first);
    if alike && all.len() == boats.len() {
        all.truncate(1);
        for silent in &mut all {
            silent.condition = None;
        }
    }
    all
}

/// Effective power R V at a speed with planes up, W; none where she is not in balance.
fn effective_power_w(boat: &Boat, speed: Velocity) -> Option<f64> {
    let point = Balance::of(boat, &Settings::default()).point(speed, Angle::default()).ok()?;
    Some(point.running?.effective_power.get::<watt>())
}

/// Whether her power gives her top speed, and not far more.
fn speed_against_power(boat: &Boat) -> Option<Question> {
    let given = boat.input().drive;
    let (power, speed) = (given.power?, given.top_speed?);
    let is_slow = speed < planing_start(boat);
    let efficiency = |boat: &Boat, speed, power: Power| {
        Some(effective_power_w(boat, speed)? / power.get::<watt>())
    };
    let own = efficiency(boat, speed, power);
    match own {
        Some(own) if within(own, ASKED_OUTSIDE) => return None,
        Some(own) if is_explained(boat, own, power, speed) => return None,
        None if !is_slow => return None,
        _ => {}
    }
    let usual = usual_speeds(boat, power)?;
    let unit = boat.input().written.unit_of(SPEED, Measure::Speed(speed));
    if is_slow && speed >= usual[0] {
        return None;
    }
    let is_fast = own.is_some_and(|own| own > EFFICIENCY[1]);
    let fits = |boat: &Boat, speed, power| {
        efficiency(boat, speed, power).is_some_and(|share| within(share, EFFICIENCY))
    };
    let mut guesses = Vec::new();
    for slip in slips(Measure::Speed(speed), unit, SPEEDS) {
        if admits(SPEED, Measure::Speed(speed * slip.factor))
            && fits(boat, speed * slip.factor, power)
        {
            guesses
                .push(Guess::new(format!("top_speed: {}", slip.cause), write(SPEED, &slip.write)));
        }
    }
    if !is_slow {
        for slip in power_slips(boat, power) {
            if fits(boat, speed, power * slip.factor) {
                let cause = format!("power: {}", slip.cause);
                guesses.push(Guess::new(cause, write(POWER, &slip.write)));
            }
        }
        guesses.extend(mass_slips(boat, |changed| fits(changed, speed, power)));
    }
    let otherwise = if is_fast {
        Guess::new(
            "speed, power and mass are not those of one boat",
            "measure the speed both ways in calm water, loaded as described, and give the rated shaft power of all engines together",
        )
    } else if is_slow {
        Guess::new(
            "a cruising speed, or a boat that is not made to plane",
            "give the speed at full power in calm water; planes are of no use to a boat that does not plane",
        )
    } else {
        Guess::new(
            "a foul bottom, a propeller that does not let the engine reach its speed, or the power of another engine",
            "measure the speed both ways in calm water with a clean bottom, loaded as described",
        )
    };
    let [low, high] = EFFICIENCY.map(|share| 100.0 * share);
    let asked = Draft {
        word: "speed-against-power",
        key: SPEED,
        about: "her top speed",
        value: Measure::Speed(speed),
        usual: usual.map(Measure::Speed),
        rule: format!(
            "with {} and her mass, when {low:.0} to {high:.0} % of the power reaches the water",
            in_unit(
                Measure::Power(power),
                boat.input().written.unit_of(POWER, Measure::Power(power))
            )
        ),
    };
    Some(asked.with(boat, guesses, otherwise))
}

/// Whether an estimate within its likely range, or a bottom that no equation here knows, explains the efficiency.
fn is_explained(boat: &Boat, own: f64, power: Power, speed: Velocity) -> bool {
    let is_fast = own > EFFICIENCY[1];
    let dry = [Feature::Steps, Feature::Pad, Feature::Catamaran];
    if is_fast && boat.features().iter().any(|feature| dry.contains(feature)) {
        return true;
    }
    let ends = boat.estimates().iter().flat_map(|estimate| {
        [estimate.low, estimate.high].map(|end| boat.with_estimate(estimate.key, end))
    });
    ends.flatten().any(|end| {
        let share = effective_power_w(&end, speed).map(|power_w| power_w / power.get::<watt>());
        share.is_some_and(|share| within(share, ASKED_OUTSIDE))
    })
}

/// The speeds at which a usual share of the power drives her; from rest where even the start of planing takes more.
fn usual_speeds(boat: &Boat, power: Power) -> Option<[Velocity; 2]> {
    let start_m_s = planing_start(boat).get::<meter_per_second>();
    let fastest_m_s = bound_of(SPEED)?.hard.1;
    let speed = Velocity::new::<meter_per_second>;
    let all = std::iter::successors(Some(start_m_s), |speed_m_s| Some(speed_m_s + STEP_M_S));
    let shares = all.take_while(|&speed_m_s| speed_m_s <= fastest_m_s).filter_map(|speed_m_s| {
        let power_w = effective_power_w(boat, speed(speed_m_s))?;
        Some((speed_m_s, power_w / power.get::<watt>()))
    });
    let usual = shares.filter(|(_, share)| within(*share, EFFICIENCY));
    let usual: Vec<f64> = usual.map(|(speed_m_s, _)| speed_m_s).collect();
    match (usual.first(), usual.last()) {
        (Some(&first), Some(&last)) => Some([speed(first), speed(last)]),
        _ => {
            let at_start_w = effective_power_w(boat, speed(start_m_s))?;
            let is_weak = at_start_w > EFFICIENCY[1] * power.get::<watt>();
            is_weak.then(|| [speed(0.0), speed(start_m_s)])
        }
    }
}

/// Slips in the power, and the power of one engine in place of all.
fn power_slips(boat: &Boat, power: Power) -> Vec<Slip> {
    let value = Measure::Power(power);
    let unit = boat.input().written.unit_of(POWER, value);
    let mut all = slips(value, unit, POWERS);
    let engines = boat.input().drive.engines.unwrap_or(2.0).max(2.0);
    all.push(Slip {
        factor: engines,
        cause: format!("that of one engine of {engines:.0}"),
        write: in_unit(value.times(engines), unit),
        unit: None,
    });
    all.retain(|slip| admits(POWER, value.times(slip.factor)));
    all
}

/// Slips in a mass that is given as a total, without which everything fits.
fn mass_slips(boat: &Boat, fits: impl Fn(&Boat) -> bool) -> Vec<Guess> {
    const MASS: &str = "weight.mass";
    let WeightInput::Totals { mass, .. } = boat.input().weight else { return Vec::new() };
    let unit = boat.input().written.unit_of(MASS, Measure::Mass(mass));
    let all = slips(Measure::Mass(mass), unit, MASSES).into_iter().filter(|slip| {
        let mut input: BoatInput = boat.input().clone();
        if let WeightInput::Totals { mass, .. } = &mut input.weight {
            *mass *= slip.factor;
        }
        let changed = Boat::build(input).ok();
        changed.is_some_and(|changed| questions(&changed).is_empty() && fits(&changed))
    });
    all.map(|slip| Guess::new(format!("mass: {}", slip.cause), write(MASS, &slip.write))).collect()
}

fn admits(key: &str, value: Measure) -> bool {
    bound_of(key).is_some_and(|bound| bound.admits(value))
}

#[cfg(test)]
mod tests;
