//! Resistance of transom-stern craft before they plane.
//!
//! Source: Mercier, J. A. & Savitsky, D. (1973), Resistance of Transom-Stern
//! Craft in the Pre-Planing Regime, Davidson Laboratory Report SIT-DL-73-1667;
//! printed again in Savitsky & Brown (1976), Marine Technology 13(4). A
//! regression on seven systematic series of 118 models, for a displacement of
//! 100 000 lb in sea water. Coefficients, wetted area and ranges are from memory.
//!
//! The regression knows neither the centre of gravity nor trim planes: it
//! answers for a usual trim, and for a boat with her planes up.

use std::ops::RangeInclusive;

use super::series_scale::{Scale, Standard};

/// F∇ for which the regression stands.
pub const TESTED_VOLUME_FROUDE_NUMBER: RangeInclusive<f64> = 1.0..=2.0;
/// Slenderness L/∇^⅓ of the models. From memory.
pub const TESTED_SLENDERNESS: RangeInclusive<f64> = 3.07..=12.4;
/// Half angle of entrance of the models, degrees. From memory.
pub const TESTED_HALF_ENTRANCE_DEG: RangeInclusive<f64> = 3.7..=28.6;
/// Length over beam of the models. From memory.
pub const TESTED_LENGTH_OVER_BEAM: RangeInclusive<f64> = 2.52..=18.26;
/// Beam over draft of the models. From memory.
pub const TESTED_BEAM_OVER_DRAFT: RangeInclusive<f64> = 1.7..=9.8;
/// Transom area over largest sectional area of the models. From memory.
pub const TESTED_TRANSOM_AREA_RATIO: RangeInclusive<f64> = 0.0..=1.0;

/// Coefficients of one row: A1 A2 A4 A5 A6 A7 A8 A9 A10 A15 A18 A19 A24 A27.
type Row = [f64; 14];

/// Rows for F∇ = 1.0, 1.1 … 2.0. From memory.
#[rustfmt::skip]
const ROWS: [Row; 11] = [
    [0.06473, -0.48680, -0.01030, -0.06490,  0.0,      0.10628, 0.97310, -0.00272, 0.01089, 0.0,     -1.40962, 0.29136, 0.02971, -0.00150],
    [0.10776, -0.88787, -0.01634, -0.13444,  0.0,      0.18186, 1.83080, -0.00389, 0.01467, 0.0,     -2.46696, 0.47305, 0.05877, -0.00356],
    [0.09483, -0.63720, -0.01540, -0.13580, -0.16046,  0.16803, 1.55972, -0.00309, 0.03481, 0.0,     -2.15556, 1.02992, 0.05198, -0.00303],
    [0.03475,  0.0,     -0.00978, -0.05097, -0.21880,  0.10434, 0.43510, -0.00198, 0.04113, 0.0,     -0.92663, 1.06392, 0.02209, -0.00105],
    [0.03013,  0.0,     -0.00664, -0.05540, -0.19359,  0.09612, 0.51820, -0.00215, 0.03901, 0.0,     -0.95276, 0.97757, 0.02413, -0.00140],
    [0.03163,  0.0,      0.0,     -0.10543, -0.20540,  0.06007, 0.58230, -0.00372, 0.04794, 0.08317, -0.70895, 1.19737, 0.0,      0.0],
    [0.03194,  0.0,      0.0,     -0.08599, -0.19442,  0.06191, 0.52049, -0.00360, 0.04436, 0.07366, -0.72057, 1.18119, 0.0,      0.0],
    [0.04343,  0.0,      0.0,     -0.13289, -0.18062,  0.05487, 0.78195, -0.00332, 0.04187, 0.12147, -0.95929, 1.01562, 0.0,      0.0],
    [0.05036,  0.0,      0.0,     -0.15597, -0.17813,  0.05099, 0.92859, -0.00308, 0.04111, 0.14928, -1.12178, 0.93144, 0.0,      0.0],
    [0.05612,  0.0,      0.0,     -0.18661, -0.18288,  0.04744, 1.18569, -0.00244, 0.04124, 0.18090, -1.38644, 0.78414, 0.0,      0.0],
    [0.05967,  0.0,      0.0,     -0.19758, -0.20152,  0.04645, 1.30026, -0.00212, 0.04343, 0.19769, -1.55127, 0.78282, 0.0,      0.0],
];
/// Step of F∇ between rows.
const ROW_STEP: f64 = 0.1;

/// What the regression asks of a hull: lengths and areas on the waterline at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Form {
    /// Slenderness L/∇^⅓, L the length of the waterline.
    pub slenderness: f64,
    /// Load coefficient ∇/b³, b the largest beam over the chines.
    pub load_coefficient: f64,
    /// Half angle of entrance of the waterline, degrees.
    pub half_entrance_deg: f64,
    /// Immersed transom area over largest immersed sectional area.
    pub transom_area_ratio: f64,
    /// Beam over draft; only the wetted area for the friction depends on it.
    pub beam_over_draft: f64,
}

impl Form {
    /// Length over beam.
    #[must_use]
    pub fn length_over_beam(&self) -> f64 {
        self.slenderness * self.load_coefficient.cbrt()
    }

    /// Whether every parameter lies within those of the models.
    #[must_use]
    pub fn is_tested(&self) -> bool {
        TESTED_SLENDERNESS.contains(&self.slenderness)
            && TESTED_HALF_ENTRANCE_DEG.contains(&self.half_entrance_deg)
            && TESTED_LENGTH_OVER_BEAM.contains(&self.length_over_beam())
            && TESTED_BEAM_OVER_DRAFT.contains(&self.beam_over_draft)
            && TESTED_TRANSOM_AREA_RATIO.contains(&self.transom_area_ratio)
    }
}

/// R/Δ at 100 000 lb, F∇ from 1 to 2; none outside.
///
/// R/Δ = A1 + A2 X + A4 U + A5 W + A6 XZ + A7 XU + A8 XW + A9 ZU + A10 ZW +
/// A15 W² + A18 XW² + A19 ZX² + A24 UW² + A27 WU², with X = ∇^⅓/L, Z = ∇/b³,
/// U = √(2 i_e) (i_e in degrees) and W = A_T/A_X.
///
/// Between the rows printed for every tenth of F∇ the value is interpolated
/// along a straight line: it has no jump, and it keeps between its two rows.
#[must_use]
pub fn standard_resistance_ratio(form: &Form, volume_froude_number: f64) -> Option<f64> {
    if !TESTED_VOLUME_FROUDE_NUMBER.contains(&volume_froude_number) {
        return None;
    }
    let place = (volume_froude_number - TESTED_VOLUME_FROUDE_NUMBER.start()) / ROW_STEP;
    let lower = (0..ROWS.len() - 2).rev().find(|&row| row as f64 <= place).unwrap_or(0);
    let share = place - lower as f64;
    let terms = terms(form);
    let [below, above] = [lower, lower + 1].map(|row| {
        ROWS[row].iter().zip(terms).map(|(coefficient, term)| coefficient * term).sum::<f64>()
    });
    Some(below + share * (above - below))
}

/// What each coefficient of a row multiplies.
fn terms(form: &Form) -> Row {
    let x = 1.0 / form.slenderness;
    let z = form.load_coefficient;
    let u = (2.0 * form.half_entrance_deg).sqrt();
    let w = form.transom_area_ratio;
    [
        1.0,
        x,
        u,
        w,
        x * z,
        x * u,
        x * w,
        z * u,
        z * w,
        w * w,
        x * w * w,
        z * x * x,
        u * w * w,
        w * u * u,
    ]
}

/// Wetted area at rest over ∇^⅔: 2.262 √(L/∇^⅓) [1 + 0.046 B/T + 0.00287 (B/T)²].
///
/// Mercier & Savitsky (1973), for the friction correction. From memory.
#[must_use]
pub fn wetted_area_ratio(slenderness: f64, beam_over_draft: f64) -> f64 {
    2.262
        * slenderness.sqrt()
        * (1.0 + 0.046 * beam_over_draft + 0.00287 * beam_over_draft * beam_over_draft)
}

/// R/Δ of a hull of any size: [`standard_resistance_ratio`] with its friction exchanged for that of the hull.
///
/// ΔR/Δ = ½ [(Cf + ΔCf) − Cf at 100 000 lb] (S/∇^⅔) F∇², both Cf by Schoenherr
/// on the length of the waterline, as in the paper; S at rest. None outside F∇ 1 to 2, for a form outside the
/// models', and where the regression falls below the friction of the hull's own wetted area: each parameter
/// may lie within the models' and their combination far outside (a fine entrance before a full transom).
#[must_use]
pub fn resistance_ratio(form: &Form, scale: &Scale, volume_froude_number: f64) -> Option<f64> {
    let standard = standard_resistance_ratio(form, volume_froude_number)?;
    let hull = Standard {
        resistance_ratio: standard,
        wetted_area: wetted_area_ratio(form.slenderness, form.beam_over_draft),
        length: form.slenderness,
        volume_froude_number,
    };
    let is_a_hull = form.is_tested() && standard > hull.friction_ratio()?;
    is_a_hull.then(|| hull.at(scale))?
}

/// Draft of the keel at rest of a boat that floats level, in chine beams.
///
/// The largest section is taken as the bottom's V, with upright sides above the
/// chines; its area is ∇/(C_P L) with a prismatic coefficient of 0.75 (common
/// practice for transom sterns, no source). It only serves the wetted area.
#[must_use]
pub fn draft_at_rest(load_coefficient: f64, length_over_beam: f64, deadrise_deg: f64) -> f64 {
    const PRISMATIC_COEFFICIENT: f64 = 0.75;
    let area = load_coefficient / (PRISMATIC_COEFFICIENT * length_over_beam);
    let slope = deadrise_deg.to_radians().tan();
    let to_chine = 0.25 * slope;
    if area >= to_chine { area + to_chine } else { (area * slope).sqrt() }
}

#[cfg(test)]
mod tests {
    use super::super::series_scale::{STANDARD_VISCOSITY_M2_S, STANDARD_VOLUME_M3};
    use super::*;
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    fn forms() -> impl Strategy<Value = Form> {
        (4.0..9.0, 3.0..8.0, 4.0..28.0, 0.0..1.0, 2.0..8.0).prop_map(
            |(slenderness, length_over_beam, half_entrance_deg, transom_area_ratio, draft): (
                f64,
                f64,
                f64,
                f64,
                f64,
            )| {
                let load_coefficient = (length_over_beam / slenderness).powi(3);
                let beam_over_draft = draft;
                Form {
                    slenderness,
                    load_coefficient,
                    half_entrance_deg,
                    transom_area_ratio,
                    beam_over_draft,
                }
            },
        )
    }

    /// A slender round-bilge form with a small transom, like the parents of the series behind the regression.
    fn slender() -> Form {
        Form {
            slenderness: 8.0,
            load_coefficient: 0.5,
            half_entrance_deg: 11.0,
            transom_area_ratio: 0.5,
            beam_over_draft: 4.0,
        }
    }

    /// A planing hull of moderate load.
    fn beamy() -> Form {
        Form {
            slenderness: 5.5,
            load_coefficient: 0.30,
            half_entrance_deg: 22.0,
            transom_area_ratio: 0.9,
            beam_over_draft: 4.5,
        }
    }

    #[test]
    fn practice_usual_hulls_have_usual_resistance() {
        // From memory, no source: at 100 000 lb slender round-bilge forms have
        // R/Δ of 0.03 to 0.08 from F∇ 1.2 to 2, hard-chine forms 0.05 to 0.15.
        for froude in [1.2, 1.5, 2.0] {
            let slender = standard_resistance_ratio(&slender(), froude).unwrap();
            let beamy = standard_resistance_ratio(&beamy(), froude).unwrap();
            assert!((0.03..0.08).contains(&slender), "{froude}: {slender}");
            assert!((0.05..0.15).contains(&beamy), "{froude}: {beamy}");
            assert!(slender < beamy);
        }
    }

    #[test]
    fn physics_no_answer_off_the_rows_and_the_ends_are_on_them() {
        for froude in [0.999, 2.001, f64::NAN] {
            assert_eq!(standard_resistance_ratio(&slender(), froude), None);
        }
        for froude in [1.0, 2.0] {
            assert!(standard_resistance_ratio(&slender(), froude).is_some());
        }
    }

    #[test]
    fn physics_at_100_000_lb_nothing_is_corrected() {
        let scale = Scale {
            displaced_volume_m3: STANDARD_VOLUME_M3,
            kinematic_viscosity_m2_s: STANDARD_VISCOSITY_M2_S,
            correlation_allowance: 0.0,
        };
        for froude in [1.0, 1.37, 2.0] {
            assert_relative_eq!(
                resistance_ratio(&beamy(), &scale, froude).unwrap(),
                standard_resistance_ratio(&beamy(), froude).unwrap(),
                max_relative = 1e-12
            );
        }
    }

    #[test]
    fn physics_wetted_area_agrees_with_a_level_prism() {
        // A V bottom with the chine at the water line, b 2.25 m, 18 deg, 6.5 m long:
        // two panels and half the ends' triangle. The formula stands for real bows,
        // whose ends are fined: 20 % is asked.
        let (beam_m, length_m, slope) = (2.25, 6.5, 18.0_f64.to_radians().tan());
        let draft_m = 0.5 * beam_m * slope;
        let volume_m3: f64 = 0.5 * beam_m * draft_m * length_m;
        let panels_m2 = length_m * beam_m * slope.hypot(1.0);
        let ratio = wetted_area_ratio(length_m / volume_m3.cbrt(), beam_m / draft_m);
        assert_relative_eq!(ratio * volume_m3.cbrt().powi(2), panels_m2, max_relative = 0.20);
    }

    #[test]
    fn physics_draft_holds_the_volume_and_is_whole_at_the_chine() {
        let slope = 18.0_f64.to_radians().tan();
        let at_chine = 0.75 * 3.0 * 0.25 * slope;
        assert_relative_eq!(
            draft_at_rest(at_chine * (1.0 - 1e-12), 3.0, 18.0),
            draft_at_rest(at_chine * (1.0 + 1e-12), 3.0, 18.0),
            max_relative = 1e-9
        );
        assert_relative_eq!(draft_at_rest(at_chine, 3.0, 18.0), 0.5 * slope, max_relative = 1e-12);
        assert_relative_eq!(draft_at_rest(0.3, 3.0, 0.0), 0.3 / 2.25, max_relative = 1e-12);
    }

    proptest! {
        #[test]
        fn physics_value_has_no_jump_anywhere(form in forms(), froude in 1.0..1.999_f64) {
            let step = 1e-6;
            let at = |f: f64| standard_resistance_ratio(&form, f).unwrap();
            // The steepest of all usual hulls rises by less than 3 per unit of F∇.
            prop_assert!((at(froude + step) - at(froude)).abs() < 3.0 * step + 1e-12);
        }

        #[test]
        fn physics_rows_meet_from_both_sides(form in forms(), row in 1_u8..10) {
            let froude = 1.0 + 0.1 * f64::from(row);
            let at = |f: f64| standard_resistance_ratio(&form, f).unwrap();
            prop_assert!((at(froude + 1e-9) - at(froude - 1e-9)).abs() < 1e-8);
        }

        #[test]
        fn physics_a_smaller_boat_has_more_friction(form in forms(), froude in 1.0..2.0_f64) {
            let at = |displaced_volume_m3| {
                let scale = Scale {
                    displaced_volume_m3,
                    kinematic_viscosity_m2_s: STANDARD_VISCOSITY_M2_S,
                    correlation_allowance: 0.0,
                };
                resistance_ratio(&form, &scale, froude)
            };
            // Some of the forms are outside the models, or combined as none of them was.
            prop_assert_eq!(at(2.7).is_some(), at(10.0).is_some());
            if let [Some(small), Some(medium), Some(standard)] =
                [2.7, 10.0, STANDARD_VOLUME_M3].map(at)
            {
                prop_assert!(small > medium && medium > standard);
            }
        }

        #[test]
        fn physics_no_number_is_less_than_the_friction_of_the_hull(
            slenderness in 2.0..14.0_f64,
            length_over_beam in 2.0..20.0_f64,
            (half_entrance_deg, transom_area_ratio) in (1.0..40.0_f64, 0.0..1.0_f64),
            (beam_over_draft, froude) in (1.0..12.0_f64, 1.0..2.0_f64),
            displaced_volume_m3 in 0.3..50.0_f64,
        ) {
            let form = Form {
                slenderness,
                load_coefficient: (length_over_beam / slenderness).powi(3),
                half_entrance_deg,
                transom_area_ratio,
                beam_over_draft,
            };
            let scale = Scale {
                displaced_volume_m3,
                kinematic_viscosity_m2_s: STANDARD_VISCOSITY_M2_S,
                correlation_allowance: 0.0,
            };
            let ratio = resistance_ratio(&form, &scale, froude);
            prop_assert!(form.is_tested() || ratio.is_none());
            // Schoenherr's line is over 0.0017 up to Re 1e9.
            let least = 0.5 * 0.0017 * wetted_area_ratio(slenderness, beam_over_draft) * froude * froude;
            prop_assert!(ratio.is_none_or(|ratio| ratio > least), "{ratio:?} {least}");
        }
    }
}
