//! What nobody should expect of the planes, and what to know before the first hole.

use uom::si::angle::degree;
use uom::si::f64::Angle;

use super::gather::Gathered;
use super::say;
use crate::balance::saving::Saving;
use crate::boat::degrees;
use crate::doubt::Likely;
use crate::size::{Effect, Outlook, ScheduleRow};
use crate::tell::over_limit::OverLimit;
use crate::tell::reasons::outlook_text;
use crate::units::number_with_decimals;

/// Stands for a deflection that no plane can have, degrees.
const BEYOND_DEG: f64 = 90.0;

/// Estimates of which it is said how far they move the size.
const MOST_ESTIMATES: usize = 2;

/// What nobody should expect.
pub(super) fn limits(gathered: &Gathered) -> Vec<String> {
    let mut points = Vec::new();
    if gathered.advised.pair().is_some() {
        points.push("Planes only push the bow down: they do not raise it, make an overloaded boat light, or cure weight that lies too far aft.".to_owned());
        points.extend(top_speed(gathered));
    }
    points.push(measured(gathered));
    points.extend(say::does_not_fit(gathered.duties.seen.as_ref()));
    points.extend(other_loadings(gathered));
    // Where it was asked for and cannot be judged, that stands at the top.
    points.extend(porpoising(gathered).filter(|_| gathered.size.suggestion.is_all_judged()));
    points
}

/// What was measured, and what the numbers hold for.
fn measured(gathered: &Gathered) -> String {
    let computed = "computed for straight running in calm water, not for turns, following seas or speeds below planing";
    match say::seen(gathered.duties.seen.as_ref(), gathered.size.units) {
        None => format!(
            "Nothing was measured on this boat: it is {computed}. ‘Likely’ holds nine in ten boats nearly like her."
        ),
        Some(seen) => format!(
            "Of this boat only {seen} was read; the rest is {computed}. ‘Likely’ holds nine in ten boats nearly like her {}.",
            say::shown_the_same(gathered.duties.seen.as_ref())
        ),
    }
}

/// What to know where she has planes already.
pub(super) fn fitted_note(gathered: &Gathered) -> Option<String> {
    let pair = gathered.boat().planes()?;
    gathered.advised.pair().filter(|&advised| advised != pair)?;
    Some(format!(
        "She has planes of {} each already, which do {} on {} in 100 boats nearly like her; this is what to take in their place.",
        pair.text(gathered.size.units),
        gathered.all_asked(),
        say::in_hundred(gathered.chance_of(Some(pair))?.share),
    ))
}

/// What planes do at top speed.
fn top_speed(gathered: &Gathered) -> Option<String> {
    if !gathered.has_settings() {
        return None;
    }
    let row = gathered.main_schedule().last()?;
    let at = say::speed(row.speed, gathered.size.units);
    Some(if gathered.is_up(row.deflection) {
        format!("At {at} they belong up: there they take nothing off the resistance.")
    } else {
        let down = say::angle(row.deflection);
        if gathered.saving(gathered.main_loading(), row.speed, row.deflection)?
            == Saving::SidesMayTurn
        {
            return Some(format!(
                "At {at} they stay {down} down; the resistance is about even with planes up: wet sides may turn the small saving that is computed."
            ));
        }
        let change = 100.0 * (row.resistance_ratio? - 1.0);
        let verb = if change < 0.0 { "falls" } else { "grows" };
        format!(
            "At {at} they stay {} down; beside planes up the resistance as computed {verb} by {} %.",
            down,
            number_with_decimals(change.abs(), 1)
        )
    })
}

/// Where another loading condition bears less deflection than is advised at the hump.
pub(super) fn other_loadings(gathered: &Gathered) -> Option<String> {
    let hump = gathered.hump.as_ref().filter(|_| gathered.has_settings())?;
    gathered.advised.pair()?;
    let conditions = gathered.size.boats.iter().zip(&gathered.schedules).enumerate();
    let others = conditions.filter(|(loading, _)| *loading != hump.loading);
    let least = others
        .filter_map(|(_, (boat, rows))| Some((boat, ScheduleRow::nearest(rows, hump.speed)?)));
    let (boat, row) =
        least.min_by(|a, b| degrees(a.1.largest_safe).total_cmp(&degrees(b.1.largest_safe)))?;
    (row.largest_safe < hump.deflection).then(|| {
        format!(
            "Loaded otherwise less is safe: “{}”, at {}, never beyond {}.",
            boat.condition().name,
            say::speed(row.speed, gathered.size.units),
            say::angle(row.largest_safe)
        )
    })
}

/// Where the published curve has her over the porpoising limit with the planes as advised; nothing where nowhere.
pub(super) fn porpoising(gathered: &Gathered) -> Option<String> {
    if !gathered.has_settings() {
        return None;
    }
    let over = OverLimit {
        boats: &gathered.size.boats,
        schedules: gathered.schedules.iter().map(Vec::as_slice).collect(),
        has_pair: gathered.advised.pair().is_some(),
        units: gathered.size.units,
    };
    over.sentence().map(|said| said.on_page())
}

/// How far the size moves within the likely ranges of the two estimates that move it most.
pub(super) fn swing(gathered: &Gathered) -> Option<String> {
    let units = gathered.size.units;
    let area_m2 = |end: Option<Outlook>| match end {
        Some(Outlook::Pair(pair)) => pair.area().value,
        Some(Outlook::NoPlanesNeeded) => 0.0,
        Some(Outlook::NoPairDoes | Outlook::NothingAsked) | None => f64::INFINITY,
    };
    let apart = |effect: &Effect| (area_m2(effect.high) - area_m2(effect.low)).abs();
    let mut moved: Vec<&Effect> =
        gathered.size.effects.iter().filter(|effect| effect.low != effect.high).collect();
    moved.sort_by(|a, b| apart(b).total_cmp(&apart(a)));
    let said: Vec<String> = moved
        .into_iter()
        .take(MOST_ESTIMATES)
        .map(|effect| {
            let [low, high] = [effect.low, effect.high].map(|end| outlook_text(end, units));
            format!("{} (size by calculation: {low} at one end of its likely range, {high} at the other)", say::key_words(effect.estimate.key))
        })
        .collect();
    (!said.is_empty()).then(|| format!("Measure before buying: {}.", said.join("; ")))
}

/// Deflection that the hardest speed needs; beyond all that planes can do where none does it.
pub(super) fn governing_need(gathered: &Gathered) -> Option<Likely<Angle>> {
    let beyond = Angle::new::<degree>(BEYOND_DEG);
    let needs = gathered.duties.needs.iter();
    let needs = needs.map(|need| need.needed.map(|angle| angle.unwrap_or(beyond)));
    needs.max_by(|a, b| degrees(a.median).total_cmp(&degrees(b.median)))
}

/// What to know before the first hole and the first run.
pub(super) fn cautions() -> Vec<String> {
    vec![
        "Find out what lies behind the transom before drilling (fuel, wiring, steering, flotation), and whether it bears the load. Seal every hole; an experienced fitter and the local rules decide.".to_owned(),
        crate::flag::CAUTION.to_owned(),
    ]
}
