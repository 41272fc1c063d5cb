//! Strength of the plate: bending along the chord and across the span.
//!
//! # Simplifications, and which way they err
//! - **Along the chord** the plate is a beam strip as wide as the span: hinged at the hinge edge,
//!   propped along the actuator's pin line, free beyond it, under uniform pressure. This is right
//!   when the pin line is stiff over the whole span (two actuators, a stiffener, a folded edge).
//! - **Across the span** a plate carried by one bracket amidships also bends sideways. It is
//!   taken as a cantilever from the bracket's side to the plate's end, all pressure, no help
//!   from the hinge. A finite-element plate worked out here for six ordinary cases (chord 0.25
//!   and 0.30 m, span 0.4–0.9 m, bracket 50–100 mm wide and 50–60 mm long) puts the moment
//!   averaged over the chord at 0.3–0.6 of this and the end deflection at 0.3–1.0. Averaged over
//!   the bracket's own length it is 0.6–1.4 of it, the most for short spans, and at the bracket's
//!   corners higher still. So a plate that passes here does not fold, and still wants a
//!   spreading pad with round corners under the bracket against cracking.
//! - The plate is flat: folded edges, ribs and pressed channels make it stiffer across the span
//!   and are not credited. With them, take [`Support::WholeSpan`] only if they truly carry the
//!   span; else have the plate checked.
//! - The worse of the two counts. Holes, welds, dents, corrosion and fatigue are not counted:
//!   the required safety factor has to cover them.
//! - Load from below only: grounding, trailers and running astern are not covered.

pub mod bolt;
pub mod fastening;
mod verdict;

use thiserror::Error;
use uom::si::f64::{Force, Length, Pressure, Torque};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::{gigapascal, megapascal, pascal};
use uom::si::torque::newton_meter;

pub use verdict::Verdict;

use super::require::{BadInput, at_least, positive};

/// Safety factor on yield for metal plates, on top of the load factor in the design load.
/// Common practice, no source.
pub const DEFAULT_FACTOR_ON_YIELD: f64 = 2.0;
/// Safety factor on ultimate flexural strength for laminates, on top of the load factor.
/// Common practice, no source.
pub const DEFAULT_FACTOR_ON_ULTIMATE: f64 = 4.0;

/// What the limit stress of a material stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitKind {
    /// Yield, or 0.2 % proof stress: beyond it the plate stays bent.
    Yield,
    /// Ultimate in bending: beyond it the plate breaks.
    Ultimate,
}

/// A plate material.
#[derive(Debug, Clone, PartialEq)]
pub struct PlateMaterial {
    /// Name for reports.
    pub name: String,
    /// Young's modulus (flexural, for a laminate).
    pub modulus: Pressure,
    /// Stress that the safety factor is counted against.
    pub limit_stress: Pressure,
    /// What that stress stands for.
    pub limit_kind: LimitKind,
}

impl PlateMaterial {
    fn named(name: &str, modulus_gpa: f64, limit_mpa: f64, limit_kind: LimitKind) -> Self {
        Self {
            name: name.to_string(),
            modulus: Pressure::new::<gigapascal>(modulus_gpa),
            limit_stress: Pressure::new::<megapascal>(limit_mpa),
            limit_kind,
        }
    }

    /// Stainless steel 316, annealed: 193 GPa, yield at least 205 MPa (ASTM A240, from memory).
    pub fn stainless_316() -> Self {
        Self::named("stainless steel 316", 193.0, 205.0, LimitKind::Yield)
    }

    /// Aluminium 5083-H116: 71 GPa, proof stress at least 215 MPa (EN 485-2, from memory);
    /// near a weld only about 125 MPa is left.
    pub fn aluminium_5083_h116() -> Self {
        Self::named("aluminium 5083-H116", 71.0, 215.0, LimitKind::Yield)
    }

    /// Hand-laid glass mat and roving in polyester, wet: 7 GPa, 150 MPa ultimate in bending
    /// (typical handbook figures, from memory; the builder's own test values come first).
    pub fn glass_polyester_laminate() -> Self {
        Self::named("glass-polyester laminate", 7.0, 150.0, LimitKind::Ultimate)
    }

    /// Default required safety factor for this kind of limit stress.
    pub fn default_factor(&self) -> f64 {
        match self.limit_kind {
            LimitKind::Yield => DEFAULT_FACTOR_ON_YIELD,
            LimitKind::Ultimate => DEFAULT_FACTOR_ON_ULTIMATE,
        }
    }
}

/// Measurements of the plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateStrip {
    /// Hinge to trailing edge.
    pub chord: Length,
    /// Span of the plane.
    pub span: Length,
    /// Hinge to the actuator's pin line, along the plate; not above the chord.
    pub pin_distance: Length,
    /// Plate thickness.
    pub thickness: Length,
}

/// Why no strength could be given.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StrengthError {
    /// An input no plate or fastening can have.
    #[error(transparent)]
    Input(#[from] BadInput),
    /// The pin line lies beyond the trailing edge.
    #[error(
        "the pin line is {pin_mm:.0} mm aft of the hinge and the chord only {chord_mm:.0} mm; \
         move the pin forward or make the chord longer"
    )]
    PinBeyondPlate {
        /// Pin distance, millimetres.
        pin_mm: f64,
        /// Chord, millimetres.
        chord_mm: f64,
    },
    /// The bracket is wider than the plate.
    #[error(
        "the bracket is {bracket_mm:.0} mm wide and the span only {span_mm:.0} mm; give the \
         bracket's width across the span"
    )]
    BracketTooWide {
        /// Bracket width, millimetres.
        bracket_mm: f64,
        /// Span, millimetres.
        span_mm: f64,
    },
}

/// Largest moment between hinge and pin of a strip with overhang, per unit line load:
/// `R²/2` with the hinge reaction `R = c − c²/(2a)`; zero when the reaction is not downward
/// on the plate. Metres squared. Statics, any strength handbook.
pub fn span_moment_per_line_load_m2(chord_m: f64, pin_m: f64) -> f64 {
    let reaction_m = (chord_m - chord_m * chord_m / (2.0 * pin_m)).max(0.0);
    0.5 * reaction_m * reaction_m
}

/// Deflection of the free end of a uniformly loaded beam with an overhang, metres, away from the
/// load's side positive: `w m (3 m³ + 4 m² a − a³)/(24 E I)`, supports `a` apart, overhang `m`
/// (beam tables, for example AISC *Manual of Steel Construction*, beam overhanging one support,
/// uniform load on both parts; from memory).
pub fn free_end_deflection_m(
    line_load_n_m: f64,
    stiffness_n_m2: f64,
    supports_apart_m: f64,
    overhang_m: f64,
) -> f64 {
    let (a, m) = (supports_apart_m, overhang_m);
    line_load_n_m * m * (3.0 * m.powi(3) + 4.0 * m * m * a - a.powi(3)) / (24.0 * stiffness_n_m2)
}

/// A plate under uniform pressure from below, with the forces it raises.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripLoad {
    chord_m: f64,
    span_m: f64,
    pin_m: f64,
    thickness_m: f64,
    pressure_pa: f64,
}

impl StripLoad {
    /// Checks plate and pressure. For a design load take load / (chord × span).
    ///
    /// # Errors
    /// [`StrengthError::Input`] for a measurement not above zero or a negative pressure,
    /// [`StrengthError::PinBeyondPlate`].
    pub fn new(plate: &PlateStrip, pressure: Pressure) -> Result<Self, StrengthError> {
        let length = |name, value: Length| positive(name, value.get::<meter>(), "m");
        let chord_m = length("the plane chord", plate.chord)?;
        let pin_m = length("the pin distance", plate.pin_distance)?;
        if pin_m > chord_m {
            return Err(StrengthError::PinBeyondPlate {
                pin_mm: pin_m * 1e3,
                chord_mm: chord_m * 1e3,
            });
        }
        Ok(Self {
            chord_m,
            span_m: length("the plane span", plate.span)?,
            pin_m,
            thickness_m: length("the plate thickness", plate.thickness)?,
            pressure_pa: at_least("the pressure", pressure.get::<pascal>(), "Pa", 0.0)?,
        })
    }

    fn line_load_n_m(&self) -> f64 {
        self.pressure_pa * self.span_m
    }

    /// Force of the pin line on the plate, normal to it, positive holding the plate down.
    pub fn pin_reaction(&self) -> Force {
        let total_n = self.line_load_n_m() * self.chord_m;
        Force::new::<newton>(total_n * self.chord_m / (2.0 * self.pin_m))
    }

    /// Force of the hinge on the plate, normal to it, positive holding the plate down; negative
    /// when the pin lies ahead of mid-chord and the plate tips about it.
    pub fn hinge_reaction(&self) -> Force {
        let total_n = self.line_load_n_m() * self.chord_m;
        Force::new::<newton>(total_n) - self.pin_reaction()
    }

    /// Bending moment of the whole strip about the pin line, magnitude; the underside is in
    /// tension there.
    pub fn moment_at_pin(&self) -> Torque {
        let overhang_m = self.chord_m - self.pin_m;
        Torque::new::<newton_meter>(0.5 * self.line_load_n_m() * overhang_m * overhang_m)
    }

    /// Largest bending moment of the whole strip between hinge and pin line, about the section
    /// it acts on, magnitude; the upper side is in tension there.
    pub fn moment_between(&self) -> Torque {
        let unit_m2 = span_moment_per_line_load_m2(self.chord_m, self.pin_m);
        Torque::new::<newton_meter>(self.line_load_n_m() * unit_m2)
    }

    /// Bending moment per metre of plate along the chord, newtons (N·m per m).
    fn chordwise_moment_n(&self) -> f64 {
        let worse = self.moment_at_pin().max(self.moment_between());
        worse.get::<newton_meter>() / self.span_m
    }

    /// Trailing-edge deflection of the beam strip, positive upward, away from the water. It can
    /// be slightly negative, when the bending between the supports tips the overhang down.
    ///
    /// # Errors
    /// [`StrengthError::Input`] for a modulus not above zero.
    pub fn trailing_edge_deflection(&self, modulus: Pressure) -> Result<Length, StrengthError> {
        let modulus_pa = positive("the modulus", modulus.get::<pascal>(), "Pa")?;
        let stiffness = modulus_pa * self.span_m * self.thickness_m.powi(3) / 12.0;
        Ok(Length::new::<meter>(free_end_deflection_m(
            self.line_load_n_m(),
            stiffness,
            self.pin_m,
            self.chord_m - self.pin_m,
        )))
    }

    /// Checks the plate in `material` against a required safety factor.
    ///
    /// # Errors
    /// [`StrengthError::Input`] for a material value not above zero or a factor below 1,
    /// [`StrengthError::BracketTooWide`].
    pub fn check(
        &self,
        material: &PlateMaterial,
        support: Support,
        required_factor: f64,
    ) -> Result<PlateCheck, StrengthError> {
        let modulus_pa = positive("the modulus", material.modulus.get::<pascal>(), "Pa")?;
        let limit = material.limit_stress.get::<pascal>();
        let limit_pa = positive("the limit stress", limit, "Pa")?;
        let required = at_least("the safety factor", required_factor, "", 1.0)?;
        let reach_m = self.side_reach_m(support)?;
        let chordwise_n = self.chordwise_moment_n();
        let spanwise_n = 0.5 * self.pressure_pa * reach_m * reach_m;
        let section_m2 = self.thickness_m.powi(2) / 6.0;
        let stress_pa = chordwise_n.max(spanwise_n) / section_m2;
        let stiffness_n_m = modulus_pa * self.thickness_m.powi(3) / 12.0;
        let thickness_m = (6.0 * chordwise_n.max(spanwise_n) * required / limit_pa).sqrt();
        Ok(PlateCheck {
            chordwise_stress: Pressure::new::<pascal>(chordwise_n / section_m2),
            spanwise_stress: Pressure::new::<pascal>(spanwise_n / section_m2),
            trailing_edge_deflection: self.trailing_edge_deflection(material.modulus)?,
            side_deflection: Length::new::<meter>(
                self.pressure_pa * reach_m.powi(4) / (8.0 * stiffness_n_m),
            ),
            safety_factor: limit_pa / stress_pa,
            strong_enough: limit_pa >= required * stress_pa,
            needed_thickness: Length::new::<meter>(thickness_m),
        })
    }

    /// Length of plate that overhangs the bracket at each side, metres.
    fn side_reach_m(&self, support: Support) -> Result<f64, StrengthError> {
        let Support::MiddleBracket { width } = support else {
            return Ok(0.0);
        };
        let width_m = positive("the bracket width", width.get::<meter>(), "m")?;
        if width_m > self.span_m {
            return Err(StrengthError::BracketTooWide {
                bracket_mm: width_m * 1e3,
                span_mm: self.span_m * 1e3,
            });
        }
        Ok(0.5 * (self.span_m - width_m))
    }
}

/// How the actuator carries the plate across the span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Support {
    /// The pin line is stiff over the whole span.
    WholeSpan,
    /// One bracket amidships.
    MiddleBracket {
        /// Width across the span over which it bears on the plate.
        width: Length,
    },
}

/// Result of a plate check.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateCheck {
    /// Largest bending stress along the chord.
    pub chordwise_stress: Pressure,
    /// Bending stress across the span at the bracket's side; zero for [`Support::WholeSpan`].
    pub spanwise_stress: Pressure,
    /// Of the beam strip, positive upward.
    pub trailing_edge_deflection: Length,
    /// Of the plate's ends beyond the bracket, upward, as a cantilever; about an upper bound.
    pub side_deflection: Length,
    /// Limit stress over the worse stress; infinite without load.
    pub safety_factor: f64,
    /// Whether it reaches the required factor.
    pub strong_enough: bool,
    /// Thickness that just reaches the required factor.
    pub needed_thickness: Length,
}

impl PlateCheck {
    /// The larger of the stresses along the chord and across the span.
    #[must_use]
    pub fn worst_stress(&self) -> Pressure {
        self.chordwise_stress.max(self.spanwise_stress)
    }
}

#[cfg(test)]
mod tests;
