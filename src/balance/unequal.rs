//! Two planes that stand differently, or are not alike: what the boat does with them.
//!
//! Lift, drag and the length that they add to the bottom are those of each plane
//! added up ([`Condition::with_each`]). Past the dead band they go nearly with
//! the deflection, so that two planes alike act in pitch as a pair at their mean.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};

use super::forces::Set;
use super::{Balance, Outcome, PLANING_SPEED_COEFFICIENT, Point, check, point_at};
use crate::boat::{Fault, Measure, PlanePair};
use crate::flag::Flag;
use crate::plane::effect;

/// One plane and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetPlane {
    /// Span and chord of this one plane.
    pub size: PlanePair,
    /// Its own deflection.
    pub deflection: Angle,
}

impl Balance {
    /// What the boat does at a speed with each plane at its own deflection, port first; her own pair does not count.
    ///
    /// The deflection of the point is the mean of the two.
    ///
    /// # Errors
    /// As [`Balance::point`], for each deflection; also for the 1964 cases.
    pub fn point_with(&self, speed: Velocity, planes: [SetPlane; 2]) -> Result<Point, Fault> {
        if !self.prism.settings.method.is_full_balance() {
            return Err(super::planes_in_1964());
        }
        for plane in planes {
            check("run.deflection", Measure::Angle(plane.deflection))?;
        }
        let bare = Self { planes: None, ..self.clone() };
        let set = planes.map(|plane| Set {
            size: plane.size.into(),
            deflection_deg: plane.deflection.get::<degree>(),
        });
        let condition = bare.condition(speed, Angle::default())?.with_each(set);
        let mut point = if condition.speed_coefficient < PLANING_SPEED_COEFFICIENT {
            Point::without_running(&condition, Outcome::BelowPlaningRange)
        } else {
            point_at(&condition, None)
        };
        let deepest_deg =
            planes.iter().map(|plane| plane.deflection.get::<degree>()).fold(0.0, f64::max);
        point.flags.insert_if(
            deepest_deg > effect::LARGEST_TESTED_DEFLECTION_DEG,
            Flag::PlaneDeflectionBeyondTested,
        );
        point.deflection = 0.5 * (planes[0].deflection + planes[1].deflection);
        Ok(point)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::balance::Settings;
    use crate::input::parse_boat;
    use approx::assert_relative_eq;
    use uom::si::f64::Length;
    use uom::si::{force::newton, length::meter, velocity::knot};

    fn balance() -> (Balance, PlanePair) {
        let text = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
            deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\n\
            vcg = \"0.75 m\"\n[planes]\nspan = \"610 mm\"\nchord = \"254 mm\"\n";
        let boat = parse_boat("heron", text).unwrap().boat;
        (Balance::of(&boat, &Settings::default()), boat.planes().unwrap())
    }

    fn at(size: PlanePair, deflection_deg: f64) -> SetPlane {
        SetPlane { size, deflection: Angle::new::<degree>(deflection_deg) }
    }

    #[test]
    fn physics_planes_alike_at_one_deflection_are_the_pair() {
        let (balance, pair) = balance();
        let speed = Velocity::new::<knot>(22.0);
        let [whole, each] = [
            balance.point(speed, Angle::new::<degree>(6.0)).unwrap(),
            balance.point_with(speed, [at(pair, 6.0); 2]).unwrap(),
        ];
        let [a, b] = [whole.running.unwrap(), each.running.unwrap()];
        assert_relative_eq!(a.trim.value, b.trim.value, max_relative = 1e-10);
        assert_relative_eq!(a.resistance.value, b.resistance.value, max_relative = 1e-10);
        assert_eq!(whole.flags, each.flags);
    }

    /// Each plane by itself, Savitsky & Brown (1976) equations 5 and 6 with the chord that is wet:
    /// lift 0.046 s cos β (c − h/tan δ) δ q and drag lift × (tan τ + 0.0052 (τ + δ)); 9 and 3 degrees against twice 6.
    #[test]
    fn physics_the_mean_sets_the_trim_and_the_difference_costs_a_little_drag() {
        let (balance, pair) = balance();
        let speed = Velocity::new::<knot>(22.0);
        let even = balance.point_with(speed, [at(pair, 6.0); 2]).unwrap().running.unwrap();
        let apart = balance.point_with(speed, [at(pair, 9.0), at(pair, 3.0)]).unwrap();
        let mirrored = balance.point_with(speed, [at(pair, 3.0), at(pair, 9.0)]).unwrap();
        assert_eq!(apart, mirrored);
        assert_relative_eq!(apart.deflection.get::<degree>(), 6.0, max_relative = 1e-12);
        let apart = apart.running.unwrap();
        // Of the shallower plane less is wet: the mean trailing edge lies 12 mm less far aft, and a weight
        // 12 mm further aft lifts the bow by 0.04° (3.4° for each metre).
        let lifted_deg = (apart.trim - even.trim).get::<degree>();
        assert!((0.02..0.06).contains(&lifted_deg), "{lifted_deg}");
        // 610 × 254 mm hinged a quarter of an inch up; sea water at 15 °C and 35 g/kg, 1025.97 kg/m³ (UNESCO 1981, from memory).
        let pressure_pa = 0.5 * 1025.97 * (22.0_f64 * 1852.0 / 3600.0).powi(2);
        let lift_n = |deflection_deg: f64| {
            let wet_m = 0.254 - 0.006_35 / deflection_deg.to_radians().tan();
            0.046 * 0.61 * 18_f64.to_radians().cos() * wet_m * deflection_deg * pressure_pa
        };
        let [even_n, apart_n] = [2.0 * lift_n(6.0), lift_n(9.0) + lift_n(3.0)];
        assert_relative_eq!(even.plane_lift.get::<newton>(), even_n, max_relative = 1e-5);
        assert_relative_eq!(apart.plane_lift.get::<newton>(), apart_n, max_relative = 1e-5);
        let (trim_rad, trim_deg) = (apart.trim.value, apart.trim.get::<degree>());
        let by_plane = |deflection_deg: f64| {
            lift_n(deflection_deg) * (trim_rad.tan() + 0.0052 * (trim_deg + deflection_deg))
        };
        let drag_n = by_plane(9.0) + by_plane(3.0);
        assert_relative_eq!(apart.plane_drag.get::<newton>(), drag_n, max_relative = 1e-5);
    }

    #[test]
    fn physics_a_larger_plane_on_one_side_lifts_by_its_own_area() {
        let (balance, pair) = balance();
        let metres = Length::new::<meter>;
        let small = PlanePair { span: metres(0.4), chord: metres(0.254) };
        let speed = Velocity::new::<knot>(22.0);
        let lift_n = |planes| {
            let point = balance.point_with(speed, planes).unwrap();
            point.running.unwrap().plane_lift.get::<newton>()
        };
        let both = lift_n([at(small, 5.0), at(pair, 5.0)]);
        let [left, right] =
            [lift_n([at(small, 5.0), at(pair, 0.0)]), lift_n([at(small, 0.0), at(pair, 5.0)])];
        assert_relative_eq!(both, left + right, max_relative = 1e-12);
        assert_relative_eq!(right / left, 0.61 / 0.4, max_relative = 1e-12);
    }

    #[test]
    fn error_each_deflection_is_checked() {
        let (balance, pair) = balance();
        let fault = balance
            .point_with(Velocity::new::<knot>(22.0), [at(pair, 2.0), at(pair, -1.0)])
            .unwrap_err();
        assert_eq!(fault.to_string(), "run.deflection: -1 deg is outside 0 to 30 deg");
    }
}
