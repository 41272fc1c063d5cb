//! When no admissible pair does all duties: which one fails, by how much, and what would help.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::bench::{Bench, FULL_UTILISATION};
use super::demand::{DemandKind, Limit, Need};
use super::loaded::Loaded;
use super::missing::{Change, HeldTrim, Missing, Remedy, Shortfall, Spot, TriedResult};
use super::result::Miss;
use super::silence::Silence;
use super::site::Site;
use super::suggest::{Question, degrees, pair_of, speed};
use crate::balance::forces::PlaneSize;
use crate::boat::{Boat, BoatInput, ThrustLine, WeightInput};

/// Share of the bottom length that the centre of gravity is moved forward when that remedy is tried.
const MOVE_SHARE: f64 = 0.05;
/// A change that leaves more than this share of what is needed is not worth naming.
const HELPS: f64 = 0.95;

/// What the best admissible pair misses.
pub(crate) fn shortfall(question: &Question<'_>) -> Shortfall {
    let step_m = question.boat().sizing().round_to.get::<meter>();
    let Some(size) = question.bench.least_utilisation_in_steps(step_m) else {
        return no_room(question);
    };
    let needs = question.bench.needs(size);
    let worst =
        (0..needs.len()).max_by(|&i, &j| needs[i].utilisation.total_cmp(&needs[j].utilisation));
    let Some(worst) = worst else { return no_room(question) };
    let (site, need) = (&question.bench.sites[worst], &needs[worst]);
    let rules = &question.bench.rules;
    let [needed_deg, available_deg] = match need.limit {
        Limit::SafeRun => [need.deflection_deg, site.safe_deg(size)],
        _ => [need.used_deg(), rules.usable_deg * rules.share],
    };
    Shortfall {
        best: Some(pair_of(size)),
        duty: need.set_by,
        miss: Some(Miss {
            speed: speed(need.speed_m_s),
            limit: need.limit,
            needed: degrees(needed_deg),
            available: degrees(available_deg),
            excess: need.utilisation - 1.0,
        }),
        missing: missing(question, site, need, size),
        remedies: remedies(question, size),
    }
}

/// When no duty is given and none can be generated, or none of those given holds in any loading condition asked about.
pub(crate) fn nothing_to_ask(question: &Question<'_>) -> Shortfall {
    let silence = Silence::of(question.boat(), question.settings());
    let (missing, remedy) = match silence {
        Some(silence) => (Missing::Silence(silence), Remedy::Cure(silence)),
        None => (Missing::NoDutyHolds, Remedy::AskOtherwise),
    };
    Shortfall { best: None, duty: None, miss: None, missing, remedies: vec![remedy] }
}

fn no_room(question: &Question<'_>) -> Shortfall {
    let room = &question.bench.room;
    let missing = Missing::Room {
        largest: Length::new::<meter>(room.largest_span_m),
        needed: Length::new::<meter>(room.smallest_chord_m * room.smallest_aspect),
    };
    Shortfall { best: None, duty: None, miss: None, missing, remedies: vec![Remedy::MakeRoom] }
}

fn missing(question: &Question<'_>, site: &Site<'_>, need: &Need, size: PlaneSize) -> Missing {
    let several = question.loaded.len() > 1;
    let at = Spot {
        speed: speed(need.speed_m_s),
        condition: several.then(|| question.at(site).name().to_owned()),
    };
    let rules = &question.bench.rules;
    let allowed_deg = rules.usable_deg * rules.share;
    let used_deg = need.used_deg();
    let safe_deg = site.safe_deg(size);
    if need.utilisation <= FULL_UTILISATION {
        return Missing::WholeSteps { at };
    }
    match need.limit {
        Limit::Deflection => Missing::Deflection {
            at,
            needed: degrees(used_deg),
            usable: degrees(allowed_deg),
            held: held(site, size, allowed_deg.min(safe_deg)),
        },
        Limit::SafeRun if used_deg <= 0.0 => Missing::NoRunWithPlanesUp { at },
        Limit::SafeRun => {
            Missing::SafeRun { at, needed: degrees(need.deflection_deg), safe: degrees(safe_deg) }
        }
        Limit::Duty => impossible(site, need, size, at),
    }
}

/// The trim that the allowed deflection holds, where the site has a trim demand.
fn held(site: &Site<'_>, size: PlaneSize, deflection_deg: f64) -> Option<HeldTrim> {
    let asked_deg = site.demands.iter().find_map(|demand| match demand.kind {
        DemandKind::Trim { at_most_deg } => Some(at_most_deg),
        DemandKind::Relief { at_least_deg } => Some(site.relieved_trim_deg(at_least_deg)),
        _ => None,
    })?;
    let forces = site.settle(size, deflection_deg)?;
    Some(HeldTrim { trim: degrees(forces.trim_deg), asked: degrees(asked_deg) })
}

/// The resistance that is left where no deflection, or not the one that the other duties need, brings it down far enough.
fn impossible(site: &Site<'_>, need: &Need, size: PlaneSize, at: Spot) -> Missing {
    let asked = site.demands.iter().find_map(|demand| match demand.kind {
        DemandKind::Resistance { at_most_n } => Some(at_most_n),
        _ => None,
    });
    let reached_n = site.resistance_n(size, need.deflection_deg);
    match asked {
        Some(at_most_n) if reached_n.is_finite() => {
            Missing::Resistance { at, above: reached_n / at_most_n - 1.0 }
        }
        _ => Missing::AnyDeflection { at },
    }
}

/// Changes tried one at a time, each with its result.
fn remedies(question: &Question<'_>, best: PlaneSize) -> Vec<Remedy> {
    let forward = MOVE_SHARE * question.boat().hull().bottom_length;
    [Change::MoveForward(forward), Change::SquareChord]
        .into_iter()
        .filter_map(|change| {
            let result = tried(question, best, change)?;
            Some(Remedy::Tried { change, result })
        })
        .chain([Remedy::AskLess])
        .collect()
}

/// The boat with a change made.
fn changed(boat: &Boat, change: Change) -> BoatInput {
    match change {
        Change::MoveForward(shift) => moved_forward(boat, shift),
        Change::SquareChord => {
            let mut input = boat.input().clone();
            input.sizing.smallest_aspect = Some(1.0);
            input
        }
    }
}

/// The boat with her centre of gravity further forward in the condition that she is in, and no other conditions.
fn moved_forward(boat: &Boat, shift: Length) -> BoatInput {
    let mut input = boat.input().clone();
    let weight = boat.weight();
    input.weight = WeightInput::Totals {
        mass: weight.mass,
        lcg: Some(weight.lcg + shift),
        vcg: Some(weight.vcg),
        tcg: Some(weight.tcg),
    };
    if let Some(ThrustLine::BelowCentreOfGravity(offset)) = &mut input.drive.thrust_line {
        *offset = boat.drive().thrust_offset;
    }
    (input.conditions, input.condition) = (Vec::new(), None);
    // Their conditions are gone; what is asked is known already.
    input.duties.clear();
    input
}

/// What a change of the boat brings; none when it helps hardly, or the changed boat is impossible.
fn tried(question: &Question<'_>, best: PlaneSize, change: Change) -> Option<TriedResult> {
    let built = question.loaded.iter().map(|loaded| Boat::build(changed(loaded.boat, change)).ok());
    let boats = built.collect::<Option<Vec<_>>>()?;
    let loaded = Loaded::all(&boats, question.settings());
    let bench = Bench::new(&loaded, &question.asking.duties);
    if bench.least(0.5).is_some() {
        return Some(TriedResult::DoesAll);
    }
    let [before, after] = [&question.bench, &bench].map(|bench| bench.utilisation(best));
    (after < HELPS * before).then_some(TriedResult::Helps { utilisation: after })
}
