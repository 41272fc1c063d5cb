//! One load among those aboard that is wrong, or all of them in the same way.

use uom::si::{length::meter, mass::kilogram};

use super::figures::Figures;
use super::slip::{LENGTHS, MASSES, slips};
use super::weight::metres;
use super::{Guess, in_unit};
use crate::boat::condition::same_name;
use crate::boat::{Boat, LoadItem, Measure, WeightInput};

/// Which arm of a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    Forward,
    Up,
}

impl Place {
    const fn word(self) -> &'static str {
        match self {
            Self::Forward => "forward",
            Self::Up => "up",
        }
    }

    fn of_item(self, item: &LoadItem) -> Measure {
        Measure::Length(match self {
            Self::Forward => item.forward,
            Self::Up => item.up,
        })
    }

    fn of_boat_m(self, boat: &Boat) -> f64 {
        let weight = boat.weight();
        match self {
            Self::Forward => weight.lcg.get::<meter>(),
            Self::Up => weight.vcg.get::<meter>(),
        }
    }
}

/// The loads aboard, the heaviest first: where it is wrong it matters most.
pub(super) struct Aboard<'a> {
    boat: &'a Boat,
    items: Vec<LoadItem>,
}

impl<'a> Aboard<'a> {
    pub fn of(boat: &'a Boat) -> Self {
        let mut items = boat.items_aboard();
        items.sort_by(|a, b| b.mass.value.total_cmp(&a.mass.value));
        Self { boat, items }
    }

    pub fn is_empty(&self) -> bool {
        self.items.is_empty()
    }

    fn mass_kg(&self) -> f64 {
        self.boat.weight().mass.get::<kilogram>()
    }

    /// The unit in which a value of a load is written in the list of loads.
    fn unit_of(&self, item: &LoadItem, name: &str, value: Measure) -> &'static str {
        let listed: &[LoadItem] = match &self.boat.input().weight {
            WeightInput::Loads(items) => items,
            WeightInput::Totals { .. } => &[],
        };
        let index = listed.iter().position(|load| same_name(&load.item, &item.item));
        let key = index.map_or_else(String::new, |index| format!("load[{index}].{name}"));
        self.boat.input().written.unit_of(&key, value)
    }

    /// The unit of a value of all loads, where it is the same one.
    fn common_unit(
        &self,
        name: &str,
        value: impl Fn(&LoadItem) -> Measure,
    ) -> Option<&'static str> {
        let units = self.items.iter().map(|item| self.unit_of(item, name, value(item)));
        let units: Vec<_> = units.collect();
        let first = *units.first()?;
        (units.iter().all(|unit| *unit == first) && self.sums_to_boat()).then_some(first)
    }

    /// Whether the boat is these loads, and not totals with some added.
    fn sums_to_boat(&self) -> bool {
        matches!(self.boat.input().weight, WeightInput::Loads(_))
    }

    /// Slips in one mass, or the same one in all, without which the mass fits; each with the factor on the boat's.
    pub fn masses(&self, fits: impl Fn(f64) -> bool) -> Vec<(f64, Guess)> {
        let total_kg = self.mass_kg();
        let mut fitting = Vec::new();
        if let Some(unit) = self.common_unit("mass", |item| Measure::Mass(item.mass)) {
            let total = Measure::Mass(self.boat.weight().mass);
            let of_all = slips(total, unit, MASSES).into_iter();
            fitting.extend(
                // A decimal point does not slip in every number alike.
                of_all.filter(|slip| slip.unit.is_some() && fits(slip.factor * total_kg)).map(
                    |slip| {
                        let meant = slip.unit.unwrap_or(unit);
                        let cause = format!("{meant} typed as {unit} in every load");
                        let cure = format!("write their masses in {meant}");
                        (slip.factor, Guess::new(cause, cure))
                    },
                ),
            );
        }
        for item in &self.items {
            let mass = Measure::Mass(item.mass);
            let unit = self.unit_of(item, "mass", mass);
            for slip in slips(mass, unit, MASSES) {
                let without_kg = total_kg + (slip.factor - 1.0) * item.mass.get::<kilogram>();
                if fits(without_kg) {
                    let cause = format!("`{}`: {}", item.item, slip.cause);
                    let guess = Guess::new(cause, for_item(item, "mass", &slip.write));
                    fitting.push((without_kg / total_kg, guess));
                }
            }
        }
        fitting
    }

    /// Slips in one arm, or the same one in all, without which the boat's fits.
    pub fn places(
        &self,
        place: Place,
        figures: &Figures,
        fits: impl Fn(f64) -> bool,
    ) -> Vec<Guess> {
        let (total_kg, own_m) = (self.mass_kg(), place.of_boat_m(self.boat));
        let bow_m = figures.overall_m.unwrap_or(figures.length_m);
        let mut guesses = Vec::new();
        if let Some(unit) = self.common_unit(place.word(), |item| place.of_item(item)) {
            guesses.extend(self.all_places(place, unit, (bow_m, own_m), &fits));
        }
        for item in &self.items {
            let arm = place.of_item(item);
            let unit = self.unit_of(item, place.word(), arm);
            let share = item.mass.get::<kilogram>() / total_kg;
            let moved = |arm_m: f64| own_m + share * (arm_m - arm.value());
            let name = place.word();
            if place == Place::Forward && fits(moved(bow_m - arm.value())) {
                let right = in_unit(metres(bow_m - arm.value()), unit);
                let cause = format!("`{}` measured from the bow, not from the transom", item.item);
                guesses.push(Guess::new(cause, for_item(item, name, &right)));
            }
            for slip in slips(arm, unit, LENGTHS) {
                if fits(moved(slip.factor * arm.value())) {
                    let cause = format!("`{}`, {name}: {}", item.item, slip.cause);
                    guesses.push(Guess::new(cause, for_item(item, name, &slip.write)));
                }
            }
        }
        guesses
    }

    /// The same slip in the arm of every load.
    fn all_places(
        &self,
        place: Place,
        unit: &'static str,
        (bow_m, own_m): (f64, f64),
        fits: impl Fn(f64) -> bool,
    ) -> Vec<Guess> {
        let mut guesses = Vec::new();
        let name = place.word();
        if place == Place::Forward && fits(bow_m - own_m) {
            guesses.push(Guess::new(
                "every load measured from the bow, not from the transom",
                format!(
                    "write each {name} as {} less what stands there",
                    in_unit(metres(bow_m), unit)
                ),
            ));
        }
        let of_all = slips(metres(own_m), unit, LENGTHS).into_iter();
        let of_all = of_all.filter(|slip| slip.unit.is_some() && fits(slip.factor * own_m));
        guesses.extend(of_all.map(|slip| {
            let meant = slip.unit.unwrap_or(unit);
            Guess::new(
                format!("{meant} typed as {unit} in the {name} of every load"),
                format!("write it in {meant}"),
            )
        }));
        guesses
    }
}

fn for_item(item: &LoadItem, name: &str, text: &str) -> String {
    format!("write {name} = \"{text}\" for `{}` below [[load]]", item.item)
}
