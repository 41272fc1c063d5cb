//! A few pairs side by side: one column for each.

use uom::si::area::square_meter;

use crate::balance::saving::Saving;
use crate::boat::Boat;
use crate::document::{Column, Table};
use crate::doubt::{Probability, in_hundred};
use crate::plane::strength::Verdict;
use crate::stock::compare::{ComparedPair, Comparison, SetAt};
use crate::tell::shelf::money;
use crate::tell::words::{angle_number, small_length, speed};
use crate::units::{UnitChoice, number_with_decimals};

/// The table: a line for each thing to be compared.
#[must_use]
pub fn table(found: &Comparison, boats: &[Boat], units: UnitChoice) -> Table {
    let rows = rows(found, units);
    let names = rows.iter().map(|(name, _)| name.clone()).collect();
    let mut columns = vec![Column::words("", names)];
    for place in 0..found.pairs.len() {
        let cells = rows.iter().map(|(_, cells)| cells[place].clone()).collect();
        columns.push(Column::words(&letter(place).to_string(), cells));
    }
    Table { columns, notes: notes(found, boats), ..Table::default() }
}

/// The letter of a pair.
fn letter(place: usize) -> char {
    char::from(b'A' + u8::try_from(place).unwrap_or(25).min(25))
}

/// Which part of the list each letter stands for; nothing where only sizes are compared.
fn named(found: &Comparison) -> Option<String> {
    let parts = found.pairs.iter().enumerate().filter_map(|(place, pair)| {
        Some(format!("{} is {}", letter(place), pair.candidate.part()?.name))
    });
    let parts: Vec<String> = parts.collect();
    (!parts.is_empty()).then(|| format!("{}.", parts.join("; ")))
}

fn rows(found: &Comparison, units: UnitChoice) -> Vec<(String, Vec<String>)> {
    let mut rows = Vec::new();
    let mut row = |name: String, cell: &dyn Fn(&ComparedPair) -> String| {
        rows.push((name, found.pairs.iter().map(cell).collect::<Vec<_>>()));
    };
    row("each, span x chord".to_owned(), &|pair| pair.candidate.pair().text(units));
    row("area of the pair, m²".to_owned(), &|pair| {
        number_with_decimals(pair.candidate.pair().area().get::<square_meter>(), 3)
    });
    row("fits the transom".to_owned(), &|pair| match pair.fit.fits() {
        true => "yes".to_owned(),
        false => format!("NO: {} missing", small_length(pair.fit.missing, units)),
    });
    let all = match found.is_all_judged {
        true => "does all asked, boats in 100",
        false => "does what can be judged",
    };
    row(all.to_owned(), &|pair| in_100(pair.all));
    if found.duties.len() > 1 {
        for (place, held) in found.duties.iter().enumerate() {
            row(format!("  {}", held.duty.name()), &|pair| in_100(pair.each[place]));
        }
    }
    let hump = found.pairs.iter().find_map(|pair| pair.hump);
    if let Some(at) = found.relief_speed {
        row(format!("off the trim at {}, deg", speed(at, units)), &|pair| {
            pair.relief.map_or("-".to_owned(), |likely| {
                let [low, high] = [likely.low, likely.high].map(|end| angle_number(end, 1));
                format!("{} ({low}..{high})", angle_number(likely.median, 1))
            })
        });
    }
    if let Some(at) = hump {
        let at_hump = speed(at.speed, units);
        row(format!("trim at {at_hump}{}, deg", up(&at)), &|pair| {
            pair.hump.as_ref().map_or("-".to_owned(), trim)
        });
        row("  resistance there".to_owned(), &|pair| {
            pair.hump.as_ref().map_or("-".to_owned(), resistance)
        });
    }
    if let Some(at) = found.pairs.first().map(|pair| pair.cruise) {
        let cruise = speed(at.speed, units);
        row(format!("trim at {cruise}{}, deg", up(&at)), &|pair| trim(&pair.cruise));
        row("  resistance there".to_owned(), &|pair| resistance(&pair.cruise));
    }
    row("strength".to_owned(), &|pair| {
        match pair.strength {
            None => "not known",
            Some(Verdict::Bears) => "bears slamming",
            Some(Verdict::NoSlammingAllowance) => "not slamming",
            Some(Verdict::Unsafe) => "UNSAFE",
        }
        .to_owned()
    });
    if found.pairs.iter().any(|pair| pair.price().is_some()) {
        row("price of the pair".to_owned(), &|pair| {
            pair.price().map_or("-".to_owned(), |price| money(2.0 * price.amount, &price.currency))
        });
    }
    rows
}

/// The trim with planes up, beside the name of a line.
fn up(at: &SetAt) -> String {
    at.trim_up.map_or(String::new(), |trim| format!(" (up: {})", angle_number(trim, 1)))
}

fn trim(at: &SetAt) -> String {
    let set = angle_number(at.deflection, 1);
    at.trim.map_or("does not run".to_owned(), |trim| {
        format!("{}, planes {set}", angle_number(trim, 1))
    })
}

/// The change of resistance, told only where it could be measured and wet sides could not turn it.
fn resistance(at: &SetAt) -> String {
    let change = at.resistance_ratio.map(|ratio| 100.0 * (ratio - 1.0));
    match (at.saving, change) {
        (Some(Saving::Saves | Saving::Costs), Some(change)) => {
            let sign = if change > 0.0 { "+" } else { "-" };
            format!("{sign}{:.0} %", change.abs())
        }
        (Some(_), _) => "about even".to_owned(),
        _ => "-".to_owned(),
    }
}

fn in_100(chance: Option<Probability>) -> String {
    chance.map_or("not judged".to_owned(), |chance| in_hundred(chance.share).to_string())
}

fn notes(found: &Comparison, boats: &[Boat]) -> Vec<String> {
    let asked = if found.generated { "GENERATED from the boat" } else { "Asked by the file" };
    // The loading stands above the table.
    let loading = match boats.len() {
        1 => String::new(),
        all => format!(
            " Trims and settings: in this loading, where she trims most; the chance: in all {all}."
        ),
    };
    let how = format!(
        "{asked}, on {} in 100 boats.{loading} 'off the trim' uses all deflection (nine boats in ten); else each pair is set as advised.",
        in_hundred(found.wanted)
    );
    let unknown = || "Strength is known of parts that a stock list describes.".to_owned();
    vec![format!("{} {how}", named(found).unwrap_or_else(unknown))]
}
