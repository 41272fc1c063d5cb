//! Line weights of drawings and templates.

use super::style::BLACK;
use crate::drawing::{Colour, Pen};

pub(super) const OUTLINE: Pen = Pen::solid(BLACK, 0.5);
pub(super) const MEDIUM: Pen = Pen::solid(BLACK, 0.3);
pub(super) const FINE: Pen = Pen::solid(BLACK, 0.15);
pub(super) const HATCH: Pen = Pen::solid(Colour::grey(120), 0.12);
pub(super) const CENTRE: Pen = Pen::dashed(BLACK, 0.18, &[7.0, 1.2, 1.2, 1.2]);
pub(super) const HIDDEN: Pen = Pen::dashed(BLACK, 0.25, &[2.0, 1.0]);
/// The water at rest.
pub(super) const WATER: Pen = Pen::dashed(BLACK, 0.18, &[4.0, 1.5]);
pub(super) const CUT: Pen = Pen::dashed(Colour::grey(90), 0.15, &[1.0, 1.5]);
