//! Heeling moment of a plane that stands deeper than its partner.

/// Roll moment of one plane about the fore-and-aft axis at the height of the sideways reaction, for each newton of its vertical lift, m.
///
/// The plane's force ΔL/cos β stands normal to its bottom panel and leans
/// inward. In straight running the sideways forces sum to zero, so the inward
/// part ΔL tan β is reacted at some height z_r above the keel (bottom, skeg or
/// leg): M = (ΔL/cos β)(y_p/cos β − z_r sin β), with y_p the distance of
/// mid-span off the centreline. Positive lifts the plane's own side. Derived here.
#[must_use]
pub fn arm_m(mid_span_m: f64, reaction_height_m: f64, deadrise_deg: f64) -> f64 {
    let (sine, cosine) = deadrise_deg.to_radians().sin_cos();
    (mid_span_m / cosine - reaction_height_m * sine) / cosine
}

/// Share of the full arm when part of the lift spreads over the bottom towards the centreline; from a vortex lattice. Derived here.
pub const SPREAD_SHARE: f64 = 0.7;

/// Between which heights, and with which share of the arm, the rolling of a plane is expected.
///
/// First index: the sideways force is reacted at the bottom, or at the height
/// of the centre of gravity. Second: the whole lift acts at mid-span, or part of
/// it is spread over the bottom. The first of all is the largest, the last the
/// least. Not above zero where the inward lean of the force eats the arm up.
/// Derived here.
#[must_use]
pub fn arms_m(
    mid_span_m: f64,
    centre_of_gravity_height_m: f64,
    deadrise_deg: f64,
) -> [[f64; 2]; 2] {
    [0.0, centre_of_gravity_height_m].map(|height_m| {
        let whole_m = arm_m(mid_span_m, height_m, deadrise_deg);
        [whole_m, SPREAD_SHARE * whole_m]
    })
}

#[cfg(test)]
mod tests {
    use super::arm_m;
    use approx::assert_relative_eq;

    #[test]
    fn physics_flat_bottom_has_the_plain_lever() {
        assert_relative_eq!(arm_m(0.8, 0.5, 0.0), 0.8);
    }

    #[test]
    fn physics_moment_is_that_of_the_normal_force_about_the_reaction() {
        // Force (−tan β, 1) at (y, y tan β) on the panel, moment about (0, z): y·1 − (y tan β − z)(−tan β)
        let (y, z, deadrise_deg) = (0.7_f64, 0.4_f64, 20.0_f64);
        let tangent = deadrise_deg.to_radians().tan();
        let by_components = y + (y * tangent - z) * tangent;
        assert_relative_eq!(arm_m(y, z, deadrise_deg), by_components, max_relative = 1e-12);
    }
}
