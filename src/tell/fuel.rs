//! Fuel told: what cruising burns, what the planes save or cost, and every speed.

mod short_form;

pub use short_form::short_form;

use uom::si::f64::{Length, Ratio, Velocity};
use uom::si::{
    angle::degree, length::meter, mass_density::kilogram_per_cubic_meter, ratio::percent,
};

use super::words::{digits, loading, section, speed_text};
use crate::balance::saving::Saving;
use crate::behaviour::fuel::{Burn, Fuel, FuelPoint};
use crate::behaviour::thrust::EfficiencyBasis;
use crate::boat::measure::plain_number;
use crate::boat::{Boat, Estimate};
use crate::document::{Block, Column, Fact, Table, aligned, fixed};
use crate::flag::Flag;
use crate::size::PairUsed;
use crate::units::{FuelUnits, UnitChoice, number_with_decimals};

/// Takes what one way of using the planes burns.
type Way = fn(&FuelPoint) -> Option<Burn>;

/// What is told: the boat in one loading condition, and what she burns.
#[derive(Clone, Copy, Debug)]
pub struct FuelText<'a> {
    /// The boat.
    pub boat: &'a Boat,
    /// Her planes.
    pub pair: PairUsed,
    /// The answer.
    pub answer: &'a Fuel,
    /// Units of the output.
    pub units: UnitChoice,
}

/// All of it, in reading order.
#[must_use]
pub fn all(one: &FuelText<'_>) -> Vec<Block> {
    [inputs, in_short, by_speed, estimates, notes].iter().flat_map(|part| part(one)).collect()
}

fn mark(one: &FuelText<'_>, key: &str) -> &'static str {
    if one.answer.estimates.iter().any(|estimate| estimate.key == key) { " ESTIMATED" } else { "" }
}

/// What it was computed with: loading, planes, efficiency and fuel.
#[must_use]
pub fn inputs(one: &FuelText<'_>) -> Vec<Block> {
    let answer = &one.answer;
    let mut facts = loading(one.boat);
    facts.push(Fact::new("Planes", one.pair.sentence(one.units)));
    let efficiency = if answer.efficiency.basis() == EfficiencyBasis::Curve {
        "by the curve of the boat file".to_owned()
    } else {
        let [slow, planing] =
            [answer.efficiency.at(Velocity::default()), answer.efficiency.when_planing()]
                .map(|share| share.get::<percent>());
        format!("{planing:.0} % when planing (Cv 2), {slow:.0} % at Cv 1")
    };
    facts.push(Fact::new(
        "Efficiency",
        format!(
            "propulsive, effective over shaft power, running steadily: {efficiency}{}; at full power from rest propellers are loaded harder and give less",
            mark(one, "drive.propulsive_efficiency")
        ),
    ));
    facts.push(Fact::new(
        "Fuel",
        format!(
            "{}, {:.0} kg/m^3; {:.0} g/kWh{}",
            answer.fuel.word(),
            answer.density.get::<kilogram_per_cubic_meter>(),
            answer.consumption.grams_per_kilowatt_hour(),
            mark(one, "drive.specific_consumption")
        ),
    ));
    vec![Block::Terms(facts)]
}

/// Fuel for one unit of distance.
fn by_distance(one: &FuelText<'_>, burn: &Burn) -> f64 {
    let metre = Length::new::<meter>(1.0);
    FuelUnits::of(one.units).by_distance(burn.over(metre), metre)
}

/// Fuel at cruise, and where planes save it and where they cost it.
#[must_use]
pub fn in_short(one: &FuelText<'_>) -> Vec<Block> {
    let mut blocks = vec![
        Block::Section("In short".to_owned()),
        Block::Terms(vec![Fact::new("At cruise", at_cruise(one))]),
    ];
    blocks.extend(verdict(one).into_iter().map(Block::Paragraph));
    blocks
}

fn at_cruise(one: &FuelText<'_>) -> String {
    let (answer, units) = (&one.answer, one.units);
    let row = &answer.at_cruise;
    let why = if answer.cruise_is_asked { "" } else { " (three quarters of the top speed)" };
    let speed = format!("{}{why}", speed_text(answer.cruise, one.units));
    let Some(up) = &row.up else {
        return format!("{speed}: with planes up she finds no balance there.");
    };
    let fuel = FuelUnits::of(units);
    let mut text = format!(
        "{speed}, planes up: {} {} at the shaft, {} {}, {} {}.",
        digits(units.power.value(up.shaft_power), 3),
        units.power.symbol(),
        digits(fuel.flow(up.flow), 3),
        fuel.flow_symbol(),
        digits(by_distance(one, up), 3),
        fuel.by_distance_symbol()
    );
    if let Some(best) = &row.best {
        let more = best.more_than(up);
        let down = plain_number((best.deflection.get::<degree>() * 10.0).round() / 10.0);
        match best.saving(up) {
            Saving::Saves => text.push_str(&format!(
                " At {down} deg of deflection the planes SAVE {} %: {} {}.",
                share(-more),
                digits(fuel.flow(best.flow), 3),
                fuel.flow_symbol()
            )),
            Saving::SidesMayTurn => text
                .push_str(&format!(" With the planes at {down} deg it is {}.", Saving::MAY_TURN)),
            Saving::Even | Saving::Costs => text.push_str(
                " No deflection of the planes saves fuel that could be measured: keep them up.",
            ),
        }
    }
    text.push_str(&held_at_cruise(one, up));
    text.push_str(&over_rated(one, up));
    text
}

fn held_at_cruise(one: &FuelText<'_>, up: &Burn) -> String {
    let held = plain_number(one.answer.held.get::<degree>());
    match (&one.answer.at_cruise.held, one.answer.pair) {
        (Some(burn), _) => {
            let more = share(burn.more_than(up).abs());
            match burn.saving(up) {
                Saving::Costs => format!(" Held at {held} deg they COST {more} %."),
                Saving::Saves => format!(" Held at {held} deg they save {more} %."),
                Saving::SidesMayTurn => {
                    format!(" Held at {held} deg it is {}.", Saving::MAY_TURN)
                }
                Saving::Even => {
                    format!(" Held at {held} deg they change nothing that could be measured.")
                }
            }
        }
        (None, Some(_)) => format!(" Held at {held} deg she finds no balance there."),
        (None, None) => String::new(),
    }
}

fn over_rated(one: &FuelText<'_>, burn: &Burn) -> String {
    match one.answer.rated_power {
        Some(rated) if burn.shaft_power > rated => {
            " THAT IS MORE THAN THE RATED POWER: she does not run so fast with this efficiency."
                .to_owned()
        }
        _ => String::new(),
    }
}

fn share(share: Ratio) -> String {
    number_with_decimals(share.get::<percent>(), 1)
}

/// Where planes save fuel and where they cost it.
fn verdict(one: &FuelText<'_>) -> Vec<String> {
    let rows = &one.answer.rows;
    let does = |row: &FuelPoint, of: Way| Some(of(row)?.saving(&row.up?));
    let change = |row: &FuelPoint, of: Way| Some(of(row)?.more_than(&row.up?).get::<percent>());
    let mut sentences = Vec::new();
    if one.answer.pair.is_none() {
        return sentences;
    }
    let which = |of: Way, what: Saving| -> Vec<&FuelPoint> {
        rows.iter().filter(|row| does(row, of) == Some(what)).collect()
    };
    let saves = which(|row| row.best, Saving::Saves);
    let may_turn = which(|row| row.best, Saving::SidesMayTurn);
    let costs = which(|row| row.held, Saving::Costs);
    let held = plain_number(one.answer.held.get::<degree>());
    sentences.push(if saves.is_empty() {
        "Set where she burns least, the planes save no fuel for certain at any speed shown.".to_owned()
    } else {
        let most = saves.iter().filter_map(|row| change(row, |r| r.best)).fold(0.0, f64::min);
        format!(
            "Set where she burns least, the planes save fuel {}, up to {:.0} %; elsewhere nothing that could be measured or relied on.",
            ranges(one, &saves),
            -most
        )
    });
    if !may_turn.is_empty() {
        sentences.push(format!(
            "About even {}: less resistance is computed there, but planes press the bow down, and wet sides, which the balance leaves out, may turn it.",
            ranges(one, &may_turn)
        ));
    }
    if costs.is_empty() {
        sentences.push(format!("Held at {held} deg they cost no fuel at any speed shown."));
    } else {
        let most = costs.iter().filter_map(|row| change(row, |r| r.held)).fold(0.0, f64::max);
        sentences.push(format!(
            "HELD AT {held} deg THEY COST FUEL {}, up to {most:.0} %: raise them there, as far as she stays under the porpoising limit.",
            ranges(one, &costs)
        ));
    }
    let falls: Vec<_> = rows.iter().filter(|row| row.up.is_some() && row.held.is_none()).collect();
    if !falls.is_empty() {
        sentences.push(format!(
            "HELD AT {held} deg SHE FINDS NO BALANCE {}: planes that far down drive the bow under there.",
            ranges(one, &falls)
        ));
    }
    sentences
}

/// The speeds as stretches: `from 12 to 18 kn and at 24 kn`.
fn ranges(one: &FuelText<'_>, rows: &[&FuelPoint]) -> String {
    let all = &one.answer.rows;
    let place =
        |row: &FuelPoint| all.iter().position(|other| other.speed == row.speed).unwrap_or(0);
    let mut stretches: Vec<[usize; 2]> = Vec::new();
    for &row in rows {
        let here = place(row);
        match stretches.last_mut() {
            Some(stretch) if stretch[1] + 1 == here => stretch[1] = here,
            _ => stretches.push([here, here]),
        }
    }
    let text = |[from, to]: &[usize; 2]| {
        let speed = |at: usize| speed_text(all[at].speed, one.units);
        if from == to {
            format!("at {}", speed(*from))
        } else {
            format!("from {} to {}", speed(*from), speed(*to))
        }
    };
    stretches.iter().map(text).collect::<Vec<_>>().join(" and ")
}

/// Power and fuel at each speed, and what the planes change.
#[must_use]
pub fn by_speed(one: &FuelText<'_>) -> Vec<Block> {
    let (rows, units) = (&one.answer.rows, one.units);
    let fuel = FuelUnits::of(units);
    let of = |way: Way, value: &dyn Fn(&Burn) -> f64| -> Vec<Option<f64>> {
        rows.iter().map(|row| way(row).as_ref().map(value)).collect()
    };
    let change = |way: Way| -> Vec<String> {
        let cell = |row: &FuelPoint| match (way(row), row.up) {
            (Some(burn), Some(up)) => format!("{:+.1}", burn.more_than(&up).get::<percent>())
                .replace("-0.0", "0.0")
                .replace("+0.0", "0.0"),
            _ => "-".to_owned(),
        };
        rows.iter().map(cell).collect()
    };
    let speeds: Vec<_> = rows.iter().map(|row| Some(units.speed.value(row.speed))).collect();
    let [up, best, held]: [Way; 3] = [|row| row.up, |row| row.best, |row| row.held];
    let efficiency: Vec<_> = rows.iter().map(|row| Some(row.efficiency.get::<percent>())).collect();
    let mut columns = vec![
        Column::numbers("speed", units.speed.symbol(), fixed(&speeds, 1)),
        Column::numbers("efficiency", "%", fixed(&efficiency, 0)),
        Column::numbers(
            "up: shaft",
            units.power.symbol(),
            aligned(&of(up, &|b| units.power.value(b.shaft_power)), 3),
        ),
        Column::numbers("fuel", fuel.flow_symbol(), aligned(&of(up, &|b| fuel.flow(b.flow)), 3)),
        Column::numbers(
            "fuel",
            fuel.by_distance_symbol(),
            aligned(&of(up, &|b| by_distance(one, b)), 3),
        ),
    ];
    if one.answer.pair.is_some() {
        columns.extend([
            Column::numbers("best:", "deg", fixed(&of(best, &|b| b.deflection.get::<degree>()), 1)),
            Column::numbers(
                "fuel",
                fuel.by_distance_symbol(),
                aligned(&of(best, &|b| by_distance(one, b)), 3),
            ),
            Column::numbers("change", "%", change(best)),
            Column::numbers("held:", "change, %", change(held)),
        ]);
    }
    columns.push(Column::words("", rows.iter().map(|row| notes_of(one, row)).collect()));
    columns.retain(|column| !column.is_blank());
    let letters = [
        ('P', "Planes up she would need more than the rated power there."),
        ('W', "What is saved there stands only if her sides stay dry: about even."),
    ];
    let met = |letter: char| rows.iter().any(|row| notes_of(one, row).contains(letter));
    let letters = letters.into_iter().filter(|(letter, _)| met(*letter));
    let letters = letters.map(|(letter, meaning)| Fact::new(letter.to_string(), meaning));
    let best = one.answer.pair.map(|_| {
        Fact::new(
            "best",
            "What burns least at that speed. `planewright size` says what to set: it does the duties \
             too, and leaves room.",
        )
    });
    let table = Block::Table(Table { columns, ..Table::default() });
    section("By speed", vec![table, Block::Terms(best.into_iter().chain(letters).collect())])
}

fn notes_of(one: &FuelText<'_>, row: &FuelPoint) -> String {
    let over = one.answer.rated_power.zip(row.up).is_some_and(|(rated, up)| up.shaft_power > rated);
    let may_turn = |burn: Option<Burn>| {
        burn.zip(row.up).is_some_and(|(burn, up)| burn.saving(&up) == Saving::SidesMayTurn)
    };
    let wet = may_turn(row.best) || may_turn(row.held);
    let letters = [(over, "P"), (wet, "W")].into_iter().filter(|(is_met, _)| *is_met);
    letters.map(|(_, letter)| letter).collect::<Vec<_>>().join(" ")
}

/// What is estimated of efficiency and consumption, and how far the fuel moves with it.
#[must_use]
pub fn estimates(one: &FuelText<'_>) -> Vec<Block> {
    let estimates = &one.answer.estimates;
    if estimates.is_empty() {
        return Vec::new();
    }
    let explanation = "Fuel goes with the consumption and with one over the efficiency, at every speed alike; the saving in % does not depend on them.";
    let point = |estimate: &Estimate| {
        let [value, low, high] =
            [estimate.value, estimate.low, estimate.high].map(|m| m.in_units(one.units));
        let [low_change, high_change] = [low.0, high.0].map(|end| {
            let ratio = end / value.0;
            let fuel =
                if estimate.key == "drive.propulsive_efficiency" { 1.0 / ratio } else { ratio };
            format!("{:+.0} %", 100.0 * (fuel - 1.0))
        });
        format!(
            "{} {} {}, likely {} .. {}: fuel {low_change} .. {high_change}; {}.",
            estimate.key,
            plain_number(value.0),
            value.1,
            plain_number(low.0),
            plain_number(high.0),
            estimate.rule
        )
    };
    vec![
        Block::Alert("ESTIMATED: the file does not give these".to_owned()),
        Block::Paragraph(explanation.to_owned()),
        Block::Points(estimates.iter().map(point).collect()),
    ]
}

/// The flags of all rows, each once.
#[must_use]
pub fn flags(one: &FuelText<'_>) -> Vec<Flag> {
    let burns = one.answer.rows.iter().flat_map(|row| [row.up, row.held, row.best]).flatten();
    let efficiency = one.answer.efficiency.flags();
    burns.fold(efficiency, |all, burn| all.union(burn.flags)).iter().collect()
}

/// Flags, what the answer leaves out, and what of the boat is estimated.
#[must_use]
pub fn notes(one: &FuelText<'_>) -> Vec<Block> {
    let mut points: Vec<String> = flags(one).into_iter().map(Flag::line).collect();
    points.push(LIMITS.to_owned());
    points.extend(one.boat.estimates().iter().map(|estimate| {
        format!(
            "{} is ESTIMATED as {} ({}); see `run` for what it does.",
            estimate.key, estimate.value, estimate.rule
        )
    }));
    section(super::NOTES, vec![Block::Points(points)])
}

const LIMITS: &str = "Calm water, clean bottom, steady speed. Engines burn more for each unit of work when lightly loaded. \
Saving of a few percent is less than the equations can promise: measure it, with a flow meter, both ways on the same run.";
