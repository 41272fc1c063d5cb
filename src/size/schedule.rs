//! What to do at each speed.

use uom::si::angle::degree;
use uom::si::f64::Velocity;
use uom::si::velocity::meter_per_second;

use super::demand::DemandKind;
use super::result::ScheduleRow;
use super::site::Site;
use super::suggest::{Question, degrees, speed};
use crate::balance::forces::PlaneSize;
use crate::balance::sweep::speeds;
use crate::units::factor::M_S_PER_KNOT;

/// More deflection than the duties need is used only where it takes at least this share off the resistance.
const WORTHWHILE: f64 = 0.02;
/// Room that is kept to the end of the safe run, degrees of deflection.
const ROOM_DEG: f64 = 1.0;
/// Rows nearer to the first, the last or the speed of a duty than this share of the step are left out.
const NEIGHBOUR: f64 = 0.3;
/// Rows at the most.
const MOST_ROWS: usize = 24;

/// One row for each speed from the start of planing to top speed, in the loading condition of an index.
pub(crate) fn schedule(
    question: &Question<'_>,
    loaded: usize,
    size: Option<PlaneSize>,
) -> Vec<ScheduleRow> {
    let mut step_kn = 1.0;
    let all = loop {
        let step_m_s = step_kn * M_S_PER_KNOT;
        let even = speeds(question.loaded[loaded].boat, speed(step_m_s));
        if even.len() <= MOST_ROWS {
            break well_apart(&even, &single_speeds(question, loaded), step_m_s);
        }
        step_kn *= 2.0;
    };
    let own = &question.loaded[loaded];
    let hump_m_s = own.hump_speed_m_s();
    let held_deg = size.and_then(|size| held_trim_deg(question, loaded, size, hump_m_s));
    let held_deg = held_deg.unwrap_or(f64::INFINITY);
    // The hump itself lies between two rows.
    let mut last_deg = size.map_or(0.0, |size| {
        let site = site_of_duties(question, loaded, hump_m_s);
        let kept_deg = under_limit_deg(question, &site, size);
        deflection_to_use(question, &site, size, [held_deg, f64::INFINITY, kept_deg]).0
    });
    let kept_deg = match size {
        Some(size) => kept_under_limit_deg(question, loaded, size, &all, hump_m_s),
        None => vec![0.0; all.len()],
    };
    let mut rows = Vec::new();
    for (at, kept_deg) in all.into_iter().zip(kept_deg) {
        let speed_m_s = at.get::<meter_per_second>();
        // Past the hump the planes come up with speed, never down but for a duty.
        let is_past = speed_m_s > hump_m_s;
        let most_deg = if is_past { last_deg } else { f64::INFINITY };
        let row = row(question, loaded, size, speed_m_s, [held_deg, most_deg, kept_deg]);
        if is_past {
            // A row that goes deeper for a duty leaves the next as it was.
            last_deg = last_deg.min(row.deflection.get::<degree>());
        }
        rows.push(row);
    }
    rows
}

/// Speeds of the duties that hold at one speed alone and ask for a trim there: they have a row of their own.
fn single_speeds(question: &Question<'_>, loaded: usize) -> Vec<Velocity> {
    let asked = question.bench.asked.iter().filter(|asked| asked.loaded == loaded);
    let single = asked.filter(|asked| {
        matches!(asked.demand.kind, DemandKind::Trim { .. } | DemandKind::Relief { .. })
            && asked.speeds_m_s[0] == asked.speeds_m_s[1]
    });
    single.map(|asked| speed(asked.speeds_m_s[0])).collect()
}

/// At each of some rising speeds the deflection that stays under the porpoising limit there, and past the hump at all faster ones too.
///
/// Past it planes come up with speed and never go down again: what a faster speed takes is kept from before it.
fn kept_under_limit_deg(
    question: &Question<'_>,
    loaded: usize,
    size: PlaneSize,
    speeds: &[Velocity],
    hump_m_s: f64,
) -> Vec<f64> {
    let speeds_m_s: Vec<f64> = speeds.iter().map(|at| at.get::<meter_per_second>()).collect();
    let own_deg = |&speed_m_s: &f64| {
        under_limit_deg(question, &question.bench.site_at(loaded, speed_m_s), size)
    };
    let mut kept_deg: Vec<f64> = speeds_m_s.iter().map(own_deg).collect();
    for index in (1..kept_deg.len()).rev().take_while(|&index| speeds_m_s[index - 1] > hump_m_s) {
        kept_deg[index - 1] = kept_deg[index - 1].max(kept_deg[index]);
    }
    kept_deg
}

/// Deflection that stays under the porpoising limit at a speed, where that is tested and planes can do it with room; else zero.
fn under_limit_deg(question: &Question<'_>, site: &Site<'_>, size: PlaneSize) -> f64 {
    if !site.porpoising_is_tested(site.bare_limit()) {
        return 0.0;
    }
    let reach_deg = question.bench.rules.usable_deg.min(roomy_deg(site.safe_deg(size)));
    let own_deg = site.deflection_for_margin(size, 0.0);
    if own_deg <= reach_deg { own_deg } else { 0.0 }
}

/// Both ends and the speeds that have a row of their own, and of the even speeds between them those that are no neighbours of these.
fn well_apart(even: &[Velocity], own: &[Velocity], step_m_s: f64) -> Vec<Velocity> {
    let apart =
        |one: Velocity, other: Velocity| (one - other).abs().get::<meter_per_second>() / step_m_s;
    let ends = even.first().into_iter().chain(even.last()).copied();
    let mut kept: Vec<Velocity> = Vec::new();
    for at in ends.chain(own.iter().copied()) {
        if kept.iter().all(|&other| apart(at, other) > NEIGHBOUR) {
            kept.push(at);
        }
    }
    let between = |at: &Velocity| kept.iter().all(|&other| apart(*at, other) > NEIGHBOUR);
    let between: Vec<Velocity> = even.iter().copied().filter(between).collect();
    kept.extend(between);
    kept.sort_by(|a, b| a.value.total_cmp(&b.value));
    kept
}

/// The trim that the pair holds at the hump when it does what is asked there: the bow stands no higher at any speed.
fn held_trim_deg(
    question: &Question<'_>,
    loaded: usize,
    size: PlaneSize,
    hump_m_s: f64,
) -> Option<f64> {
    let site = question.bench.site_at(loaded, hump_m_s);
    let need = site.need(size, &question.bench.rules);
    let most_deg = question.bench.rules.usable_deg.min(site.safe_deg(size));
    let own = site.demands.iter().zip(&need.demands);
    let trims = own.filter(|(demand, _)| !matches!(demand.kind, DemandKind::List { .. }));
    let deflection_deg = trims.map(|(_, need)| need.deflection_deg).fold(0.0, f64::max);
    site.settle(size, deflection_deg.min(most_deg)).map(|forces| forces.trim_deg)
}

/// What is left of the safe run with some room.
fn roomy_deg(safe_deg: f64) -> f64 {
    (safe_deg - ROOM_DEG).max(0.0)
}

fn row(
    question: &Question<'_>,
    loaded: usize,
    size: Option<PlaneSize>,
    speed_m_s: f64,
    limits_deg: [f64; 3],
) -> ScheduleRow {
    let site = site_of_duties(question, loaded, speed_m_s);
    let none = PlaneSize { span_m: 0.0, chord_m: 0.0 };
    let used = size.unwrap_or(none);
    let bare = site.settle(used, 0.0);
    let (deflection_deg, safe_deg) = match size {
        Some(size) => deflection_to_use(question, &site, size, limits_deg),
        None => (0.0, 0.0),
    };
    let settled = site.settle(used, deflection_deg);
    let bare_n = site.resistance_n(used, 0.0);
    let ratio = site.resistance_n(used, deflection_deg) / bare_n;
    ScheduleRow {
        speed: speed(speed_m_s),
        deflection: degrees(deflection_deg),
        largest_safe: degrees(safe_deg),
        trim_bare: bare.map(|forces| degrees(forces.trim_deg)),
        trim: settled.map(|forces| degrees(forces.trim_deg)),
        // Beside a bare boat that does not run nothing is a saving.
        resistance_ratio: (ratio.is_finite() && ratio > 0.0).then_some(ratio),
        porpoising_margin: site.margin_deg(used, deflection_deg).map(degrees),
        flags: site.flags(size.map(|size| (size, deflection_deg))),
    }
}

/// The speed with the duties that hold there over a range; a list is not for the mean deflection.
fn site_of_duties<'a>(question: &Question<'a>, loaded: usize, speed_m_s: f64) -> Site<'a> {
    let mut site = question.bench.site_at(loaded, speed_m_s);
    site.demands.retain(|demand| !matches!(demand.kind, DemandKind::List { .. }));
    site
}

/// Whether the second of two deflections is deeper and leaves her further under the porpoising limit.
fn is_lower(site: &Site<'_>, size: PlaneSize, [one_deg, other_deg]: [f64; 2]) -> bool {
    let [one, other] = [one_deg, other_deg].map(|deg| site.margin_deg(size, deg));
    other_deg > one_deg && other.is_some_and(|other| one.is_none_or(|one| other > one))
}

/// Deflection to use and the largest without danger, degrees.
///
/// What the duties need there, up to the end of the safe run. What goes beyond that keeps room to that end
/// and is no more than `most_deg`: enough to hold the bow no higher than the pair holds it at the hump;
/// enough to stay under the porpoising limit, here and at the speeds after it (`kept_deg`), where that is tested and planes can do it; more where that
/// saves a clear share of the resistance. Where a margin under that limit is asked for the planes go as deep as
/// it takes, tested or not, and as deep as the pair reaches with that room where none is enough. What the plate does not reach below its dead band counts as planes up.
fn deflection_to_use(
    question: &Question<'_>,
    site: &Site<'_>,
    size: PlaneSize,
    [held_deg, most_deg, kept_deg]: [f64; 3],
) -> (f64, f64) {
    let rules = &question.bench.rules;
    let safe_deg = site.safe_deg(size).min(rules.usable_deg);
    let needed_deg = site.need(size, rules).deflection_deg.min(safe_deg);
    let reach_deg = rules.usable_deg.min(roomy_deg(site.safe_deg(size)));
    let end_deg = reach_deg.min(most_deg).max(needed_deg);
    let mut least_deg = needed_deg;
    if held_deg.is_finite() {
        least_deg = least_deg.max(site.deflection_for_trim(size, held_deg));
    }
    let margin_deg = site.demands.iter().find_map(|demand| match demand.kind {
        DemandKind::Margin { margin_deg } => Some(margin_deg),
        _ => None,
    });
    let mut end_deg = end_deg;
    if let Some(margin_deg) = margin_deg {
        let reached_deg = site.deflection_for_margin(size, margin_deg).min(reach_deg);
        if is_lower(site, size, [least_deg.min(end_deg), reached_deg]) {
            end_deg = end_deg.max(reached_deg);
            least_deg = least_deg.max(reached_deg);
        }
    }
    least_deg = least_deg.max(kept_deg).min(end_deg);
    let here_n = site.resistance_n(size, least_deg);
    let [deeper_deg, least_n] = site.least_resistance(size, least_deg, end_deg);
    let deflection_deg = if least_n < here_n * (1.0 - WORTHWHILE) {
        let enough_n = least_n * (1.0 + 0.5 * WORTHWHILE);
        site.deflection_for_resistance(size, enough_n, least_deg).0.min(deeper_deg)
    } else {
        least_deg
    };
    let is_dry = deflection_deg <= site.dead_band_deg(size);
    (if is_dry { 0.0 } else { deflection_deg }, safe_deg)
}
