//! Lengths and angles as someone with a tape and a drill reads them.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use uom::si::length::{inch, millimeter};

use crate::units::{UnitSystem, fraction_of_inch, number_with_decimals};

/// Parts of an inch in which drills are sold.
const DRILL_PARTS: u32 = 64;
/// Millimetre drills are sold by tenths up to this size, by halves above; common practice, no
/// source.
const TENTHS_UP_TO_MM: f64 = 6.0;

/// Writes dimensions in one set of units: whole millimetres, or inches to a sixteenth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Say(pub UnitSystem);

impl Say {
    /// A length to mark with a tape: `203 mm`, `8 in`.
    pub fn length(self, length: Length) -> String {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => format!("{} mm", self.bare(length)),
            UnitSystem::Imperial => fraction_of_inch(length),
        }
    }

    /// The same without its unit, for tables and dimension lines.
    pub fn bare(self, length: Length) -> String {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => {
                number_with_decimals(length.get::<millimeter>(), 0)
            }
            UnitSystem::Imperial => fraction_of_inch(length).trim_end_matches(" in").to_owned(),
        }
    }

    /// A small length set with a gauge: `12.7 mm`, `1/2 in`.
    pub fn fine(self, length: Length) -> String {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => {
                // Halves go away from zero, whatever the last binary digit says.
                let exact = length.get::<millimeter>() * 10.0;
                let tenths = (exact + 1e-6_f64.copysign(exact)).round() / 10.0;
                let tenths = number_with_decimals(tenths, 1);
                format!("{} mm", tenths.trim_end_matches(".0"))
            }
            UnitSystem::Imperial => fraction_of_inch(length),
        }
    }

    /// A drill by both its names, the user's first: `4 mm (5/32 in)`.
    pub fn drill(self, diameter: Length) -> String {
        let (metric, imperial) = (metric_drill(diameter), inch_drill(diameter));
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => format!("{metric} ({imperial})"),
            UnitSystem::Imperial => format!("{imperial} ({metric})"),
        }
    }

    /// A drill by the user's own name only, for drawings.
    pub fn short_drill(self, diameter: Length) -> String {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => metric_drill(diameter),
            UnitSystem::Imperial => inch_drill(diameter),
        }
    }

    /// Diameter of a screw.
    pub fn screw(self, diameter: Length) -> String {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => self.fine(diameter),
            UnitSystem::Imperial => inch_drill(diameter),
        }
    }

    /// A small length without its unit, for tables.
    pub fn bare_fine(self, length: Length) -> String {
        self.fine(length).trim_end_matches([' ', 'm', 'i', 'n']).to_owned()
    }

    /// An angle to a tenth of a degree.
    pub fn angle(self, angle: Angle) -> String {
        format!("{} deg", number_with_decimals(angle.get::<degree>(), 1))
    }

    /// The unit at the head of a column.
    pub const fn symbol(self) -> &'static str {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => "mm",
            UnitSystem::Imperial => "in",
        }
    }

    /// The unit in words.
    pub const fn unit_words(self) -> &'static str {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => "millimetres",
            UnitSystem::Imperial => "inches",
        }
    }

    /// What was lost in writing, as a sentence.
    pub const fn rounding(self) -> &'static str {
        match self.0 {
            UnitSystem::Marine | UnitSystem::Metric => {
                "Lengths are in millimetres, rounded to a whole one."
            }
            UnitSystem::Imperial => "Lengths are in inches, rounded to a sixteenth.",
        }
    }
}

/// A length for messages that do not know the reader's units: `203 mm (8 in)`.
pub(super) fn both(length: Length) -> String {
    format!(
        "{} mm ({})",
        number_with_decimals(length.get::<millimeter>(), 0),
        fraction_of_inch(length)
    )
}

fn metric_drill(diameter: Length) -> String {
    let exact_mm = diameter.get::<millimeter>();
    let step_mm = if exact_mm <= TENTHS_UP_TO_MM { 0.1 } else { 0.5 };
    let text = number_with_decimals((exact_mm / step_mm).round() * step_mm, 1);
    format!("{} mm", text.trim_end_matches(".0"))
}

fn inch_drill(diameter: Length) -> String {
    let parts = (diameter.get::<inch>() * f64::from(DRILL_PARTS)).round();
    let (whole, rest) = ((parts / f64::from(DRILL_PARTS)).floor(), parts % f64::from(DRILL_PARTS));
    let (mut part, mut of) = (rest as u32, DRILL_PARTS);
    while part != 0 && part % 2 == 0 {
        (part, of) = (part / 2, of / 2);
    }
    match (whole as u32, part) {
        (whole, 0) => format!("{whole} in"),
        (0, part) => format!("{part}/{of} in"),
        (whole, part) => format!("{whole} {part}/{of} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_lengths_and_drills_read_as_on_tape_and_box() {
        let (metric, imperial) = (Say(UnitSystem::Metric), Say(UnitSystem::Imperial));
        let inches = Length::new::<inch>;
        assert_eq!(metric.length(inches(8.0)), "203 mm");
        assert_eq!(imperial.length(inches(8.03)), "8 in");
        assert_eq!(imperial.bare(inches(23.63)), "23 5/8");
        assert_eq!(metric.fine(inches(0.5)), "12.7 mm");
        assert_eq!(metric.fine(inches(0.25)), "6.4 mm");
        assert_eq!(imperial.fine(inches(0.625)), "5/8 in");
        assert_eq!(metric.drill(inches(5.0 / 32.0)), "4 mm (5/32 in)");
        assert_eq!(imperial.drill(inches(3.0 / 16.0)), "3/16 in (4.8 mm)");
        assert_eq!(imperial.drill(inches(5.0 / 16.0)), "5/16 in (8 mm)");
        assert_eq!(metric.drill(inches(0.75)), "19 mm (3/4 in)");
        assert_eq!(both(inches(8.0)), "203 mm (8 in)");
    }
}
