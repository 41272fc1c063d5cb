//! A head sea in short: one speed and one height of waves in a sentence, and a few speeds.

use super::{
    RANGES, SEA_CAUTION, SeawayText, beyond_for_boat, departure_name, fastest, flags, in_waves,
    planes, usual_in_two,
};
use crate::behaviour::seaway::in_g;
use crate::document::{Block, Piece, Sentence, Table, said};
use crate::flag::Flag;
use crate::tell::short_form::{
    NEXT, SURE, ShortForm, cut, estimated, first_sentence, first_table, flagged,
};

/// Rows of the table.
const ROWS: usize = 5;
/// Its columns: speed, at the centre and at the bow with planes up, and the same with planes down.
const COLUMNS: [usize; 5] = [0, 1, 2, 4, 5];

/// A head sea in short.
#[must_use]
pub fn short_form(told: &SeawayText<'_>) -> ShortForm {
    let mut form = ShortForm::default();
    let [peaks, _] = usual_in_two(told);
    let height = told.seen.usual_wave_height();
    let sea = told.seen.sea();
    let ride = told.seen.usual_stance().and_then(|row| sea.ride(&row.up, height));
    form.asks = ride.map_or(0.0, |ride| in_g(ride.centre.value));
    form.gist = peaks.clone().into();
    form.what = vec![peaks.into(), first_sentence(&planes(told))];
    let limit = fastest(told);
    let title = limit.iter().find_map(|block| match block {
        Block::Section(title) => Some(title.clone()),
        _ => None,
    });
    form.table = match (title, first_table(limit)) {
        (Some(title), Some(table)) => Some(Table { title, notes: Vec::new(), ..table }),
        _ => first_table(in_waves(told, height)).map(|table| cut(table, &COLUMNS, ROWS, &[])),
    };
    form.point(SURE, Some(first_sentence(RANGES)));
    let next = said![Piece::name("--limit \"1 g\""), " tells the speed that keeps a limit."];
    form.point(NEXT, told.seen.limit.is_none().then_some(next));
    form.beware.push(first_sentence(SEA_CAUTION));
    form.beware.extend(beyond_for_boat(told, departure_name).map(Sentence::from));
    // What of the boat lies outside the tests is said already.
    let is_said = !sea.departures().is_empty();
    let others = flags(told).into_iter();
    let others = others.filter(|flag| !is_said || *flag != Flag::WavesBeyondTested);
    form.beware.extend(flagged(others));
    form.beware.extend(estimated(&told.seen.boat, told.units));
    form
}
