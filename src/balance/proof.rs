//! Proofs of the balance over boats from the whole bounds table.

mod draw;

use super::*;
use draw::{ANYWHERE, Random, Ranges, USUAL};
use super::forces::*;
use std::collections::BTreeMap;
use uom::si::length::meter;

fn pattern(condition: &Condition<'_>, n: u32) -> (String, Vec<(f64,f64)>) {
    let scale = condition.prism.weight_n * condition.prism.beam_m;
    let mut last: Option<Forces> = None;
    let mut s = String::new();
    let mut v = vec![];
    for k in 0..=n {
        let t = 15f64.powf(f64::from(k) / f64::from(n)).clamp(1.0, 15.0);
        let f = condition.forces(t, last.as_ref(), 1e-11);
        let (c, m) = if f.lifted_off { ('L', f64::INFINITY) } else if f.moment_n_m > 0.0 { ('+', f.moment_n_m/scale) } else { ('-', f.moment_n_m/scale) };
        if !s.ends_with(c) { s.push(c); }
        v.push((t, m));
        last = Some(f);
    }
    (s, v)
}

#[test]
fn explore() {
    let n: u32 = std::env::var("N").ok().and_then(|x| x.parse().ok()).unwrap_or(20000);
    let boxed = Ranges { edgy: true, least_lcg: 0.8, load_coefficient: (0.1, 3.0), deadrise_deg: (0.0, 28.0), vcg: (0.0, 0.6), length: (1.2, 15.0), thrust_angle_deg: (-14.0, 14.0), thrust_offset: (-0.4, 0.7), speed_coefficient: (1.0, 7.0), ..ANYWHERE };
    for (name, ranges) in [("any", &ANYWHERE), ("box", &boxed), ("usual", &USUAL)] {
        let mut random = Random(7);
        let mut table: BTreeMap<(bool, String, String), u32> = BTreeMap::new();
        let mut worst = 0f64;
        let mut bad = 0;
        let mut evals = vec![];
        let start = std::time::Instant::now();
        for _ in 0..n {
            let d = ranges.draw(&mut random);
            let Ok(point) = d.balance.point(d.speed, d.deflection) else { *table.entry((false, "fault".into(), String::new())).or_default() += 1; continue };
            if point.outcome == Outcome::BelowPlaningRange { continue }
            let condition = d.balance.condition(d.speed, d.deflection).unwrap();
            let (p, _) = pattern(&condition, 400);
            let one = condition.has_one_root();
            let multi = p.replace('L', "").len() > 1 && p.replace('L', "") != "-+";
            if let Ok(path) = std::env::var("CSV") {
                use std::io::Write;
                let mut f = std::fs::OpenOptions::new().append(true).create(true).open(path).unwrap();
                let pr = condition.prism;
                writeln!(f, "{name},{one},{p},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}", u8::from(multi), pr.beam_m, pr.load_coefficient(), pr.deadrise_deg, pr.bottom_length_m/pr.beam_m, pr.lcg_m/pr.beam_m, pr.vcg_m/pr.beam_m, pr.thrust_angle_deg(), pr.thrust_offset_m/pr.beam_m, condition.speed_coefficient, condition.plane.lift_n/pr.weight_n, condition.plane.deflection_deg, (condition.air[0]+condition.appendages[0])/pr.weight_n, u8::from(d.settings.whisker_spray), d.settings.correlation_allowance).unwrap();
            }
            *table.entry((one, p.clone(), format!("{}{}", point.outcome, if point.flags.contains(crate::flag::Flag::PitchUnstable) {" unstable"} else {""}))).or_default() += 1;
            if point.running.is_some() { evals.push(point.evaluations); }
            if let Some(b) = &point.budget {
                let r = b.residual(d.boat.weight().force(), d.boat.hull().chine_beam);
                if !(r.largest() < 1e-9) { bad += 1; if bad < 8 { println!("RES {r:?} {p} {} {}", point.evaluations, point.running.unwrap().trim.get::<degree>()); println!("{:?}", condition.prism); } }
                worst = worst.max(r.largest());
            }
            if one && point.outcome != Outcome::BelowPlaningRange {
                for s in [1.0, 2.5, 7.0, 15.0] {
                    let q = d.balance.point_from(d.speed, d.deflection, Some(Angle::new::<degree>(s))).unwrap();
                    match (&point.running, &q.running) {
                        (Some(a), Some(b)) => { let e = (a.trim - b.trim).get::<degree>().abs(); if e > 1e-7 { println!("START {s} {e:e} {p}"); } }
                        (None, None) if q.outcome == point.outcome => {}
                        _ => println!("START {s} outcome {} {} {p}", point.outcome, q.outcome),
                    }
                }
            }
            let _ = d.boat.hull().chine_beam.get::<meter>();
        }
        evals.sort_unstable();
        println!("{name}: worst {worst:e} bad {bad} median evals {} max {} in {:?}", evals[evals.len()/2], evals[evals.len()-1], start.elapsed());
        for (k, v) in &table { println!("   {k:?} {v}"); }
    }
}

#[test]
fn lengths() {
    let mut random = Random(11);
    let mut table: BTreeMap<String, u32> = BTreeMap::new();
    for _ in 0..10000 {
        let d = ANYWHERE.draw(&mut random);
        if d.settings.method != Method::Full { continue }
        let Ok(condition) = d.balance.condition(d.speed, d.deflection) else { continue };
        if condition.speed_coefficient < 1.0 || condition.hull_load_n() <= 0.0 { continue }
        for _ in 0..3 {
            let trim = random.log_uniform((1.0, 15.0));
            let mut s = String::new();
            let mut info = vec![];
            for k in 0..=400 {
                let u = 1e-4 * 10f64.powf(k as f64 / 400.0 * 6.0);
                let (h, f) = condition.probe(trim, u);
                let c = if h > 0.0 { if f.normal_n > 0.0 {'+'} else {'P'} } else if f.normal_n > 0.0 { '-' } else { 'M' };
                if !s.ends_with(c) { s.push(c); info.push((u, h, f.normal_n / condition.prism.weight_n)); }
            }
            let pr = condition.prism;
            *table.entry(s.clone()).or_default() += 1;
            
            if table[&s] < 3 { println!("{s} trim {trim:.3} eps {:.2} dr {:.1} cv {:.2} cl {:.3} spray {} dl {:.3} {:?}", pr.thrust_angle_deg(), pr.deadrise_deg, condition.speed_coefficient, pr.load_coefficient(), d.settings.whisker_spray, condition.plane.lift_n/pr.weight_n, info); }
        }
    }
    println!("{table:?}");
}
