//! The run in short: the hump and top speed in sentences, and a few speeds.

use super::RunText;
use super::in_short::{sentences, who};
use super::second_opinion_sentence;
use super::tables::{deflection_text, or_outcome, speeds};
use crate::balance::fields;
use crate::balance::series::SecondOpinion;
use crate::balance::sweep::Set;
use crate::boat::degrees;
use crate::document::{Column, Piece, Sentence, Table, said};
use crate::tell::short_form::{NEXT, SURE, ShortForm, cut, estimated, flagged};
use crate::tell::words::{angle, speed};

/// Deflections beside each other.
const DEFLECTIONS: usize = 3;

/// The run in short, with so many speeds.
#[must_use]
pub fn short_form(run: &RunText<'_>, rows: usize) -> ShortForm {
    let mut form = ShortForm::default();
    let Some(set) = run.sets.first() else { return form };
    let hump = set.landmarks.hump.as_ref();
    form.asks = hump.and_then(|hump| hump.running).map_or(0.0, |running| degrees(running.trim));
    form.gist = gist(run, set);
    if !run.is_silent || hump.is_some() {
        form.what.push(format!("{}: {}", who(run, set), sentences(run, &set.landmarks)).into());
    }
    let table = Table { columns: columns(run), ..Table::default() };
    let all: Vec<usize> = (0..table.columns.len()).collect();
    form.table = Some(cut(table, &all, rows, at_hump(set).as_slice()));
    form.point(SURE, Some(how_sure(run, set)));
    form.point(NEXT, Some(next(run)));
    form.beware = flagged(run.flags());
    form.beware.extend(estimated(run.boat, run.units));
    form
}

/// The row nearest to the hump.
fn at_hump(set: &Set) -> Option<usize> {
    let hump = set.landmarks.hump.as_ref()?;
    let apart = |at: &usize| (set.points[*at].speed - hump.speed).value.abs();
    (0..set.points.len()).min_by(|a, b| apart(a).total_cmp(&apart(b)))
}

/// Trim at the hump and at top speed.
fn gist(run: &RunText<'_>, set: &Set) -> Sentence {
    let at = |point: &crate::balance::Point| match point.running {
        Some(running) => {
            said![angle(running.trim, 1), " of trim at ", speed(point.speed, run.units)]
        }
        None => said![point.outcome.word().to_owned(), " at ", speed(point.speed, run.units)],
    };
    let landmarks = set.landmarks.hump.iter().chain([&set.landmarks.top]);
    Sentence::joined(landmarks.map(at), ", ")
}

/// Trim by deflection, or with one deflection the resistance beside it; and how far under the porpoising limit.
fn columns(run: &RunText<'_>) -> Vec<Column> {
    let sets = &run.sets[..run.sets.len().min(DEFLECTIONS)];
    let points = &sets[0].points;
    let mut columns = vec![speeds(run, points)];
    for set in sets {
        let mut column = Column::field(&fields::TRIM, &set.points, run.units);
        let cells = column.cells.into_iter().zip(&set.points);
        column.cells = cells.map(|(cell, point)| or_outcome(cell, point)).collect();
        if sets.len() > 1 {
            column = column.in_unit(&format!("at {}", deflection_text(set)));
        }
        columns.push(column);
    }
    if sets.len() == 1 {
        columns.push(Column::field(&fields::RESISTANCE, points, run.units));
    }
    let margin = Column::field(&fields::PORPOISING_MARGIN, points, run.units).named("under limit");
    columns.push(match sets.len() {
        1 => margin,
        _ => margin.in_unit(&format!("deg, {}", deflection_text(&sets[0]))),
    });
    columns
}

/// What a tank series says at the hump, and where more of it stands.
fn how_sure(run: &RunText<'_>, set: &Set) -> Sentence {
    let series = set.landmarks.hump.as_ref().and_then(|hump| {
        let opinion = SecondOpinion::of(run.boat, run.settings, &[hump.speed]).ok()?;
        second_opinion_sentence(&opinion, hump.speed, run.units)
    });
    let mut said = series.map_or_else(Sentence::default, |series| said![series, " "]);
    said.add(said![Piece::name("planewright doubt"), " gives likely ranges."]);
    said
}

fn next(run: &RunText<'_>) -> Sentence {
    match run.boat.planes() {
        None => said![Piece::name("planewright size"), " says which planes would help, and why."],
        Some(_) => said![
            Piece::name("planewright size"),
            " says whether other planes would do better, and how to set them."
        ],
    }
}
