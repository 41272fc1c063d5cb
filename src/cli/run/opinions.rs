//! The same points by each lift model: how far the answers lie apart for the theory alone.

use uom::si::f64::Force;

use super::notes::Letters;
use super::text::deflection_text;
use super::{Run, Set};
use crate::balance::sweep::sweep;
use crate::balance::{Balance, LiftModel, Method, Outcome, Point, Running, Settings};
use crate::boat::{Fault, degrees};
use crate::cli::screen::{Screen, paragraph};
use crate::cli::table::{Column, aligned, fixed, table};
use crate::flag::Flags;
use crate::units::number_with_decimals;

const EXPLANATION: &str = "Each model is another theory of what the bottom lifts and where; friction, planes, hump factor \
and all else are the same. Neither is the truth: where they lie far apart, a number from one of them is worth no more \
than the distance to the other. Both may be off together, and the distance says nothing of a wrong weight or centre of \
gravity. Shuford's equations are from memory, and where their parts act is unsure.";

/// The points by another lift model than the one chosen.
pub(super) struct Opinion {
    pub(super) model: LiftModel,
    /// For each deflection: the points by speed.
    pub(super) sets: Vec<Vec<Point>>,
}

impl Opinion {
    /// What every other model says about the points of some sets.
    pub(super) fn all(run: &Run) -> Result<Vec<Self>, Fault> {
        if run.settings.method != Method::Full {
            return Err(Fault {
                key: "run.models".to_owned(),
                problem: "the 1964 cases know only the lift of their own paper".to_owned(),
                remedy: "use the full method, or leave out --models".to_owned(),
            });
        }
        let others = LiftModel::ALL.into_iter().filter(|&model| model != run.settings.model);
        others.map(|model| Self::of(run, model)).collect()
    }

    fn of(run: &Run, model: LiftModel) -> Result<Self, Fault> {
        let balance = Balance::of(run.boat(), &Settings { model, ..run.settings });
        let again = |set: &Set| {
            let speeds: Vec<_> = set.points.iter().map(|point| point.speed).collect();
            sweep(&balance, &speeds, set.deflection)
        };
        Ok(Self { model, sets: run.sets.iter().map(again).collect::<Result<_, _>>()? })
    }
}

/// How far the models lie apart at a point; none where one of them does not run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spread {
    pub(super) trim_deg: f64,
    pub(super) wetted_length_ratio: f64,
    pub(super) resistance: Force,
    /// Over the mean of the models.
    pub(super) resistance_share: f64,
}

impl Spread {
    /// Largest less least over the models.
    pub(super) fn of(points: &[&Point]) -> Option<Self> {
        let running: Vec<Running> = points.iter().map(|p| p.running).collect::<Option<_>>()?;
        let apart = |value: &dyn Fn(&Running) -> f64| {
            let values = running.iter().map(value);
            let [least, most] = values
                .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| {
                    [low.min(x), high.max(x)]
                });
            most - least
        };
        let newtons = |r: &Running| r.resistance.value;
        let mean = running.iter().map(newtons).sum::<f64>() / running.len() as f64;
        let resistance_n = apart(&newtons);
        Some(Self {
            trim_deg: apart(&|r| degrees(r.trim)),
            wetted_length_ratio: apart(&|r| r.wetted_length_ratio),
            resistance: Force::new::<uom::si::force::newton>(resistance_n),
            resistance_share: resistance_n / mean,
        })
    }
}

/// The points of one deflection by every model, the chosen one first.
pub(super) struct Beside<'a> {
    models: Vec<(LiftModel, &'a [Point])>,
}

impl<'a> Beside<'a> {
    pub(super) fn of(run: &'a Run, place: usize) -> Self {
        let chosen = (run.settings.model, run.sets[place].points.as_slice());
        let others = run.opinions.iter().map(|o| (o.model, o.sets[place].as_slice()));
        Self { models: std::iter::once(chosen).chain(others).collect() }
    }

    /// One spread for each speed.
    pub(super) fn spreads(&self) -> Vec<Option<Spread>> {
        let speeds = self.models[0].1.len();
        (0..speeds)
            .map(|at| {
                let points: Vec<_> = self.models.iter().map(|(_, points)| &points[at]).collect();
                Spread::of(&points)
            })
            .collect()
    }
}

/// Every deflection by every model, and how far they lie apart.
pub(super) fn report(run: &Run, letters: &Letters, screen: Screen) -> String {
    let mut text = String::new();
    for (place, set) in run.sets.iter().enumerate() {
        let suffix = match run.boat().planes() {
            None => String::new(),
            Some(_) => format!(", planes at {}", deflection_text(set)),
        };
        let title = format!("By each lift model{suffix}");
        text.push_str(&format!("\n{}\n", screen.heading(&title)));
        let beside = Beside::of(run, place);
        text.push_str(&table(&columns(run, &beside, letters), screen));
        text.push_str(&paragraph("  ", &summary(run, &beside)));
    }
    text.push_str(&super::pre_planing::report(run, screen));
    text.push('\n');
    for model in LiftModel::ALL {
        text.push_str(&paragraph(&format!("  {}: ", year(model)), model.source()));
    }
    text.push_str(&paragraph("  ", EXPLANATION));
    text
}

fn columns(run: &Run, beside: &Beside<'_>, letters: &Letters) -> Vec<Column> {
    let spreads = beside.spreads();
    let apart = |value: &dyn Fn(&Spread) -> f64| -> Vec<Option<f64>> {
        spreads.iter().map(|spread| spread.as_ref().map(value)).collect()
    };
    let force = run.units.force;
    let mut columns = vec![super::tables::speeds(run, beside.models[0].1)];
    for (model, points) in &beside.models {
        let trims = fixed(&numbers(points, &|r| degrees(r.trim)), 2);
        let cells =
            trims.into_iter().zip(*points).map(|(cell, point)| or_short(cell, point.outcome));
        columns.push(Column::numbers(&head("trim", *model), "deg", cells.collect()));
    }
    columns.push(Column::numbers("trim\napart", "deg", fixed(&apart(&|s| s.trim_deg), 2)));
    for (model, points) in &beside.models {
        let cells = aligned(&numbers(points, &|r| force.value(r.resistance)), 4);
        columns.push(Column::numbers(&head("resist.", *model), force.symbol(), cells));
    }
    let shares = apart(&|s| 100.0 * s.resistance_share);
    columns.push(Column::numbers("resist.\napart", "%", fixed(&shares, 1)));
    for (model, points) in &beside.models {
        let cells = fixed(&numbers(points, &|r| r.wetted_length_ratio), 2);
        columns.push(Column::numbers(&head("wetted", *model), "beams", cells));
    }
    let lengths = apart(&|s| s.wetted_length_ratio);
    columns.push(Column::numbers("wetted\napart", "beams", fixed(&lengths, 2)));
    let notes = (0..spreads.len()).map(|at| {
        let each = beside.models.iter().map(|(_, points)| points[at].flags);
        let flags = each.reduce(Flags::union).unwrap_or_default();
        letters.text(flags).replace(' ', "")
    });
    columns.push(Column::words("notes", notes.collect()));
    columns.retain(|column| !column.is_blank());
    columns
}

/// What is measured over the year of the model, which is all that a narrow column has room for.
fn head(what: &str, model: LiftModel) -> String {
    format!("{what}\n{}", year(model))
}

pub(super) fn year(model: LiftModel) -> &'static str {
    model.name().rsplit(' ').next().unwrap_or_default()
}

fn numbers(points: &[Point], value: &dyn Fn(&Running) -> f64) -> Vec<Option<f64>> {
    points.iter().map(|point| point.running.as_ref().map(value)).collect()
}

/// The cell, or a short word where the boat does not run.
pub(super) fn or_short(cell: String, outcome: Outcome) -> String {
    match outcome {
        Outcome::Running => cell,
        Outcome::BowUnder => "bow under".to_owned(),
        Outcome::NoBalanceBowUp => "bow up".to_owned(),
        Outcome::BelowPlaningRange => "not yet".to_owned(),
    }
}

/// Where the models lie furthest apart.
fn summary(run: &Run, beside: &Beside<'_>) -> String {
    let spreads = beside.spreads();
    let points = beside.models[0].1;
    let widest = |value: &dyn Fn(&Spread) -> f64| {
        let each = spreads.iter().zip(points).filter_map(|(s, p)| Some((value(s.as_ref()?), p)));
        each.max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let (Some(trim), Some(resistance)) =
        (widest(&|s| s.trim_deg), widest(&|s| 100.0 * s.resistance_share))
    else {
        return "At no speed does she run by every model.".to_owned();
    };
    let unit = run.units.speed;
    let speed = |point: &Point| {
        format!("{} {}", number_with_decimals(unit.value(point.speed), 1), unit.symbol())
    };
    format!(
        "Where she runs by every model they differ by at most {} deg of trim (at {}) and {} % of resistance (at {}).",
        number_with_decimals(trim.0, 1),
        speed(trim.1),
        number_with_decimals(resistance.0, 0),
        speed(resistance.1)
    )
}
