//! What an offer costs: a line for each thing, their sum, and the tax.
//!
//! Sums are counted in hundredths of the currency, each line rounded to one, so that what is printed adds up.

use super::{Offer, Prices};
use crate::boat::Fault;
use crate::stock::rank::PLANES_OF_A_BOAT;
use crate::stock::{Part, StockList, Supply};

/// Hundredths in a whole.
const HUNDREDTHS: f64 = 100.0;

/// One line of a kit.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is.
    pub name: String,
    /// How many, or how many hours.
    pub quantity: f64,
    /// What is counted: empty for pieces, `h` for hours.
    pub unit: &'static str,
    /// Price of one.
    pub price: f64,
    /// Price of all of them.
    pub sum: f64,
}

/// What an offer costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Kit {
    /// Its lines: the pair, what belongs to it, the work.
    pub lines: Vec<Line>,
    /// Things that belong to some kits alone, where the list does not say what moves the planes.
    pub left_out: Vec<String>,
    /// Currency; empty where nobody names one.
    pub currency: String,
    /// Sum of the lines.
    pub sum: f64,
    /// Name, rate and amount of the tax.
    pub tax: Option<(String, f64, f64)>,
    /// Whether the tax is in the lines already.
    pub is_within: bool,
    /// What is to be paid.
    pub total: f64,
}

impl Offer {
    /// Gives the prices of a list the currency of this file where it names none.
    ///
    /// # Errors
    /// When the list has prices in another currency: a sum of both would be none.
    pub fn price(&self, list: &mut StockList) -> Result<(), Fault> {
        let Some(own) = &self.currency else { return Ok(()) };
        for part in &mut list.parts {
            match part.price.named() {
                None => part.price.currency.clone_from(own),
                Some(other) if other != own => {
                    return Err(Fault {
                        key: "run.dealer".to_owned(),
                        problem: format!("its prices are in {own}, and {} has {other}", list.name),
                        remedy: "write all prices of an offer in one currency".to_owned(),
                    });
                }
                Some(_) => {}
            }
        }
        Ok(())
    }

    /// What a pair of a part costs with all that belongs to it.
    #[must_use]
    pub fn kit(&self, part: &Part) -> Kit {
        let planes = PLANES_OF_A_BOAT;
        let mut lines = vec![line(part.name.clone(), f64::from(planes), "", part.price.amount)];
        let mut left_out = Vec::new();
        let supply = |kind: Supply| part.supply.is_none_or(|own| own == kind);
        for item in self.items.iter().filter(|item| item.only_for.is_none_or(supply)) {
            match item.only_for.filter(|_| part.supply.is_none()) {
                Some(kind) => left_out.push(format!("{} ({} planes)", item.name, kind.word())),
                None => {
                    lines.push(line(item.name.clone(), f64::from(item.quantity), "", item.price))
                }
            }
        }
        lines.extend(
            self.fitting
                .map(|fitting| line("Fitting".to_owned(), fitting.hours, "h", fitting.rate)),
        );
        let hundredths: f64 = lines.iter().map(|line| (HUNDREDTHS * line.sum).round()).sum();
        let sum = hundredths / HUNDREDTHS;
        let is_within = self.prices == Prices::WithTax;
        let tax = self.tax.as_ref().map(|tax| {
            let share = if is_within { tax.share / (1.0 + tax.share) } else { tax.share };
            (tax.name.clone(), tax.share, rounded(sum * share))
        });
        let added = tax.as_ref().filter(|_| !is_within).map_or(0.0, |(_, _, amount)| *amount);
        let named = part.price.named().map(str::to_owned).or_else(|| self.currency.clone());
        Kit {
            lines,
            left_out,
            currency: named.unwrap_or_default(),
            sum,
            tax,
            is_within,
            total: rounded(sum + added),
        }
    }
}

fn line(name: String, quantity: f64, unit: &'static str, price: f64) -> Line {
    Line { name, quantity, unit, price, sum: rounded(quantity * price) }
}

/// To a hundredth, halves away from zero.
fn rounded(amount: f64) -> f64 {
    // A half that the machine holds a hair too low is still a half.
    (HUNDREDTHS * amount * (1.0 + 1e-12)).round() / HUNDREDTHS
}
