//! The short form: what an owner can say of a boat, written as a boat file.
//!
//! The text is read by the same reader as any boat file, so that faults come in the same words as
//! on the command line, each beside its field.

use std::ops::Range;

use super::fields::Fields;
use crate::boat::Wish;
use crate::boat::keys::table;
use crate::error::FileFault;
use crate::schema::{Kind, Limits, Row};

/// What is read into `file` in messages about a boat from the form.
pub(super) const FILE: &str = "your-boat.toml";

/// One field of the form: a key of the boat file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Field {
    /// Its name in an address.
    pub name: &'static str,
    /// Table and key in the boat file; no table for the keys above the first.
    pub key: (&'static str, &'static str),
    /// What stands beside it.
    pub label: &'static str,
    /// How to find the value, in a few words.
    pub hint: &'static str,
}

const fn field(
    name: &'static str,
    key: (&'static str, &'static str),
    label: &'static str,
    hint: &'static str,
) -> Field {
    Field { name, key, label, hint }
}

/// The fields in the order of the boat file, table by table.
#[rustfmt::skip]
pub(super) const FIELDS: [Field; 14] = [
    field("name", ("", "name"), "Name of the boat", "heads the page and all papers"),
    field("overall_length", ("hull", "overall_length"), "Length over all", "from the brochure; needed where the length of the bottom is not known"),
    field("bottom_length", ("hull", "bottom_length"), "Length of the planing bottom", "keel line from transom to forefoot; if empty, estimated from the length over all"),
    field("overall_beam", ("hull", "overall_beam"), "Beam over all", "from the brochure; needed where the chine beam is not known"),
    field("chine_beam", ("hull", "chine_beam"), "Chine beam", "between the chines, the corners where bottom meets side, where it is largest; if empty, estimated from the beam over all"),
    field("deadrise", ("hull", "deadrise"), "Deadrise", "how steep the V of the bottom is: its angle to level, half way along the chine, or a word"),
    field("mass", ("weight", "mass"), "Mass as she runs", "boat, engines, fuel, people, gear: all of it"),
    field("lcg", ("weight", "lcg"), "Centre of gravity forward of the transom", "along the keel; hard to know without weighing"),
    field("vcg", ("weight", "vcg"), "Centre of gravity above the keel", "hard to know; an estimate does"),
    field("drive", ("drive", "kind"), "Kind of drive", "sets the estimates of the thrust line"),
    field("power", ("drive", "power"), "Power", "of all engines together, at the shaft; the top speed can be estimated from it"),
    field("top_speed", ("drive", "top_speed"), "Top speed", "from a trial or the builder"),
    field("span", ("planes", "span"), "Span of one plane", "only if a pair is fitted already"),
    field("chord", ("planes", "chord"), "Chord of the planes", "hinge to trailing edge; only if a pair is fitted already"),
];

/// What an owner may complain of: the wish that stands in the boat file, and the complaint in his words.
pub(super) const COMPLAINTS: [(Wish, &str); 5] = [
    (Wish::BowHigh, "The bow rides too high"),
    (Wish::SlowToPlane, "She is slow to come onto the plane"),
    (Wish::Porpoises, "She nods at speed (porpoises)"),
    (Wish::Leans, "She leans to one side"),
    (Wish::Pounds, "She pounds in a head sea"),
];
/// Name of the ticks of the complaints, and the key of the boat file that they become.
pub(super) const COMPLAINT: &str = "for";

/// Names of all fields of the form in an address.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    std::iter::once(COMPLAINT).chain(FIELDS.iter().map(|field| field.name))
}

impl Field {
    /// The key as messages name it.
    pub fn path(&self) -> String {
        match self.key {
            ("", key) => key.to_owned(),
            (table, key) => format!("{table}.{key}"),
        }
    }

    /// Its row in the schema of boat files.
    fn row(&self) -> &'static Row {
        let (name, key) = self.key;
        table(name).and_then(|table| table.key(key)).expect("every field is a key of a boat file")
    }

    /// A value as it might be typed.
    pub fn example(&self) -> &'static str {
        self.row().example
    }

    /// What is allowed, where it has limits.
    pub fn allowed(&self) -> Option<String> {
        let row = self.row();
        (row.limits != Limits::None).then(|| row.allowed())
    }

    /// Whether the boat cannot be built without it.
    pub fn required(&self) -> bool {
        self.row().is_needed() && self.key.0 != "planes"
    }

    /// What is taken when it is left empty; nothing where that is said of keys rather than to people.
    pub fn absent(&self) -> String {
        let absent = self.row().absent();
        if absent.contains(['_', '`', '[']) { String::new() } else { absent }
    }

    /// The words it may hold, when it is a choice.
    pub fn words(&self) -> Option<&'static [&'static str]> {
        match self.row().kind {
            Kind::Choice(words) => Some(words),
            _ => None,
        }
    }
}

/// The form as a boat file, with the place of each field in it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Written {
    pub text: String,
    places: Vec<(&'static str, Range<usize>)>,
}

/// Writes the fields given as a boat file.
pub(super) fn written(fields: &Fields) -> Written {
    let mut written = Written { text: String::new(), places: Vec::new() };
    let wishes: Vec<String> = fields.all(COMPLAINT).map(quoted).collect();
    if !wishes.is_empty() {
        written.text = format!("{COMPLAINT} = [{}]\n", wishes.join(", "));
        written.places.push((COMPLAINT, 0..written.text.len()));
    }
    let mut open = "";
    for field in &FIELDS {
        let (table, key) = field.key;
        let value = fields.get(field.name);
        // A bare header lets the reader say which key is missing; planes are for those who have some.
        let wanted = value.is_some() || table == "hull" || table == "weight";
        if table != open && wanted {
            let gap = if written.text.is_empty() { "" } else { "\n" };
            written.text.push_str(&format!("{gap}[{table}]\n"));
            open = table;
        }
        if let Some(value) = value {
            let from = written.text.len();
            written.text.push_str(&format!("{key} = {}\n", quoted(value)));
            written.places.push((field.name, from..written.text.len()));
        }
    }
    written
}

/// Text as a TOML string.
fn quoted(value: &str) -> String {
    let mut text = String::from("\"");
    for character in value.chars() {
        match character {
            '"' | '\\' => text.extend(['\\', character]),
            control if control.is_control() => text.push(' '),
            plain => text.push(plain),
        }
    }
    text.push('"');
    text
}

impl Written {
    /// Name of the field that a fault is about; none for one about the whole.
    pub fn field_of(&self, fault: &FileFault) -> Option<&'static str> {
        let by_key = FIELDS.iter().find(|field| {
            let rest = fault.problem.strip_prefix(&field.path());
            rest.is_some_and(|rest| rest.starts_with(':') || rest.starts_with(" is missing"))
        });
        let by_place = || {
            let at = fault.place.as_ref()?.start;
            let same = self.places.iter().find(|(_, place)| place.contains(&at));
            same.map(|(name, _)| *name)
        };
        by_key.map(|field| field.name).or_else(by_place)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::parse_boat;

    fn fields(pairs: &[(&str, &str)]) -> Fields {
        Fields::of(pairs.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned())))
    }

    #[test]
    fn regression_form_is_a_boat_file() {
        let form = fields(&[
            ("name", "Say \"Ah\""),
            ("overall_length", "7.4 m"),
            ("chine_beam", "2.25 m"),
            ("deadrise", "18 deg"),
            ("mass", "2800 kg"),
            ("drive", "sterndrive"),
            ("power", "180 kW"),
        ]);
        let file = parse_boat(FILE, &written(&form).text).unwrap();
        assert_eq!(file.boat.name(), "Say \"Ah\"");
        assert!(file.boat.estimates().iter().any(|e| e.key == "hull.bottom_length"));
        assert!(file.boat.planes().is_none());
    }

    #[test]
    fn error_faults_find_their_fields() {
        let form = fields(&[("chine_beam", "2.25"), ("deadrise", "55 deg"), ("span", "500 mm")]);
        let written = written(&form);
        let faults = parse_boat(FILE, &written.text).unwrap_err();
        let mut named: Vec<_> = faults
            .faults()
            .iter()
            .map(|fault| (written.field_of(fault), fault.problem.as_str()))
            .collect();
        named.sort_unstable();
        assert_eq!(
            named,
            [
                (Some("chine_beam"), "hull.chine_beam: `2.25` has no unit"),
                (Some("chord"), "planes.chord is missing"),
                (Some("deadrise"), "hull.deadrise: 55 deg is outside 0 to 40 deg"),
                (Some("mass"), "weight.mass is missing"),
            ]
        );
    }

    #[test]
    fn regression_complaints_are_the_wishes_of_the_boat_file() {
        assert_eq!(COMPLAINTS.map(|(wish, _)| wish), Wish::ALL);
        let form = fields(&[
            ("overall_length", "7.4 m"),
            ("chine_beam", "2.25 m"),
            ("deadrise", "18 deg"),
            ("mass", "2800 kg"),
            ("power", "180 kW"),
            ("for", "bow-high"),
            ("for", "leans"),
        ]);
        let file = parse_boat(FILE, &written(&form).text).unwrap();
        assert_eq!(file.boat.input().wishes, [Wish::BowHigh, Wish::Leans]);
    }

    #[test]
    fn regression_every_field_is_a_key_of_the_schema() {
        for field in &FIELDS {
            let (name, key) = field.key;
            assert!(table(name).and_then(|table| table.key(key)).is_some(), "{}", field.path());
        }
    }
}
