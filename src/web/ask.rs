//! A request understood: which boat, in which units, where on the water, with which planes.

use std::sync::Arc;

use uom::si::f64::{Angle, Velocity};
use uom::si::{angle::degree, velocity::meter_per_second};

use super::demo::{self, Demo};
use super::fields::Fields;
use super::form::{self, Written};
use super::list::{ShelfFault, UNNAMED as UNNAMED_LIST, read_list};
use super::serve::Site;
use crate::boat::PlanePair;
use crate::doubt::Drawn;
use crate::error::FileFaults;
use crate::input::{Beside, BoatFile, parse_boat_beside};
use crate::stock::StockList;
use crate::units::{LengthUnit, UnitChoice, UnitSystem, format_length, parse_angle, parse_speed};

/// The word of the boat that the server was started with.
pub(super) const GIVEN: &str = "given";
/// Name of an uploaded file that came without one.
const UNNAMED: &str = "uploaded.toml";
/// Longest name of an uploaded file that is shown.
const LONGEST_NAME: usize = 60;
/// Fields of an address that say where the boat comes from; the form's own come after them.
const FROM: [&str; 2] = ["boat", "form"];
/// Fields that say how she is shown and set, in the order of the address.
pub(super) const SET: [&str; 11] = [
    "units",
    "in",
    "steps",
    "condition",
    "aboard",
    "speed",
    "deflection",
    "planes",
    "forces",
    "both_units",
    "stock",
];
/// People that the switch puts aboard.
pub(super) const MORE_ABOARD: u8 = 2;

/// Where the boat comes from.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Source {
    /// One that the program carries.
    Demo(&'static Demo),
    /// The one the server was started with.
    Given,
    /// The short form.
    Form(Written),
    /// A boat file that stands in the page.
    Text(String),
}

/// What a request asks for.
#[derive(Clone, Debug)]
pub(super) struct Ask {
    pub fields: Fields,
    pub source: Source,
    pub system: UnitSystem,
    /// Units in whole steps of which sizes are looked for: those that she was first shown in.
    pub steps: UnitSystem,
    /// What is wrong with a list that was brought; the one before stays.
    pub list_fault: Option<ShelfFault>,
    /// Units in which plain numbers of the request are meant.
    typed_in: UnitSystem,
    /// The boat the server was started with.
    given: Option<Arc<BoatFile>>,
    /// The stock list the server was started with.
    pub given_stock: Option<Arc<StockList>>,
    /// Boats drawn for the likely ranges.
    pub draws: u32,
}

/// Which planes the boat is to run with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Planes {
    /// Those in the boat file.
    Fitted,
    /// None.
    Off,
    /// A pair of this size.
    Pair(PlanePair),
}

impl Ask {
    /// Understands a request; none when it names no boat.
    pub fn of(mut fields: Fields, site: &Site) -> Option<Self> {
        let list_fault = take_list(&mut fields).err();
        let source = source(&fields, site)?;
        let system = |name: &str| {
            let word = fields.get(name)?;
            UnitSystem::of_word(word)
        };
        let shown = system("units").unwrap_or(UnitSystem::Marine);
        let typed_in = system("in").unwrap_or(shown);
        let steps = system("steps").unwrap_or(shown);
        fields.set("steps", steps.word());
        let given = site.boat.clone();
        let (given_stock, draws) = (site.stock.clone(), site.draws);
        Some(Self {
            source,
            system: shown,
            steps,
            list_fault,
            typed_in,
            fields,
            given,
            given_stock,
            draws,
        })
    }

    /// The boats that every chance and range is counted on.
    pub fn drawn(&self) -> Drawn {
        Drawn { draws: self.draws, ..Drawn::default() }
    }

    /// Name and text of the boat file.
    pub fn file(&self) -> (String, &str) {
        match &self.source {
            Source::Demo(demo) => (demo.file.to_owned(), demo.text),
            Source::Form(written) => (form::FILE.to_owned(), &written.text),
            Source::Text(text) => (shown_name(self.fields.get("text_name"), UNNAMED), text),
            Source::Given => match &self.given {
                Some(file) => (shown_name(Some(&file.name), UNNAMED), &file.text),
                None => (UNNAMED.to_owned(), ""),
            },
        }
    }

    /// The boat.
    pub fn boat_file(&self) -> Result<BoatFile, FileFaults> {
        let (name, text) = self.file();
        // Only the boat the server was started with has a file beside hers; it was read then.
        let given = self.given.as_ref().filter(|_| matches!(self.source, Source::Given));
        let beside = given.map_or(Beside::Nothing, |file| Beside::Known(file.boat.stations()));
        parse_boat_beside(&name, text, beside)
    }

    /// Whether something is left to the answer to decide.
    pub fn is_open(&self) -> bool {
        ["planes", "speed", "deflection"].iter().any(|name| !self.fields.has(name))
    }

    /// Whether all of the state fits into an address.
    pub fn in_address(&self) -> bool {
        !matches!(self.source, Source::Text(_)) && !self.fields.has("stock_text")
    }

    /// The state as the query of an address; what stands in the page is not in it.
    pub fn query(&self) -> String {
        let form = form::names().filter(|_| matches!(self.source, Source::Form(_)));
        let names: Vec<&str> = FROM.into_iter().chain(form).chain(SET).collect();
        self.fields.query(&names)
    }

    /// The loading condition that she is to run in. None when nothing is said.
    pub fn condition(&self) -> Option<&str> {
        self.fields.get("condition")
    }

    /// The speed asked for: a plain number is in the units of the page. None when nothing is said.
    pub fn speed(&self) -> Option<Result<Velocity, String>> {
        let text = self.fields.get("speed")?;
        if let Some(number) = plain_number(text) {
            let unit = UnitChoice::from(self.typed_in).speed;
            let one = unit.value(Velocity::new::<meter_per_second>(1.0));
            return Some(Ok(Velocity::new::<meter_per_second>(number / one)));
        }
        Some(parse_speed(text).map_err(|error| error.one_line()))
    }

    /// The deflection asked for: a plain number is in degrees. None when nothing is said.
    pub fn deflection(&self) -> Option<Result<Angle, String>> {
        let text = self.fields.get("deflection")?;
        if let Some(number) = plain_number(text) {
            return Some(Ok(Angle::new::<degree>(number)));
        }
        Some(parse_angle(text).map_err(|error| error.one_line()))
    }

    /// The planes asked for. None when nothing is said.
    pub fn planes(&self) -> Option<Result<Planes, String>> {
        match self.fields.get("planes")? {
            "fitted" => Some(Ok(Planes::Fitted)),
            "none" => Some(Ok(Planes::Off)),
            text => Some(PlanePair::read(text).map(Planes::Pair)),
        }
    }

    /// How many people are aboard beyond her loads as they are listed. None when it is not asked.
    pub fn more_aboard(&self) -> Option<u8> {
        self.fields.has("aboard").then_some(MORE_ABOARD)
    }

    /// Whether the marking-out sheet is to have its figures in millimetres and in inches.
    pub fn both_units(&self) -> bool {
        self.fields.has("both_units")
    }

    /// Whether the forces are to be drawn.
    pub fn forces(&self) -> bool {
        self.fields.has("forces")
    }
}

/// Puts a list that was brought into the place of the one before, if it can be used.
fn take_list(fields: &mut Fields) -> Result<(), ShelfFault> {
    if let Some([problem, help]) = fields.list_fault.clone() {
        return Err(ShelfFault { problem, help });
    }
    let Some(text) = fields.get("new_stock_text").map(str::to_owned) else { return Ok(()) };
    let name = shown_name(fields.get("new_stock_name"), UNNAMED_LIST);
    read_list(&name, &text)?;
    fields.set("stock_text", &text);
    fields.set("stock_name", &name);
    Ok(())
}

fn source(fields: &Fields, site: &Site) -> Option<Source> {
    if let Some(text) = fields.get("text") {
        return Some(Source::Text(text.to_owned()));
    }
    if fields.has("form") {
        return Some(Source::Form(form::written(fields)));
    }
    match fields.get("boat")? {
        GIVEN => site.boat.as_ref().map(|_| Source::Given),
        word => demo::boat(word).map(Source::Demo),
    }
}

/// A finite number without a unit.
fn plain_number(text: &str) -> Option<f64> {
    text.parse().ok().filter(|number: &f64| number.is_finite())
}

/// The word of a pair: `725 mm x 250 mm`.
pub(super) fn pair_word(pair: PlanePair) -> String {
    let written = |length| format_length(length, LengthUnit::Millimetre);
    format!("{} x {}", written(pair.span), written(pair.chord))
}

/// The name of an uploaded file for messages and downloads: its last part, shortened. It never
/// becomes a path.
pub(super) fn shown_name(given: Option<&str>, otherwise: &str) -> String {
    let last = given.and_then(|name| name.rsplit(['/', '\\']).next()).unwrap_or_default();
    let tidy: String = last.chars().filter(|c| !c.is_control()).take(LONGEST_NAME).collect();
    match tidy.trim() {
        "" | "." | ".." => otherwise.to_owned(),
        name => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::velocity::knot;

    fn ask(pairs: &[(&str, &str)]) -> Option<Ask> {
        let fields = Fields::of(pairs.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned())));
        Ask::of(fields, &Site::default())
    }

    #[test]
    fn regression_plain_numbers_are_in_the_units_they_were_shown_in() {
        let all = [("boat", "wren"), ("units", "imperial"), ("in", "marine"), ("speed", "20")];
        let ask = ask(&all).unwrap();
        assert!((ask.speed().unwrap().unwrap().get::<knot>() - 20.0).abs() < 1e-9);
        assert_eq!(ask.system, UnitSystem::Imperial);
    }

    #[test]
    fn error_values_that_cannot_be_read_say_what_is_allowed() {
        let ask = ask(&[("boat", "wren"), ("speed", "fast"), ("planes", "big")]).unwrap();
        let error = ask.speed().unwrap().unwrap_err();
        assert!(error.starts_with("`fast` does not begin with a number: "), "{error}");
        let error = ask.planes().unwrap().unwrap_err();
        assert!(error.starts_with("`big` is no size; write span x chord"), "{error}");
    }

    /// In the words and within the limits of the command line.
    #[test]
    fn error_planes_outside_what_a_boat_file_may_hold_are_refused() {
        let ask = ask(&[("boat", "wren"), ("planes", "600 m x 300 mm")]).unwrap();
        let error = ask.planes().unwrap().unwrap_err();
        assert!(error.starts_with("600 m is outside 0.005 to 4 m; "), "{error}");
    }

    #[test]
    fn physics_a_pair_reads_back_as_written() {
        let ask = ask(&[("boat", "wren"), ("planes", "725 mm x 250 mm")]).unwrap();
        let Some(Ok(Planes::Pair(pair))) = ask.planes() else { panic!("a pair") };
        assert_eq!(pair_word(pair), "725 mm x 250 mm");
    }

    /// The boat the page was started with keeps her stations; a text that is brought opens no file.
    #[test]
    fn error_a_boat_that_is_brought_opens_no_file_of_the_server() {
        let given = crate::input::read_boat("data/stations/heron.toml".as_ref()).unwrap();
        let text = given.text.clone();
        let site = Site { boat: Some(Arc::new(given)), ..Site::default() };
        let fields = |pairs: &[(&str, &str)]| {
            Fields::of(pairs.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned())))
        };
        let own = Ask::of(fields(&[("boat", GIVEN)]), &site).unwrap().boat_file().unwrap();
        assert_eq!(own.boat.stations().unwrap().rows().len(), 9);
        let brought = Ask::of(fields(&[("boat", "text"), ("text", &text)]), &site).unwrap();
        let refused = brought.boat_file().unwrap_err().plain_text();
        assert!(refused.contains("is not at hand here"), "{refused}");
    }

    #[test]
    fn error_names_of_uploads_never_hold_a_path() {
        assert_eq!(shown_name(Some("../../etc/passwd"), "x"), "passwd");
        assert_eq!(shown_name(Some("C:\\boats\\a.toml"), "x"), "a.toml");
        assert_eq!(shown_name(Some("a/.."), "x"), "x");
        assert!(ask(&[("boat", "../../etc/passwd")]).is_none());
        assert!(ask(&[("boat", "given")]).is_none());
    }
}
