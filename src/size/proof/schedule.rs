//! What to do at each speed, what another size would do, and area against resistance.

use uom::si::f64::Velocity;
use uom::si::{angle::degree, area::square_meter, length::meter, velocity::meter_per_second};

use super::fleet::{Draw, Sketch, usual};
use super::judge::{SPEEDS, Seen, judge, see};
use super::optimum::{Case, area_m2, cases};
use crate::balance::{Balance, Hump, Settings};
use crate::boat::{Duty, PlanePair};
use crate::size::{Answer, Binding, Suggestion, suggest};

/// Boats with their answers: those of the optimum, and usual boats with generated duties.
fn answers() -> Vec<(String, Sketch, Suggestion)> {
    let mut draw = Draw::new(5);
    let invented = cases().into_iter().map(|Case { name, sketch, .. }| (name.to_owned(), sketch));
    let usual = (0..12).map(|index| (format!("usual {index}"), usual(&mut draw)));
    invented
        .chain(usual)
        .map(|(name, sketch)| {
            let told = suggest(&sketch.boat(), &Settings::default()).expect("sound duties");
            (name, sketch, told)
        })
        .collect()
}

fn is_safe(seen: Option<Seen>) -> bool {
    seen.is_some_and(|seen| seen.trim_deg >= 2.0 - 1e-6)
}

#[test]
fn physics_schedule_stays_within_the_safe_run_and_its_end_is_the_end() {
    for (name, sketch, told) in answers() {
        let Some(pair) = told.pair() else { continue };
        let balance = Balance::of(&sketch.boat(), &Settings::default()).with_planes(Some(pair));
        for row in &told.schedule {
            let speed_m_s = row.speed.get::<meter_per_second>();
            let [use_deg, safe_deg] = [row.deflection, row.largest_safe].map(|d| d.get::<degree>());
            let safe_at = |deflection_deg: f64| is_safe(see(&balance, speed_m_s, deflection_deg));
            let at = format!("{name} at {speed_m_s} m/s: {use_deg} of {safe_deg}");
            assert!(use_deg <= safe_deg + 1e-9 && safe_deg <= 15.0 + 1e-9, "{at}");
            assert!(use_deg <= 0.0 || safe_at(use_deg), "{at}");
            if safe_deg > 0.1 {
                assert!(safe_at(safe_deg - 0.01), "{at}");
            } else {
                assert!(!safe_at(safe_deg + 0.01) || safe_deg > 0.0, "{at}");
            }
            assert!(safe_deg >= 15.0 - 1e-9 || !safe_at(safe_deg + 0.01), "{at}");
            let trim_deg = row.trim.map(|trim| trim.get::<degree>());
            let seen = see(&balance, speed_m_s, use_deg).map(|seen| seen.trim_deg);
            match (trim_deg, seen) {
                (Some(told), Some(seen)) => assert!((told - seen).abs() < 1e-5, "{at}"),
                (told, seen) => assert_eq!(told, seen, "{at}"),
            }
        }
    }
}

/// At the deflection to use, the trim and the margin that duties ask for at that speed are held; and past
/// the hump the planes go deeper only where a duty is only just held so.
#[test]
fn physics_schedule_does_the_duties_of_its_speeds() {
    for (name, sketch, told) in answers() {
        let Answer::Pair(pair) = told.answer else { continue };
        let boat = sketch.boat();
        let balance = Balance::of(&boat, &Settings::default()).with_planes(Some(pair));
        let hump = Hump::of(&boat, &Settings::default()).expect("she has a hump");
        let mut last: Option<f64> = None;
        for row in &told.schedule {
            let deflection_deg = row.deflection.get::<degree>();
            let Some(seen) = see(&balance, row.speed.get::<meter_per_second>(), deflection_deg)
            else {
                continue;
            };
            let mut most = f64::NEG_INFINITY;
            for duty in &told.duties {
                let missed = missed(&duty.duty, row.speed, &seen);
                assert!(missed < 0.02, "{name}: {missed} at {row:?} for {duty:?}");
                most = most.max(missed);
            }
            if let Some(last_deg) = last.filter(|last_deg| deflection_deg > last_deg + 1e-6) {
                assert!(most > -0.02, "{name}: {last_deg} before {row:?}");
            }
            last = (row.speed > hump.speed).then_some(deflection_deg);
        }
    }
}

/// By how many degrees a duty of trim or margin is missed; none asked gives less than nothing, a resistance is never said to be held.
fn missed(duty: &Duty, speed: Velocity, seen: &Seen) -> f64 {
    match *duty {
        Duty::HumpTrim { at_most, from, to } if speed >= from && speed <= to => {
            seen.trim_deg - at_most.get::<degree>()
        }
        Duty::PorpoisingMargin { margin, up_to } if speed <= up_to && seen.porpoising_is_tested => {
            seen.trim_deg + margin.get::<degree>() - seen.limit_deg
        }
        Duty::LeastResistance { speed: at, .. } if (speed - at).value.abs() < 1e-6 => 0.0,
        _ => f64::NEG_INFINITY,
    }
}

#[test]
fn physics_smaller_and_larger_pairs_use_more_and_less() {
    for (name, sketch, told) in answers() {
        let Answer::Pair(pair) = told.answer else { continue };
        let boat = sketch.boat();
        let duties: Vec<Duty> = told.duties.iter().map(|duty| duty.duty).collect();
        let judge = judge(&boat, &duties, SPEEDS, &told);
        let used = |duty: &crate::size::DutyResult| duty.share_used.unwrap_or(0.0);
        let now = told.duties.iter().map(used).fold(0.0, f64::max);
        for variant in &told.variants {
            let scale = area_m2(variant.pair) / area_m2(pair);
            assert!((scale - 0.8).abs() < 1e-9 || (scale - 1.2).abs() < 1e-9);
            if scale > 1.0 {
                assert!(variant.share_used <= now + 1e-6, "{name} {variant:?}");
            } else {
                assert!(variant.share_used >= now - 1e-6, "{name} {variant:?}");
            }
            // The deflection for a trim goes with 1/area; that for a resistance near its least does not.
            let inverse = now / variant.share_used / scale;
            let by_resistance = told
                .set_by
                .is_some_and(|index| matches!(duties[index], Duty::LeastResistance { .. }));
            let in_proportion = (inverse - 1.0).abs() < 0.3;
            assert!(by_resistance || now < 1e-6 || in_proportion, "{name}: {inverse} {variant:?}");
            let (_, worst) = judge.worst(variant.pair);
            if worst.abs() > 0.01 {
                assert_eq!(variant.missed.is_empty(), worst <= 0.0, "{name} {worst} {variant:?}");
            }
        }
    }
}

#[test]
fn physics_more_area_never_costs_resistance_over_the_hump() {
    for (name, _, told) in answers() {
        for points in told.trade_off.windows(2) {
            assert!(points[1].area > points[0].area);
            let ratio = (points[1].hump_resistance / points[0].hump_resistance).value;
            assert!(ratio < 1.0 + 1e-3, "{name}: {points:?}");
            // A list may drive the bow down further when wider planes have their middle further in.
            // Where the transom takes no more span the chord grows, beyond what was tested at last.
            let deeper = aspect(points[1].pair) < aspect(points[0].pair) * (1.0 - 1e-6);
            let more_does =
                points[1].does_all || told.binding.contains(&Binding::SafeRun) || deeper;
            assert!(more_does || !points[0].does_all, "{name}: {points:?}");
        }
        let (Some(bare), Some(first)) = (told.bare_hump_resistance, told.trade_off.first()) else {
            continue;
        };
        assert!(first.hump_resistance <= bare * (1.0 + 1e-6), "{name}");
        if let (Answer::Pair(pair), Some(own)) = (&told.answer, own_point(&told)) {
            assert!(own, "{name}: {pair:?} does all");
        }
    }
}

/// Whether the point of the pair's own size does all.
fn own_point(told: &Suggestion) -> Option<bool> {
    let pair: PlanePair = told.pair()?;
    let own = |point: &&crate::size::TradePoint| {
        (point.area.get::<square_meter>() / area_m2(pair) - 1.0).abs() < 1e-6
            && (point.pair.chord - pair.chord).get::<meter>().abs() < 1e-6
    };
    told.trade_off.iter().find(own).map(|point| point.does_all)
}

fn aspect(pair: crate::boat::PlanePair) -> f64 {
    (pair.span / pair.chord).value
}
