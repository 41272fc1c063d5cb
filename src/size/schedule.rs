//! What to do at each speed.

use uom::si::velocity::meter_per_second;

use super::demand::DemandKind;
use super::result::ScheduleRow;
use super::site::Site;
use super::suggest::{Question, degrees, speed};
use crate::balance::forces::PlaneSize;
use crate::balance::sweep::speeds;
use crate::units::factor::M_S_PER_KNOT;

/// More deflection than the duties need is used only where it brings the resistance within this of the least.
const WORTHWHILE: f64 = 0.005;
/// Rows at the most.
const MOST_ROWS: usize = 24;

/// One row for each speed from the start of planing to top speed, in the loading condition of a place.
pub(crate) fn schedule(
    question: &Question<'_>,
    loaded: usize,
    size: Option<PlaneSize>,
) -> Vec<ScheduleRow> {
    let mut step_kn = 1.0;
    let all = loop {
        let all = speeds(question.loaded[loaded].boat, speed(step_kn * M_S_PER_KNOT));
        if all.len() <= MOST_ROWS {
            break all;
        }
        step_kn *= 2.0;
    };
    all.into_iter().map(|at| row(question, loaded, size, at.get::<meter_per_second>())).collect()
}

fn row(
    question: &Question<'_>,
    loaded: usize,
    size: Option<PlaneSize>,
    speed_m_s: f64,
) -> ScheduleRow {
    let site = site_of_duties(question, loaded, speed_m_s);
    let none = PlaneSize { span_m: 0.0, chord_m: 0.0 };
    let used = size.unwrap_or(none);
    let bare = site.settle(used, 0.0);
    let (deflection_deg, safe_deg) = match size {
        Some(size) => deflection_to_use(question, &site, size),
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
        resistance_ratio: ratio.is_finite().then_some(ratio),
        flags: site.flags(size.map(|size| (size, deflection_deg))),
    }
}

/// The speed with the duties that hold there over a range; a list is not for the mean deflection.
fn site_of_duties<'a>(question: &Question<'a>, loaded: usize, speed_m_s: f64) -> Site<'a> {
    let mut site = question.bench.site_at(loaded, speed_m_s);
    site.demands.retain(|demand| !matches!(demand.kind, DemandKind::List { .. }));
    site
}

/// Deflection to use and the largest safe one, degrees.
///
/// What the duties need; more where that saves resistance; and enough to stay
/// under the porpoising limit where planes can do that. Never beyond the safe run.
fn deflection_to_use(question: &Question<'_>, site: &Site<'_>, size: PlaneSize) -> (f64, f64) {
    let rules = &question.bench.rules;
    let safe_deg = site.safe_deg(size).min(rules.usable_deg);
    let need = site.need(size, rules);
    let mut least_deg = need.deflection_deg.min(safe_deg);
    let under_limit_deg = site.deflection_for_margin(size, 0.0);
    if under_limit_deg <= safe_deg {
        least_deg = least_deg.max(under_limit_deg);
    }
    let [_, least_n] = site.least_resistance(size, least_deg, safe_deg);
    if !least_n.is_finite() {
        return (least_deg, safe_deg);
    }
    let (deflection_deg, _) =
        site.deflection_for_resistance(size, least_n * (1.0 + WORTHWHILE), least_deg);
    (deflection_deg.min(safe_deg), safe_deg)
}
