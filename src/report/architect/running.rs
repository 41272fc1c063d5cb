//! How she runs, speed by speed, in every loading condition; and the same by the other lift model.

use uom::si::f64::Angle;

use super::budget::key_speeds;
use super::flags_of;
use crate::balance::series::SecondOpinion;
use crate::balance::sweep::sweep;
use crate::balance::{Balance, LiftModel, Point, Running, Settings};
use crate::boat::{Boat, degrees};
use crate::document::{Block, Column, Table, aligned, fixed};
use crate::flag::Flags;
use crate::report::gather::Gathered;
use crate::report::{ReportError, say};
use crate::tell::run::second_opinion;

/// One loading condition: planes up, and as advised.
struct Swept<'a> {
    boat: &'a Boat,
    up: Vec<Point>,
    advised: Vec<Point>,
}

/// The tables of all conditions.
pub(super) struct Tables<'a> {
    gathered: &'a Gathered,
    all: Vec<Swept<'a>>,
}

impl<'a> Tables<'a> {
    pub fn of(gathered: &'a Gathered) -> Result<Self, ReportError> {
        let swept = |(place, rows): (usize, &Vec<crate::size::ScheduleRow>)| {
            let boat = gathered.fitted(place)?;
            let balance = Balance::of(&boat, &gathered.settings);
            let speeds: Vec<_> = rows.iter().map(|row| row.speed).collect();
            let up = sweep(&balance, &speeds, Angle::default())?;
            let advised = match gathered.advised.pair() {
                None => Vec::new(),
                Some(_) => rows
                    .iter()
                    .map(|row| balance.point(row.speed, row.deflection))
                    .collect::<Result<_, _>>()?,
            };
            Ok(Swept { boat: &gathered.boats[place], up, advised })
        };
        let all = gathered.schedules.iter().enumerate().map(swept);
        Ok(Self { gathered, all: all.collect::<Result<_, ReportError>>()? })
    }

    pub fn flags(&self) -> Flags {
        flags_of(self.all.iter().flat_map(|swept| swept.up.iter().chain(&swept.advised)))
    }

    pub fn section(&self) -> Vec<Block> {
        let mut blocks = vec![Block::Section("How she runs, speed by speed".to_owned())];
        for swept in &self.all {
            let name = format!("{}, planes up", loaded(swept.boat));
            blocks.push(Block::Table(self.table(name, &swept.up)));
            if !swept.advised.is_empty() {
                let name = format!("{}, planes as advised", loaded(swept.boat));
                blocks.push(Block::Table(self.table(name, &swept.advised)));
            }
        }
        blocks
    }

    fn table(&self, title: String, points: &[Point]) -> Table {
        let units = self.gathered.units;
        let of = |value: &dyn Fn(&Running) -> f64| -> Vec<Option<f64>> {
            points.iter().map(|point| point.running.as_ref().map(value)).collect()
        };
        let every = |value: &dyn Fn(&Point) -> f64| -> Vec<Option<f64>> {
            points.iter().map(|point| Some(value(point))).collect()
        };
        let (force, length) = (units.force, units.length);
        let mut columns = vec![
            Column::numbers(
                "speed",
                units.speed.symbol(),
                fixed(&every(&|p| units.speed.value(p.speed)), 1),
            ),
            Column::numbers("Cv", "", fixed(&every(&|p| p.speed_coefficient), 2)),
            Column::numbers("planes", "deg", fixed(&every(&|p| degrees(p.deflection)), 1)),
            Column::numbers("trim", "deg", fixed(&of(&|r| degrees(r.trim)), 2)),
            Column::numbers("λ", "beams", fixed(&of(&|r| r.wetted_length_ratio), 2)),
            Column::numbers(
                "keel wet",
                length.symbol(),
                fixed(&of(&|r| length.value(r.wetted_keel)), 2),
            ),
            Column::numbers("draft", length.symbol(), fixed(&of(&|r| length.value(r.draft)), 2)),
            Column::numbers(
                "resistance",
                force.symbol(),
                aligned(&of(&|r| force.value(r.resistance)), 4),
            ),
            Column::numbers(
                "eff. power",
                units.power.symbol(),
                aligned(&of(&|r| units.power.value(r.effective_power)), 4),
            ),
            Column::numbers(
                "plane lift",
                force.symbol(),
                aligned(&of(&|r| force.value(r.plane_lift)), 4),
            ),
            Column::numbers(
                "under porpoising",
                "deg",
                fixed(&of(&|r| degrees(r.porpoising_margin())), 1),
            ),
        ];
        if points.iter().all(|point| degrees(point.deflection) == 0.0) {
            columns.retain(|column| column.name != "planes" && column.name != "plane lift");
        }
        let still: Vec<String> = points
            .iter()
            .filter(|point| point.running.is_none())
            .map(|point| format!("{}: {}", say::speed(point.speed, units), point.outcome.meaning()))
            .collect();
        Table { title, columns, strong: None, notes: still }
    }
}

fn loaded(boat: &Boat) -> String {
    if boat.conditions().len() > 1 {
        format!("Loaded “{}”", boat.condition().name)
    } else {
        boat.name().to_owned()
    }
}

/// What a tank series says beside the equations, in the condition that sets the size, planes up.
pub(super) fn tank_series(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let boat = &gathered.boats[gathered.main_place()];
    let opinion = SecondOpinion::of(boat, &gathered.settings, &[])?;
    Ok(second_opinion(&opinion, gathered.units))
}

/// Trim and resistance by every lift model at the speeds that matter, planes up.
pub(super) fn lift_models(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let units = gathered.units;
    let place = gathered.main_place();
    let boat = gathered.fitted(place)?;
    let speeds = key_speeds(gathered);
    let mut columns = vec![Column::words(
        "planes up",
        speeds
            .iter()
            .map(|(name, speed)| format!("{} {name}", say::speed(*speed, units)))
            .collect(),
    )];
    for model in LiftModel::ALL {
        let balance = Balance::of(&boat, &Settings { model, ..gathered.settings });
        let points = speeds
            .iter()
            .map(|&(_, speed)| balance.point(speed, Angle::default()))
            .collect::<Result<Vec<_>, _>>()?;
        let of = |value: &dyn Fn(&Running) -> f64| -> Vec<Option<f64>> {
            points.iter().map(|point| point.running.as_ref().map(value)).collect()
        };
        let name = model.name();
        columns.push(Column::numbers(
            &format!("trim, {name}"),
            "deg",
            fixed(&of(&|r| degrees(r.trim)), 2),
        ));
        columns.push(Column::numbers(
            &format!("resistance, {name}"),
            units.force.symbol(),
            aligned(&of(&|r| units.force.value(r.resistance)), 4),
        ));
    }
    Ok(vec![
        Block::Section("Third opinion: another theory of the lift".to_owned()),
        Block::Table(Table {
            columns,
            notes: vec![format!(
                "{}. Two theories that differ are two answers; the distance between them is what the theory alone is worth, and the answer stays that of the first.",
                LiftModel::ALL
                    .map(|model| format!("{}: {}", model.name(), model.source()))
                    .join("; ")
            )],
            ..Table::default()
        }),
    ])
}
