//! The one table of what a dealer's file may say; the reader and the starter file come from it.

use crate::boat::keys::Table;
use crate::schema::Need::{self, Always, Default, Else};
use crate::schema::{Kind, Limits, Row, row};
use crate::stock::columns::ACTUATOR_KINDS;
use crate::units::Dimension;

/// Words for whether the tax is in the prices of the file and of the stock list.
pub const PRICES: &[&str] = &["without-tax", "with-tax"];

const SHARE: Kind = Kind::Quantity(Dimension::Fraction);
const NOTHING: Need = Else("nothing is printed");

const fn text(name: &'static str, need: Need, example: &'static str, meaning: &'static str) -> Row {
    row(name, Kind::Text, need, Limits::None, example, meaning)
}

/// All tables, in the order of the starter file.
#[rustfmt::skip]
pub const TABLES: &[Table] = &[
    Table {
        name: "dealer",
        list: false,
        about: "Who offers.",
        starter: true,
        shown: &["address", "contact"],
        keys: &[
            text("name", Always, "Fairlead Marine", "name of the business"),
            text("address", NOTHING, "2 Quay Street, 1010 Harbourtown", "its address in one line"),
            text("contact", NOTHING, "office@fairlead.example", "telephone, mail or both, in one line"),
            text("tax_number", NOTHING, "XX 123 456 789", "number under which it is registered for tax"),
            text("logo", NOTHING, "logo.png", "a PNG, JPEG or SVG file of at most 256 KiB, found from the folder of this file"),
        ],
    },
    Table {
        name: "offer",
        list: false,
        about: "What the offer is called and how long it holds.",
        starter: true,
        shown: &["number", "date", "valid_until", "buyer"],
        keys: &[
            text("number", NOTHING, "2026-041", "number of the offer"),
            text("date", NOTHING, "2026-11-27", "its date: year, month, day"),
            text("valid_until", NOTHING, "2026-12-31", "last day on which it may be accepted"),
            text("buyer", NOTHING, "A. Buyer", "to whom it is made"),
            text("buyer_address", NOTHING, "5 Mole Road, 1010 Harbourtown", "the buyer's address in one line"),
            text("remark", NOTHING, "Delivery two weeks after acceptance.", "a sentence below the sum"),
        ],
    },
    Table {
        name: "money",
        list: false,
        about: "Currency and tax.",
        starter: true,
        shown: &["currency", "tax", "tax_name"],
        keys: &[
            text("currency", Else("that of the stock list"), "EUR", "three-letter code (ISO 4217) of every price in this file, and of a stock list that names none"),
            text("tax_name", Else("VAT"), "VAT", "what the tax is called"),
            row("tax", SHARE, Else("no tax line"), Limits::Written("0 %", "60 %"), "20 %", "its rate"),
            row("prices", Kind::Choice(PRICES), Default("without-tax", ""), Limits::None, "without-tax", "whether it is in the prices of this file and of the stock list"),
        ],
    },
    Table {
        name: "fitting",
        list: false,
        about: "The work.",
        starter: true,
        shown: &["hours", "rate"],
        keys: &[
            row("hours", Kind::Number, Always, Limits::Written("0", "1000"), "6", "hours that fitting the pair takes"),
            row("rate", Kind::Number, Always, Limits::Written("0", "100000"), "85", "price of an hour"),
        ],
    },
    Table {
        name: "item",
        list: true,
        about: "What belongs to the kit beside the pair, one [[item]] for each line.",
        starter: true,
        shown: &["quantity"],
        keys: &[
            text("name", Always, "Two-way switch with wiring", "what it is"),
            row("price", Kind::Number, Always, Limits::Written("0", "1000000"), "120", "price of one"),
            row("quantity", Kind::Count, Default("1", ""), Limits::Written("1", "1000"), "1", "how many"),
            row("for", Kind::Choice(ACTUATOR_KINDS), Else("every kit"), Limits::None, "hydraulic", "only with planes that are moved so, such as a pump"),
        ],
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_examples_and_limits_can_be_read() {
        for table in TABLES {
            crate::schema::prove(table.keys);
        }
    }
}
