//! What went in: the boat, and how well each value is known.

use uom::si::area::square_meter;
use uom::si::f64::{Angle, Length};
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::mass_density::kilogram_per_cubic_meter;

use crate::boat::measure::plain_number;
use crate::boat::{Stations, degrees};
use crate::document::{Block, Fact};
use crate::report::gather::Gathered;
use crate::tell::doubt::{Doubted, inputs};
use crate::units::number_with_decimals;

/// The boat in numbers, and the tolerances.
pub(super) fn section(gathered: &Gathered) -> Vec<Block> {
    let mut blocks = vec![Block::Section("The boat".to_owned()), Block::Facts(facts(gathered))];
    if let Some(hump) = &gathered.hump {
        let doubted = Doubted { boat: &hump.boat, running: &hump.up, units: gathered.size.units };
        blocks.extend(inputs(&doubted));
    }
    blocks
}

fn facts(gathered: &Gathered) -> Vec<Fact> {
    let (boat, units) = (gathered.boat(), gathered.size.units);
    let length = |length: Length| {
        format!("{} {}", number_with_decimals(units.length.value(length), 3), units.length.symbol())
    };
    let (hull, weight, drive, transom) = (boat.hull(), boat.weight(), boat.drive(), boat.transom());
    let several = boat.conditions().len() > 1;
    let loaded = if several { boat.condition().name.clone() } else { String::new() };
    let by_stations = |key: &str, name: &str, value: String| match boat.stations_of(key) {
        Some(_) => Fact::new(name, value).noted("from stations"),
        None => Fact::new(name, value),
    };
    let mut facts = Vec::new();
    facts.extend(hull.overall_length.map(|overall| Fact::new("Length over all", length(overall))));
    facts.extend([
        by_stations("hull.bottom_length", "Planing bottom, keel line", length(hull.bottom_length)),
        by_stations("hull.chine_beam", "Chine beam b", length(hull.chine_beam)),
        by_stations("hull.deadrise", "Deadrise β", angle(hull.deadrise, 1)),
    ]);
    facts.extend(boat.stations().map(of_stations).into_iter().flatten());
    facts.extend([
        Fact::new(
            "Mass",
            format!(
                "{} {}",
                number_with_decimals(units.mass.value(weight.mass), 0),
                units.mass.symbol()
            ),
        )
        .noted(loaded),
        Fact::new("LCG forward of the transom", length(weight.lcg)),
        Fact::new("VCG above the keel line", length(weight.vcg)),
        Fact::new("TCG to starboard", length(weight.tcg)),
        Fact::new("Top speed", crate::report::say::speed(drive.top_speed, units)),
        Fact::new(
            "Thrust line to keel line ε",
            format!("{} deg", number_with_decimals(degrees(drive.thrust_angle), 1)),
        ),
        Fact::new("Thrust line below the centre of gravity f", length(drive.thrust_offset)),
        Fact::new("Hinge above the bottom edge", length(transom.hinge_height)),
        Fact::new("Room for the span, each side", length(gathered.size.suggestion.room)),
        Fact::new(
            "Roughness allowance ΔCf",
            plain_number(gathered.size.settings.allowance_for(boat)),
        ),
        Fact::new("Lift of the bottom", gathered.size.settings.model.name())
            .noted(gathered.size.settings.model.source()),
    ]);
    facts.extend(around(gathered));
    facts
}

fn angle(angle: Angle, decimals: usize) -> String {
    format!("{} deg", number_with_decimals(degrees(angle), decimals))
}

/// The warp, and the list that it stands on.
fn of_stations(stations: &Stations) -> [Fact; 4] {
    let list = format!("{}, CRC-32 {}", stations.source(), stations.checksum());
    [
        Fact::new("Chine to keel θ", angle(stations.chine_to_keel(), 2))
            .noted("from stations, transom to mid-chine length"),
        Fact::new("Deadrise at the transom", angle(stations.transom_deadrise(), 1))
            .noted("from stations"),
        Fact::new("Deadrise gained for each beam of length", angle(stations.warp_per_beam(), 1))
            .noted("from stations, to mid-chine length"),
        Fact::new("Stations", format!("{} of {list}", stations.rows().len())),
    ]
}

/// Water, air, and the planes that the record is about.
fn around(gathered: &Gathered) -> Vec<Fact> {
    let (boat, units) = (gathered.boat(), gathered.size.units);
    let metres = |length: Length| {
        format!("{} {}", number_with_decimals(units.length.value(length), 3), units.length.symbol())
    };
    let water = boat.water();
    let density = water.density.get::<kilogram_per_cubic_meter>();
    let viscosity = water.kinematic_viscosity.get::<square_meter_per_second>();
    let mut facts = vec![
        Fact::new("Density of the water ρ", format!("{} kg/m³", number_with_decimals(density, 1))),
        Fact::new("Kinematic viscosity ν", format!("{viscosity:.3e} m²/s")),
    ];
    let drags = [
        ("Air drag area C A, at height h", boat.air()),
        ("Appendage drag area", boat.appendages()),
    ];
    for (name, drag) in drags {
        facts.extend(drag.map(|drag| {
            let area = number_with_decimals(drag.drag_area.get::<square_meter>(), 3);
            Fact::new(name, format!("{area} m², {}", metres(drag.height)))
        }));
    }
    if let Some(pair) = gathered.advised.pair() {
        facts.push(Fact::new("Pair that is computed with", format!("{} each", pair.text(units))));
        facts.push(Fact::new("Its effectiveness η", plain_number(boat.plane_effectiveness())));
    }
    facts.extend(
        boat.planes()
            .map(|pair| Fact::new("Pair fitted now", format!("{} each", pair.text(units)))),
    );
    facts
}
