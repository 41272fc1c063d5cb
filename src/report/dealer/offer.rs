//! What makes the dealer's page an offer: who offers, to whom and until when, and what the kit costs.

use super::super::gather::Gathered;
use super::named;
use crate::document::{Block, Column, Fact, Letterhead, Picture, Table};
use crate::offer::{Kit, Line, Offer};
use crate::units::number_with_decimals;

/// What the page is.
pub(super) fn subject(gathered: &Gathered) -> String {
    match &gathered.offer {
        Some(Offer { number: Some(number), .. }) => format!("Offer {}", named(number)),
        Some(_) => "Offer".to_owned(),
        None => "Recommendation".to_owned(),
    }
}

/// Who offers, to whom and until when.
pub(super) fn letterhead(gathered: &Gathered) -> Option<Block> {
    let offer = gathered.offer.as_ref()?;
    let dealer = &offer.dealer;
    let tax_number = dealer.tax_number.as_ref().map(|number| format!("Tax number {number}"));
    let from = [dealer.address.clone(), dealer.contact.clone(), tax_number];
    let day = |name: &str, day: Option<crate::offer::Date>| Some(Fact::new(name, day?.in_words()));
    let text = |name: &str, text: &Option<String>| Some(Fact::new(name, text.clone()?));
    let facts = [
        text("For", &offer.buyer),
        text("Address", &offer.buyer_address),
        text("Offer", &offer.number),
        day("Date", offer.date),
        day("Valid until", offer.valid_until),
    ];
    Some(Block::Letterhead(Letterhead {
        logo: dealer.logo.as_ref().map(|logo| Picture {
            svg: logo.svg().to_owned(),
            caption: String::new(),
            description: format!("Logo of {}", dealer.name),
        }),
        name: dealer.name.clone(),
        lines: from.into_iter().flatten().collect(),
        facts: facts.into_iter().flatten().collect(),
    }))
}

/// What the kit costs, line by line; none without a dealer's file or a part with a price.
pub(super) fn kit(gathered: &Gathered) -> Option<Block> {
    let offer = gathered.offer.as_ref()?;
    let ranked = gathered.part()?;
    Some(Block::Table(table(&offer.kit(&ranked.part), offer)))
}

fn table(kit: &Kit, offer: &Offer) -> Table {
    let mut rows: Vec<[String; 4]> = kit.lines.iter().map(row).collect();
    let summed =
        |name: String, sum: f64| [name, String::new(), String::new(), with_hundredths(sum)];
    match &kit.tax {
        None => {}
        Some((name, share, tax)) => {
            let rate = percent(*share);
            if kit.is_within {
                rows.push(summed(format!("of which {name} {rate}"), *tax));
            } else {
                rows.push(summed("Sum".to_owned(), kit.sum));
                rows.push(summed(format!("{name} {rate}"), *tax));
            }
        }
    }
    rows.push(summed("To pay".to_owned(), kit.total));
    let column = |index: usize| rows.iter().map(|row| row[index].clone()).collect();
    let mut notes: Vec<String> = Vec::new();
    notes.extend((!kit.left_out.is_empty()).then(|| {
        format!(
            "Not in the sum, since the list does not say what moves the planes: {}.",
            kit.left_out.join("; ")
        )
    }));
    notes.extend(offer.remark.clone());
    Table {
        title: "The kit".to_owned(),
        columns: vec![
            Column::words("what", column(0)),
            Column::numbers("how many", "", column(1)),
            Column::numbers("each", &kit.currency, column(2)),
            Column::numbers("sum", &kit.currency, column(3)),
        ],
        strong: Some(rows.len() - 1),
        notes,
    }
}

fn row(line: &Line) -> [String; 4] {
    [
        named(&line.name),
        format!("{} {}", short_number(line.quantity), line.unit).trim_end().to_owned(),
        with_hundredths(line.price),
        with_hundredths(line.sum),
    ]
}

/// `20 %`, `8.1 %`.
pub(super) fn percent(share: f64) -> String {
    format!("{} %", short_number(100.0 * share))
}

/// With hundredths only where it has some.
fn short_number(value: f64) -> String {
    let text = number_with_decimals(value, 2);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Always with hundredths, so that the points stand below each other.
fn with_hundredths(value: f64) -> String {
    number_with_decimals(value, 2)
}
