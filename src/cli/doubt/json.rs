//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use serde::Serialize;
use uom::si::f64::Angle;
use uom::si::{force::newton, velocity::meter_per_second};

use super::{Doubted, duties};
use crate::boat::{bound_of, degrees};
use crate::doubt::{
    Basis, DutiesDoubt, Influences, Input, LIKELY_SHARES, Likely, RunningDoubt, SeenDoubt,
    SeenReading, SpeedDoubt, Spread, What,
};

/// The whole answer: one entry for each loading condition.
pub(super) fn object<'a>(all: &'a [Doubted], duties: &DutiesDoubt) -> Record<'a> {
    let _first = &all[0];
    Record {
        likely_shares: LIKELY_SHARES,
        conditions: all.iter().map(ConditionRecord::of).collect(),
        duties: duties.into(),
    }
}

#[derive(Serialize)]
pub(super) struct Record<'a> {
    likely_shares: [f64; 2],
    conditions: Vec<ConditionRecord<'a>>,
    duties: duties::Record,
}

#[derive(Serialize)]
struct ConditionRecord<'a> {
    name: &'a str,
    draws: u32,
    seed: u64,
    deflection_deg: f64,
    inputs: Vec<InputRecord>,
    seen: Option<SeenRecord>,
    speeds: Vec<SpeedRecord>,
    hump_trim_follows: Option<InfluencesRecord>,
    cruise_resistance_follows: Option<InfluencesRecord>,
}

/// An input; its likely range is about the value used: steps in the unit named, or factors.
#[derive(Serialize)]
struct InputRecord {
    input: &'static str,
    name: &'static str,
    spread: &'static str,
    unit: &'static str,
    low: f64,
    high: f64,
    known: &'static str,
}

#[derive(Serialize)]
struct LikelyRecord {
    low: f64,
    median: f64,
    high: f64,
}

#[derive(Serialize)]
struct SpeedRecord {
    speed_m_s: f64,
    running_share: f64,
    as_described_trim_deg: Option<f64>,
    as_described_resistance_n: Option<f64>,
    trim_deg: Option<LikelyRecord>,
    resistance_n: Option<LikelyRecord>,
}

/// What was seen, and what it makes of the likely trim at the hump.
#[derive(Serialize)]
struct SeenRecord {
    readings: Vec<ReadingRecord>,
    /// How likely boats as described show something as far off or further.
    chance: f64,
    /// The inputs of the boat that fits best, in standard deviations from the boat described.
    best_fit: Vec<MovedRecord>,
    hump_speed_m_s: Option<f64>,
    hump_trim_before_deg: Option<LikelyRecord>,
    hump_trim_after_deg: Option<LikelyRecord>,
    flags: Vec<&'static str>,
}

#[derive(Serialize)]
struct ReadingRecord {
    speed_m_s: f64,
    deflection_deg: f64,
    trim_deg: f64,
    by_deg: f64,
    as_described_trim_deg: f64,
    best_fit_trim_deg: f64,
}

#[derive(Serialize)]
struct MovedRecord {
    input: &'static str,
    deviations: f64,
}

impl SeenRecord {
    fn of(running: &RunningDoubt, seen: &SeenDoubt) -> Self {
        let speed = running.hump_trim.as_ref().map(|hump| hump.speed);
        let row = running.speeds.iter().find(|row| Some(row.speed) == speed);
        let record = |likely: Likely<Angle>| LikelyRecord::from(likely.map(degrees));
        Self {
            readings: seen.fit.readings.iter().map(ReadingRecord::from).collect(),
            chance: seen.fit.chance,
            best_fit: seen
                .fit
                .moved
                .iter()
                .map(|&(what, deviations)| MovedRecord { input: what.word(), deviations })
                .collect(),
            hump_speed_m_s: speed.map(|speed| speed.get::<meter_per_second>()),
            hump_trim_before_deg: seen.hump_before.map(record),
            hump_trim_after_deg: row.and_then(|row| row.trim).map(record),
            flags: seen.fit.flags.words(),
        }
    }
}

impl From<&SeenReading> for ReadingRecord {
    fn from(reading: &SeenReading) -> Self {
        Self {
            speed_m_s: reading.speed.get::<meter_per_second>(),
            deflection_deg: degrees(reading.deflection),
            trim_deg: degrees(reading.trim),
            by_deg: degrees(reading.by),
            as_described_trim_deg: degrees(reading.described),
            best_fit_trim_deg: degrees(reading.fitted),
        }
    }
}

#[derive(Serialize)]
struct InfluencesRecord {
    speed_m_s: f64,
    rank_correlations: Vec<InfluenceRecord>,
}

#[derive(Serialize)]
struct InfluenceRecord {
    input: &'static str,
    rank_correlation: f64,
}

impl<'a> ConditionRecord<'a> {
    fn of(doubted: &'a Doubted) -> Self {
        let running = &doubted.running;
        Self {
            name: &doubted.boat().condition().name,
            draws: running.request.draws,
            seed: running.request.seed,
            deflection_deg: degrees(running.request.deflection),
            inputs: running.inputs.iter().map(InputRecord::from).collect(),
            seen: running.seen.as_ref().map(|seen| SeenRecord::of(running, seen)),
            speeds: running.speeds.iter().map(SpeedRecord::from).collect(),
            hump_trim_follows: running.hump_trim.as_ref().map(InfluencesRecord::from),
            cruise_resistance_follows: running
                .cruise_resistance
                .as_ref()
                .map(InfluencesRecord::from),
        }
    }
}

impl From<&Input> for InputRecord {
    fn from(input: &Input) -> Self {
        let (spread, unit) = match (input.spread, input.what) {
            (Spread::Step { .. }, What::Value(of)) => {
                ("step", bound_of(of.key()).map_or("", |bound| bound.unit))
            }
            (Spread::Step { .. }, _) => ("step", ""),
            (Spread::Factor { .. }, _) => ("factor", ""),
        };
        let [low, high] = LIKELY_SHARES.map(|share| input.spread.quantile(share));
        Self {
            input: input.what.word(),
            name: input.what.name(),
            spread,
            unit,
            low,
            high,
            known: match &input.basis {
                Basis::Stated => "stated",
                Basis::Source(source) => source.word(),
                Basis::TakenAsBrochure => "taken-as-brochure",
                Basis::Estimate => "estimated",
                Basis::Calibrated => "calibrated",
                Basis::TankRuns => "tank-runs",
            },
        }
    }
}

impl From<Likely<f64>> for LikelyRecord {
    fn from(likely: Likely<f64>) -> Self {
        Self { low: likely.low, median: likely.median, high: likely.high }
    }
}

impl From<&SpeedDoubt> for SpeedRecord {
    fn from(row: &SpeedDoubt) -> Self {
        Self {
            speed_m_s: row.speed.get::<meter_per_second>(),
            running_share: row.running_share,
            as_described_trim_deg: row.nominal_trim.map(degrees),
            as_described_resistance_n: row.nominal_resistance.map(|r| r.get::<newton>()),
            trim_deg: row.trim.map(|trim| trim.map(degrees).into()),
            resistance_n: row.resistance.map(|r| r.map(|r| r.get::<newton>()).into()),
        }
    }
}

impl From<&Influences> for InfluencesRecord {
    fn from(influences: &Influences) -> Self {
        Self {
            speed_m_s: influences.speed.get::<meter_per_second>(),
            rank_correlations: influences
                .of
                .iter()
                .map(|influence| InfluenceRecord {
                    input: influence.what.word(),
                    rank_correlation: influence.rank_correlation,
                })
                .collect(),
        }
    }
}
