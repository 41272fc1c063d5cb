//! Questions about mass and centre of gravity.

use uom::si::f64::{Length, Mass};
use uom::si::{length::meter, mass::kilogram};

use super::figures::{Figures, LCG_SHARE, MASS_KG_M3};
use super::loads::{Aboard, Place};
use super::slip::{LENGTHS, MASSES, slips};
use super::{Draft, Guess, Question, in_unit, within, write};
use crate::boat::{Boat, Measure, WeightInput, afloat, estimate};

/// Usual height of the centre of gravity over the chine beam.
const VCG_SHARE: [f64; 2] = [0.1, 0.9];
/// Guesses that are named at most; more of them help nobody.
const MOST_GUESSES: usize = 3;

pub(super) fn metres(value_m: f64) -> Measure {
    Measure::Length(Length::new::<meter>(value_m))
}

/// The key of a value that is given as a total, or summed from the loads.
fn key_of<'a>(boat: &Boat, total: &'a str) -> &'a str {
    match boat.input().weight {
        WeightInput::Totals { .. } => total,
        WeightInput::Loads(_) => "load",
    }
}

/// The slips in a total without which it fits.
fn slips_in_total(
    boat: &Boat,
    key: &str,
    value: Measure,
    mistaken: &[&'static str],
    fits: impl Fn(f64) -> bool,
) -> Vec<(f64, Guess)> {
    if key == "load" {
        return Vec::new();
    }
    let unit = boat.input().written.unit_of(key, value);
    let fitting = slips(value, unit, mistaken).into_iter().filter(|slip| fits(slip.factor));
    fitting.map(|slip| (slip.factor, Guess::new(slip.cause, write(key, &slip.write)))).collect()
}

/// Whether she weighs what boats of her size weigh.
pub(super) fn mass_against_size(boat: &Boat, figures: &mut Figures) -> Option<Question> {
    if figures.is_heavy_as_usual() {
        return None;
    }
    let given = *figures;
    let kilograms = |mass_kg: f64| Measure::Mass(Mass::new::<kilogram>(mass_kg));
    let key = key_of(boat, "weight.mass");
    let value = Measure::Mass(boat.weight().mass);
    let with = |mass_kg: f64| Figures { mass_kg, ..given };
    let mut fitting = slips_in_total(boat, key, value, MASSES, |factor| {
        with(factor * given.mass_kg).is_heavy_as_usual()
    });
    let aboard = Aboard::of(boat);
    fitting.extend(aboard.masses(|mass_kg| with(mass_kg).is_heavy_as_usual()));
    if let Some((factor, _)) = fitting.first() {
        figures.mass_kg *= factor;
    }
    let mut guesses: Vec<Guess> = fitting.into_iter().map(|(_, guess)| guess).collect();
    guesses.truncate(MOST_GUESSES);
    let size_m3 = given.mass_kg / given.mass_kg_m3();
    let otherwise = if given.mass_kg_m3() < MASS_KG_M3[0] {
        Guess::new(
            "the boat alone, without engine, fuel, people and gear",
            "give the mass all up; [[load]] tables sum it",
        )
    } else {
        Guess::new(
            "mass, beam and length are not those of one boat",
            "weigh her, less the trailer, and measure chine_beam and bottom_length anew",
        )
    };
    let [low, high] = MASS_KG_M3;
    let asked = Draft {
        word: "mass-against-size",
        key,
        about: "her mass",
        value,
        usual: MASS_KG_M3.map(|each| kilograms(each * size_m3)),
        rule: format!("{low} to {high} kg/m^3 of bottom length x chine beam x chine beam"),
    };
    Some(asked.with(boat, guesses, otherwise))
}

/// Whether her centre of gravity lies where those of planing boats lie.
pub(super) fn centre_along(boat: &Boat, figures: &Figures) -> Option<Question> {
    let aboard = Aboard::of(boat);
    let from_marks = boat.is_estimated("weight.lcg") && boat.input().afloat.is_some();
    if boat.is_estimated("weight.lcg") && !from_marks && aboard.is_empty() {
        return None;
    }
    let lcg_m = boat.weight().lcg.get::<meter>();
    let fits = |lcg_m: f64| within(lcg_m / figures.length_m, LCG_SHARE);
    if fits(lcg_m) {
        return None;
    }
    let key = match key_of(boat, "weight.lcg") {
        "weight.lcg" if from_marks => "afloat.draft_at_transom",
        key => key,
    };
    let value = Measure::Length(boat.weight().lcg);
    let mut guesses = Vec::new();
    if key == "weight.lcg" {
        guesses.extend(from_the_bow(boat, figures, fits));
        let slips = slips_in_total(boat, key, value, LENGTHS, |factor| fits(factor * lcg_m));
        guesses.extend(slips.into_iter().map(|(_, guess)| guess));
        guesses.extend(along_overall(boat, figures, fits));
    }
    if from_marks {
        guesses.extend(marks_exchanged(boat, fits));
    }
    guesses.extend(aboard.places(Place::Forward, figures, fits));
    guesses.truncate(MOST_GUESSES);
    let [low, high] = LCG_SHARE;
    let asked = Draft {
        word: "centre-of-gravity-along",
        key,
        about: "her centre of gravity",
        value,
        usual: LCG_SHARE.map(|share| metres(share * figures.length_m)),
        rule: format!("{low} to {high} of the bottom length, forward of the transom"),
    };
    Some(asked.with(boat, guesses, elsewhere(boat, key)))
}

/// When nothing that was tried puts the centre of gravity where it usually lies.
fn elsewhere(boat: &Boat, key: &str) -> Guess {
    match key {
        "weight.lcg" => {
            let value = Measure::Length(boat.weight().lcg);
            let unit = boat.input().written.unit_of(key, value);
            let usual = estimate::lcg(boat.hull().bottom_length).value;
            Guess::new(
                "measured from another point than the transom, or the bottom is not so long",
                format!(
                    "measure it from the transom forward along the keel; left out, it is estimated as {}",
                    in_unit(usual, unit)
                ),
            )
        }
        "load" => Guess::new(
            "a heavy load is in the wrong place, or one is missing",
            "measure the forward of each load from the transom, negative aft of it; list hull, engine, fuel, people and gear",
        ),
        _ => Guess::new(
            "a depth taken from another line than the keel, or another load aboard",
            "measure both depths square to the keel, from the keel line up to the waterline, with all aboard",
        ),
    }
}

/// The distance from the bow in place of that from the transom.
fn from_the_bow(boat: &Boat, figures: &Figures, fits: impl Fn(f64) -> bool) -> Option<Guess> {
    let value = boat.weight().lcg;
    let unit = boat.input().written.unit_of("weight.lcg", Measure::Length(value));
    let ends = [(figures.overall_m, "the bow"), (Some(figures.length_m), "the forefoot")];
    let from = ends.into_iter().filter_map(|(end_m, from)| {
        let lcg_m = end_m? - value.get::<meter>();
        fits(lcg_m).then(|| {
            let right = in_unit(metres(lcg_m), unit);
            Guess::new(
                format!("measured from {from}, not from the transom"),
                write("weight.lcg", &right),
            )
        })
    });
    let mut from = from;
    from.next()
}

/// A share of the length over all in place of one of the bottom length.
fn along_overall(boat: &Boat, figures: &Figures, fits: impl Fn(f64) -> bool) -> Option<Guess> {
    let value = Measure::Length(boat.weight().lcg);
    let unit = boat.input().written.unit_of("weight.lcg", value);
    let overall_m = figures.overall_m?;
    let right_m = boat.weight().lcg.get::<meter>() * figures.length_m / overall_m;
    fits(right_m).then(|| {
        Guess::new(
            "taken as a share of the length over all, not of the bottom",
            write("weight.lcg", &in_unit(metres(right_m), unit)),
        )
    })
}

/// The two depths of the waterline exchanged.
fn marks_exchanged(boat: &Boat, fits: impl Fn(f64) -> bool) -> Option<Guess> {
    let marks = boat.input().afloat?;
    let exchanged = afloat::AfloatInput {
        draft_at_transom: marks.draft_forward,
        draft_forward: marks.draft_at_transom,
        ..marks
    };
    let weight = boat.weight();
    let by_marks = afloat::lcg(boat.hull(), &exchanged, weight.mass, weight.vcg, boat.water());
    fits(by_marks.value.value()).then(|| {
        Guess::new(
            "the two depths exchanged",
            "exchange draft_at_transom and draft_forward below [afloat]",
        )
    })
}

/// Whether her centre of gravity is as high as those of boats of her beam.
pub(super) fn centre_up(boat: &Boat, figures: &Figures) -> Option<Question> {
    let aboard = Aboard::of(boat);
    if boat.is_estimated("weight.vcg") && aboard.is_empty() {
        return None;
    }
    let vcg_m = boat.weight().vcg.get::<meter>();
    let fits = |vcg_m: f64| within(vcg_m / figures.beam_m, VCG_SHARE);
    if fits(vcg_m) {
        return None;
    }
    let key = key_of(boat, "weight.vcg");
    let value = Measure::Length(boat.weight().vcg);
    let slips = slips_in_total(boat, key, value, LENGTHS, |factor| fits(factor * vcg_m));
    let mut guesses: Vec<Guess> = slips.into_iter().map(|(_, guess)| guess).collect();
    guesses.extend(aboard.places(Place::Up, figures, fits));
    guesses.truncate(MOST_GUESSES);
    let otherwise = Guess::new(
        if vcg_m < VCG_SHARE[0] * figures.beam_m {
            "measured from the waterline, not from the keel line"
        } else {
            "measured from below the keel line, or a heavy load too high"
        },
        "measure heights upward from the keel line",
    );
    let [low, high] = VCG_SHARE;
    let asked = Draft {
        word: "centre-of-gravity-up",
        key,
        about: "the height of her centre of gravity",
        value,
        usual: VCG_SHARE.map(|share| metres(share * figures.beam_m)),
        rule: format!("{low} to {high} of the chine beam, above the keel line"),
    };
    Some(asked.with(boat, guesses, otherwise))
}
