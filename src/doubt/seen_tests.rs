use rayon::iter::{IntoParallelIterator, ParallelIterator};
use uom::si::f64::Length;
use uom::si::length::meter;

use super::*;
use crate::balance::LiftModel;
use crate::balance::sweep::planing_start;
use crate::boat::{BoatInput, PlanePair};
use crate::doubt::draw::Draws;
use crate::doubt::interval::likely;
use crate::input::parse_boat;

/// How the hulls of the boats may really lift. The readings are judged by the first.
const NATURES: [LiftModel; 2] = [LiftModel::Savitsky1964, LiftModel::Shuford1958];

fn boat(more: &str) -> Boat {
    let text = format!(
        "hull = {{ bottom_length = \"6.5 m\", chine_beam = \"2.25 m\", deadrise = \"18 deg\" }}\n\
         weight = {{ mass = \"2800 kg\", lcg = \"2.45 m\", vcg = \"0.75 m\" }}\n\
         drive = {{ kind = \"sterndrive\", top_speed = \"30 kn\", thrust_angle = \"2 deg\", \
         thrust_height = \"-0.2 m\" }}\nplanes = {{ span = \"0.6 m\", chord = \"0.25 m\" }}\n{more}"
    );
    parse_boat("b.toml", &text).unwrap().boat
}

fn fleet() -> Vec<Boat> {
    let pair = |span_m: f64, chord_m: f64| {
        Some(PlanePair { span: Length::new::<meter>(span_m), chord: Length::new::<meter>(chord_m) })
    };
    let wren = parse_boat("wren", include_str!("../../data/boats/wren.toml")).unwrap().boat;
    vec![
        parse_boat("lantern", include_str!("../../data/boats/lantern.toml")).unwrap().boat,
        boat(""),
        wren.with_planes(pair(0.45, 0.23)).unwrap(),
    ]
}

/// What of a boat is read or asked: a share of the way from the start of planing to top speed, and a deflection.
type Look = (f64, f64);

const ASKED: [Look; 4] = [(0.12, 0.0), (0.12, 8.0), (0.3, 0.0), (0.3, 8.0)];
const READ: [Look; 5] = [(0.2, 0.0), (0.6, 0.0), (0.2, 8.0), (0.06, 0.0), (0.4, 0.0)];

fn speed_m_s(boat: &Boat, share: f64) -> f64 {
    let from = planing_start(boat).get::<meter_per_second>();
    from + share * (boat.drive().top_speed.get::<meter_per_second>() - from)
}

fn sight(boat: &Boat, (share, deflection_deg): Look) -> Sight {
    let pair = boat.planes().filter(|_| deflection_deg > 0.0);
    Sight {
        boat: boat.particulars(),
        speed_m_s: speed_m_s(boat, share),
        planes: pair.map(|pair| (pair.into(), deflection_deg)),
        trim_deg: f64::NAN,
        by_deg: f64::NAN,
    }
}

fn trim_deg(sight: &Sight, draw: &Draw, settings: &Settings) -> Option<f64> {
    let trim = sight.trim_deg(draw, settings);
    (trim > LEAST_TRIM_DEG && trim < LARGEST_TRIM_DEG).then_some(trim)
}

#[derive(Clone, Debug, Default)]
struct Tally {
    boats: u32,
    odd: u32,
    asked: [[f64; 6]; 4], // count, held, width before, after, held before
}

impl Tally {
    fn add(mut self, other: &Self) -> Self {
        self.boats += other.boats;
        self.odd += other.odd;
        for (mine, theirs) in self.asked.iter_mut().zip(&other.asked) {
            for (mine, theirs) in mine.iter_mut().zip(theirs) {
                *mine += theirs;
            }
        }
        self
    }
}

const DRAWS: u64 = 150;

fn one(described: &Boat, nature: LiftModel, read: &[Look], by_deg: f64, seed: u64) -> Tally {
    let settings = Settings::default();
    let real = Settings { model: nature, ..settings };
    let inputs = Inputs::of(described);
    let mut random = Draws::new(&inputs, 1_000 + seed).unseen(seed).shares;
    if nature != settings.model {
        random[What::Lift.place()] = 0.5;
        random[What::CentreOfPressure.place()] = 0.5;
    }
    let truth = Draw::at(&inputs, &random);
    let noise = Draws::new(&inputs, 2_000 + seed);
    let normal = |number: u64| normal_quantile(noise.unseen(number).shares[inputs.list[0].what.place()]);
    let deviation = by_deg / LIKELY_DEVIATIONS;
    let mut input: BoatInput = described.input().clone();
    for (place, &(share, deflection_deg)) in read.iter().enumerate() {
        let Some(trim) = trim_deg(&sight(described, (share, deflection_deg)), &truth, &real) else {
            return Tally::default();
        };
        let off = deviation * (COMMON_SHARE.sqrt() * normal(0) + (1.0 - COMMON_SHARE).sqrt() * normal(1 + place as u64));
        input.seen.push(crate::boat::Seen {
            speed: Velocity::new::<meter_per_second>(speed_m_s(described, share)),
            deflection: Angle::new::<degree>(deflection_deg),
            trim: Angle::new::<degree>(trim + off),
            by: Some(Angle::new::<degree>(by_deg)),
            condition: None,
            planes: None,
        });
    }
    let Ok(seen) = Boat::build(input) else { return Tally::default() };
    let inputs = inputs.as_seen(&seen, &settings).unwrap();
    let draws = Draws::new(&inputs, seed);
    let mut tally = Tally { boats: 1, ..Tally::default() };
    tally.odd = u32::from(!inputs.seen.as_ref().unwrap().fit.flags.is_empty());
    for (asked, row) in ASKED.into_iter().zip(&mut tally.asked) {
        let sight = sight(described, asked);
        let Some(true_deg) = trim_deg(&sight, &truth, &real) else { continue };
        let band = |draw: &dyn Fn(u64) -> Draw| {
            let all = (0..DRAWS).filter_map(|n| trim_deg(&sight, &draw(n), &settings)).collect();
            likely(all).unwrap()
        };
        let after = band(&|n| draws.draw(n));
        let before = band(&|n| draws.unseen(n));
        let held = (after.low..=after.high).contains(&true_deg);
        let held_before = (before.low..=before.high).contains(&true_deg);
        *row = [1.0, f64::from(u8::from(held)), before.high - before.low, after.high - after.low, f64::from(u8::from(held_before)), after.median - true_deg];
    }
    tally
}

#[test]
#[ignore = "study"]
fn study() {
    let boats = fleet();
    let count: u64 = std::env::var("BOATS").map_or(300, |n| n.parse().unwrap());
    for nature in NATURES {
        for by_deg in [1.0, 0.35] {
            for reads in [1, 2, 3] {
                let each: Vec<Tally> = (0..count)
                    .into_par_iter()
                    .map(|seed| {
                        let boat = &boats[(seed % 3) as usize];
                        let from = (seed / 3) as usize % 4;
                        let read: Vec<Look> = (0..reads).map(|n| READ[(from + n) % READ.len()]).collect();
                        one(boat, nature, &read, by_deg, seed)
                    })
                    .collect();
                let all = each.iter().fold(Tally::default(), Tally::add);
                print!("{:.3} {by_deg} x{reads}: {} boats, {} odd; ", format!("{nature:?}"), all.boats, all.odd);
                for [n, held, before, after, held_before, off] in all.asked {
                    print!(" {:.0}->{:.1}% ({:.2} -> {:.2} {:+.2})", 100.0 * held_before / n, 100.0 * held / n, before / n, after / n, off / n);
                }
                println!();
            }
        }
    }
}

#[test]
#[ignore = "study"]
fn differences() {
    for boat in fleet() {
        let inputs = Inputs::of(&boat);
        let draw = Draw::at(&inputs, &[0.5; What::COUNT]);
        for share in [0.05, 0.12, 0.2, 0.3, 0.4, 0.5, 0.7, 0.9] {
            for deflection in [0.0, 8.0] {
                let sight = sight(&boat, (share, deflection));
                let trims = NATURES.map(|model| sight.trim_deg(&draw, &Settings { model, ..Settings::default() }));
                let cv = sight.speed_m_s / (9.81 * boat.hull().chine_beam.value).sqrt();
                print!("{share} cv {cv:.2} {deflection}: {:.2} {:.2} d {:.2}; ", trims[0], trims[1], trims[1]-trims[0]);
            }
            println!();
        }
    }
}
