//! How a pair does its duties, and what a smaller or larger one would do.

use uom::si::f64::{Force, Length};
use uom::si::{angle::degree, force::newton, length::meter, ratio::ratio};

use super::bench::{Bench, FULL_UTILISATION};
use super::demand::{Demand, DemandKind, DemandNeed, Need};
use super::result::{DutyResult, Reached, Variant};
use super::search::{Binding, Least};
use super::site::{FARTHEST_DEG, Site};
use super::suggest::{Question, degrees, pair_of, speed};
use crate::balance::Settings;
use crate::balance::forces::{PlaneSize, Prism};
use crate::boat::{Aim, PlanePair};
use crate::plane::{effect, roll};

/// Shares of boats between which the likely range lies.
const LIKELY: [f64; 2] = [0.05, 0.95];

/// Every duty, for a pair or for the bare boat.
pub(crate) fn duty_results(
    question: &Question<'_>,
    size: Option<PlaneSize>,
    needs: &[Need],
) -> Vec<DutyResult> {
    (0..question.asking.duties.len())
        .filter_map(|duty| {
            let (site_index, demand) = worst(question, size, needs, duty)?;
            let need = needs.get(site_index);
            Some(duty_result(question, size, need, &question.bench.sites[site_index], demand))
        })
        .collect()
}

/// The site at which a duty is missed or needs most, with its demand there.
fn worst(
    question: &Question<'_>,
    size: Option<PlaneSize>,
    needs: &[Need],
    duty: usize,
) -> Option<(usize, Demand)> {
    let mut found: Option<(usize, Demand, (bool, f64, f64))> = None;
    for (site_index, site) in question.bench.sites.iter().enumerate() {
        for (index, demand) in site.demands.iter().enumerate() {
            if demand.duty != duty {
                continue;
            }
            let need = needs.get(site_index);
            let missed = !is_met(question, size, need, site, demand);
            let severity = need.map_or(0.0, |need| need.demands[index].severity());
            // Where no deflection is needed, the speed at which least is to spare.
            let used = (missed, severity, site.closeness_bare(demand.kind));
            if found.is_none_or(|(_, _, most)| used > most) {
                found = Some((site_index, *demand, used));
            }
        }
    }
    found.map(|(site_index, demand, _)| (site_index, demand))
}

/// Whether a demand is done by a pair, or by the bare boat where there is none.
fn is_met(
    question: &Question<'_>,
    size: Option<PlaneSize>,
    need: Option<&Need>,
    site: &Site<'_>,
    demand: &Demand,
) -> bool {
    match (size, need) {
        (Some(size), Some(need)) => site.does(size, &question.bench.rules, need, demand),
        _ => site.bare_does(demand.kind),
    }
}

fn duty_result(
    question: &Question<'_>,
    size: Option<PlaneSize>,
    need: Option<&Need>,
    site: &Site<'_>,
    demand: Demand,
) -> DutyResult {
    let rules = &question.bench.rules;
    let own = need.and_then(|need| need.demands.iter().find(|d| d.duty == demand.duty));
    // A need that no deflection fills has no number.
    let within_reach = |own: &&DemandNeed| own.possible && own.deflection_deg < FARTHEST_DEG;
    let needed_deg = own.filter(within_reach).map(DemandNeed::deepest_deg);
    let share_used = needed_deg.map(|deg| deg / rules.usable_deg);
    DutyResult {
        duty: question.asking.duties[demand.duty].duty,
        condition: question.at(site).name().to_owned(),
        held_in: held_in(question, demand.duty),
        generated: question.asking.generated,
        speed: speed(site.bare.speed_m_s),
        needed_deflection: needed_deg.map(degrees),
        likely_deflection: size
            .map(|size| likely(question, size, site, demand))
            .filter(|[_, weak]| needed_deg.is_some() && weak.get::<degree>() < FARTHEST_DEG),
        share_used,
        met: is_met(question, size, need, site, &demand),
        met_bare: site.bare_does(demand.kind),
        reached: reached(question, size, need, site, demand),
    }
}

/// Names of the conditions in which a duty holds; none when it holds in all that are asked about.
fn held_in(question: &Question<'_>, duty: usize) -> Vec<String> {
    let held_in = &question.asking.duties[duty].loaded;
    if held_in.len() == question.loaded.len() {
        return Vec::new();
    }
    held_in.iter().map(|&index| question.loaded[index].name().to_owned()).collect()
}

/// Deflection needed when the planes are more or less effective than the equation: strong first.
fn likely(
    question: &Question<'_>,
    size: PlaneSize,
    site: &Site<'_>,
    demand: Demand,
) -> [uom::si::f64::Angle; 2] {
    let log_spread = effect::effectiveness_log_spread(question.at(site).boat);
    let mut range = LIKELY.map(|share| {
        let factor = effect::effectiveness_quantile(share, log_spread);
        let effectiveness = question.settings().effectiveness * factor;
        let settings = Settings { effectiveness, ..*question.settings() };
        let prism = Prism::new(question.at(site).boat, &settings);
        let mut other = Site::new(site.loaded, &prism, site.bare.speed_m_s);
        other.demands.push(demand);
        let need = other.need(size, &question.bench.rules);
        degrees(need.demands[0].deepest_deg())
    });
    range.sort_by(|a, b| a.value.total_cmp(&b.value));
    range
}

fn reached(
    question: &Question<'_>,
    size: Option<PlaneSize>,
    need: Option<&Need>,
    site: &Site<'_>,
    demand: Demand,
) -> Reached {
    let none = PlaneSize { span_m: 0.0, chord_m: 0.0 };
    let used = size.unwrap_or(none);
    let usable_deg = question.bench.rules.usable_deg;
    let set_deg =
        need.map_or(0.0, |need| need.deflection_deg.min(site.safe_deg(used)).min(usable_deg));
    let trim = |deflection_deg: f64| {
        site.settle(used, deflection_deg).map(|forces| degrees(forces.trim_deg))
    };
    let resistance = |deflection_deg: f64| {
        let force_n = site.resistance_n(used, deflection_deg);
        force_n.is_finite().then(|| Force::new::<newton>(force_n))
    };
    let margin = |deflection_deg: f64| site.margin_deg(used, deflection_deg).map(degrees);
    match demand.kind {
        DemandKind::Relief { .. } | DemandKind::Trim { .. } => {
            Reached::Trim { bare: trim(0.0), with: trim(set_deg) }
        }
        DemandKind::Margin { .. } => Reached::Margin { bare: margin(0.0), with: margin(set_deg) },
        DemandKind::Resistance { at_most_n } => Reached::Resistance {
            bare: resistance(0.0),
            with: resistance(set_deg),
            least: Force::new::<newton>(match question.asking.duties[demand.duty].duty.aim() {
                Aim::Resistance(within) => at_most_n / (1.0 + within.get::<ratio>()),
                _ => at_most_n,
            }),
        },
        DemandKind::List { moment_n_m } => difference(question, size, site, moment_n_m),
    }
}

/// Least and largest difference that levels a moment, by where the inward force is reacted and how far the lift spreads.
fn difference(
    question: &Question<'_>,
    size: Option<PlaneSize>,
    site: &Site<'_>,
    moment_n_m: f64,
) -> Reached {
    let Some(size) = size else {
        return Reached::Difference { least: degrees(0.0), largest: degrees(0.0) };
    };
    let rules = &question.bench.rules;
    let one_n = 0.5 * site.bare.lift_per_degree_n(size);
    let mid_span_m = rules.mid_span_m(size.span_m);
    let [[longest_m, _], [_, shortest_m]] =
        roll::arms_m(mid_span_m, site.bare.prism.vcg_m, rules.transom_deadrise_deg());
    let [least, largest] =
        [longest_m, shortest_m].map(|arm_m| degrees(moment_n_m / (one_n * arm_m)));
    Reached::Difference { least, largest }
}

/// The duty that sets the size: the one that needs most at the site that asks most of it; none when no duty binds, but only the limits on the size.
pub(crate) fn set_by<'b, 'a>(bench: &'b Bench<'a>, least: &Least) -> Option<(usize, &'b Site<'a>)> {
    let binds = |bound: &Binding| matches!(bound, Binding::Duty | Binding::SafeRun);
    if !least.binding.iter().any(binds) {
        return None;
    }
    let needs = bench.needs(least.size);
    let sites = needs.iter().zip(&bench.sites);
    let (need, site) = sites.max_by(|a, b| a.0.utilisation.total_cmp(&b.0.utilisation))?;
    Some((need.set_by?, site))
}

/// The pair a fifth smaller and larger, by span and by chord.
pub(crate) fn variants(question: &Question<'_>, pair: PlanePair) -> Vec<Variant> {
    let size = PlaneSize::from(pair);
    [
        ("span 20 % smaller", 0.8, 1.0),
        ("span 20 % larger", 1.2, 1.0),
        ("chord 20 % smaller", 1.0, 0.8),
        ("chord 20 % larger", 1.0, 1.2),
    ]
    .map(|(name, span, chord)| {
        let changed = PlaneSize { span_m: span * size.span_m, chord_m: chord * size.chord_m };
        variant(question, name, changed)
    })
    .to_vec()
}

fn variant(question: &Question<'_>, name: &'static str, size: PlaneSize) -> Variant {
    let rules = &question.bench.rules;
    let needs = question.bench.needs(size);
    let mut missed: Vec<usize> = needs
        .iter()
        .filter(|need| need.utilisation > FULL_UTILISATION)
        .filter_map(|need| need.set_by)
        .collect();
    missed.sort_unstable();
    missed.dedup();
    let hump_trims = question.loaded.iter().map(|loaded| {
        let site = Site::new(0, &loaded.prism, loaded.hump_speed_m_s());
        let allowed_deg = (rules.usable_deg * rules.share).min(site.safe_deg(size));
        Some(site.settle(size, allowed_deg)?.trim_deg)
    });
    let hump_trims: Option<Vec<f64>> = hump_trims.collect();
    let too_long_m = size.span_m - question.bench.room.largest_span_m;
    Variant {
        name,
        too_long: (too_long_m > 1e-9).then(|| Length::new::<meter>(too_long_m)),
        pair: pair_of(size),
        share_used: needs.iter().map(Need::used_deg).fold(0.0, f64::max) / rules.usable_deg,
        chance: None,
        missed,
        hump_trim: hump_trims.map(|trims| degrees(trims.into_iter().fold(0.0, f64::max))),
    }
}
