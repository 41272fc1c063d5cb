//! Water load on the plate itself and its moment about the hinge.
//!
//! # Expected
//! The moment about the hinge was measured in the tank tests of planes: `H = 0.139 ΔL c`, with the
//! lift `ΔL` that the plane adds and its chord `c` (Savitsky & Brown 1976, Marine Technology
//! 13(4), eq. 8). It is taken with the whole chord and with the lift normal to the plane's panel.
//! The tests do not give the force on the plate. It follows from the moment with the arm of the
//! theory below, close to a third of the chord.
//!
//! # Theory, as a cross-check
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
//! - The deflection part is two-dimensional, and for usual chords its moment lies 16–20 % above
//!   that of the tank tests. A plate as wide as a hull's bottom carries less: a vortex lattice of
//!   the whole bottom with a full-width strip gives 0.50–0.87 of it for wetted lengths of two to
//!   four beams and chords of 2.5–10 % of that (derived here).
//! - Pressures on a plate at 1, 3 and 5° (Gaylo & Roske 2019), three taps along its chord, give
//!   0.99 ± 0.15 of eq. 8 in the mean of eleven runs, but 1.5–2.0 at 1°, 0.5–1.0 at 3° and
//!   0.7–0.8 at 5°: they agree with its size and not with its being proportional to the deflection.
//! - The trim part in two dimensions is far too large: on a long narrow bottom nearly all of the
//!   load due to trim sits forward and next to nothing is left at the transom. The lattice in
//!   this module's tests leaves under 2 % of it when the wetted length exceeds two beams. See
//!   [`TrimLoad`].
//! - Slamming is left out of the expected load. Strength is judged by it and by [`design_load`].
//! - Load from below only: going astern or grounding reverses it, and neither is covered.

use std::f64::consts::PI;

use thiserror::Error;
use uom::si::angle::radian;
use uom::si::f64::{Angle, Force, Length, Pressure, Torque};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::torque::newton_meter;

use super::effect::{
    LARGEST_TESTED_CHORD_SHARE, LARGEST_TESTED_DEFLECTION_DEG, LARGEST_TESTED_TRIM_DEG,
    TESTED_SPEED_COEFFICIENT,
};
use super::require::{BadInput, at_least, between, positive};
use crate::field::by_word;
use crate::flag::Standing;

/// Load factor on the tank-test lift for the strength of plate, hinge and actuator: an allowance
/// for slamming. Common practice, no source.
pub const DEFAULT_LOAD_FACTOR: f64 = 2.0;

/// Hinge moment for each newton of the plane's lift and metre of its chord: Savitsky & Brown 1976,
/// eq. 8.
pub(crate) const MOMENT_PER_LIFT_CHORD: f64 = 0.139;

/// Beam over whole wetted length for which [`finite_plate_share`] was compared with a lattice.
pub const ASPECT_RANGE: (f64, f64) = (0.2, 4.0);

/// How the load due to the boat's own trim is counted in the cross-check.
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
    /// Speed coefficient `V/√(g b)`, for the range of the tank tests.
    pub speed_coefficient: f64,
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
    fn none(name: &'static str) -> Self {
        Self { name, force: Force::default(), hinge_moment: Torque::default() }
    }

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
    /// Deflection or trim beyond the tank tests: 15° and 10°.
    AngleBeyondTests,
    /// Speed coefficient outside the tank tests, 2 to 7.
    SpeedBeyondTests,
    /// Chord above a tenth of the wetted length, the most that was tested.
    ChordBeyondTests,
    /// Beam over wetted length outside [`ASPECT_RANGE`] while the finite-plate share is used in
    /// the cross-check.
    AspectOutside,
    /// The plane is up, so that nothing presses on it: suction is not counted, for a planing
    /// plate ventilates and runs dry instead.
    PlateDry,
}

impl HingeFlag {
    /// Short stable word for outputs.
    pub fn word(self) -> &'static str {
        match self {
            Self::AngleBeyondTests => "hinge-angle-beyond-tests",
            Self::SpeedBeyondTests => "hinge-speed-beyond-tests",
            Self::ChordBeyondTests => "hinge-chord-beyond-tests",
            Self::AspectOutside => "hinge-aspect-outside",
            Self::PlateDry => "hinge-plate-dry",
        }
    }

    /// What it says of the load.
    #[must_use]
    pub const fn standing(self) -> Standing {
        match self {
            Self::AngleBeyondTests
            | Self::SpeedBeyondTests
            | Self::ChordBeyondTests
            | Self::AspectOutside => Standing::Untested,
            Self::PlateDry => Standing::Rough,
        }
    }
}

by_word!(HingeFlag);

/// Load expected on the plate.
#[derive(Debug, Clone, PartialEq)]
pub struct HingeLoad {
    /// What the hinge and the actuator feel: eq. 8, or zero for a plane that is up.
    pub total: PlateLoad,
    /// The same by the theory of a thin plate with a hinged flap, to be held against it.
    pub thin_plate: ThinPlate,
    /// Where the result leaves what was tested.
    pub flags: Vec<HingeFlag>,
}

/// Load on the plate by thin-plate theory, part by part.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinPlate {
    /// Named contributions.
    pub parts: [PlateLoad; 2],
    /// Their sum, or zero when that sum is suction.
    pub total: PlateLoad,
}

/// Why no hinge load could be given.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum HingeError {
    /// An input no plane can have.
    #[error(transparent)]
    Input(#[from] BadInput),
}

/// Moment about the hinge line in steady running, `0.139 ΔL c`, N·m, positive closing the plane
/// upward. `lift_n` is what the one plane adds, its chord in metres.
///
/// Savitsky & Brown 1976, eq. 8; tested for `δ` 0–15°, `τ` 0–10°, `Cv` 2–7 and chords up to a
/// tenth of the mean wetted length.
#[must_use]
pub fn hinge_moment_n_m(lift_n: f64, chord_m: f64) -> f64 {
    MOMENT_PER_LIFT_CHORD * lift_n * chord_m
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

impl Checked {
    fn part(&self, name: &'static str, angle_rad: f64, load: f64, moment: f64) -> PlateLoad {
        let moment_n_m = self.scale_n * self.whole_chord_m * angle_rad * moment;
        PlateLoad {
            name,
            force: Force::new::<newton>(self.scale_n * angle_rad * load),
            hinge_moment: Torque::new::<newton_meter>(moment_n_m),
        }
    }

    fn thin_plate(&self, trim_load: TrimLoad) -> ThinPlate {
        let phi = self.flap_angle_rad;
        let share = match trim_load {
            TrimLoad::FinitePlate => finite_plate_share(self.aspect),
            TrimLoad::Neglected => 0.0,
            TrimLoad::TwoDimensional => 1.0,
        };
        let (load, moment) = (deflection_load_factor(phi), deflection_moment_factor(phi));
        let deflection = self.part("plane deflection", self.deflection_rad, load, moment);
        let (load, moment) = (trim_load_factor(phi), trim_moment_factor(phi));
        let trim = self.part("boat's trim", share * self.trim_rad, load, moment);
        let force = deflection.force + trim.force;
        let hinge_moment = deflection.hinge_moment + trim.hinge_moment;
        let is_suction = force.value < 0.0 || hinge_moment.value < 0.0;
        let total = if is_suction {
            PlateLoad::none("thin plate")
        } else {
            PlateLoad { name: "thin plate", force, hinge_moment }
        };
        ThinPlate { parts: [deflection, trim], total }
    }

    /// Distance of the load due to deflection aft of the hinge, metres.
    fn arm_m(&self) -> f64 {
        let phi = self.flap_angle_rad;
        self.whole_chord_m * deflection_moment_factor(phi) / deflection_load_factor(phi)
    }
}

fn range_flags(flow: &PlateFlow, checked: &Checked, trim_load: TrimLoad) -> Vec<HingeFlag> {
    let beyond = |angle_rad: f64, most_deg: f64| angle_rad.abs() > most_deg.to_radians() + 1e-9;
    let mut flags = Vec::new();
    if beyond(checked.deflection_rad, LARGEST_TESTED_DEFLECTION_DEG)
        || beyond(checked.trim_rad, LARGEST_TESTED_TRIM_DEG)
    {
        flags.push(HingeFlag::AngleBeyondTests);
    }
    if !TESTED_SPEED_COEFFICIENT.contains(&flow.speed_coefficient) {
        flags.push(HingeFlag::SpeedBeyondTests);
    }
    if checked.chord_share > LARGEST_TESTED_CHORD_SHARE {
        flags.push(HingeFlag::ChordBeyondTests);
    }
    let aspect_known = checked.aspect >= ASPECT_RANGE.0 && checked.aspect <= ASPECT_RANGE.1;
    if trim_load == TrimLoad::FinitePlate && !aspect_known {
        flags.push(HingeFlag::AspectOutside);
    }
    flags
}

/// Load expected on one plate in steady running: the moment of [`hinge_moment_n_m`], with the
/// force that gives it at the theory's arm.
///
/// `plane_lift` is what the one plane adds at this deflection, normal to its panel; a plane that is
/// up carries nothing. For slamming use [`design_load`], which is larger.
///
/// # Errors
/// [`HingeError::Input`] when a length or the dynamic pressure is not above zero, or an angle
/// is beyond a right angle.
pub fn expected_load(
    flow: &PlateFlow,
    plane_lift: Force,
    trim_load: TrimLoad,
) -> Result<HingeLoad, HingeError> {
    let checked = check(flow)?;
    let lift_n = between("the plane lift", plane_lift.get::<newton>(), "N", -1e9, 1e9)?;
    let mut flags = range_flags(flow, &checked, trim_load);
    let total = if lift_n < 0.0 {
        flags.push(HingeFlag::PlateDry);
        PlateLoad::none("expected load")
    } else {
        let moment_n_m = hinge_moment_n_m(lift_n, flow.chord.get::<meter>());
        PlateLoad {
            name: "expected load",
            force: Force::new::<newton>(moment_n_m / checked.arm_m()),
            hinge_moment: Torque::new::<newton_meter>(moment_n_m),
        }
    };
    Ok(HingeLoad { total, thin_plate: checked.thin_plate(trim_load), flags })
}

/// Load for the strength of plate, hinge, linkage and screws: all of the plane's tank-test lift
/// put on the plate at mid-chord, times `load_factor`.
///
/// In truth about half of that lift is carried by the hull ahead of the plane, and the rest acts
/// nearer the hinge than mid-chord, so this is 3.6 times the expected hinge moment before the load
/// factor. Common practice, no source; [`DEFAULT_LOAD_FACTOR`] is 2.
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
