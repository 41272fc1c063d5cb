//! Form, colours and dimensions of the pictures: a sea chart's water, ink, brass and oiled teak.
//!
//! What lies beside each other differs in lightness, so that a picture reads in grey and to
//! colour-blind eyes; forces are told apart by letters, not by colour.

use super::pen;
use crate::drawing::{Colour, Dimension, Drawing, Form, Head, INK, PORT_LIGHT, Round, SEA};

/// The sea under the surface.
pub(super) const WATER: Colour = Colour::new(0xDF, 0xEB, 0xF1);
/// The surface, and the wetted edge.
pub(super) const SURFACE: Colour = SEA;
/// The wetted bottom.
pub(super) const WETTED: Colour = Colour::new(0x8E, 0xB9, 0xCB);
/// The dry bottom.
pub(super) const BOTTOM: Colour = Colour::new(0xF3, 0xEC, 0xDC);
/// The line where the water parts.
pub(super) const PARTING: Colour = PORT_LIGHT;
/// Arrows of forces.
pub(super) const FORCE: Colour = PORT_LIGHT;
/// What is only sketched.
pub(super) const SKETCHED: Colour = Colour::new(0x6B, 0x7E, 0x8C);

/// Size of writing.
pub(super) const TEXT_PX: f64 = 14.0;

/// Pictures are drawn in CSS pixels and may stand on any ground.
pub(super) const FORM: Form = Form {
    unit: "",
    steps: 1.0,
    decimals: 1,
    ink: INK,
    on_paper: false,
    round: Round::JoinsAndEnds,
    drop: 0.36,
    halo: [3.0, 0.62],
};

/// The arrow of a force.
pub(super) const FORCE_HEAD: Head = Head { long: 11.0, half: 4.2, neck: 8.0 };

/// The arrowhead of a dimension.
pub(super) const DIMENSION_HEAD: Head = Head { long: 9.0, half: 2.2, neck: 0.0 };

/// A dimension.
pub(super) const DIMENSION: Dimension = Dimension {
    pen: pen::FINE,
    head: DIMENSION_HEAD,
    text: TEXT_PX,
    gap: 4.0,
    overshoot: 4.0,
    least: 0.0,
    outside: 0.0,
    air: 24.0,
    beyond: 8.0,
};

/// Upright dimension at `x`, between ticks of its own.
pub(super) fn upright_dimension(art: &mut Drawing, x: f64, top: f64, low: f64) {
    for y in [top, low] {
        art.line([x - 5.0, y], [x + 5.0, y], pen::FINE);
    }
    art.line([x, top], [x, low], pen::FINE);
    if low - top > 22.0 {
        DIMENSION_HEAD.draw(art, [x, top], [0.0, -1.0], INK);
        DIMENSION_HEAD.draw(art, [x, low], [0.0, 1.0], INK);
    }
}
