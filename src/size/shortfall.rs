//! When no admissible pair does all duties: which one fails, by how much, and what would help.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::bench::{Bench, FULL_STRAIN};
use super::demand::{DemandKind, Limit, Need};
use super::loaded::Loaded;
use super::result::{Miss, Shortfall};
use super::silence::Silence;
use super::site::Site;
use super::suggest::{Question, degrees, pair_of, speed};
use crate::balance::forces::PlaneSize;
use crate::boat::measure::plain_number;
use crate::boat::{Boat, BoatInput, ThrustLine, WeightInput};
use crate::units::UnitSystem;
use crate::units::factor::M_S_PER_KNOT;

/// Share of the bottom length that the centre of gravity is moved forward when that remedy is tried.
const MOVE_SHARE: f64 = 0.05;

/// What the best admissible pair misses.
pub(crate) fn shortfall(question: &Question<'_>) -> Shortfall {
    let Some(size) = question.bench.least_strain() else {
        return no_room(question);
    };
    let needs = question.bench.needs(size);
    let worst = (0..needs.len()).max_by(|&i, &j| needs[i].strain.total_cmp(&needs[j].strain));
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
            excess: need.strain - 1.0,
        }),
        missing: missing(question, site, need, size),
        remedies: remedies(question, size),
        silence: None,
    }
}

/// When no duty is given and none can be generated, or none of those given holds in any loading condition asked about.
pub(crate) fn nothing_to_ask(question: &Question<'_>) -> Shortfall {
    let silence = Silence::of(question.boat(), question.settings());
    let said = silence.map(|silence| (silence.sentence(UnitSystem::Marine.into()), silence.cure()));
    let (sentence, cure) = said.unwrap_or_else(|| {
        (
            "No duty of the boat file holds in the loading that is asked about.".to_owned(),
            "Ask about another loading, or give a duty that holds in this one.",
        )
    });
    Shortfall {
        best: None,
        duty: None,
        miss: None,
        missing: sentence.trim_end_matches('.').to_owned(),
        remedies: vec![cure.to_owned()],
        silence,
    }
}

fn no_room(question: &Question<'_>) -> Shortfall {
    let room = &question.bench.room;
    let needed_m = room.smallest_chord_m * room.smallest_aspect;
    let missing_mm = 1000.0 * (needed_m - room.largest_span_m);
    Shortfall {
        best: None,
        duty: None,
        miss: None,
        missing: format!(
            "there is room for a span of {:.0} mm on each side; the smallest pair allowed needs {:.0} mm, {missing_mm:.0} mm more",
            1000.0 * room.largest_span_m,
            1000.0 * needed_m
        ),
        remedies: vec![
            "Smaller clearances on the transom, a smaller sizing.smallest_chord or sizing.smallest_aspect would make room; each is common practice to be weighed on the boat.".to_owned(),
        ],
        silence: None,
    }
}

fn missing(question: &Question<'_>, site: &Site<'_>, need: &Need, size: PlaneSize) -> String {
    let mut at = format!("{} kn", plain_number(need.speed_m_s / M_S_PER_KNOT));
    if question.loaded.len() > 1 {
        at.push_str(&format!(" in `{}`", question.at(site).name()));
    }
    let rules = &question.bench.rules;
    let allowed_deg = rules.usable_deg * rules.share;
    let used_deg = need.used_deg();
    let safe_deg = site.safe_deg(size);
    if need.strain <= FULL_STRAIN {
        return format!(
            "as she is described it is only just done at {at}, and no pair in whole steps does it at every speed that is judged"
        );
    }
    match need.limit {
        Limit::Deflection => {
            let held = held(site, size, allowed_deg.min(safe_deg));
            format!(
                "at {at} it needs {used_deg:.1} deg of the {allowed_deg:.1} deg that duties may use{held}"
            )
        }
        Limit::SafeRun if used_deg <= 0.0 => format!("at {at} she does not run with planes up"),
        Limit::SafeRun => format!(
            "at {at} it needs {:.1} deg, and the run is safe only to {safe_deg:.1} deg: beyond it the trim is under 2 deg",
            need.deflection_deg
        ),
        Limit::Duty => impossible(site, need, size, &at),
    }
}

/// The trim that the allowed deflection holds, where the site has a trim demand.
fn held(site: &Site<'_>, size: PlaneSize, deflection_deg: f64) -> String {
    let asked = site.demands.iter().find_map(|demand| match demand.kind {
        DemandKind::Trim { at_most_deg } => Some(at_most_deg),
        DemandKind::Relief { at_least_deg } => Some(site.relieved_trim_deg(at_least_deg)),
        _ => None,
    });
    match (asked, site.settle(size, deflection_deg)) {
        (Some(asked_deg), Some(forces)) => format!(
            ", which holds {:.1} deg of trim where {asked_deg:.1} is asked, {:.1} deg too much",
            forces.trim_deg,
            forces.trim_deg - asked_deg
        ),
        _ => String::new(),
    }
}

/// The resistance that is left where no deflection, or not the one that the other duties need, brings it down far enough.
fn impossible(site: &Site<'_>, need: &Need, size: PlaneSize, at: &str) -> String {
    let asked = site.demands.iter().find_map(|demand| match demand.kind {
        DemandKind::Resistance { at_most_n } => Some(at_most_n),
        _ => None,
    });
    let reached_n = site.resistance_n(size, need.deflection_deg);
    match asked {
        Some(at_most_n) if reached_n.is_finite() => format!(
            "at {at} the resistance stays {:.1} % above what is asked",
            100.0 * (reached_n / at_most_n - 1.0)
        ),
        _ => format!("at {at} no deflection does what is asked"),
    }
}

/// What is changed in a boat.
type Change<'a> = &'a dyn Fn(&Boat) -> BoatInput;

/// Changes tried one at a time, each with its result.
fn remedies(question: &Question<'_>, best: PlaneSize) -> Vec<String> {
    let shift_m = MOVE_SHARE * question.boat().hull().bottom_length.get::<meter>();
    let forward = |boat: &Boat| moved_forward(boat, shift_m);
    let square = |boat: &Boat| {
        let mut input = boat.input().clone();
        input.sizing.smallest_aspect = Some(1.0);
        input
    };
    let forward_text = format!("Moving the centre of gravity {:.0} mm forward", 1000.0 * shift_m);
    let changes: [(&str, Change<'_>); 2] =
        [(&forward_text, &forward), ("Allowing a chord as long as the span", &square)];
    changes
        .into_iter()
        .filter_map(|(what, change)| tried(question, best, what, change))
        .chain([
            "Less speed at the duty, or an easier value of it, lowers what is needed.".to_owned()
        ])
        .collect()
}

/// The boat with her centre of gravity further forward in the condition that she is in, and no other conditions.
fn moved_forward(boat: &Boat, shift_m: f64) -> BoatInput {
    let mut input = boat.input().clone();
    let weight = boat.weight();
    input.weight = WeightInput::Totals {
        mass: weight.mass,
        lcg: Some(weight.lcg + Length::new::<meter>(shift_m)),
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

/// Whether a change of the boat lets some admissible pair do all duties; none when the changed boat is impossible.
fn tried(
    question: &Question<'_>,
    best: PlaneSize,
    what: &str,
    change: Change<'_>,
) -> Option<String> {
    let changed = question.loaded.iter().map(|loaded| Boat::build(change(loaded.boat)).ok());
    let boats = changed.collect::<Option<Vec<_>>>()?;
    let loaded = Loaded::all(&boats, question.settings());
    let changed = Bench::new(&loaded, &question.asking.duties);
    if changed.least(0.5).is_some() {
        return Some(format!("{what} would let planes do all duties."));
    }
    let [before, after] = [&question.bench, &changed].map(|bench| bench.strain(best));
    (after < 0.95 * before).then(|| {
        format!("{what} would help, but not enough: {:.0} % of what is allowed.", 100.0 * after)
    })
}
