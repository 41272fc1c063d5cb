//! Screws in the transom: withdrawal, and the pull of the hinge on them.
//!
//! A hole drilled below the waterline can sink a boat. Bed and seal every fastener, seal the
//! core of every hole, keep the screws clear of what stands behind the transom, and leave any
//! doubt about the transom's make-up to the builder or a surveyor. Only withdrawal is computed
//! here: the sideways (shear) load, the screw's own tensile strength and rot are not.

use uom::si::f64::{Force, Length};
use uom::si::force::{newton, pound_force};
use uom::si::length::{inch, meter};

use super::StrengthError;
use crate::plane::require::{at_least, between, positive};

/// Withdrawal of wood screws, `p = 15 700 G² D L` (pound-force, inch): USDA Forest Products
/// Laboratory, *Wood Handbook*, chapter on fastenings (from memory). Ultimate, dry wood, driven
/// into side grain with lead holes of about 70 % of the root diameter in softwood.
pub const WITHDRAWAL_LBF_PER_IN2: f64 = 15_700.0;

/// Ultimate over allowable withdrawal. Common practice; it is also, to 0.2 %, the ratio to the
/// allowable `2850 G² D` per inch of the US National Design Specification for wood, whose worked
/// examples `planewright check` holds this against.
pub const DEFAULT_WITHDRAWAL_FACTOR: f64 = 5.5;

/// Reduction for wood that is wet in service: 0.7 (US National Design Specification, wet-service
/// factor for screws in withdrawal above 19 % moisture; from memory).
pub const WET_SERVICE_FACTOR: f64 = 0.7;

/// Specific gravity of common softwood plywood when no better is known (design practice for
/// plywood of Douglas fir, from memory). The holding goes with its square: find out.
pub const DEFAULT_PLYWOOD_GRAVITY: f64 = 0.50;

/// What the screws bite into.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TransomMaterial {
    /// Solid wood or a sound plywood core.
    WoodOrPlywood {
        /// Oven-dry specific gravity of the wood, 0.25 to 0.9.
        specific_gravity: f64,
    },
    /// Solid laminate, without core.
    SolidLaminate,
    /// Foam, honeycomb or poured core.
    OtherCore,
    /// Aluminium or steel.
    Metal,
}

/// One wood screw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    /// Shank diameter `D`.
    pub diameter: Length,
    /// Length of thread in the wood `L`, without the point and without any skin of laminate.
    pub thread_in_wood: Length,
}

/// Holding of one screw against being pulled out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ScrewHolding {
    /// Covered by the handbook's law.
    Covered {
        /// Ultimate of a dry test.
        ultimate: Force,
        /// After wet service and safety factor.
        safe: Force,
    },
    /// Not covered: nothing may be concluded.
    NotCovered {
        /// What to do instead.
        advice: &'static str,
    },
}

impl ScrewHolding {
    /// What it holds with its safety factor; none where that is not covered.
    #[must_use]
    pub const fn safe(self) -> Option<Force> {
        match self {
            Self::Covered { safe, .. } => Some(safe),
            Self::NotCovered { .. } => None,
        }
    }
}

/// Advice for transoms that the withdrawal law does not cover.
pub const THROUGH_BOLT_ADVICE: &str = "this transom is not covered by the wood-screw law: the \
     plane must be through-bolted with backing plates, or the fastening checked by the builder";

/// Ultimate withdrawal of a wood screw, pound-force, from inches. See
/// [`WITHDRAWAL_LBF_PER_IN2`].
pub fn withdrawal_lbf(specific_gravity: f64, diameter_in: f64, thread_in: f64) -> f64 {
    WITHDRAWAL_LBF_PER_IN2 * specific_gravity * specific_gravity * diameter_in * thread_in
}

/// Holding of one screw, with [`DEFAULT_WITHDRAWAL_FACTOR`] and [`WET_SERVICE_FACTOR`] as the
/// usual `safety_factor` and `wet_factor`.
///
/// # Errors
/// [`StrengthError::Input`] for a screw without size, a specific gravity that no wood has, a
/// safety factor below 1 or a wet factor outside 0.1 to 1.
pub fn screw_holding(
    screw: &Screw,
    transom: TransomMaterial,
    safety_factor: f64,
    wet_factor: f64,
) -> Result<ScrewHolding, StrengthError> {
    let diameter_in = positive("the screw diameter", screw.diameter.get::<inch>(), "in")?;
    let thread_in = positive("the thread in wood", screw.thread_in_wood.get::<inch>(), "in")?;
    let factor = at_least("the safety factor", safety_factor, "", 1.0)?;
    let wet = between("the wet-service factor", wet_factor, "", 0.1, 1.0)?;
    let TransomMaterial::WoodOrPlywood { specific_gravity } = transom else {
        return Ok(ScrewHolding::NotCovered { advice: THROUGH_BOLT_ADVICE });
    };
    let gravity = between("the specific gravity", specific_gravity, "", 0.25, 0.9)?;
    let ultimate_lbf = withdrawal_lbf(gravity, diameter_in, thread_in);
    Ok(ScrewHolding::Covered {
        ultimate: Force::new::<pound_force>(ultimate_lbf),
        safe: Force::new::<pound_force>(ultimate_lbf * wet / factor),
    })
}

/// The screws that hold the hinge leaf, or any bracket, to the transom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScrewGroup {
    /// Number of screws.
    pub count: u32,
    /// Hinge or bracket pin aft of the transom face: the arm of the sideways force.
    pub pin_offset: Length,
    /// Least distance from the screw row to the edge about which the leaf would pry.
    pub prying_arm: Length,
}

/// Pull on one screw of the group: the force away from the transom shared equally, plus the
/// prying of the force along the transom, `|along| · pin offset / prying arm`, shared likewise.
/// Derived here: equal sharing needs a leaf stiffer than its screws, so keep them evenly spaced.
///
/// `off_transom` is the force on the leaf square to the transom, positive away from it; a
/// negative one presses the leaf on and is not credited. `along_transom` is the force along the
/// face, either way. Both come from
/// [`hinge_reaction`](crate::plane::linkage::Linkage::hinge_reaction).
///
/// # Errors
/// [`StrengthError::Input`] for no screws, a negative offset, a prying arm not above zero, or a
/// force that is not finite.
pub fn pull_per_screw(
    group: &ScrewGroup,
    off_transom: Force,
    along_transom: Force,
) -> Result<Force, StrengthError> {
    let finite = |name, force: Force| between(name, force.get::<newton>(), "N", -1e9, 1e9);
    let count = at_least("the number of screws", f64::from(group.count), "", 1.0)?;
    let offset_m = at_least("the pin offset", group.pin_offset.get::<meter>(), "m", 0.0)?;
    let arm_m = positive("the prying arm", group.prying_arm.get::<meter>(), "m")?;
    let straight_n = finite("the pull", off_transom)?.max(0.0);
    let prying_n = finite("the force along the transom", along_transom)?.abs() * offset_m / arm_m;
    Ok(Force::new::<newton>((straight_n + prying_n) / count))
}

#[cfg(test)]
mod tests {
    use uom::si::length::millimeter;

    use super::*;

    fn screw(diameter_in: f64, thread_in: f64) -> Screw {
        Screw {
            diameter: Length::new::<inch>(diameter_in),
            thread_in_wood: Length::new::<inch>(thread_in),
        }
    }

    const PLYWOOD: TransomMaterial =
        TransomMaterial::WoodOrPlywood { specific_gravity: DEFAULT_PLYWOOD_GRAVITY };

    #[test]
    fn published_allowable_withdrawal_table() {
        // US National Design Specification for wood, table of wood-screw withdrawal, lbf per
        // inch of thread at G = 0.50 (from memory): No. 6 98, No. 8 117, No. 10 135, No. 12 154.
        // The table holds the ultimate law over 5.509, so 0.5 % for that and for rounding.
        for (diameter_in, printed) in
            [(0.138, 98.0), (0.164, 117.0), (0.190, 135.0), (0.216, 154.0)]
        {
            let holding = screw_holding(&screw(diameter_in, 1.0), PLYWOOD, 5.5, 1.0).unwrap();
            let ScrewHolding::Covered { safe, .. } = holding else { panic!("plywood is covered") };
            approx::assert_relative_eq!(safe.get::<pound_force>(), printed, max_relative = 0.005);
        }
    }

    #[test]
    fn published_metric_form_of_the_law() {
        // The Wood Handbook prints the metric form as 108.25 G² D L, newtons and millimetres
        // (from memory).
        let metric = Screw {
            diameter: Length::new::<millimeter>(5.0),
            thread_in_wood: Length::new::<millimeter>(30.0),
        };
        let oak = TransomMaterial::WoodOrPlywood { specific_gravity: 0.6 };
        let holding = screw_holding(&metric, oak, 5.5, WET_SERVICE_FACTOR).unwrap();
        let ScrewHolding::Covered { ultimate, safe } = holding else { panic!("oak is covered") };
        let printed = 108.25 * 0.36 * 150.0;
        approx::assert_relative_eq!(ultimate.get::<newton>(), printed, max_relative = 1e-4);
        approx::assert_relative_eq!(safe.get::<newton>(), printed * 0.7 / 5.5, max_relative = 1e-4);
    }

    #[test]
    fn practice_other_transoms_are_through_bolted() {
        for transom in
            [TransomMaterial::SolidLaminate, TransomMaterial::OtherCore, TransomMaterial::Metal]
        {
            let holding = screw_holding(&screw(0.19, 1.0), transom, 5.5, 0.7).unwrap();
            let ScrewHolding::NotCovered { advice } = holding else { panic!("not covered") };
            assert_eq!(
                advice,
                "this transom is not covered by the wood-screw law: the plane must be \
                 through-bolted with backing plates, or the fastening checked by the builder"
            );
        }
    }

    #[test]
    fn physics_pull_is_shared_and_pressing_is_not_credited() {
        // By hand: 400 N away, 300 N along on a pin 10 mm off with 15 mm to pry about:
        // 400 + 200 over 6 screws.
        let group = ScrewGroup {
            count: 6,
            pin_offset: Length::new::<millimeter>(10.0),
            prying_arm: Length::new::<millimeter>(15.0),
        };
        let pull = |aft_n, along_n| {
            let (aft, along) = (Force::new::<newton>(aft_n), Force::new::<newton>(along_n));
            pull_per_screw(&group, aft, along).unwrap().get::<newton>()
        };
        approx::assert_relative_eq!(pull(400.0, 300.0), 100.0, max_relative = 1e-12);
        approx::assert_relative_eq!(pull(400.0, -300.0), 100.0, max_relative = 1e-12);
        approx::assert_relative_eq!(pull(-400.0, 300.0), 200.0 / 6.0, max_relative = 1e-12);
    }

    #[test]
    fn error_impossible_screws() {
        let holding = |screw: Screw, gravity, factor, wet| {
            let wood = TransomMaterial::WoodOrPlywood { specific_gravity: gravity };
            screw_holding(&screw, wood, factor, wet)
        };
        assert!(holding(screw(0.19, 1.0), 0.5, 5.5, 0.7).is_ok());
        assert!(holding(screw(0.0, 1.0), 0.5, 5.5, 0.7).is_err());
        assert!(holding(screw(0.19, 1.0), 1.2, 5.5, 0.7).is_err());
        assert!(holding(screw(0.19, 1.0), 0.5, 0.5, 0.7).is_err());
        assert!(holding(screw(0.19, 1.0), 0.5, 5.5, 1.5).is_err());
        let none = ScrewGroup {
            count: 0,
            pin_offset: Length::new::<millimeter>(10.0),
            prying_arm: Length::new::<millimeter>(15.0),
        };
        let force = Force::new::<newton>(1.0);
        assert!(pull_per_screw(&none, force, force).is_err());
    }
}
