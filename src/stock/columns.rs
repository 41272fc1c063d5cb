//! Every column of a stock list: what it holds, its limits, and what is taken when it is left empty.

use crate::listing;
use crate::spelling;
use crate::units::{Dimension, parse_si};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Free text.
    Text,
    /// A number with a unit.
    Quantity(Dimension),
    /// A number with this one unit.
    With(&'static str),
    /// A number without a unit.
    Number,
    /// A whole number.
    Count,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// `even`, or a length.
    Spacing,
}

/// When a column must be filled in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// Always.
    Always,
    /// For a hydraulic actuator.
    Hydraulic,
    /// For an electric actuator.
    Electric,
    /// Never; what is taken instead.
    Else(&'static str),
}

/// One column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    /// Heading in the file.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// When it must be filled in.
    pub need: Need,
    /// Least and largest value taken, as they would be written; empty where there is no limit.
    pub limits: (&'static str, &'static str),
    /// A value as it might be written.
    pub example: &'static str,
    /// What it means.
    pub meaning: &'static str,
}

/// Words for the kind of actuator.
pub const ACTUATOR_KINDS: &[&str] = &["hydraulic", "electric"];
/// Words for how the plate is carried across its span.
pub const SUPPORTS: &[&str] = &["bracket", "stiffened"];
/// Words for what the limit stress of a material stands for.
pub const LIMIT_KINDS: &[&str] = &["yield", "ultimate"];
/// Materials whose values are known.
pub const MATERIALS: &[&str] = &["stainless-316", "aluminium-5083", "glass-polyester"];

const fn column(
    name: &'static str,
    kind: Kind,
    need: Need,
    limits: (&'static str, &'static str),
    example: &'static str,
    meaning: &'static str,
) -> Column {
    Column { name, kind, need, limits, example, meaning }
}

const LENGTH: Kind = Kind::Quantity(Dimension::Length);
const FORCE: Kind = Kind::Quantity(Dimension::Force);
const PRESSURE: Kind = Kind::Quantity(Dimension::Pressure);
const NO_LIMITS: (&str, &str) = ("", "");

use Need::{Always, Electric, Else, Hydraulic};

/// All columns, in the order of the list that comes with the program.
#[rustfmt::skip]
pub const COLUMNS: &[Column] = &[
    column("name", Kind::Text, Always, NO_LIMITS, "450 x 230 hydraulic", "what the part is called; no two parts alike"),
    column("span", LENGTH, Always, ("50 mm", "3 m"), "450 mm", "span of one plane, along the bottom edge"),
    column("chord", LENGTH, Always, ("50 mm", "1 m"), "230 mm", "chord, hinge to trailing edge"),
    column("thickness", LENGTH, Always, ("0.5 mm", "60 mm"), "4 mm", "thickness of the plate"),
    column("material", Kind::Text, Always, NO_LIMITS, "stainless-316", "what the plate is made of: stainless-316, aluminium-5083 or glass-polyester, or any other name with modulus, limit_stress and limit_kind"),
    column("modulus", PRESSURE, Else("the value of a known material"), ("0.1 GPa", "500 GPa"), "193 GPa", "Young's modulus of the plate; flexural for a laminate"),
    column("limit_stress", PRESSURE, Else("the value of a known material"), ("1 MPa", "3000 MPa"), "205 MPa", "stress that the safety factor is counted against"),
    column("limit_kind", Kind::Choice(LIMIT_KINDS), Else("that of a known material"), NO_LIMITS, "yield", "what that stress stands for"),
    column("support", Kind::Choice(SUPPORTS), Else("bracket"), NO_LIMITS, "stiffened", "how each actuator carries the plate across the span: by its bracket alone, or stiffened by ribs or folds that carry the whole span"),
    column("bracket_width", LENGTH, Else("needed when support is bracket"), ("5 mm", "3 m"), "80 mm", "width across the span over which the actuator's lower bracket bears on the plate"),
    column("actuators", Kind::Count, Else("1"), ("1", "2"), "1", "actuators on one plane: 1 amidships, or 2 at the quarter points"),
    column("actuator", Kind::Choice(ACTUATOR_KINDS), Always, NO_LIMITS, "hydraulic", "kind of actuator"),
    column("retracted_length", LENGTH, Always, ("30 mm", "2 m"), "171 mm", "pin to pin, retracted"),
    column("stroke", LENGTH, Always, ("5 mm", "1 m"), "45 mm", "length added when extended"),
    column("bore", LENGTH, Hydraulic, ("5 mm", "200 mm"), "25 mm", "bore of the cylinder"),
    column("rod", LENGTH, Else("none: a single-acting cylinder"), ("1 mm", "190 mm"), "12 mm", "rod of a double-acting cylinder, which the pump also drives back"),
    column("pump_pressure", PRESSURE, Hydraulic, ("1 bar", "400 bar"), "60 bar", "pressure at which the pump's relief valve opens"),
    column("efficiency", Kind::Number, Else("0.9"), ("0.1", "1"), "0.9", "share of pressure times area that reaches the pin"),
    column("pump_flow", Kind::Quantity(Dimension::VolumeRate), Hydraulic, ("0.005 L/min", "200 L/min"), "0.5 L/min", "flow to one cylinder"),
    column("tube_bore", LENGTH, Hydraulic, ("0.5 mm", "50 mm"), "4 mm", "inner diameter of the tube"),
    column("tube_length", LENGTH, Hydraulic, ("0.1 m", "60 m"), "5 m", "tube from pump to cylinder"),
    column("oil_viscosity", Kind::Quantity(Dimension::KinematicViscosity), Hydraulic, ("1 mm^2/s", "5000 mm^2/s"), "40 mm^2/s", "viscosity of the oil at its working temperature"),
    column("oil_density", Kind::Quantity(Dimension::Density), Hydraulic, ("700 kg/m^3", "1300 kg/m^3"), "870 kg/m^3", "density of the oil"),
    column("lock_pressure", PRESSURE, Else("not known: the pump's pressure is used"), ("1 bar", "1000 bar"), "160 bar", "lowest rated pressure among lock valve, hose and cylinder"),
    column("rated_force", FORCE, Electric, ("10 N", "200 kN"), "3 kN", "load that the actuator is rated to move"),
    column("actuator_speed", Kind::Quantity(Dimension::Speed), Electric, ("0.0002 m/s", "1 m/s"), "0.012 m/s", "speed of the actuator at that load"),
    column("current", Kind::With("A"), Electric, ("0.05", "200"), "8 A", "current at that load"),
    column("voltage", Kind::With("V"), Electric, ("5", "120"), "12 V", "nominal supply"),
    column("holding_force", FORCE, Else("not known: the rated force is used"), ("10 N", "500 kN"), "9 kN", "load that the actuator is rated to bear standing still"),
    column("upper_pin_height", LENGTH, Always, ("10 mm", "2 m"), "185 mm", "from the hinge line up the transom to the foot of the upper pin, on a transom square to the bottom"),
    column("upper_pin_stand_off", LENGTH, Always, ("0 mm", "500 mm"), "25 mm", "upper pin aft of the transom face"),
    column("lower_pin_aft", LENGTH, Always, ("10 mm", "1 m"), "145 mm", "from the hinge aft along the plate to the foot of the lower pin"),
    column("lower_pin_above", LENGTH, Always, ("0 mm", "300 mm"), "20 mm", "lower pin above the plate"),
    column("screw_count", Kind::Count, Always, ("2", "60"), "6", "screws in the row of the hinge leaf"),
    column("screw_edge", LENGTH, Always, ("2 mm", "500 mm"), "25 mm", "least distance of an end screw from the end of the plane"),
    column("screw_spacing", Kind::Spacing, Else("even"), ("5 mm", "1 m"), "even", "even, from one end screw to the other; or the pitch of a row centred on the span"),
    column("screw_row_height", LENGTH, Always, ("2 mm", "200 mm"), "20 mm", "row of screws above the hinge line"),
    column("leaf_height", LENGTH, Always, ("4 mm", "300 mm"), "40 mm", "upper edge of the hinge leaf above the hinge line"),
    column("hinge_pin_offset", LENGTH, Always, ("0 mm", "50 mm"), "4 mm", "hinge pin aft of the transom face"),
    column("screw_diameter", LENGTH, Always, ("2 mm", "20 mm"), "5 mm", "shank of the hinge screws"),
    column("screw_length", LENGTH, Always, ("5 mm", "200 mm"), "38 mm", "hinge screws under the head"),
    column("bracket_screw_count", Kind::Count, Always, ("2", "12"), "4", "screws of one upper bracket, an even number: half in each of two columns"),
    column("bracket_screw_across", LENGTH, Always, ("5 mm", "500 mm"), "40 mm", "between the two columns"),
    column("bracket_screw_up", LENGTH, Else("needed with more than 2 screws"), ("5 mm", "500 mm"), "50 mm", "between the screws of a column"),
    column("bracket_edge", LENGTH, Always, ("2 mm", "200 mm"), "12 mm", "outermost screws to the upper and lower edge of the bracket"),
    column("bracket_screw_diameter", LENGTH, Always, ("2 mm", "20 mm"), "6 mm", "shank of the bracket screws"),
    column("bracket_screw_length", LENGTH, Always, ("5 mm", "200 mm"), "45 mm", "bracket screws under the head"),
    column("price", Kind::Number, Always, ("0", "1000000"), "410", "price of one plane with its actuators, a number alone"),
    column("currency", Kind::Text, Always, NO_LIMITS, "EUR", "three-letter code of the currency (ISO 4217)"),
    column("on_hand", Kind::Count, Always, ("0", "100000"), "2", "planes on the shelf; a boat takes two"),
];

/// The column of that name.
#[must_use]
pub fn column_of(name: &str) -> Option<&'static Column> {
    COLUMNS.iter().find(|column| column.name == name)
}

/// The column that is spelt most like a heading, and how like it is, 0 to 1.
pub(super) fn nearest(heading: &str) -> (&'static Column, f64) {
    let near = spelling::nearest(heading, COLUMNS.iter().map(|column| column.name));
    near.and_then(|(name, likeness)| Some((column_of(name)?, likeness)))
        .unwrap_or((&COLUMNS[0], 0.0))
}

impl Column {
    /// A written value in SI, or as the plain number; `None` if it is not of this column's kind.
    pub(super) fn value_of(&self, text: &str) -> Option<f64> {
        match self.kind {
            Kind::Quantity(dimension) => parse_si(text, dimension).ok(),
            Kind::Spacing => parse_si(text, Dimension::Length).ok(),
            Kind::With(unit) => plain(text.trim().strip_suffix(unit).unwrap_or(text)),
            Kind::Number | Kind::Count => plain(text),
            Kind::Text | Kind::Choice(_) => None,
        }
    }

    /// Whether a value, in SI or as the plain number, lies within the limits.
    pub(super) fn admits(&self, value: f64) -> bool {
        let limit = |text: &str| self.value_of(text);
        let slack = 1e-12 * value.abs();
        limit(self.limits.0).is_none_or(|least| value >= least - slack)
            && limit(self.limits.1).is_none_or(|most| value <= most + slack)
    }

    /// The limits as text, or what else is allowed.
    #[must_use]
    pub fn allowed(&self) -> String {
        match (self.kind, self.limits) {
            (Kind::Choice(words), _) => words.join(" or "),
            (Kind::Text, _) => "text".to_owned(),
            (Kind::Spacing, (least, most)) => format!("even, or {least} to {most}"),
            (Kind::With(unit), (least, most)) => format!("{least} to {most} {unit}"),
            (_, (least, most)) => format!("{least} to {most}"),
        }
    }

    /// When it must be filled in, and what is taken when it is not.
    #[must_use]
    pub fn when(&self) -> String {
        match self.need {
            Always => "always".to_owned(),
            Hydraulic => "if hydraulic".to_owned(),
            Electric => "if electric".to_owned(),
            Else(instead) => format!("no; left empty: {instead}"),
        }
    }
}

fn plain(text: &str) -> Option<f64> {
    text.trim().parse::<f64>().ok().filter(|number| number.is_finite())
}

/// Head of the documentation of the columns.
const HEAD: &str = "\
# Columns of a stock list

A stock list is a CSV file in UTF-8, with commas between the columns, one heading line, and one
line for each kind of plane. Every quantity has its unit, as in a boat file: `450 mm`,
`17 3/4 in`, `60 bar`. Decimals have a point. Lines that begin with `#` are comments. The columns
may stand in any order, and those that are not needed may be left out. A line with a fault is
reported with its number, and the rest of the list is used.

The part is measured on a transom square to the bottom; on a raked one the upper bracket is moved
along the transom so that the plane comes up just as far (the program computes the new height).
";

/// The documentation of the columns, as it stands beside the list that comes with the program.
#[must_use]
pub fn documentation() -> String {
    listing::documentation(
        HEAD,
        COLUMNS.iter().map(|column| {
            let [name, example, meaning] =
                [column.name, column.example, column.meaning].map(str::to_owned);
            [name, column.when(), column.allowed(), example, meaning]
        }),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_examples_and_limits_can_be_read() {
        for column in COLUMNS {
            if let Kind::Choice(words) = column.kind {
                assert!(words.contains(&column.example), "{}", column.name);
            }
            if matches!(column.kind, Kind::Text | Kind::Choice(_)) {
                continue;
            }
            for limit in [column.limits.0, column.limits.1] {
                assert!(column.value_of(limit).is_some(), "{} {limit}", column.name);
            }
            let example = column.value_of(column.example);
            assert!(column.kind == Kind::Spacing || example.is_some(), "{}", column.name);
            assert!(example.is_none_or(|value| column.admits(value)), "{}", column.name);
        }
    }

    #[test]
    fn regression_the_columns_are_documented() {
        let written = include_str!("../../data/stock/COLUMNS.md");
        assert_eq!(written, documentation());
    }
}
