//! The answer as one JSON object: SI units, angles in degrees, null for what does not exist.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{RunOutput, drive_trim};
use crate::balance::opinions::{Beside, Spread};
use crate::balance::{Contribution, LiftModel, Point};
use crate::boat::{Boat, Stations};
use crate::cli::records::Size;
use crate::field::{InSi, written};
use crate::flag::Flags;

/// The answer, with every force of every point when the budget is asked for.
///
/// Several loading conditions stand in the same lists one after the other;
/// `boat` and `estimates` are those of the first, `conditions` has them all.
pub(super) struct Written<'a> {
    pub runs: &'a [RunOutput],
    pub with_budget: bool,
}

/// How the balances were computed.
struct Computed<'a>(&'a RunOutput);

/// The boat that was asked about.
struct Asked<'a>(&'a Boat);

/// What follows from the stations of her bottom.
struct FromStations<'a>(&'a Stations);

written! {
    Written<'_> as all {
        "settings": Computed(&all.runs[0]),
        "boat": Asked(all.runs[0].boat()),
        "conditions": all.runs,
        "estimates": all.runs[0].sensitivities,
        "landmarks": all.each(|run| run.each(&run.sets, |set| &set.landmarks)),
        "points": all.each(|run| points(run, all.with_budget)),
        "drive_trims": all.each(drive_trim::all),
        "models": all.models(),
        "second_opinion": all.each(|run| run.each(&run.second_opinion.rows, |row| row)),
        "pre_planing": all.each(before_planing),
        "spread": all.each(spreads),
        "outcome_meanings": all
            .each(|run| run.told().outcomes())
            .into_iter()
            .map(|outcome| (outcome.word(), outcome.meaning()))
            .collect::<BTreeMap<_, _>>(),
    }
    RunOutput as run {
        "name": run.boat().condition().name,
        "about": run.boat().condition().about,
        "boat": Asked(run.boat()),
        "estimates": run.sensitivities,
    }
    Computed<'_> as run {
        "method": run.0.settings.method.word(),
        "model": run.0.settings.model,
        "friction": run.0.settings.friction_line.word(),
        "roughness": run.0.settings.allowance_for(run.0.boat()),
        "hump": run.0.settings.hump_factor,
        "spray": run.0.settings.whisker_spray,
    }
    Asked<'_> as boat {
        "bottom_length_m": boat.0.hull().bottom_length.in_si(),
        "chine_beam_m": boat.0.hull().chine_beam.in_si(),
        "deadrise_deg": boat.0.hull().deadrise.in_si(),
        "chine_to_keel_deg": boat.0.hull().chine_to_keel.in_si(),
        "stations": boat.0.stations().map(FromStations),
        "mass_kg": boat.0.weight().mass.in_si(),
        "lcg_m": boat.0.weight().lcg.in_si(),
        "vcg_m": boat.0.weight().vcg.in_si(),
        "tcg_m": boat.0.weight().tcg.in_si(),
        "thrust_angle_deg": boat.0.drive().thrust_angle.in_si(),
        "thrust_offset_m": boat.0.drive().thrust_offset.in_si(),
        "top_speed_m_s": boat.0.drive().top_speed.in_si(),
        "water_density_kg_m3": boat.0.water().density.in_si(),
        "water_viscosity_m2_s": boat.0.water().kinematic_viscosity.in_si(),
        "planes": boat.0.planes().map(Size),
    }
    FromStations<'_> as list {
        "file": list.0.source(),
        "crc32": list.0.checksum(),
        "count": list.0.rows().len(),
        "chine_length_m": list.0.chine_length().in_si(),
        "bottom_length_m": list.0.bottom_length().in_si(),
        "largest_chine_beam_m": list.0.chine_beam().in_si(),
        "mid_chine_deadrise_deg": list.0.deadrise().in_si(),
        "transom_beam_m": list.0.transom_beam().in_si(),
        "transom_deadrise_deg": list.0.transom_deadrise().in_si(),
        "chine_to_keel_deg": list.0.chine_to_keel().in_si(),
        "deadrise_per_beam_deg": list.0.warp_per_beam().in_si(),
    }
    Apart<'_> as apart {
        "speed_m_s": apart.point.speed.in_si(),
        "deflection_deg": apart.point.deflection.in_si(),
        "condition": apart.condition,
        "trim_deg": apart.spread.map(|s| s.trim_deg),
        "wetted_length_ratio": apart.spread.map(|s| s.wetted_length_ratio),
        "resistance_n": apart.spread.map(|s| s.resistance).in_si(),
        "resistance_share": apart.spread.map(|s| s.resistance_share),
    }
}

impl<'a> Written<'a> {
    /// The points by every other model, those of all conditions together.
    fn models(&self) -> Vec<ByModel<'a>> {
        let opinions = self.runs[0].opinions.iter();
        opinions.map(|opinion| ByModel::of(self.runs, opinion.model)).collect()
    }

    /// What each of the runs has, one after the other.
    fn each<T, I: IntoIterator<Item = T>>(&self, of: impl Fn(&'a RunOutput) -> I) -> Vec<T> {
        self.runs.iter().flat_map(of).collect()
    }
}

impl RunOutput {
    /// Parts of results with the loading condition that they hold in.
    fn each<'a, T, R>(&'a self, all: &'a [T], of: fn(&'a T) -> R) -> Vec<Within<'a, R>> {
        let condition = &self.boat().condition().name;
        all.iter().map(|one| Within { condition, of: of(one) }).collect()
    }
}

/// A result with the loading condition that it holds in.
#[derive(Serialize)]
struct Within<'a, T> {
    condition: &'a str,
    #[serde(flatten)]
    of: T,
}

/// The points by another lift model than the one chosen.
#[derive(Serialize)]
struct ByModel<'a> {
    model: LiftModel,
    source: &'static str,
    points: Vec<OnePoint<'a>>,
}

impl<'a> ByModel<'a> {
    /// The points of all conditions.
    fn of(runs: &'a [RunOutput], model: LiftModel) -> Self {
        let points =
            runs.iter().flat_map(|run| {
                let condition = run.boat().condition().name.as_str();
                let of_model = run.opinions.iter().filter(move |opinion| opinion.model == model);
                of_model
                    .flat_map(|opinion| opinion.sets.iter().flatten())
                    .map(move |point| OnePoint { point, condition, model, budget: None })
            });
        Self { model, source: model.source(), points: points.collect() }
    }
}

/// Resistance by the pre-planing regression, planes up.
#[derive(Serialize)]
struct BeforePlaning<'a, T> {
    condition: &'a str,
    model: &'static str,
    #[serde(flatten)]
    row: T,
    #[serde(flatten)]
    flags: Flags,
}

fn before_planing(run: &RunOutput) -> Vec<BeforePlaning<'_, impl Serialize>> {
    let written = |row| BeforePlaning {
        condition: &run.boat().condition().name,
        model: "mercier-savitsky-1973",
        row,
        flags: run.before_planing.flags,
    };
    run.before_planing.rows.iter().map(written).collect()
}

/// How far the lift models lie apart at a point; null where she does not run by all of them.
struct Apart<'a> {
    condition: &'a str,
    point: &'a Point,
    spread: Option<Spread>,
}

fn spreads(run: &RunOutput) -> Vec<Apart<'_>> {
    if run.opinions.is_empty() {
        return Vec::new();
    }
    let condition = run.boat().condition().name.as_str();
    let spreads = (0..run.sets.len()).flat_map(|place| {
        Beside::of(run.settings.model, &run.sets, &run.opinions, place).spreads()
    });
    let points = run.points().zip(spreads);
    points.map(|(point, spread)| Apart { condition, point, spread }).collect()
}

#[derive(Serialize)]
struct OnePoint<'a> {
    #[serde(flatten)]
    point: &'a Point,
    condition: &'a str,
    model: LiftModel,
    /// Every force, when that is asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    budget: Option<Option<Vec<Contribution>>>,
}

fn points(run: &RunOutput, with_budget: bool) -> Vec<OnePoint<'_>> {
    let balance = with_budget.then(|| run.balance());
    let one = |point| OnePoint {
        point,
        condition: &run.boat().condition().name,
        model: run.settings.model,
        budget: balance
            .as_ref()
            .map(|balance| balance.budget(point).map(|budget| budget.contributions)),
    };
    run.points().map(one).collect()
}
