//! What moves and holds a part: actuator, stroke, and what the strength table says.

use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{Force, ThermodynamicTemperature, Time};
use uom::si::length::meter;
use uom::si::pressure::bar;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::second;
use uom::si::volume::cubic_centimeter;

use super::verdict::up_to;
use super::{Loads, section};
use crate::boat::degrees;
use crate::document::{Block, Column, Table, aligned, fixed};
use crate::plane::actuator::electric::{
    CABLE_TEMPERATURE_DEGC, CableRun, Electric, LOOSE_DROP, TIGHT_DROP,
};
use crate::plane::actuator::{Actuator, Hydraulic};
use crate::plane::strength::Support;
use crate::plane::strength::fastening::ScrewHolding;
use crate::stock::PartLoads;
use crate::units::{LengthUnit, number_with_decimals};

/// A number that a table or JSON can hold.
pub(crate) fn finite(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

/// Pull over safe holding, per cent; none where the transom is not covered.
pub(super) fn screw_share(holding: ScrewHolding, pull: Force) -> Option<f64> {
    match holding {
        ScrewHolding::Covered { safe, .. } => finite(100.0 * (pull / safe).value),
        ScrewHolding::NotCovered { .. } => None,
    }
}

fn seconds(time: Time) -> String {
    format!("{} s", number_with_decimals(time.get::<second>(), 1))
}

fn force_text(loads: &Loads<'_>, force: Force) -> String {
    let unit = loads.units.force;
    format!("{} {}", number_with_decimals(unit.value(force), 0), unit.symbol())
}

/// What moves the part; nothing for a pair that is no part.
#[must_use]
pub fn actuator(loads: &Loads<'_>) -> Vec<Block> {
    let Some(view) = &loads.found.part else { return Vec::new() };
    let actuator = &view.gear.actuator;
    let count = if view.gear.actuators == 1 { "One actuator" } else { "Two actuators" };
    let rating = if actuator.has_holding_rating() {
        ""
    } else {
        " (no rating given, so the push stands for it)"
    };
    let back = match actuator.time_to_retract() {
        Some(time) => format!("back in {}", seconds(time)),
        None => "back by the water or a spring, at no set rate".to_owned(),
    };
    let mut lines = vec![format!(
        "{count} on each plane: pushes {}, bears {} standing still{rating}. The full stroke takes {} out, {back}.",
        force_text(loads, actuator.push()),
        force_text(loads, actuator.hold()),
        seconds(actuator.time_to_extend())
    )];
    match actuator {
        Actuator::Hydraulic(cylinder) => lines.extend(hydraulic(view, cylinder)),
        Actuator::Electric(motor) => lines.extend(electric(loads, view, motor)),
    }
    section("What moves it", lines)
}

fn hydraulic(view: &PartLoads, cylinder: &Hydraulic) -> Vec<String> {
    let spec = cylinder.spec();
    let volume = |v: uom::si::f64::Volume| number_with_decimals(v.get::<cubic_centimeter>(), 1);
    let back = cylinder
        .oil_to_retract()
        .map_or(String::new(), |oil| format!(", {} cm^3 back", volume(oil)));
    let loss = cylinder.tube_loss();
    let law =
        if loss.laminar { "laminar" } else { "NOT laminar, so that the loss is larger than this" };
    let pushes = view.assessment.by_speed.iter().map(|at| at.load.design_push);
    let most = pushes.fold(Force::default(), Force::max);
    let trapped = cylinder.trapped_pressure(most);
    let rated = spec.lock_pressure.map_or(String::new(), |lock| {
        let word = if trapped > lock { "ABOVE" } else { "within" };
        format!(
            ", {word} the {:.0} bar that lock valve, hose and cylinder are rated for",
            lock.get::<bar>()
        )
    });
    vec![
        format!(
            "Oil for each: {} cm^3 out{back}; the reservoir must hold it for all, with room for warm oil.",
            volume(cylinder.oil_to_extend())
        ),
        format!(
            "The tube loses {} bar of the pump's {:.0} bar while the plane moves (Reynolds number {:.0}, {law}); cold oil may lose ten times as much and the plane then moves slowly. At rest nothing is lost.",
            number_with_decimals(loss.pressure.get::<bar>(), 1),
            spec.pump_pressure.get::<bar>(),
            loss.reynolds
        ),
        format!(
            "The largest design load in the table below raises {:.0} bar in the locked cylinder{rated}.",
            trapped.get::<bar>()
        ),
    ]
}

fn electric(loads: &Loads<'_>, view: &PartLoads, motor: &Electric) -> Vec<String> {
    let spec = motor.spec();
    let fuse = match motor.fuse() {
        Ok(fuse) => format!("a fuse of {} A for each, close to the battery", fuse.get::<ampere>()),
        Err(error) => format!("{error}"),
    };
    let total = spec.rated_current.get::<ampere>() * f64::from(2 * view.gear.actuators);
    vec![
        format!(
            "{} A at {} V and rated load for each, {} A when all move at once; {fuse}.",
            spec.rated_current.get::<ampere>(),
            spec.supply_voltage.get::<volt>(),
            number_with_decimals(total, 1)
        ),
        format!(
            "Cable of {} one way, copper at {CABLE_TEMPERATURE_DEGC:.0} degC: {}; {}. By voltage drop alone: the cable must also carry the fuse's current by the tables of the standard that holds where the boat lives (ISO 13297 or the national one), and a qualified person should check it.",
            length_text(loads),
            cable(loads, motor, TIGHT_DROP),
            cable(loads, motor, LOOSE_DROP)
        ),
    ]
}

fn length_text(loads: &Loads<'_>) -> String {
    let unit = loads.units.length;
    format!("{} {}", number_with_decimals(unit.value(loads.cable_length), 1), unit.symbol())
}

fn cable(loads: &Loads<'_>, motor: &Electric, allowed_drop: f64) -> String {
    let run = CableRun {
        one_way_length: loads.cable_length,
        allowed_drop,
        conductor_temperature: ThermodynamicTemperature::new::<degree_celsius>(
            CABLE_TEMPERATURE_DEGC,
        ),
    };
    match motor.cable(&run) {
        Ok(size) => format!(
            "{} mm^2 for a drop of at most {:.0} % ({} V)",
            size.nominal.get::<square_millimeter>(),
            100.0 * allowed_drop,
            number_with_decimals(size.drop.get::<volt>(), 2)
        ),
        Err(error) => error.to_string(),
    }
}

/// Stroke against deflection; nothing for a pair that is no part.
#[must_use]
pub fn stroke(loads: &Loads<'_>) -> Vec<Block> {
    let Some(view) = &loads.found.part else { return Vec::new() };
    let small = loads.units.small_length;
    let decimals = if small == LengthUnit::Millimetre { 1 } else { 2 };
    let rows = &view.stroke;
    let of =
        |value: &dyn Fn(usize) -> f64| (0..rows.len()).map(|i| Some(value(i))).collect::<Vec<_>>();
    let pin = small.symbol();
    let full = rows.last().map_or(0.0, |row| row.extension.get::<meter>());
    let columns = [
        Column::numbers(
            "extended",
            "%",
            fixed(&of(&|i| 100.0 * rows[i].extension.get::<meter>() / full), 0),
        ),
        Column::numbers("extended", pin, fixed(&of(&|i| small.value(rows[i].extension)), decimals)),
        Column::numbers(
            "pin to pin",
            pin,
            fixed(&of(&|i| small.value(rows[i].pin_to_pin)), decimals),
        ),
        Column::numbers("deflection", "deg", fixed(&of(&|i| degrees(rows[i].deflection)), 1)),
        Column::numbers("lever", pin, aligned(&of(&|i| small.value(rows[i].lever)), 3)),
    ];
    let touching = degrees(view.assessment.touching);
    let band = match view.touching_extension {
        Some(extension) => format!(
            "The trailing edge reaches the extended bottom line at {touching:.1} deg, {} {pin} out: up to there the plane does next to nothing.",
            number_with_decimals(small.value(extension), decimals)
        ),
        None => format!(
            "The trailing edge reaches the extended bottom line at {touching:.1} deg, which this stroke does not stop at: raised it stands at {:.1} deg.",
            degrees(view.assessment.raised)
        ),
    };
    let meaning = "Deflection is from the plate parallel to the bottom, trailing edge down. 'lever' is how far the actuator's line passes from the hinge: moment over lever is push. Set an indicator by these pairs.";
    vec![
        Block::Section("Stroke and deflection".to_owned()),
        Block::Table(Table {
            columns: columns.into(),
            notes: vec![band, meaning.to_owned()],
            ..Table::default()
        }),
    ]
}

/// What the strength table shows, and what it does not.
pub(super) fn strength_lines(loads: &Loads<'_>, view: &PartLoads) -> Vec<String> {
    let limits = &view.assessment.limits;
    let up_to = |speed| up_to(loads, speed);
    let screws = match limits.screws {
        Some(speed) => format!("the screws keep theirs {}", up_to(speed)),
        None => "the screws are not covered".to_owned(),
    };
    let mut lines = vec![
        "'exp.' is under the expected load, all else under the design load. 'factor' is limit stress over stress. 'edge' is how far the trailing edge bends up. 'off' and 'along' are the force of the plane on its hinge, square to the transom and up it. 'screw %' is the pull on each screw of what it holds safely.".to_owned(),
        format!("For information, at full deflection, {:.1} deg, under the design load: the plate keeps its safety factor {}; {screws}.", degrees(view.assessment.full_deflection), up_to(limits.plate)),
    ];
    let loads_at = view.assessment.by_speed.iter().map(|at| &at.load);
    if let Some(at) = loads_at.max_by(|a, b| {
        a.design.plate.needed_thickness.value.total_cmp(&b.design.plate.needed_thickness.value)
    }) {
        let small = loads.units.small_length;
        let length = |value| {
            format!(
                "{} {}",
                number_with_decimals(
                    small.value(value),
                    if small == LengthUnit::Millimetre { 1 } else { 3 }
                ),
                small.symbol()
            )
        };
        lines.push(format!(
            "A flat plate that just keeps the factor over the whole table is {} thick; this one is {}. Folds and ribs stiffen a plate and are not credited along the chord.",
            length(at.design.plate.needed_thickness),
            length(view.gear.thickness)
        ));
        if matches!(view.gear.support, Support::MiddleBracket { .. }) {
            lines.push(format!(
                "Its ends bend up by {} beyond the bracket at most.",
                length(at.design.plate.side_deflection)
            ));
        }
        match at.design.screws.hinge_holding {
            ScrewHolding::NotCovered { advice } => lines.push(format!("Screws: {advice}.")),
            ScrewHolding::Covered { safe, .. } => lines.push(format!(
                "Each hinge screw holds {} safely in wood (ultimate, wet, over the factor). Solid laminate, foam cores and metal are NOT COVERED by this: --transom says so.",
                force_text(loads, safe)
            )),
        }
    }
    lines
}
