//! The stock list to begin with: it can be ranked as it is, and says what else may stand in it.

use super::columns::{COLUMNS, STRENGTH};
use crate::schema::Row;

/// Columns of the starter list as its headings write them, each with the column that it stands for.
const SHOWN: [(&str, &str); 6] = [
    ("name", "name"),
    ("span_mm", "span"),
    ("chord_mm", "chord"),
    ("price_eur", "price"),
    ("on_hand", "on_hand"),
    ("actuator", "actuator"),
];

/// Invented parts.
const PARTS: [&str; 5] = [
    "Small,300,230,285,4,hydraulic",
    "Medium,450,230,330,6,hydraulic",
    "Medium deep,450,300,390,2,electric",
    "Large,600,230,385,2,hydraulic",
    "Large deep,600,300,450,0,hydraulic",
];

/// Head of the list. A spreadsheet that saves it with other marks between the columns leaves these lines whole, since
/// there are no commas in them.
const HEAD: &str = "\
# A stock list. One line for each kind of plane - a boat takes two of them.
# Name and span and chord and price are enough. The parts are then ranked by size and price
# and every answer says that their strength is not known. These parts are invented.
";

/// The text of a stock list to begin with.
#[must_use]
pub fn starter_stock() -> String {
    let mut text = HEAD.to_owned();
    let row = |name: &str| COLUMNS.iter().find(|column| column.name == name);
    for (heading, column) in SHOWN {
        text.extend(row(column).map(|column| line(heading, column)));
    }
    let further: Vec<&str> = COLUMNS
        .iter()
        .filter(|column| column.need == STRENGTH && column.name != "actuator")
        .map(|column| column.name)
        .collect();
    text.push_str(
        "# Where strength is to be judged as well these columns are needed - all of them:\n",
    );
    for names in further.chunks(5) {
        text.push_str(&format!("#   {}\n", names.join(" ")));
    }
    let headings: Vec<&str> = SHOWN.iter().map(|(heading, _)| *heading).collect();
    text.push_str(&format!("{}\n", headings.join(",")));
    for part in PARTS {
        text.push_str(&format!("{part}\n"));
    }
    text
}

/// What a column means, without marks that might part columns.
fn line(heading: &str, column: &Row) -> String {
    let meaning = column.meaning.replace(", ", " - ").replace("; ", " - ");
    format!("# {heading}: {meaning}\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stock::parse_stock;

    #[test]
    fn regression_the_list_to_begin_with_is_used_as_it_is() {
        let text = starter_stock();
        let list = parse_stock("list.csv", &text).unwrap();
        assert_eq!(list.faults, []);
        assert_eq!(list.parts.len(), PARTS.len());
        assert!(list.parts.iter().all(|part| part.gear.is_none() && part.supply.is_some()));
        // As a spreadsheet of another country saves it again, comments in cells and all.
        let other: Vec<String> = text
            .lines()
            .map(|line| match line.starts_with('#') {
                true => format!("\"{line}\";;;;;"),
                false => line.replace(',', ";"),
            })
            .collect();
        let again = parse_stock("list.csv", &other.join("\r\n")).unwrap();
        assert_eq!(again.faults, []);
        assert_eq!(again.parts, list.parts);
    }
}
