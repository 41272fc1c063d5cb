//! What drives a boat, the water she runs in and the air above it, as a person knows them.

use uom::si::f64::{
    Angle, AngularVelocity, Area, KinematicViscosity, Length, MassDensity, Power,
    ThermodynamicTemperature, Velocity,
};

use crate::boat::measure::{Named, given};
use crate::boat::transom::Side;

/// How the thrust reaches the water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DriveKind {
    /// Outboard engine on the transom.
    Outboard,
    /// Inboard engine with a steerable leg on the transom.
    Sterndrive,
    /// Propeller on an inclined shaft under the bottom.
    Shaft,
    /// Pod through the bottom.
    Pod,
    /// Waterjet through the transom.
    Jet,
}

/// Height of the thrust line, in either of two ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ThrustLine {
    /// f: thrust line below the centre of gravity, normal to the thrust line.
    BelowCentreOfGravity(Length),
    /// Height of the thrust line above the keel line at the transom; negative below the keel.
    HeightAtTransom(Length),
}

/// Propulsion as described.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DriveInput {
    /// Kind of drive; sets the estimates of the thrust line.
    pub kind: Option<DriveKind>,
    /// Rated power of all engines together, at the shaft.
    pub power: Option<Power>,
    /// Top speed, from a trial or the builder.
    pub top_speed: Option<Velocity>,
    /// ε: thrust line to keel line, positive when it pushes the stern up.
    pub thrust_angle: Option<Angle>,
    /// Height of the thrust line.
    pub thrust_line: Option<ThrustLine>,
    /// Speed of the engine at full power.
    pub engine_speed: Option<AngularVelocity>,
    /// Turns of the engine for one turn of the propeller; 1 when absent.
    pub gear_ratio: Option<f64>,
    /// Which way the propellers turn; their torque is not counted when absent.
    pub rotation: Option<Rotation>,
    /// Number of engines, each with its own propeller; 1 when absent.
    pub engines: Option<f64>,
    /// How many of them turn their propellers the other way; none when absent.
    pub counter_rotating: Option<f64>,
    /// Diameter of each propeller; estimated when absent, for the distance of planes from it alone.
    pub propeller_diameter: Option<Length>,
    /// From one shaft line to the next; two propeller diameters when absent.
    pub spacing: Option<Length>,
}

impl DriveInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("power", self.power.map(Into::into)),
            ("top_speed", self.top_speed.map(Into::into)),
            ("thrust_angle", self.thrust_angle.map(Into::into)),
            ("engine_speed", self.engine_speed.map(Into::into)),
            ("gear_ratio", self.gear_ratio.map(Into::into)),
            ("engines", self.engines.map(Into::into)),
            ("counter_rotating", self.counter_rotating.map(Into::into)),
            ("propeller_diameter", self.propeller_diameter.map(Into::into)),
            ("spacing", self.spacing.map(Into::into)),
        ])
    }
}

/// Which way a propeller turns when it drives ahead, seen from astern.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rotation {
    /// Clockwise: right-handed.
    Right,
    /// Anticlockwise: left-handed.
    Left,
}

/// Kind of water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaterKind {
    /// Sea water, practical salinity 35.
    Sea,
    /// Fresh water.
    Fresh,
}

/// Water by kind and temperature, or by its properties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WaterInput {
    /// By kind.
    Kind {
        /// Sea or fresh.
        kind: WaterKind,
        /// Temperature; 15 °C when absent.
        temperature: Option<ThermodynamicTemperature>,
        /// Practical salinity (g/kg, a plain number) in place of the kind's own: harbours, estuaries.
        salinity: Option<f64>,
    },
    /// By its properties.
    Explicit {
        /// Density ρ.
        density: MassDensity,
        /// Kinematic viscosity ν.
        kinematic_viscosity: KinematicViscosity,
    },
}

impl WaterKind {
    /// Its practical salinity where none is given.
    #[must_use]
    pub const fn usual_salinity(self) -> f64 {
        match self {
            Self::Sea => crate::water::SEA_SALINITY,
            Self::Fresh => 0.0,
        }
    }
}

/// Air drag: ½ ρ_air V² C_D A, horizontal, at a height above the keel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirInput {
    /// Frontal area of hull above water and superstructure.
    pub frontal_area: Area,
    /// Drag coefficient on that area; 0.7 when absent (common practice, no source).
    pub drag_coefficient: Option<f64>,
    /// Height of the centre of that area above the keel line.
    pub height: Length,
}

impl AirInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("frontal_area", Some(self.frontal_area.into())),
            ("drag_coefficient", self.drag_coefficient.map(Into::into)),
            ("height", Some(self.height.into())),
        ])
    }
}

/// Wind from the side: ½ ρ_air V² C A at a height above the keel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindInput {
    /// Area of hull above water and superstructure, seen from the side.
    pub side_area: Area,
    /// Height of the centre of that area above the keel line.
    pub side_height: Length,
    /// Drag coefficient on that area; 1.0 when absent (common practice, no source).
    pub drag_coefficient: Option<f64>,
    /// Speed of the wind across the boat.
    pub speed: Velocity,
    /// The side it comes from; the other goes down. Port when absent.
    pub from: Option<Side>,
}

impl WindInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("side_area", Some(self.side_area.into())),
            ("side_height", Some(self.side_height.into())),
            ("drag_coefficient", self.drag_coefficient.map(Into::into)),
            ("speed", Some(self.speed.into())),
        ])
    }
}

/// Appendage drag: ½ ρ V² (C_D A), horizontal, at a height above the keel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AppendageInput {
    /// C_D A: drag coefficient times area, summed over the appendages.
    pub drag_area: Area,
    /// Height of the drag above the keel line; negative below the keel.
    pub height: Length,
}

impl AppendageInput {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([("drag_area", Some(self.drag_area.into())), ("height", Some(self.height.into()))])
    }
}
