//! What the papers must keep.

use super::*;
use crate::document::{Block, html};
use crate::input::parse_boat;
use crate::size::{schedules_for, suggest_for};
use crate::stock::parse_stock;
use crate::units::UnitChoice;

const BOATS: [&str; 3] = ["wren", "lantern", "holm"];
/// Few, so that the tests are quick.
const DRAWS: u32 = 40;

fn text_of(path: &str) -> String {
    std::fs::read_to_string(format!("{}/data/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

fn gathered(text: &str, with_list: bool) -> Gathered {
    let file = parse_boat("boat.toml", text).unwrap();
    let boats = file.boat.in_all_conditions().unwrap();
    let list = with_list.then(|| parse_stock("planes", &text_of("stock/planes.csv")).unwrap());
    let wanted = Wanted { file, boats, list, units: UnitChoice::default(), draws: DRAWS };
    Gathered::of(wanted, &|_| ()).unwrap()
}

fn demo(name: &str) -> Gathered {
    gathered(&text_of(&format!("boats/{name}.toml")), true)
}

fn words(document: &Document) -> String {
    html::page(document)
}

#[test]
fn regression_every_demo_boat_has_a_paper_for_every_reader_in_one_file() {
    for name in BOATS {
        let gathered = demo(name);
        for reader in Reader::ALL {
            let document = document(&gathered, reader).unwrap();
            let page = words(&document);
            let boat = gathered.boat().name();
            assert!(page.contains(boat), "{name} {}", reader.word());
            assert!(page.contains(&gathered.file.checksum()));
            for outside in ["http://", "https://", "<script", "<link", "NaN", "url("] {
                let found = page.replace("http://www.w3.org/", "").contains(outside);
                assert!(!found, "{name} {}: {outside}", reader.word());
            }
            assert!(document.pictures().count() > 0, "{name} {}", reader.word());
            assert!(document.pictures().all(|picture| !picture.description.is_empty()));
            let cautious = |block: &Block| matches!(block, Block::Caution { .. });
            assert!(document.blocks.iter().any(cautious), "{name} {}", reader.word());
            let again = self::document(&demo(name), reader).unwrap();
            assert_eq!(page, words(&again), "{name} {}", reader.word());
        }
    }
}

#[test]
fn regression_the_schedule_of_the_size_suggested_is_that_of_the_sizing() {
    for name in BOATS {
        let file = parse_boat(name, &text_of(&format!("boats/{name}.toml"))).unwrap();
        let boats = file.boat.in_all_conditions().unwrap();
        let settings = crate::balance::Settings::default();
        let suggestion = suggest_for(&boats, &settings).unwrap();
        let pair = suggestion.pair().unwrap();
        let schedules = schedules_for(&boats, &settings, pair).unwrap();
        for (own, of_size) in schedules.iter().zip(&suggestion.conditions) {
            assert_eq!(own.len(), of_size.schedule.len());
            for (own, of_size) in own.iter().zip(&of_size.schedule) {
                let apart = own.deflection - of_size.deflection;
                assert!(crate::boat::degrees(apart).abs() < 0.02, "{name}: {own:?} {of_size:?}");
            }
        }
    }
}

#[test]
fn physics_planes_lower_the_bow_and_ranges_hold_the_median() {
    for name in BOATS {
        let gathered = demo(name);
        let hump = gathered.hump.as_ref().unwrap();
        let [up, down] = [hump.trim_up().unwrap(), hump.trim_down().unwrap()];
        assert!(down.median < up.median, "{name}");
        for likely in [up, down] {
            assert!(likely.low < likely.median && likely.median < likely.high, "{name}");
        }
    }
}

#[test]
fn regression_the_dealer_reads_the_price_of_the_part_advised_and_two_after_it() {
    let gathered = demo("lantern");
    let ranking = &gathered.shelf.as_ref().unwrap().ranking;
    let page = words(&document(&gathered, Reader::Dealer).unwrap());
    for ranked in &ranking.ranked[..3] {
        assert!(page.contains(&ranked.part.name));
        assert!(page.contains(&crate::stock::rank::amount(ranked.pair_price())));
    }
    assert!(!page.contains(&ranking.ranked[4].part.name));
    assert!(page.contains("Accepted by"));
}

#[test]
fn regression_without_a_stock_list_there_is_a_size_and_no_price() {
    let gathered = gathered(&text_of("boats/wren.toml"), false);
    let page = words(&document(&gathered, Reader::Dealer).unwrap());
    assert!(page.contains(&gathered.suggestion.pair().unwrap().text(gathered.units)));
    assert!(!page.contains("EUR"));
    assert!(page.contains("No stock list was given, so that there is no price."));
}

#[test]
fn regression_a_boat_that_needs_no_planes_is_told_so() {
    let text = text_of("boats/wren.toml");
    let easy = text.replace("at_most = \"6 deg\"", "at_most = \"12 deg\"");
    let easy = easy.replace("at_most = \"6.8 deg\"", "at_most = \"12 deg\"");
    let cut = |text: &str, from: &str, to: &str| {
        let start = text.find(from).unwrap();
        let end = start + text[start..].find(to).unwrap();
        format!("{}{}", &text[..start], &text[end..])
    };
    let easy = cut(&easy, "# Both teenagers aft", "# One angler");
    let gathered = gathered(&easy, true);
    assert_eq!(gathered.advised, Advised::Nothing);
    let dealer = words(&document(&gathered, Reader::Dealer).unwrap());
    assert!(
        dealer.contains("No planes needed: she does everything that is asked of her without them.")
    );
    let owner = words(&document(&gathered, Reader::Owner).unwrap());
    assert!(owner.contains("She does not need trim planes for what you ask of her."));
    assert!(!owner.contains("How to use them"));
    document(&gathered, Reader::Architect).unwrap();
}

#[test]
fn regression_a_boat_that_no_pair_serves_is_told_so() {
    let text = text_of("boats/wren.toml").replace("at_most = \"6 deg\"", "at_most = \"2.5 deg\"");
    let gathered = gathered(&text, true);
    assert!(matches!(gathered.advised, Advised::Short(_)));
    let dealer = words(&document(&gathered, Reader::Dealer).unwrap());
    assert!(dealer.contains("No pair does everything that is asked of her."));
    let owner = words(&document(&gathered, Reader::Owner).unwrap());
    assert!(owner.contains("Read why before you buy any."));
    document(&gathered, Reader::Architect).unwrap();
}

#[test]
fn regression_every_equation_has_a_source_and_a_range() {
    for equation in EQUATIONS {
        for text in [equation.gives, equation.says, equation.source, equation.range] {
            assert!(!text.is_empty(), "{equation:?}");
        }
        assert!(equation.source.chars().any(|letter| letter.is_ascii_digit()), "{equation:?}");
    }
}
