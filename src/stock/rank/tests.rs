use uom::si::angle::degree;
use uom::si::f64::{Angle, Length, Mass, Pressure};
use uom::si::length::{meter, millimeter};
use uom::si::mass::kilogram;
use uom::si::pressure::bar;
use uom::si::velocity::knot;

use super::*;
use crate::boat::{BoatInput, HullInput, ListCause, PlanePair, WeightInput};
use crate::plane::actuator::{Actuator, Hydraulic};
use crate::size::{Answer, suggest};
use crate::stock::parse_stock;
use crate::units::{UnitChoice, UnitSystem};

fn stock() -> StockList {
    parse_stock("planes.csv", include_str!("../../../data/stock/planes.csv")).unwrap()
}

fn part(name: &str) -> Part {
    stock().parts.into_iter().find(|part| part.name == name).unwrap()
}

fn knots(speed_kn: f64) -> Velocity {
    Velocity::new::<knot>(speed_kn)
}

fn input() -> BoatInput {
    let hull = HullInput {
        bottom_length: Some(Length::new::<meter>(6.5)),
        chine_beam: Some(Length::new::<meter>(2.25)),
        deadrise: Some(Angle::new::<degree>(18.0)),
        ..HullInput::default()
    };
    let weight = WeightInput::Totals {
        mass: Mass::new::<kilogram>(2800.0),
        lcg: Some(Length::new::<meter>(2.45)),
        vcg: Some(Length::new::<meter>(0.75)),
        tcg: None,
    };
    let mut input = BoatInput::new("boat", hull, weight);
    input.drive.top_speed = Some(knots(32.0));
    input.duties = [
        Duty::HumpTrim { at_most: Angle::new::<degree>(6.8), from: knots(12.0), to: knots(18.0) },
        Duty::List {
            cause: ListCause::OffCentre {
                mass: Mass::new::<kilogram>(85.0),
                distance: Length::new::<meter>(0.7),
            },
            speed: knots(24.0),
        },
    ]
    .map(Into::into)
    .to_vec();
    input
}

fn boat() -> Boat {
    Boat::build(input()).unwrap()
}

/// A copy of a part with another name, size, price and number on hand.
fn like(part: &Part, name: &str, size_mm: [f64; 2], price: f64, on_hand: u32) -> Part {
    let mut other = part.clone();
    other.name = name.to_owned();
    [other.span, other.chord] = size_mm.map(Length::new::<millimeter>);
    other.price.amount = price;
    other.on_hand = Some(on_hand);
    other
}

fn ranking_of(boat: &Boat, parts: Vec<Part>) -> Ranking {
    let list = StockList { name: "invented".to_owned(), parts, faults: Vec::new() };
    let drawn = Drawn { draws: 40, seed: 1 };
    rank(boat, &balance::Settings::default(), &list, &Settings::default(), drawn).unwrap()
}

fn names(ranking: &Ranking) -> Vec<&str> {
    ranking.ranked.iter().map(|ranked| ranked.part.name.as_str()).collect()
}

fn reasons(ranking: &Ranking) -> String {
    lines(ranking).join("\n")
}

fn lines(ranking: &Ranking) -> Vec<String> {
    let all = crate::tell::shelf::reasons(ranking, UnitChoice::from(UnitSystem::Marine));
    all.iter().map(ToString::to_string).collect()
}

/// Another thickness of the plate.
fn thick(mut part: Part, thickness_mm: f64) -> Part {
    part.known_mut().thickness = Length::new::<millimeter>(thickness_mm);
    part
}

#[test]
fn practice_order_is_duties_then_chance_then_price_and_unsafe_last() {
    let model = part("600 x 230 stainless hydraulic");
    let parts = vec![
        thick(like(&model, "flimsy", [640.0, 230.0], 1.0, 9), 0.5),
        like(&model, "too wide by far", [1200.0, 230.0], 1.0, 9),
        like(&model, "much too small", [200.0, 160.0], 1.0, 9),
        like(&model, "too small", [300.0, 200.0], 1.0, 9),
        like(&model, "sold out", [620.0, 230.0], 10.0, 0),
        like(&model, "one left", [620.0, 230.0], 9.0, 1),
        like(&model, "wide and dear", [700.0, 230.0], 300.0, 2),
        like(&model, "dear", [600.0, 230.0], 250.0, 2),
        like(&model, "cheap", [600.0, 230.0], 200.0, 2),
        like(&model, "too wide", [900.0, 230.0], 1.0, 9),
    ];
    let ranking = ranking_of(&boat(), parts);
    assert_eq!(
        names(&ranking),
        [
            "wide and dear",
            "cheap",
            "dear",
            "one left",
            "sold out",
            "too small",
            "much too small",
            "too wide",
            "too wide by far",
            "flimsy"
        ]
    );
    assert!(ranking.does_all());
    assert_eq!(ranking.ranked[9].standing, Standing::Unsafe);
    let chance = |index: usize| ranking.ranked[index].judged.as_ref().unwrap().in_hundred();
    assert!(chance(0) > chance(1) && chance(1) == chance(2));
    assert!(chance(9).is_none() && chance(7).is_none());
    let said = reasons(&ranking);
    assert!(said.contains("a pair costs 600 EUR"), "{said}");
    assert!(said.contains("and the pair costs 200 EUR less. It has 14 % less area"), "{said}");
    assert!(
        said.contains("one left would do every duty, and the pair costs 582 EUR less"),
        "{said}"
    );
    assert!(
        said.contains(
            "Unsafe on this boat under the load of steady running, and not to be taken: flimsy."
        ),
        "{said}"
    );
}

/// As sure as is wanted is sure enough: then the price decides. What does it on fewer than half as
/// many boats as are wanted is not to be taken, and stands before what misses a duty.
#[test]
fn practice_a_chance_beyond_what_is_wanted_buys_nothing_and_a_seldom_part_is_not_taken() {
    let model = part("600 x 230 stainless hydraulic");
    let wanting = |share: f64| {
        let mut input = input();
        input.sizing.chance = Some(uom::si::f64::Ratio::new::<ratio>(share));
        Boat::build(input).unwrap()
    };
    let parts = || {
        vec![
            like(&model, "wide and dear", [740.0, 230.0], 300.0, 2),
            like(&model, "cheap", [640.0, 230.0], 200.0, 2),
            like(&model, "too small", [300.0, 200.0], 1.0, 9),
        ]
    };
    let easily = ranking_of(&wanting(0.5), parts());
    assert_eq!(names(&easily), ["cheap", "wide and dear", "too small"]);
    let said = reasons(&easily);
    assert!(said.contains("which does every duty too, even on"), "{said}");
    let surely = ranking_of(&wanting(0.99), parts());
    assert_eq!(names(&surely), ["wide and dear", "cheap", "too small"]);
    let chance = |index: usize| surely.ranked[index].judged.as_ref().unwrap().chance.unwrap().share;
    for index in [0, 1] {
        let seldom = surely.ranked[index].standing == Standing::Seldom;
        assert_eq!(seldom, chance(index) < 0.495, "{}", chance(index));
    }
    // Nothing but a seldom part, for boats nearly like her trim less at the hump: exit 1, in so many words.
    let mut asks = input();
    asks.sizing.chance = Some(uom::si::f64::Ratio::new::<ratio>(0.99));
    asks.duties = vec![Duty::Relief { at_least: Angle::new::<degree>(2.0), over: None }.into()];
    let asks = Boat::build(asks).unwrap();
    let of = |span_mm: i32| {
        ranking_of(&asks, vec![like(&model, "just", [f64::from(span_mm), 230.0], 1.0, 2)])
    };
    // The shortest part that does it as described.
    let mut all = (360..900).step_by(10).map(of);
    let least = all.find(|ranking| ranking.ranked[0].standing != Standing::Misses);
    let least = least.expect("one does it");
    let share = least.ranked[0].judged.as_ref().unwrap().chance.unwrap().share;
    assert_eq!(least.ranked[0].standing, Standing::Seldom, "{share}");
    assert!(!least.does_all());
    let said = reasons(&least);
    assert!(
        said.starts_with("No part on the shelf does every duty as often as it should."),
        "{said}"
    );
}

/// However cheap and however many duties it would do: exit 1 where nothing else is there.
#[test]
fn practice_an_unsafe_part_is_never_taken() {
    let model = part("600 x 230 stainless hydraulic");
    let flimsy = thick(like(&model, "flimsy", [640.0, 230.0], 1.0, 9), 0.5);
    let ranking = ranking_of(&boat(), vec![flimsy.clone()]);
    assert!(ranking.ranked[0].judged.as_ref().unwrap().does_all());
    assert!(!ranking.does_all());
    let said = reasons(&ranking);
    assert!(said.starts_with("NO PART ON THE SHELF IS TO BE TAKEN"), "{said}");
    assert!(said.contains("% of what the plate bears with its safety factor"), "{said}");
    // One that misses a duty stands before it all the same.
    let small = like(&model, "too small", [300.0, 200.0], 500.0, 9);
    let ranking = ranking_of(&boat(), vec![flimsy, small]);
    assert_eq!(names(&ranking), ["too small", "flimsy"]);
    let said = reasons(&ranking);
    assert!(said.contains("stands before flimsy, which is unsafe: steady running at"), "{said}");
}

#[test]
fn practice_a_part_without_allowance_is_taken_with_its_remedy_in_the_headline() {
    let mut weak = part("600 x 230 stainless hydraulic");
    weak.known_mut().hinge_screws.length = Length::new::<millimeter>(30.0);
    let ranking = ranking_of(&boat(), vec![weak.clone()]);
    let judged = ranking.ranked[0].judged.as_ref().unwrap();
    assert_eq!(judged.verdict(), Some(Verdict::NoSlammingAllowance));
    assert!(ranking.does_all());
    let lines = lines(&ranking);
    assert!(
        lines[0].starts_with(
            "Take 600 x 230 stainless hydraulic, and not as it comes, for it has no allowance for slamming: through-bolt each plane: 12 M6 bolts in the hinge leaf on a backing plate of 600 x 35 x "
        ),
        "{}",
        lines[0]
    );
    // Longer and more screws, a thicker plate and a stronger lock: nothing to be said.
    weak.known_mut().hinge_screws.length = Length::new::<millimeter>(150.0);
    weak.known_mut().bracket_screws.length = Length::new::<millimeter>(150.0);
    weak.known_mut().thickness = Length::new::<millimeter>(12.0);
    let Actuator::Hydraulic(cylinder) = weak.known().actuator else { panic!("hydraulic") };
    let mut spec = *cylinder.spec();
    spec.lock_pressure = Some(Pressure::new::<bar>(900.0));
    weak.known_mut().actuator = Actuator::Hydraulic(Hydraulic::new(spec).unwrap());
    let ranking = ranking_of(&boat(), vec![weak]);
    let judged = ranking.ranked[0].judged.as_ref().unwrap();
    assert_eq!(judged.verdict(), Some(Verdict::Bears), "{:?}", judged.strength());
    assert!(!reasons(&ranking).contains("slamming"));
}

/// The chance of a part whose actuators never stall is that of its pair, drawn by itself.
#[test]
fn physics_chance_is_that_of_the_pair_unless_the_actuators_stall() {
    let boat = boat();
    let mut strong = part("600 x 230 stainless hydraulic");
    let Actuator::Hydraulic(cylinder) = strong.known().actuator else { panic!("hydraulic") };
    let with_pump = |pressure_bar: f64| {
        let mut spec = *cylinder.spec();
        spec.pump_pressure = Pressure::new::<bar>(pressure_bar);
        Actuator::Hydraulic(Hydraulic::new(spec).unwrap())
    };
    strong.known_mut().actuator = with_pump(159.0);
    let mut weak = Part { name: "weak".to_owned(), ..strong.clone() };
    weak.known_mut().actuator = with_pump(8.0);
    let drawn = Drawn { draws: 40, seed: 1 };
    let alone = crate::doubt::duties(
        std::slice::from_ref(&boat),
        &balance::Settings::default(),
        &[strong.pair()],
        None,
        drawn,
        &|_| (),
    );
    let alone = alone.unwrap().pairs[1].all;
    let ranking = ranking_of(&boat, vec![weak, strong]);
    let chance = |index: usize| ranking.ranked[index].judged.as_ref().unwrap().chance.unwrap();
    assert_eq!(chance(0), alone);
    assert!(chance(1).share < alone.share);
}

/// The pair of a suggestion, made into a part with actuators that never stall, uses the share
/// that the suggestion states.
#[test]
fn physics_share_is_that_of_the_suggestion_for_the_same_pair() {
    let boat = boat();
    let suggestion = suggest(&boat, &balance::Settings::default()).unwrap();
    let Answer::Pair(PlanePair { span, chord }) = suggestion.answer else { panic!("a pair") };
    let mut part = part("600 x 230 stainless hydraulic");
    [part.span, part.chord] = [span, chord];
    let Actuator::Hydraulic(cylinder) = part.known().actuator else { panic!("hydraulic") };
    let mut spec = *cylinder.spec();
    spec.pump_pressure = Pressure::new::<bar>(159.0);
    part.known_mut().actuator = Actuator::Hydraulic(Hydraulic::new(spec).unwrap());
    let ranking = ranking_of(&boat, vec![part]);
    let judged = ranking.ranked[0].judged.as_ref().unwrap();
    assert_eq!(judged.duties.len(), suggestion.duties.len());
    for (own, suggested) in judged.duties.iter().zip(&suggestion.duties) {
        assert_eq!(own.duty, suggested.duty);
        assert_eq!(own.met, suggested.met);
        // The worst speed of a range is looked for a little differently: a flat maximum.
        approx::assert_relative_eq!(
            own.share_used.unwrap(),
            suggested.share_used.unwrap(),
            max_relative = 2e-3
        );
    }
}

/// A weak pump: the share is counted against what it can still push, and the duty is lost.
#[test]
fn physics_a_weak_actuator_loses_a_duty_that_the_plate_could_do() {
    let strong = part("600 x 230 stainless hydraulic");
    let mut weak = strong.clone();
    let Actuator::Hydraulic(cylinder) = weak.known().actuator else { panic!("hydraulic") };
    let mut spec = *cylinder.spec();
    spec.pump_pressure = Pressure::new::<bar>(6.0);
    weak.known_mut().actuator = Actuator::Hydraulic(Hydraulic::new(spec).unwrap());
    weak.name = "weak".to_owned();
    weak.price.amount = 1.0;
    let ranking = ranking_of(&boat(), vec![weak, strong]);
    assert_eq!(names(&ranking), ["600 x 230 stainless hydraulic", "weak"]);
    let judged = |index: usize| ranking.ranked[index].judged.as_ref().unwrap();
    assert!(judged(0).does_all() && !judged(1).does_all());
    let (strong, weak) = (&judged(0).duties[0], &judged(1).duties[0]);
    assert!(weak.usable < strong.usable);
    assert!(weak.share_used.unwrap() > strong.share_used.unwrap());
    assert!(reasons(&ranking).contains("all that its actuators push there"));
}

#[test]
fn practice_when_nothing_does_all_the_nearest_and_what_it_misses_are_named() {
    let model = part("300 x 200 stainless hydraulic");
    let parts = vec![
        like(&model, "smaller", [250.0, 180.0], 10.0, 2),
        like(&model, "nearest", [320.0, 190.0], 20.0, 2),
    ];
    let ranking = ranking_of(&boat(), parts);
    assert!(!ranking.does_all());
    let said = reasons(&ranking);
    assert!(
        said.starts_with(
            "No part on the shelf does every duty. nearest comes nearest; it misses hump-trim"
        ),
        "{said}"
    );
    assert!(said.contains("deg of trim where 6.80 is asked"), "{said}");
}

#[test]
fn practice_no_planes_needed_ranks_nothing_and_is_no_failure() {
    let mut easy = input();
    let duty =
        Duty::HumpTrim { at_most: Angle::new::<degree>(12.0), from: knots(12.0), to: knots(18.0) };
    easy.duties = vec![duty.into()];
    let ranking = ranking_of(&Boat::build(easy).unwrap(), stock().parts);
    assert!(ranking.no_planes_needed && ranking.does_all() && ranking.ranked.is_empty());
    assert!(reasons(&ranking).starts_with("No planes needed"));
}

#[test]
fn practice_prices_of_several_currencies_are_not_compared() {
    let model = part("600 x 230 stainless hydraulic");
    let mut other = like(&model, "other money", [600.0, 230.0], 1.0, 2);
    other.price.currency = "NOK".to_owned();
    let ranking = ranking_of(&boat(), vec![like(&model, "wide", [640.0, 230.0], 2.0, 2), other]);
    assert_eq!(names(&ranking), ["wide", "other money"]);
    assert!(!ranking.one_currency);
    let said = reasons(&ranking);
    assert!(
        said.contains("prices were not compared") && !said.contains("more for the pair"),
        "{said}"
    );
}

#[test]
fn error_an_empty_list_and_a_linkage_that_cannot_work_are_told() {
    let empty = ranking_of(&boat(), Vec::new());
    assert!(!empty.does_all());
    assert_eq!(reasons(&empty), "The list holds no part that could be used.");
    let mut broken = part("600 x 230 stainless hydraulic");
    broken.known_mut().travel.retracted_length = Length::new::<millimeter>(50.0);
    let ranking = ranking_of(&boat(), vec![broken]);
    assert_eq!(ranking.ranked[0].standing, Standing::CannotBeFitted);
    assert!(reasons(&ranking).contains("cannot be reached"));
}

#[test]
fn regression_every_number_of_the_whole_shelf_is_finite() {
    for ranked in ranking_of(&boat(), stock().parts).ranked {
        let judged = ranked.judged.unwrap();
        for duty in &judged.duties {
            assert!(duty.utilisation.is_finite() && duty.needed.value.is_finite());
            assert!(duty.share_used.is_none_or(f64::is_finite));
            assert_eq!(duty.met, duty.utilisation <= 1.0 + 1e-6, "{}", ranked.part.name);
        }
        let shares = judged
            .strength()
            .unwrap()
            .checks
            .iter()
            .flat_map(|check| [check.steady, check.slamming]);
        assert!(shares.flatten().all(f64::is_finite), "{}", ranked.part.name);
    }
}

/// A part of which only size and price are known is judged by them, and nothing is said of its strength.
#[test]
fn regression_a_part_that_is_not_described_is_ranked_by_size_and_price_and_its_strength_is_not_known()
 {
    let model = part("600 x 230 stainless hydraulic");
    let bare = |name: &str, size_mm, price| Part {
        gear: None,
        supply: None,
        on_hand: None,
        ..like(&model, name, size_mm, price, 0)
    };
    let parts = vec![
        bare("dear", [600.0, 230.0], 400.0),
        bare("small", [300.0, 150.0], 100.0),
        bare("cheap", [600.0, 230.0], 300.0),
        bare("too wide", [1200.0, 230.0], 100.0),
    ];
    let ranking = ranking_of(&boat(), parts);
    assert_eq!(names(&ranking), ["cheap", "dear", "small", "too wide"]);
    let first = &ranking.ranked[0];
    assert_eq!(first.standing, Standing::Does);
    let judged = first.judged.as_ref().unwrap();
    assert!(judged.gear.is_none() && judged.verdict().is_none() && judged.chance.is_some());
    assert!(first.remedy(UnitChoice::from(UnitSystem::Marine)).is_none());
    let lines = lines(&ranking);
    assert!(lines[0].starts_with("By its size cheap is the one to take"), "{}", lines[0]);
    assert!(lines[0].contains("Its strength is not known"), "{}", lines[0]);
    let list = StockList { name: "own.csv".to_owned(), parts: Vec::new(), faults: Vec::new() };
    let blocks = crate::tell::shelf::section(&list, &ranking, UnitSystem::Marine.into());
    let told = format!("{blocks:?}");
    assert!(told.contains("not known i") && told.contains("strength not known"));
    assert!(!told.contains("\"yes\", \"all\", \"yes\""));
    // The chance is that of the pair alone: the boat file's deflection is all there is to limit it.
    let asked = AskedOfReaching::of(std::slice::from_ref(&boat()), &balance::Settings::default())
        .map(|asked| asked.chances(&[first.part.pair().into()], ranking.drawn, &|_| ())[0]);
    assert_eq!(asked.unwrap(), judged.chance.unwrap());
}

/// What is missed where planes of such a chord were not tested is not tested; Savitsky & Brown (1976) tested chords to a tenth of the
/// mean wetted length.
#[test]
fn practice_a_part_that_nobody_tested_is_not_said_to_miss() {
    let model = part("600 x 230 stainless hydraulic");
    let parts = vec![
        Part { gear: None, ..like(&model, "deep", [200.0, 900.0], 100.0, 9) },
        Part { gear: None, ..like(&model, "shallow", [200.0, 60.0], 100.0, 9) },
    ];
    let ranking = ranking_of(&boat(), parts);
    let by_name =
        |name: &str| ranking.ranked.iter().find(|ranked| ranked.part.name == name).unwrap();
    let deep = by_name("deep");
    let judged = deep.judged.as_ref().unwrap();
    assert!(judged.untested.contains(&true));
    assert!(judged.does_all() || deep.standing == Standing::NotTested);
    let shallow = by_name("shallow");
    assert_eq!(shallow.standing, Standing::Misses);
    assert!(!shallow.judged.as_ref().unwrap().untested.contains(&true));
}
