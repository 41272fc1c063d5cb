//! Form, shades and dimensions of drawings and templates.

use super::pen;
use crate::drawing::{Colour, Dimension, Form, Head, Round};

pub(super) const BLACK: Colour = Colour::grey(0);
pub(super) const TINT: Colour = Colour::grey(232);

/// Distance between the lines that fill what is in the way.
pub(super) const HATCH_MM: f64 = 1.4;

/// Drawings and templates are made in millimetres of paper.
pub(super) const FORM: Form = Form {
    unit: "mm",
    steps: 1.0,
    decimals: 3,
    ink: BLACK,
    on_paper: true,
    round: Round::Nothing,
    drop: 0.36,
    halo: [0.5, 0.5],
};

pub(super) const HEAD: Head = Head { long: 2.2, half: 0.38, neck: 1.1 };

pub(super) const DIMENSION: Dimension = Dimension {
    pen: pen::FINE,
    head: HEAD,
    text: 2.6,
    gap: 0.8,
    overshoot: 1.2,
    least: 5.9,
    outside: 4.5,
    air: 2.0,
    beyond: 1.0,
};
