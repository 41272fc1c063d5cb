//! The force and moment budget: every force on the boat, where it acts, and what it does about the centre of gravity.
//!
//! It is built from the equations again, not from the solver's elimination, so
//! that its sums are a check of the solution.

use serde::Serialize;
use uom::si::f64::{Force, Length, Torque};
use uom::si::{force::newton, length::meter, torque::newton_meter};

use super::forces::{Condition, Forces};
use crate::field::si;

/// One force on the boat.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Contribution {
    /// What it is.
    pub name: &'static str,
    /// Part along the course, forward positive.
    #[serde(rename = "forward_n", serialize_with = "si")]
    pub forward: Force,
    /// Vertical part, up positive.
    #[serde(rename = "up_n", serialize_with = "si")]
    pub up: Force,
    /// Point of action forward of the transom, along the keel.
    #[serde(rename = "acts_forward_m", serialize_with = "si")]
    pub acts_forward: Length,
    /// Point of action above the keel line, normal to it.
    #[serde(rename = "acts_above_keel_m", serialize_with = "si")]
    pub acts_above_keel: Length,
    /// Pitch moment about the centre of gravity, positive bow down.
    #[serde(rename = "moment_bow_down_n_m", serialize_with = "si")]
    pub moment_bow_down: Torque,
    /// Where the equation comes from.
    pub source: &'static str,
}

/// All forces on the boat at a balance.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget {
    /// The forces.
    pub contributions: Vec<Contribution>,
}

/// Sums of a budget; all zero at a balance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Sum along the course, as a share of the weight.
    pub along_course: f64,
    /// Vertical sum, as a share of the weight.
    pub vertical: f64,
    /// Sum of the moments about the centre of gravity, as a share of weight × chine beam.
    pub moment: f64,
}

impl Residual {
    /// The largest of the three, without sign.
    #[must_use]
    pub fn largest(&self) -> f64 {
        self.along_course.abs().max(self.vertical.abs()).max(self.moment.abs())
    }
}

impl Budget {
    pub(crate) fn of(condition: &Condition<'_>, forces: &Forces) -> Self {
        let prism = condition.prism;
        let centre = [prism.lcg_m, prism.vcg_m];
        let (sin, cos) = forces.trim_deg.to_radians().sin_cos();
        let thrust = prism.thrust_angle_deg().to_radians();
        let (sin_sum, cos_sum) = (forces.trim_deg.to_radians() + thrust).sin_cos();
        let (pressure_sin, pressure_cos) =
            prism.trim_for_drag_deg(forces.trim_deg).to_radians().sin_cos();
        let normal_n = bottom_lift_n(condition, forces) / pressure_cos;
        let friction_at = [0.5 * forces.centre_of_pressure_m, prism.friction_height_m()];
        // The thrust line's nearest point to the centre of gravity.
        let thrust_at = [
            centre[0] + prism.thrust_offset_m * thrust.sin(),
            centre[1] - prism.thrust_offset_m * thrust.cos(),
        ];
        let bottom = [forces.centre_of_pressure_m, prism.pressure_height_m()];
        let along_keel = |force_n: f64| [-force_n * cos, -force_n * sin];
        let mut list = Assembly { centre, sin, cos, contributions: Vec::with_capacity(10) };
        let thrust_n = [forces.thrust_n * cos_sum, forces.thrust_n * sin_sum];
        list.add("weight", [0.0, -prism.weight_n], centre, "mass at standard gravity");
        let source = prism.settings.model.source();
        list.add(
            "bottom pressure",
            [-normal_n * pressure_sin, normal_n * pressure_cos],
            bottom,
            source,
        );
        list.add("bottom friction", along_keel(forces.friction_n), friction_at, SAVITSKY_FRICTION);
        list.add("thrust", thrust_n, thrust_at, "balance along the course");
        if prism.settings.whisker_spray {
            list.add("whisker spray", along_keel(forces.spray_n), friction_at, SPRAY);
        }
        let plane = condition.plane;
        if plane.lift_n > 0.0 {
            list.add("plane lift", [0.0, plane.lift_n], [plane.centre_m, 0.0], BROWN);
            let [pressure_n, edge_n] = [forces.plane_pressure_drag_n, forces.plane_edge_drag_n];
            list.add("plane pressure", [-pressure_n, 0.0], [plane.centre_m, 0.0], BROWN);
            list.add("plane drag", [-edge_n, 0.0], [0.0, 0.0], BROWN);
        }
        for (name, [drag_n, height_m]) in
            [("air", condition.air), ("appendages", condition.appendages)]
        {
            if drag_n > 0.0 {
                list.add(name, [-drag_n, 0.0], [prism.lcg_m, height_m], "boat file");
            }
        }
        Self { contributions: list.contributions }
    }

    /// What the forces sum to, over weight and weight × chine beam.
    #[must_use]
    pub fn residual(&self, weight: Force, chine_beam: Length) -> Residual {
        let sum = |part: fn(&Contribution) -> f64| -> f64 {
            self.contributions.iter().map(part).sum::<f64>() / weight.get::<newton>()
        };
        Residual {
            along_course: sum(|c| c.forward.get::<newton>()),
            vertical: sum(|c| c.up.get::<newton>()),
            moment: sum(|c| c.moment_bow_down.get::<newton_meter>()) / chine_beam.get::<meter>(),
        }
    }
}

const SAVITSKY_FRICTION: &str = "Savitsky 1964, eq 21 to 25";
const SPRAY: &str = "Savitsky, DeLorme & Datla 2007";
const BROWN: &str = "Savitsky & Brown 1976, eq 5 to 7";

/// Lift of the bottom by the equations of lift, from trim and wetted length alone.
fn bottom_lift_n(condition: &Condition<'_>, forces: &Forces) -> f64 {
    let prism = condition.prism;
    let coefficient = prism.settings.model.lift_coefficient(
        prism.trim_for_lift_deg(forces.trim_deg),
        forces.wetted_length_ratio,
        condition.speed_coefficient,
        prism.deadrise_deg,
    );
    prism.settings.form.lift * coefficient * condition.area_pressure_n()
}

/// Collects contributions about one centre.
struct Assembly {
    centre: [f64; 2],
    sin: f64,
    cos: f64,
    contributions: Vec<Contribution>,
}

impl Assembly {
    fn add(
        &mut self,
        name: &'static str,
        force_n: [f64; 2],
        acts_at_m: [f64; 2],
        source: &'static str,
    ) {
        let moment_n_m = moment_bow_down_n_m(force_n, acts_at_m, self.centre, [self.sin, self.cos]);
        self.contributions.push(Contribution {
            name,
            forward: Force::new::<newton>(force_n[0]),
            up: Force::new::<newton>(force_n[1]),
            acts_forward: Length::new::<meter>(acts_at_m[0]),
            acts_above_keel: Length::new::<meter>(acts_at_m[1]),
            moment_bow_down: Torque::new::<newton_meter>(moment_n_m),
            source,
        });
    }
}

/// Moment, positive bow down, of a force given by its parts forward and up, acting at a point along and above the keel, about another such point.
///
/// `sine_cosine` are those of the trim. The one place where a force is moved
/// to another point. Derived here.
pub(crate) fn moment_bow_down_n_m(
    force_n: [f64; 2],
    acts_at_m: [f64; 2],
    about_m: [f64; 2],
    [sine, cosine]: [f64; 2],
) -> f64 {
    let along_m = acts_at_m[0] - about_m[0];
    let above_m = acts_at_m[1] - about_m[1];
    let ahead_m = along_m * cosine - above_m * sine;
    let higher_m = along_m * sine + above_m * cosine;
    higher_m * force_n[0] - ahead_m * force_n[1]
}
