//! The rows of a boat file, table by table, and those of what is asked on the command line.

use super::{Table, quantity, text};
use crate::boat::duty;
use crate::boat::{
    BottomForm, Feature, FuelKind, ObstacleKind, Source, Toleranced, TransomForm, Wish,
};
use crate::schema::Kind::{self, Choice, Names, Number, Quantity, QuantityOr, Text, With, Words};
use crate::schema::Need::{Always, Default, Else};
use crate::units::Dimension;

const LENGTH: Kind = Quantity(Dimension::Length);
const SPEED: Kind = Quantity(Dimension::Speed);
const MASS: Kind = Quantity(Dimension::Mass);
const ANGLE: Kind = Quantity(Dimension::Angle);
const AREA: Kind = Quantity(Dimension::Area);
const SHARE: Kind = Quantity(Dimension::Fraction);

/// Words for the kind of drive, in the order of [`crate::boat::DriveKind`].
pub const DRIVE_KINDS: &[&str] = &["outboard", "sterndrive", "shaft", "pod", "jet"];
/// Words for the kind of water, in the order of [`crate::boat::WaterKind`].
pub const WATER_KINDS: &[&str] = &["sea", "fresh"];
/// Words for the way the propellers turn, in the order of [`crate::boat::Rotation`].
pub const ROTATIONS: &[&str] = &["right", "left"];
/// Words for a side of the boat.
pub const SIDES: &[&str] = &["port", "starboard"];
/// All tables, in the order of the starter file.
#[rustfmt::skip]
pub const TABLES: &[Table] = &[
    Table {
        name: "",
        list: false,
        about: "",
        starter: true,
        shown: &["name"],
        keys: &[
            text("name", Text, Else("`unnamed boat`"), "My boat", "heads every output"),
            text("scenario", Text, Else("nothing is printed"), "Two people and a full tank, day trips in the bay", "a sentence on what the boat is used for, printed with the results"),
            text("for", Words(Wish::WORDS), Else("the usual duties"), "bow-high", "what you wish of the planes, in these words; each gives a duty where the file has none"),
            text("base_condition", Text, Else("`as listed`"), "two aboard", "name of the loading condition that [weight] or [[load]] describes"),
        ],
    },
    Table {
        name: "hull",
        list: false,
        about: "The planing bottom. Measure with the boat level on its keel line.",
        starter: true,
        shown: &["bottom_length", "chine_beam", "deadrise"],
        keys: &[
            quantity("overall_length", LENGTH, Else("bottom_length must be given"), (0.5, 60.0), (4.0, 25.0), "7.4 m", "length over all; smaller than 0.5 m is no boat and no tank model"),
            quantity("bottom_length", LENGTH, Else("taken from stations, else estimated from overall_length, and marked so"), (0.4, 50.0), (3.0, 20.0), "6.5 m", "keel line of the planing bottom, transom to forefoot"),
            quantity("overall_beam", LENGTH, Else("chine_beam must be given"), (0.1, 14.0), (1.4, 6.0), "2.55 m", "beam over all, as a brochure has it"),
            quantity("chine_beam", LENGTH, Else("taken from stations, else estimated from overall_beam, and marked so"), (0.1, 12.0), (1.2, 5.0), "2.25 m", "largest chine beam, spray rails not counted"),
            quantity("deadrise", QuantityOr(Dimension::Angle, BottomForm::WORDS), Else("estimated, and marked so: from that at the transom, else within the range of all planing boats"), (0.0, 40.0), (8.0, 26.0), "18 deg", "deadrise at half the length of the chine; the lift equation was tested to 30 deg"),
            text("stations", Text, Else("the bottom is a prism of chine_beam and deadrise"), "bottom.csv", "CSV file beside this one with the bottom as stations from the transom forward, in place of chine_beam and deadrise: columns station, keel_height, chine_height, chine_half_beam, each with its unit in the heading; gives bottom_length too where that is left out, beam and deadrise of the transom, and the warp"),
            text("features", Words(Feature::WORDS), Else("none"), "steps", "what the bottom has that the equations do not know; each brings a warning"),
            quantity("roughness", Number, Default("0.0004", ", a clean full-size bottom"), (0.0, 0.01), (0.0, 0.0015), "0.0004", "correlation allowance added to the friction coefficient for a rough or fouled bottom; a sea trial finds it"),
            quantity("entrance_half_angle", ANGLE, Else("resistance below planing is interpolated, and marked so"), (1.0, 60.0), (8.0, 35.0), "22 deg", "half angle of the waterline at the stem, at rest; for the resistance before she planes"),
            quantity("transom_area_ratio", Number, Else("as entrance_half_angle; give both or neither"), (0.0, 1.2), (0.3, 1.0), "0.9", "immersed area of the transom over that of the largest section, at rest"),
            quantity("waterline_length", LENGTH, Else("the bottom_length stands in"), (0.4, 60.0), (3.0, 24.0), "6.6 m", "length of the waterline at rest"),
        ],
    },
    Table {
        name: "weight",
        list: false,
        about: "Mass and centre of gravity as the boat runs: totals here, or instead the items below as [[load]], not both.",
        starter: true,
        shown: &["lcg", "vcg"],
        keys: &[
            quantity("mass", MASS, Always, (1.0, 300_000.0), (400.0, 60_000.0), "2800 kg", "all-up mass: boat, engines, fuel, people, gear"),
            quantity("lcg", LENGTH, Else("estimated from [afloat] or the bottom length, and marked so"), (0.0, 40.0), (1.0, 9.0), "2.45 m", "centre of gravity forward of the transom; it must lie within the bottom length"),
            quantity("vcg", LENGTH, Else("estimated from the chine beam, and marked so"), (-1.0, 12.0), (0.3, 2.0), "0.75 m", "centre of gravity above the keel line"),
            quantity("tcg", LENGTH, Default("0 m", ", on the centreline"), (-6.0, 6.0), (-0.1, 0.1), "0 m", "centre of gravity to starboard; it must lie between the chines"),
        ],
    },
    Table {
        name: "load",
        list: true,
        about: "One for each item, summed: hull, engine, fuel, people, gear. To use them, delete the table [weight] and take the comment signs away.",
        starter: false,
        shown: &[],
        keys: &[
            text("item", Text, Always, "fuel", "what it is"),
            quantity("mass", MASS, Always, (0.0, 300_000.0), (1.0, 30_000.0), "170 kg", "mass of one item"),
            quantity("forward", LENGTH, Always, (-5.0, 50.0), (-0.6, 15.0), "1.9 m", "item's centre forward of the transom; negative for an engine hung aft of it"),
            quantity("up", LENGTH, Always, (-3.0, 20.0), (-0.2, 4.0), "0.9 m", "item's centre above the keel line"),
            quantity("starboard", LENGTH, Default("0 m", ", on the centreline"), (-6.0, 6.0), (-2.0, 2.0), "0 m", "item's centre to starboard of the centreline; negative to port"),
        ],
    },
    Table {
        name: "afloat",
        list: false,
        about: "How she floats at rest, loaded as in [weight]: mark the waterline on the hull, and measure from the keel line up to it ashore. Gives lcg when [weight] does not.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("draft_at_transom", LENGTH, Always, (0.005, 6.0), (0.15, 1.2), "0.46 m", "waterline above the keel at the transom, square to the keel, afloat at rest"),
            quantity("draft_forward", LENGTH, Always, (0.0, 6.0), (0.1, 1.2), "0.38 m", "waterline above the keel at the forward mark, square to the keel, afloat at rest"),
            quantity("forward_mark", LENGTH, Always, (0.1, 50.0), (1.5, 15.0), "4 m", "forward mark from the transom along the keel; as far forward as the keel is straight"),
        ],
    },
    Table {
        name: "drive",
        list: false,
        about: "Where the thrust acts and how fast the boat goes. Give thrust_offset or thrust_height, not both.",
        starter: true,
        shown: &["kind", "power", "thrust_angle", "thrust_offset"],
        keys: &[
            text("kind", Choice(DRIVE_KINDS), Else("the thrust line is estimated more widely"), "outboard", "kind of drive"),
            quantity("power", Quantity(Dimension::Power), Else("top_speed cannot be estimated from it"), (0.01, 20_000.0), (20.0, 1500.0), "220 kW", "rated shaft power of all engines together"),
            quantity("top_speed", SPEED, Else("estimated from power and mass, and marked so"), (0.5, 60.0), (8.0, 30.0), "32 kn", "speed reached at full power"),
            quantity("thrust_angle", ANGLE, Else("estimated from the kind of drive, and marked so"), (-15.0, 25.0), (-4.0, 15.0), "4 deg", "thrust line to keel line, positive when it pushes the stern up"),
            quantity("thrust_offset", LENGTH, Else("thrust_height is used instead"), (-6.0, 6.0), (-0.5, 2.0), "0.35 m", "thrust line below the centre of gravity, normal to the thrust"),
            quantity("thrust_height", LENGTH, Else("thrust_offset is used, or it is estimated and marked so"), (-4.0, 6.0), (-0.8, 0.5), "-0.15 m", "thrust line above the keel line at the transom; negative below the keel"),
            text("rotation", Choice(ROTATIONS), Else("the torque of the propellers is not counted where she lists"), "right", "which way the propellers turn when driving ahead, seen from astern: right is clockwise; two propellers on one shaft line that turn against each other have no torque left"),
            quantity("engine_speed", Quantity(Dimension::RotationSpeed), Else("rotation cannot be given"), (50.0, 20_000.0), (1500.0, 6500.0), "4800 rpm", "speed of the engine at full power; with rotation it gives the torque that the propellers put on the hull"),
            quantity("gear_ratio", Number, Default("1", ", the propeller turns with the engine"), (0.2, 10.0), (1.0, 3.0), "1.95", "turns of the engine for one turn of the propeller"),
            quantity("engines", Number, Default("1", ""), (1.0, 8.0), (1.0, 4.0), "2", "number of engines, each with its own propeller"),
            quantity("counter_rotating", Number, Default("0", ", all turn the same way"), (0.0, 8.0), (0.0, 2.0), "1", "how many of the engines turn their propellers the other way"),
            quantity("propulsive_efficiency", SHARE, Else("what power and top_speed imply when both are given, else 52 %, and marked as estimated where it counts"), (5.0, 95.0), (40.0, 70.0), "52 %", "share of the shaft power that does work on the boat when she planes"),
            quantity("bollard_pull", Quantity(Dimension::Force), Else("estimated from power, and marked so where it counts"), (0.1, 3.0e6), (500.0, 200_000.0), "9 kN", "thrust at rest with full power"),
            quantity("propeller_diameter", LENGTH, Else("estimated from power, kind and engine speed, for the distance of planes from the drive alone"), (0.02, 4.0), (0.2, 1.2), "15 in", "diameter of each propeller; planes keep clear of the disc of an outboard or a leg"),
            quantity("spacing", LENGTH, Else("two propeller diameters, with more than one engine"), (0.02, 8.0), (0.4, 2.5), "0.75 m", "from one shaft line to the next where there are more engines than one, level"),
            text("fuel", Choice(FuelKind::WORDS), Else("taken from the kind of drive"), "petrol", "what the engines burn"),
            quantity("specific_consumption", Quantity(Dimension::SpecificConsumption), Else("estimated from the fuel, and marked so where it counts"), (50.0, 2000.0), (180.0, 450.0), "300 g/kWh", "fuel burnt for each unit of work at the shaft"),
        ],
    },
    Table {
        name: "drive.efficiency",
        list: true,
        about: "A curve of propulsive efficiency, one for each speed, slowest first; in place of propulsive_efficiency. Before the first and past the last speed it stays level.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("speed", SPEED, Always, (0.1, 60.0), (2.0, 35.0), "12 kn", "a speed of the curve"),
            quantity("propulsive_efficiency", SHARE, Always, (5.0, 95.0), (30.0, 70.0), "42 %", "share of the shaft power that does work on the boat at that speed"),
        ],
    },
    Table {
        name: "water",
        list: false,
        about: "Give kind with temperature, or density with kinematic_viscosity. Without this table: sea water at 15 degC.",
        starter: true,
        shown: &["kind", "temperature"],
        keys: &[
            text("kind", Choice(WATER_KINDS), Else("density and kinematic_viscosity must be given"), "sea", "kind of water"),
            quantity("temperature", Quantity(Dimension::Temperature), Default("15 degC", ", and marked as estimated"), (0.0, 40.0), (2.0, 30.0), "15 degC", "water temperature; the property formulas hold from 0 to 40 degC"),
            quantity("salinity", Number, Else("35 for sea, 0 for fresh"), (0.0, 42.0), (0.0, 40.0), "20", "practical salinity; the density formula holds to 42"),
            quantity("density", Quantity(Dimension::Density), Else("computed from kind and temperature"), (950.0, 1100.0), (995.0, 1030.0), "1026 kg/m^3", "density of the water"),
            quantity("kinematic_viscosity", Quantity(Dimension::KinematicViscosity), Else("computed from kind and temperature"), (5.0e-7, 3.0e-6), (8.0e-7, 1.9e-6), "1.19e-6 m^2/s", "kinematic viscosity of the water"),
        ],
    },
    Table {
        name: "air",
        list: false,
        about: "Air drag. Without this table it is not counted.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("frontal_area", AREA, Always, (0.0, 200.0), (0.5, 30.0), "4.5 m^2", "frontal area of hull above water and superstructure"),
            // Drag coefficient of hull and superstructure in air; common practice, no source.
            quantity("drag_coefficient", Number, Default("0.7", ""), (0.0, 2.0), (0.3, 1.2), "0.7", "drag coefficient on the frontal area"),
            quantity("height", LENGTH, Always, (0.0, 20.0), (0.5, 5.0), "1.3 m", "height of the centre of the frontal area above the keel line"),
        ],
    },
    Table {
        name: "wind",
        list: false,
        about: "Wind from the side, for the list it causes. Without this table it is not counted.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("side_area", AREA, Always, (0.0, 500.0), (1.0, 60.0), "9 m^2", "area of hull above water and superstructure, seen from the side"),
            quantity("side_height", LENGTH, Always, (0.0, 20.0), (0.5, 5.0), "1.4 m", "height of the centre of that area above the keel line"),
            // Drag coefficient of hull and superstructure with the wind from the side; common practice, no source.
            quantity("drag_coefficient", Number, Default("1.0", ""), (0.1, 2.5), (0.5, 1.3), "1.0", "drag coefficient on the side area"),
            quantity("speed", SPEED, Always, (0.0, 50.0), (0.0, 15.0), "15 kn", "speed of the wind across the boat"),
            text("from", Choice(SIDES), Else("port, so that starboard goes down"), "port", "the side the wind comes from; the other side goes down"),
        ],
    },
    Table {
        name: "helm",
        list: false,
        about: "Where whoever steers looks from, for how much water the bow hides. Without this table usual values are taken, which the owner's letter states. Measure ashore, from the keel line.",
        starter: false,
        shown: &[],
        keys: &[
            // All three are common practice, no source.
            quantity("eye_height", LENGTH, Else("0.09 of the length over all above bow_height"), (0.1, 15.0), (1.0, 5.0), "2.1 m", "eyes of whoever steers, seated or standing as usual, above the keel line"),
            quantity("eye_forward", LENGTH, Else("0.4 of the length over all"), (-1.0, 50.0), (0.5, 10.0), "2.9 m", "eyes of whoever steers forward of the transom"),
            quantity("bow_height", LENGTH, Else("taken from beam, deadrise and length, as in the pictures"), (0.05, 12.0), (0.6, 4.0), "1.6 m", "highest point of the bow above the keel line extended, rails not counted"),
        ],
    },
    Table {
        name: "appendages",
        list: false,
        about: "Drag of shafts, struts, rudders and legs. Without this table it is not counted.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("drag_area", AREA, Always, (0.0, 5.0), (0.0, 0.2), "0.01 m^2", "drag coefficient times area, summed over shafts, struts, rudders and legs"),
            quantity("height", LENGTH, Always, (-4.0, 2.0), (-1.0, 0.2), "-0.25 m", "height of the appendage drag above the keel line; negative below"),
        ],
    },
    Table {
        name: "planes",
        list: false,
        about: "The pair of trim planes fitted. Without this table the boat is bare.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("span", LENGTH, Always, (0.005, 4.0), (0.2, 1.5), "610 mm", "span of ONE plane, along the bottom edge"),
            quantity("chord", LENGTH, Always, (0.005, 2.0), (0.15, 0.5), "9 in", "chord, hinge to trailing edge"),
            quantity("effectiveness", Number, Default("1", ", the published equation"), (0.2, 3.0), (0.6, 1.7), "1.0", "factor on the published lift of the planes; a sea trial finds it"),
        ],
    },
    Table {
        name: "trial",
        list: false,
        about: "What a sea trial found that has no other place: `planewright trial` writes it. To take it back, delete the table.",
        starter: false,
        shown: &[],
        keys: &[
            text("log", Text, Else("nothing is printed"), "my-boat-log.csv", "the log of the trial, printed with the results"),
            quantity("lcg_shift", LENGTH, Default("0 m", ", the centre of gravity is where the weights say"), (-4.0, 4.0), (-0.6, 0.6), "0.05 m", "how much further forward the centre of gravity acts than the loads say, found by a sea trial"),
            quantity("mass", MASS, Else("that of the loads as they are listed"), (1.0, 300_000.0), (400.0, 60_000.0), "2800 kg", "all-up mass on that trial; at another mass the shift is more or less in inverse proportion"),
        ],
    },
    Table {
        name: "transom",
        list: false,
        about: "Room for a plane on each side of the transom.",
        starter: true,
        shown: &[],
        keys: &[
            quantity("beam", LENGTH, Else("the chine_beam of the hull"), (0.1, 12.0), (1.2, 5.0), "2.3 m", "chine beam at the transom"),
            quantity("deadrise", ANGLE, Else("the deadrise of the hull"), (0.0, 40.0), (5.0, 26.0), "17 deg", "deadrise at the transom in a section square to the keel; what it is on a face that leans by rake is computed"),
            text("form", Choice(TransomForm::WORDS), Else("plain, one flat face from chine to chine"), "pod", "what the transom is like: plain, notched (the bottom is cut away amidships), stepped (its middle stands further aft or forward) or pod (a pod or bracket for the engines stands on it)"),
            quantity("middle_beam", LENGTH, Else("needed with form notched, stepped or pod"), (0.05, 10.0), (0.3, 2.0), "0.9 m", "beam of the notch, step or pod amidships, where no plane may stand, level"),
            // Clearances, hinge height, fairness and working height are common practice, no source.
            quantity("inner_clearance", LENGTH, Else("what keeps a plane clear of the propeller discs and of the middle that form names, 200 mm where the drive says nothing"), (0.0, 3.0), (0.05, 0.6), "220 mm", "clear distance off the centreline, along the bottom edge on the face"),
            quantity("outer_clearance", LENGTH, Default("90 mm", ", more where chine_radius asks for it"), (0.0, 1.0), (0.02, 0.2), "90 mm", "clear distance in from the chine, along the bottom edge on the face"),
            quantity("chine_radius", LENGTH, Default("0 mm", ", a sharp chine"), (0.0, 1.0), (0.0, 0.08), "20 mm", "radius of the chine at the transom; no plane stands over the round"),
            quantity("hinge_height", LENGTH, Default("1/4 in", ""), (0.0, 0.1), (0.003, 0.02), "1/4 in", "hinge line above the bottom edge, square to it on the face"),
            quantity("retracted_angle", ANGLE, Default("1.5 deg", ""), (0.0, 15.0), (0.5, 5.0), "1.5 deg", "how far above the bottom line the plane points when it is up: enough that the plate is clear of the water that leaves the edge"),
            quantity("edge_fairness", LENGTH, Default("2 mm", ""), (0.0, 0.1), (0.0, 0.01), "2 mm", "how far the bottom edge stands off a straightedge held along it over the span of a plane; the hinge stands so much higher"),
            quantity("lower_edge_radius", LENGTH, Default("0 mm", ", a sharp edge"), (0.0, 0.2), (0.0, 0.02), "5 mm", "radius of the edge between bottom and transom; the hinge leaf finds no flat face below it"),
            quantity("unevenness", LENGTH, Else("to be measured; the sheet says how"), (0.0, 0.2), (0.0, 0.01), "2 mm", "largest gap under a straightedge laid on the transom along the hinge line, over the span of a plane"),
            quantity("thickness", LENGTH, Else("to be measured; the sheet leaves room for it"), (0.001, 0.5), (0.02, 0.1), "45 mm", "thickness of the transom where the planes stand, skins and core"),
            quantity("waterline", LENGTH, Else("draft_at_transom of [afloat], else not known"), (-1.0, 6.0), (0.0, 1.0), "0.35 m", "waterline at rest above the keel at the transom, square to the keel"),
            quantity("rake", ANGLE, Default("0 deg", ", square to the bottom"), (-45.0, 45.0), (-5.0, 20.0), "13 deg", "lean of the transom from the normal to the bottom, positive when its top leans aft"),
            quantity("working_height", LENGTH, Default("10 in", ""), (0.01, 3.0), (0.12, 0.5), "10 in", "height above the bottom edge up to which hinge, plane and actuator with its upper bracket need the transom free"),
        ],
    },
    Table {
        name: "as_fitted",
        list: true,
        about: "How the planes were fitted, one table for port and one for starboard, measured on the finished boat; in place of what was planned. `planewright mark --form` prints them to be filled in.",
        starter: false,
        shown: &[],
        keys: &[
            text("side", Choice(SIDES), Always, "port", "the side that is measured"),
            quantity("from_chine", LENGTH, Else("transom.outer_clearance"), (0.0, 3.0), (0.02, 0.3), "90 mm", "outer end of the plane to the chine, along the bottom edge on the face"),
            quantity("hinge_height", LENGTH, Else("transom.hinge_height"), (0.0, 0.1), (0.003, 0.02), "6 mm", "hinge line above the bottom edge on the face, the mean of both its ends"),
            quantity("gauge_height", LENGTH, Else("taken from angle_up"), (-0.1, 0.5), (0.005, 0.04), "12 mm", "trailing edge above the extended bottom line, plane up, at mid-span"),
            quantity("angle_up", ANGLE, Else("taken from gauge_height, else transom.retracted_angle"), (-10.0, 30.0), (0.0, 5.0), "1.5 deg", "how far above the bottom line the plane points at its upper stop"),
            quantity("angle_down", ANGLE, Else("sizing.largest_deflection"), (0.0, 60.0), (5.0, 25.0), "15 deg", "how far below the bottom line the plane points at its lower stop"),
        ],
    },
    Table {
        name: "transom.obstacle",
        list: true,
        about: "One for each thing that stands on the transom or hangs below its edge: leg, ladder, transducer, fittings. It is in the way of a plane when any of it lies below the working height.",
        starter: false,
        shown: &[],
        keys: &[
            text("kind", Choice(ObstacleKind::WORDS), Always, "transducer", "what it is"),
            text("name", Text, Else("its kind"), "depth transducer", "what you call it"),
            quantity("off_centre", LENGTH, Always, (-6.0, 6.0), (-2.5, 2.5), "0.45 m", "its middle off the centreline, level; to starboard positive, to port negative"),
            quantity("width", LENGTH, Always, (0.001, 12.0), (0.01, 1.5), "60 mm", "its width, level, with the room it needs to move"),
            quantity("from", LENGTH, Always, (-3.0, 3.0), (-1.2, 1.5), "-20 mm", "its lowest point above the bottom edge straight below its middle, up the face; negative when it hangs below"),
            quantity("to", LENGTH, Always, (-3.0, 6.0), (-0.3, 2.5), "70 mm", "its highest point above the bottom edge straight below its middle, up the face; above from"),
            quantity("clearance", LENGTH, Else("100 mm for a transducer or leg, else 25 mm"), (0.0, 2.0), (0.0, 0.4), "100 mm", "free distance to keep on each side of it, along the bottom edge on the face"),
        ],
    },
    Table {
        name: "transom.strake",
        list: true,
        about: "One for each strake that runs out at the transom, on both sides alike. A plane may stand over it.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("off_centre", LENGTH, Always, (0.0, 6.0), (0.05, 2.5), "0.75 m", "middle of the strake off the centreline, level, at the transom"),
            quantity("width", LENGTH, Always, (0.001, 1.0), (0.015, 0.2), "50 mm", "width of the strake, level"),
            quantity("depth", LENGTH, Always, (0.001, 0.5), (0.005, 0.08), "20 mm", "how far the strake stands below the bottom"),
        ],
    },
    Table {
        name: "sizing",
        list: false,
        about: "Limits on the size that may be suggested.",
        starter: true,
        shown: &[],
        keys: &[
            quantity("largest_deflection", ANGLE, Default("15 deg", ""), (1.0, 15.0), (5.0, 15.0), "15 deg", "largest deflection the hardware gives; the lift equation was tested to 15 deg"),
            quantity("share", SHARE, Default("100 %", ""), (10.0, 100.0), (50.0, 100.0), "100 %", "share of the usable deflection that the duties may use"),
            quantity("chance", SHARE, Default("80 %", ""), (50.0, 99.0), (60.0, 95.0), "80 %", "how sure a size is to do its duties: on so many of a hundred boats nearly like this one"),
            quantity("smallest_chord", LENGTH, Default("225 mm", ""), (0.02, 1.0), (0.15, 0.4), "225 mm", "smallest chord to suggest"),
            // Limits on span/chord and the step are common practice, no source.
            quantity("smallest_aspect", Number, Default("1.5", ""), (0.3, 10.0), (1.0, 3.0), "1.5", "smallest span/chord to suggest"),
            quantity("largest_aspect", Number, Default("3.5", ""), (0.5, 15.0), (2.0, 6.0), "3.5", "largest span/chord to suggest; at least the smallest"),
            quantity("round_to", LENGTH, Default("25 mm", ""), (0.0005, 0.2), (0.005, 0.06), "25 mm", "step of the sizes that can be bought or made"),
        ],
    },
    Table {
        name: "duty",
        list: true,
        about: "What the planes must do, one table for each duty. Without any, usual duties are made from the boat. A duty takes the keys of its kind.",
        starter: false,
        shown: &[],
        keys: duty::KEYS,
    },
    Table {
        name: "condition",
        list: true,
        about: "One for each other loading condition: the loads above with some left out, filled, moved or added. Every command takes --condition NAME; `all` stands for every one.",
        starter: false,
        shown: &[],
        keys: &[
            text("name", Text, Always, "six aboard", "what the condition is called"),
            text("about", Text, Else("nothing is printed"), "Guests on the aft bench", "a sentence on when she is loaded so, printed with the results"),
            text("without", Names, Else("everything listed is aboard"), "fuel", "items of the load table that are not aboard"),
        ],
    },
    Table {
        name: "condition.load",
        list: true,
        about: "One for each item that differs, below its [[condition]]. The name of an item of the load table changes what is given here; another name adds an item. With totals in [weight] every entry is added to them; a centre of gravity that they do not give is estimated for the totals alone.",
        starter: false,
        shown: &[],
        keys: &[
            text("item", Text, Always, "guests", "which item of the load table, or what is added"),
            quantity("mass", MASS, Else("as listed; needed by an item that is added"), (0.0, 300_000.0), (0.0, 30_000.0), "340 kg", "mass of the item in this condition"),
            quantity("forward", LENGTH, Else("as listed; needed by an item that is added"), (-5.0, 50.0), (-0.6, 15.0), "1.2 m", "item's centre forward of the transom in this condition"),
            quantity("up", LENGTH, Else("as listed; needed by an item that is added"), (-3.0, 20.0), (-0.2, 4.0), "1.1 m", "item's centre above the keel line in this condition"),
            quantity("starboard", LENGTH, Else("as listed; 0 m for an item that is added"), (-6.0, 6.0), (-2.0, 2.0), "0.4 m", "item's centre to starboard of the centreline in this condition; negative to port"),
        ],
    },
    Table {
        name: "tolerance",
        list: true,
        about: "How well a value is known, one table for each; give by or source, not both. A value without one counts as taken from a brochure, an estimated one by its likely range.",
        starter: false,
        shown: &[],
        keys: &[
            text("of", Choice(Toleranced::WORDS), Always, "hull.chine_beam", "key of the value; with [[load]], weight stands for all loads together"),
            text("by", Text, Else("source says it"), "0.1 m", "nine such values in ten lie within this of the true one: a quantity with its unit, or a share of the value in %"),
            text("source", Choice(Source::WORDS), Else("by says it"), "weighed", "how the value was come by; each kind has a usual width, common practice"),
        ],
    },
    Table {
        name: "seen",
        list: true,
        about: "A trim that was read on the water, one table for each. One is enough: every likely range and chance is then that of boats that would have shown the same. `planewright trial` writes some from its log.",
        starter: false,
        shown: &[],
        keys: &[
            quantity("speed", SPEED, Always, (0.1, 60.0), (3.0, 30.0), "14 kn", "speed held steady through the water while the trim was read; where the bow is highest it tells most"),
            quantity("deflection", ANGLE, Default("0 deg", ", planes up or none fitted"), (0.0, 30.0), (0.0, 15.0), "5 deg", "mean deflection of the planes fitted while the trim was read; tested to 15 deg"),
            quantity("trim", ANGLE, Always, (0.0, 20.0), (1.5, 12.0), "6.5 deg", "running trim of the keel line, bow up positive, by an inclinometer that was set to zero on the keel line or whose reading at rest was taken off"),
            // How sure a trim by a telephone's inclinometer is; common practice, no source.
            quantity("by", ANGLE, Default("1 deg", ", as with a telephone's inclinometer"), (0.1, 5.0), (0.2, 2.0), "1 deg", "nine such readings in ten lie within this of the true trim: the instrument, the line it was set on, the waves, the load on the day"),
            text("condition", Text, Else("she was loaded as listed above"), "six aboard", "the loading condition in which it was read"),
        ],
    },
];

/// What is asked of a boat on the command line or by a caller: it has limits as the keys of a file have.
#[rustfmt::skip]
pub const ASKED: Table = Table {
    name: "run",
    list: false,
    about: "",
    starter: false,
    shown: &[],
    keys: &[
        quantity("speed", SPEED, Else(""), (0.05, 60.0), (2.0, 35.0), "22 kn", "speed through the water"),
        quantity("deflection", ANGLE, Else(""), (0.0, 30.0), (0.0, 15.0), "5 deg", "mean plane deflection below the extended bottom line; tested to 15 deg"),
        quantity("roughness", Number, Else(""), (0.0, 0.01), (0.0, 0.001), "0.0004", "correlation allowance added to the friction coefficient; 0 for models"),
        quantity("waves", LENGTH, Else(""), (0.01, 10.0), (0.1, 2.5), "0.5 m", "significant wave height, crest to trough; the tests in waves had 0.2 to 0.7 of the beam"),
        quantity("down_to", ANGLE, Else(""), (2.0, 7.0), (2.0, 5.0), "3 deg", "trim that planes bring the boat down to; under 2 deg a bow digs and steers"),
        quantity("drive_trim", ANGLE, Else(""), (-15.0, 15.0), (-6.0, 10.0), "-4 deg", "propeller shaft to keel line, negative when the drive is trimmed in"),
        quantity("limit", With("g"), Else(""), (0.01, 20.0), (0.1, 3.0), "1 g", "acceleration not to be exceeded, in multiples of free fall"),
    ],
};
