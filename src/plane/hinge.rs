//! Water load on the plate itself and its moment about the hinge.
//!
//! # Theory
//! A planing bottom with a trim plane is treated as a thin plate with a hinged flap
//! (H. Glauert, *Theoretical Relationships for an Aerofoil with Hinged Flap*, ARC R&M 1095,
//! 1927). At high speed gravity drops out of the linear problem and a planing surface carries
//! half of what the same plate would carry as an aerofoil, because only its underside is wet
//! (H. Wagner, 1932; from memory).
//!
//! With `x = ½ c (1 − cos θ)` from the leading edge, the whole wetted chord
//! `c` = wetted length + plane chord, and the hinge at `θ_h`, thin-aerofoil theory gives the
//! pressure difference
//!
//! ```text
//! trim τ:        ΔCp = 4 τ cot(θ/2)
//! deflection δ:  ΔCp = 4 δ/π { (π − θ_h) cot(θ/2) + ln |sin ½(θ + θ_h) / sin ½(θ − θ_h)| }
//! ```
//!
//! The second line is Glauert's Fourier series, summed: `A_0 = δ (π − θ_h)/π`,
//! `A_n = 2 δ sin(n θ_h)/(n π)`. Halving both, and integrating from the hinge to the trailing
//! edge with `φ = π − θ_h`, so that the flap's share of the chord is `E = sin²(φ/2)`
//! (derived here; the logarithm goes by parts, since its derivative times
//! `cos θ_h − cos θ` is the constant `−sin θ_h`):
//!
//! ```text
//! load,   deflection:  F = q s c δ φ²/π
//! moment, deflection:  M = q s c² δ [2 φ sin φ − φ² (1 + 2 cos φ) + sin² φ]/(4π)
//! load,   trim:        F = q s c τ (φ − sin φ)
//! moment, trim:        M = q s c² τ (sin φ − φ cos φ − ½ φ + ½ sin φ cos φ)/2
//! ```
//!
//! As `E → 0` the deflection part tends to `F = (4/π) q s c_p δ` acting `c_p/3` aft of the
//! hinge (4/π = 1.273 per radian, 1.32 at `E` = 0.10) and the trim part to `(2φ/3) q s c_p τ`
//! acting `0.4 c_p` aft.
//!
//! # How good it is
//! - The deflection part is two-dimensional. A plate as wide as a hull's bottom carries less: a
//!   vortex lattice of the whole bottom with a full-width strip gives 0.50–0.87 of it for wetted
//!   lengths of two to four beams and chords of 2.5–10 % of that (derived here). It is kept
//!   unreduced: it errs to the strong side for an actuator.
//! - The trim part in two dimensions is far too large: on a long narrow bottom nearly all of the
//!   load due to trim sits forward and next to nothing is left at the transom. The lattice in
//!   this module's tests leaves under 2 % of it when the wetted length exceeds two beams. See
//!   [`TrimLoad`].
//! - Hydrostatic pressure, deadrise and slamming are left out of the expected load. Strength is
//!   checked with [`design_load`] instead.
//! - Load from below only: going astern or grounding reverses it, and neither is covered.

use std::f64::consts::PI;

use thiserror::Error;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Force, Length, Pressure, Torque};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::torque::newton_meter;

use super::require::{BadInput, at_least, between, positive};
use crate::flag::Standing;

/// Load factor on the tank-test lift for the strength of plate, hinge and actuator: an allowance
/// for slamming. Common practice, no source.
pub const DEFAULT_LOAD_FACTOR: f64 = 2.0;

/// Largest trim and deflection (degrees) to which linear theory is trusted without a flag:
/// 15°, the end of the flap tests of Savitsky & Brown 1976 (from memory).
pub const LINEAR_LIMIT_DEG: f64 = 15.0;

/// Largest plane chord as a share of the mean wetted length in the flap tests of
/// Savitsky & Brown 1976 (from memory).
pub const CHORD_SHARE_LIMIT: f64 = 0.10;

/// Beam over whole wetted length for which [`finite_plate_share`] was compared with a lattice.
pub const ASPECT_RANGE: (f64, f64) = (0.2, 4.0);

/// How the load due to the boat's own trim is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TrimLoad {
    /// Two-dimensional value times [`finite_plate_share`]: small for any real hull. The default.
    #[default]
    FinitePlate,
    /// No load from trim.
    Neglected,
    /// Two-dimensional value, as if the hull were infinitely wide. Far above what a hull gives;
    /// an upper bound, not an estimate.
    TwoDimensional,
}

/// The plane and the flow at it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateFlow {
    /// ½ρV², above zero.
    pub dynamic_pressure: Pressure,
    /// Plane chord, hinge to trailing edge.
    pub chord: Length,
    /// Span of the one plane.
    pub span: Length,
    /// Mean wetted length of the bottom ahead of the hinge.
    pub wetted_length: Length,
    /// Chine beam, for the finite-plate share of the trim part.
    pub chine_beam: Length,
    /// Deflection below the extended bottom line, trailing edge down positive.
    pub deflection: Angle,
    /// Trim of the bottom, bow up positive.
    pub trim: Angle,
}

/// One load on the plate: force normal to it and moment about the hinge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateLoad {
    /// What the load comes from.
    pub name: &'static str,
    /// Normal to the plate, positive from below.
    pub force: Force,
    /// About the hinge line, positive when it closes the plane upward.
    pub hinge_moment: Torque,
}

impl PlateLoad {
    /// Distance from the hinge aft along the plate to where the force acts; `None` without load.
    pub fn centre_aft_of_hinge(&self) -> Option<Length> {
        let force_n = self.force.get::<newton>();
        (force_n != 0.0)
            .then(|| Length::new::<meter>(self.hinge_moment.get::<newton_meter>() / force_n))
    }
}

/// Why a hinge load should be read with care.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HingeFlag {
    /// Trim or deflection beyond [`LINEAR_LIMIT_DEG`].
    BeyondLinearTheory,
    /// Chord above [`CHORD_SHARE_LIMIT`] of the wetted length.
    ChordBeyondTests,
    /// Beam over wetted length outside [`ASPECT_RANGE`] while the finite-plate share is used.
    AspectOutside,
    /// Theory asks for suction under the plate; a planing plate ventilates and runs dry
    /// instead, so the load was set to zero.
    PlateDry,
}

impl HingeFlag {
    /// Short stable word for outputs.
    pub fn word(self) -> &'static str {
        match self {
            Self::BeyondLinearTheory => "hinge-beyond-linear-theory",
            Self::ChordBeyondTests => "hinge-chord-beyond-tests",
            Self::AspectOutside => "hinge-aspect-outside",
            Self::PlateDry => "hinge-plate-dry",
        }
    }

    /// What it says of the load.
    #[must_use]
    pub const fn standing(self) -> Standing {
        match self {
            Self::BeyondLinearTheory | Self::ChordBeyondTests | Self::AspectOutside => {
                Standing::Untested
            }
            Self::PlateDry => Standing::Rough,
        }
    }
}

/// Expected load on the plate, part by part.
#[derive(Debug, Clone, PartialEq)]
pub struct HingeLoad {
    /// Named contributions; `total` is their sum, or zero when that sum is suction.
    pub parts: Vec<PlateLoad>,
    /// What the hinge and the actuator feel.
    pub total: PlateLoad,
    /// Where the result leaves the range of the theory.
    pub flags: Vec<HingeFlag>,
}

/// Why no hinge load could be given.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum HingeError {
    /// An input no plane can have.
    #[error(transparent)]
    Input(#[from] BadInput),
}

/// Angle `φ` (radians) of the theory for a flap of chord ratio `E`: `E = sin²(φ/2)`.
pub fn flap_angle_rad(chord_ratio: f64) -> f64 {
    2.0 * chord_ratio.sqrt().asin()
}

/// Load due to deflection, `F/(q s c δ)` per radian on the whole chord `c`: `φ²/π`. Derived here.
pub fn deflection_load_factor(flap_angle_rad: f64) -> f64 {
    flap_angle_rad * flap_angle_rad / PI
}

/// Moment about the hinge due to deflection, `M/(q s c² δ)` per radian, positive closing the
/// plane upward. Derived here; see the module's theory.
pub fn deflection_moment_factor(flap_angle_rad: f64) -> f64 {
    let (sin, cos) = flap_angle_rad.sin_cos();
    let phi = flap_angle_rad;
    (2.0 * phi * sin - phi * phi * (1.0 + 2.0 * cos) + sin * sin) / (4.0 * PI)
}

/// Load due to trim in two dimensions, `F/(q s c τ)` per radian: `φ − sin φ`. Derived here.
pub fn trim_load_factor(flap_angle_rad: f64) -> f64 {
    flap_angle_rad - flap_angle_rad.sin()
}

/// Moment about the hinge due to trim in two dimensions, `M/(q s c² τ)` per radian, positive
/// closing the plane upward. Derived here; see the module's theory.
pub fn trim_moment_factor(flap_angle_rad: f64) -> f64 {
    let (sin, cos) = flap_angle_rad.sin_cos();
    0.5 * (sin - flap_angle_rad * cos - 0.5 * flap_angle_rad + 0.5 * sin * cos)
}

/// Share of the two-dimensional trim load that a plate of finite width keeps on its trailing
/// strip: `[A/(A + 0.6)]⁵`, with `A` = beam / (wetted length + chord).
///
/// Derived here: a fit to a vortex lattice of a flat rectangular plate, within 10 % for
/// 0.2 ≤ `A` ≤ 4 and all strips up to a tenth of the length; tends to 1 for an infinitely wide
/// plate. The mean over the whole width; amidships it is a quarter higher.
pub fn finite_plate_share(aspect: f64) -> f64 {
    const HALF_WIDTH_ASPECT: f64 = 0.6;
    const DECAY_POWER: i32 = 5;
    (aspect / (aspect + HALF_WIDTH_ASPECT)).powi(DECAY_POWER)
}

/// Checked numbers of a [`PlateFlow`].
struct Checked {
    scale_n: f64,
    whole_chord_m: f64,
    chord_share: f64,
    flap_angle_rad: f64,
    aspect: f64,
    deflection_rad: f64,
    trim_rad: f64,
}

fn check(flow: &PlateFlow) -> Result<Checked, BadInput> {
    let pressure_pa =
        positive("the dynamic pressure", flow.dynamic_pressure.get::<pascal>(), "Pa")?;
    let chord_m = positive("the plane chord", flow.chord.get::<meter>(), "m")?;
    let span_m = positive("the plane span", flow.span.get::<meter>(), "m")?;
    let wetted_m = positive("the wetted length", flow.wetted_length.get::<meter>(), "m")?;
    let beam_m = positive("the chine beam", flow.chine_beam.get::<meter>(), "m")?;
    let whole_chord_m = chord_m + wetted_m;
    let right_angle_rad = 0.5 * PI;
    let angle = |name, angle: Angle| {
        between(name, angle.get::<radian>(), "rad", -right_angle_rad, right_angle_rad)
    };
    Ok(Checked {
        scale_n: pressure_pa * span_m * whole_chord_m,
        whole_chord_m,
        chord_share: chord_m / wetted_m,
        flap_angle_rad: flap_angle_rad(chord_m / whole_chord_m),
        aspect: beam_m / whole_chord_m,
        deflection_rad: angle("the plane deflection", flow.deflection)?,
        trim_rad: angle("the trim", flow.trim)?,
    })
}

fn range_flags(flow: &Checked, trim_load: TrimLoad) -> Vec<HingeFlag> {
    let limit_rad = LINEAR_LIMIT_DEG.to_radians();
    let mut flags = Vec::new();
    if flow.deflection_rad.abs() > limit_rad || flow.trim_rad.abs() > limit_rad {
        flags.push(HingeFlag::BeyondLinearTheory);
    }
    if flow.chord_share > CHORD_SHARE_LIMIT {
        flags.push(HingeFlag::ChordBeyondTests);
    }
    let aspect_known = flow.aspect >= ASPECT_RANGE.0 && flow.aspect <= ASPECT_RANGE.1;
    if trim_load == TrimLoad::FinitePlate && !aspect_known {
        flags.push(HingeFlag::AspectOutside);
    }
    flags
}

/// Load expected on one plate in steady running, from the theory of this module.
///
/// For the strength of the gear use [`design_load`], which is larger.
///
/// # Errors
/// [`HingeError::Input`] when a length or the dynamic pressure is not above zero, or an angle
/// is beyond a right angle.
pub fn expected_load(flow: &PlateFlow, trim_load: TrimLoad) -> Result<HingeLoad, HingeError> {
    let checked = check(flow)?;
    let phi = checked.flap_angle_rad;
    let share = match trim_load {
        TrimLoad::FinitePlate => finite_plate_share(checked.aspect),
        TrimLoad::Neglected => 0.0,
        TrimLoad::TwoDimensional => 1.0,
    };
    let part = |name, angle_rad: f64, load_factor: f64, moment_factor: f64| PlateLoad {
        name,
        force: Force::new::<newton>(checked.scale_n * angle_rad * load_factor),
        hinge_moment: Torque::new::<newton_meter>(
            checked.scale_n * checked.whole_chord_m * angle_rad * moment_factor,
        ),
    };
    let parts = vec![
        part(
            "plane deflection",
            checked.deflection_rad,
            deflection_load_factor(phi),
            deflection_moment_factor(phi),
        ),
        part(
            "boat's trim",
            share * checked.trim_rad,
            trim_load_factor(phi),
            trim_moment_factor(phi),
        ),
    ];
    let mut flags = range_flags(&checked, trim_load);
    let total = sum_or_dry(&parts, &mut flags);
    Ok(HingeLoad { parts, total, flags })
}

/// Sum of the parts; zero with a flag when the sum would be suction under the plate.
fn sum_or_dry(parts: &[PlateLoad], flags: &mut Vec<HingeFlag>) -> PlateLoad {
    let mut force = Force::new::<newton>(0.0);
    let mut hinge_moment = Torque::new::<newton_meter>(0.0);
    for part in parts {
        force += part.force;
        hinge_moment += part.hinge_moment;
    }
    if force.get::<newton>() < 0.0 || hinge_moment.get::<newton_meter>() < 0.0 {
        flags.push(HingeFlag::PlateDry);
        force = Force::new::<newton>(0.0);
        hinge_moment = Torque::new::<newton_meter>(0.0);
    }
    PlateLoad { name: "expected load", force, hinge_moment }
}

/// Load for the strength of plate, hinge, linkage and screws: all of the plane's tank-test lift
/// put on the plate at mid-chord, times `load_factor`.
///
/// In truth about half of that lift is carried by the hull ahead of the plane, and the rest acts
/// nearer the hinge than mid-chord, so this is about three times the expected hinge moment
/// before the load factor. Common practice, no source; [`DEFAULT_LOAD_FACTOR`] is 2.
///
/// `plane_lift` is the lift of the one plane, normal to its panel: on a bottom of deadrise β
/// divide the vertical lift by cos β.
///
/// # Errors
/// [`BadInput`] for a negative lift, a chord not above zero or a load factor below 1.
pub fn design_load(
    plane_lift: Force,
    chord: Length,
    load_factor: f64,
) -> Result<PlateLoad, BadInput> {
    let lift_n = at_least("the plane lift", plane_lift.get::<newton>(), "N", 0.0)?;
    let chord_m = positive("the plane chord", chord.get::<meter>(), "m")?;
    let factor = at_least("the load factor", load_factor, "", 1.0)?;
    Ok(PlateLoad {
        name: "design load",
        force: Force::new::<newton>(factor * lift_n),
        hinge_moment: Torque::new::<newton_meter>(factor * lift_n * 0.5 * chord_m),
    })
}

#[cfg(test)]
mod tests;
