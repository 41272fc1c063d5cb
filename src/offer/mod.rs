//! A dealer's offer: who offers what to whom and until when, what belongs to the kit, and what it costs.
//!
//! It comes from a small TOML file of the dealer's own; [`keys`] lists what that may say.

mod date;
pub mod keys;
mod kit;
mod logo;
mod read;

pub use date::Date;
pub use kit::{Kit, Line};
pub use logo::Logo;
pub use read::{parse_offer, read_offer, starter_offer};

use crate::stock::Supply;

/// What a dealer's file says.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Who offers.
    pub dealer: Dealer,
    /// Number of the offer.
    pub number: Option<String>,
    /// Its date.
    pub date: Option<Date>,
    /// Last day on which it may be accepted.
    pub valid_until: Option<Date>,
    /// To whom it is made.
    pub buyer: Option<String>,
    /// The buyer's address.
    pub buyer_address: Option<String>,
    /// A sentence below the sum.
    pub remark: Option<String>,
    /// Currency of its prices, three letters.
    pub currency: Option<String>,
    /// The tax; none where no line is to show one.
    pub tax: Option<Tax>,
    /// Whether the tax is in the prices.
    pub prices: Prices,
    /// The work.
    pub fitting: Option<Fitting>,
    /// What belongs to the kit beside the pair.
    pub items: Vec<Item>,
}

/// Who offers.
#[derive(Clone, Debug, PartialEq)]
pub struct Dealer {
    /// Name of the business.
    pub name: String,
    /// Its address in one line.
    pub address: Option<String>,
    /// Telephone or mail.
    pub contact: Option<String>,
    /// Number under which it is registered for tax.
    pub tax_number: Option<String>,
    /// Its logo.
    pub logo: Option<Logo>,
}

/// A tax.
#[derive(Clone, Debug, PartialEq)]
pub struct Tax {
    /// What it is called.
    pub name: String,
    /// Its rate.
    pub share: f64,
}

/// Whether the tax is in the prices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Prices {
    /// It is added to their sum.
    WithoutTax,
    /// It is in them.
    WithTax,
}

/// The work of fitting a pair.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitting {
    /// Hours.
    pub hours: f64,
    /// Price of an hour.
    pub rate: f64,
}

/// Something that belongs to the kit.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is.
    pub name: String,
    /// How many.
    pub quantity: u32,
    /// Price of one.
    pub price: f64,
    /// Planes that it belongs to; none where it belongs to all.
    pub only_for: Option<Supply>,
}
