//! Resistance before planing by the regression of Mercier & Savitsky (1973), beside what the lift models say there.

use uom::si::f64::{Angle, Force, Velocity};

use super::Run;
use super::opinions::year;
use crate::balance::{Balance, LiftModel, Outcome, PrePlaning, Settings};
use crate::boat::Fault;
use crate::cli::screen::{Screen, paragraph};
use crate::cli::table::{Column, aligned, fixed, table};
use crate::flag::Flags;

/// Steps from the lowest to the highest speed of the regression: one for each of its rows.
const STEPS: u32 = 10;

const EXPLANATION: &str = "A regression on towed models of round and hard-chined transom sterns (Mercier & Savitsky 1973, \
from memory), brought from 100000 lb to her size by the friction on her wetted area at rest. It knows neither planes nor \
centre of gravity, and answers for planes up; the lift models know no displacement. Volume Froude numbers 1 to 2.";
const WITHOUT: &str = "The file gives no hull.entrance_half_angle and hull.transom_area_ratio, so there is no opinion \
by the pre-planing regression (Mercier & Savitsky 1973).";

/// The regression for one boat, with the lift models beside it.
#[derive(Default)]
pub(super) struct Regression {
    pub(super) rows: Vec<Row>,
    pub(super) flags: Flags,
}

/// One speed, planes up.
pub(super) struct Row {
    pub(super) speed: Velocity,
    pub(super) volume_froude_number: f64,
    pub(super) resistance: Option<Force>,
    /// By each lift model, the chosen one first; none where she does not run.
    by_model: Vec<(LiftModel, Option<Force>, Outcome)>,
}

impl Regression {
    /// Without rows where the boat file does not give what the regression asks.
    pub(super) fn of(run: &Run) -> Result<Self, Fault> {
        let Some(regression) = PrePlaning::of(run.boat(), &run.settings) else {
            return Ok(Self::default());
        };
        let [from, to] = regression.speeds();
        let models =
            std::iter::once(run.settings.model).chain(run.opinions.iter().map(|o| o.model));
        let balances: Vec<_> = models
            .map(|model| (model, Balance::of(run.boat(), &Settings { model, ..run.settings })))
            .collect();
        let row = |step: u32| {
            // A hair inside, so that no rounding leaves the range.
            let share = (f64::from(step) / f64::from(STEPS)).clamp(1e-9, 1.0 - 1e-9);
            let speed = from + (to - from) * share;
            let by_model = balances.iter().map(|(model, balance)| {
                let point = balance.point(speed, Angle::default())?;
                Ok((*model, point.running.map(|r| r.resistance), point.outcome))
            });
            Ok(Row {
                speed,
                volume_froude_number: (speed / from).value,
                resistance: regression.resistance(speed),
                by_model: by_model.collect::<Result<_, Fault>>()?,
            })
        };
        let rows = (0..=STEPS).map(row).collect::<Result<_, Fault>>()?;
        Ok(Self { rows, flags: regression.flags() })
    }
}

/// The table, or why there is none.
pub(super) fn report(run: &Run, screen: Screen) -> String {
    let rows = &run.pre_planing.rows;
    if rows.is_empty() {
        return format!("\n{}", paragraph("  ", WITHOUT));
    }
    let (speed, force) = (run.units.speed, run.units.force);
    let each = |value: &dyn Fn(&Row) -> Option<f64>| rows.iter().map(value).collect::<Vec<_>>();
    let froude = each(&|row| Some(row.volume_froude_number));
    let speeds = each(&|row| Some(speed.value(row.speed)));
    let regression = each(&|row| row.resistance.map(|r| force.value(r)));
    let mut columns = vec![
        Column::numbers("F-vol", "", fixed(&froude, 1)),
        Column::numbers("speed", speed.symbol(), fixed(&speeds, 1)),
        Column::numbers("resist.\nregression", force.symbol(), aligned(&regression, 4)),
    ];
    for (place, (model, ..)) in rows[0].by_model.iter().enumerate() {
        let numbers = each(&|row| row.by_model[place].1.map(|r| force.value(r)));
        let cells = aligned(&numbers, 4)
            .into_iter()
            .zip(rows)
            .map(|(cell, row)| super::opinions::or_short(cell, row.by_model[place].2));
        let head = format!("resist.\n{}", year(*model));
        columns.push(Column::numbers(&head, force.symbol(), cells.collect()));
    }
    let title = "Before planing, planes up: a third opinion on the resistance";
    let mut text = format!("\n{}\n", screen.heading(title));
    text.push_str(&table(&columns, screen));
    text.push_str(&paragraph("  ", EXPLANATION));
    text
}
