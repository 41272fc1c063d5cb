//! Roll of a heeled planing bottom: a rough estimate.
//!
//! The lift of the bottom is taken in its two parts (Savitsky 1964, equation 15).
//!
//! *The dynamic part.* Each half of the bottom is put at its own effective
//! deadrise, β − φ on the side that goes down and β + φ on the other, at the same
//! wetted keel and the same trim, and carries half of what a whole bottom of that
//! deadrise would. After the approach of Lewandowski, E. M. (1996), Prediction of
//! the Dynamic Roll Stability of Hard-Chine Planing Craft, Journal of Ship
//! Research 40(2); from memory, and not checked against its numbers. Rolled
//! bottoms were measured by Savitsky, D., Prowse, R. E. & Lueders, D. H. (1958),
//! NACA TN 4187; no printed value of it was at hand.
//!
//! *The static part* is buoyancy, three quarters or more of the lift where planing
//! begins, and rights her as that of a floating hull does: it acts at the
//! metacentre of the wedge that the bottom cuts out of still water
//! ([`FloatingWedge`]). Derived here from hydrostatics. So the righting moment
//! tends to weight × metacentric height as the speed falls, and to that of the
//! dynamic part alone as it rises.

use std::f64::consts::PI;

use super::{lift, wetted};

/// Where the load of half a bottom acts off the centreline, in beams: 2/(3π).
///
/// The middle of half an ellipse. A chine-dry section of a wedge carries
/// p ∝ 1/√(1 − y²) over a half-breadth that grows from the keel to the chine,
/// a slender wetted surface an elliptic spanwise load (Jones 1946, NACA TR
/// 835): both act there. Derived here.
pub const HALF_LOAD_BEAMS: f64 = 2.0 / (3.0 * PI);

/// What a prismatic bottom cuts out of still water, upright: lengths in beams, volumes in beams³.
///
/// From where the keel enters the water the draft grows as s tan τ with the
/// distance s along the keel. The waterline reaches the chines after
/// ½ tan β/tan τ; up to there a section is a triangle, behind it a triangle
/// under a box. Sections are taken square to the keel, and the small difference
/// between its direction and the level (cos τ) is left out. Water raised by the
/// bottom is not counted: what stands above the still water is no buoyancy.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloatingWedge {
    /// Volume below the still water.
    pub volume: f64,
    /// Centre of that volume above the keel.
    pub centre_height: f64,
    /// Metacentre above that centre, second moment of the waterplane over the volume.
    pub metacentric_radius: f64,
}

impl FloatingWedge {
    /// The wedge of a bottom with some of its keel in the water; none without any, or without trim.
    #[must_use]
    pub fn of(wetted_keel_beams: f64, trim_deg: f64, deadrise_deg: f64) -> Option<Self> {
        let slope = trim_deg.to_radians().tan();
        let rise = 0.5 * deadrise_deg.to_radians().tan();
        if wetted_keel_beams <= 0.0 || slope <= 0.0 {
            return None;
        }
        // Up to where the waterline meets the chines, or to the transom.
        let ahead = (rise / slope).min(wetted_keel_beams);
        let width = if rise > 0.0 { (ahead * slope / rise).min(1.0) } else { 1.0 };
        let [draft, deepest] = [ahead, wetted_keel_beams].map(|place| place * slope);
        let behind = wetted_keel_beams - ahead;
        // ∫ s ds and ∫ s² ds of the draft over the part behind.
        let first = 0.5 * (deepest * deepest - draft * draft) / slope;
        let second = (deepest.powi(3) - draft.powi(3)) / (3.0 * slope);
        // Triangles of width and draft that grow together, then ∫ (d − h/2) and ∫ (d²/2 − h²/6), h the height of the chine.
        let volume = width * draft * ahead / 6.0 + first - 0.5 * rise * behind;
        let moment =
            width * draft * draft * ahead / 12.0 + 0.5 * second - rise * rise * behind / 6.0;
        let waterplane = width.powi(3) * ahead / 48.0 + behind / 12.0;
        Some(Self {
            volume,
            centre_height: moment / volume,
            metacentric_radius: waterplane / volume,
        })
    }

    /// The metacentre above the keel.
    #[must_use]
    pub fn metacentre_height(&self) -> f64 {
        self.centre_height + self.metacentric_radius
    }
}

/// A running bottom at the trim and keel wetting at which she is heeled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeeledBottom {
    /// Trim, degrees.
    pub trim_deg: f64,
    /// Speed coefficient Cv.
    pub speed_coefficient: f64,
    /// Deadrise upright, degrees.
    pub deadrise_deg: f64,
    /// Wetted keel over the beam.
    pub wetted_keel_beams: f64,
}

impl HeeledBottom {
    /// Mean wetted length ratio at an effective deadrise, with the same keel wetted; none where nothing of the bottom is.
    fn length_ratio(&self, effective_deadrise_deg: f64) -> Option<f64> {
        let shorter = 0.5 * wetted::keel_minus_chine(effective_deadrise_deg, self.trim_deg);
        Some(self.wetted_keel_beams - shorter).filter(|&length_ratio| length_ratio > 0.0)
    }

    /// Dynamic lift coefficient of half the bottom at an effective deadrise, on q b²: half that of a whole bottom with the same wetted keel.
    ///
    /// None where the deadrise leaves 0 to 40°, or nothing of the bottom is wetted.
    #[must_use]
    pub fn half_dynamic_lift(&self, effective_deadrise_deg: f64) -> Option<f64> {
        if !(0.0..=40.0).contains(&effective_deadrise_deg) {
            return None;
        }
        let length_ratio = self.length_ratio(effective_deadrise_deg)?;
        let flat = lift::flat_plate_dynamic(lift::trim_factor(self.trim_deg), length_ratio);
        Some(0.5 * lift::with_deadrise(flat, effective_deadrise_deg))
    }

    /// Static lift coefficient of the whole bottom upright, on q b²: its lift less the dynamic part of it.
    ///
    /// The deadrise correction is put on both, as Savitsky (1964) puts it on the
    /// dynamic part for the mean bottom speed.
    #[must_use]
    pub fn static_lift(&self) -> Option<f64> {
        let length_ratio = self.length_ratio(self.deadrise_deg)?;
        let flat = lift::flat_plate(self.trim_deg, length_ratio, self.speed_coefficient);
        let dynamic = 2.0 * self.half_dynamic_lift(self.deadrise_deg)?;
        Some(lift::with_deadrise(flat, self.deadrise_deg) - dynamic)
    }

    /// Righting moment of the water at a heel, over q b³, about the keel line; positive lifts the side that went down.
    ///
    /// `heel_deg` is positive; none where a half has no lift to give.
    #[must_use]
    pub fn righting(&self, heel_deg: f64, reaction_height_beams: f64) -> Option<f64> {
        let floating = self.static_righting(heel_deg)?;
        Some(floating + self.dynamic_righting(heel_deg, reaction_height_beams)?)
    }

    /// That of the static part: it acts through the metacentre, and pushes straight up.
    #[must_use]
    pub fn static_righting(&self, heel_deg: f64) -> Option<f64> {
        let wedge = FloatingWedge::of(self.wetted_keel_beams, self.trim_deg, self.deadrise_deg)?;
        let arm = wedge.metacentre_height() * heel_deg.to_radians().sin();
        Some(self.static_lift()? * arm)
    }

    /// That of the dynamic part.
    ///
    /// The load of each half stands normal to its panel at [`HALF_LOAD_BEAMS`]
    /// off the centreline, C_i/(cos β_i cos β) × 2/(3π). The sideways forces of
    /// the two halves no longer cancel; what is left over is reacted at a
    /// height above the keel (in beams), so that ΣF_y = 0.
    #[must_use]
    pub fn dynamic_righting(&self, heel_deg: f64, reaction_height_beams: f64) -> Option<f64> {
        let [low_deg, high_deg] = [self.deadrise_deg - heel_deg, self.deadrise_deg + heel_deg];
        let [low, high] = [self.half_dynamic_lift(low_deg)?, self.half_dynamic_lift(high_deg)?];
        let arm = HALF_LOAD_BEAMS / self.deadrise_deg.to_radians().cos();
        let normal = |lift: f64, deadrise_deg: f64| lift / deadrise_deg.to_radians().cos();
        let sideways = high * high_deg.to_radians().tan() - low * low_deg.to_radians().tan();
        let height = reaction_height_beams * heel_deg.to_radians().cos();
        Some(arm * (normal(low, low_deg) - normal(high, high_deg)) + height * sideways)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const BOTTOM: HeeledBottom = HeeledBottom {
        trim_deg: 4.0,
        speed_coefficient: 3.0,
        deadrise_deg: 18.0,
        wetted_keel_beams: 2.3,
    };

    #[test]
    fn physics_upright_halves_carry_what_the_whole_bottom_carries_and_do_not_roll() {
        let length_ratio = 2.3 - 0.5 * wetted::keel_minus_chine(18.0, 4.0);
        let whole = lift::with_deadrise(lift::flat_plate(4.0, length_ratio, 3.0), 18.0);
        let parts = 2.0 * BOTTOM.half_dynamic_lift(18.0).unwrap() + BOTTOM.static_lift().unwrap();
        assert_relative_eq!(parts, whole, max_relative = 1e-14);
        assert_relative_eq!(BOTTOM.righting(0.0, 0.3).unwrap(), 0.0);
    }

    /// The forces of both panels and the reaction in earth axes, moments about the keel and about another point.
    #[test]
    fn physics_the_dynamic_moment_is_that_of_the_panel_forces_about_any_point() {
        let (heel_deg, height) = (6.0_f64, 0.35_f64);
        let heel = heel_deg.to_radians();
        // Across (towards the low side) and up; the keel is the origin.
        let panel = |side: f64, deadrise_deg: f64| {
            let slope = deadrise_deg.to_radians();
            let lift = BOTTOM.half_dynamic_lift(deadrise_deg).unwrap();
            let along = HALF_LOAD_BEAMS / BOTTOM.deadrise_deg.to_radians().cos();
            let at = [side * along * slope.cos(), along * slope.sin()];
            (at, [-side * lift * slope.tan(), lift])
        };
        let mut loads = vec![panel(1.0, 18.0 - heel_deg), panel(-1.0, 18.0 + heel_deg)];
        let sideways: f64 = loads.iter().map(|(_, force)| force[0]).sum();
        let lifted: f64 = loads.iter().map(|(_, force)| force[1]).sum();
        loads.push(([height * heel.sin(), height * heel.cos()], [-sideways, 0.0]));
        // The weight, through the keel, so that all forces sum to zero.
        loads.push(([0.0, 0.0], [0.0, -lifted]));
        for about in [[0.0, 0.0], [0.7, -1.3]] {
            let moment: f64 = loads
                .iter()
                .map(|(at, force)| (at[0] - about[0]) * force[1] - (at[1] - about[1]) * force[0])
                .sum();
            let ours = BOTTOM.dynamic_righting(heel_deg, height).unwrap();
            assert_relative_eq!(ours, moment, max_relative = 1e-12);
        }
    }

    #[test]
    fn physics_the_low_side_carries_more_and_a_flat_bottom_gives_no_answer() {
        assert!(BOTTOM.half_dynamic_lift(12.0) > BOTTOM.half_dynamic_lift(18.0));
        assert!(BOTTOM.righting(5.0, 0.0).unwrap() > 0.0);
        let flat = HeeledBottom { deadrise_deg: 0.0, ..BOTTOM };
        assert_eq!(flat.righting(1.0, 0.0), None);
        assert_eq!(BOTTOM.righting(19.0, 0.0), None);
    }

    /// By hand: ∫ y √(1 − y²) dy / ∫ √(1 − y²) dy = (1/3)/(π/4) over half a span, of half a beam.
    #[test]
    fn physics_the_middle_of_half_an_ellipse() {
        let steps = 200_000;
        let (mut moment, mut load) = (0.0, 0.0);
        for step in 0..steps {
            let y = (f64::from(step) + 0.5) / f64::from(steps);
            let here = (1.0 - y * y).sqrt();
            moment += y * here;
            load += here;
        }
        assert_relative_eq!(0.5 * moment / load, HALF_LOAD_BEAMS, max_relative = 1e-6);
    }

    /// By hand: a flat bottom cuts out a wedge of triangular profile, half of the box as deep as its deep end.
    #[test]
    fn physics_a_flat_bottom_floats_on_a_triangular_wedge() {
        let wedge = FloatingWedge::of(4.0, 3.0, 0.0).unwrap();
        let draft = 4.0 * 3.0_f64.to_radians().tan();
        assert_relative_eq!(wedge.volume, 0.5 * 4.0 * draft, max_relative = 1e-9);
        assert_relative_eq!(wedge.centre_height, draft / 3.0, max_relative = 1e-9);
        assert_relative_eq!(wedge.metacentric_radius, 1.0 / (6.0 * draft), max_relative = 1e-9);
    }

    /// The volume below an inclined water surface, cut into little blocks, and the moment of its centre about the keel.
    ///
    /// [volume, moment across], in beams; towards the side that goes down.
    fn blocks(keel: f64, trim_deg: f64, deadrise_deg: f64, heel_deg: f64) -> [f64; 2] {
        let (trim, rise) = (trim_deg.to_radians(), deadrise_deg.to_radians().tan());
        let (sin, cos) = heel_deg.to_radians().sin_cos();
        let (along_steps, across_steps) = (600, 800);
        let [mut volume, mut moment] = [0.0; 2];
        for i in 0..along_steps {
            let place = keel * (f64::from(i) + 0.5) / f64::from(along_steps);
            let draft = place * trim.tan();
            for j in 0..across_steps {
                let y = (f64::from(j) + 0.5) / f64::from(across_steps) - 0.5;
                // In the boat's axes the water stands at draft/cos φ + y tan φ over the keel.
                let (bottom, surface) = (rise * y.abs(), draft / cos + y * sin / cos);
                if surface <= bottom {
                    continue;
                }
                let part =
                    (surface - bottom) / f64::from(across_steps) * keel / f64::from(along_steps);
                // Across the vertical through the keel.
                let height = 0.5 * (surface + bottom);
                volume += part;
                moment += part * (y * cos + height * sin);
            }
        }
        [volume, moment]
    }

    /// Archimedes: what the wedge is said to do, by the volume that it cuts out of the water when it is heeled a degree.
    #[test]
    fn physics_a_heeled_wedge_has_the_metacentre_that_its_volume_shows() {
        for (keel, trim_deg, deadrise_deg) in
            [(3.0, 5.0, 18.0), (2.2, 8.0, 10.0), (2.0, 3.0, 25.0), (0.8, 6.0, 20.0)]
        {
            let wedge = FloatingWedge::of(keel, trim_deg, deadrise_deg).unwrap();
            let [volume, _] = blocks(keel, trim_deg, deadrise_deg, 0.0);
            assert_relative_eq!(wedge.volume, volume, max_relative = 2e-3);
            let [_, moment] = blocks(keel, trim_deg, deadrise_deg, 1.0);
            let arm = moment / volume / 1.0_f64.to_radians().sin();
            // Near the bow the water leaves a chine within the degree; the formula knows none of it.
            assert_relative_eq!(wedge.metacentre_height(), arm, max_relative = 1e-2);
        }
    }

    /// The slower, the more of the lift is buoyancy: at last she rights as she would afloat, weight × metacentric height.
    #[test]
    fn physics_slow_she_rights_as_a_floating_prism_and_fast_as_before() {
        let at = |speed_coefficient: f64| HeeledBottom { speed_coefficient, ..BOTTOM };
        let floats = |bottom: &HeeledBottom| {
            let wedge = FloatingWedge::of(2.3, 4.0, 18.0).unwrap();
            let lift =
                bottom.static_lift().unwrap() + 2.0 * bottom.half_dynamic_lift(18.0).unwrap();
            lift * wedge.metacentre_height() * 1.0_f64.to_radians().sin()
        };
        let slow = at(0.01);
        assert_relative_eq!(slow.righting(1.0, 0.3).unwrap(), floats(&slow), max_relative = 1e-3);
        let fast = at(300.0);
        assert_relative_eq!(
            fast.righting(1.0, 0.3).unwrap(),
            fast.dynamic_righting(1.0, 0.3).unwrap(),
            max_relative = 1e-3
        );
        // Between them the share of buoyancy falls steadily.
        let share = |cv: f64| {
            let bottom = at(cv);
            let lift = bottom.static_lift().unwrap();
            lift / (lift + 2.0 * bottom.half_dynamic_lift(18.0).unwrap())
        };
        let shares = [0.5, 1.0, 1.5, 2.0, 3.0, 5.0, 8.0].map(share);
        assert!(shares.windows(2).all(|pair| pair[0] > pair[1]), "{shares:?}");
    }
}
