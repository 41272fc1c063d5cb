//! Lengths and angles as someone with a tape and a drill reads them.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Force, Length};
use uom::si::force::{newton, pound_force};
use uom::si::length::{inch, millimeter};

use crate::units::{UnitSystem, fraction_of_inch, number_with_decimals};

/// Parts of an inch in which drills are sold.
const DRILL_PARTS: u32 = 64;
/// Millimetre drills of pilots are sold by tenths up to this size; by halves above, and for holes
/// that something passes, since few sets have more; common practice, no source.
const TENTHS_UP_TO_MM: f64 = 6.0;
/// Parts of an inch that a tape shows.
const SIXTEENTHS: f64 = 16.0;
/// Share of a step by which a size may fall short of the next one, for the last binary digit.
const SLACK: f64 = 1e-6;

/// What the figures of a sheet are written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetUnits {
    /// Whole millimetres, as a tape shows them.
    Millimetres,
    /// Inches and sixteenths, as a tape shows them.
    Inches,
    /// Both, each rounded by itself.
    Both,
}

impl From<UnitSystem> for SheetUnits {
    fn from(system: UnitSystem) -> Self {
        match system {
            UnitSystem::Marine | UnitSystem::Metric => Self::Millimetres,
            UnitSystem::Imperial => Self::Inches,
        }
    }
}

/// Writes dimensions in the units of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Say(pub SheetUnits);

/// Which way a drill is rounded to the next that is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Next {
    /// To the nearest: a pilot.
    Nearest,
    /// To the next larger: something must pass.
    Larger,
}

impl Say {
    /// In these units, or in both.
    fn each(self, millimetres: String, inches: String) -> String {
        match self.0 {
            SheetUnits::Millimetres => millimetres,
            SheetUnits::Inches => inches,
            SheetUnits::Both => format!("{millimetres} ({inches})"),
        }
    }

    /// A length to mark with a tape: `203 mm`, `8 in`, `203 mm (8 in)`.
    pub fn length(self, length: Length) -> String {
        self.each(format!("{} mm", whole_mm(length)), fraction_of_inch(length))
    }

    /// The same without its unit, for tables and dimension lines: `203`, `8`, `203 (8)`.
    pub fn bare(self, length: Length) -> String {
        let inches = fraction_of_inch(length);
        self.each(whole_mm(length), inches.trim_end_matches(" in").to_owned())
    }

    /// A length that must not be less, rounded up in each unit but for a tenth of a millimetre.
    pub fn at_least(self, length: Length) -> String {
        let tenth = Length::new::<millimeter>(0.1);
        let up = |step: Length| {
            let steps: f64 = ((length - tenth) / step).into();
            step * steps.ceil().max(1.0)
        };
        let (mm, sixteenth) =
            (Length::new::<millimeter>(1.0), Length::new::<inch>(1.0 / SIXTEENTHS));
        self.each(format!("{} mm", whole_mm(up(mm))), fraction_of_inch(up(sixteenth)))
    }

    /// A length that must not be more, rounded down in each unit.
    pub fn at_most(self, length: Length) -> String {
        let down = |step: Length| {
            let steps: f64 = (length / step).into();
            step * (steps + SLACK).floor()
        };
        let (mm, sixteenth) =
            (Length::new::<millimeter>(1.0), Length::new::<inch>(1.0 / SIXTEENTHS));
        self.each(format!("{} mm", whole_mm(down(mm))), fraction_of_inch(down(sixteenth)))
    }

    /// A thickness of sheet, finer than a tape shows it.
    pub fn thickness(self, length: Length, next: Next) -> String {
        let tenths = steps(length.get::<millimeter>(), 0.1, next) * 0.1;
        let tenths = number_with_decimals(tenths, 1);
        self.each(format!("{} mm", tenths.trim_end_matches(".0")), inch_drill(length, next))
    }

    /// A length on a drawing, where both units stand short beside each other: `203 | 8`.
    pub fn drawn(self, length: Length) -> String {
        let millimetres = Self(SheetUnits::Millimetres);
        match self.0 {
            SheetUnits::Both => {
                format!("{} | {}", millimetres.bare(length), Self(SheetUnits::Inches).bare(length))
            }
            SheetUnits::Millimetres | SheetUnits::Inches => self.length(length),
        }
    }

    /// The same without its unit.
    pub fn bare_drawn(self, length: Length) -> String {
        match self.0 {
            SheetUnits::Both => self.drawn(length),
            SheetUnits::Millimetres | SheetUnits::Inches => self.bare(length),
        }
    }

    /// A limit or a custom by its own round figure in each unit, not one turned into the other.
    pub fn custom(self, millimetres: &str, inches: &str) -> String {
        self.each(format!("{millimetres} mm"), format!("{inches} in"))
    }

    /// A drill as it is sold: `6.5 mm`, `17/64 in`.
    pub fn drill(self, diameter: Length, next: Next) -> String {
        self.each(metric_drill(diameter, next), inch_drill(diameter, next))
    }

    /// The same as a length; by the millimetre where both stand.
    pub fn drill_size(self, diameter: Length, next: Next) -> Length {
        match self.0 {
            SheetUnits::Millimetres | SheetUnits::Both => {
                Length::new::<millimeter>(metric_drill_mm(diameter, next))
            }
            SheetUnits::Inches => {
                Length::new::<inch>(inch_drill_parts(diameter, next) / f64::from(DRILL_PARTS))
            }
        }
    }

    /// Diameter of a screw, by the size it is sold as.
    pub fn screw(self, diameter: Length) -> String {
        let half_mm = (diameter.get::<millimeter>() * 2.0).round() / 2.0;
        let metric = number_with_decimals(half_mm, 1);
        self.each(
            format!("{} mm", metric.trim_end_matches(".0")),
            inch_drill(diameter, Next::Nearest),
        )
    }

    /// A force, whole.
    pub fn force(self, force: Force) -> String {
        let whole = |number: f64| number_with_decimals(number, 0);
        self.each(
            format!("{} N", whole(force.get::<newton>())),
            format!("{} lbf", whole(force.get::<pound_force>())),
        )
    }

    /// An angle to a tenth of a degree.
    pub fn angle(self, angle: Angle) -> String {
        format!("{} deg", number_with_decimals(angle.get::<degree>(), 1))
    }

    /// The unit at the head of a column.
    pub const fn symbol(self) -> &'static str {
        match self.0 {
            SheetUnits::Millimetres => "mm",
            SheetUnits::Inches => "in",
            SheetUnits::Both => "mm (in)",
        }
    }

    /// The unit in words.
    pub const fn unit_words(self) -> &'static str {
        match self.0 {
            SheetUnits::Millimetres => "millimetres",
            SheetUnits::Inches => "inches",
            SheetUnits::Both => "millimetres (inches)",
        }
    }

    /// What was lost in writing, as a sentence.
    pub const fn rounding(self) -> &'static str {
        match self.0 {
            SheetUnits::Millimetres => "Lengths are in millimetres, rounded to a whole one.",
            SheetUnits::Inches => "Lengths are in inches, rounded to a sixteenth.",
            SheetUnits::Both => {
                "Lengths are in whole millimetres, and in brackets in inches to a sixteenth; each \
                 is rounded by itself, so that one turned into the other may differ by up to 1.3 mm."
            }
        }
    }
}

fn whole_mm(length: Length) -> String {
    // Halves go away from zero, whatever the last binary digit says.
    let exact = length.get::<millimeter>();
    number_with_decimals((exact + SLACK.copysign(exact)).round(), 0)
}

/// A length for messages that do not know the reader's units: `203 mm (8 in)`.
pub(super) fn both(length: Length) -> String {
    Say(SheetUnits::Both).length(length)
}

/// Whole steps of a size.
fn steps(size: f64, step: f64, next: Next) -> f64 {
    match next {
        Next::Nearest => (size / step).round(),
        Next::Larger => (size / step - 1e-3).ceil(),
    }
}

fn metric_drill_mm(diameter: Length, next: Next) -> f64 {
    let exact_mm = diameter.get::<millimeter>();
    let step_mm = if next == Next::Nearest && exact_mm <= TENTHS_UP_TO_MM { 0.1 } else { 0.5 };
    steps(exact_mm, step_mm, next) * step_mm
}

fn metric_drill(diameter: Length, next: Next) -> String {
    let text = number_with_decimals(metric_drill_mm(diameter, next), 1);
    format!("{} mm", text.trim_end_matches(".0"))
}

fn inch_drill_parts(diameter: Length, next: Next) -> f64 {
    steps(diameter.get::<inch>(), 1.0 / f64::from(DRILL_PARTS), next)
}

fn inch_drill(diameter: Length, next: Next) -> String {
    let parts = inch_drill_parts(diameter, next);
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
        let (metric, imperial) = (Say(SheetUnits::Millimetres), Say(SheetUnits::Inches));
        let inches = Length::new::<inch>;
        let mm = Length::new::<millimeter>;
        assert_eq!(metric.length(inches(8.0)), "203 mm");
        assert_eq!(imperial.length(inches(8.03)), "8 in");
        assert_eq!(Say(SheetUnits::Both).length(inches(8.0)), "203 mm (8 in)");
        assert_eq!(Say(SheetUnits::Both).bare(mm(100.0)), "100 (3 15/16)");
        assert_eq!(imperial.bare(inches(23.63)), "23 5/8");
        assert_eq!(Say(SheetUnits::Both).drawn(inches(8.0)), "203 | 8");
        assert_eq!(imperial.drawn(inches(8.0)), "8 in");
        assert_eq!(metric.length(inches(0.25)), "6 mm");
        assert_eq!(metric.length(mm(-12.5)), "-13 mm");
        assert_eq!(metric.drill(mm(6.4), Next::Larger), "6.5 mm");
        assert_eq!(imperial.drill(mm(6.4), Next::Larger), "17/64 in");
        assert_eq!(imperial.drill(mm(2.33), Next::Nearest), "3/32 in");
        assert_eq!(metric.drill(mm(10.5), Next::Larger), "10.5 mm");
        assert_eq!(metric.drill(mm(5.3), Next::Larger), "5.5 mm");
        assert_eq!(metric.drill(mm(2.33), Next::Nearest), "2.3 mm");
        assert_eq!(metric.at_most(mm(59.6)), "59 mm");
        assert_eq!(imperial.at_most(mm(26.0)), "1 in");
        assert_eq!(metric.screw(mm(4.83)), "5 mm");
        assert_eq!(imperial.at_least(mm(8.0)), "5/16 in");
        assert_eq!(imperial.at_least(mm(5.0)), "1/4 in");
        assert_eq!(metric.at_least(inches(0.25)), "7 mm");
        assert_eq!(metric.thickness(mm(6.31), Next::Larger), "6.4 mm");
        assert_eq!(imperial.thickness(mm(6.31), Next::Larger), "1/4 in");
        assert_eq!(metric.custom("3", "1/8"), "3 mm");
        assert_eq!(imperial.custom("3", "1/8"), "1/8 in");
    }
}
