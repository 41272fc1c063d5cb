//! Puts what a trial told into a copy of the boat file.
//!
//! The text is edited, not written anew: comments, units and order stay, and
//! each value put in carries a comment with what it was and where it comes
//! from. The copy is read back before anybody sees it.

use std::path::{Path, PathBuf};

use toml_edit::{DocumentMut, Item, Table, Value, value};
use uom::si::f64::Length;
use uom::si::length::meter;

use super::learned::{FittedValue, Learned};
use super::read::Log;
use super::seen;
use super::unknown::{Unknown, from_loads, known_before};
use crate::boat::measure::plain_number;
use crate::boat::{Boat, Fault, Measure, Stations, Toleranced};
use crate::input::{Beside, BoatFile, parse_boat_beside};
use crate::units::{LengthUnit, MassUnit, format_mass, number_with_decimals};

/// Decimals of a length in metres or feet that is put into the file.
const LENGTH_DECIMALS: usize = 3;
/// How the comments on values that a trial gave begin.
const MARKS: [&str; 6] = [
    "# by the trial",
    "# as before the trial",
    "# the loads put the centre of gravity at",
    "# on the trial; at another mass",
    "# tried with",
    "# as found from the folder",
];

/// A boat file with what a trial told.
#[derive(Clone, Debug, PartialEq)]
pub struct Calibrated {
    /// The file, read back.
    pub file: BoatFile,
    /// Keys that were changed or added, with the value as it stands there.
    pub changes: Vec<(String, String)>,
}

/// The copy of a boat file with everything about the boat that a log told, to be kept in a folder.
///
/// `boat` is the boat of that file in the condition she was tried in. With a
/// list of loads the centre of gravity is put in as a shift at the mass of the
/// trial, since the list says where each weight is and the trial only how far
/// their sum is off; in other conditions the moment of that stays.
///
/// # Errors
/// A [`Fault`] when the file cannot hold the values, e.g. outside the bounds table.
pub fn calibrated(
    file: &BoatFile,
    boat: &Boat,
    learned: &Learned,
    log: &Log,
    unit: LengthUnit,
    folder: &Path,
) -> Result<Calibrated, Fault> {
    let mut document: DocumentMut = file.text.parse().map_err(|_| unwritable("it is not TOML"))?;
    let mut edit = Edit { document: &mut document, log, unit, changes: Vec::new() };
    for fitted in learned.fitted.iter().filter(|fitted| fitted.unknown.is_of_the_boat()) {
        edit.put(boat, fitted);
        edit.put_tolerance(boat, fitted);
    }
    edit.put_record(boat);
    let stations = edit.put_stations(file, boat, folder);
    let mut changes = edit.changes;
    changes.extend(seen::put(&mut document, &seen::readings(boat, learned)));
    let text = format!("{}{document}", head(file, log));
    let name = format!("{} (calibrated)", file.name);
    let beside = Beside::Known(stations.as_ref());
    let read = parse_boat_beside(&name, &text, beside).map_err(|faults| {
        unwritable(&faults.faults().first().map_or_else(String::new, |fault| fault.problem.clone()))
    })?;
    Ok(Calibrated { file: read, changes })
}

/// Where the copy goes when nobody says: `boat.toml` gives `boat-trial.toml` in the current folder.
#[must_use]
pub fn usual_path(boat: &Path) -> PathBuf {
    let stem = boat.file_stem().map_or_else(|| "boat".into(), |stem| stem.to_string_lossy());
    PathBuf::from(format!("{stem}-trial.toml"))
}

fn unwritable(problem: &str) -> Fault {
    Fault {
        key: "trial".to_owned(),
        problem: format!("what was learned cannot be put into the boat file: {problem}"),
        remedy: "write the values into the file by hand".to_owned(),
    }
}

/// What stands at the top of the copy.
fn head(file: &BoatFile, log: &Log) -> String {
    format!(
        "# Calibrated copy of {} (CRC-32 {}), by planewright {} from the trial log\n\
         # {} (CRC-32 {}). Values that the trial gave are marked below.\n",
        name_only(&file.name),
        file.checksum(),
        env!("CARGO_PKG_VERSION"),
        name_only(&log.name),
        log.checksum
    )
}

/// The name of a file without its folder, so that the copy says the same wherever it is made.
fn name_only(name: &str) -> String {
    let path = Path::new(name);
    path.file_name().map_or_else(|| name.to_owned(), |file| file.to_string_lossy().into_owned())
}

struct Edit<'a> {
    document: &'a mut DocumentMut,
    log: &'a Log,
    unit: LengthUnit,
    changes: Vec<(String, String)>,
}

impl Edit<'_> {
    /// Puts one fitted value in.
    fn put(&mut self, boat: &Boat, fitted: &FittedValue) {
        match (fitted.unknown, fitted.value) {
            (Unknown::CentreOfGravity, Measure::Length(lcg)) => self.put_lcg(boat, fitted, lcg),
            (Unknown::PlaneEffectiveness, Measure::Number(factor)) => {
                let rounded: f64 = number_with_decimals(factor, 3).parse().unwrap_or(factor);
                let comment = self.comment(fitted, &number_text);
                self.set("planes", "effectiveness", rounded.into(), &comment);
            }
            (Unknown::Roughness, Measure::Number(allowance)) => {
                let rounded: f64 = number_with_decimals(allowance, 6).parse().unwrap_or(allowance);
                let comment = self.comment(fitted, &number_text);
                self.set("hull", "roughness", rounded.into(), &comment);
            }
            _ => {}
        }
    }

    fn put_lcg(&mut self, boat: &Boat, fitted: &FittedValue, lcg: Length) {
        let unit = self.unit;
        let text = move |length: Length| length_text(unit, length);
        let of = move |measure: Measure| match measure {
            Measure::Length(length) => text(length),
            other => other.to_string(),
        };
        let comment = self.comment(fitted, &of);
        let shifted = boat.lcg_shift() != Length::default();
        let as_listed = boat.condition() == &boat.conditions()[0];
        if !from_loads(boat) && !shifted && as_listed {
            self.set("weight", "lcg", text(lcg).into(), &comment);
            return;
        }
        let by_loads = boat.weight().lcg - boat.lcg_shift();
        let comment =
            format!("the loads put the centre of gravity at {}; {comment}", text(by_loads));
        self.set("trial", "lcg_shift", text(lcg - by_loads).into(), &comment);
        let mass = format_mass(round_to_kilogram(boat.weight().mass), MassUnit::Kilogram);
        self.set(
            "trial",
            "mass",
            mass.into(),
            "on the trial; at another mass the moment of the shift stays",
        );
    }

    /// How well the value is known beside what the readings tell, which stand in the file too.
    fn put_tolerance(&mut self, boat: &Boat, fitted: &FittedValue) {
        let Some((of, by)) = half_width(boat, fitted, self.unit) else { return };
        let comment = match of {
            Toleranced::Roughness => {
                "by the trial: from its wide range, the error of the equations included, and what was known before"
            }
            _ => {
                "as before the trial: what it told of this stands in [[seen]], and is not counted twice"
            }
        };
        self.changes.push((format!("[[tolerance]] of {}, by", of.key()), format!("\"{by}\"")));
        put_half_width(self.document, of, &by, comment);
    }

    /// The log, and what was put in.
    fn put_record(&mut self, boat: &Boat) {
        let log = format!("{}, CRC-32 {}", name_only(&self.log.name), self.log.checksum);
        let mass = boat.weight().mass.get::<uom::si::mass::kilogram>();
        let comment = format!("tried with {} kg all up", plain_number(mass));
        self.set("trial", "log", log.into(), &comment);
    }

    /// What the value was, and how sure the new one is.
    fn comment(&self, fitted: &FittedValue, text: &dyn Fn(Measure) -> String) -> String {
        format!(
            "by the trial, was {}; 9 in 10: {} to {}, with the error of the equations {} to {}",
            text(fitted.before),
            text(fitted.interval.low),
            text(fitted.interval.high),
            text(fitted.with_form.low),
            text(fitted.with_form.high)
        )
    }

    /// Lets the copy find the stations from its own folder.
    fn put_stations(&mut self, file: &BoatFile, boat: &Boat, folder: &Path) -> Option<Stations> {
        let stations = boat.stations()?;
        let old = Path::new(&file.name).parent().unwrap_or(Path::new(""));
        if old == folder || Path::new(stations.source()).is_absolute() {
            return Some(stations.clone());
        }
        let path = old.join(stations.source());
        // From another folder than the current one only the whole path leads there.
        let path = if folder.as_os_str().is_empty() {
            path
        } else {
            std::path::absolute(&path).unwrap_or(path)
        };
        let path = path.to_string_lossy().into_owned();
        self.set("hull", "stations", path.clone().into(), "as found from the folder of this copy");
        Some(stations.named(&path))
    }

    /// Sets a key, keeping what stands around it, with a comment above.
    fn set(&mut self, table: &str, key: &str, mut new: Value, comment: &str) {
        self.changes.push((format!("{table}.{key}"), new.to_string().trim().to_owned()));
        let item = self.document.entry(table).or_insert_with(|| {
            let mut added = Table::new();
            added.decor_mut().set_prefix("\n");
            Item::Table(added)
        });
        if let Some(old) = item.get(key).and_then(Item::as_value) {
            *new.decor_mut() = old.decor().clone();
        }
        if let Some(inline) = item.as_inline_table_mut() {
            // No comment can stand within one line.
            inline.insert(key, new);
            return;
        }
        let Some(rows) = item.as_table_mut() else { return };
        put_with_comment(rows, key, new, comment);
    }
}

/// Half of the range that holds nine such values in ten, as the boat file wants it.
///
/// Of the centre of gravity and of the planes it is that from before the trial: the trims that
/// told of them go into the file as they were read, and whoever draws boats draws those that
/// would have shown them. Roughness was told by the power, which the file does not keep; its wide
/// interval and what was known before are independent of each other, so that
/// 1/h² = 1/h_before² + 1/h_wide²: a trial never makes a value less sure.
fn half_width(boat: &Boat, fitted: &FittedValue, unit: LengthUnit) -> Option<(Toleranced, String)> {
    let before = known_before(boat, fitted.unknown);
    match fitted.unknown {
        Unknown::CentreOfGravity => {
            let half = Length::new::<meter>(before);
            Some((Toleranced::Lcg, length_text(unit, half)))
        }
        Unknown::PlaneEffectiveness => {
            let text = format!("{} %", number_with_decimals(100.0 * before.exp_m1(), 1));
            Some((Toleranced::PlaneEffectiveness, text))
        }
        Unknown::Roughness => {
            // The lower end of a roughness may stop at that of a smooth bottom.
            let wide = fitted.with_form.high.value() - fitted.value.value();
            let step = (before.powi(-2) + wide.powi(-2)).sqrt().recip();
            Some((Toleranced::Roughness, number_with_decimals(step, 6)))
        }
        Unknown::InclinometerZero => None,
    }
}

/// Puts a key in, with a comment above it.
fn put_with_comment(rows: &mut Table, key: &str, new: Value, comment: &str) {
    rows.insert(key, value(new));
    if let Some(mut name) = rows.key_mut(key) {
        let decor = name.leaf_decor_mut();
        let above = decor.prefix().and_then(|text| text.as_str()).unwrap_or_default();
        // A second trial says the same of itself.
        let is_old = |line: &&str| MARKS.iter().any(|mark| line.trim_start().starts_with(mark));
        let above: String = above.split_inclusive('\n').filter(|line| !is_old(line)).collect();
        decor.set_prefix(format!("{above}# {comment}\n"));
    }
}

/// Puts a half-width into the tolerance of a value, or into a new one.
fn put_half_width(document: &mut DocumentMut, of: Toleranced, by: &str, comment: &str) {
    let is_of = |named: Option<&str>| named == Some(of.key());
    let item = document
        .entry("tolerance")
        .or_insert_with(|| Item::ArrayOfTables(toml_edit::ArrayOfTables::new()));
    if let Some(inline) = item.as_array_mut() {
        let named = |value: &Value| {
            is_of(value.as_inline_table().and_then(|own| own.get("of")).and_then(Value::as_str))
        };
        let index = inline.iter().position(named);
        let own = index.and_then(|index| inline.get_mut(index)?.as_inline_table_mut());
        if let Some(table) = own {
            table.remove("source");
            table.insert("by", by.into());
            return;
        }
        let table = [("of", of.key()), ("by", by)];
        inline.push(table.into_iter().collect::<toml_edit::InlineTable>());
        return;
    }
    let Some(tables) = item.as_array_of_tables_mut() else { return };
    let named = |table: &Table| is_of(table.get("of").and_then(Item::as_str));
    let found = tables.iter().position(named);
    if found.is_none() {
        let mut added = Table::new();
        added.decor_mut().set_prefix("\n");
        added.insert("of", value(of.key()));
        tables.push(added);
    }
    let index = found.unwrap_or(tables.len() - 1);
    if let Some(table) = tables.get_mut(index) {
        table.remove("source");
        put_with_comment(table, "by", by.into(), comment);
    }
}

fn length_text(unit: LengthUnit, length: Length) -> String {
    format!("{} {}", number_with_decimals(unit.value(length), LENGTH_DECIMALS), unit.symbol())
}

fn number_text(measure: Measure) -> String {
    plain_number(measure.value())
}

fn round_to_kilogram(mass: uom::si::f64::Mass) -> uom::si::f64::Mass {
    use uom::si::mass::kilogram;
    uom::si::f64::Mass::new::<kilogram>(mass.get::<kilogram>().round())
}
