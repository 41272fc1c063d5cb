//! Line weights of the pictures.

use super::style::{FORCE, PARTING, SKETCHED, SURFACE};
use crate::drawing::{INK, Pen};

/// The hull where the equations know it.
pub(super) const OUTLINE: Pen = Pen::solid(INK, 2.0);
/// Edges inside the outline.
pub(super) const EDGE: Pen = Pen::solid(INK, 1.1);
/// What is only sketched.
pub(super) const SKETCH: Pen = Pen::solid(SKETCHED, 1.3);
/// Dimensions and leaders.
pub(super) const FINE: Pen = Pen::solid(INK, 0.8);
/// Centrelines and lines extended.
pub(super) const CENTRE: Pen = Pen::dashed(INK, 0.8, &[14.0, 3.0, 2.0, 3.0]);
/// What is not there, or may not be.
pub(super) const GHOST: Pen = Pen::dashed(SKETCHED, 1.3, &[6.0, 4.0]);
/// The water's surface.
pub(super) const WATERLINE: Pen = Pen::solid(SURFACE, 1.8);
/// Where the water parts.
pub(super) const PARTING_LINE: Pen = Pen::dashed(PARTING, 1.6, &[7.0, 3.0]);
/// A force.
pub(super) const FORCE_LINE: Pen = Pen::solid(FORCE, 2.2);
