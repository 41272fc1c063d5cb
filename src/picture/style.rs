//! Colours and line weights of the pictures: a sea chart's water, ink, brass and oiled teak.
//!
//! What lies beside each other differs in lightness, so that a picture reads in grey and to
//! colour-blind eyes; forces are told apart by letters, not by colour.

use crate::chart::{Colour, INK};

/// The sea under the surface.
pub(super) const WATER: Colour = Colour::new(0xDF, 0xEB, 0xF1);
/// The surface, and the wetted edge.
pub(super) const SURFACE: Colour = Colour::new(0x10, 0x5F, 0x7A);
/// The wetted bottom.
pub(super) const WETTED: Colour = Colour::new(0x8E, 0xB9, 0xCB);
/// The dry bottom.
pub(super) const BOTTOM: Colour = Colour::new(0xF3, 0xEC, 0xDC);
/// Topsides, and paper under writing.
pub(super) const PAPER: Colour = Colour::new(0xFF, 0xFF, 0xFF);
/// Planes.
pub(super) const BRASS: Colour = Colour::new(0xBF, 0x85, 0x1B);
/// The line where the water parts.
pub(super) const PARTING: Colour = Colour::new(0x86, 0x1D, 0x2C);
/// Arrows of forces.
pub(super) const FORCE: Colour = Colour::new(0x86, 0x1D, 0x2C);
/// What is only sketched.
pub(super) const SKETCHED: Colour = Colour::new(0x6B, 0x7E, 0x8C);

/// A pen: colour, width and dashes in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pen {
    pub colour: Colour,
    pub width_px: f64,
    /// Drawn and bare lengths by turns.
    pub dash_px: &'static [f64],
}

impl Pen {
    const fn solid(colour: Colour, width_px: f64) -> Self {
        Self { colour, width_px, dash_px: &[] }
    }

    /// The hull where the equations know it.
    pub const OUTLINE: Self = Self::solid(INK, 2.0);
    /// Edges inside the outline.
    pub const EDGE: Self = Self::solid(INK, 1.1);
    /// What is only sketched.
    pub const SKETCH: Self = Self::solid(SKETCHED, 1.3);
    /// Dimensions and leaders.
    pub const FINE: Self = Self::solid(INK, 0.8);
    /// Centrelines and lines extended.
    pub const CENTRE: Self = Self { colour: INK, width_px: 0.8, dash_px: &[14.0, 3.0, 2.0, 3.0] };
    /// What is not there, or may not be.
    pub const GHOST: Self = Self { colour: SKETCHED, width_px: 1.3, dash_px: &[6.0, 4.0] };
    /// The water's surface.
    pub const WATERLINE: Self = Self::solid(SURFACE, 1.8);
    /// Where the water parts.
    pub const PARTING_LINE: Self = Self { colour: PARTING, width_px: 1.6, dash_px: &[7.0, 3.0] };
    /// A force.
    pub const FORCE_LINE: Self = Self::solid(FORCE, 2.2);
}
