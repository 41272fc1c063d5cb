use std::path::Path;

use super::*;
use crate::stock::parse_stock;

fn offer(text: &str) -> Offer {
    parse_offer("dealer.toml", text, Path::new(""))
        .unwrap_or_else(|all| panic!("{}", all.plain_text()))
}

fn faults(text: &str) -> String {
    parse_offer("dealer.toml", text, Path::new("")).unwrap_err().plain_text()
}

#[test]
fn regression_the_file_to_begin_with_is_used_as_it_is() {
    let text = starter_offer();
    let read = offer(&text);
    assert_eq!(read.dealer.name, "Fairlead Marine");
    assert_eq!(read.items.len(), 1);
    assert_eq!(read.valid_until.map(Date::in_words).as_deref(), Some("31 December 2026"));
    for table in TABLES {
        assert!(text.contains(&table.header()), "{}", table.name);
        for row in table.keys {
            assert!(text.contains(&format!("{} = ", row.name)), "{}", row.name);
        }
    }
    // Every line that is a comment may be used.
    let whole: String = text
        .lines()
        .filter(|line| !line.starts_with("# "))
        .map(|line| {
            let line = line.trim_start_matches('#');
            if line.starts_with("logo") { String::new() } else { format!("{line}\n") }
        })
        .collect();
    offer(&whole);
}

const FILE: &str = r#"
[dealer]
name = "Fairlead <b>Marine</b>"
[money]
currency = "EUR"
tax = "20 %"
[fitting]
hours = 5.5
rate = "85"
[[item]]
name = "Pump"
price = 310
for = "hydraulic"
[[item]]
name = "Switch"
price = "99.99"
quantity = 2
"#;

fn kit(more: &str, supply: &str) -> crate::offer::Kit {
    let list = format!("name,span,chord,price,actuator\nLarge,600 mm,230 mm,385.255,{supply}\n");
    // A price has two decimals at most.
    let list = list.replace("385.255", "385.25");
    let list = parse_stock("list.csv", &list).unwrap();
    assert_eq!(list.faults, []);
    offer(&FILE.replace("[fitting]", &format!("{more}\n[fitting]"))).kit(&list.parts[0])
}

/// By hand: 2 × 385.25 + 310 + 2 × 99.99 + 5.5 × 85 = 1747.98; 20 % of it 349.596.
#[test]
fn practice_a_kit_adds_up() {
    let kit = kit("", "hydraulic");
    let lines: Vec<(&str, f64)> =
        kit.lines.iter().map(|line| (line.name.as_str(), line.sum)).collect();
    assert_eq!(lines, [("Large", 770.5), ("Pump", 310.0), ("Switch", 199.98), ("Fitting", 467.5)]);
    assert_eq!(kit.sum, 1747.98);
    assert_eq!(kit.tax, Some(("VAT".to_owned(), 0.2, 349.6)));
    assert_eq!(kit.total, 2097.58);
    assert_eq!((kit.currency.as_str(), kit.left_out.len()), ("EUR", 0));
}

/// By hand: 1747.98 / 1.2 × 0.2 = 291.33.
#[test]
fn practice_a_tax_within_the_prices_is_named_and_not_added() {
    let kit = kit("prices = \"with-tax\"", "hydraulic");
    assert_eq!(kit.tax, Some(("VAT".to_owned(), 0.2, 291.33)));
    assert_eq!((kit.sum, kit.total), (1747.98, 1747.98));
}

#[test]
fn regression_what_belongs_to_other_planes_is_left_out_and_said_where_it_is_not_known() {
    assert_eq!(kit("", "electric").sum, 1437.98);
    assert!(kit("", "electric").left_out.is_empty());
    let unknown = kit("", "");
    assert_eq!(unknown.sum, 1437.98);
    assert_eq!(unknown.left_out, ["Pump (hydraulic planes)"]);
}

#[test]
fn error_prices_in_two_currencies_are_no_offer() {
    let list = |currency: &str| {
        parse_stock(
            "list.csv",
            &format!("name,span_mm,chord_mm,price{currency}\nOne,450,230,330\n"),
        )
        .unwrap()
    };
    let mut bare = list("");
    offer(FILE).price(&mut bare).unwrap();
    assert_eq!(bare.parts[0].price.named(), Some("EUR"));
    let other = offer(FILE).price(&mut list("_gbp")).unwrap_err();
    assert_eq!(other.problem, "its prices are in EUR, and list.csv has GBP");
}

#[test]
fn error_everything_wrong_is_said_together_with_its_line() {
    let text = r#"
[dealer]
nam = "Fairlead"
logo = "https://example.org/logo.png"
[offer]
date = 2026-12-31
valid_until = "2026-02-30"
[money]
currency = "euro"
tax = "200 %"
prices = "net"
[fitting]
hours = "six"
rate = 85
[[item]]
name = ""
price = 12
quantity = 1.5
[extras]
"#;
    let found = faults(text);
    for said in [
        "line 2: [dealer] has no name",
        "line 3: [dealer] has no key `nam`",
        "line 4: dealer.logo: `https://example.org/logo.png` is an address, not a file",
        "line 7: offer.valid_until: `2026-02-30` is not a day",
        "line 9: money.currency: `euro` is not a currency",
        "line 10: money.tax: `200 %` is outside 0 % to 60 %",
        "line 11: money.prices: `net` is not one of its words",
        "line 13: fitting.hours: `six` is not a number",
        "line 16: item.name: nothing is written here",
        "line 18: item.quantity: `1.5` is not a whole number",
        "line 19: a dealer's file has no `extras` at the top",
    ] {
        assert!(found.contains(said), "{said}\n{found}");
    }
    assert!(faults("[offer]\nnumber = \"1\"\n").contains("there is no [dealer]"));
    let early =
        "[dealer]\nname = \"A\"\n[offer]\ndate = \"2026-12-31\"\nvalid_until = \"2026-12-01\"\n";
    assert!(faults(early).contains("it lies before the date of the offer"));
    let many =
        format!("[dealer]\nname = \"A\"\n{}", "[[item]]\nname = \"B\"\nprice = 1\n".repeat(7));
    assert!(faults(&many).contains("more than 6 items"));
    let long = format!("[dealer]\nname = \"{}\"\n", "x".repeat(61));
    assert!(faults(&long).contains("longer than 60 letters"));
    assert!(
        faults("[dealer]\nname = \"A\"\nlogo = \"none.png\"\n")
            .contains("none.png: there is no such file")
    );
}
