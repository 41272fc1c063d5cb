//! The units in which quantities are shown: each is named by its spelling in the one table of
//! units, which gives its factor.

use uom::si::f64::{Area, Force, Length, Mass, Power, Torque, Velocity};
use uom::si::{
    area::square_meter, force::newton, length::meter, mass::kilogram, power::watt,
    torque::newton_meter, velocity::meter_per_second,
};

use super::table::{Dimension, factor_of};

/// The units in which one kind of quantity is shown, as an enum: a variant for each, the spelling
/// that it has in the table of units, and its name.
macro_rules! shown_in {
    (
        $(#[$about:meta])*
        $unit:ident, $dimension:ident of $quantity:ident in $base:ident:
        $($variant:ident $symbol:literal $name:literal,)+
    ) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $unit {
            $(#[doc = concat!($name, ".")] $variant,)+
        }

        impl $unit {
            /// Every unit, in the order in which they are listed.
            pub const ALL: &[Self] = &[$(Self::$variant,)+];

            /// The unit as written after a number.
            #[must_use]
            pub const fn symbol(self) -> &'static str {
                match self { $(Self::$variant => $symbol,)+ }
            }

            /// The unit in words.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)+ }
            }

            pub(super) const fn factor(self) -> f64 {
                match self {
                    $(Self::$variant => const { factor_of($symbol, Dimension::$dimension) },)+
                }
            }

            /// The quantity as a number of this unit.
            #[must_use]
            pub fn value(self, quantity: $quantity) -> f64 {
                quantity.get::<$base>() / self.factor()
            }
        }
    };
}

shown_in! {
    /// Unit in which speeds are shown.
    SpeedUnit, Speed of Velocity in meter_per_second:
    Knot "kn" "Knots",
    MilePerHour "mph" "Statute miles per hour",
    KilometrePerHour "km/h" "Kilometres per hour",
    MetrePerSecond "m/s" "Metres per second",
}

shown_in! {
    /// Unit in which forces are shown.
    ForceUnit, Force of Force in newton:
    Newton "N" "Newtons",
    Kilonewton "kN" "Kilonewtons",
    PoundForce "lbf" "Pounds-force",
}

shown_in! {
    /// Unit in which powers are shown.
    PowerUnit, Power of Power in watt:
    Kilowatt "kW" "Kilowatts",
    Horsepower "hp" "Mechanical horsepower, 550 foot pounds-force per second",
}

shown_in! {
    /// Unit in which lengths are shown.
    LengthUnit, Length of Length in meter:
    Metre "m" "Metres",
    Millimetre "mm" "Millimetres",
    Inch "in" "Inches",
    Foot "ft" "Feet",
}

shown_in! {
    /// Unit in which masses are shown.
    MassUnit, Mass of Mass in kilogram:
    Kilogram "kg" "Kilograms",
    Pound "lb" "Avoirdupois pounds",
}

shown_in! {
    /// Unit in which moments and torques are shown.
    MomentUnit, Torque of Torque in newton_meter:
    NewtonMetre "N m" "Newton metres",
    PoundForceFoot "lbf ft" "Pound-force feet",
}

shown_in! {
    /// Unit in which areas are shown.
    AreaUnit, Area of Area in square_meter:
    SquareMetre "m^2" "Square metres",
    SquareInch "in^2" "Square inches",
    SquareFoot "ft^2" "Square feet",
}
