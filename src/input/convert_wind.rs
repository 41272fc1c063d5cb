//! The wind of a boat file.

use super::values::Values;
use crate::boat::{Side, WindInput};

impl Values<'_> {
    pub(super) fn wind(&mut self) -> Option<WindInput> {
        let side_area = self.needed("wind.side_area");
        let side_height = self.needed("wind.side_height");
        let drag_coefficient = self.value("wind.drag_coefficient");
        let speed = self.needed("wind.speed");
        let from = self.choice("wind.from").map(|index| [Side::Port, Side::Starboard][index]);
        Some(WindInput {
            side_area: side_area?,
            side_height: side_height?,
            drag_coefficient,
            speed: speed?,
            from,
        })
    }
}
