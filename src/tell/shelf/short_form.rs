//! The shelf in short: which part to take, why, and the first three.

use super::columns;
use super::reasons::ShelfText;
use crate::document::{Piece, Sentence, Table, said};
use crate::stock::{Ranked, Ranking, Standing};
use crate::tell::short_form::{NEXT, ShortForm, WHY, cut};
use crate::units::UnitChoice;

/// Parts shown.
const PARTS: usize = 3;
/// Columns shown: the part, what it does, on how many boats, price. Pairs on hand are told of the first.
const COLUMNS: [usize; 4] = [0, 3, 4, 7];
/// The column of what it does.
const DOES: usize = 3;

/// A sizing in short, without settings, with the shelf added.
#[must_use]
pub fn with_shelf(mut form: ShortForm, ranking: &Ranking, units: UnitChoice) -> ShortForm {
    let Some(first) = ranking.ranked.first() else {
        form.what.extend(super::reasons(ranking, units));
        return form;
    };
    let told = ShelfText { ranking, units, in_short: true };
    form.what.push(told.headline(first));
    let three = &ranking.ranked[..ranking.ranked.len().min(PARTS)];
    let mut table = Table { columns: columns(three, units), ..Table::default() };
    for (cell, ranked) in table.columns[DOES].cells.iter_mut().zip(three) {
        match ranked.standing {
            Standing::Unsafe => "UNSAFE".clone_into(cell),
            Standing::NoRoom => "no room".clone_into(cell),
            Standing::NotOnHand => "to order".clone_into(cell),
            _ => {}
        }
    }
    form.table = Some(cut(table, &COLUMNS, PARTS, &[]));
    let second = ranking.ranked.get(1).filter(|_| first.standing < Standing::CannotBeFitted);
    if let Some(second) = second {
        form.points.insert(0, (WHY, told.why_before(first, second)));
    }
    let next = said![Piece::name("planewright loads"), " shows one part in full."];
    form.point(NEXT, Some(next));
    form.beware.extend(as_it_comes(first, units));
    form
}

/// That the first is not to be fitted as it comes.
fn as_it_comes(first: &Ranked, units: UnitChoice) -> Option<Sentence> {
    first.remedy(units).map(|_| {
        said![
            first.part.name.clone(),
            " has NO ALLOWANCE FOR SLAMMING as it comes: --full says what to change."
        ]
    })
}
