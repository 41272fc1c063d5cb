//! Getting on plane in short: with planes up in sentences, every way in a row.

use uom::si::ratio::percent;

use super::short::{sentences, way_text, why_a_range};
use super::{OnPlaneText, by_way, flags};
use crate::behaviour::on_plane::FullPowerRun;
use crate::document::{Piece, Sentence, said};
use crate::tell::short_form::{
    NEXT, SURE, ShortForm, cut, estimated, estimated_beside, first_sentence, first_table, flagged,
};

/// Columns of the table: way, time, distance, share of the thrust used, top speed.
const COLUMNS: [usize; 5] = [0, 1, 2, 4, 7];
/// Ways of using the planes.
const WAYS: usize = 3;

/// Getting on plane in short.
#[must_use]
pub fn short_form(one: &OnPlaneText<'_>) -> ShortForm {
    let mut form = ShortForm::default();
    let Some(first) = one.answer.runs.first() else { return form };
    form.asks = used(first).unwrap_or(f64::MAX);
    let told = sentences(one, first);
    form.gist = first_sentence(&told);
    form.what.push(said![way_text(one, first.way), ": ", told]);
    form.what.extend(gain(one));
    form.what.push(one.pair.in_short(one.units).into());
    form.table = first_table(by_way(one)).map(|table| cut(table, &COLUMNS, WAYS, &[]));
    form.point(SURE, Some(first_sentence(&why_a_range(one))));
    let next = said![
        "compare the ways with each other, not with a stopwatch; ",
        Piece::name("planewright size"),
        " says which deflection to use."
    ];
    form.point(NEXT, Some(next));
    form.beware = flagged(flags(one).into_iter().map(|(flag, _)| flag));
    form.beware.extend(estimated_beside(one.answer.thrust.estimates()));
    form.beware.extend(estimated(one.boat, one.units));
    form
}

/// Share of the thrust that she uses where it is tightest, per cent.
fn used(run: &FullPowerRun) -> Option<f64> {
    Some(100.0 - run.tightest.as_ref()?.margin().get::<percent>())
}

/// What the best use of the planes changes where it is tightest.
fn gain(one: &OnPlaneText<'_>) -> Option<Sentence> {
    let [up, .., best] = one.answer.runs.as_slice() else { return None };
    let [up, least] = [used(up)?, used(best)?];
    let name = way_text(one, best.way);
    Some(format!("{name}: {least:.0} % of the thrust, not {up:.0} %, where it is tightest.").into())
}
