//! How sure, in short: two speeds with their ranges, the chance of the pair, and what to measure.

use super::Doubted;
use super::running::{landmarks, of_hump, planes, speeds};
use crate::boat::degrees;
use crate::document::{Piece, Sentence, said};
use crate::doubt::DutiesDoubt;
use crate::flag::Flag;
use crate::tell::short_form::{NEXT, ShortForm, WHY, cut, estimated, first_table};
use crate::tell::words::speed;

/// Rows of the table by speed.
const ROWS: usize = 5;
/// Its columns: speed, the trim of the boat as described, then low, median and high.
const COLUMNS: [usize; 5] = [0, 2, 3, 4, 5];

/// How sure the run is, in short.
#[must_use]
pub fn short_form(doubted: &Doubted<'_>) -> ShortForm {
    let running = doubted.running;
    let mut form = ShortForm::default();
    let hump = running.hump_trim.as_ref();
    let row = hump.and_then(|hump| running.speeds.iter().position(|row| row.speed == hump.speed));
    let trim = row.and_then(|row| running.speeds[row].trim);
    form.asks = trim.map_or(0.0, |trim| degrees(trim.median));
    let mut told = landmarks(doubted)
        .into_iter()
        .map(|fact| Sentence::from(format!("{}: {}", fact.name, fact.value)));
    form.what.extend(told.by_ref());
    form.gist = form.what.first().cloned().unwrap_or_default();
    let counted = format!(
        "The median of {} boats drawn nearly like this one, {}, and the range that holds nine in ten.",
        running.request.draws,
        planes(doubted)
    );
    form.what.push(counted.into());
    form.table =
        first_table(speeds(doubted)).map(|table| cut(table, &COLUMNS, ROWS, row.as_slice()));
    form.point(WHY, hump.map(|hump| of_hump(running, hump).into()));
    let see = hump.filter(|_| running.seen.is_none()).map(|hump| {
        said![
            "read her trim once on the water near ",
            speed(hump.speed, doubted.units),
            ", and write it into the boat file as ",
            Piece::name("[[seen]]"),
            ": it says more than any of this."
        ]
    });
    form.point(NEXT, see);
    if let Some(seen) = &running.seen
        && seen.fit.flags.contains(Flag::SeenDoesNotFit)
    {
        form.beware.push(Piece::terminal(Flag::SeenDoesNotFit.meaning()).into());
    }
    form.beware.extend(estimated(doubted.boat, doubted.units));
    form
}

/// On how many of the boats the pair does all its duties in so many of her loadings; nothing without a pair or duties.
#[must_use]
pub fn chance_in_short(
    doubted: &Doubted<'_>,
    doubt: &DutiesDoubt,
    loadings: usize,
) -> Option<Sentence> {
    let pair = doubt.pair.filter(|_| !doubt.duties.is_empty())?;
    let own = doubt.pairs.iter().find(|own| own.pair == Some(pair))?;
    let judged =
        if doubt.is_all_judged() { "all duties" } else { "what can be judged of the duties" };
    Some(
        format!(
            "{}{} does {judged} on {:.0} in 100 boats ({} drawn){}.",
            pair.text(doubted.units),
            if doubted.boat.planes() == Some(pair) { ", as fitted," } else { "" },
            100.0 * own.all.share,
            doubt.drawn.draws,
            match loadings {
                // Her other loadings are asked about by the sizing and the papers.
                1 if !doubted.boat.conditions().is_empty() => " in this loading alone",
                _ => "",
            }
        )
        .into(),
    )
}
