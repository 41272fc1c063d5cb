use super::*;
use crate::boat::Toleranced;
use crate::doubt::advise_with;
use crate::doubt::inputs::What;
use crate::doubt::test_boat::bare;
use crate::input::parse_boat;
use crate::size::{Answer, suggest_for};
use uom::si::f64::Length;
use uom::si::length::millimeter;

const SETTINGS: fn() -> Settings = Settings::default;

/// A boat that needs planes; `more` goes below her tables.
fn boats(more: &str) -> Vec<Boat> {
    let duties = "[[duty]]\nkind = \"hump-trim\"\nat_most = \"6.5 deg\"\nfrom = \"11 kn\"\nto = \"18 kn\"\n\
         [[duty]]\nkind = \"list\"\nmass = \"90 kg\"\ndistance = \"0.7 m\"\nspeed = \"20 kn\"\n";
    let boat = bare(&format!("{duties}{more}"));
    boat.in_all_conditions().unwrap()
}

/// All values of the boat known exactly; only equations and planes are left in doubt.
fn known_exactly() -> String {
    let all = [
        ("hull.chine_beam", "0 m"),
        ("hull.deadrise", "0 deg"),
        ("hull.bottom_length", "0 m"),
        ("weight.mass", "0 kg"),
        ("weight.lcg", "0 m"),
        ("weight.vcg", "0 m"),
        ("drive.thrust_angle", "0 deg"),
        ("drive.thrust_height", "0 m"),
        ("water.temperature", "0 degC"),
    ];
    all.map(|(of, by)| format!("[[tolerance]]\nof = \"{of}\"\nby = \"{by}\"\n")).concat()
}

fn drawn(draws: u32) -> Drawn {
    Drawn { draws, seed: 3 }
}

fn suggested(boats: &[Boat]) -> PlanePair {
    let suggestion = suggest_for(boats, &SETTINGS()).unwrap();
    assert!(matches!(suggestion.answer, Answer::Pair(_)), "she needs planes");
    suggestion.pair().unwrap()
}

/// Nothing in doubt: the pair suggested does all on every boat, the bare boat on none, and the
/// least pair for any share of boats is the one suggested.
#[test]
fn physics_without_any_doubt_every_boat_answers_as_the_one_described() {
    let boats = boats("");
    let pair = suggested(&boats);
    let mut described = Described::of(&boats, &SETTINGS()).unwrap();
    described.inputs = described.inputs.without(|_| true);
    let doubt = described.duties(&[pair.into()], Some(pair), drawn(3), &|_| ()).unwrap();
    let [bare, with] = doubt.pairs.as_slice() else { panic!("two") };
    assert!(bare.all.share < 1e-9 && (with.all.share - 1.0).abs() < 1e-9);
    for need in &doubt.needs {
        assert_eq!(need.needed.low, need.needed.high, "{need:?}");
        assert!(need.usable.share > 0.99);
    }
}

/// Wherever all is done each is done; a larger pair of the same chord is as likely to do at least
/// as much; more boats do it with planes than without.
#[test]
fn physics_shares_agree_with_each_other() {
    let boats = boats("");
    let pair = suggested(&boats);
    let wider = PlanePair { span: 1.2 * pair.span, ..pair };
    let doubt = duties(&boats, &SETTINGS(), &[pair, wider], None, drawn(40), &|_| ()).unwrap();
    for row in &doubt.pairs {
        assert!(row.each.iter().flatten().all(|each| each.share >= row.all.share), "{row:?}");
    }
    let [bare, own, larger] = doubt.pairs.as_slice() else { panic!("three") };
    assert!(bare.all.share < own.all.share && own.all.share <= larger.all.share);
    assert!((0.15..0.85).contains(&own.all.share), "about half: {:?}", own.all);
    assert_eq!(doubt.duties.len(), 2);
}

#[test]
fn physics_the_same_seed_judges_alike_on_one_thread_or_many() {
    let boats = boats("");
    let pair = suggested(&boats);
    let run = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let doubt = pool.install(|| {
            duties(&boats, &SETTINGS(), &[pair], Some(pair), drawn(12), &|_| ()).unwrap()
        });
        format!("{doubt:?}")
    };
    assert_eq!(run(1), run(3));
}

/// A heavier condition is judged with the same boats drawn: off by the same in both.
#[test]
fn physics_all_conditions_of_a_boat_are_off_by_the_same() {
    let boats = boats(
        "[[condition]]\nname = \"full\"\n[[condition.load]]\nitem = \"guests\"\nmass = \"300 kg\"\n\
         forward = \"2.2 m\"\nup = \"0.9 m\"\n",
    );
    assert_eq!(boats.len(), 2);
    let inputs = Inputs::of(&boats[0]);
    let draw = Draws::new(&inputs, 5).draw(7);
    let [normal, full] = [0, 1].map(|index| {
        let own = boats[index].particulars();
        (own, draw.particulars(&own))
    });
    let factor = |(own, drawn): &(Particulars, Particulars)| drawn.weight.mass / own.weight.mass;
    let step = |(own, drawn): &(Particulars, Particulars)| drawn.weight.lcg - own.weight.lcg;
    approx::assert_relative_eq!(factor(&normal).value, factor(&full).value, max_relative = 1e-12);
    approx::assert_relative_eq!(step(&normal).value, step(&full).value, max_relative = 1e-9);
    let pair = suggested(&boats);
    let doubt = duties(&boats, &SETTINGS(), &[pair], Some(pair), drawn(10), &|_| ()).unwrap();
    assert!(doubt.needs.iter().any(|need| need.condition == "full"));
    assert!(doubt.duties.iter().all(|held| held.conditions.len() == 2));
}

/// Half of the boats: near the size for the boat as described. More of them: never smaller.
#[test]
fn physics_the_size_grows_with_the_chance_and_is_the_usual_one_at_an_even_one() {
    let at = |chance: &str| {
        let boats = boats(&format!("{}[sizing]\nchance = \"{chance}\"\n", known_exactly()));
        let told = advise_with(&boats, &SETTINGS(), drawn(120), &|_| ()).unwrap();
        let chance = told.chance.clone().expect("it was drawn");
        assert!(chance.is_reached(), "{chance:?}");
        (told.exact.expect("some pair does").area(), chance.even.expect("a pair").area())
    };
    let ((half, even), (most, _)) = (at("50 %"), at("80 %"));
    assert!(half <= most * 1.02, "{half:?} {most:?}");
    let ratio = (half / even).value;
    assert!((0.75..1.35).contains(&ratio), "{ratio}");
}

#[test]
fn physics_a_chance_that_no_size_reaches_says_so_with_the_best() {
    let boats = boats("[transom]\ninner_clearance = \"620 mm\"\n[sizing]\nchance = \"99 %\"\n");
    let told = advise_with(&boats, &SETTINGS(), drawn(60), &|_| ()).unwrap();
    if let Some(chance) = &told.chance {
        assert!(!chance.is_reached() && chance.reached < 0.99, "{chance:?}");
        assert!(told.exact.is_none());
    } else {
        assert!(!told.does_all());
    }
}

#[test]
fn physics_the_effectiveness_of_planes_matters_to_what_they_must_do() {
    let boats = boats(&known_exactly());
    let pair = suggested(&boats);
    let doubt = duties(&boats, &SETTINGS(), &[], Some(pair), drawn(1024), &|_| ()).unwrap();
    let planes = doubt
        .follows
        .iter()
        .find(|i| i.what == What::Value(Toleranced::PlaneEffectiveness))
        .unwrap();
    // Four standard errors of 1024 draws from none.
    assert!(planes.rank_correlation < -4.0 / 1024_f64.sqrt(), "{:?}", doubt.follows);
}

#[test]
fn physics_the_least_resistance_of_a_boat_drawn_is_found_near_that_of_the_one_described() {
    let cases = [
        (
            "lightly loaded",
            boats("[[duty]]\nkind = \"least-resistance\"\nwithin = \"5 %\"\nspeed = \"22 kn\"\n"),
        ),
        (
            "near the hump",
            boats("[[duty]]\nkind = \"least-resistance\"\nwithin = \"5 %\"\nspeed = \"13 kn\"\n"),
        ),
        ("wren", {
            let text = format!(
                "{}\n[[duty]]\nkind = \"least-resistance\"\nwithin = \"5 %\"\nspeed = \"24 kn\"\n",
                include_str!("../../data/boats/wren.toml")
            );
            let boat = parse_boat("wren.toml", &text).unwrap().boat;
            boat.in_all_conditions().unwrap()
        }),
    ];
    for (name, boats) in cases {
        let described = Described::of(&boats, &SETTINGS()).unwrap();
        let limits = described
            .ask_all(drawn(150), &|_| (), |boat| boat.resistance_limits_n(&described.asked.asking));
        let off: Vec<f64> = limits.iter().flatten().map(|[near, full]| near / full - 1.0).collect();
        assert!(off.len() >= 150, "{name}: {}", off.len());
        let worst = off.iter().copied().fold(0.0, f64::max);
        let mean = off.iter().sum::<f64>() / off.len() as f64;
        // The duty allows 5 % more than the least. A tenth of that on any boat, and a five-hundredth in
        // the mean, moves the share of boats by less than the draws themselves do.
        assert!(worst < 5e-3 && mean < 1e-4, "{name}: worst {worst:e}, mean {mean:e}");
        assert!(off.iter().all(|&off| off > -1e-3), "{name}");
    }
}

/// Fully down, large planes carry so much that the porpoising limit itself falls below the floor of the trim, and less
/// deflection does it: such a pair counts as able, and a larger one never as less able than a smaller one.
#[test]
fn physics_a_margin_is_done_by_less_deflection_where_all_of_it_is_too_much() {
    let text = "for = [\"porpoises\"]\n[hull]\noverall_length = \"6.4 m\"\nchine_beam = \"2.1 m\"\n\
        deadrise = \"20 deg\"\n[weight]\nmass = \"1900 kg\"\n\
        [drive]\nkind = \"outboard\"\npower = \"147 kW\"\ntop_speed = \"36 kn\"\n";
    let boats = [parse_boat("console", text).unwrap().boat];
    let pair = |span_mm: f64| PlanePair {
        span: Length::new::<millimeter>(span_mm),
        chord: Length::new::<millimeter>(225.0),
    };
    let pairs: Vec<PlanePair> = [350.0, 525.0, 700.0, 800.0].map(pair).to_vec();
    let doubt = duties(&boats, &SETTINGS(), &pairs, None, drawn(60), &|_| ()).unwrap();
    let shares: Vec<f64> = doubt.pairs[1..].iter().map(|row| row.all.share).collect();
    assert!(shares.windows(2).all(|two| two[0] <= two[1] + 1e-9), "{shares:?}");
    assert!(shares[3] > 0.5, "{shares:?}");
}
