//! How she runs, speed by speed, in every loading condition; and the same by the other lift model.

use uom::si::f64::Angle;

use super::budget::key_speeds;
use super::flags_of;
use crate::balance::series::SecondOpinion;
use crate::balance::sweep::sweep;
use crate::balance::{Balance, LiftModel, Point, Settings, fields};
use crate::boat::{Boat, degrees};
use crate::document::{Block, Column, Table};
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
        let swept = |(loading, rows): (usize, &Vec<crate::size::ScheduleRow>)| {
            let boat = gathered.fitted(loading)?;
            let balance = Balance::of(&boat, &gathered.size.settings);
            let speeds: Vec<_> = rows.iter().map(|row| row.speed).collect();
            let up = sweep(&balance, &speeds, Angle::default())?;
            let advised = match gathered.advised.pair() {
                None => Vec::new(),
                Some(_) => rows
                    .iter()
                    .map(|row| balance.point(row.speed, row.deflection))
                    .collect::<Result<_, _>>()?,
            };
            Ok(Swept { boat: &gathered.size.boats[loading], up, advised })
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
        let units = self.gathered.size.units;
        let mut shown = vec![
            fields::SPEED,
            fields::SPEED_COEFFICIENT,
            fields::DEFLECTION,
            fields::TRIM,
            fields::WETTED_LENGTH_RATIO,
            fields::WETTED_KEEL,
            fields::DRAFT,
            fields::RESISTANCE,
            fields::EFFECTIVE_POWER,
            fields::PLANE_LIFT,
            fields::PORPOISING_MARGIN,
        ];
        if points.iter().all(|point| degrees(point.deflection) == 0.0) {
            let of_planes = [fields::DEFLECTION.key, fields::PLANE_LIFT.key];
            shown.retain(|field| !of_planes.contains(&field.key));
        }
        let columns = shown.iter().map(|field| Column::field(field, points, units)).collect();
        let still: Vec<String> = points
            .iter()
            .filter(|point| point.running.is_none())
            .map(|point| format!("{}: {}", say::speed(point.speed, units), point.meaning()))
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
    let boat = &gathered.size.boats[gathered.main_loading()];
    let opinion = SecondOpinion::of(boat, &gathered.size.settings, &[])?;
    Ok(second_opinion(&opinion, gathered.size.units))
}

/// Trim and resistance by every lift model at the speeds that matter, planes up.
pub(super) fn lift_models(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let units = gathered.size.units;
    let loading = gathered.main_loading();
    let boat = gathered.fitted(loading)?;
    let speeds = key_speeds(gathered);
    let mut columns = vec![Column::words(
        "planes up",
        speeds
            .iter()
            .map(|(name, speed)| format!("{} {name}", say::speed(*speed, units)))
            .collect(),
    )];
    for model in LiftModel::ALL {
        let balance = Balance::of(&boat, &Settings { model, ..gathered.size.settings });
        let points = speeds
            .iter()
            .map(|&(_, speed)| balance.point(speed, Angle::default()))
            .collect::<Result<Vec<_>, _>>()?;
        for field in [fields::TRIM, fields::RESISTANCE] {
            let name = format!("{}, {}", field.label, model.name());
            columns.push(Column::field(&field, &points, units).named(&name));
        }
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
