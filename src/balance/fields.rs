//! The numbers of a point of running, each listed once for every output.

use uom::si::{
    angle::degree, force::newton, length::meter, power::watt, pressure::pascal,
    velocity::meter_per_second,
};

use super::point::{Point, Running};
use crate::field::Digits::{Decimals, Significant};
use crate::field::Quantity::{
    Angle, Counted, Force, ForcePerDegree, Length, Number, Power, Pressure, Speed,
};
use crate::field::fields;

fn running(point: &Point, value: fn(&Running) -> f64) -> Option<f64> {
    point.running.as_ref().map(value)
}

/// How many of them say what is asked: the rest is what is answered.
pub const SET: usize = 2;

fields! { Point;
    /// Speed through the water.
    SPEED: "speed", "speed", Speed, Decimals(1), |p| Some(p.speed.get::<meter_per_second>());
    /// Mean deflection of the planes.
    DEFLECTION: "deflection", "planes", Angle, Decimals(1), |p| Some(p.deflection.get::<degree>());
    /// Running trim.
    TRIM: "trim", "trim", Angle, Decimals(2), |p| running(p, |r| r.trim.get::<degree>());
    /// Mean wetted length over beam.
    WETTED_LENGTH_RATIO: "wetted_length_ratio", "wetted length", Counted("beams"), Decimals(2),
        |p| running(p, |r| r.wetted_length_ratio);
    /// Wetted keel length.
    WETTED_KEEL: "wetted_keel", "wetted keel", Length, Significant(3),
        |p| running(p, |r| r.wetted_keel.get::<meter>());
    /// Wetted chine length.
    WETTED_CHINE: "wetted_chine", "wetted chine", Length, Significant(3),
        |p| running(p, |r| r.wetted_chine.get::<meter>());
    /// Draft of the keel at the transom.
    DRAFT: "draft", "draft", Length, Significant(3), |p| running(p, |r| r.draft.get::<meter>());
    /// Resistance.
    RESISTANCE: "resistance", "resistance", Force, Significant(4),
        |p| running(p, |r| r.resistance.get::<newton>());
    /// Thrust of the balance.
    THRUST: "thrust", "thrust", Force, Significant(4), |p| running(p, |r| r.thrust.get::<newton>());
    /// Resistance times speed.
    EFFECTIVE_POWER: "effective_power", "effective power", Power, Significant(3),
        |p| running(p, |r| r.effective_power.get::<watt>());
    /// Pressure on the bottom.
    PRESSURE_DRAG: "pressure_drag", "pressure", Force, Significant(4),
        |p| running(p, |r| r.parts.pressure.get::<newton>());
    /// Friction on the bottom.
    FRICTION_DRAG: "friction_drag", "friction", Force, Significant(4),
        |p| running(p, |r| r.parts.friction.get::<newton>());
    /// Whisker spray.
    SPRAY_DRAG: "spray_drag", "spray", Force, Significant(4),
        |p| running(p, |r| r.parts.spray.get::<newton>());
    /// Air.
    AIR_DRAG: "air_drag", "air", Force, Significant(4),
        |p| running(p, |r| r.parts.air.get::<newton>());
    /// Appendages.
    APPENDAGE_DRAG: "appendage_drag", "append.", Force, Significant(4),
        |p| running(p, |r| r.parts.appendages.get::<newton>());
    /// What the hump factor adds.
    HUMP_DRAG: "hump_drag", "hump", Force, Significant(4),
        |p| running(p, |r| r.parts.hump.get::<newton>());
    /// Lift that the planes add.
    PLANE_LIFT: "plane_lift", "lift of both", Force, Significant(4),
        |p| running(p, |r| r.plane_lift.get::<newton>());
    /// Drag that the planes add.
    PLANE_DRAG: "plane_drag", "drag of both", Force, Significant(4),
        |p| running(p, |r| r.plane_drag.get::<newton>());
    /// Lift that one plane adds for each degree.
    LIFT_PER_DEGREE: "one_plane_lift_per_degree", "lift of one plane", ForcePerDegree, Significant(3),
        |p| p.running?.lift_per_degree.map(|lift| lift.get::<newton>());
    /// Trim for one more degree of deflection.
    TRIM_PER_DEGREE: "trim_change_per_degree", "trim change", Counted("deg per deg"), Decimals(3),
        |p| p.running?.trim_per_degree;
    /// Lower porpoising limit.
    PORPOISING_LIMIT: "porpoising_limit", "porpoising limit", Angle, Decimals(1),
        |p| running(p, |r| r.porpoising.lower_deg());
    /// Upper porpoising limit.
    PORPOISING_UPPER_LIMIT: "porpoising_upper_limit", "upper porpoising limit", Angle, Decimals(1),
        |p| running(p, |r| r.porpoising.upper_deg());
    /// How far the trim lies under the lower limit.
    PORPOISING_MARGIN: "porpoising_margin", "under porpoising", Angle, Decimals(1),
        |p| running(p, |r| r.porpoising_margin().get::<degree>());
    /// Centre of pressure forward of the transom.
    CENTRE_OF_PRESSURE: "centre_of_pressure", "centre of pressure", Length, Significant(3),
        |p| running(p, |r| r.centre_of_pressure.get::<meter>());
    /// Speed coefficient.
    SPEED_COEFFICIENT: "speed_coefficient", "Cv", Number, Decimals(2), |p| Some(p.speed_coefficient);
    /// Length over which vertical sides are wet.
    SIDE_WETTED_LENGTH: "side_wetted_length", "sides wet", Length, Significant(3),
        |p| running(p, |r| r.side_wetted_length.get::<meter>());
    /// Friction that vertical sides would have: an estimate.
    SIDE_FRICTION: "side_friction_estimate", "sides", Force, Significant(4),
        |p| running(p, |r| r.side_friction.get::<newton>());
    /// Froude number over the volume displaced.
    VOLUME_FROUDE_NUMBER: "volume_froude_number", "F∇", Number, Decimals(2),
        |p| running(p, |r| r.volume_froude_number);
    /// Dynamic pressure q.
    DYNAMIC_PRESSURE: "dynamic_pressure", "q", Pressure, Significant(4),
        |p| running(p, |r| r.dynamic_pressure.get::<pascal>());
    /// Lift coefficient of a flat bottom.
    FLAT_LIFT_COEFFICIENT: "flat_lift_coefficient", "C_L0", Number, Decimals(4),
        |p| p.running?.flat_lift_coefficient;
    /// Lift coefficient of the bottom.
    LIFT_COEFFICIENT: "lift_coefficient", "C_Lβ", Number, Decimals(4),
        |p| running(p, |r| r.lift_coefficient);
    /// Reynolds number of the wetted bottom.
    REYNOLDS_NUMBER: "reynolds_number", "Re", Number, Decimals(0),
        |p| running(p, |r| r.reynolds_number);
    /// Friction coefficient, without the allowance.
    FRICTION_COEFFICIENT: "friction_coefficient", "C_f", Number, Decimals(5),
        |p| running(p, |r| r.friction_coefficient);
    /// Mean speed along the bottom.
    BOTTOM_SPEED: "mean_bottom_speed", "V_m", Speed, Decimals(2),
        |p| Some(p.running?.bottom_speed_ratio * p.speed.get::<meter_per_second>());
}
