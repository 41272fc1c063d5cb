//! The whole transom on one sheet: view from aft, one plane square on, and the side view.

mod detail;
mod frame;
mod side_view;
mod transom_view;

use super::ink::Sheet;
use super::paper::Paper;
use super::place::Placement;
use super::say::Say;

/// Left, top, right and bottom of a part of the sheet, millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Region {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Region {
    fn size(&self) -> [f64; 2] {
        [self.right - self.left, self.bottom - self.top]
    }
}

/// Draws the sheet, lying on its side.
pub(super) fn sheet(placement: &Placement, say: Say, paper: Paper) -> Sheet {
    let (short, long) = paper.upright_mm();
    let title = format!("{}: trim planes on the transom", placement.boat);
    let mut sheet = Sheet::new(long, short, &title);
    let parts = frame::Parts::of(long, short);
    let scale = transom_view::draw(&mut sheet, placement, say, parts.transom);
    detail::draw(&mut sheet, placement, say, parts.detail);
    side_view::draw(&mut sheet, placement, say, parts.side);
    frame::draw(&mut sheet, placement, say, &parts, scale, paper);
    sheet
}
