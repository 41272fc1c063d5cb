//! Invented boats and a part.

use uom::si::angle::degree;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Angle, DynamicViscosity, Length, Mass, MassDensity, Pressure, Velocity, VolumeRate,
};
use uom::si::length::{inch, meter, millimeter};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::bar;
use uom::si::velocity::knot;
use uom::si::volume_rate::liter_per_minute;

use crate::boat::input::ObstacleInput;
use crate::boat::{Boat, BoatInput, HullInput, ObstacleKind, PlanePair, WeightInput};
use crate::plane::actuator::Actuator;
use crate::plane::actuator::hydraulic::{Hydraulic, HydraulicSpec};
use crate::plane::linkage::{LinkageDimensions, Travel};
use crate::plane::strength::{PlateMaterial, Support};
use crate::stock::{BracketScrews, Gear, HingeScrews, Part, Price, Spacing, Supply};

pub fn mm(length: f64) -> Length {
    Length::new::<millimeter>(length)
}

pub fn inches(length: f64) -> Length {
    Length::new::<inch>(length)
}

pub fn pair(span_in: f64, chord_in: f64) -> PlanePair {
    PlanePair { span: inches(span_in), chord: inches(chord_in) }
}

/// A boat with a bare transom of this bottom edge on each side, 8 in to be kept clear off the centreline and 3 1/2 in from the chine.
pub fn boat_with_edge(edge: Length, deadrise_deg: f64) -> BoatInput {
    let deadrise = Angle::new::<degree>(deadrise_deg);
    let hull = HullInput {
        bottom_length: Some(Length::new::<meter>(6.0)),
        chine_beam: Some(2.0 * edge * deadrise.cos()),
        deadrise: Some(deadrise),
        ..HullInput::default()
    };
    let weight = WeightInput::Totals {
        mass: Mass::new::<kilogram>(2400.0),
        lcg: Some(Length::new::<meter>(2.3)),
        vcg: Some(Length::new::<meter>(0.7)),
        tcg: None,
    };
    let mut input = BoatInput::new("Test boat", hull, weight);
    input.transom.inner_clearance = Some(inches(8.0));
    input.transom.outer_clearance = Some(inches(3.5));
    // Slow, so that usual screws bear the planes.
    input.drive.top_speed = Some(Velocity::new::<knot>(12.0));
    input
}

pub fn built(input: BoatInput) -> Boat {
    Boat::build(input).expect("a sound boat")
}

/// A drive leg amidships of this width, from well below the keel to 22 in above it.
pub fn drive_leg(width_in: f64) -> ObstacleInput {
    ObstacleInput {
        kind: ObstacleKind::DriveLeg,
        name: None,
        off_centre: inches(0.0),
        width: inches(width_in),
        from: inches(-10.0),
        to: inches(22.0),
        clearance: Some(inches(2.0)),
    }
}

/// A hydraulic plane of 24 by 9 in for a hinge 1/4 in up.
pub fn part() -> Part {
    let spec = HydraulicSpec {
        bore: mm(25.0),
        rod: None,
        pump_pressure: Pressure::new::<bar>(70.0),
        efficiency: 0.9,
        pump_flow: VolumeRate::new::<liter_per_minute>(0.4),
        tube_bore: mm(4.0),
        tube_length: Length::new::<meter>(5.0),
        oil_viscosity: DynamicViscosity::new::<pascal_second>(0.02),
        oil_density: MassDensity::new::<kilogram_per_cubic_meter>(870.0),
        stroke: mm(55.0),
        lock_pressure: None,
    };
    Part {
        name: "Test plane 24 x 9".to_owned(),
        span: inches(24.0),
        chord: inches(9.0),
        gear: Some(Gear {
            thickness: mm(2.5),
            material: PlateMaterial::stainless_316(),
            support: Support::WholeSpan,
            actuator: Actuator::Hydraulic(Hydraulic::new(spec).expect("sound ratings")),
            actuators: 1,
            linkage: LinkageDimensions {
                hinge_height: inches(0.25),
                upper_pin_up_transom: mm(190.0),
                upper_pin_stand_off: mm(24.0),
                lower_pin_aft: mm(150.0),
                lower_pin_above_plate: mm(14.0),
                transom_rake: Angle::new::<degree>(0.0),
            },
            travel: Travel { retracted_length: mm(212.0), stroke: mm(55.0) },
            hinge_screws: HingeScrews {
                count: 8,
                edge_distance: mm(25.0),
                spacing: Spacing::Pitch(mm(76.0)),
                row_height: mm(18.0),
                leaf_height: mm(36.0),
                pin_offset: mm(3.0),
                diameter: mm(4.8),
                length: mm(32.0),
            },
            bracket_screws: BracketScrews {
                count: 4,
                across: mm(40.0),
                up: mm(50.0),
                edge_distance: mm(12.0),
                diameter: mm(6.3),
                length: mm(38.0),
            },
            lead_through: Some(mm(8.0)),
        }),
        supply: Some(Supply::Hydraulic),
        price: Price { amount: 100.0, currency: "EUR".to_owned() },
        on_hand: Some(2),
    }
}
