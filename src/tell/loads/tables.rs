//! Tables of the loads: on a plane, as far down as a part reaches, and on plate and screws.

use uom::si::f64::Velocity;
use uom::si::pressure::megapascal;

use super::gear::{finite, screw_share, strength_lines};
use super::verdict::word;
use super::{Loads, speed_text};
use crate::boat::degrees;
use crate::document::{Block, Column, Table, aligned, fixed};
use crate::stock::PartLoads;
use crate::stock::assess::{LimitedBy, PartLoadAt};

/// The load on one plane by speed and deflection; with a part also on its actuators.
#[must_use]
pub fn on_one_plane(loads: &Loads<'_>) -> Vec<Block> {
    let units = loads.units;
    let rows = &loads.found.loads;
    let of = |value: &dyn Fn(usize) -> Option<f64>| (0..rows.len()).map(value).collect::<Vec<_>>();
    let at = |i: usize| {
        let view = loads.found.part.as_ref()?;
        view.loads
            .iter()
            .find(|at| at.load.speed == rows[i].speed && at.load.deflection == rows[i].deflection)
    };
    let (force, moment) = (units.force, units.moment);
    let mut columns = vec![
        Column::numbers(
            "speed",
            units.speed.symbol(),
            fixed(&of(&|i| Some(units.speed.value(rows[i].speed))), 1),
        ),
        Column::numbers("down", "deg", fixed(&of(&|i| Some(degrees(rows[i].deflection))), 1)),
        Column::numbers(
            "load",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(rows[i].expected.force))), 3),
        ),
        Column::numbers(
            "moment",
            moment.symbol(),
            aligned(&of(&|i| Some(moment.value(rows[i].expected.hinge_moment))), 3),
        ),
        Column::numbers(
            "theory",
            moment.symbol(),
            aligned(&of(&|i| Some(moment.value(rows[i].thin_plate.hinge_moment))), 3),
        ),
    ];
    if let Some(view) = &loads.found.part {
        let push = view.gear.actuator.push();
        columns.push(Column::numbers(
            "pin",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(at(i)?.expected_push))), 3),
        ));
        columns.push(Column::numbers(
            "of push",
            "%",
            fixed(&of(&|i| Some(100.0 * (at(i)?.expected_push / push).value)), 0),
        ));
    }
    columns.push(Column::numbers(
        "design",
        force.symbol(),
        aligned(&of(&|i| Some(force.value(rows[i].design.force))), 3),
    ));
    columns.push(Column::numbers(
        "moment",
        moment.symbol(),
        aligned(&of(&|i| Some(moment.value(rows[i].design.hinge_moment))), 3),
    ));
    if let Some(view) = &loads.found.part {
        let hold = view.gear.actuator.hold();
        columns.push(Column::numbers(
            "pin",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(at(i)?.design_push))), 3),
        ));
        columns.push(Column::numbers(
            "of hold",
            "%",
            fixed(&of(&|i| Some(100.0 * (at(i)?.design_push / hold).value)), 0),
        ));
    }
    let mut meaning = "'load' and the 'moment' about the hinge line beside it are expected, 'theory' is the same moment by thin-plate theory, a cross-check; the next two are for design. Moments close the plane upward.".to_owned();
    if loads.found.part.is_some() {
        meaning.push_str(" 'pin' is the push of each actuator along its line, against what it can push and what it bears standing still. '-' is beyond the stroke.");
    }
    under("Load on one plane", columns, vec![meaning])
}

fn under(title: &str, columns: Vec<Column>, notes: Vec<String>) -> Vec<Block> {
    vec![
        Block::Section(title.to_owned()),
        Block::Table(Table { columns, notes, ..Table::default() }),
    ]
}

/// How far down the part can be put at each speed, what ends it, and what it bears as far as that is allowed; nothing for a pair that is no part.
#[must_use]
pub fn reach(loads: &Loads<'_>) -> Vec<Block> {
    let Some(view) = &loads.found.part else { return Vec::new() };
    let unit = loads.units.speed;
    let rows = &view.assessment.by_speed;
    let full = view.assessment.full_deflection;
    let numbers =
        |value: &dyn Fn(usize) -> f64| (0..rows.len()).map(|i| Some(value(i))).collect::<Vec<_>>();
    let columns = [
        Column::numbers(
            "speed",
            unit.symbol(),
            fixed(&numbers(&|i| unit.value(rows[i].load.load.speed)), 1),
        ),
        Column::numbers(
            "goes to",
            "deg",
            fixed(&numbers(&|i| degrees(rows[i].largest.deflection)), 1),
        ),
        Column::words(
            "because of",
            rows.iter().map(|at| limit_text(at.largest.limited_by).to_owned()).collect(),
        ),
        Column::numbers(
            "never beyond",
            "deg",
            fixed(&numbers(&|i| degrees(rows[i].safe.min(full))), 1),
        ),
        Column::numbers("allowed", "deg", fixed(&numbers(&|i| degrees(rows[i].allowed)), 1)),
        Column::words("there", rows.iter().map(|at| word(Some(at.load.verdict()))).collect()),
    ];
    let notes = vec![
        "'never beyond' keeps the trim at 2 deg or more and the bow from being driven under; what the actuators can do is no leave to do it. 'allowed' is the less of both, and of what the boat file says can be used; 'there' is the worst that is said of plate, screws and actuators at it.".to_owned(),
        full_deflection(loads, view),
    ];
    under("How far down it can be put", columns.into(), notes)
}

const fn limit_text(limit: LimitedBy) -> &'static str {
    match limit {
        LimitedBy::Tested => "tests end at 15 deg",
        LimitedBy::Linkage => "end of the stroke",
        LimitedBy::Actuator => "actuator can push no more",
    }
}

fn full_deflection(loads: &Loads<'_>, view: &PartLoads) -> String {
    let limits = &view.assessment.limits;
    let top = loads.boat.drive().top_speed;
    let up_to = |speed: Velocity| {
        if speed >= top {
            format!("at all speeds to top speed (it would to {})", speed_text(loads, speed))
        } else {
            format!("only up to {}", speed_text(loads, speed))
        }
    };
    format!(
        "For information, full deflection, {:.1} deg: the actuators push the plane there {}; they bear the expected load standing still {}, and the design load {}.",
        degrees(view.assessment.full_deflection),
        up_to(limits.push),
        up_to(limits.hold),
        up_to(limits.hold_design)
    )
}

/// Plate, hinge and screws of the part at the deflection allowed; nothing for a pair that is no part.
#[must_use]
pub fn strength(loads: &Loads<'_>) -> Vec<Block> {
    let Some(view) = &loads.found.part else { return Vec::new() };
    let rows: Vec<&PartLoadAt> = view.assessment.by_speed.iter().map(|at| &at.load).collect();
    let (speed, force, small) = (loads.units.speed, loads.units.force, loads.units.small_length);
    let of = |value: &dyn Fn(usize) -> Option<f64>| (0..rows.len()).map(value).collect::<Vec<_>>();
    let stress =
        |check: &crate::plane::strength::PlateCheck| Some(check.worst_stress().get::<megapascal>());
    let share = screw_share;
    let decimals = if small == crate::units::LengthUnit::Millimetre { 1 } else { 3 };
    let columns = [
        Column::numbers(
            "speed",
            speed.symbol(),
            fixed(&of(&|i| Some(speed.value(rows[i].load.speed))), 1),
        ),
        Column::numbers("down", "deg", fixed(&of(&|i| Some(degrees(rows[i].load.deflection))), 1)),
        Column::numbers("stress", "exp. MPa", fixed(&of(&|i| stress(&rows[i].expected.plate)), 0)),
        Column::numbers("stress", "MPa", fixed(&of(&|i| stress(&rows[i].design.plate)), 0)),
        Column::numbers(
            "factor",
            "",
            fixed(&of(&|i| finite(rows[i].design.plate.safety_factor)), 1),
        ),
        Column::numbers(
            "edge",
            small.symbol(),
            fixed(
                &of(&|i| Some(small.value(rows[i].design.plate.trailing_edge_deflection))),
                decimals,
            ),
        ),
        Column::numbers(
            "off",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(rows[i].design_reaction.off_transom))), 3),
        ),
        Column::numbers(
            "along",
            force.symbol(),
            aligned(&of(&|i| Some(force.value(rows[i].design_reaction.along_transom))), 3),
        ),
        Column::numbers(
            "hinge",
            "screw %",
            fixed(
                &of(&|i| {
                    share(rows[i].design.screws.hinge_holding, rows[i].design.screws.hinge_pull)
                }),
                0,
            ),
        ),
        Column::numbers(
            "bracket",
            "screw %",
            fixed(
                &of(&|i| {
                    share(rows[i].design.screws.bracket_holding, rows[i].design.screws.bracket_pull)
                }),
                0,
            ),
        ),
    ];
    let title = "Plate and screws, as far down as it is allowed";
    under(title, columns.into(), strength_lines(loads, view))
}
