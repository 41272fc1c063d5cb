//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use std::collections::BTreeMap;

use serde::Serialize;
use uom::si::{
    angle::degree, force::newton, length::meter, mass::kilogram, power::watt, ratio::ratio,
    time::second, velocity::meter_per_second,
};

use super::Answered;
use crate::behaviour::from_rest::{Basis, Way};
use crate::behaviour::on_plane::{
    ADDED_MASS_SHARE, Brief, Effect, Ending, Row, Run, Tightest, TightestKind,
};
use crate::boat::Estimate;
use crate::flag::Flags;

pub(super) fn object(all: &[Answered]) -> Answer<'_> {
    let _first = &all[0];
    let bases = [Basis::Balance, Basis::Regression, Basis::Interpolation];
    Answer {
        added_mass_share: ADDED_MASS_SHARE,
        conditions: all.iter().map(ConditionRecord::of).collect(),
        basis_meanings: bases.map(|basis| (basis.word(), basis.meaning())).into(),
    }
}

#[derive(Serialize)]
pub(super) struct Answer<'a> {
    added_mass_share: f64,
    conditions: Vec<ConditionRecord<'a>>,
    basis_meanings: BTreeMap<&'static str, &'static str>,
}

#[derive(Serialize)]
struct ConditionRecord<'a> {
    name: &'a str,
    mass_kg: f64,
    power_w: f64,
    bollard_pull_n: f64,
    propulsive_efficiency: f64,
    efficiency_basis: &'static str,
    target_speed_m_s: f64,
    target_is_asked: bool,
    file_top_speed_m_s: f64,
    fitting_efficiency: Option<f64>,
    estimates: Vec<EffectRecord<'a>>,
    runs: Vec<RunRecord>,
}

impl<'a> ConditionRecord<'a> {
    fn of(one: &'a Answered) -> Self {
        let answer = &one.answer;
        Self {
            name: &one.boat().condition().name,
            mass_kg: one.boat().weight().mass.get::<kilogram>(),
            power_w: answer.power.get::<watt>(),
            bollard_pull_n: answer.thrust.bollard_pull().get::<newton>(),
            propulsive_efficiency: answer.thrust.efficiency().when_planing().get::<ratio>(),
            efficiency_basis: answer.thrust.efficiency().basis().word(),
            target_speed_m_s: answer.target.get::<meter_per_second>(),
            target_is_asked: answer.target_is_asked,
            file_top_speed_m_s: one.boat().drive().top_speed.get::<meter_per_second>(),
            fitting_efficiency: answer.fitting_efficiency.map(|share| share.get::<ratio>()),
            estimates: answer.effects.iter().map(EffectRecord::of).collect(),
            runs: answer.runs.iter().map(|run| RunRecord::of(one, run)).collect(),
        }
    }
}

#[derive(Serialize)]
struct RunRecord {
    way: &'static str,
    held_deflection_deg: Option<f64>,
    reaches_target: bool,
    time_s: Option<f64>,
    distance_m: Option<f64>,
    likely_time_s: Option<[Option<f64>; 2]>,
    likely_distance_m: Option<[Option<f64>; 2]>,
    tightest: Option<TightestRecord>,
    least_planing_speed_m_s: Option<f64>,
    stops_at_m_s: Option<f64>,
    ending: &'static str,
    top_speed_m_s: Option<f64>,
    planing_balance_from_m_s: Option<f64>,
    rows: Vec<RowRecord>,
}

impl RunRecord {
    fn of(one: &Answered, run: &Run) -> Self {
        let m_s = |speed: uom::si::f64::Velocity| speed.get::<meter_per_second>();
        Self {
            way: run.way.word(),
            held_deflection_deg: match run.way {
                Way::Held(deflection) => Some(deflection.get::<degree>()),
                _ => None,
            },
            reaches_target: run.reaches,
            time_s: run.time.map(|time| time.get::<second>()),
            distance_m: run.distance.map(|distance| distance.get::<meter>()),
            likely_time_s: run.likely.map(|likely| {
                [Some(likely.least), likely.most].map(|r| r.map(|r| r.time.get::<second>()))
            }),
            likely_distance_m: run.likely.map(|likely| {
                [Some(likely.least), likely.most].map(|r| r.map(|r| r.distance.get::<meter>()))
            }),
            tightest: run.tightest.as_ref().map(|place| TightestRecord::of(one, place)),
            least_planing_speed_m_s: run.least_planing_speed.map(m_s),
            stops_at_m_s: run.stops_at.map(m_s),
            ending: match run.ending {
                Ending::ThrustSpent => "thrust-spent",
                Ending::NoBalance(outcome) => outcome.word(),
                Ending::NotFound => "not-found",
            },
            top_speed_m_s: run.top_speed().map(m_s),
            planing_balance_from_m_s: run.joint.map(m_s),
            rows: run.rows.iter().map(RowRecord::of).collect(),
        }
    }
}

#[derive(Serialize)]
struct TightestRecord {
    kind: &'static str,
    speed_m_s: f64,
    resistance_n: f64,
    thrust_n: f64,
    thrust_left: f64,
    power_left_w: f64,
    trim_deg: Option<f64>,
}

impl TightestRecord {
    fn of(one: &Answered, place: &Tightest) -> Self {
        Self {
            kind: match place.kind {
                TightestKind::Peak => "peak",
                TightestKind::AtHump => "at-hump",
            },
            speed_m_s: place.speed.get::<meter_per_second>(),
            resistance_n: place.resistance.get::<newton>(),
            thrust_n: place.thrust.get::<newton>(),
            thrust_left: place.margin().get::<ratio>(),
            power_left_w: place.power_margin(one.answer.power).get::<watt>(),
            trim_deg: place.trim.map(|trim| trim.get::<degree>()),
        }
    }
}

#[derive(Serialize)]
struct RowRecord {
    speed_m_s: f64,
    thrust_n: f64,
    resistance_n: Option<f64>,
    basis: &'static str,
    deflection_deg: Option<f64>,
    trim_deg: Option<f64>,
    time_s: Option<f64>,
    distance_m: Option<f64>,
    #[serde(flatten)]
    flags: Flags,
}

impl RowRecord {
    fn of(row: &Row) -> Self {
        Self {
            speed_m_s: row.speed.get::<meter_per_second>(),
            thrust_n: row.thrust.get::<newton>(),
            resistance_n: row.resistance.map(|force| force.get::<newton>()),
            basis: row.basis.word(),
            deflection_deg: row.deflection.map(|angle| angle.get::<degree>()),
            trim_deg: row.trim.map(|trim| trim.get::<degree>()),
            time_s: row.time.map(|time| time.get::<second>()),
            distance_m: row.distance.map(|distance| distance.get::<meter>()),
            flags: row.flags,
        }
    }
}

#[derive(Serialize)]
struct EffectRecord<'a> {
    #[serde(flatten)]
    estimate: &'a Estimate,
    with_low: Option<BriefRecord>,
    with_high: Option<BriefRecord>,
}

impl<'a> EffectRecord<'a> {
    fn of(effect: &'a Effect) -> Self {
        let [with_low, with_high] =
            effect.ends.each_ref().map(|end| end.as_ref().map(BriefRecord::of));
        Self { estimate: &effect.estimate, with_low, with_high }
    }
}

#[derive(Serialize)]
struct BriefRecord {
    time_s: Option<f64>,
    thrust_left: Option<f64>,
    top_speed_m_s: Option<f64>,
}

impl BriefRecord {
    fn of(brief: &Brief) -> Self {
        Self {
            time_s: brief.time.map(|time| time.get::<second>()),
            thrust_left: brief.margin.map(|share| share.get::<ratio>()),
            top_speed_m_s: brief.top_speed.map(|speed| speed.get::<meter_per_second>()),
        }
    }
}
