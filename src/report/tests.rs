//! What the papers must keep.

use super::*;
use crate::document::{Block, html};
use crate::hydro::tank_fit::COEFFICIENTS;
use crate::input::parse_boat;
use crate::size::{schedules_for, suggest_for};
use crate::stock::parse_stock;
use crate::units::UnitChoice;

const BOATS: [&str; 3] = ["wren", "lantern", "holm"];
/// Few, so that the tests are quick.
const DRAWS: u32 = 40;

pub(super) fn text_of(path: &str) -> String {
    std::fs::read_to_string(format!("{}/data/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

pub(super) fn gathered(text: &str, with_list: bool) -> Gathered {
    gathered_from(text, with_list.then(|| text_of("stock/planes.csv")).as_deref())
}

pub(super) fn gathered_from(text: &str, list: Option<&str>) -> Gathered {
    let file = parse_boat("boat.toml", text).unwrap();
    let boats = file.boat.in_all_conditions().unwrap();
    let list = list.map(|list| parse_stock("planes", list).unwrap());
    let wanted =
        Wanted { file, boats, list, units: UnitChoice::default(), draws: DRAWS, offer: None };
    Gathered::of(wanted, &|_| ()).unwrap()
}

pub(super) fn demo(name: &str) -> Gathered {
    gathered(&text_of(&format!("boats/{name}.toml")), true)
}

pub(super) fn words(document: &Document) -> String {
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
            assert!(page.contains(&gathered.size.file.checksum()));
            for outside in ["http://", "https://", "<script", "<link", "NaN", "url("] {
                let found = page.replace("http://www.w3.org/", "").contains(outside);
                assert!(!found, "{name} {}: {outside}", reader.word());
            }
            // The pictures of the page to send are of its script, which `bytes` adds.
            let drawn = reader == Reader::Buyer || document.pictures().count() > 0;
            assert!(drawn, "{name} {}", reader.word());
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

/// A run, a sizing, the draws and the papers mean the same speed when they say hump.
#[test]
fn regression_there_is_one_hump() {
    use crate::balance::sensitivity::Landmarks;
    for name in BOATS {
        let gathered = demo(name);
        let told = gathered.hump.as_ref().unwrap();
        let (boat, settings) = (&gathered.size.boats[told.loading], &gathered.size.settings);
        let hump = crate::balance::Hump::of(boat, settings).unwrap();
        assert_eq!(told.speed, hump.speed, "{name}");
        assert_eq!(told.up.hump_trim.as_ref().unwrap().speed, hump.speed, "{name}");
        let of_size = &gathered.size.suggestion.conditions[told.loading];
        assert_eq!(of_size.hump_speed, hump.speed, "{name}");
        assert_eq!(of_size.hump_trim_bare, hump.trim, "{name}");
        for deflection_deg in [0.0, 5.0] {
            let deflection = uom::si::f64::Angle::new::<uom::si::angle::degree>(deflection_deg);
            let fitted = gathered.fitted(told.loading).unwrap();
            let landmarks = Landmarks::of(&fitted, settings, deflection).unwrap();
            assert_eq!(landmarks.hump.unwrap().speed, hump.speed, "{name}");
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
        assert!(page.contains(&crate::tell::shelf::amount(ranked.pair_price())));
    }
    assert!(!page.contains(&ranking.ranked[4].part.name));
    assert!(page.contains("Accepted by"));
}

#[test]
fn regression_without_a_stock_list_there_is_a_size_and_no_price() {
    let gathered = gathered(&text_of("boats/wren.toml"), false);
    let page = words(&document(&gathered, Reader::Dealer).unwrap());
    assert!(page.contains(&gathered.size.suggestion.pair().unwrap().text(gathered.size.units)));
    assert!(!page.contains("EUR"));
    assert!(page.contains("No stock list was given, so that there is no price."));
}

#[test]
fn regression_a_boat_that_needs_no_planes_is_told_so() {
    let text = text_of("boats/wren.toml");
    let relief = "kind = \"relief\"\nat_least = \"2 deg\"";
    assert!(text.contains(relief));
    let height = "kind = \"hump-trim\"\nat_most = \"14 deg\"\nfrom = \"9.5 kn\"\nto = \"16 kn\"";
    let easy = text.replace(relief, height);
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
    let text = text_of("boats/wren.toml").replace("at_least = \"2 deg\"", "at_least = \"8 deg\"");
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

#[test]
fn regression_the_best_estimate_is_printed_with_the_coefficients_in_use() {
    let printed = EQUATIONS.iter().find(|equation| equation.gives == "best estimate").unwrap();
    let [one, slow, deadrise, both] = COEFFICIENTS.map(|own| format!("{own:.3}").replace('-', "−"));
    let k = format!("k = 1 {} + {slow} s + ({deadrise} + {both} s)", one.replace('−', "− "));
    assert!(printed.says.starts_with(&k), "{} {k}", printed.says);
}

/// Power, centre of gravity and thrust line left out.
const SPARSE: &str = r#"
    name = "Kittiwake"
    hull = { overall_length = "7.4 m", chine_beam = "2.25 m", deadrise = "18 deg" }
    weight = { mass = "2600 kg" }
    drive = { kind = "outboard", top_speed = "30 kn" }
"#;

#[test]
fn regression_what_was_estimated_is_named_in_words_and_what_is_missing_is_said() {
    let gathered = gathered(SPARSE, true);
    for reader in [Reader::Dealer, Reader::Owner] {
        let page = words(&document(&gathered, reader).unwrap());
        assert!(page.contains("how far forward her weight lies, how high her weight lies"));
        assert!(!page.contains("weight.lcg"), "{}", reader.word());
    }
    let record = words(&document(&gathered, Reader::Architect).unwrap());
    assert!(record.contains("weight.lcg"));
    assert!(record.contains("Not computed. drive.power: is not given"));
}

#[test]
fn regression_a_boat_that_never_planes_is_not_said_to_need_no_planes() {
    let heavy_aft = SPARSE.replace("\"2600 kg\"", "\"2600 kg\", lcg = \"0.2 m\"");
    for list in [true, false] {
        let gathered = gathered(&heavy_aft, list);
        assert_eq!(gathered.advised, Advised::Short(None));
        assert_eq!(gathered.chance(), None);
        for reader in [Reader::Dealer, Reader::Owner] {
            let page = words(&document(&gathered, reader).unwrap());
            assert!(page.contains("Nothing can be said about planes for her: "));
            assert!(!page.contains("No planes needed") && !page.contains("in 100"));
        }
        document(&gathered, Reader::Architect).unwrap();
    }
}

#[test]
fn regression_a_list_with_nothing_that_does_all_leads_to_the_size_by_calculation() {
    let list = text_of("stock/planes.csv");
    let small = list.lines().filter(|line| !line.starts_with(['4', '5', '6', '7', '9']));
    let small: String = small.map(|line| format!("{line}\n")).collect();
    let gathered = gathered_from(&text_of("boats/lantern.toml"), Some(&small));
    assert!(gathered.part().is_none());
    assert_eq!(gathered.advised.pair(), gathered.size.suggestion.pair());
    let page = words(&document(&gathered, Reader::Dealer).unwrap());
    assert!(page.contains("Nothing in the stock list does all of it often enough."));
    assert!(page.contains("Nearest in the stock list"));
}

#[test]
fn regression_prices_in_several_currencies_are_not_called_the_best() {
    let mut lines: Vec<String> = text_of("stock/planes.csv").lines().map(str::to_owned).collect();
    let last = lines.last_mut().unwrap();
    *last = last.replace(",EUR,", ",NOK,");
    let gathered = gathered_from(&text_of("boats/lantern.toml"), Some(&lines.join("\n")));
    let dealer = words(&document(&gathered, Reader::Dealer).unwrap());
    assert!(dealer.contains("The list has several currencies: prices were not compared"));
    let owner = words(&document(&gathered, Reader::Owner).unwrap());
    assert!(!owner.contains("costs least"));
}

/// What was seen on the water is said in every paper, and so is that it does not fit.
#[test]
fn regression_papers_say_what_was_seen() {
    let text = text_of("boats/wren.toml");
    let with = |trim: &str| {
        let seen = format!("\n[[seen]]\nspeed = \"11 kn\"\ntrim = \"{trim}\"\n");
        gathered(&format!("{text}{seen}"), false)
    };
    let fits = with("7 deg");
    let seen = "her trim of 7.0° at 11 kn (sure to 1.0°)";
    for reader in Reader::ALL {
        let page = words(&document(&fits, reader).unwrap());
        let said = if reader == Reader::Architect { "What was seen" } else { seen };
        assert!(page.contains(said), "{}", reader.word());
        assert!(!page.contains("Nothing was measured") && !page.contains("Nobody measured"));
        assert!(!page.contains("does not fit"), "{}", reader.word());
    }
    let odd = with("1.6 deg");
    for reader in Reader::ALL {
        let page = words(&document(&odd, reader).unwrap());
        assert!(page.contains("does not fit"), "{}", reader.word());
    }
    assert_eq!(super::seen(&odd).len(), 2);
    assert!(super::seen(&gathered(&text, false)).is_empty());
}

/// The page of a dealer with a file of his own: everything that it says stands there, and no text becomes markup.
#[test]
fn regression_a_dealers_file_makes_the_page_an_offer() {
    let text = crate::offer::starter_offer()
        .replace("\"Fairlead Marine\"", "\"Fair & <b>lead</b>\"")
        .replace("\"A. Buyer\"", "\"<script>alert(1)</script>\"");
    let offer = crate::offer::parse_offer("dealer.toml", &text, std::path::Path::new("")).unwrap();
    let gathered = Gathered { offer: Some(offer.clone()), ..demo("wren") };
    let paper = document(&gathered, Reader::Dealer).unwrap();
    assert_eq!(paper.subject, "Offer 2026-041");
    let page = words(&paper);
    let kit = offer.kit(&gathered.part().unwrap().part);
    for said in ["31 December 2026", "Two-way switch with wiring", "VAT 20 %", "To pay"] {
        assert!(page.contains(said), "{said}");
    }
    assert!(page.contains(&format!("{:.2}", kit.total)));
    let html = crate::document::html::page(&paper);
    assert!(
        html.contains("Fair &amp; &lt;b&gt;lead&lt;/b&gt;")
            && html.contains("&lt;script&gt;alert(1)")
    );
    assert!(!html.contains("<script>") && !html.contains("<b>"));
    // Without a list there is no price, and no kit.
    let bare = Gathered { shelf: None, ..gathered };
    let page = words(&document(&bare, Reader::Dealer).unwrap());
    assert!(page.contains("31 December 2026") && !page.contains("To pay"));
}

/// The relief that the page tells of the size by calculation is the one that the sizing tells.
#[test]
fn regression_the_relief_of_a_pair_is_that_of_the_sizing() {
    let gathered = gathered(&text_of("boats/wren.toml"), false);
    let chance = gathered.size.suggestion.chance.as_ref().unwrap();
    let (_, relief) = gathered.relief().unwrap();
    assert_eq!(chance.relief, Some([relief.low, relief.median, relief.high]));
}

/// No range stands beside another that it overlaps: of the bow there is one.
#[test]
fn regression_the_boxes_of_the_dealers_page_hold_one_range() {
    for name in ["wren", "lantern", "holm"] {
        let blocks = document(&demo(name), Reader::Dealer).unwrap().blocks;
        let boxes = blocks.iter().find_map(|block| match block {
            Block::KeyNumbers(numbers) => Some(numbers.clone()),
            _ => None,
        });
        let ranges =
            boxes.unwrap().iter().filter(|number| number.likely.starts_with("likely")).count();
        assert!(ranges <= 1, "{name}: {ranges}");
    }
}
