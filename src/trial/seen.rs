//! The trims of a log as readings of the boat file, so that later draws show them.

use toml_edit::{ArrayOfTables, DocumentMut, InlineTable, Item, Table, value};
use uom::si::angle::degree;
use uom::si::f64::{Angle, Velocity};
use uom::si::velocity::meter_per_second;

use super::learned::{Compared, Learned};
use super::unknown::ZERO_SPREAD_DEG;
use crate::boat::{Boat, Seen, bound_of, degrees};
use crate::numeric::LIKELY_DEVIATIONS;
use crate::units::factor::M_S_PER_KNOT;
use crate::units::number_with_decimals;

/// Measurements whose speeds lie within this share are merged: the trim goes straight between them.
const SAME_SPEED: f64 = 0.12;
/// Deflections that differ by less, degrees, are one; the indicator is not read finer.
const SAME_DEFLECTION_DEG: f64 = 1.0;
/// Begins the comment above readings that a trial gave.
const MARK: &str = "# by the trial";

/// The trims that were counted, merged where speed and deflection are nearly the same.
///
/// Each is sure to the scatter of the log, less where several are merged, and to the zero of the
/// inclinometer, which goes through all of them.
pub(super) fn readings(boat: &Boat, learned: &Learned) -> Vec<Seen> {
    let mut kept: Vec<&Compared> =
        learned.compared.iter().filter(|compared| !compared.trim_is_outlier()).collect();
    let deflection_deg = |compared: &Compared| degrees(compared.measurement.deflection);
    let speed_m_s = |compared: &Compared| compared.measurement.speed.get::<meter_per_second>();
    let rounded = |compared: &Compared| (deflection_deg(compared) / SAME_DEFLECTION_DEG).round();
    kept.sort_by(|a, b| {
        rounded(a).total_cmp(&rounded(b)).then(speed_m_s(a).total_cmp(&speed_m_s(b)))
    });
    let is_same = |first: &&Compared, other: &&Compared| {
        rounded(first) == rounded(other) && speed_m_s(other) < (1.0 + SAME_SPEED) * speed_m_s(first)
    };
    let mut groups: Vec<Vec<&Compared>> = Vec::new();
    for compared in kept {
        match groups.last_mut() {
            Some(group) if is_same(&group[0], &compared) => group.push(compared),
            _ => groups.push(vec![compared]),
        }
    }
    let scatter_deg = degrees(learned.trim_scatter);
    let listed = &boat.conditions()[0].name;
    let condition = Some(&boat.condition().name).filter(|name| *name != listed);
    let one = |group: &Vec<&Compared>| {
        let count = group.len() as f64;
        let mean = |value: &dyn Fn(&Compared) -> f64| {
            group.iter().map(|compared| value(compared)).sum::<f64>() / count
        };
        let deviation_deg = (scatter_deg * scatter_deg / count).sqrt().hypot(ZERO_SPREAD_DEG);
        Seen {
            speed: Velocity::new::<meter_per_second>(mean(&speed_m_s)),
            deflection: Angle::new::<degree>(mean(&deflection_deg)),
            trim: Angle::new::<degree>(mean(&|compared| degrees(compared.trim_measured))),
            by: Some(Angle::new::<degree>(LIKELY_DEVIATIONS * deviation_deg)),
            condition: condition.cloned(),
            planes: None,
        }
    };
    groups.iter().map(one).filter(is_allowed).collect()
}

/// Whether a boat file takes a reading: a trim far outside all usual ones is none that it would.
fn is_allowed(seen: &Seen) -> bool {
    let within = |key: &str, angle: Angle| {
        bound_of(key).is_none_or(|bound| bound.admits(crate::boat::Measure::Angle(angle)))
    };
    within("seen.trim", seen.trim) && within("seen.by", seen.half_width())
}

/// Puts readings into a boat file, in place of those of an earlier trial; gives keys and values as they stand there.
pub(super) fn put(document: &mut DocumentMut, readings: &[Seen]) -> Vec<(String, String)> {
    if readings.is_empty() {
        return Vec::new();
    }
    let item = document.entry("seen").or_insert_with(|| Item::ArrayOfTables(ArrayOfTables::new()));
    if let Some(tables) = item.as_array_of_tables_mut() {
        tables.retain(|table| {
            let above = table.decor().prefix().and_then(|text| text.as_str()).unwrap_or_default();
            !above.contains(MARK)
        });
    }
    let mut changes = Vec::new();
    for seen in readings {
        let keys = keys(seen);
        let text: Vec<String> =
            keys.iter().map(|(key, text)| format!("{key} = \"{text}\"")).collect();
        changes.push(("[[seen]]".to_owned(), format!("{{ {} }}", text.join(", "))));
        if let Some(tables) = item.as_array_of_tables_mut() {
            let mut table = Table::new();
            table.decor_mut().set_prefix(format!("\n{MARK}\n"));
            for (key, text) in keys {
                table.insert(key, value(text));
            }
            tables.push(table);
        } else if let Some(inline) = item.as_array_mut() {
            inline.push(keys.into_iter().collect::<InlineTable>());
        }
    }
    changes
}

/// A reading as a boat file writes it.
fn keys(seen: &Seen) -> Vec<(&'static str, String)> {
    let knots = seen.speed.get::<meter_per_second>() / M_S_PER_KNOT;
    let deg =
        |angle: Angle, decimals| format!("{} deg", number_with_decimals(degrees(angle), decimals));
    let mut keys = vec![("speed", format!("{} kn", number_with_decimals(knots, 1)))];
    if seen.is_with_planes() {
        keys.push(("deflection", deg(seen.deflection, 1)));
    }
    keys.push(("trim", deg(seen.trim, 2)));
    keys.push(("by", deg(seen.half_width(), 2)));
    keys.extend(seen.condition.clone().map(|name| ("condition", name)));
    keys
}
