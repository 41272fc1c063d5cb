//! How far the answer moves when an estimated value is not what the rule says.

use serde::Serialize;
use uom::si::f64::Angle;

use super::{Balance, Hump, HumpPlace, Point, Settings};
use crate::boat::{Boat, Estimate, Fault};
use crate::field::{InSi, written};

/// What the boat does at the two speeds that people ask about first.
#[derive(Clone, Debug, PartialEq)]
pub struct Landmarks {
    /// At the hump, the speed of the largest trim with planes up; none when she has none.
    pub hump: Option<Point>,
    /// Where in the planing range that is.
    pub hump_place: Option<HumpPlace>,
    /// At top speed.
    pub top: Point,
}

/// The landmarks at both ends of the likely range of one estimate, all else unchanged.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sensitivity {
    /// The estimate.
    #[serde(flatten)]
    pub estimate: Estimate,
    /// With its lower end; none when no boat can have it.
    #[serde(rename = "with_low")]
    pub low: Option<Landmarks>,
    /// With its upper end; none when no boat can have it.
    #[serde(rename = "with_high")]
    pub high: Option<Landmarks>,
}

written! {
    Landmarks as at {
        "deflection_deg": at.top.deflection.in_si(),
        "hump_speed_m_s": at.hump.as_ref().map(|hump| hump.speed).in_si(),
        "hump_place": at.hump_place,
        "hump_trim_deg": at.hump.as_ref().and_then(Point::trim).in_si(),
        "hump_resistance_n": at.hump.as_ref().and_then(Point::resistance).in_si(),
        "top_speed_m_s": at.top.speed.in_si(),
        "top_speed_outcome": at.top.outcome,
        "top_speed_trim_deg": at.top.trim().in_si(),
        "top_speed_resistance_n": at.top.resistance().in_si(),
    }
}

impl Landmarks {
    /// The boat at the hump and at top speed, with her planes at a deflection.
    ///
    /// # Errors
    /// As [`Balance::point`].
    pub fn of(boat: &Boat, settings: &Settings, deflection: Angle) -> Result<Self, Fault> {
        let hump = Hump::of(boat, settings);
        Self::at(&Balance::of(boat, settings), boat, hump.as_ref(), deflection)
    }

    /// The same where the hump, which depends on no deflection, is known.
    pub(super) fn at(
        balance: &Balance,
        boat: &Boat,
        hump: Option<&Hump>,
        deflection: Angle,
    ) -> Result<Self, Fault> {
        let top = balance.point(boat.drive().top_speed, deflection)?;
        let at = |hump: &Hump| balance.point_from(hump.speed, deflection, hump.trim);
        Ok(Self { hump: hump.map(at).transpose()?, hump_place: hump.map(|hump| hump.place), top })
    }
}

/// The landmarks with each estimate of the boat at both ends of its likely range.
#[must_use]
pub fn sensitivities(boat: &Boat, settings: &Settings, deflection: Angle) -> Vec<Sensitivity> {
    let with = |estimate: &Estimate, value| {
        let moved = boat.with_estimate(estimate.key, value).ok()?;
        Landmarks::of(&moved, settings, deflection).ok()
    };
    let each = boat.estimates().iter().map(|estimate| Sensitivity {
        low: with(estimate, estimate.low),
        high: with(estimate, estimate.high),
        estimate: estimate.clone(),
    });
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::boat::{BoatInput, HullInput, WeightInput};
    use uom::si::f64::{Length, Mass, Velocity};
    use uom::si::{angle::degree, length::meter, mass::kilogram, velocity::meter_per_second};

    fn trim_deg(point: &Point) -> f64 {
        point.running.unwrap().trim.get::<degree>()
    }

    fn boat(lcg_m: Option<f64>) -> Boat {
        let length = |m| Length::new::<meter>(m);
        let hull = HullInput {
            bottom_length: Some(length(6.5)),
            chine_beam: Some(length(2.25)),
            deadrise: Some(Angle::new::<degree>(18.0)),
            ..HullInput::default()
        };
        let weight = WeightInput::Totals {
            mass: Mass::new::<kilogram>(2800.0),
            lcg: lcg_m.map(length),
            vcg: Some(length(0.75)),
            tcg: None,
        };
        Boat::build(BoatInput::new("trial", hull, weight)).unwrap()
    }

    #[test]
    fn physics_weight_further_aft_lifts_the_bow_at_the_hump() {
        let boat = boat(None);
        let all = sensitivities(&boat, &Settings::default(), Angle::new::<degree>(0.0));
        assert_eq!(all.len(), boat.estimates().len());
        let lcg = all.iter().find(|one| one.estimate.key == "weight.lcg").unwrap();
        let hump_deg = |end: &Option<Landmarks>| {
            trim_deg(end.as_ref().unwrap().hump.as_ref().expect("she runs"))
        };
        assert!(hump_deg(&lcg.low) > hump_deg(&lcg.high) + 0.5);
    }

    #[test]
    fn physics_no_residual_moment_at_the_running_trim_and_a_righting_one_beside_it() {
        let boat = boat(Some(2.45));
        let balance = Balance::of(&boat, &Settings::default());
        let (speed, flat) = (Velocity::new::<meter_per_second>(11.0), Angle::new::<degree>(0.0));
        let trim = balance.point(speed, flat).unwrap().running.unwrap().trim;
        let share = |trim: Angle| {
            let moment = balance.residual_moment(speed, flat, trim).unwrap();
            moment.get::<uom::si::torque::newton_meter>() / (2800.0 * 9.81 * 2.25)
        };
        assert!(share(trim).abs() < 1e-9);
        assert!(share(trim * 1.05) > 1e-4 && share(trim * 0.95) < -1e-4);
        assert!(balance.residual_moment(speed, flat, trim * 9.0).is_err());
    }
}
