//! What a request says: names and values, from an address, a form or an upload.

use crate::units::is_unseen;

/// Longest value of a field that is no file, in characters.
const LONGEST_VALUE: usize = 200;
/// Fields that hold the text of a file.
pub(super) const TEXTS: [&str; 3] = ["text", "stock_text", "new_stock_text"];

/// Fields that may be given several times: each tick is one.
pub(super) const REPEATED: [&str; 1] = ["for"];

/// Names and values in the order given.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Fields {
    pairs: Vec<(String, String)>,
    /// What is wrong with a stock list that was sent along, and what to do.
    pub list_fault: Option<[String; 2]>,
}

impl Fields {
    /// Fields as they were decoded: over-long values are cut, what is not seen in them becomes a space, and
    /// the lines of a text end as on this machine.
    pub fn of(pairs: impl IntoIterator<Item = (String, String)>) -> Self {
        let tidy = |(name, value): (String, String)| {
            let value = if TEXTS.contains(&name.as_str()) {
                value.replace("\r\n", "\n")
            } else {
                let seen = |letter| if is_unseen(letter) { ' ' } else { letter };
                value
                    .chars()
                    .map(seen)
                    .collect::<String>()
                    .trim()
                    .chars()
                    .take(LONGEST_VALUE)
                    .collect()
            };
            (name, value)
        };
        Self { pairs: pairs.into_iter().map(tidy).collect(), list_fault: None }
    }

    /// The last value of a field; none where it is absent or empty.
    pub fn get(&self, name: &str) -> Option<&str> {
        let same = self.pairs.iter().rev().find(|(given, _)| given == name);
        same.map(|(_, value)| value.as_str()).filter(|value| !value.is_empty())
    }

    /// All values of a field that may be given several times.
    pub fn all<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a str> {
        let same = self.pairs.iter().filter(move |(given, _)| given == name);
        same.map(|(_, value)| value.as_str()).filter(|value| !value.is_empty())
    }

    /// Whether a field is there with any value.
    pub fn has(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// Sets a field.
    pub fn set(&mut self, name: &str, value: &str) {
        self.pairs.retain(|(given, _)| given != name);
        self.pairs.push((name.to_owned(), value.to_owned()));
    }

    /// The fields as the query of an address.
    pub fn query(&self, names: &[&str]) -> String {
        let pairs = names.iter().flat_map(|&name| match REPEATED.contains(&name) {
            true => self.all(name).map(|value| (name, value)).collect::<Vec<_>>(),
            false => self.get(name).map(|value| (name, value)).into_iter().collect(),
        });
        let text: Vec<String> =
            pairs.map(|(name, value)| format!("{name}={}", percent_encoded(value))).collect();
        text.join("&")
    }
}

/// A value as it stands in an address.
pub(super) fn percent_encoded(text: &str) -> String {
    let mut encoded = String::with_capacity(text.len());
    for byte in text.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' => {
                encoded.push(char::from(byte));
            }
            b' ' => encoded.push('+'),
            _ => encoded.push_str(&format!("%{byte:02X}")),
        }
    }
    encoded
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regression_last_value_counts_and_empty_is_absent() {
        let fields = Fields::of(
            [("a", "1"), ("b", " "), ("a", " 2 ")].map(|(n, v)| (n.to_owned(), v.to_owned())),
        );
        assert_eq!(fields.get("a"), Some("2"));
        assert_eq!(fields.get("b"), None);
        assert!(!fields.has("c"));
    }

    #[test]
    fn error_what_is_not_seen_in_a_value_becomes_a_space() {
        let pairs = [("name", "\u{b}Wren\u{202e}gnol\u{1b}[31m\u{0} "), ("text", "a\tb\r\nc")];
        let fields = Fields::of(pairs.map(|(n, v)| (n.to_owned(), v.to_owned())));
        assert_eq!(fields.get("name"), Some("Wren gnol [31m"));
        assert_eq!(fields.get("text"), Some("a\tb\nc"));
    }

    #[test]
    fn regression_addresses_hold_any_text() {
        let mut fields = Fields::default();
        fields.set("beam", "7 1/2 in & ü");
        assert_eq!(fields.query(&["beam", "none"]), "beam=7+1%2F2+in+%26+%C3%BC");
    }
}
