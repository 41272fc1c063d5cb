//! Every table and key of a boat file: what kind of value it holds and what is taken when it is
//! left out. Limits, meaning and an example of each quantity stand in [`crate::boat::BOUNDS`].

use crate::boat::{Feature, FuelKind, ObstacleKind, Source, Toleranced, Wish, bound_of};
use crate::units::Dimension;

/// What a key holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Free text.
    Text,
    /// Text with a number and a unit.
    Quantity(Dimension),
    /// A plain number.
    Number,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A list of any of these words.
    Words(&'static [&'static str]),
    /// A name that the file gives elsewhere, or a list of them.
    Names,
}

/// One key of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Key {
    /// Name in the file.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// Whether its table is incomplete without it.
    pub required: bool,
    /// What happens when it is left out.
    pub absent: &'static str,
    /// Whether the starter file gives it a value (otherwise it stands there as a comment).
    pub starter: bool,
}

/// One table, or list of tables, of a boat file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Table {
    /// Name in the file; empty for the keys above the first table.
    pub name: &'static str,
    /// Whether it may be given many times, as `[[name]]`.
    pub list: bool,
    /// What it is for.
    pub about: &'static str,
    /// Whether the starter file holds it (otherwise it stands there as a comment).
    pub starter: bool,
    /// Its keys.
    pub keys: &'static [Key],
}

const fn must(name: &'static str, kind: Kind) -> Key {
    Key { name, kind, required: true, absent: "", starter: true }
}

const fn may(name: &'static str, kind: Kind, absent: &'static str) -> Key {
    Key { name, kind, required: false, absent, starter: false }
}

const fn shown(name: &'static str, kind: Kind, absent: &'static str) -> Key {
    Key { name, kind, required: false, absent, starter: true }
}

const LENGTH: Kind = Kind::Quantity(Dimension::Length);
const SPEED: Kind = Kind::Quantity(Dimension::Speed);
const MASS: Kind = Kind::Quantity(Dimension::Mass);
const ANGLE: Kind = Kind::Quantity(Dimension::Angle);
const AREA: Kind = Kind::Quantity(Dimension::Area);
const SHARE: Kind = Kind::Quantity(Dimension::Fraction);

/// Words for the kind of drive, in the order of [`crate::boat::DriveKind`].
pub const DRIVE_KINDS: &[&str] = &["outboard", "sterndrive", "shaft", "pod", "jet"];
/// Words for the kind of water, in the order of [`crate::boat::WaterKind`].
pub const WATER_KINDS: &[&str] = &["sea", "fresh"];
/// Words for the way the propellers turn, in the order of [`crate::boat::Rotation`].
pub const ROTATIONS: &[&str] = &["right", "left"];
/// Words for a side of the boat.
pub const SIDES: &[&str] = &["port", "starboard"];
/// Words for the kinds of duty.
pub const DUTY_KINDS: &[&str] =
    &["relief", "hump-trim", "least-resistance", "porpoising-margin", "list"];

/// The keys that a duty of each kind takes beside `kind`.
pub const DUTY_KEYS: &[(&str, &[&str])] = &[
    ("relief", &["at_least", "from", "to"]),
    ("hump-trim", &["at_most", "from", "to"]),
    ("least-resistance", &["within", "speed"]),
    ("porpoising-margin", &["margin", "up_to"]),
    ("list", &["speed", "moment", "mass", "distance"]),
];

/// All tables, in the order of the starter file.
pub const TABLES: &[Table] = &[
    Table {
        name: "",
        list: false,
        about: "",
        starter: true,
        keys: &[
            shown("name", Kind::Text, "`unnamed boat`"),
            may("scenario", Kind::Text, "nothing is printed"),
            may("for", Kind::Words(Wish::WORDS), "the usual duties"),
            may("base_condition", Kind::Text, "`as listed`"),
        ],
    },
    Table {
        name: "hull",
        list: false,
        about: "The planing bottom. Measure with the boat level on its keel line.",
        starter: true,
        keys: &[
            may("overall_length", LENGTH, "bottom_length must be given"),
            shown("bottom_length", LENGTH, "estimated from overall_length, and marked so"),
            must("chine_beam", LENGTH),
            must("deadrise", ANGLE),
            may("features", Kind::Words(Feature::WORDS), "none"),
            may("roughness", Kind::Number, "0.0004, a clean full-size bottom"),
            may(
                "entrance_half_angle",
                ANGLE,
                "resistance below planing is interpolated, and marked so",
            ),
            may("transom_area_ratio", Kind::Number, "as entrance_half_angle; give both or neither"),
            may("waterline_length", LENGTH, "the bottom_length stands in"),
        ],
    },
    Table {
        name: "weight",
        list: false,
        about: "Mass and centre of gravity as the boat runs: totals here, or instead the items below as [[load]], not both.",
        starter: true,
        keys: &[
            must("mass", MASS),
            shown("lcg", LENGTH, "estimated from [afloat] or the bottom length, and marked so"),
            shown("vcg", LENGTH, "estimated from the chine beam, and marked so"),
            may("tcg", LENGTH, "0 m, on the centreline"),
        ],
    },
    Table {
        name: "load",
        list: true,
        about: "One for each item, summed: hull, engine, fuel, people, gear. To use them, delete the table [weight] and take the comment signs away.",
        starter: false,
        keys: &[
            must("item", Kind::Text),
            must("mass", MASS),
            must("forward", LENGTH),
            must("up", LENGTH),
            may("starboard", LENGTH, "0 m, on the centreline"),
        ],
    },
    Table {
        name: "afloat",
        list: false,
        about: "How she floats at rest, loaded as in [weight]: mark the waterline on the hull, and measure from the keel line up to it ashore. Gives lcg when [weight] does not.",
        starter: false,
        keys: &[
            must("draft_at_transom", LENGTH),
            must("draft_forward", LENGTH),
            must("forward_mark", LENGTH),
        ],
    },
    Table {
        name: "drive",
        list: false,
        about: "Where the thrust acts and how fast the boat goes. Give thrust_offset or thrust_height, not both.",
        starter: true,
        keys: &[
            shown("kind", Kind::Choice(DRIVE_KINDS), "the thrust line is estimated more widely"),
            shown(
                "power",
                Kind::Quantity(Dimension::Power),
                "top_speed cannot be estimated from it",
            ),
            may("top_speed", SPEED, "estimated from power and mass, and marked so"),
            shown("thrust_angle", ANGLE, "estimated from the kind of drive, and marked so"),
            shown("thrust_offset", LENGTH, "thrust_height is used instead"),
            may("thrust_height", LENGTH, "thrust_offset is used, or it is estimated and marked so"),
            may(
                "rotation",
                Kind::Choice(ROTATIONS),
                "the torque of the propellers is not counted where she lists",
            ),
            may(
                "engine_speed",
                Kind::Quantity(Dimension::RotationSpeed),
                "rotation cannot be given",
            ),
            may("gear_ratio", Kind::Number, "1, the propeller turns with the engine"),
            may("engines", Kind::Number, "1"),
            may("counter_rotating", Kind::Number, "0, all turn the same way"),
            may(
                "propulsive_efficiency",
                SHARE,
                "what power and top_speed imply when both are given, else 52 %, and marked as estimated where it counts",
            ),
            may(
                "bollard_pull",
                Kind::Quantity(Dimension::Force),
                "estimated from power, and marked so where it counts",
            ),
            may("fuel", Kind::Choice(FuelKind::WORDS), "taken from the kind of drive"),
            may(
                "specific_consumption",
                Kind::Quantity(Dimension::SpecificConsumption),
                "estimated from the fuel, and marked so where it counts",
            ),
        ],
    },
    Table {
        name: "drive.efficiency",
        list: true,
        about: "A curve of propulsive efficiency, one for each speed, slowest first; in place of propulsive_efficiency. Before the first and past the last speed it stays level.",
        starter: false,
        keys: &[must("speed", SPEED), must("propulsive_efficiency", SHARE)],
    },
    Table {
        name: "water",
        list: false,
        about: "Give kind with temperature, or density with kinematic_viscosity. Without this table: sea water at 15 degC.",
        starter: true,
        keys: &[
            shown(
                "kind",
                Kind::Choice(WATER_KINDS),
                "density and kinematic_viscosity must be given",
            ),
            shown(
                "temperature",
                Kind::Quantity(Dimension::Temperature),
                "15 degC, and marked as estimated",
            ),
            may("salinity", Kind::Number, "35 for sea, 0 for fresh"),
            may(
                "density",
                Kind::Quantity(Dimension::Density),
                "computed from kind and temperature",
            ),
            may(
                "kinematic_viscosity",
                Kind::Quantity(Dimension::KinematicViscosity),
                "computed from kind and temperature",
            ),
        ],
    },
    Table {
        name: "air",
        list: false,
        about: "Air drag. Without this table it is not counted.",
        starter: false,
        keys: &[
            must("frontal_area", AREA),
            may("drag_coefficient", Kind::Number, "0.7"),
            must("height", LENGTH),
        ],
    },
    Table {
        name: "wind",
        list: false,
        about: "Wind from the side, for the list it causes. Without this table it is not counted.",
        starter: false,
        keys: &[
            must("side_area", AREA),
            must("side_height", LENGTH),
            may("drag_coefficient", Kind::Number, "1.0"),
            must("speed", SPEED),
            may("from", Kind::Choice(SIDES), "port, so that starboard goes down"),
        ],
    },
    Table {
        name: "appendages",
        list: false,
        about: "Drag of shafts, struts, rudders and legs. Without this table it is not counted.",
        starter: false,
        keys: &[must("drag_area", AREA), must("height", LENGTH)],
    },
    Table {
        name: "planes",
        list: false,
        about: "The pair of trim planes fitted. Without this table the boat is bare.",
        starter: false,
        keys: &[
            must("span", LENGTH),
            must("chord", LENGTH),
            may("effectiveness", Kind::Number, "1, the published equation"),
        ],
    },
    Table {
        name: "trial",
        list: false,
        about: "What a sea trial found that has no other place: `planewright trial` writes it. To take it back, delete the table.",
        starter: false,
        keys: &[
            may("log", Kind::Text, "nothing is printed"),
            may("lcg_shift", LENGTH, "0 m, the centre of gravity is where the weights say"),
            may("mass", MASS, "that of the loads as they are listed"),
        ],
    },
    Table {
        name: "transom",
        list: false,
        about: "Room for a plane on each side of the transom.",
        starter: true,
        keys: &[
            may("beam", LENGTH, "the chine_beam of the hull"),
            may("deadrise", ANGLE, "the deadrise of the hull"),
            may("inner_clearance", LENGTH, "8 in"),
            may("outer_clearance", LENGTH, "3 1/2 in"),
            may("hinge_height", LENGTH, "1/4 in"),
            may("rake", ANGLE, "0 deg, square to the bottom"),
            may("working_height", LENGTH, "10 in"),
        ],
    },
    Table {
        name: "transom.obstacle",
        list: true,
        about: "One for each thing that stands on the transom or hangs below its edge: leg, ladder, transducer, fittings. It is in the way of a plane when any of it lies below the working height.",
        starter: false,
        keys: &[
            must("kind", Kind::Choice(ObstacleKind::WORDS)),
            may("name", Kind::Text, "its kind"),
            must("off_centre", LENGTH),
            must("width", LENGTH),
            must("from", LENGTH),
            must("to", LENGTH),
            may("clearance", LENGTH, "100 mm for a transducer or leg, else 25 mm"),
        ],
    },
    Table {
        name: "transom.strake",
        list: true,
        about: "One for each strake that runs out at the transom, on both sides alike. A plane may stand over it.",
        starter: false,
        keys: &[must("off_centre", LENGTH), must("width", LENGTH), must("depth", LENGTH)],
    },
    Table {
        name: "sizing",
        list: false,
        about: "Limits on the size that may be suggested.",
        starter: true,
        keys: &[
            may("largest_deflection", ANGLE, "15 deg"),
            may("share", SHARE, "100 %"),
            may("chance", SHARE, "80 %"),
            may("smallest_chord", LENGTH, "225 mm"),
            may("smallest_aspect", Kind::Number, "1.5"),
            may("largest_aspect", Kind::Number, "3.5"),
            may("round_to", LENGTH, "25 mm"),
        ],
    },
    Table {
        name: "duty",
        list: true,
        about: "What the planes must do, one table for each duty. Without any, usual duties are made from the boat. A duty takes the keys of its kind.",
        starter: false,
        keys: &[
            must("kind", Kind::Choice(DUTY_KINDS)),
            may("at_least", ANGLE, "needed by relief"),
            may("at_most", ANGLE, "needed by hump-trim"),
            may(
                "from",
                SPEED,
                "needed by hump-trim; with to, relief holds over that range and not at the hump alone",
            ),
            may("to", SPEED, "needed by hump-trim, and by relief that gives from"),
            may("within", SHARE, "needed by least-resistance"),
            may("speed", SPEED, "needed by least-resistance and list"),
            may("margin", ANGLE, "needed by porpoising-margin"),
            may("up_to", SPEED, "needed by porpoising-margin"),
            may(
                "moment",
                Kind::Quantity(Dimension::Torque),
                "needed by list, or else mass and distance",
            ),
            may("mass", MASS, "needed by list, with distance, or else moment"),
            may("distance", LENGTH, "needed by list, with mass, or else moment"),
            may("condition", Kind::Names, "it holds in every loading condition"),
        ],
    },
    Table {
        name: "condition",
        list: true,
        about: "One for each other loading condition: the loads above with some left out, filled, moved or added. Every command takes --condition NAME; `all` stands for every one.",
        starter: false,
        keys: &[
            must("name", Kind::Text),
            may("about", Kind::Text, "nothing is printed"),
            may("without", Kind::Names, "everything listed is aboard"),
        ],
    },
    Table {
        name: "condition.load",
        list: true,
        about: "One for each item that differs, below its [[condition]]. The name of an item of the load table changes what is given here; another name adds an item. With totals in [weight] every entry is added to them; a centre of gravity that they do not give is estimated for the totals alone.",
        starter: false,
        keys: &[
            must("item", Kind::Text),
            may("mass", MASS, "as listed; needed by an item that is added"),
            may("forward", LENGTH, "as listed; needed by an item that is added"),
            may("up", LENGTH, "as listed; needed by an item that is added"),
            may("starboard", LENGTH, "as listed; 0 m for an item that is added"),
        ],
    },
    Table {
        name: "tolerance",
        list: true,
        about: "How well a value is known, one table for each; give by or source, not both. A value without one counts as taken from a brochure, an estimated one by its likely range.",
        starter: false,
        keys: &[
            must("of", Kind::Choice(Toleranced::WORDS)),
            may("by", Kind::Text, "source says it"),
            may("source", Kind::Choice(Source::WORDS), "by says it"),
        ],
    },
    Table {
        name: "seen",
        list: true,
        about: "A trim that was read on the water, one table for each. One is enough: every likely range and chance is then that of boats that would have shown the same. `planewright trial` writes some from its log.",
        starter: false,
        keys: &[
            must("speed", SPEED),
            may("deflection", ANGLE, "0 deg, planes up or none fitted"),
            must("trim", ANGLE),
            may("by", ANGLE, "1 deg, as with a telephone's inclinometer"),
            may("condition", Kind::Text, "she was loaded as listed above"),
        ],
    },
];

/// The table of that name.
#[must_use]
pub fn table(name: &str) -> Option<&'static Table> {
    TABLES.iter().find(|table| table.name == name)
}

impl Table {
    /// The key of that name.
    #[must_use]
    pub fn key(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|key| key.name == name)
    }

    /// Its header as written in a file: `[hull]`, `[[load]]`.
    #[must_use]
    pub fn header(&self) -> String {
        match (self.name, self.list) {
            ("", _) => String::new(),
            (name, false) => format!("[{name}]"),
            (name, true) => format!("[[{name}]]"),
        }
    }

    /// The place of a key for a table of bounds: `hull.deadrise`, or `name` at the top.
    #[must_use]
    pub fn path_of(&self, key: &Key) -> String {
        match self.name {
            "" => key.name.to_owned(),
            name => format!("{name}.{}", key.name),
        }
    }

    /// What a key means.
    #[must_use]
    pub fn meaning(&self, key: &Key) -> &'static str {
        let path = self.path_of(key);
        if let Some(bound) = bound_of(&path) {
            return bound.why;
        }
        match path.as_str() {
            "name" => "heads every output",
            "scenario" => "a sentence on what the boat is used for, printed with the results",
            "load.item" | "transom.obstacle.kind" => "what it is",
            "base_condition" => "name of the loading condition that [weight] or [[load]] describes",
            "condition.name" => "what the condition is called",
            "condition.about" => "a sentence on when she is loaded so, printed with the results",
            "condition.without" => "items of the load table that are not aboard",
            "condition.load.item" => "which item of the load table, or what is added",
            "duty.condition" => "the loading condition, or a list of those, in which it must hold",
            "for" => {
                "what you wish of the planes, in these words; each gives a duty where the file has none"
            }
            "hull.features" => {
                "what the bottom has that the equations do not know; each brings a warning"
            }
            "transom.obstacle.name" => "what you call it",
            "drive.kind" => "kind of drive",
            "drive.rotation" => {
                "which way the propellers turn when driving ahead, seen from astern: right is clockwise; two propellers on one shaft line that turn against each other have no torque left"
            }
            "wind.from" => "the side the wind comes from; the other side goes down",
            "drive.fuel" => "what the engines burn",
            "water.kind" => "kind of water",
            "trial.log" => "the log of the trial, printed with the results",
            "seen.condition" => "the loading condition in which it was read",
            "duty.kind" => "what must hold",
            "tolerance.of" => {
                "key of the value; with [[load]], weight stands for all loads together"
            }
            "tolerance.by" => {
                "nine such values in ten lie within this of the true one: a quantity with its unit, or a share of the value in %"
            }
            "tolerance.source" => {
                "how the value was come by; each kind has a usual width, common practice"
            }
            _ => "",
        }
    }

    /// A key with a value as it might be typed: `chine_beam = "2.25 m"`.
    #[must_use]
    pub fn example_line(&self, key: &Key) -> String {
        let path = self.path_of(key);
        let value = match (key.kind, bound_of(&path)) {
            (Kind::Number, Some(bound)) => return format!("{} = {}", key.name, bound.example),
            (_, Some(bound)) => bound.example,
            (Kind::Words(words), None) => return format!("{} = [\"{}\"]", key.name, words[0]),
            (Kind::Names, None) => match path.as_str() {
                "duty.condition" => return format!("{} = [\"six aboard\"]", key.name),
                _ => return format!("{} = [\"fuel\"]", key.name),
            },
            (Kind::Choice(words), None) => words[0],
            _ => match path.as_str() {
                "name" => "My boat",
                "tolerance.by" => "0.1 m",
                "base_condition" => "two aboard",
                "condition.name" | "seen.condition" => "six aboard",
                "condition.about" => "Guests on the aft bench",
                "condition.load.item" => "guests",
                "transom.obstacle.name" => "depth transducer",
                "trial.log" => "my-boat-log.csv",
                "scenario" => "Two people and a full tank, day trips in the bay",
                _ => "fuel",
            },
        };
        format!("{} = \"{value}\"", key.name)
    }
}

#[cfg(test)]
#[path = "schema_tests.rs"]
mod tests;
