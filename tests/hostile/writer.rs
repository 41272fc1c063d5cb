//! Values of a boat file at random, each within the limits of its row, in any unit of its kind.

use planewright::boat::keys::{Table, table};
use planewright::schema::{Kind, Limits, Row};
use planewright::units::{Dimension, one_in_si};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};

/// Beam of the boats whose sizes the usual ranges of a boat file are taken for, metres.
const BEAM_OF_USUAL_M: f64 = 2.5;

/// The same numbers for the same seed.
pub struct Random(ChaCha8Rng);

impl Random {
    pub fn new(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    pub fn between(&mut self, (low, high): (f64, f64)) -> f64 {
        let share = f64::from(self.0.next_u32()) / f64::from(u32::MAX);
        low + share * (high - low)
    }

    /// Evenly by its logarithm.
    pub fn scaled(&mut self, (low, high): (f64, f64)) -> f64 {
        self.between((low.ln(), high.ln())).exp()
    }

    pub fn chance(&mut self, share: f64) -> bool {
        self.between((0.0, 1.0)) < share
    }

    pub fn below(&mut self, count: usize) -> usize {
        self.0.next_u32() as usize % count
    }

    pub fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }
}

/// The table of that name.
pub fn rows(name: &str) -> &'static Table {
    table(name).unwrap_or_else(|| panic!("{name}"))
}

/// A boat file as it is written.
pub struct Writer {
    pub random: Random,
    pub text: String,
    /// Whether she is like boats of the trade.
    pub is_usual: bool,
    pub beam_m: f64,
    pub conditions: Vec<&'static str>,
    pub top_m_s: f64,
}

impl Writer {
    /// A range of boats of the trade, or of all boats.
    pub fn pick(&mut self, usual: (f64, f64), any: (f64, f64)) -> f64 {
        self.random.between(if self.is_usual { usual } else { any })
    }

    pub fn open(&mut self, header: &str) {
        self.text.push_str(&format!("\n{header}\n"));
    }

    /// A value in SI, angles in degrees, in any unit of its kind.
    pub fn put(&mut self, table: &Table, key: &str, value: f64) {
        let row = table.key(key).unwrap_or_else(|| panic!("{}.{key}", table.name));
        let line = match row.kind {
            Kind::Quantity(dimension) | Kind::QuantityOr(dimension, _) => {
                format!("{key} = \"{}\"\n", self.quantity(value, dimension))
            }
            Kind::Number => format!("{key} = {}\n", digits(value)),
            other => panic!("{other:?} is no number"),
        };
        self.text.push_str(&line);
    }

    fn quantity(&mut self, value: f64, dimension: Dimension) -> String {
        let symbol = match dimension {
            Dimension::Angle | Dimension::Temperature => dimension.unit_symbols()[0],
            _ => self.random.one_of(&dimension.unit_symbols()),
        };
        match dimension {
            Dimension::Angle | Dimension::Temperature => format!("{} {symbol}", digits(value)),
            _ => {
                let one = one_in_si(symbol, dimension).expect("a unit of its kind");
                format!("{} {symbol}", digits(value / one))
            }
        }
    }

    /// Any value that its row admits, lengths in proportion to the boat.
    pub fn any(&mut self, table: &Table, row: &Row) {
        let key = row.name;
        match row.kind {
            Kind::Text => self.text.push_str(&format!("{key} = \"any {key}\"\n")),
            Kind::Choice(words) => {
                let word = self.random.one_of(words);
                self.text.push_str(&format!("{key} = \"{word}\"\n"));
            }
            Kind::Words(words) => {
                let word = self.random.one_of(words);
                self.text.push_str(&format!("{key} = [\"{word}\"]\n"));
            }
            Kind::Quantity(dimension) | Kind::QuantityOr(dimension, _) => {
                let value = self.admitted(row);
                let one = match dimension {
                    Dimension::Angle | Dimension::Temperature => 1.0,
                    _ => one_in_si(row.kind.unit(), dimension).expect("a unit of its kind"),
                };
                self.put(table, key, value * one);
            }
            Kind::Number => {
                let value = self.admitted(row);
                self.put(table, key, value);
            }
            other => panic!("{other:?} of {key}"),
        }
    }

    /// A number within the limits of a row, in their unit.
    fn admitted(&mut self, row: &Row) -> f64 {
        let Limits::Range { hard, usual } = row.limits else { panic!("{} has limits", row.name) };
        // The whole range of what is allowed is seldom possible together with all else.
        let is_any = !self.is_usual && self.random.chance(0.15);
        let value = self.random.between(if is_any { hard } else { usual });
        let is_length = row.kind == Kind::Quantity(Dimension::Length);
        let value = if is_length { value * self.beam_m / BEAM_OF_USUAL_M } else { value };
        // A little inside, so that no digit that is rounded off leaves the limits.
        value.clamp(hard.0 + 1e-4 * hard.0.abs(), hard.1 - 1e-4 * hard.1.abs())
    }

    /// A table with what it needs, and each of its other keys now and then.
    pub fn table(&mut self, name: &str, left_out: &[&str], share: f64) {
        let table = rows(name);
        self.open(&table.header());
        for row in table.keys.iter().filter(|row| !left_out.contains(&row.name)) {
            if row.is_needed() || self.random.chance(share) {
                self.any(table, row);
            }
        }
    }
}

/// Six digits or so.
fn digits(value: f64) -> String {
    if value != 0.0 && !(1e-3..1e7).contains(&value.abs()) {
        return format!("{value:.5e}");
    }
    let decimals = if value.abs() < 1.0 { 6 } else { 4 };
    format!("{value:.decimals$}")
}
