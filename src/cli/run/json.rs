//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use std::collections::BTreeMap;

use serde::Serialize;
use uom::si::{
    force::newton, kinematic_viscosity::square_meter_per_second, length::meter, mass::kilogram,
    mass_density::kilogram_per_cubic_meter, torque::newton_meter, velocity::meter_per_second,
};

use super::Run;
use super::drive_trim::{DriveTrimRecord, records};
use super::second_opinion::SecondOpinionRecord;
use crate::balance::opinions::{Beside, Spread};
use crate::balance::sensitivity::{Landmarks, Sensitivity};
use crate::balance::{Contribution, HumpPlace, LiftModel, Point};
use crate::boat::{Boat, Estimate, degrees};
use crate::flag::Flags;

/// The object, with every force of every point when the budget is asked for.
///
/// Several loading conditions stand in the same lists one after the other;
/// `boat` and `estimates` are those of the first, `conditions` has them all.
pub(super) fn object(runs: &[Run], with_budget: bool) -> Answer<'_> {
    let first = &runs[0];
    Answer {
        points: runs.iter().flat_map(|run| points(run, with_budget)).collect(),
        drive_trims: runs.iter().flat_map(records).collect(),
        models: ModelRecord::all(runs),
        second_opinion: runs.iter().flat_map(SecondOpinionRecord::all).collect(),
        pre_planing: runs.iter().flat_map(PrePlaningRecord::all).collect(),
        spread: runs.iter().flat_map(SpreadRecord::all).collect(),
        landmarks: runs.iter().flat_map(landmarks).collect(),
        estimates: first.sensitivities.iter().map(EffectRecord::of).collect(),
        outcome_meanings: runs
            .iter()
            .flat_map(|run| run.told().outcomes())
            .map(|o| (o.word(), o.meaning()))
            .collect(),
        settings: SettingsRecord::of(first),
        boat: BoatRecord::of(first.boat()),
        conditions: runs.iter().map(ConditionRecord::of).collect(),
    }
}

fn points(run: &Run, with_budget: bool) -> Vec<PointRecord<'_>> {
    let balance = with_budget.then(|| run.balance());
    let budget = |point: &Point| {
        let budget = balance.as_ref()?.budget(point);
        Some(budget.map(|budget| budget.contributions.iter().map(ContributionRecord::of).collect()))
    };
    let record = |point| PointRecord {
        point,
        condition: &run.boat().condition().name,
        model: run.settings.model.word(),
        budget: budget(point),
    };
    run.points().map(record).collect()
}

fn landmarks(run: &Run) -> Vec<LandmarksRecord> {
    let condition = Some(run.boat().condition().name.clone());
    let record = |set: &super::Set| LandmarksRecord {
        condition: condition.clone(),
        ..LandmarksRecord::of(&set.landmarks)
    };
    run.sets.iter().map(record).collect()
}

#[derive(Serialize)]
pub(super) struct Answer<'a> {
    settings: SettingsRecord,
    boat: BoatRecord,
    conditions: Vec<ConditionRecord<'a>>,
    estimates: Vec<EffectRecord<'a>>,
    landmarks: Vec<LandmarksRecord>,
    points: Vec<PointRecord<'a>>,
    drive_trims: Vec<DriveTrimRecord>,
    models: Vec<ModelRecord<'a>>,
    second_opinion: Vec<SecondOpinionRecord<'a>>,
    pre_planing: Vec<PrePlaningRecord<'a>>,
    spread: Vec<SpreadRecord<'a>>,
    outcome_meanings: BTreeMap<&'static str, &'static str>,
}

#[derive(Serialize)]
struct SettingsRecord {
    method: &'static str,
    model: &'static str,
    friction: &'static str,
    roughness: f64,
    hump: bool,
    spray: bool,
}

impl SettingsRecord {
    fn of(run: &Run) -> Self {
        let settings = &run.settings;
        Self {
            method: settings.method.word(),
            model: settings.model.word(),
            friction: settings.friction_line.word(),
            roughness: settings.allowance_for(run.boat()),
            hump: settings.hump_factor,
            spray: settings.whisker_spray,
        }
    }
}

#[derive(Serialize)]
struct BoatRecord {
    bottom_length_m: f64,
    chine_beam_m: f64,
    deadrise_deg: f64,
    mass_kg: f64,
    lcg_m: f64,
    vcg_m: f64,
    tcg_m: f64,
    thrust_angle_deg: f64,
    thrust_offset_m: f64,
    top_speed_m_s: f64,
    water_density_kg_m3: f64,
    water_viscosity_m2_s: f64,
    planes: Option<PlanesRecord>,
}

/// A loading condition with the boat in it.
#[derive(Serialize)]
struct ConditionRecord<'a> {
    name: &'a str,
    about: Option<&'a str>,
    boat: BoatRecord,
    estimates: Vec<EffectRecord<'a>>,
}

impl<'a> ConditionRecord<'a> {
    fn of(run: &'a Run) -> Self {
        let condition = run.boat().condition();
        Self {
            name: &condition.name,
            about: condition.about.as_deref(),
            boat: BoatRecord::of(run.boat()),
            estimates: run.sensitivities.iter().map(EffectRecord::of).collect(),
        }
    }
}

#[derive(Serialize)]
struct PlanesRecord {
    span_m: f64,
    chord_m: f64,
}

impl BoatRecord {
    fn of(boat: &Boat) -> Self {
        let (hull, weight, drive) = (boat.hull(), boat.weight(), boat.drive());
        Self {
            bottom_length_m: hull.bottom_length.get::<meter>(),
            chine_beam_m: hull.chine_beam.get::<meter>(),
            deadrise_deg: degrees(hull.deadrise),
            mass_kg: weight.mass.get::<kilogram>(),
            lcg_m: weight.lcg.get::<meter>(),
            vcg_m: weight.vcg.get::<meter>(),
            tcg_m: weight.tcg.get::<meter>(),
            thrust_angle_deg: degrees(drive.thrust_angle),
            thrust_offset_m: drive.thrust_offset.get::<meter>(),
            top_speed_m_s: drive.top_speed.get::<meter_per_second>(),
            water_density_kg_m3: boat.water().density.get::<kilogram_per_cubic_meter>(),
            water_viscosity_m2_s: boat.water().kinematic_viscosity.get::<square_meter_per_second>(),
            planes: boat.planes().map(|pair| PlanesRecord {
                span_m: pair.span.get::<meter>(),
                chord_m: pair.chord.get::<meter>(),
            }),
        }
    }
}

/// An estimate with its effect.
#[derive(Serialize)]
struct EffectRecord<'a> {
    #[serde(flatten)]
    estimate: &'a Estimate,
    with_low: Option<LandmarksRecord>,
    with_high: Option<LandmarksRecord>,
}

impl<'a> EffectRecord<'a> {
    fn of(sensitivity: &'a Sensitivity) -> Self {
        Self {
            estimate: &sensitivity.estimate,
            with_low: sensitivity.low.as_ref().map(LandmarksRecord::of),
            with_high: sensitivity.high.as_ref().map(LandmarksRecord::of),
        }
    }
}

#[derive(Serialize)]
struct LandmarksRecord {
    #[serde(skip_serializing_if = "Option::is_none")]
    condition: Option<String>,
    deflection_deg: f64,
    hump_speed_m_s: Option<f64>,
    hump_place: Option<&'static str>,
    hump_trim_deg: Option<f64>,
    hump_resistance_n: Option<f64>,
    top_speed_m_s: f64,
    top_speed_outcome: &'static str,
    top_speed_trim_deg: Option<f64>,
    top_speed_resistance_n: Option<f64>,
}

impl LandmarksRecord {
    fn of(landmarks: &Landmarks) -> Self {
        let trim_deg = |point: &Point| point.running.map(|r| degrees(r.trim));
        let resistance_n = |point: &Point| point.running.map(|r| r.resistance.get::<newton>());
        let (hump, top) = (landmarks.hump.as_ref(), &landmarks.top);
        Self {
            condition: None,
            deflection_deg: degrees(top.deflection),
            hump_speed_m_s: hump.map(|point| point.speed.get::<meter_per_second>()),
            hump_place: landmarks.hump_place.map(HumpPlace::word),
            hump_trim_deg: hump.and_then(trim_deg),
            hump_resistance_n: hump.and_then(resistance_n),
            top_speed_m_s: top.speed.get::<meter_per_second>(),
            top_speed_outcome: top.outcome.word(),
            top_speed_trim_deg: trim_deg(top),
            top_speed_resistance_n: resistance_n(top),
        }
    }
}

/// The points by another lift model than the one chosen.
#[derive(Serialize)]
struct ModelRecord<'a> {
    model: &'static str,
    source: &'static str,
    points: Vec<PointRecord<'a>>,
}

impl<'a> ModelRecord<'a> {
    /// One record for each model, with the points of all conditions.
    fn all(runs: &'a [Run]) -> Vec<Self> {
        let models = runs[0].opinions.iter().map(|opinion| opinion.model);
        models.map(|model| Self::of(runs, model)).collect()
    }

    fn of(runs: &'a [Run], model: LiftModel) -> Self {
        let points = runs.iter().flat_map(|run| {
            let condition = run.boat().condition().name.as_str();
            let of_model = run.opinions.iter().filter(move |opinion| opinion.model == model);
            of_model.flat_map(|opinion| opinion.sets.iter().flatten()).map(move |point| {
                PointRecord { point, condition, model: model.word(), budget: None }
            })
        });
        Self { model: model.word(), source: model.source(), points: points.collect() }
    }
}

/// Resistance by the pre-planing regression, planes up.
#[derive(Serialize)]
struct PrePlaningRecord<'a> {
    condition: &'a str,
    model: &'static str,
    speed_m_s: f64,
    volume_froude_number: f64,
    resistance_n: Option<f64>,
    #[serde(flatten)]
    flags: Flags,
}

impl<'a> PrePlaningRecord<'a> {
    fn all(run: &'a Run) -> Vec<Self> {
        let rows = run.before_planing.rows.iter();
        rows.map(|row| Self {
            condition: &run.boat().condition().name,
            model: "mercier-savitsky-1973",
            speed_m_s: row.speed.get::<meter_per_second>(),
            volume_froude_number: row.volume_froude_number,
            resistance_n: row.resistance.map(|resistance| resistance.get::<newton>()),
            flags: run.before_planing.flags,
        })
        .collect()
    }
}

/// How far the lift models lie apart at a point; null where she does not run by all of them.
#[derive(Serialize)]
struct SpreadRecord<'a> {
    speed_m_s: f64,
    deflection_deg: f64,
    condition: &'a str,
    trim_deg: Option<f64>,
    wetted_length_ratio: Option<f64>,
    resistance_n: Option<f64>,
    resistance_share: Option<f64>,
}

impl<'a> SpreadRecord<'a> {
    fn all(run: &'a Run) -> Vec<Self> {
        if run.opinions.is_empty() {
            return Vec::new();
        }
        let condition = run.boat().condition().name.as_str();
        let spreads = (0..run.sets.len()).flat_map(|place| {
            Beside::of(run.settings.model, &run.sets, &run.opinions, place).spreads()
        });
        let points = run.points().zip(spreads);
        points.map(|(point, spread)| Self::of(condition, point, spread)).collect()
    }

    fn of(condition: &'a str, point: &Point, spread: Option<Spread>) -> Self {
        Self {
            speed_m_s: point.speed.get::<meter_per_second>(),
            deflection_deg: degrees(point.deflection),
            condition,
            trim_deg: spread.map(|s| s.trim_deg),
            wetted_length_ratio: spread.map(|s| s.wetted_length_ratio),
            resistance_n: spread.map(|s| s.resistance.get::<newton>()),
            resistance_share: spread.map(|s| s.resistance_share),
        }
    }
}

#[derive(Serialize)]
struct PointRecord<'a> {
    #[serde(flatten)]
    point: &'a Point,
    condition: &'a str,
    model: &'static str,
    /// Every force, when that is asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    budget: Option<Option<Vec<ContributionRecord>>>,
}

#[derive(Serialize)]
struct ContributionRecord {
    name: &'static str,
    forward_n: f64,
    up_n: f64,
    acts_forward_m: f64,
    acts_above_keel_m: f64,
    moment_bow_down_n_m: f64,
    source: &'static str,
}

impl ContributionRecord {
    fn of(contribution: &Contribution) -> Self {
        Self {
            name: contribution.name,
            forward_n: contribution.forward.get::<newton>(),
            up_n: contribution.up.get::<newton>(),
            acts_forward_m: contribution.acts_forward.get::<meter>(),
            acts_above_keel_m: contribution.acts_above_keel.get::<meter>(),
            moment_bow_down_n_m: contribution.moment_bow_down.get::<newton_meter>(),
            source: contribution.source,
        }
    }
}
