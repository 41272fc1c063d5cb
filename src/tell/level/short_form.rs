//! A list in short: what heels her, how to set the planes, from which speed on.

use super::sentences::{from_which_speed, heel_sentence, heeled_by, how_to_level, sentences};
use super::{CAUTIONS, LevelText, levelling};
use crate::boat::degrees;
use crate::document::Sentence;
use crate::size::PairUsed;
use crate::tell::short_form::{ShortForm, cut, estimated, first_sentence, first_table, flagged};
use crate::tell::words::speed_text;

/// Rows of the table.
const ROWS: usize = 5;
/// Its columns: speed, difference, port, starboard, trim, whether that levels her.
const COLUMNS: [usize; 6] = [0, 2, 3, 4, 5, 7];

/// A list in short.
#[must_use]
pub fn short_form(told: &LevelText<'_>) -> ShortForm {
    let point = &told.levelled.reference;
    let speed = speed_text(point.bare.speed, told.units);
    let mut form = ShortForm { gist: heeled_by(told, &speed).into(), ..ShortForm::default() };
    form.asks = point.levelling.as_ref().map_or(0.0, |levelling| {
        levelling.ends[0].difference.map_or(f64::MAX, |angle| degrees(angle).abs())
    });
    form.what = what(told, &speed).into_iter().map(Sentence::from).collect();
    form.table = first_table(levelling(told)).map(|table| cut(table, &COLUMNS, ROWS, &[]));
    if point.moment.iter().any(|moment| moment.value != 0.0) {
        form.beware.extend(CAUTIONS.map(first_sentence));
    }
    form.beware.extend(flagged(point.flags().iter()));
    form.beware.extend(estimated(told.boat, told.units));
    form
}

/// What heels her, how to set the planes, from which speed on and how far she leans; all that is told where they have no say.
fn what(told: &LevelText<'_>, speed: &str) -> Vec<String> {
    let point = &told.levelled.reference;
    match &point.levelling {
        Some(levelling) if point.moment.iter().any(|moment| moment.value != 0.0) => {
            let [how, _] = how_to_level(told, levelling, speed);
            let from = from_which_speed(told);
            let heel = first_sentence(&heel_sentence(point.heel.angle, speed)).to_string();
            let all = [heeled_by(told, speed), how, from, heel];
            let planes = PairUsed::fitted(told.boat).in_short(told.units);
            all.into_iter().chain([planes]).collect()
        }
        _ => sentences(told),
    }
}
