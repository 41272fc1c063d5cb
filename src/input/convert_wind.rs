//! The wind of a boat file.

use super::desk::Desk;
use super::schema::SIDES;
use crate::boat::{Side, WindInput};

impl Desk<'_> {
    pub(super) fn wind(&mut self) -> Option<WindInput> {
        let side_area = self.area("wind.side_area");
        let side_area = self.need("wind.side_area", side_area);
        let side_height = self.length("wind.side_height");
        let side_height = self.need("wind.side_height", side_height);
        let drag_coefficient = self.number("wind.drag_coefficient");
        let speed = self.speed("wind.speed");
        let speed = self.need("wind.speed", speed);
        let from =
            self.choice("wind.from", SIDES).map(|index| [Side::Port, Side::Starboard][index]);
        Some(WindInput {
            side_area: side_area?,
            side_height: side_height?,
            drag_coefficient,
            speed: speed?,
            from,
        })
    }
}
