//! Fuel in short: what cruising burns, and where the planes save or cost.

use super::{FuelText, LIMITS, at_cruise, by_distance, by_speed, flags, verdict};
use crate::document::{Sentence, said};
use crate::tell::short_form::{
    NEXT, SURE, ShortForm, cut, estimated, estimated_beside, first_sentence, first_table, flagged,
};
use crate::tell::words::{digits, speed_text};
use crate::units::FuelUnits;

/// Rows of the table.
const ROWS: usize = 5;
/// Its columns without planes: speed, flow, by distance; with them also the best deflection, the change, and that when held.
const COLUMNS: [usize; 6] = [0, 3, 4, 5, 7, 8];

/// Fuel in short.
#[must_use]
pub fn short_form(one: &FuelText<'_>) -> ShortForm {
    let mut form = ShortForm { gist: gist(one), ..ShortForm::default() };
    form.asks = one.answer.at_cruise.up.as_ref().map_or(f64::MAX, |up| by_distance(one, up));
    form.what.push(said!["At cruise: ", at_cruise(one)]);
    form.what.extend(verdict(one).into_iter().map(Sentence::from));
    form.what.push(one.pair.in_short(one.units).into());
    form.table = first_table(by_speed(one)).map(|table| cut(table, &COLUMNS, ROWS, &[]));
    let sure = estimated_beside(&one.answer.estimates);
    form.point(SURE, Some(sure.unwrap_or_else(|| first_sentence(LIMITS))));
    form.point(NEXT, Some("set what `size` says, and measure with a flow meter.".into()));
    form.beware = flagged(flags(one));
    form.beware.extend(estimated(one.boat, one.units));
    form
}

/// What cruising burns with planes up.
fn gist(one: &FuelText<'_>) -> Sentence {
    let fuel = FuelUnits::of(one.units);
    let speed = speed_text(one.answer.cruise, one.units);
    match &one.answer.at_cruise.up {
        None => format!("no balance at {speed}").into(),
        Some(up) => format!(
            "at {speed} {} {}, {} {} with planes up",
            digits(fuel.flow(up.flow), 3),
            fuel.flow_symbol(),
            digits(by_distance(one, up), 3),
            fuel.by_distance_symbol()
        )
        .into(),
    }
}
