//! Reads a dealer's file: TOML whose tables are those of [`TABLES`]; all its faults are reported together.

use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::keys::TABLES;
use super::{Date, Dealer, Fitting, Item, Logo, Offer, Prices, Tax};
use crate::boat::keys::Table;
use crate::error::{FileError, FileFault, FileFaults, shown_name};
use crate::input::{read_text, starter_of, tree_of};
use crate::schema::{Kind, Row, named};
use crate::spelling;
use crate::stock::Supply;
use crate::stock::columns::currency_of;
use crate::units::quoted;

/// Letters of a text at most, by its table and key: what is longer has no room on the page.
const LONGEST: [(&str, &str, usize); 6] = [
    ("dealer", "name", 60),
    ("dealer", "tax_number", 40),
    ("offer", "number", 24),
    ("offer", "remark", 120),
    ("money", "tax_name", 16),
    ("item", "name", 60),
];
/// The same of every other text.
const LONGEST_OTHER: usize = 80;
/// Lines of a kit at most.
const MOST_ITEMS: usize = 6;

/// Head of the starter file.
const HEAD: &str = "\
# A dealer's file, for `planewright report --for dealer --dealer FILE`: what stands on
# an offer beside what is computed. Text stands in quotation marks, numbers may stand
# without. Lines that begin with # are comments: take the # away to use them.
# The values below belong to no real business: put your own in their place.
";

/// The text of a starter file: it can be used as it is, with every key explained.
#[must_use]
pub fn starter_offer() -> String {
    starter_of(HEAD, TABLES)
}

/// Reads a dealer's file of at most 1 MiB, and the logo that it names.
///
/// # Errors
/// When it cannot be read, or has faults; all of them are reported together.
pub fn read_offer(path: &Path) -> Result<Offer, FileError> {
    let folder = path.parent().unwrap_or_else(|| Path::new(""));
    Ok(parse_offer(&shown_name(path), &read_text(path)?, folder)?)
}

/// Reads the text of a dealer's file; `name` stands for it in messages, and a logo is found from `folder`.
///
/// # Errors
/// All faults of the text together.
pub fn parse_offer(name: &str, text: &str, folder: &Path) -> Result<Offer, FileFaults> {
    let tree = tree_of(name, text)?;
    let mut reader = Reader { text, faults: Vec::new(), tables: BTreeMap::new() };
    reader.walk(tree.get_ref());
    match reader.offer(folder) {
        Some(offer) if reader.faults.is_empty() => Ok(offer),
        _ => Err(FileFaults::new(name, text, reader.faults)),
    }
}

/// A value with its place.
#[derive(Clone, Debug)]
struct Value {
    place: Range<usize>,
    text: String,
}

/// The values of one table.
type Values = BTreeMap<&'static str, Value>;

/// Reads tables and gathers what is wrong with them.
struct Reader<'a> {
    text: &'a str,
    faults: Vec<FileFault>,
    /// The tables of each name, with their places.
    tables: BTreeMap<&'static str, Vec<(Range<usize>, Values)>>,
}

impl Reader<'_> {
    fn fault(&mut self, place: Range<usize>, problem: String, help: String) {
        self.faults.push(FileFault { problem, help, place: Some(place) });
    }

    fn walk(&mut self, tree: &DeTable<'_>) {
        for (name, value) in tree.iter() {
            let written = name.get_ref().as_ref();
            let Some(table) = TABLES.iter().find(|table| table.name == written) else {
                let near = nearest(written, TABLES.iter().map(|table| table.name));
                let help = match TABLES.iter().find(|table| table.key(written).is_some()) {
                    Some(home) => format!("`{}` belongs below {}", quoted(written), home.header()),
                    None => format!("did you mean {}?", TABLES[near].header()),
                };
                let problem = format!("a dealer's file has no `{}` at the top", quoted(written));
                self.fault(name.span(), problem, help);
                continue;
            };
            match (value.get_ref(), table.list) {
                (DeValue::Table(keys), false) => self.table(table, name.span(), keys),
                (DeValue::Array(all), true) => {
                    for item in all.iter() {
                        match item.get_ref() {
                            DeValue::Table(keys) => self.table(table, item.span(), keys),
                            _ => self.no_table(table, item.span()),
                        }
                    }
                }
                _ => self.no_table(table, name.span()),
            }
        }
    }

    fn no_table(&mut self, table: &Table, place: Range<usize>) {
        let problem = format!("{} stands on a line of its own", table.header());
        self.fault(place, problem, format!("write {}, and its keys below", table.header()));
    }

    fn table(&mut self, table: &'static Table, place: Range<usize>, keys: &DeTable<'_>) {
        let mut values = Values::new();
        for (name, value) in keys.iter() {
            let written = name.get_ref().as_ref();
            match table.key(written) {
                Some(row) => {
                    values.extend(self.value(table, row, value).map(|value| (row.name, value)))
                }
                None => {
                    let near = nearest(written, table.keys.iter().map(|row| row.name));
                    let all: Vec<&str> = table.keys.iter().map(|row| row.name).collect();
                    self.fault(
                        name.span(),
                        format!("{} has no key `{}`", table.header(), quoted(written)),
                        format!(
                            "did you mean `{}`? {} takes {}",
                            table.keys[near].name,
                            table.header(),
                            all.join(", ")
                        ),
                    );
                }
            }
        }
        for row in table.keys.iter().filter(|row| row.is_needed() && !values.contains_key(row.name))
        {
            // A value of the wrong kind is reported already.
            if keys.get(row.name).is_none() {
                self.fault(
                    place.clone(),
                    format!("{} has no {}", table.header(), row.name),
                    row.write_instead(),
                );
            }
        }
        self.tables.entry(table.name).or_default().push((place, values));
    }

    /// A value as text; none where it is of a kind that the key does not take, or outside its limits.
    fn value(
        &mut self,
        table: &Table,
        row: &'static Row,
        value: &Spanned<DeValue<'_>>,
    ) -> Option<Value> {
        let place = value.span();
        let written = self.text.get(place.clone()).unwrap_or_default();
        let text = match value.get_ref() {
            DeValue::String(text) => text.trim().to_owned(),
            DeValue::Integer(_) | DeValue::Float(_) if row.kind.is_number() => {
                written.replace('_', "")
            }
            // A date may stand without quotation marks.
            DeValue::Datetime(_) if row.kind == Kind::Text => written.to_owned(),
            _ => {
                let problem =
                    format!("{}: `{}` is not of its kind", table.path_of(row), quoted(written));
                self.fault(place, problem, row.write_instead());
                return None;
            }
        };
        let problem = match row.kind {
            Kind::Text if text.is_empty() => Some("nothing is written here".to_owned()),
            Kind::Text if text.chars().count() > longest(table, row) => Some(format!(
                "longer than {} letters, for which the page has no room",
                longest(table, row)
            )),
            Kind::Text if spelling::first_unseen(&text).is_some() => {
                Some("more than one line, or something that is not seen".to_owned())
            }
            Kind::Choice(words) if !words.contains(&text.as_str()) => {
                Some(format!("`{}` is not one of its words", quoted(&text)))
            }
            kind if kind.is_number() => match kind.read(&text) {
                Err(_) => Some(format!("`{}` is not a number of its kind", quoted(&text))),
                Ok(number) if !row.admits(number) => {
                    Some(format!("`{}` is outside {}", quoted(&text), row.allowed()))
                }
                Ok(number) if kind == Kind::Count && number.fract() != 0.0 => {
                    Some(format!("`{}` is not a whole number", quoted(&text)))
                }
                Ok(_) => None,
            },
            _ => None,
        };
        let Some(problem) = problem else { return Some(Value { place, text }) };
        let help = match row.kind {
            Kind::Choice(words) => format!("write {}", words.join(" or ")),
            _ => row.write_instead(),
        };
        self.fault(place, format!("{}: {problem}", table.path_of(row)), help);
        None
    }

    /// The values of a table that may be given once.
    fn of(&self, table: &str) -> Option<&Values> {
        self.tables.get(table)?.first().map(|(_, values)| values)
    }

    fn given(&self, table: &str, key: &str) -> Option<Value> {
        self.of(table)?.get(key).cloned()
    }

    fn text(&self, table: &str, key: &str) -> Option<String> {
        self.given(table, key).map(|value| value.text)
    }

    fn date(&mut self, key: &str) -> Option<(Date, Range<usize>)> {
        let value = self.given("offer", key)?;
        let date = Date::read(&value.text);
        if date.is_none() {
            let problem = format!("offer.{key}: `{}` is not a day", quoted(&value.text));
            self.fault(
                value.place.clone(),
                problem,
                "write year, month and day, for example 2026-12-31".to_owned(),
            );
        }
        Some((date?, value.place))
    }

    fn offer(&mut self, folder: &Path) -> Option<Offer> {
        if self.of("dealer").is_none() && self.faults.is_empty() {
            self.faults.push(FileFault {
                problem: "there is no [dealer]".to_owned(),
                help: "write [dealer], and below it name = \"…\"; `planewright new --dealer FILE` writes a file to begin with".to_owned(),
                place: None,
            });
        }
        let (date, valid_until) = (self.date("date"), self.date("valid_until"));
        if let (Some((from, _)), Some((to, place))) = (&date, &valid_until)
            && to < from
        {
            let problem = "offer.valid_until: it lies before the date of the offer".to_owned();
            self.fault(place.clone(), problem, "correct one of the two".to_owned());
        }
        let currency = self.given("money", "currency").and_then(|value| {
            let currency = currency_of(&value.text);
            if currency.is_none() {
                let problem =
                    format!("money.currency: `{}` is not a currency", quoted(&value.text));
                self.fault(
                    value.place,
                    problem,
                    "write its three letters, for example EUR".to_owned(),
                );
            }
            currency
        });
        let logo = self.given("dealer", "logo").and_then(|value| {
            if value.text.contains("://") {
                let problem =
                    format!("dealer.logo: `{}` is an address, not a file", quoted(&value.text));
                self.fault(
                    value.place,
                    problem,
                    "save the picture beside this file, and name it".to_owned(),
                );
                return None;
            }
            match Logo::of_file(&folder.join(&value.text)) {
                Ok(logo) => Some(logo),
                Err([problem, help]) => {
                    self.fault(value.place, format!("dealer.logo: {problem}"), help);
                    None
                }
            }
        });
        let items = self.tables.get("item").cloned().unwrap_or_default();
        if let Some((place, _)) = items.get(MOST_ITEMS) {
            let problem =
                format!("more than {MOST_ITEMS} items: the offer would not stay on one page");
            self.fault(place.clone(), problem, "put several into one line".to_owned());
        }
        let fitting = self.of("fitting").and_then(|values| {
            Some(Fitting {
                hours: number("fitting", values, "hours")?,
                rate: number("fitting", values, "rate")?,
            })
        });
        let money = self.of("money").cloned().unwrap_or_default();
        let tax = number("money", &money, "tax").map(|share| Tax {
            name: self.text("money", "tax_name").unwrap_or_else(|| "VAT".to_owned()),
            share,
        });
        let prices = match self.text("money", "prices").as_deref() {
            Some("with-tax") => Prices::WithTax,
            _ => Prices::WithoutTax,
        };
        Some(Offer {
            dealer: Dealer {
                name: self.text("dealer", "name")?,
                address: self.text("dealer", "address"),
                contact: self.text("dealer", "contact"),
                tax_number: self.text("dealer", "tax_number"),
                logo,
            },
            number: self.text("offer", "number"),
            date: date.map(|(date, _)| date),
            valid_until: valid_until.map(|(date, _)| date),
            buyer: self.text("offer", "buyer"),
            buyer_address: self.text("offer", "buyer_address"),
            remark: self.text("offer", "remark"),
            currency,
            tax,
            prices,
            fitting,
            items: items.iter().map(|(_, values)| item(values)).collect::<Option<_>>()?,
        })
    }
}

/// Letters of a text at most.
fn longest(table: &Table, row: &Row) -> usize {
    let own = LONGEST.iter().find(|(of, key, _)| (*of, *key) == (table.name, row.name));
    own.map_or(LONGEST_OTHER, |(_, _, letters)| *letters)
}

/// A number of a table, checked before, or what its row says is taken.
fn number(table: &str, values: &Values, key: &str) -> Option<f64> {
    let table = TABLES.iter().find(|own| own.name == table)?;
    let row = named(table.keys, key)?;
    values.get(key).map_or_else(|| row.default(), |value| row.kind.read(&value.text).ok())
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn item(values: &Values) -> Option<Item> {
    Some(Item {
        name: values.get("name")?.text.clone(),
        quantity: number("item", values, "quantity")? as u32,
        price: number("item", values, "price")?,
        only_for: values.get("for").map(|value| match value.text.as_str() {
            "hydraulic" => Supply::Hydraulic,
            _ => Supply::Electric,
        }),
    })
}

/// Place of the name that is spelt most like one.
fn nearest<'a>(written: &str, names: impl Iterator<Item = &'a str> + Clone) -> usize {
    let near = spelling::nearest(&spelling::plain(written), names.clone()).map(|(name, _)| name);
    names.into_iter().position(|name| Some(name) == near).unwrap_or(0)
}

#[cfg(test)]
#[path = "read_tests.rs"]
mod tests;
