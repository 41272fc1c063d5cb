//! What the papers say of chances, settings, reasons and what was seen: each sentence against the numbers it speaks of.

use uom::si::velocity::knot;

use super::tests::{demo, gathered, gathered_from, text_of, words};
use super::*;
use crate::boat::degrees;
use crate::size::ScheduleRow;

/// A console boat that nods by the wish of her owner: where it asks most nobody can judge it.
const NODS: &str = "for = [\"porpoises\"]\n[hull]\noverall_length = \"6.4 m\"\nchine_beam = \"2.1 m\"\n\
    deadrise = \"22 deg\"\n[weight]\nmass = \"1900 kg\"\n\
    [drive]\nkind = \"outboard\"\npower = \"147 kW\"\ntop_speed = \"36 kn\"\n";
/// A pilothouse boat that pounds.
const POUNDS: &str = "for = [\"pounds\"]\n[hull]\noverall_length = \"8.5 m\"\nchine_beam = \"2.5 m\"\n\
    deadrise = \"20 deg\"\n[weight]\nmass = \"3900 kg\"\n\
    [drive]\nkind = \"outboard\"\nengines = 2\npower = \"220 kW\"\ntop_speed = \"31 kn\"\n";
/// A patrol boat of which two trims were read that her equations cannot both show.
const SEEN: &str = "[hull]\noverall_length = \"12 m\"\nchine_beam = \"3.2 m\"\ndeadrise = \"21 deg\"\n\
    [weight]\nmass = \"14000 kg\"\n[drive]\nkind = \"jet\"\ntop_speed = \"38 kn\"\n\
    [[seen]]\nspeed = \"15 kn\"\ntrim = \"7.5 deg\"\n[[seen]]\nspeed = \"34 kn\"\ntrim = \"3.2 deg\"\n";

fn paper(gathered: &Gathered, reader: Reader) -> String {
    words(&document(gathered, reader).unwrap())
}

fn rows(gathered: &Gathered) -> impl Iterator<Item = (f64, &ScheduleRow)> {
    gathered.main_schedule().iter().map(|row| (row.speed.get::<knot>(), row))
}

#[test]
fn regression_what_is_not_judged_is_in_no_chance_and_no_paper_calls_it_done() {
    let gathered = gathered(NODS, true);
    let suggestion = &gathered.size.suggestion;
    let chance = suggestion.chance.as_ref().unwrap();
    for (duty, each) in suggestion.duties.iter().zip(&chance.each) {
        assert_eq!(duty.is_unjudged(), each.is_none(), "{duty:?}");
    }
    // One duty is left, so that all of them is that one.
    let left: Vec<f64> = chance.each.iter().copied().flatten().collect();
    assert_eq!(left, [chance.reached]);
    for pair in &gathered.duties.pairs {
        let left: Vec<f64> = pair.each.iter().flatten().map(|each| each.share).collect();
        assert_eq!(left, [pair.all.share], "{:?}", pair.pair);
    }
    // No larger pair is less able than a smaller one for what nobody tested.
    let share = |name: &str| {
        let variant = suggestion.variants.iter().find(|variant| variant.name == name).unwrap();
        variant.chance.unwrap()
    };
    for side in ["span", "chord"] {
        let [smaller, larger] =
            [share(&format!("{side} 20 % smaller")), share(&format!("{side} 20 % larger"))];
        assert!(smaller <= chance.reached && chance.reached <= larger, "{smaller} {larger}");
    }
    assert!(!gathered.shelf.as_ref().unwrap().ranking.all_judged);
    let letter = paper(&gathered, Reader::Owner);
    assert!(letter.contains("they do what can be judged of what is asked"));
    for paper in [letter, paper(&gathered, Reader::Dealer), paper(&gathered, Reader::Architect)] {
        for done in ["do all that is asked", "do everything that is asked", "every duty below is"] {
            assert!(!paper.contains(done), "{done}");
        }
        assert!(!paper.contains("the least sure is"));
    }
}

/// Where a margin is asked for it is kept, or all is used that leaves room to the end of the safe run.
#[test]
fn physics_a_margin_asked_for_is_kept_as_far_as_the_pair_reaches() {
    let gathered = gathered(NODS, false);
    let usable = degrees(gathered.size.suggestion.usable_deflection);
    let mut short = 0;
    for (speed_kn, row) in rows(&gathered) {
        let margin = degrees(row.porpoising_margin.unwrap());
        let [used, safe] = [row.deflection, row.largest_safe].map(degrees);
        assert!(used <= safe + 1e-9);
        if margin < 0.3 - 1e-3 {
            short += 1;
            assert!(used >= usable - 1e-6 || used >= safe - 1.0 - 1e-6, "{speed_kn}: {row:?}");
        }
    }
    assert!(short > 0, "at some speed the pair does not reach it");
}

#[test]
fn regression_how_to_set_off_follows_from_the_rows_of_the_table() {
    for (text, deeper_kn) in [(NODS, 16.0), (POUNDS, 21.0)] {
        let gathered = gathered(text, false);
        let letter = paper(&gathered, Reader::Owner);
        let said = letter.split("Setting off").nth(1).unwrap().split("Running").next().unwrap();
        assert!(said.contains("they go deeper at"), "{said}");
        assert!(said.contains(&format!("at {deeper_kn}")), "{said}");
        assert!(!said.contains("bring them up line by line"), "{said}");
    }
}

#[test]
fn regression_what_is_safe_to_fifteen_degrees_but_for_rounding_is_safe_to_fifteen() {
    let gathered = gathered(NODS, false);
    let first = rows(&gathered).next().unwrap().1;
    assert!((degrees(first.largest_safe) - 15.0).abs() < 1e-9);
    assert!(paper(&gathered, Reader::Owner).contains("15°"));
    assert_eq!(helm::at_most(14.999_999_999_999_998), "15°");
    assert_eq!(helm::at_most(14.999), "14°");
    assert_eq!(helm::at_most(0.999), "up");
}

#[test]
fn regression_a_duty_is_asked_for_the_reason_of_its_wish_and_its_place_by_the_hump() {
    let letter = paper(&gathered(POUNDS, false), Reader::Owner);
    assert!(letter.contains("rides softer in a head sea"));
    for wrong in ["sees what lies ahead", "while she climbs onto the plane, from"] {
        assert!(!letter.contains(wrong), "{wrong}");
    }
    let slow = POUNDS.replace("pounds", "slow-to-plane");
    let letter = paper(&gathered(&slow, false), Reader::Owner);
    assert!(letter.contains("comes over the hump sooner"));
    assert!(!letter.contains("sees what lies ahead"));
    let high = POUNDS.replace("pounds", "bow-high");
    assert!(paper(&gathered(&high, false), Reader::Owner).contains("sees what lies ahead"));
}

#[test]
fn regression_where_she_was_seen_otherwise_no_paper_sets_the_planes() {
    // At 34 kn she would trim more than at 15 kn.
    let otherwise = SEEN.replace("3.2 deg", "9 deg");
    let gathered = gathered(&otherwise, true);
    assert!(!gathered.has_settings() && gathered.advised.pair().is_some());
    let chance = gathered.size.suggestion.chance.as_ref().unwrap();
    let missed = chance.seen.all.iter().filter(|seen| seen.is_missed()).count();
    for reader in Reader::ALL {
        let paper = paper(&gathered, reader);
        for set in ["planes as advised", "planes SAVE", "belong up", "° down:", "° down, "] {
            assert!(!paper.contains(set), "{}: {set}", reader.word());
        }
        assert!(missed == 0 || !paper.contains("would have shown"), "{}", reader.word());
    }
    assert_eq!(missed > 0, !gathered.duties.seen.as_ref().unwrap().is_met());
    // Described as she runs she has them.
    let described = SEEN.split("[[seen]]").next().unwrap();
    let gathered = super::tests::gathered(described, true);
    assert!(paper(&gathered, Reader::Architect).contains("planes as advised"));
}

#[test]
fn regression_what_was_read_on_the_water_is_what_the_papers_tell() {
    let seen = SEEN.replace("7.5 deg", "9 deg").replace("3.2 deg", "4.5 deg");
    let gathered = gathered(&seen, true);
    assert!(gathered.has_settings());
    let read = [(15.0, 9.0), (34.0, 4.5)];
    for (speed_kn, trim_deg) in read {
        let at = uom::si::f64::Velocity::new::<knot>(speed_kn);
        let point = gathered.point(gathered.main_loading(), at, Default::default()).unwrap();
        let told_deg = degrees(point.running.unwrap().trim);
        // A reading is sure to 1°, when nothing else is said, and the equations to 0.25° from speed to speed.
        assert!((told_deg - trim_deg).abs() < 1.25, "{speed_kn}: {told_deg}");
        let described = SEEN.split("[[seen]]").next().unwrap();
        let alone = super::tests::gathered(described, false);
        let point = alone.point(alone.main_loading(), at, Default::default()).unwrap();
        let alone_deg = degrees(point.running.unwrap().trim);
        let [told_off, alone_off] = [told_deg, alone_deg].map(|deg| (deg - trim_deg).abs());
        assert!(told_off < 0.5 * alone_off, "{speed_kn}: {told_deg} {alone_deg}");
    }
    for reader in Reader::ALL {
        let paper = paper(&gathered, reader);
        assert!(!paper.contains("SEEN OTHERWISE"), "{}", reader.word());
    }
}

#[test]
fn regression_with_and_without_a_stock_list_the_papers_agree_on_keeping_what_she_has() {
    for name in ["wren", "lantern", "holm"] {
        let [with, without] =
            [demo(name), gathered(&text_of(&format!("boats/{name}.toml")), false)];
        assert_eq!(with.keeps(), without.keeps(), "{name}");
    }
}

#[test]
fn regression_a_list_says_what_it_counts_and_on_which_side() {
    let leans = POUNDS.replace("pounds", "leans");
    let letter = paper(&gathered(&leans, false), Reader::Owner);
    assert!(letter.contains("The other way round when the weight is to port."));
    let windy = format!(
        "{leans}[wind]\nside_area = \"9 m^2\"\nside_height = \"1.5 m\"\nspeed = \"15 kn\"\n"
    );
    let letter = paper(&gathered_from(&windy, None), Reader::Owner);
    assert!(letter.contains("counting the wind of her file too"));
    assert!(!letter.contains("The other way round"));
}

/// Use and never-beyond are the same wherever a letter tells them; a line of the card holds the settings of its speeds, and never goes beyond what is safe at any of them.
#[test]
fn regression_table_loadings_and_card_of_the_letter_agree() {
    let deg = |text: &str| match text.trim_end_matches('°') {
        "up" => 0.0,
        number => number.parse::<f64>().unwrap(),
    };
    let ends = |text: &str| -> [f64; 2] {
        let (from, to) = text.split_once(" to ").unwrap_or((text, text));
        [from, to].map(|end| end.parse().unwrap())
    };
    let all = ["wren", "lantern", "holm"].map(demo).into_iter();
    for gathered in all.chain([gathered(NODS, false), gathered(POUNDS, false)]) {
        let document = document(&gathered, Reader::Owner).unwrap();
        let table = |has: &str| {
            document.blocks.iter().find_map(|block| match block {
                Block::Table(table) if table.columns.iter().any(|column| column.name == has) => {
                    Some(table)
                }
                _ => None,
            })
        };
        let main = table("of full travel").unwrap();
        let card = document.blocks.iter().find_map(|block| match block {
            Block::CutOut(card) => Some(card),
            _ => None,
        });
        let card = card.unwrap();
        assert!(card.columns[0].cells.len() <= 4);
        let lines = |columns: &[crate::document::Column]| {
            let cells = columns[0].cells.iter().zip(&columns[1].cells).zip(&columns[2].cells);
            let down_ends = |text: &str| {
                let (least, deepest) = text.split_once(" to ").unwrap_or((text, text));
                [least, deepest].map(&deg)
            };
            cells.map(|((speed, down), most)| (ends(speed), down_ends(down), deg(most))).collect()
        };
        let main_lines: Vec<([f64; 2], [f64; 2], f64)> = lines(&main.columns);
        let card_lines: Vec<([f64; 2], [f64; 2], f64)> = lines(&card.columns);
        assert!(
            card_lines
                .iter()
                .all(|(_, [least, deepest], most)| least <= deepest && deepest <= most)
        );
        for (speeds, [down_deg, _], most_deg) in &main_lines {
            assert!(down_deg <= most_deg);
            let on_card =
                card_lines.iter().find(|line| line.0[0] <= speeds[0] && speeds[0] <= line.0[1]);
            let on_card = on_card.unwrap();
            let [least, deepest] = on_card.1;
            assert!(least <= *down_deg && on_card.2 <= *most_deg, "{speeds:?}: {on_card:?}");
            assert!(*down_deg <= deepest || deepest == on_card.2, "{speeds:?}: {on_card:?}");
            // Each row bears what the line says, at every one of its speeds.
            let told =
                |row: &&(f64, &ScheduleRow)| speeds[0] - 0.06 <= row.0 && row.0 <= speeds[1] + 0.06;
            for (_, row) in rows(&gathered).filter(|row| told(&row)) {
                assert!(*most_deg <= degrees(row.largest_safe) + 1e-6, "{speeds:?}");
                assert!(*most_deg > degrees(row.largest_safe) - 1.0, "{speeds:?}");
            }
        }
        let hump = gathered.hump.as_ref().unwrap();
        let set = format!("set {:.0}° down", degrees(hump.deflection));
        assert!(paper(&gathered, Reader::Owner).contains(&set), "{set}");
        let name = format!("“{}”", gathered.size.boats[gathered.main_loading()].condition().name);
        let Some(each) = table(&name) else { continue };
        let own = each.columns.iter().find(|column| column.name == name).unwrap();
        for (speed, cell) in each.columns[0].cells.iter().zip(&own.cells) {
            let (down, most) = cell.split_once("\u{a0}/\u{a0}").unwrap();
            let from = ends(speed)[0];
            let line =
                main_lines.iter().find(|line| line.0[0] <= from && from <= line.0[1]).unwrap();
            assert_eq!((deg(down), deg(most)), (line.1[0], line.2), "{name} {speed}");
        }
    }
}
