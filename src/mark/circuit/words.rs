//! The circuit in numbers: fuse, cable by length, tube, oil, and where the transom is drilled.

use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{Area, Length, ThermodynamicTemperature};
use uom::si::length::{foot, meter};
use uom::si::pressure::bar;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::cubic_centimeter;

use super::Circuit;
use crate::document::{Block, Column, Table};
use crate::mark::holes::HoleKind;
use crate::mark::placement::Placement;
use crate::mark::say::{Next, Say, SheetUnits};
use crate::plane::actuator::electric::{
    CABLE_TEMPERATURE_DEGC, CableRun, Electric, LOOSE_DROP, TIGHT_DROP,
};
use crate::plane::actuator::{Actuator, Hydraulic};
use crate::units::number_with_decimals;

/// Lengths of cable, one way, for which a size is told, in metres and in feet.
const LENGTHS_M: [f64; 5] = [2.0, 4.0, 6.0, 9.0, 12.0];
const LENGTHS_FT: [f64; 5] = [6.0, 12.0, 20.0, 30.0, 40.0];
/// Wire gauges that are sold.
const WIRE_GAUGES: [i32; 10] = [18, 16, 14, 12, 10, 8, 6, 4, 2, 1];

/// The section of the sheet.
pub(in crate::mark) fn blocks(placement: &Placement, say: Say) -> Vec<Block> {
    let mut blocks = vec![Block::Section("Wiring and hoses".to_owned())];
    let actuator = placement.hardware.drive.as_ref();
    if let Some(Actuator::Electric(motor)) = actuator {
        let feed = motor.on_one_feed(placement.hardware.actuators());
        blocks.push(Block::Table(cables(&feed, "Feed and return, battery to switch", say)));
        blocks.push(Block::Table(Table {
            notes: vec![cable_rule()],
            ..cables(motor, "Cable to each actuator", say)
        }));
    }
    let mut points: Vec<String> = match actuator {
        Some(Actuator::Electric(motor)) => electric(placement, motor),
        Some(Actuator::Hydraulic(cylinder)) => hydraulic(placement, cylinder, say),
        None => vec![
            "No part is chosen: fuse, cable and tube follow from its papers, or from this sheet made \
             with --stock and --part."
                .to_owned(),
        ],
    };
    points.push(format!(
        "Through the transom: {}, one for each {}; its place is that of the lead-through L.",
        hole_text(placement, say),
        if placement.hardware.has_two_tubes() {
            "of the two tubes of a cylinder"
        } else {
            "actuator"
        }
    ));
    points.push(
        "Cable and tube are led up from the lead-through before they go forward, so that water that \
         gets past a seal does not run along them; clear of fuel hoses, exhaust and steering."
            .to_owned(),
    );
    blocks.push(Block::Points(points));
    blocks
}

/// Fuse of the feed: of all actuators, or of the pump.
pub(super) fn feed_fuse_text(placement: &Placement, circuit: Circuit) -> String {
    match (&placement.hardware.drive, circuit) {
        (Some(Actuator::Electric(motor)), Circuit::Electric) => {
            format!("{}, for all", fuse_of(&motor.on_one_feed(placement.hardware.actuators())))
        }
        (_, Circuit::Electric) => "____ A, for all".to_owned(),
        (_, Circuit::Hydraulic) => "____ A, by its papers".to_owned(),
    }
}

/// Fuse of one actuator behind the switch.
pub(super) fn own_fuse_text(placement: &Placement) -> String {
    match &placement.hardware.drive {
        Some(Actuator::Electric(motor)) => fuse_of(motor),
        _ => "____ A".to_owned(),
    }
}

fn fuse_of(motor: &Electric) -> String {
    motor.fuse().map_or_else(
        |_| "as the makers state".to_owned(),
        |fuse| format!("{} A", fuse.get::<ampere>()),
    )
}

/// The tube, as far as the list describes it.
pub(super) fn tube_text(placement: &Placement, say: Say) -> String {
    match &placement.hardware.drive {
        Some(Actuator::Hydraulic(cylinder)) => {
            let tubes = if cylinder.spec().rod.is_some() { "2 tubes" } else { "tube" };
            format!("{tubes}, bore {}", say.screw(cylinder.spec().tube_bore))
        }
        _ => "tube as stated".to_owned(),
    }
}

/// The hole in the transom.
pub(super) fn hole_text(placement: &Placement, say: Say) -> String {
    let lead = placement.holes.iter().find(|hole| hole.kind == HoleKind::Lead);
    match lead.and_then(|hole| hole.drill) {
        Some(drill) => format!("hole {}, sealed", say.drill(drill, Next::Larger)),
        None => "hole as stated, sealed".to_owned(),
    }
}

fn electric(placement: &Placement, motor: &Electric) -> Vec<String> {
    let spec = motor.spec();
    let count = placement.hardware.actuators();
    let feed = motor.on_one_feed(count);
    let total = number_with_decimals(feed.spec().rated_current.get::<ampere>(), 1);
    let all = if count == 2 { "both".to_owned() } else { format!("all {count}") };
    vec![
        format!(
            "{} A at {} V and rated load for each actuator, {} A when {all} move at once. So one \
             feed, its fuse close to the battery: {}; and behind the switch a fuse for each actuator: {}. \
             No fuse is above what the cable behind it carries safely.",
            spec.rated_current.get::<ampere>(),
            spec.supply_voltage.get::<volt>(),
            total.trim_end_matches(".0"),
            fuse_of(&feed),
            fuse_of(motor)
        ),
        "The return runs back to the battery beside the feed and is as thick: two cores to the switch. \
         From the switch two cores to each actuator, which the switch changes over to reverse it; the \
         cores of an indicator come on top, by its papers."
            .to_owned(),
    ]
}

fn hydraulic(placement: &Placement, cylinder: &Hydraulic, say: Say) -> Vec<String> {
    let spec = cylinder.spec();
    let count = placement.hardware.actuators();
    let oil = cylinder.oil_to_extend().get::<cubic_centimeter>();
    let double =
        if spec.rod.is_some() { "Two tubes to each cylinder" } else { "One tube to each cylinder" };
    let rated = spec.lock_pressure.unwrap_or(spec.pump_pressure).get::<bar>();
    vec![
        format!(
            "{double}, bore {}; tube, fittings and cylinder rated for {:.0} bar at the least: the pump \
             gives {:.0} bar, and slamming raises more in a locked cylinder (`planewright loads`).",
            say.screw(spec.tube_bore),
            rated,
            spec.pump_pressure.get::<bar>()
        ),
        format!(
            "Oil for the full stroke: {} cm^3 each, {} cm^3 for all; the reservoir holds that \
             and room for warm oil.",
            number_with_decimals(oil, 1),
            number_with_decimals(oil * f64::from(count), 0)
        ),
        "Fuse and cable of the pump's motor: by its papers; write them into the table below."
            .to_owned(),
    ]
}

/// Cable by its length, one way: as thick as the voltage lost asks, and no thinner than carries the
/// fuse.
fn cables(motor: &Electric, what: &str, say: Say) -> Table {
    let least = motor.copper_for_fuse().ok();
    let size = |length: Length, drop: f64| {
        let run = CableRun {
            one_way_length: length,
            allowed_drop: drop,
            conductor_temperature: ThermodynamicTemperature::new::<degree_celsius>(
                CABLE_TEMPERATURE_DEGC,
            ),
        };
        let size = motor.cable(&run).ok().zip(least);
        size.map_or_else(
            || "-".to_owned(),
            |(size, least)| copper(size.needed.max(least), size.nominal.max(least), say),
        )
    };
    let lengths: Vec<(Length, String)> = match say.0 {
        SheetUnits::Inches => LENGTHS_FT
            .iter()
            .map(|&feet| (Length::new::<foot>(feet), format!("{feet} ft")))
            .collect(),
        SheetUnits::Millimetres | SheetUnits::Both => LENGTHS_M
            .iter()
            .map(|&metres| (Length::new::<meter>(metres), format!("{metres} m")))
            .collect(),
    };
    let column = |drop: f64| lengths.iter().map(|(length, _)| size(*length, drop)).collect();
    let names = lengths.iter().map(|(_, name)| name.clone()).collect();
    let head = |drop: f64| format!("{:.0} % lost", 100.0 * drop);
    Table {
        title: format!("{what}, by the whole length from battery to actuator, one way"),
        columns: vec![
            Column::words("length", names),
            Column::words(&head(TIGHT_DROP), column(TIGHT_DROP)),
            Column::words(&head(LOOSE_DROP), column(LOOSE_DROP)),
        ],
        ..Table::default()
    }
}

fn cable_rule() -> String {
    format!(
        "Each is as thick as if it ran the whole length, so that both together lose no more, wherever \
         the switch is. By the voltage that is lost, copper at {CABLE_TEMPERATURE_DEGC:.0} degC; never \
         thinner than carries its fuse: single cables, insulation for 60 degC, outside engine spaces \
         (ISO 10133, from memory). Bundled, or in an engine space, it carries less: the tables of the \
         standard that holds where the boat lives (ISO 13297 or the national one) come first."
    )
}

fn copper(needed: Area, nominal: Area, say: Say) -> String {
    let metric = number_with_decimals(nominal.get::<square_millimeter>(), 2);
    let metric = format!("{} mm^2", metric.trim_end_matches('0').trim_end_matches('.'));
    let gauge = wire_gauge(needed).map_or_else(|| "-".to_owned(), |gauge| format!("{gauge} AWG"));
    match say.0 {
        SheetUnits::Millimetres => metric,
        SheetUnits::Inches => gauge,
        SheetUnits::Both => format!("{metric} ({gauge})"),
    }
}

/// The thinnest wire gauge with so much copper: diameters `0.127 mm x 92^((36 - n)/39)` (ASTM B258).
fn wire_gauge(needed: Area) -> Option<i32> {
    let area_mm2 = |gauge: i32| {
        let diameter_mm = 0.127 * 92_f64.powf(f64::from(36 - gauge) / 39.0);
        0.25 * std::f64::consts::PI * diameter_mm * diameter_mm
    };
    WIRE_GAUGES.into_iter().find(|&gauge| area_mm2(gauge) >= needed.get::<square_millimeter>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published_wire_gauges_have_their_copper() {
        // ASTM B258, from memory: 12 AWG is 3.31 mm^2, 10 AWG 5.26, 16 AWG 1.31.
        let gauge = |area_mm2| wire_gauge(Area::new::<square_millimeter>(area_mm2));
        assert_eq!(gauge(3.30), Some(12));
        assert_eq!(gauge(3.32), Some(10));
        assert_eq!(gauge(5.25), Some(10));
        assert_eq!(gauge(1.30), Some(16));
        assert_eq!(gauge(1.32), Some(14));
        assert_eq!(gauge(500.0), None);
    }
}
