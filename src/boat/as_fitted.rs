//! How a pair was fitted: what was measured on the finished boat, in place of what was planned.

use uom::si::angle::radian;
use uom::si::f64::{Angle, Length};

use super::measure::{Named, given};
use super::transom::{Side, Transom};
use super::{BoatInput, Sizing};

/// One plane as it was fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AsFitted {
    /// The side measured: port or starboard.
    pub side: Side,
    /// Outer end to the chine, along the bottom edge.
    pub from_chine: Option<Length>,
    /// Hinge line above the bottom edge.
    pub hinge_height: Option<Length>,
    /// Trailing edge above the extended bottom line, plane up, at mid-span.
    pub gauge_height: Option<Length>,
    /// How far above the bottom line the plane points at its upper stop.
    pub angle_up: Option<Angle>,
    /// How far below it the plane points at its lower stop.
    pub angle_down: Option<Angle>,
}

impl AsFitted {
    /// Its values by their keys.
    pub(in crate::boat) fn measures(&self) -> Named {
        given([
            ("from_chine", self.from_chine.map(Into::into)),
            ("hinge_height", self.hinge_height.map(Into::into)),
            ("gauge_height", self.gauge_height.map(Into::into)),
            ("angle_up", self.angle_up.map(Into::into)),
            ("angle_down", self.angle_down.map(Into::into)),
        ])
    }

    /// How far up it points at its upper stop: as read, or from the gauge height of a plane of this
    /// chord whose hinge stands so high where it was not measured.
    #[must_use]
    pub fn up(&self, chord: Length, planned_hinge: Length) -> Option<Angle> {
        self.angle_up.or_else(|| {
            let rise = self.gauge_height? - self.hinge_height.unwrap_or(planned_hinge);
            let share = (rise / chord).value;
            Some(Angle::new::<radian>(share.clamp(-1.0, 1.0).asin()))
        })
    }
}

/// The mean of what both sides give, or of the one that does.
fn mean<Q>(values: &[Q]) -> Option<Q>
where
    Q: Copy + std::ops::Add<Output = Q> + std::ops::Div<f64, Output = Q>,
{
    match values {
        [] => None,
        [one] => Some(*one),
        [first, second, ..] => Some((*first + *second) / 2.0),
    }
}

/// Puts what was measured in the place of what was planned: means of both sides, and the stop that
/// is reached first.
pub(super) fn apply(input: &BoatInput, transom: &mut Transom, sizing: &mut Sizing) {
    let all = &input.as_fitted;
    let lengths = |of: fn(&AsFitted) -> Option<Length>| -> Vec<Length> {
        all.iter().filter_map(of).collect()
    };
    if let Some(from_chine) = mean(&lengths(|one| one.from_chine)) {
        transom.outer_clearance = from_chine;
    }
    if let Some(hinge_height) = mean(&lengths(|one| one.hinge_height)) {
        transom.hinge_height = hinge_height;
    }
    if let Some(pair) = input.planes {
        let planned = transom.hinge_height;
        let up: Vec<Angle> = all.iter().filter_map(|one| one.up(pair.chord, planned)).collect();
        transom.retracted_angle = mean(&up).unwrap_or(transom.retracted_angle);
    }
    let down = all.iter().filter_map(|one| one.angle_down).reduce(Angle::min);
    sizing.largest_deflection =
        down.map_or(sizing.largest_deflection, |down| sizing.largest_deflection.min(down));
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use uom::si::angle::degree;
    use uom::si::length::millimeter;

    use crate::input::parse_boat;

    const BOAT: &str = "[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\n\
        deadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\n";
    const PLANES: &str = "[planes]\nspan = \"610 mm\"\nchord = \"240 mm\"\n";

    #[test]
    fn physics_what_was_measured_stands_in_the_place_of_the_plan() {
        let sides = "[[as_fitted]]\nside = \"port\"\nhinge_height = \"7 mm\"\n\
            angle_down = \"14 deg\"\nfrom_chine = \"95 mm\"\ngauge_height = \"19 mm\"\n\
            [[as_fitted]]\nside = \"starboard\"\nhinge_height = \"9 mm\"\n\
            angle_down = \"15 deg\"\nfrom_chine = \"91 mm\"\ngauge_height = \"21 mm\"\n";
        let boat = parse_boat("b", &format!("{BOAT}{PLANES}{sides}")).expect("sound").boat;
        let transom = boat.transom();
        assert_relative_eq!(transom.hinge_height.get::<millimeter>(), 8.0, max_relative = 1e-12);
        assert_relative_eq!(
            transom.outer_clearance.get::<millimeter>(),
            93.0,
            max_relative = 1e-12
        );
        // By hand: 12 mm over 240 mm is 2.866 deg, on both sides.
        assert_relative_eq!(transom.retracted_angle.get::<degree>(), 2.866, max_relative = 1e-3);
        let largest = boat.sizing().largest_deflection;
        assert_relative_eq!(largest.get::<degree>(), 14.0, max_relative = 1e-12);
    }

    #[test]
    fn error_a_side_is_measured_once_and_has_planes() {
        let one = "[[as_fitted]]\nside = \"port\"\nhinge_height = \"7 mm\"\n";
        let problems = |text: String| {
            let faults = parse_boat("b", &text).expect_err("a fault");
            faults.faults().iter().map(|fault| fault.problem.clone()).collect::<Vec<_>>().join("; ")
        };
        let twice = problems(format!("{BOAT}{PLANES}{one}{one}"));
        assert!(twice.contains("port is measured twice"), "{twice}");
        let bare = problems(format!("{BOAT}{one}"));
        assert!(bare.contains("no planes that could have been fitted so"), "{bare}");
    }
}
