//! The numbers of a point, once for JSON and CSV.

use uom::si::f64::{Angle, Force, Length, Power, Velocity};
use uom::si::{
    angle::degree, force::newton, length::meter, power::watt, velocity::meter_per_second,
};

use crate::balance::{Point, Running};
use crate::units::UnitChoice;

/// A number of a point with its kind.
#[derive(Clone, Copy)]
pub(super) enum Value {
    Speed(Velocity),
    Angle(Angle),
    Length(Length),
    Force(Force),
    Power(Power),
    Plain(f64),
}

/// Kind of a column: which unit its name carries.
#[derive(Clone, Copy)]
pub(super) enum Kind {
    Speed,
    Angle,
    Length,
    Force,
    Power,
    Plain,
}

/// One number of a point.
pub(super) struct Column {
    name: &'static str,
    kind: Kind,
    value: fn(&Point) -> Option<Value>,
}

/// What comes before the outcome.
pub(super) const CONDITION: &[Column] = &[
    column("speed", Kind::Speed, |p| Some(Value::Speed(p.speed))),
    column("deflection", Kind::Angle, |p| Some(Value::Angle(p.deflection))),
];

/// What comes after the outcome and before the flags.
pub(super) const ANSWER: &[Column] = &[
    column("trim", Kind::Angle, |p| running(p, |r| Value::Angle(r.trim))),
    column("wetted_length_ratio", Kind::Plain, |p| {
        running(p, |r| Value::Plain(r.wetted_length_ratio))
    }),
    column("wetted_keel", Kind::Length, |p| running(p, |r| Value::Length(r.wetted_keel))),
    column("wetted_chine", Kind::Length, |p| running(p, |r| Value::Length(r.wetted_chine))),
    column("draft", Kind::Length, |p| running(p, |r| Value::Length(r.draft))),
    column("resistance", Kind::Force, |p| running(p, |r| Value::Force(r.resistance))),
    column("thrust", Kind::Force, |p| running(p, |r| Value::Force(r.thrust))),
    column("effective_power", Kind::Power, |p| running(p, |r| Value::Power(r.effective_power))),
    column("pressure_drag", Kind::Force, |p| running(p, |r| Value::Force(r.parts.pressure))),
    column("friction_drag", Kind::Force, |p| running(p, |r| Value::Force(r.parts.friction))),
    column("spray_drag", Kind::Force, |p| running(p, |r| Value::Force(r.parts.spray))),
    column("air_drag", Kind::Force, |p| running(p, |r| Value::Force(r.parts.air))),
    column("appendage_drag", Kind::Force, |p| running(p, |r| Value::Force(r.parts.appendages))),
    column("hump_drag", Kind::Force, |p| running(p, |r| Value::Force(r.parts.hump))),
    column("plane_lift", Kind::Force, |p| running(p, |r| Value::Force(r.plane_lift))),
    column("plane_drag", Kind::Force, |p| running(p, |r| Value::Force(r.plane_drag))),
    column("one_plane_lift_per_degree", Kind::Force, |p| {
        p.running.and_then(|r| r.lift_per_degree).map(Value::Force)
    }),
    column("trim_change_per_degree", Kind::Plain, |p| {
        p.running.and_then(|r| r.trim_per_degree).map(Value::Plain)
    }),
    column("porpoising_limit", Kind::Angle, |p| running(p, |r| deg(r.porpoising.lower_deg()))),
    column("porpoising_upper_limit", Kind::Angle, |p| {
        running(p, |r| deg(r.porpoising.upper_deg()))
    }),
    column("porpoising_margin", Kind::Angle, |p| {
        running(p, |r| Value::Angle(r.porpoising_margin()))
    }),
    column("centre_of_pressure", Kind::Length, |p| {
        running(p, |r| Value::Length(r.centre_of_pressure))
    }),
    column("speed_coefficient", Kind::Plain, |p| Some(Value::Plain(p.speed_coefficient))),
    column("side_wetted_length", Kind::Length, |p| {
        running(p, |r| Value::Length(r.side_wetted_length))
    }),
    column("side_friction_estimate", Kind::Force, |p| {
        running(p, |r| Value::Force(r.side_friction))
    }),
];

const fn column(name: &'static str, kind: Kind, value: fn(&Point) -> Option<Value>) -> Column {
    Column { name, kind, value }
}

fn running(point: &Point, value: fn(&Running) -> Value) -> Option<Value> {
    point.running.as_ref().map(value)
}

fn deg(angle_deg: f64) -> Value {
    Value::Angle(Angle::new::<degree>(angle_deg))
}

impl Column {
    /// Its name with the unit, in SI with angles in degrees.
    pub(super) fn si_name(&self) -> String {
        let unit = match self.kind {
            Kind::Speed => "_m_s",
            Kind::Angle => "_deg",
            Kind::Length => "_m",
            Kind::Force => "_n",
            Kind::Power => "_w",
            Kind::Plain => "",
        };
        format!("{}{unit}", self.name)
    }

    /// Its value in SI with angles in degrees; none where it does not exist.
    pub(super) fn si_value(&self, point: &Point) -> Option<f64> {
        let value = match (self.value)(point)? {
            Value::Speed(x) => x.get::<meter_per_second>(),
            Value::Angle(x) => x.get::<degree>(),
            Value::Length(x) => x.get::<meter>(),
            Value::Force(x) => x.get::<newton>(),
            Value::Power(x) => x.get::<watt>(),
            Value::Plain(x) => x,
        };
        value.is_finite().then_some(value)
    }

    /// Its name with the unit asked for.
    pub(super) fn name_in(&self, units: UnitChoice) -> String {
        let unit = match self.kind {
            Kind::Speed => units.speed.symbol(),
            Kind::Angle => "deg",
            Kind::Length => units.length.symbol(),
            Kind::Force => units.force.symbol(),
            Kind::Power => units.power.symbol(),
            Kind::Plain => return self.name.to_owned(),
        };
        format!("{}_{}", self.name, unit.replace('/', "_"))
    }

    /// Its value in the unit asked for; none where it does not exist.
    pub(super) fn value_in(&self, point: &Point, units: UnitChoice) -> Option<f64> {
        let value = match (self.value)(point)? {
            Value::Speed(x) => units.speed.value(x),
            Value::Angle(x) => x.get::<degree>(),
            Value::Length(x) => units.length.value(x),
            Value::Force(x) => units.force.value(x),
            Value::Power(x) => units.power.value(x),
            Value::Plain(x) => x,
        };
        value.is_finite().then_some(value)
    }
}
