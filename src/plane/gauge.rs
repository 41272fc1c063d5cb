//! How far up the trailing edge stands when the plane is retracted.
//!
//! The wish is stated in the boat file as an angle (`transom.retracted_angle`): a plate that is up
//! must not touch the water that leaves the edge of the transom. That water follows the line of
//! the bottom and then falls behind it or rises at most as fast as its own weight drives it,
//! `½ g (x/V)²` at a distance `x` (derived here), which is 6 mm at the end of a chord of 250 mm at
//! 7 m/s. The hinge stands a few millimetres up already; the angle is what is left for waves, a
//! plate that is not straight and a boat that goes slower.

use uom::si::f64::{Angle, Length};

/// Where the trailing edge is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gauge {
    /// Trailing edge above the extended bottom line, at mid-span.
    pub trailing_edge: Length,
    /// Deflection of the retracted plane; negative, since the trailing edge is up.
    pub deflection: Angle,
}

impl Gauge {
    /// Angle of the retracted plane above the extended bottom line, positive up.
    #[must_use]
    pub fn angle_up(&self) -> Angle {
        -self.deflection
    }
}

/// The setting for a plane of this chord with its hinge this high that points so far up:
/// `hinge + chord sin(angle)`.
#[must_use]
pub fn gauge(chord: Length, hinge_height: Length, angle_up: Angle) -> Gauge {
    Gauge { trailing_edge: hinge_height + chord * angle_up.sin(), deflection: -angle_up }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use uom::si::angle::degree;
    use uom::si::length::millimeter;

    #[test]
    fn physics_the_gauge_is_the_plate_seen_from_the_side() {
        // By hand: sin 30 deg is a half.
        let mm = Length::new::<millimeter>;
        let set = gauge(mm(240.0), mm(6.0), Angle::new::<degree>(30.0));
        assert_relative_eq!(set.trailing_edge.get::<millimeter>(), 126.0, max_relative = 1e-12);
        assert_relative_eq!(set.angle_up().get::<degree>(), 30.0, max_relative = 1e-12);
        let flat = gauge(mm(240.0), mm(6.0), Angle::new::<degree>(0.0));
        assert_eq!(flat.trailing_edge, mm(6.0));
    }

    #[test]
    fn practice_two_degrees_stand_near_what_fitters_set() {
        // Common practice, no source: 10 to 20 mm at chords of 225 to 300 mm.
        for chord_mm in [225.0, 300.0] {
            let chord = Length::new::<millimeter>(chord_mm);
            let set = gauge(chord, Length::new::<millimeter>(6.0), Angle::new::<degree>(2.0));
            assert!((10.0..20.0).contains(&set.trailing_edge.get::<millimeter>()));
        }
    }
}
