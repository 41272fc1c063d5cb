//! Every column of a stock list: what it holds, its limits, and what is taken when it is left empty.

use crate::listing;
use crate::schema::Need::{self, Always, Default, Else, If};
use crate::schema::{Kind, Limits, Row, named, row as column};
use crate::spelling::plain;
use crate::units::Dimension;

/// Words for the kind of actuator.
pub const ACTUATOR_KINDS: &[&str] = &["hydraulic", "electric"];
/// Words for how the plate is carried across its span.
pub const SUPPORTS: &[&str] = &["bracket", "stiffened"];
/// Words for what the limit stress of a material stands for.
pub const LIMIT_KINDS: &[&str] = &["yield", "ultimate"];
/// Materials whose values are known.
pub const MATERIALS: &[&str] = &["stainless-316", "aluminium-5083", "glass-polyester"];

const LENGTH: Kind = Kind::Quantity(Dimension::Length);
const FORCE: Kind = Kind::Quantity(Dimension::Force);
const PRESSURE: Kind = Kind::Quantity(Dimension::Pressure);
const HYDRAULIC: Need = If(ACTUATOR_KINDS[0]);
const ELECTRIC: Need = If(ACTUATOR_KINDS[1]);
/// What a part is described by so that its strength can be judged; all of it, or none.
pub(super) const STRENGTH: Need = If("strength is to be judged");

/// All columns, in the order of the list that comes with the program.
#[rustfmt::skip]
pub const COLUMNS: &[Row] = &[
    column("name", Kind::Text, Always, Limits::None, "450 x 230 hydraulic", "what the part is called; no two parts alike"),
    column("span", LENGTH, Always, Limits::Written("50 mm", "3 m"), "450 mm", "span of one plane, along the bottom edge"),
    column("chord", LENGTH, Always, Limits::Written("50 mm", "1 m"), "230 mm", "chord, hinge to trailing edge"),
    column("thickness", LENGTH, STRENGTH, Limits::Written("0.5 mm", "60 mm"), "4 mm", "thickness of the plate"),
    column("material", Kind::Text, STRENGTH, Limits::None, "stainless-316", "what the plate is made of: stainless-316, aluminium-5083 or glass-polyester, or any other name with modulus, limit_stress and limit_kind"),
    column("modulus", PRESSURE, Else("the value of a known material"), Limits::Written("0.1 GPa", "500 GPa"), "193 GPa", "Young's modulus of the plate; flexural for a laminate"),
    column("limit_stress", PRESSURE, Else("the value of a known material"), Limits::Written("1 MPa", "3000 MPa"), "205 MPa", "stress that the safety factor is counted against"),
    column("limit_kind", Kind::Choice(LIMIT_KINDS), Else("that of a known material"), Limits::None, "yield", "what that stress stands for"),
    column("support", Kind::Choice(SUPPORTS), Default("bracket", ""), Limits::None, "stiffened", "how each actuator carries the plate across the span: by its bracket alone, or stiffened by ribs or folds that carry the whole span"),
    column("bracket_width", LENGTH, Else("needed when support is bracket"), Limits::Written("5 mm", "3 m"), "80 mm", "width across the span over which the actuator's lower bracket bears on the plate"),
    column("actuators", Kind::Count, Default("1", ""), Limits::Written("1", "2"), "1", "actuators on one plane: 1 amidships, or 2 at the quarter points"),
    column("actuator", Kind::Choice(ACTUATOR_KINDS), STRENGTH, Limits::None, "hydraulic", "kind of actuator"),
    column("retracted_length", LENGTH, STRENGTH, Limits::Written("30 mm", "2 m"), "171 mm", "pin to pin, retracted"),
    column("stroke", LENGTH, STRENGTH, Limits::Written("5 mm", "1 m"), "45 mm", "length added when extended"),
    column("bore", LENGTH, HYDRAULIC, Limits::Written("5 mm", "200 mm"), "25 mm", "bore of the cylinder"),
    column("rod", LENGTH, Else("none: a single-acting cylinder"), Limits::Written("1 mm", "190 mm"), "12 mm", "rod of a double-acting cylinder, which the pump also drives back"),
    column("pump_pressure", PRESSURE, HYDRAULIC, Limits::Written("1 bar", "400 bar"), "60 bar", "pressure at which the pump's relief valve opens"),
    // Seal friction takes a tenth of the force when no better is known. Common practice, no source.
    column("efficiency", Kind::Number, Default("0.9", ""), Limits::Written("0.1", "1"), "0.9", "share of pressure times area that reaches the pin"),
    column("pump_flow", Kind::Quantity(Dimension::VolumeRate), HYDRAULIC, Limits::Written("0.005 L/min", "200 L/min"), "0.5 L/min", "flow to one cylinder"),
    column("tube_bore", LENGTH, HYDRAULIC, Limits::Written("0.5 mm", "50 mm"), "4 mm", "inner diameter of the tube"),
    column("tube_length", LENGTH, HYDRAULIC, Limits::Written("0.1 m", "60 m"), "5 m", "tube from pump to cylinder"),
    column("oil_viscosity", Kind::Quantity(Dimension::KinematicViscosity), HYDRAULIC, Limits::Written("1 mm^2/s", "5000 mm^2/s"), "40 mm^2/s", "viscosity of the oil at its working temperature"),
    column("oil_density", Kind::Quantity(Dimension::Density), HYDRAULIC, Limits::Written("700 kg/m^3", "1300 kg/m^3"), "870 kg/m^3", "density of the oil"),
    column("lock_pressure", PRESSURE, Else("not known: the pump's pressure is used"), Limits::Written("1 bar", "1000 bar"), "160 bar", "lowest rated pressure among lock valve, hose and cylinder"),
    column("rated_force", FORCE, ELECTRIC, Limits::Written("10 N", "200 kN"), "3 kN", "load that the actuator is rated to move"),
    column("actuator_speed", Kind::Quantity(Dimension::Speed), ELECTRIC, Limits::Written("0.0002 m/s", "1 m/s"), "0.012 m/s", "speed of the actuator at that load"),
    column("current", Kind::With("A"), ELECTRIC, Limits::Written("0.05", "200"), "8 A", "current at that load"),
    column("voltage", Kind::With("V"), ELECTRIC, Limits::Written("5", "120"), "12 V", "nominal supply"),
    column("holding_force", FORCE, Else("not known: the rated force is used"), Limits::Written("10 N", "500 kN"), "9 kN", "load that the actuator is rated to bear standing still"),
    column("upper_pin_height", LENGTH, STRENGTH, Limits::Written("10 mm", "2 m"), "185 mm", "from the hinge line up the transom to the foot of the upper pin, on a transom square to the bottom"),
    column("upper_pin_stand_off", LENGTH, STRENGTH, Limits::Written("0 mm", "500 mm"), "25 mm", "upper pin aft of the transom face"),
    column("lower_pin_aft", LENGTH, STRENGTH, Limits::Written("10 mm", "1 m"), "145 mm", "from the hinge aft along the plate to the foot of the lower pin"),
    column("lower_pin_above", LENGTH, STRENGTH, Limits::Written("0 mm", "300 mm"), "20 mm", "lower pin above the plate"),
    column("screw_count", Kind::Count, STRENGTH, Limits::Written("2", "60"), "6", "screws in the row of the hinge leaf"),
    column("screw_edge", LENGTH, STRENGTH, Limits::Written("2 mm", "500 mm"), "25 mm", "least distance of an end screw from the end of the plane"),
    column("screw_spacing", Kind::Spacing, Default("even", ""), Limits::Written("5 mm", "1 m"), "even", "even, from one end screw to the other; or the pitch of a row centred on the span"),
    column("screw_row_height", LENGTH, STRENGTH, Limits::Written("2 mm", "200 mm"), "20 mm", "row of screws above the hinge line"),
    column("leaf_height", LENGTH, STRENGTH, Limits::Written("4 mm", "300 mm"), "40 mm", "upper edge of the hinge leaf above the hinge line"),
    column("hinge_pin_offset", LENGTH, STRENGTH, Limits::Written("0 mm", "50 mm"), "4 mm", "hinge pin aft of the transom face"),
    column("screw_diameter", LENGTH, STRENGTH, Limits::Written("2 mm", "20 mm"), "5 mm", "shank of the hinge screws"),
    column("screw_length", LENGTH, STRENGTH, Limits::Written("5 mm", "200 mm"), "38 mm", "hinge screws under the head"),
    column("bracket_screw_count", Kind::Count, STRENGTH, Limits::Written("2", "12"), "4", "screws of one upper bracket, an even number: half in each of two columns"),
    column("bracket_screw_across", LENGTH, STRENGTH, Limits::Written("5 mm", "500 mm"), "40 mm", "between the two columns"),
    column("bracket_screw_up", LENGTH, Else("needed with more than 2 screws"), Limits::Written("5 mm", "500 mm"), "50 mm", "between the screws of a column"),
    column("bracket_edge", LENGTH, STRENGTH, Limits::Written("2 mm", "200 mm"), "12 mm", "outermost screws to the upper and lower edge of the bracket"),
    column("bracket_screw_diameter", LENGTH, STRENGTH, Limits::Written("2 mm", "20 mm"), "6 mm", "shank of the bracket screws"),
    column("bracket_screw_length", LENGTH, STRENGTH, Limits::Written("5 mm", "200 mm"), "45 mm", "bracket screws under the head"),
    column("lead_through", LENGTH, Else("not known: the sheet for marking out leaves the hole to the fitter"), Limits::Written("1 mm", "100 mm"), "8 mm", "largest across of what is led through the transom to the actuator: the tube, or the cable with its plug"),
    column("price", Kind::Number, Else("half of pair_price, one of which is needed"), Limits::Written("0", "1000000"), "410", "price of one plane with its actuators"),
    column("pair_price", Kind::Number, Else("twice the price"), Limits::Written("0", "2000000"), "820", "price of a pair with its actuators, in the place of price"),
    column("currency", Kind::Text, Else("that of the price's heading or cell, else none"), Limits::None, "EUR", "three-letter code of the currency (ISO 4217)"),
    column("on_hand", Kind::Count, Else("not known"), Limits::Written("0", "100000"), "2", "planes on the shelf; a boat takes two"),
];

/// Other headings that are usual in the trade, each with the column that it stands for.
const ALSO: &[(&str, &str)] = &[
    ("article", "name"),
    ("description", "name"),
    ("item", "name"),
    ("model", "name"),
    ("part", "name"),
    ("part_name", "name"),
    ("product", "name"),
    ("span_each", "span"),
    ("span_of_each", "span"),
    ("chord_length", "chord"),
    ("plate_thickness", "thickness"),
    ("list_price", "price"),
    ("price_each", "price"),
    ("price_per_plane", "price"),
    ("unit_price", "price"),
    ("price_of_pair", "pair_price"),
    ("price_per_pair", "pair_price"),
    ("price_pair", "pair_price"),
    ("in_stock", "on_hand"),
    ("qty", "on_hand"),
    ("quantity", "on_hand"),
    ("stock", "on_hand"),
];

/// Head of the documentation of the columns.
const HEAD: &str = "\
# Columns of a stock list

A stock list is one line for each kind of plane below one line of headings: a CSV file as a
spreadsheet saves it. **Name, span, chord and price are enough**: the parts are then ranked by size
and price, and every answer says that their strength is not known. `planewright new --stock list.csv`
writes a list to begin with.

- Columns are parted by commas, semicolons or tabs, and stand in any order; those that are not needed
  may be left out. Headings may have large or small letters, and blanks or hyphens for `_`.
- A quantity has its unit in its cell (`450 mm`, `17 3/4 in`, `60 bar`) or once in the heading:
  `span_mm`, `span (mm)`, `span [in]`, `price_eur`.
- Decimals have a point or a comma. What can be read in two ways, such as `1,250 mm` in a list with
  decimal points, is refused. A price may have its currency beside it.
- The letters may be UTF-8, UTF-16 or Windows-1252 (which holds Latin-1).
- Lines that begin with `#` are comments; a title above the headings is passed over.
- A line with a fault is reported with its number, and the rest of the list is used.

The columns that are needed where strength is to be judged are needed together: with all of them
plate, screws and actuators of a part are held against the loads on the boat, with some of them they
are not. A line that leaves all of them empty is a part whose strength is not known.

The part is measured on a transom square to the bottom; on a raked one the upper bracket is moved
along the transom so that the plane comes up just as far (the program computes the new height).
";

/// The column that a heading names by itself, in the spelling of the columns.
fn by_name(name: &str) -> Option<&'static Row> {
    let also = || ALSO.iter().find(|(word, _)| *word == name).map(|(_, column)| *column);
    named(COLUMNS, name).or_else(|| named(COLUMNS, also()?))
}

/// The column that a heading means, and the unit or currency that stands in it: `span`, `Span [mm]`, `span_mm`, `price (EUR)`.
pub(super) fn column_of(heading: &str) -> Option<(&'static Row, Option<String>)> {
    let spelt = |text: &str| plain(text.trim().trim_end_matches([',', ':', '/', '_', '-']).trim());
    if let Some(column) = by_name(&spelt(heading)) {
        return Some((column, None));
    }
    let brackets = [('(', ')'), ('[', ']')];
    let within = brackets.iter().find_map(|&(open, close)| {
        let (name, rest) = heading.split_once(open)?;
        Some((name, rest.trim_end().strip_suffix(close)?))
    });
    let behind = || heading.rsplit_once(['_', ' ', '/', ',', '.']);
    let (name, unit) = within.or_else(behind)?;
    let name = spelt(name);
    let column = by_name(&name).or_else(|| by_name(name.strip_suffix("_in")?))?;
    let unit = unit.trim();
    let fits = match column.kind {
        Kind::Number => currency_of(unit).is_some(),
        kind => kind.read(&format!("1 {unit}")).is_ok(),
    };
    // What stands in brackets may be a remark; what stands behind a blank must be a unit.
    (fits || within.is_some()).then(|| (column, fits.then(|| unit.to_owned())))
}

/// The code of a currency, from its three letters or its sign.
pub(crate) fn currency_of(text: &str) -> Option<String> {
    match text {
        "€" => Some("EUR".to_owned()),
        "£" => Some("GBP".to_owned()),
        "¥" => Some("JPY".to_owned()),
        code if code.len() == 3 && code.chars().all(|letter| letter.is_ascii_alphabetic()) => {
            Some(code.to_ascii_uppercase())
        }
        _ => None,
    }
}

/// The documentation of the columns, as it stands beside the list that comes with the program.
#[must_use]
pub fn documentation() -> String {
    let words = |column: &Row| {
        let own = ALSO.iter().filter(|(_, name)| *name == column.name);
        let words: Vec<String> = own.map(|(word, _)| word.replace('_', " ")).collect();
        (!words.is_empty()).then(|| format!("- `{}`: {}\n", column.name, words.join(", ")))
    };
    let also: String = COLUMNS.iter().filter_map(words).collect();
    let table = listing::documentation(HEAD, COLUMNS);
    format!("{table}\nOther headings that are understood:\n\n{also}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_examples_and_limits_can_be_read() {
        crate::schema::prove(COLUMNS);
    }

    #[test]
    fn regression_the_columns_are_documented() {
        let written = include_str!("../../data/stock/COLUMNS.md");
        assert_eq!(written, documentation());
    }
}
