//! How far up the trailing edge stands when the plane is retracted.
//!
//! Two facts of common practice, no source: with the hinge 1/4 in above the bottom edge, the
//! trailing edge is set 1/2 in above the extended bottom line for a chord of 9 in, and 5/8 in for
//! 12 in, measured with a gauge at mid-span.

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, meter};

/// Hinge above the bottom edge in both facts, inches; common practice, no source.
pub const FACT_HINGE_IN: f64 = 0.25;
/// Chord and trailing-edge height of the two facts, inches; common practice, no source.
pub const GAUGE_FACTS_IN: [(f64, f64); 2] = [(9.0, 0.5), (12.0, 0.625)];

/// Where the trailing edge is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gauge {
    /// Trailing edge above the extended bottom line, at mid-span.
    pub trailing_edge: Length,
    /// Deflection of the retracted plane; negative, since the trailing edge is up.
    pub deflection: Angle,
    /// Whether the chord lies between those of the two facts.
    pub chord_within_facts: bool,
    /// Whether the hinge is as high as in the two facts.
    pub hinge_as_in_facts: bool,
}

impl Gauge {
    /// Angle of the retracted plane above the extended bottom line, positive up:
    /// `atan((trailing edge − hinge) / chord)`.
    #[must_use]
    pub fn angle_up(&self) -> Angle {
        -self.deflection
    }
}

/// Rise of the trailing edge above the hinge, inches, for a chord in inches.
///
/// Straight between the two facts; outside them the angle of the nearer one is kept, so that a
/// very short plane does not droop nor a very long one stand up.
#[must_use]
pub fn rise_in(chord_in: f64) -> f64 {
    let [(short, low), (long, high)] = GAUGE_FACTS_IN;
    if chord_in < short {
        (low - FACT_HINGE_IN) * chord_in / short
    } else if chord_in > long {
        (high - FACT_HINGE_IN) * chord_in / long
    } else {
        low + (high - low) * (chord_in - short) / (long - short) - FACT_HINGE_IN
    }
}

/// The setting for a plane of this chord with its hinge this high.
///
/// A hinge at another height than 1/4 in keeps the rise above the hinge, and so the angle.
#[must_use]
pub fn gauge(chord: Length, hinge_height: Length) -> Gauge {
    let chord_in = chord.get::<inch>();
    let rise = Length::new::<inch>(rise_in(chord_in));
    let slack = 1e-9;
    let [(short, _), (long, _)] = GAUGE_FACTS_IN;
    let rise_rad = (rise.get::<meter>() / chord.get::<meter>()).atan();
    Gauge {
        trailing_edge: hinge_height + rise,
        deflection: Angle::new::<radian>(-rise_rad),
        chord_within_facts: chord_in >= short - slack && chord_in <= long + slack,
        hinge_as_in_facts: (hinge_height.get::<inch>() - FACT_HINGE_IN).abs() < 0.01,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use uom::si::angle::degree;

    fn set(chord_in: f64) -> Gauge {
        gauge(Length::new::<inch>(chord_in), Length::new::<inch>(0.25))
    }

    #[test]
    fn practice_both_facts_give_their_height_and_their_angle() {
        // Common practice, no source: 1/2 in and 1.6° at 9 in, 5/8 in and 1.8° at 12 in.
        for (chord_in, height_in, angle_deg) in [(9.0, 0.5, 1.6), (12.0, 0.625, 1.8)] {
            let set = set(chord_in);
            assert_relative_eq!(set.trailing_edge.get::<inch>(), height_in, max_relative = 1e-12);
            assert!((set.angle_up().get::<degree>() - angle_deg).abs() < 0.05);
            assert!(set.chord_within_facts && set.hinge_as_in_facts);
        }
        assert_relative_eq!(set(10.5).trailing_edge.get::<inch>(), 0.5625, max_relative = 1e-12);
    }

    #[test]
    fn physics_outside_the_facts_the_angle_is_kept_without_a_jump_and_flagged() {
        for (inside, outside) in [(9.0, 8.999_999), (12.0, 12.000_001)] {
            let (a, b) = (set(inside), set(outside));
            assert!((a.trailing_edge - b.trailing_edge).get::<inch>().abs() < 1e-6);
            assert!(!b.chord_within_facts);
        }
        assert_relative_eq!(
            set(6.0).angle_up().get::<degree>(),
            set(9.0).angle_up().get::<degree>(),
            max_relative = 1e-12
        );
        for chord_in in [0.3, 1.0, 6.0, 18.0, 60.0] {
            assert!(set(chord_in).trailing_edge > Length::new::<inch>(0.25));
        }
    }

    #[test]
    fn physics_a_higher_hinge_keeps_the_angle() {
        let high = gauge(Length::new::<inch>(9.0), Length::new::<inch>(0.75));
        assert_relative_eq!(high.trailing_edge.get::<inch>(), 1.0, max_relative = 1e-12);
        assert_eq!(high.deflection, set(9.0).deflection);
        assert!(!high.hinge_as_in_facts);
    }
}
