//! Boats whose truth is known: what is said of them after a trim or two has been read.

use rayon::iter::{IntoParallelIterator, ParallelIterator};
use uom::si::f64::Length;
use uom::si::length::meter;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};

use super::*;
use crate::balance::sweep::planing_start;
use crate::balance::{LARGEST_TRIM_DEG, LEAST_TRIM_DEG, LiftModel, Method};
use crate::boat::{BoatInput, PlanePair, degrees};
use crate::doubt::draw::Draws;
use crate::doubt::interval::{Likely, likely};
use crate::doubt::test_boat::{bare, with_planes as boat};
use crate::doubt::{Request, SpeedDoubt, running};
use crate::input::parse_boat;

/// How the hulls of the boats really lift. The readings are always judged by the first.
fn natures() -> [(&'static str, Settings); 3] {
    let best = Settings::default();
    let printed = Settings { method: Method::Full, ..best };
    let other = Settings { model: LiftModel::Shuford1958, ..printed };
    [("best estimate", best), ("Savitsky 1964", printed), ("Shuford 1958", other)]
}

/// Boats with planes, each of another size.
fn fleet() -> [Boat; 3] {
    let [lantern, wren] =
        [include_str!("../../data/boats/lantern.toml"), include_str!("../../data/boats/wren.toml")]
            .map(|text| parse_boat("demo", text).unwrap().boat);
    let [span, chord] = [0.45, 0.23].map(Length::new::<meter>);
    [lantern, boat(""), wren.with_planes(Some(PlanePair { span, chord })).unwrap()]
}

/// Where a boat is looked at: a share of the way from the start of planing to top speed, and a deflection.
type Look = (f64, f64);

/// The hump, planes up and down.
const ASKED: [Look; 2] = [(0.12, 0.0), (0.12, 8.0)];
/// Other speeds at which trims are read.
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

/// Trim where she runs.
fn trim_deg(sight: &Sight, draw: &Draw, settings: &Settings) -> Option<f64> {
    let trim = sight.trim_deg_of(&draw.prism(&sight.boat, settings), Precision::FINEST, None);
    (trim > LEAST_TRIM_DEG && trim < LARGEST_TRIM_DEG).then_some(trim)
}

fn read_as(
    boat: &Boat,
    (share, deflection_deg): Look,
    trim_deg: f64,
    by_deg: f64,
) -> crate::boat::Seen {
    crate::boat::Seen {
        speed: Velocity::new::<meter_per_second>(speed_m_s(boat, share)),
        deflection: Angle::new::<degree>(deflection_deg),
        trim: Angle::new::<degree>(trim_deg),
        by: Some(Angle::new::<degree>(by_deg)),
        condition: None,
        planes: None,
    }
}

/// The same boat with readings.
fn with_seen(boat: &Boat, seen: Vec<crate::boat::Seen>) -> Boat {
    Boat::build(BoatInput { seen, ..boat.input().clone() }).unwrap()
}

fn inputs_as_seen(boat: &Boat) -> Inputs {
    Inputs::of(boat).with_seen(boat, &Settings::default()).unwrap()
}

fn band(sight: &Sight, count: u64, draw: impl Fn(u64) -> Draw) -> Likely<f64> {
    let trims = (0..count).filter_map(|n| trim_deg(sight, &draw(n), &Settings::default()));
    likely(trims.collect()).unwrap()
}

/// Checks and how many of them held, for one boat drawn from what is known of one described.
fn one(described: &Boat, (nature, real): (usize, Settings), read: &[Look], seed: u64) -> [u32; 2] {
    /// Half-width of a telephone's reading.
    const BY_DEG: f64 = 1.0;
    let inputs = Inputs::of(described);
    // Points of one sequence keep apart from one another: what is to be independent is plain chance.
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let mut share = || (chance.next_u64() >> 11) as f64 / 2_f64.powi(53) + 2_f64.powi(-54);
    let mut random: [f64; What::COUNT] = std::array::from_fn(|_| share());
    if nature > 0 {
        // The other theory is the error of the equations.
        for what in [What::Lift, What::CentreOfPressure, What::HullForm] {
            random[what.index()] = 0.5;
        }
    }
    let truth = Draw::at(&inputs, &random);
    let common = normal_quantile(share());
    let mut seen = Vec::new();
    for &look in read {
        let Some(trim) = trim_deg(&sight(described, look), &truth, &real) else { return [0; 2] };
        let own = (1.0 - COMMON_SHARE).sqrt() * normal_quantile(share());
        let off = BY_DEG / LIKELY_DEVIATIONS * (COMMON_SHARE.sqrt() * common + own);
        seen.push(read_as(described, look, trim + off, BY_DEG));
    }
    let inputs = inputs_as_seen(&with_seen(described, seen));
    let draws = Draws::new(&inputs, seed);
    let mut counts = [0; 2];
    for asked in ASKED {
        let sight = sight(described, asked);
        let Some(true_deg) = trim_deg(&sight, &truth, &real) else { continue };
        let band = band(&sight, 100, |number| draws.draw(number));
        counts[0] += 1;
        counts[1] += u32::from((band.low..=band.high).contains(&true_deg));
    }
    counts
}

/// Of boats drawn from what is known before, each read once to three times at other speeds with a
/// telephone, nine ranges in ten of the trim at the hump hold the truth, planes up and down: also
/// where the hull lifts by another theory than the readings are judged by.
///
/// The share is that of some 1900 ranges for each theory, good to 0.7 %.
#[test]
fn physics_ranges_hold_the_truth_as_often_as_promised_whichever_theory_made_the_boat() {
    let boats = fleet();
    for (nature, (name, real)) in natures().into_iter().enumerate() {
        let each: Vec<[u32; 2]> = (0..960_u64)
            .into_par_iter()
            .map(|seed| {
                let index = usize::try_from(seed).unwrap();
                let from = index / 9;
                let read: Vec<Look> =
                    (0..=index / 3 % 3).map(|n| READ[(from + n) % READ.len()]).collect();
                one(&boats[index % 3], (nature, real), &read, seed)
            })
            .collect();
        let [checked, held] = [0, 1].map(|at| each.iter().map(|counts| counts[at]).sum::<u32>());
        let share = f64::from(held) / f64::from(checked);
        println!("{name}: {:.1} % of {checked} ranges", 100.0 * share);
        assert!(checked > 1600, "{name}: {checked}");
        assert!((0.86..=0.94).contains(&share), "{name}: {share}");
    }
}

/// The draws are those of the boats before anything was seen, each counted by how well it would
/// have shown the readings (Bayes' rule by importance sampling): medians and ends of the likely
/// ranges agree within what the sampling leaves.
#[test]
fn physics_draws_are_the_boats_that_would_have_shown_it() {
    let described = boat("");
    for (readings, by_deg) in [
        (vec![(0.2, 0.0, 7.2)], 1.0),
        (vec![(0.2, 0.0, 9.0)], 1.0),
        (vec![(0.2, 0.0, 8.2), (0.6, 0.0, 5.0)], 1.0),
        (vec![(0.12, 0.0, 8.5)], 0.3),
        (vec![(0.12, 0.0, 7.5)], 0.3),
    ] {
        let seen = readings
            .iter()
            .map(|&(share, down, trim)| read_as(&described, (share, down), trim, by_deg));
        let boat = with_seen(&described, seen.collect());
        let inputs = inputs_as_seen(&boat);
        let sights = Sight::all(&boat).unwrap();
        let errors = covariance(&sights).cholesky().unwrap();
        let latents = Latent::all(&inputs, FORM_WIDER);
        let asked = sight(&boat, ASKED[0]);
        let draws = Draws::new(&inputs, 3);
        let settings = Settings::default();
        let mut weighted: Vec<(f64, f64)> = (0..6_000_u64)
            .into_par_iter()
            .filter_map(|number| {
                let random = draws.unseen(number).shares;
                let numbers = latents.iter().map(|latent| normal_quantile(random[latent.index]));
                let place = DVector::from_iterator(latents.len(), numbers);
                let draw = Draw::at(&inputs, &shares(&latents, &place));
                let off = sights.iter().map(|sight| {
                    let prism = draw.prism(&sight.boat, &settings);
                    sight.trim_deg - sight.trim_deg_of(&prism, Precision::FINEST, None)
                });
                let off = DVector::from_iterator(sights.len(), off);
                let weight = (-0.5 * off.dot(&errors.solve(&off))).exp();
                Some((trim_deg(&asked, &draw, &settings)?, weight))
            })
            .collect();
        weighted.sort_by(|a, b| a.0.total_cmp(&b.0));
        let total: f64 = weighted.iter().map(|(_, weight)| weight).sum();
        let quantile = |share: f64| {
            let mut sum = 0.0;
            let at = weighted.iter().find(|(_, weight)| {
                sum += weight;
                sum >= share * total
            });
            at.unwrap().0
        };
        let drawn = band(&asked, 3_000, |number| draws.draw(number));
        let wide = quantile(0.95) - quantile(0.05);
        println!(
            "{readings:?}: {drawn:?}, by weights {:.2} {:.2} {:.2}",
            quantile(0.05),
            quantile(0.5),
            quantile(0.95)
        );
        for (drawn_deg, share) in [(drawn.low, 0.05), (drawn.median, 0.5), (drawn.high, 0.95)] {
            assert!((drawn_deg - quantile(share)).abs() < 0.06 * wide, "{readings:?} {share}");
        }
    }
}

/// The surer a reading the narrower the range about it, and two readings say more than one.
#[test]
fn physics_what_is_surer_says_more() {
    let described = boat("");
    let hump = sight(&described, ASKED[0]);
    let width = |looks: &[(Look, f64)], by_deg: f64| {
        let seen = looks.iter().map(|&(look, trim)| read_as(&described, look, trim, by_deg));
        let inputs = inputs_as_seen(&with_seen(&described, seen.collect()));
        let draws = Draws::new(&inputs, 1);
        let band = band(&hump, 600, |number| draws.draw(number));
        band.high - band.low
    };
    let at_hump = [(ASKED[0], 8.5)];
    let fine = width(&at_hump, 0.3);
    let [coarse, none] = [width(&at_hump, 1.0), width(&[], 1.0)];
    assert!(fine < 0.75 * coarse && coarse < 0.6 * none, "{fine} {coarse} {none}");
    let two = width(&[((0.2, 0.0), 8.2), ((0.06, 0.0), 8.3)], 1.0);
    let one = width(&[((0.2, 0.0), 8.2)], 1.0);
    assert!(two < 0.95 * one, "{two} {one}");
}

/// Without a reading nothing changes: the same numbers to the bit.
#[test]
fn regression_without_a_reading_the_draws_are_those_of_before() {
    let described = boat("");
    let (plain, with_seen) = (Inputs::of(&described), inputs_as_seen(&described));
    assert_eq!(plain, with_seen);
    let draws = [&plain, &with_seen].map(|inputs| Draws::new(inputs, 7));
    for number in 0..20 {
        assert_eq!(draws[0].draw(number), draws[1].draw(number));
        assert_eq!(draws[0].draw(number), draws[0].unseen(number));
    }
}

/// A reading far from all boats like the one described is flagged, with what would have to be wrong.
#[test]
fn error_a_reading_that_hardly_any_boat_would_show_does_not_fit() {
    let described = boat("");
    let fit = |trim: f64| {
        let seen = vec![read_as(&described, ASKED[0], trim, 1.0)];
        inputs_as_seen(&with_seen(&described, seen)).seen.unwrap().fit
    };
    let near = fit(7.5);
    assert!(near.flags.is_empty() && near.chance > 0.1, "{near:?}");
    let far = fit(2.0);
    assert!(far.flags.contains(Flag::SeenDoesNotFit) && far.chance < 1e-3, "{far:?}");
    let reading = far.readings[0];
    assert!(reading.fitted < reading.described && reading.fitted > reading.trim);
    let lcg = far.moved.iter().find(|(what, _)| *what == What::Value(crate::boat::Toleranced::Lcg));
    assert!(lcg.unwrap().1 > 1.0, "weight further forward lowers the bow: {far:?}");
}

/// A boat described so that she runs nowhere counts as standing at the end of the range, and the
/// readings lead to boats that do run.
#[test]
fn physics_a_boat_that_finds_no_balance_is_led_to_one_that_does() {
    let text = "[[tolerance]]\nof = \"weight.lcg\"\nby = \"0.6 m\"\n";
    let mut input = boat(text).input().clone();
    if let crate::boat::WeightInput::Totals { lcg, .. } = &mut input.weight {
        *lcg = Some(Length::new::<meter>(1.5));
    }
    let described = Boat::build(input).unwrap();
    let look = (0.12, 0.0);
    let boat = with_seen(&described, vec![read_as(&described, look, 8.5, 1.0)]);
    let inputs = inputs_as_seen(&boat);
    let fit = &inputs.seen.as_ref().unwrap().fit;
    assert!(degrees(fit.readings[0].described) > 12.0, "{fit:?}");
    assert!((degrees(fit.readings[0].fitted) - 8.5).abs() < 1.5, "{fit:?}");
    let draws = Draws::new(&inputs, 1);
    let at = sight(&boat, look);
    let runs = |draw: &dyn Fn(u64) -> Draw| {
        (0..200).filter(|&n| trim_deg(&at, &draw(n), &Settings::default()).is_some()).count()
    };
    let [before, after] = [runs(&|n| draws.unseen(n)), runs(&|n| draws.draw(n))];
    assert!(after > 190 && after > before, "{before} {after}");
}

/// A reading taken in another loading condition is judged in that one.
#[test]
fn physics_a_reading_counts_in_the_condition_it_was_taken_in() {
    let more = "[[condition]]\nname = \"guests aft\"\n[[condition.load]]\nitem = \"guests\"\n\
        mass = \"400 kg\"\nforward = \"0.6 m\"\nup = \"1 m\"\n";
    let described = boat(more);
    let fit = |condition: Option<&str>| {
        let reading = read_as(&described, ASKED[0], 9.0, 1.0);
        let condition = condition.map(str::to_owned);
        let boat = with_seen(&described, vec![crate::boat::Seen { condition, ..reading }]);
        let listed = inputs_as_seen(&boat).seen.unwrap().fit;
        let aft = inputs_as_seen(&boat.in_condition("guests aft").unwrap()).seen.unwrap().fit;
        assert_eq!(listed.readings[0].described, aft.readings[0].described);
        degrees(listed.readings[0].described)
    };
    assert!(fit(Some("Guests aft")) > fit(None) + 0.5);
    assert_eq!(fit(Some("as listed")), fit(None));
}

/// The relief that is asked of a boat without duties is a share of the trim at the hump, as it was
/// read there: two degrees lower ask for some 0.6 less. What was read at another speed says as much of it
/// as the draws say: she is told to trim there within what they hold likely, near their middle.
#[test]
fn practice_the_relief_asked_follows_the_trim_seen_at_the_hump() {
    let settings = Settings::default();
    let relief_deg = |boat: &Boat| {
        let sized = crate::size::suggest(boat, &settings).unwrap();
        let asked = sized.duties.iter().find_map(|result| match result.duty {
            crate::boat::Duty::Relief { at_least, .. } => Some(degrees(at_least)),
            _ => None,
        });
        asked.expect("a relief is asked for")
    };
    let seen = |speed_m_s: f64, lower_deg: f64| {
        let there = sight(&bare(""), (0.0, 0.0));
        let there = Sight { speed_m_s, ..there };
        let draw = Draw::at(&Inputs::of(&bare("")), &[0.5; What::COUNT]);
        let trim_deg =
            there.trim_deg_of(&draw.prism(&there.boat, &settings), Precision::FINEST, None)
                - lower_deg;
        bare(&format!(
            "seen = [{{ speed = \"{speed_m_s} m/s\", trim = \"{trim_deg} deg\", by = \"0.2 deg\" }}]"
        ))
    };
    let hump = crate::balance::Hump::of(&bare(""), &settings).expect("a hump");
    let top_m_s = bare("").drive().top_speed.get::<meter_per_second>();
    let described_deg = relief_deg(&bare(""));
    let at_hump_deg = relief_deg(&seen(hump.speed_m_s(), 2.0));
    approx::assert_abs_diff_eq!(described_deg - at_hump_deg, 0.6, epsilon = 0.1);
    for (speed_m_s, lower_deg) in [(top_m_s, 0.5), (0.5 * (top_m_s + hump.speed_m_s()), 1.0)] {
        let read = seen(speed_m_s, lower_deg);
        assert!(relief_deg(&read) < described_deg);
        let told = crate::balance::Hump::of(&read, &settings).expect("a hump");
        let told_deg = degrees(told.trim.expect("a trim"));
        let request = Request { draws: 1000, seed: 9, deflection: Angle::default() };
        let doubt = running(&read, &settings, &request, &|_| ()).unwrap();
        let apart =
            |row: &SpeedDoubt| (row.speed.get::<meter_per_second>() - told.speed_m_s()).abs();
        let nearest = doubt.speeds.iter().min_by(|a, b| apart(a).total_cmp(&apart(b))).unwrap();
        let likely = nearest.trim.expect("she runs there");
        let [low, median, high] = [likely.low, likely.median, likely.high].map(degrees);
        assert!(
            low < told_deg && told_deg < high && (told_deg - median).abs() < 1.0,
            "{told_deg} {likely:?}"
        );
    }
}
