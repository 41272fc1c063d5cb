//! What is advised, over random boats: more load never asks for less; and how large the pairs come out.

use super::*;
use crate::boat::Duty;
use crate::size::proof::fleet::{Draw as Numbers, Sketch, usual};

/// Boats of usual proportions, each of them also heavier and with her weight further aft.
const BOATS: usize = 150;
/// Boats nearly like each.
const DRAWS_OF_EACH: u32 = 60;

/// What one boat is advised.
struct Advised {
    /// None where she needs no planes, beyond all where no pair reaches the chance.
    area_m2: f64,
    size: Option<PlaneSize>,
    relief_deg: f64,
}

fn advised(sketch: &Sketch) -> Advised {
    let boat = sketch.boat();
    let boats = std::slice::from_ref(&boat);
    let described = Described::of(boats, &Settings::default()).expect("generated duties are sound");
    let duties = || described.asked.asking.duties.iter().map(|held| held.duty);
    let relief = |duty| match duty {
        Duty::Relief { at_least, .. } => Some(at_least.get::<degree>()),
        _ => None,
    };
    let drawn = Drawn { draws: DRAWS_OF_EACH, seed: SEED };
    let chosen = Spans::of(&described, drawn, &|_| ()).chosen(boat.sizing().chance.get::<ratio>());
    let size = chosen.size.filter(|_| chosen.exact.is_some());
    let without = if chosen.none_needed { 0.0 } else { f64::INFINITY };
    Advised {
        area_m2: size.map_or(without, |size| size.area_m2()),
        size,
        relief_deg: duties().find_map(relief).unwrap_or(0.0),
    }
}

/// By how much less a harder boat is asked than an easier one, beyond one step of 25 mm of span: m², and degrees of relief.
fn laxer(easier: &Advised, harder: &Advised) -> [f64; 2] {
    let step_m2 = easier.size.map_or(0.0, |size| 2.0 * 0.025 * size.chord_m);
    let less_m2 = if harder.area_m2 >= easier.area_m2 {
        0.0
    } else {
        (easier.area_m2 - harder.area_m2 - step_m2 * (1.0 + 1e-9)).max(0.0)
    };
    [less_m2, (easier.relief_deg - harder.relief_deg).max(0.0)]
}

/// Prints the tenth, half and nine tenths of some numbers, with the ends.
fn print_spread(name: &str, mut values: Vec<f64>) {
    values.sort_by(f64::total_cmp);
    let [least, low, middle, high, most] =
        [0.0, 0.1, 0.5, 0.9, 1.0].map(|share| quantile(&values, share));
    println!(
        "{name}: {least:.2} to {most:.2}, eight in ten {low:.2} to {high:.2}, median {middle:.2}"
    );
}

#[test]
fn physics_more_mass_or_a_further_aft_lcg_hardly_ever_gives_a_smaller_pair_and_never_a_laxer_duty()
{
    let count = std::env::var("BOATS").map_or(BOATS, |text| text.parse().unwrap());
    let mut numbers = Numbers::new(2026);
    let (mut against_usual, mut against_inch, mut bare, mut beyond) = (vec![], vec![], 0, 0);
    let mut violations = Vec::new();
    let (mut laxest_deg, mut smallest) = (0.0_f64, 1.0_f64);
    let mut harder_at_all = 0;
    for place in 0..count {
        let sketch = usual(&mut numbers);
        let (more, aft) = (numbers.between(1.05, 1.25), numbers.between(0.01, 0.05));
        let heavier = Sketch { mass_kg: sketch.mass_kg * more, ..sketch.clone() };
        let further_aft = Sketch { lcg_m: sketch.lcg_m - aft * sketch.bottom_m, ..sketch.clone() };
        let easier = advised(&sketch);
        match easier.size {
            Some(size) => {
                let usual_m2 = 2.0 * 0.33 * 0.125 * sketch.beam_m * sketch.beam_m;
                against_usual.push(easier.area_m2 / usual_m2);
                // A bottom is usually 0.85 of the length over all.
                against_inch.push(12.0 * size.span_m / (sketch.bottom_m / 0.85));
            }
            None if easier.area_m2 > 0.0 => beyond += 1,
            None => bare += 1,
        }
        for (name, harder) in [("heavier", advised(&heavier)), ("aft", advised(&further_aft))] {
            harder_at_all += usize::from(harder.area_m2 > easier.area_m2);
            let [less_m2, less_deg] = laxer(&easier, &harder);
            laxest_deg = less_deg.max(laxest_deg);
            if less_m2 > 0.0 {
                smallest = smallest.min(harder.area_m2 / easier.area_m2);
            }
            if less_m2 > 0.0 || less_deg > 1e-9 {
                let text = format!(
                    "{place} {name} {more:.3} {aft:.3}: {:?} {:.3} m2, {:.1} deg -> {:?} {:.3} m2, {:.1} deg; less {less_m2:.4} m2 {less_deg:.1} deg; b {:.2} L {:.2} beta {:.0} m {:.0} lcg {:.3}",
                    easier.size,
                    easier.area_m2,
                    easier.relief_deg,
                    harder.size,
                    harder.area_m2,
                    harder.relief_deg,
                    sketch.beam_m,
                    sketch.bottom_m,
                    sketch.deadrise_deg,
                    sketch.mass_kg,
                    sketch.lcg_m / sketch.bottom_m
                );
                println!("VIOLATION {text}");
                violations.push(text);
            }
        }
    }
    println!("{count} boats: {bare} need none, no pair reaches the chance on {beyond}");
    println!("{harder_at_all} of {} changes ask for more", 2 * count);
    print_spread("area over the largest usual pair, 0.33 by 0.125 beams", against_usual);
    print_spread("span over one inch a foot", against_inch);
    // A bow that stands higher is moved more by the same planes, so that a few pairs come out a little smaller.
    println!("{} of {} changes give a smaller pair", violations.len(), 2 * count);
    assert!(laxest_deg <= 1e-9, "{laxest_deg} deg: {violations:#?}");
    assert!(
        20 * violations.len() <= 2 * count,
        "{} of {}: {violations:#?}",
        violations.len(),
        2 * count
    );
    assert!(smallest > 0.88, "{smallest}: {violations:#?}");
    assert!(harder_at_all > count, "{harder_at_all}");
}
