//! Through-bolts with a backing plate, where screws do not hold.
//!
//! Each bolt takes its share of the pull and of the force along the transom. Its size follows from
//! both together by von Mises on the stress area of the thread; the backing plate from what the
//! wood bears on its face, and its thickness from its bending between and beyond the bolts.
//!
//! Holes through a transom can sink a boat: every one is sealed, core and all. Where the core is
//! soft, wet or foam, a builder must say what it bears before any nut is drawn tight on it.

use uom::si::area::square_millimeter;
use uom::si::f64::{Area, Force, Length, Pressure};
use uom::si::force::newton;
use uom::si::length::{meter, millimeter};
use uom::si::pressure::{megapascal, pascal};

use super::{DEFAULT_FACTOR_ON_YIELD, PlateMaterial, StrengthError};
use crate::plane::require::{at_least, positive};

/// Proof stress (0.2 %) of stainless bolts of property class 70, such as A4-70, MPa: ISO 3506-1,
/// from memory.
pub const PROOF_STRESS_MPA: f64 = 450.0;

/// What sound plywood bears on its face in wet service, MPa: 210 psi for Douglas fir, US design
/// specification for plywood, species group 1, from memory. It holds a safety factor already.
pub const WOOD_BEARING_MPA: f64 = 1.45;

/// Least thickness of a backing plate, metres. Common practice, no source.
const LEAST_THICKNESS_M: f64 = 0.003;
/// Steps in which width and thickness of a backing plate are rounded up, metres.
const WIDTH_STEP_M: f64 = 0.005;
const THICKNESS_STEP_M: f64 = 0.001;
/// Least width of a backing plate in diameters of its bolts, for the washers. Common practice, no
/// source.
const WIDTH_DIAMETERS: f64 = 4.0;

/// Outside of a wide washer in diameters of its bolt.
const WASHER_DIAMETERS: f64 = 3.0;

/// How much thinner than the screw a bolt may be that takes its hole, mm: M6 for a quarter of an
/// inch. Chosen here.
const THINNER_MM: f64 = 0.5;

/// Bolts by diameter in mm, stress area of the coarse thread in mm² (ISO 898-1, from memory) and
/// clearance hole of the fine series in mm (ISO 273, from memory).
const SIZES: [(f64, f64, f64); 7] = [
    (4.0, 8.78, 4.3),
    (5.0, 14.2, 5.3),
    (6.0, 20.1, 6.4),
    (8.0, 36.6, 8.4),
    (10.0, 58.0, 10.5),
    (12.0, 84.3, 13.0),
    (16.0, 157.0, 17.0),
];

/// A bolt with a metric coarse thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bolt {
    /// Diameter of the thread.
    pub diameter: Length,
    /// Stress area of the thread.
    pub stress_area: Area,
    /// Hole that it goes through.
    pub hole: Length,
}

impl Bolt {
    /// As sold: `M6`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("M{:.0}", self.diameter.get::<millimeter>())
    }

    /// Outside of the wide washer that goes with it: three diameters (ISO 7093, from memory; M5 to
    /// M10 are so by that list).
    #[must_use]
    pub fn washer(&self) -> Length {
        self.diameter * WASHER_DIAMETERS
    }

    /// Share that a pull and a force across take of what the bolt bears with its safety factor.
    #[must_use]
    pub fn share(&self, pull: Force, across: Force) -> f64 {
        let area_m2 = self.stress_area.get::<uom::si::area::square_meter>();
        let [pull_n, across_n] = [pull, across].map(|force| force.get::<newton>());
        let allowed = Pressure::new::<megapascal>(PROOF_STRESS_MPA) / DEFAULT_FACTOR_ON_YIELD;
        combined(pull_n / area_m2, across_n / area_m2) / allowed.get::<pascal>()
    }
}

/// Tension that counts as much as a tension and a shear together, `√(σ² + 3 τ²)`: R. von Mises
/// 1913. Stresses, or the forces that raise them on one area.
#[must_use]
pub fn combined(tension: f64, shear: f64) -> f64 {
    (tension * tension + 3.0 * shear * shear).sqrt()
}

/// The least bolt that bears a pull and a force across, not thinner than the screw whose hole it
/// takes less half a millimetre; none when no size of the list does.
#[must_use]
pub fn least_bolt(pull: Force, across: Force, screw: Length) -> Option<Bolt> {
    let sizes = SIZES.iter().map(|&(diameter_mm, area_mm2, hole_mm)| Bolt {
        diameter: Length::new::<millimeter>(diameter_mm),
        stress_area: Area::new::<square_millimeter>(area_mm2),
        hole: Length::new::<millimeter>(hole_mm),
    });
    let least = screw - Length::new::<millimeter>(THINNER_MM);
    sizes.into_iter().find(|bolt| bolt.diameter >= least && bolt.share(pull, across) <= 1.0)
}

/// Bolts in one row or two, as seen by the plate behind them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoltRows {
    /// Bolts in all.
    pub count: u32,
    /// Pull of each.
    pub pull: Force,
    /// Diameter of each.
    pub diameter: Length,
    /// Between neighbours of a row.
    pub spacing: Length,
    /// From the last of a row to the end of the plate.
    pub end: Length,
    /// Between the two rows; zero for one row.
    pub between_rows: Length,
    /// From a row to the side of the plate, at the least.
    pub side: Length,
}

/// A flat plate between the nuts and the transom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BackingPlate {
    /// Along the rows.
    pub length: Length,
    /// Across them.
    pub width: Length,
    /// Of stainless steel or sea-water aluminium.
    pub thickness: Length,
}

/// Largest bending moment of a strip under an even load, N·m: `w s²/8` between supports `s` apart,
/// which is on the safe side of a strip with more than two, and `w e²/2` where it stands out by
/// `e`. Beam tables, any strength handbook.
#[must_use]
pub fn strip_moment_n_m(load_n_m: f64, spacing_m: f64, overhang_m: f64) -> f64 {
    load_n_m * (spacing_m * spacing_m / 8.0).max(overhang_m * overhang_m / 2.0)
}

/// The backing plate of some bolts: wide enough for the wood to bear it, thick enough not to bend
/// beyond half its yield stress (stainless steel 316; 5083 aluminium has no less).
///
/// # Errors
/// [`StrengthError::Input`] for no bolts, or a length or pull that no bolt has.
pub fn backing_plate(bolts: &BoltRows) -> Result<BackingPlate, StrengthError> {
    let metres = |length: Length| length.get::<meter>();
    let count = at_least("the number of bolts", f64::from(bolts.count), "", 1.0)?;
    let total_n = count * at_least("the pull", bolts.pull.get::<newton>(), "N", 0.0)?;
    let end_m = positive("the end distance", metres(bolts.end), "m")?;
    let side_m = positive("the side distance", metres(bolts.side), "m")?;
    let rows = if metres(bolts.between_rows) > 0.0 { 2.0 } else { 1.0 };
    let length_m = (count / rows - 1.0).max(0.0) * metres(bolts.spacing) + 2.0 * end_m;
    let bearing_m = total_n / (WOOD_BEARING_MPA * 1e6 * length_m);
    let width_m = (metres(bolts.between_rows) + 2.0 * side_m)
        .max(metres(bolts.between_rows) + WIDTH_DIAMETERS * metres(bolts.diameter))
        .max(bearing_m);
    let width_m = up_to_step(width_m, WIDTH_STEP_M);
    let along = strip_moment_n_m(total_n / length_m, metres(bolts.spacing), end_m) / width_m;
    let overhang_m = 0.5 * (width_m - metres(bolts.between_rows));
    let across =
        strip_moment_n_m(total_n / width_m, metres(bolts.between_rows), overhang_m) / length_m;
    let allowed_pa =
        PlateMaterial::stainless_316().limit_stress.get::<pascal>() / DEFAULT_FACTOR_ON_YIELD;
    let thickness_m = (6.0 * along.max(across) / allowed_pa).sqrt().max(LEAST_THICKNESS_M);
    Ok(BackingPlate {
        length: Length::new::<meter>(up_to_step(length_m, WIDTH_STEP_M)),
        width: Length::new::<meter>(width_m),
        thickness: Length::new::<meter>(up_to_step(thickness_m, THICKNESS_STEP_M)),
    })
}

fn up_to_step(value: f64, step: f64) -> f64 {
    (value / step - 1e-6).ceil() * step
}

#[cfg(test)]
mod tests {
    use super::*;

    fn newtons(force_n: f64) -> Force {
        Force::new::<newton>(force_n)
    }

    fn mm(length_mm: f64) -> Length {
        Length::new::<millimeter>(length_mm)
    }

    #[test]
    fn published_proof_loads_of_bolts() {
        // ISO 3506-1 class 70 on the stress areas of ISO 898-1, from memory: 450 MPa on 20.1 mm^2 of
        // an M6 is 9.05 kN, on 36.6 mm^2 of an M8 16.5 kN. Half of that is allowed.
        for (diameter_mm, proof_n) in [(6.0, 9045.0), (8.0, 16_470.0)] {
            let bolt = least_bolt(newtons(1.0), newtons(0.0), mm(diameter_mm)).unwrap();
            approx::assert_relative_eq!(
                bolt.share(newtons(proof_n / 2.0), newtons(0.0)),
                1.0,
                max_relative = 1e-3
            );
        }
    }

    #[test]
    fn physics_shear_counts_root_three_times() {
        let bolt = least_bolt(newtons(1.0), newtons(1.0), mm(6.0)).unwrap();
        let shared = |pull, across| bolt.share(newtons(pull), newtons(across));
        approx::assert_relative_eq!(shared(0.0, 1000.0) / shared(1000.0, 0.0), 3f64.sqrt());
        approx::assert_relative_eq!(shared(3000.0, 4000.0), shared(57f64.sqrt() * 1000.0, 0.0));
    }

    #[test]
    fn practice_a_bolt_takes_the_hole_of_its_screw_unless_the_load_asks_for_more() {
        let name = |pull_n, screw_mm| {
            least_bolt(newtons(pull_n), newtons(0.0), mm(screw_mm)).map(|bolt| bolt.name())
        };
        assert_eq!(name(500.0, 6.0).as_deref(), Some("M6"));
        // A No. 10 screw of 4.83 mm leaves a hole for M5, one of 1/4 in for M6.
        assert_eq!(name(500.0, 4.83).as_deref(), Some("M5"));
        assert_eq!(name(500.0, 6.35).as_deref(), Some("M6"));
        assert_eq!(name(500.0, 7.0).as_deref(), Some("M8"));
        assert_eq!(name(6000.0, 6.0).as_deref(), Some("M8"));
        assert_eq!(name(60_000.0, 6.0), None);
    }

    #[test]
    fn physics_a_backing_plate_by_hand() {
        // Twelve bolts of 1 kN each, 50 mm apart, ends 25 mm: 600 mm long. Bearing on 1.45 MPa asks
        // for 13.8 mm of width; the leaf asks for 40. Along: 20 kN/m over 50 mm spans is 6.25 N m,
        // as 25 mm beyond the last bolt, on 40 mm of width 156 N; across: 300 kN/m, 20 mm out,
        // 60 N m on 600 mm, 100 N. With 102.5 MPa: sqrt(6 x 156 / 102.5e6) = 3.02 mm.
        let rows = BoltRows {
            count: 12,
            pull: newtons(1000.0),
            diameter: mm(6.0),
            spacing: mm(50.0),
            end: mm(25.0),
            between_rows: mm(0.0),
            side: mm(20.0),
        };
        let plate = backing_plate(&rows).unwrap();
        let [length, width, thickness] =
            [plate.length, plate.width, plate.thickness].map(|l| l.get::<millimeter>());
        approx::assert_relative_eq!(length, 600.0, max_relative = 1e-9);
        approx::assert_relative_eq!(width, 40.0, max_relative = 1e-9);
        approx::assert_relative_eq!(thickness, 4.0, max_relative = 1e-9);
        // Ten times the pull: now the wood asks for 138 mm.
        let heavy = backing_plate(&BoltRows { pull: newtons(10_000.0), ..rows }).unwrap();
        approx::assert_relative_eq!(heavy.width.get::<millimeter>(), 140.0, max_relative = 1e-9);
        assert!(heavy.thickness > plate.thickness);
        assert!(backing_plate(&BoltRows { count: 0, ..rows }).is_err());
    }
}
