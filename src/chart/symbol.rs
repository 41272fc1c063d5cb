//! Symbols along lines, and the ring of a named point.

use super::style::{LineStyle, Symbol};
use crate::drawing::{Colour, Drawing, INK, PAPER, Pen, Point};

/// The symbol of a line style, with a rim of paper that parts it from the line.
pub(super) fn draw_symbol(drawing: &mut Drawing, style: &LineStyle, centre: Point) {
    let Some(symbol) = style.symbol else { return };
    let ink = style.colour;
    let corners = |radius_px: f64| outline(symbol, centre, radius_px);
    match symbol {
        Symbol::Disc => discs(drawing, centre, &[(5.0, PAPER), (4.0, ink)]),
        Symbol::OpenCircle => discs(drawing, centre, &[(5.0, PAPER), (4.0, ink), (2.5, PAPER)]),
        Symbol::Cross => {
            discs(drawing, centre, &[(5.0, PAPER)]);
            let [a, b, c, d] = [0, 1, 2, 3].map(|place| corners(5.0)[place]);
            drawing.line(a, c, Pen::solid(ink, 1.75));
            drawing.line(b, d, Pen::solid(ink, 1.75));
        }
        Symbol::OpenSquare | Symbol::OpenDiamond => {
            for (radius_px, fill) in [(6.5, PAPER), (5.25, ink), (3.0, PAPER)] {
                drawing.shape(&corners(radius_px), None, Some(fill));
            }
        }
        Symbol::Triangle | Symbol::Square => {
            for (radius_px, fill) in [(6.5, PAPER), (5.0, ink)] {
                drawing.shape(&corners(radius_px), None, Some(fill));
            }
        }
    }
}

/// A named point: a ring around a dot, unlike any symbol of a line.
pub(super) fn draw_marker(drawing: &mut Drawing, at: Point) {
    discs(drawing, at, &[(7.25, PAPER), (6.25, INK), (4.75, PAPER), (2.25, INK)]);
}

/// Filled discs on each other: radius in pixels and colour.
fn discs(drawing: &mut Drawing, centre: Point, all: &[(f64, Colour)]) {
    for (radius_px, fill) in all {
        drawing.circle(centre, *radius_px, None, Some(*fill));
    }
}

/// The corners of a symbol on a circle of this radius.
fn outline(symbol: Symbol, centre: Point, radius_px: f64) -> Vec<Point> {
    let (corners, first_deg) = match symbol {
        Symbol::Triangle => (3, 90.0),
        Symbol::OpenDiamond => (4, 90.0),
        _ => (4, 45.0),
    };
    (0..corners)
        .map(|i| {
            let turn = first_deg + 360.0 * f64::from(i) / f64::from(corners);
            let (sin, cos) = turn.to_radians().sin_cos();
            [centre[0] + radius_px * cos, centre[1] - radius_px * sin]
        })
        .collect()
}
