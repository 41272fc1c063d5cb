//! The whole transom on one sheet: view from aft, one plane square on, and the side view.

mod detail;
mod frame;
mod side_view;
mod transom_view;

use super::paper::Paper;
use super::placement::Placement;
use super::say::Say;
use super::style::FORM;
use crate::drawing::Drawing;

/// Draws the sheet, lying on its side.
pub(super) fn sheet(placement: &Placement, say: Say, paper: Paper) -> Drawing {
    let (short, long) = paper.upright_mm();
    let title = format!("{}: trim planes on the transom", placement.boat);
    let mut sheet = Drawing::new([long, short], &title, FORM);
    let parts = frame::Parts::of(long, short);
    let scale = transom_view::draw(&mut sheet, placement, say, parts.transom);
    let entries = frame::entries(placement, say, scale, paper);
    let parts = parts.with_room_for(&entries);
    detail::draw(&mut sheet, placement, say, parts.detail);
    side_view::draw(&mut sheet, placement, say, parts.side);
    frame::draw(&mut sheet, placement, &parts, &entries);
    sheet
}
