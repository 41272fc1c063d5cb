//! From [`BoatInput`] to [`Boat`]: fill, check, check against each other.

mod conditions;
mod drive;
mod duties;
mod findings;
mod heel;
mod hull;
mod propulsion;
mod seen;
mod transom;

pub(super) use conditions::aboard;
use drive::Driven;
use findings::Findings;

use super::Faults;
use super::condition::{self, LoadingCondition, same_name};
use super::{
    Boat, BoatInput, Drive, Fault, HorizontalDrag, Hull, Measure, ThrustLine, WaterInput,
    WaterKind, Weight, WeightInput,
};
use crate::water::Water;

pub(super) fn build(input: BoatInput) -> Result<Boat, Faults> {
    let mut findings = Findings::default();
    let hull = hull::hull(&mut findings, &input);
    let listed = hull::weight(&mut findings, &input, &hull);
    let water = drive::water(&mut findings, &input);
    if findings.faults.is_empty() {
        hull::load_coefficient(&mut findings, &hull, &listed, &water);
    }
    hull::entrance(&mut findings, &input);
    let thrust = drive::thrust(&mut findings, &input, &hull);
    let bottom = Bottom { hull, water, thrust, listed };
    let loaded = loaded(&mut findings, &input, &bottom);
    propulsion::check(&mut findings, &input.propulsion);
    let air = input.air.map(|air| drive::air_drag(&mut findings, &air));
    let wind = input.wind.map(|wind| heel::wind(&mut findings, &wind));
    let appendages = input.appendages.map(|appendages| {
        findings.check_all("appendages", appendages.measures());
        HorizontalDrag::new(1.0, appendages.drag_area, appendages.height)
    });
    let mut transom = transom::transom(&mut findings, &input, &hull);
    let helm = hull::helm(&mut findings, &input, &hull);
    let mut sizing = duties::sizing(&mut findings, &input.sizing);
    transom::as_fitted(&mut findings, &input);
    super::as_fitted::apply(&input, &mut transom, &mut sizing);
    duties::planes(&mut findings, &input, &hull);
    transom::features(&mut findings, &input.features);
    for (index, asked) in input.duties.iter().enumerate() {
        duties::check_duty(&mut findings, index, &asked.duty, &hull);
    }
    seen::check(&mut findings, &input, &hull);
    if findings.faults.is_empty() {
        for (index, asked) in input.duties.iter().enumerate() {
            duties::check_conditions(&mut findings, index, asked, &loaded.conditions);
        }
        seen::check_conditions(&mut findings, &input, &loaded.conditions);
    }
    findings.faults.extend(super::tolerance::faults(
        &input,
        &hull,
        &listed,
        loaded.drive.thrust_line,
    ));
    if !findings.faults.is_empty() {
        return Err(Faults(findings.faults));
    }
    transom::fitted_planes(&mut findings, &transom, input.planes);
    let condition = loaded.index;
    let here = &loaded.conditions[condition];
    Ok(Boat {
        hull,
        weight: here.weight,
        duties: input.duties_in(&here.name),
        drive: loaded.drive,
        conditions: loaded.conditions,
        condition,
        water,
        air,
        wind,
        appendages,
        transom,
        helm,
        sizing,
        estimates: findings.estimates,
        unusual: findings.unusual,
        input,
    })
}

/// What does not change with the load.
struct Bottom {
    hull: Hull,
    water: Water,
    thrust: drive::Thrust,
    /// The weight of the loads as they are listed.
    listed: Weight,
}

impl Bottom {
    fn driven(&self, findings: &mut Findings, input: &BoatInput, weight: &Weight) -> Driven {
        let beam = self.hull.chine_beam;
        self.thrust.driving(findings, input, beam, [&self.listed, weight], &self.water)
    }
}

/// The boat in all her conditions.
struct Loaded {
    conditions: Vec<LoadingCondition>,
    /// Index of the condition she is in.
    index: usize,
    /// Her drive in it.
    drive: Drive,
}

/// Checks every condition. Those of a boat that is impossible as listed are not looked at.
fn loaded(findings: &mut Findings, input: &BoatInput, bottom: &Bottom) -> Loaded {
    let driven = bottom.driven(findings, input, &bottom.listed);
    conditions::check(findings, input);
    let mut all = vec![(conditions::as_listed(input, bottom.listed), driven)];
    if findings.faults.is_empty() {
        for (index, condition) in input.conditions.iter().enumerate() {
            let mut own = Findings::default();
            let weight = conditions::weight(&mut own, input, &bottom.listed, index);
            if own.faults.is_empty() {
                hull::centre_of_gravity(&mut own, input, &bottom.hull, &weight);
                hull::load_coefficient(&mut own, &bottom.hull, &weight, &bottom.water);
            }
            let driven = bottom.driven(&mut own, input, &weight);
            let (name, about) = (condition.name.clone(), condition.about.clone());
            all.push((LoadingCondition { name, about, weight }, driven));
            let key = format!("condition[{index}]");
            findings
                .faults
                .extend(own.faults.into_iter().map(|fault| Fault { key: key.clone(), ..fault }));
        }
    }
    let names = all.iter().map(|(condition, _)| condition.name.as_str());
    let asked = input.condition.as_deref();
    let index =
        asked.map_or(Some(0), |asked| names.clone().position(|name| same_name(name, asked)));
    if let (None, Some(asked), true) = (index, asked, findings.faults.is_empty()) {
        findings.faults.push(condition::unknown("condition", asked, names));
    }
    let index = index.unwrap_or(0);
    let (conditions, mut driven): (Vec<_>, Vec<_>) = all.into_iter().unzip();
    let Driven { drive, estimate } = driven.swap_remove(index);
    findings.estimates.extend(estimate);
    Loaded { conditions, index, drive }
}

/// Puts a measured or trial value in place of an estimate.
pub(super) fn set_estimate(input: &mut BoatInput, boat: &Boat, key: &str, value: Measure) {
    match (key, value) {
        ("hull.bottom_length", Measure::Length(x)) => input.hull.bottom_length = Some(x),
        ("hull.chine_beam", Measure::Length(x)) => input.hull.chine_beam = Some(x),
        ("hull.deadrise", Measure::Angle(x)) => input.hull.deadrise = Some(x),
        ("weight.lcg", Measure::Length(x)) => {
            if let WeightInput::Totals { lcg, .. } = &mut input.weight {
                *lcg = Some(x);
            }
        }
        ("weight.vcg", Measure::Length(x)) => {
            if let WeightInput::Totals { vcg, .. } = &mut input.weight {
                *vcg = Some(x);
            }
        }
        ("drive.thrust_angle", Measure::Angle(x)) => input.drive.thrust_angle = Some(x),
        ("drive.thrust_height", Measure::Length(x)) => {
            input.drive.thrust_line = Some(ThrustLine::HeightAtTransom(x));
        }
        ("drive.top_speed", Measure::Speed(x)) => input.drive.top_speed = Some(x),
        ("drive.propulsive_efficiency", Measure::Share(x)) => {
            input.propulsion.efficiency = Some(x);
        }
        ("drive.bollard_pull", Measure::Force(x)) => input.propulsion.bollard_pull = Some(x),
        ("drive.specific_consumption", Measure::Consumption(x)) => {
            input.propulsion.specific_consumption = Some(x);
        }
        ("water.temperature", Measure::Temperature(x)) => {
            let (kind, salinity) = match boat.input.water {
                Some(WaterInput::Kind { kind, salinity, .. }) => (kind, salinity),
                _ => (WaterKind::Sea, None),
            };
            input.water = Some(WaterInput::Kind { kind, temperature: Some(x), salinity });
        }
        _ => debug_assert!(false, "no estimate called {key}"),
    }
}
