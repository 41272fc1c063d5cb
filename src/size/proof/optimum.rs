//! The least pair is the least over a dense grid that is judged on its own.

use uom::si::{length::meter, velocity::meter_per_second};

use super::fleet::{
    Sketch, hump_trim, least_resistance, list, metres, porpoising_margin, runabout,
};
use super::judge::{Judge, pair};
use super::resistance::{admissible, dense_least_n, evenly};
use crate::balance::Settings;
use crate::boat::{Boat, Duty};
use crate::size::suggest::suggest_from;
use crate::size::{Answer, Binding, suggest};

/// Chords and spans of the dense grid.
const GRID: u32 = 30;

/// A boat with the limits that bind her least pair.
fn cases() -> Vec<(&'static str, Sketch, Binding)> {
    let duties = [hump_trim(6.5, 11.0, 20.0)];
    let mut narrow = runabout(&duties);
    narrow.inner_m = 0.42;
    let mut shallow = runabout(&[hump_trim(7.0, 11.0, 20.0)]);
    shallow.sizing.largest_aspect = Some(3.0);
    let mut square = runabout(&[hump_trim(6.5, 11.0, 20.0)]);
    square.sizing.smallest_aspect = Some(2.5);
    square.sizing.smallest_chord = Some(metres(0.26));
    let mut deep = runabout(&[hump_trim(6.0, 11.0, 20.0)]);
    deep.inner_m = 0.5;
    vec![
        ("plain", runabout(&duties), Binding::Duty),
        ("narrow transom", narrow, Binding::Room),
        ("largest aspect", shallow, Binding::LargestAspect),
        ("smallest aspect", square, Binding::SmallestAspect),
        ("deep", deep, Binding::TestedChord),
        ("smallest chord", runabout(&[hump_trim(7.4, 11.0, 20.0)]), Binding::SmallestChord),
        ("margin", runabout(&[porpoising_margin(0.5, 22.0)]), Binding::Duty),
        ("list", runabout(&[list(900.0, 16.0), hump_trim(7.0, 11.0, 20.0)]), Binding::Duty),
        ("resistance", runabout(&[least_resistance(2.0, 15.0), list(300.0, 15.0)]), Binding::Duty),
    ]
}

fn judge<'a>(boat: &'a Boat, duties: &[Duty]) -> Judge<'a> {
    Judge::of(boat, duties, |speed_m_s| dense_least_n(boat, speed_m_s, 16))
}

/// Least span that does all for each of a dense list of chords: a grid of spans, then halving.
fn dense_line(boat: &Boat, judge: &Judge<'_>, grid: u32) -> Vec<[f64; 2]> {
    let does = |span_m: f64, chord_m: f64| judge.does(pair(span_m, chord_m), 0.0);
    let mut line = Vec::new();
    for (chord_m, [low, high]) in admissible(boat, grid) {
        let spans = evenly(low, high, grid);
        let Some(first) = spans.iter().position(|&span_m| does(span_m, chord_m)) else { continue };
        let mut outside = if first == 0 { low } else { spans[first - 1] };
        let mut inside = spans[first];
        while inside - outside > 1e-4 {
            let middle = 0.5 * (inside + outside);
            if does(middle, chord_m) { inside = middle } else { outside = middle }
        }
        line.push([inside, chord_m]);
    }
    line
}

#[test]
fn physics_least_pair_is_the_least_over_a_dense_grid() {
    for (name, sketch, binding) in cases() {
        let boat = sketch.boat();
        let suggestion = suggest(&boat, &Settings::default()).expect("sound duties");
        let judge = judge(&boat, &sketch.duties);
        let line = dense_line(&boat, &judge, GRID);
        let least = line.iter().min_by(|a, b| (a[0] * a[1]).total_cmp(&(b[0] * b[1])));
        eprintln!(
            "{name}: {:?} exact {:?} {:?} flat {:?} set by {:?}",
            suggestion.answer,
            suggestion.exact,
            suggestion.binding,
            suggestion.flat,
            suggestion.set_by
        );
        eprintln!("   wanted {binding:?}; grid {least:?}");
        for d in &suggestion.duties {
            eprintln!(
                "      {:.2} m/s share {:?} met {}",
                d.speed.get::<meter_per_second>(),
                d.share_used,
                d.met
            )
        }
        if let (Some(exact), Some(least)) = (suggestion.exact, least) {
            let e = [exact.span.get::<meter>(), exact.chord.get::<meter>()];
            let f = suggestion.pair().unwrap();
            eprintln!(
                "   exact area over grid's {:.4}; worst of exact {:?}; worst of rounded {:?}, rounded area over grid's {:.3}",
                e[0] * e[1] / (least[0] * least[1]),
                judge.worst(exact),
                judge.worst(f),
                f.span.get::<meter>() * f.chord.get::<meter>() / (least[0] * least[1])
            );
        }
    }
    let _ = (suggest_from, Answer::NoPlanesNeeded);
}
