//! Invented boats in plain numbers.

use planewright::balance::{Balance, Outcome, Point, Running, Settings};
use planewright::boat::{
    AirInput, AppendageInput, Boat, BoatInput, DriveInput, HullInput, PlanePair, ThrustLine,
    WeightInput,
};
use uom::si::f64::{Angle, Area, Length, Mass, Velocity};
use uom::si::{angle::degree, area::square_meter, length::meter, mass::kilogram, velocity::knot};

/// A boat to be built; lengths in metres.
#[derive(Clone, Copy, Debug)]
pub struct Sketch {
    pub beam_m: f64,
    pub bottom_length_m: f64,
    pub deadrise_deg: f64,
    pub mass_kg: f64,
    pub lcg_m: f64,
    pub vcg_m: f64,
    pub thrust_angle_deg: f64,
    pub thrust_offset_m: f64,
    /// Span and chord of one plane.
    pub planes_m: Option<[f64; 2]>,
    /// Frontal area times drag coefficient, and its height.
    pub air: Option<[f64; 2]>,
    /// Drag area, and its height.
    pub appendages: Option<[f64; 2]>,
}

/// Two berths, one engine on a leg.
pub const CABIN_BOAT: Sketch = Sketch {
    beam_m: 2.25,
    bottom_length_m: 6.5,
    deadrise_deg: 18.0,
    mass_kg: 2800.0,
    lcg_m: 2.45,
    vcg_m: 0.75,
    thrust_angle_deg: 4.0,
    thrust_offset_m: 0.35,
    planes_m: Some([0.61, 0.254]),
    air: None,
    appendages: None,
};

/// A light open boat with an outboard.
pub const SKIFF: Sketch = Sketch {
    beam_m: 1.6,
    bottom_length_m: 4.2,
    deadrise_deg: 12.0,
    mass_kg: 650.0,
    lcg_m: 1.55,
    vcg_m: 0.5,
    thrust_angle_deg: 0.0,
    thrust_offset_m: 0.6,
    planes_m: Some([0.3, 0.2]),
    air: Some([0.8, 0.7]),
    appendages: None,
};

/// A heavy boat on shafts.
pub const CRUISER: Sketch = Sketch {
    beam_m: 4.2,
    bottom_length_m: 13.0,
    deadrise_deg: 20.0,
    mass_kg: 17_000.0,
    lcg_m: 5.1,
    vcg_m: 1.5,
    thrust_angle_deg: 9.0,
    thrust_offset_m: 0.9,
    planes_m: Some([1.2, 0.4]),
    air: Some([9.0, 2.6]),
    appendages: Some([0.06, -0.5]),
};

pub const ALL: [Sketch; 3] = [CABIN_BOAT, SKIFF, CRUISER];

impl Sketch {
    pub fn boat(&self) -> Boat {
        let hull = HullInput {
            bottom_length: Some(Length::new::<meter>(self.bottom_length_m)),
            chine_beam: Some(Length::new::<meter>(self.beam_m)),
            deadrise: Some(Angle::new::<degree>(self.deadrise_deg)),
            ..HullInput::default()
        };
        let weight = WeightInput::Totals {
            mass: Mass::new::<kilogram>(self.mass_kg),
            lcg: Some(Length::new::<meter>(self.lcg_m)),
            vcg: Some(Length::new::<meter>(self.vcg_m)),
            tcg: None,
        };
        let mut input = BoatInput::new("invented", hull, weight);
        input.drive = DriveInput {
            thrust_angle: Some(Angle::new::<degree>(self.thrust_angle_deg)),
            thrust_line: Some(ThrustLine::BelowCentreOfGravity(Length::new::<meter>(
                self.thrust_offset_m,
            ))),
            ..DriveInput::default()
        };
        input.planes = self.planes_m.map(|[span_m, chord_m]| PlanePair {
            span: Length::new::<meter>(span_m),
            chord: Length::new::<meter>(chord_m),
        });
        input.air = self.air.map(|[drag_area_m2, height_m]| AirInput {
            frontal_area: Area::new::<square_meter>(drag_area_m2),
            drag_coefficient: Some(1.0),
            height: Length::new::<meter>(height_m),
        });
        input.appendages = self.appendages.map(|[drag_area_m2, height_m]| AppendageInput {
            drag_area: Area::new::<square_meter>(drag_area_m2),
            height: Length::new::<meter>(height_m),
        });
        Boat::build(input).expect("the sketch is a possible boat")
    }

    pub fn balance(&self) -> Balance {
        Balance::of(&self.boat(), &Settings::default())
    }

    pub fn point(&self, speed_kn: f64, deflection_deg: f64) -> Point {
        point(&self.balance(), speed_kn, deflection_deg)
    }
}

pub fn point(balance: &Balance, speed_kn: f64, deflection_deg: f64) -> Point {
    balance
        .point(Velocity::new::<knot>(speed_kn), Angle::new::<degree>(deflection_deg))
        .expect("speed and deflection are within the bounds")
}

/// What a point that must be running does.
pub fn running(point: &Point) -> Running {
    assert_eq!(point.outcome, Outcome::Running, "{point:?}");
    point.running.expect("a running point says what it does")
}
