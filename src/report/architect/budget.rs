//! Every force at the speeds that matter, where it acts and its moment.

use uom::si::f64::{Angle, Force, Velocity};

use crate::balance::{Balance, Budget, Running};
use crate::document::{Block, Column, Table, aligned, fixed};
use crate::report::gather::Gathered;
use crate::report::{ReportError, say};
use crate::size::ScheduleRow;
use crate::units::number_with_decimals;

/// The speeds that matter, each with its name.
pub(super) fn key_speeds(gathered: &Gathered) -> Vec<(&'static str, Velocity)> {
    let drive = gathered.boat().drive();
    let mut speeds = Vec::new();
    speeds.extend(gathered.hump.as_ref().map(|hump| ("at the hump", hump.speed)));
    speeds.push(("at cruise", drive.cruise()));
    speeds.push(("at top speed", drive.top_speed));
    speeds
}

/// One table for each of them, with the planes as advised there.
pub(super) fn section(gathered: &Gathered) -> Result<Vec<Block>, ReportError> {
    let loading = gathered.main_loading();
    let boat = gathered.fitted(loading)?;
    let balance = Balance::of(&boat, &gathered.size.settings);
    let several = gathered.size.boats.len() > 1;
    let mut blocks = vec![
        Block::Section("Force budget".to_owned()),
        Block::Paragraph(format!(
            "Every force on the boat{}, from the forward equations and not from the solver's elimination, so that its sums check the solution. Forces forward and up, points of action forward of the transom along the keel and above the keel line, moments about the centre of gravity, positive bow down.",
            say::loaded(&boat, several)
        )),
    ];
    for (name, speed) in key_speeds(gathered) {
        let deflection = match (
            gathered.advised.pair(),
            ScheduleRow::nearest(&gathered.schedules[loading], speed),
        ) {
            (Some(_), Some(row)) => row.deflection,
            _ => Angle::default(),
        };
        let point = balance.point(speed, deflection)?;
        let at = say::speed(speed, gathered.size.units);
        let planes = match gathered.advised.pair() {
            Some(_) => format!(", planes {} down", say::angle(deflection)),
            None => String::new(),
        };
        let title = format!("{} {name}{planes}", at);
        blocks.push(match (balance.budget(&point), point.running) {
            (Some(budget), Some(running)) => Block::Table(table(
                gathered,
                format!("{title}: trim {}", say::angle(running.trim)),
                &budget,
                &running,
            )),
            _ => Block::Paragraph(format!("{title}: {}", point.meaning())),
        });
    }
    Ok(blocks)
}

/// Wetted lengths, and what the correction near the hump adds outside the balance.
fn beside(gathered: &Gathered, budget: &Budget, running: &Running) -> String {
    let units = gathered.size.units;
    let length = |length| format!("{:.2} {}", units.length.value(length), units.length.symbol());
    let force = |force| {
        let value = units.force.value(force);
        let decimals = if value.abs() < 100.0 { 2 } else { 0 };
        format!("{} {}", number_with_decimals(value, decimals), units.force.symbol())
    };
    let wetted = format!(
        "Mean wetted length {:.3} beams, keel {}, chine {}.",
        running.wetted_length_ratio,
        length(running.wetted_keel),
        length(running.wetted_chine)
    );
    let zero = Force::default();
    let against = budget.contributions.iter().map(|c| c.forward).filter(|&f| f < zero);
    let added = running.resistance + against.fold(zero, |sum, force| sum + force);
    if added.value < 1.0 {
        return wetted;
    }
    format!(
        "{wetted} The resistance in the tables is {}: {} more than balances the thrust here, the correction near the hump.",
        force(running.resistance),
        force(added)
    )
}

fn table(gathered: &Gathered, title: String, budget: &Budget, running: &Running) -> Table {
    let units = gathered.size.units;
    let all = &budget.contributions;
    let boat = &gathered.size.boats[gathered.main_loading()];
    let left = budget.residual(boat.weight().force(), boat.hull().chine_beam);
    let forces = |value: &dyn Fn(&crate::balance::Contribution) -> f64| {
        aligned(&all.iter().map(|c| Some(value(c))).collect::<Vec<_>>(), 5)
    };
    let lengths = |value: &dyn Fn(&crate::balance::Contribution) -> f64| {
        fixed(&all.iter().map(|c| Some(value(c))).collect::<Vec<_>>(), 3)
    };
    let (force, length, moment) = (units.force, units.length, units.moment);
    Table {
        title,
        columns: vec![
            Column::words("force", all.iter().map(|c| c.name.to_owned()).collect()),
            Column::numbers("forward", force.symbol(), forces(&|c| force.value(c.forward))),
            Column::numbers("up", force.symbol(), forces(&|c| force.value(c.up))),
            Column::numbers(
                "acts forward",
                length.symbol(),
                lengths(&|c| length.value(c.acts_forward)),
            ),
            Column::numbers(
                "acts above",
                length.symbol(),
                lengths(&|c| length.value(c.acts_above_keel)),
            ),
            Column::numbers(
                "moment",
                moment.symbol(),
                forces(&|c| moment.value(c.moment_bow_down)),
            ),
            Column::words("source", all.iter().map(|c| c.source.to_owned()).collect()),
        ],
        strong: None,
        notes: vec![
            beside(gathered, budget, running),
            format!(
                "Left over: {:.1e} of the weight along the course and vertically, {:.1e} of weight x beam in pitch.",
                left.along_course.abs().max(left.vertical.abs()),
                left.moment.abs()
            ),
        ],
    }
}
