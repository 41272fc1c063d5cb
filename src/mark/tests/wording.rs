//! The sheet and the drawing say the same, and in the reader's units.

use super::fixtures::{boat_with_edge, built, drive_leg, inches, pair, part};
use crate::document::{Block, html};
use crate::mark::say::Say;
use crate::mark::{Placement, drawing_svg, sheet, sheet_with_drawing};
use crate::units::UnitSystem;

fn placements() -> Vec<Placement> {
    let mut input = boat_with_edge(inches(46.0), 18.0);
    input.transom.obstacles = vec![drive_leg(14.0)];
    let boat = built(input);
    let small = built(boat_with_edge(inches(31.0), 12.0));
    let wide = built(boat_with_edge(inches(72.0), 16.0));
    [
        Placement::new(&boat, pair(24.0, 9.0), Some(&part())),
        Placement::new(&small, pair(12.0, 9.0), None),
        Placement::new(&wide, pair(42.0, 14.0), None),
    ]
    .map(|placement| placement.expect("room").with_checksum("0badcafe"))
    .to_vec()
}

const SYSTEMS: [UnitSystem; 2] = [UnitSystem::Metric, UnitSystem::Imperial];

fn words(placement: &Placement, units: UnitSystem) -> String {
    html::page(&sheet(placement, units))
}

#[test]
fn regression_the_sheet_opens_with_cautions() {
    for placement in placements() {
        for units in SYSTEMS {
            let text = words(&placement, units);
            let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("no {words}"));
            assert!(place("Cautions: read these first") < place("Steps, in working order"));
            assert!(place("Steps, in working order") < place(">Materials"));
            let hinges = ["Drill the hinge pilots", "Drill the bolt holes of the hinges"];
            let hinges = hinges.iter().find_map(|words| text.find(words)).expect("hinge holes");
            assert!(hinges < place("Drill through"));
            assert!(place("Prove the symmetry") < hinges);
            assert!(text.contains("input 0badcafe"));
        }
    }
}

#[test]
fn physics_every_dimension_of_the_drawing_stands_on_the_sheet() {
    for placement in placements() {
        for units in SYSTEMS {
            let say = Say(units);
            let (text, svg) = (words(&placement, units), drawing_svg(&placement, units));
            let gap = placement.edge() - placement.outer;
            let mut lengths = vec![placement.inner, placement.outer, placement.edge(), gap];
            lengths.extend(placement.brackets.iter().map(|bracket| bracket.above_hinge));
            lengths.extend(placement.brackets.iter().map(|bracket| bracket.off_centre));
            for length in lengths {
                let words = say.length(length);
                assert!(text.contains(&words), "{words} is not on the sheet");
                assert!(svg.contains(&words), "{words} is not on the drawing");
            }
            let gauge = say.fine(placement.gauge.trailing_edge);
            assert!(text.contains(&gauge) && svg.contains(&gauge));
        }
    }
}

#[test]
fn practice_the_facts_of_the_trade_are_on_the_sheet() {
    // Common practice, no source.
    let all = placements();
    let sheets: Vec<String> =
        all.iter().map(|placement| words(placement, UnitSystem::Imperial)).collect();
    let text = sheets.join("\n");
    let pilots = ["5/32 in", "3/16 in", "two turns past hand-tight"];
    let has_pilots = all
        .iter()
        .flat_map(|placement| &placement.holes)
        .any(|hole| hole.kind == crate::mark::holes::HoleKind::HingePilot);
    for fact in pilots.into_iter().filter(|_| has_pilots).chain([
        "5/16 in",
        "3/4 in (19 mm) and about 1 in deep",
        "soapy water or 70 % alcohol",
        "1/4 in above the bottom edge",
        "at mid-span (the gauge height): 1/2 in",
        "1.6 deg",
    ]) {
        assert!(text.contains(fact), "{fact} is missing");
    }
}

#[test]
fn regression_the_drawing_adds_itself_to_the_sheet_and_nothing_else() {
    for placement in placements() {
        let mut drawn = sheet_with_drawing(&placement, UnitSystem::Metric);
        let svgs: Vec<_> = drawn.pictures().map(|picture| picture.svg.clone()).collect();
        assert_eq!(svgs, [drawing_svg(&placement, UnitSystem::Metric)]);
        drawn.blocks.retain(|block| !matches!(block, Block::Pictures(_)));
        assert_eq!(drawn, sheet(&placement, UnitSystem::Metric));
    }
}

#[test]
fn regression_what_must_be_read_first_opens_the_sheet() {
    let mut warned = 0;
    for placement in placements() {
        let sheet = sheet(&placement, UnitSystem::Metric);
        match (placement.warning(), &sheet.blocks[0]) {
            (Some(warning), Block::Alert(first)) => {
                assert_eq!(first, warning);
                warned += 1;
            }
            (None, first) => assert!(!matches!(first, Block::Alert(_))),
            (Some(_), first) => panic!("{first:?} opens the sheet"),
        }
    }
    assert!(warned > 0);
}

#[test]
fn regression_no_letter_of_the_drawing_stands_below_the_border() {
    // The border is 8 mm from the edge of an A4 sheet on its side.
    let border = 210.0 - 8.0;
    let mut warned = 0;
    for placement in placements() {
        warned += usize::from(placement.warning().is_some());
        let svg = drawing_svg(&placement, UnitSystem::Metric);
        let texts = svg.split("<text").skip(1);
        let mut feet = texts.filter_map(|text| {
            let (head, _) = text.split_once('>')?;
            let number = |name: &str| -> Option<f64> {
                head.split_once(&format!(" {name}=\""))?.1.split_once('"')?.0.parse().ok()
            };
            // Letters such as g and y go a quarter of their size below the line.
            Some(number("y")? + 0.25 * number("font-size")?)
        });
        let lowest = feet.next().map(|first| feet.fold(first, f64::max)).expect("texts");
        assert!(lowest <= border, "{lowest} mm");
    }
    assert!(warned > 0);
}

#[test]
fn regression_the_drawing_keeps_all_its_text_in_the_embedded_font() {
    let svg = drawing_svg(&placements()[0], UnitSystem::Metric);
    let mut options = resvg::usvg::Options::default();
    options.fontdb_mut().load_font_data(dejavu::sans::regular().to_vec());
    let tree = resvg::usvg::Tree::from_str(&svg, &options).expect("valid SVG");
    let texts = texts_in(tree.root());
    assert_eq!(texts, svg.matches("<text").count());
    assert!(texts > 30);
}

fn texts_in(group: &resvg::usvg::Group) -> usize {
    let count = |node: &resvg::usvg::Node| match node {
        resvg::usvg::Node::Text(_) => 1,
        resvg::usvg::Node::Group(group) => texts_in(group),
        _ => 0,
    };
    group.children().iter().map(count).sum()
}
