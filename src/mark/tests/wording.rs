//! The sheet and the drawing say the same, and in the reader's units.

use super::fixtures::{boat_with_edge, built, drive_leg, inches, mm, pair, part};
use crate::document::{Block, html};
use crate::mark::say::Say;
use crate::mark::{Placement, SheetUnits, drawing_svg, sheet, sheet_with_drawing};
use crate::plane::strength::Verdict;

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

const SYSTEMS: [SheetUnits; 2] = [SheetUnits::Millimetres, SheetUnits::Inches];

fn words(placement: &Placement, units: SheetUnits) -> String {
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
            let hinges = place("Drill for the hinges");
            assert!(hinges < place("Drill the lead-through"));
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
            let gauge = say.length(placement.gauge.trailing_edge);
            assert!(text.contains(&gauge) && svg.contains(&gauge));
        }
    }
}

/// Figures that used to stand for every boat and part, whatever it was.
#[test]
fn regression_no_figure_is_the_same_for_every_boat_and_part() {
    for units in [SheetUnits::Millimetres, SheetUnits::Inches, SheetUnits::Both] {
        for placement in placements() {
            let text = words(&placement, units);
            for figure in ["hand-tight,", "70 %", "soapy", "counterbore", "6.4 mm", "12.7"] {
                assert!(!text.contains(figure), "{figure} in {units:?}");
            }
            for word in ["common practice", "Why here", "Where these figures come from"] {
                assert!(text.contains(word), "{word}");
            }
        }
    }
}

#[test]
fn regression_one_unit_on_a_sheet_unless_both_are_asked_for() {
    for placement in placements() {
        let metric = words(&placement, SheetUnits::Millimetres);
        let inches = words(&placement, SheetUnits::Inches);
        assert!(!metric.contains(" in)") && !metric.contains("/16") && !metric.contains("/64"));
        assert!(!inches.contains(" mm"), "{}", inches.split(" mm").next().unwrap_or_default());
        assert!(words(&placement, SheetUnits::Both).contains(" mm ("));
    }
}

#[test]
fn regression_the_drawing_adds_itself_to_the_sheet_and_nothing_else() {
    for placement in placements() {
        let mut drawn = sheet_with_drawing(&placement, SheetUnits::Millimetres);
        let svgs: Vec<_> = drawn.pictures().map(|picture| picture.svg.clone()).collect();
        assert_eq!(svgs[0], drawing_svg(&placement, SheetUnits::Millimetres));
        // One diagram for what moves the planes, or one of each kind while nobody chose.
        assert_eq!(svgs.len(), if placement.hardware.is_chosen() { 2 } else { 3 });
        drawn.blocks.retain(|block| !matches!(block, Block::Pictures(_)));
        assert_eq!(drawn, sheet(&placement, SheetUnits::Millimetres));
    }
}

#[test]
fn regression_what_must_be_read_first_opens_the_sheet() {
    let mut warned = 0;
    for placement in placements() {
        let sheet = sheet(&placement, SheetUnits::Millimetres);
        let lines = placement.warnings(SheetUnits::Millimetres);
        let first = sheet.blocks.iter().map_while(|block| match block {
            Block::Alert(line) => Some(line),
            _ => None,
        });
        assert!(first.eq(&lines));
        // The first line is no milder than the worst row of the table.
        let rows = placement.holding.checks.iter().filter_map(|check| check.verdict());
        let head = lines.first().map_or("", String::as_str);
        match rows.max() {
            Some(Verdict::Unsafe) => assert!(head.starts_with("UNSAFE"), "{head}"),
            Some(Verdict::NoSlammingAllowance) => assert!(head.starts_with("NO ALLOW"), "{head}"),
            Some(Verdict::Bears) | None => assert!(!head.contains("TABLE 5"), "{head}"),
        }
        warned += lines.len();
    }
    assert!(warned > 0);
}

/// A part whose screws are too weak: its own holes are opened where its edge allows it.
#[test]
fn practice_bolts_go_through_the_parts_own_holes() {
    let mut fast = boat_with_edge(inches(46.0), 18.0);
    fast.drive.top_speed = Some(uom::si::f64::Velocity::new::<uom::si::velocity::knot>(18.0));
    let boat = built(fast);
    let text = |edge_mm: f64| {
        let mut part = part();
        let gear = part.known_mut();
        gear.bracket_screws.diameter = mm(4.0);
        gear.bracket_screws.edge_distance = mm(edge_mm);
        let placement = Placement::new(&boat, pair(24.0, 9.0), Some(&part)).expect("room");
        let bolts = placement.holding.bolts.bracket.bolts().expect("bolts for weak screws");
        assert!(bolts.bolt.hole > mm(4.5), "{}", bolts.bolt.name());
        words(&placement, SheetUnits::Millimetres)
    };
    assert!(text(14.0).contains("open them to"));
    let near = text(5.0);
    assert!(near.contains("STOP: the bracket"));
}

#[test]
fn regression_no_letter_of_the_drawing_stands_below_the_border() {
    // The border is 8 mm from the edge of an A4 sheet on its side.
    let border = 210.0 - 8.0;
    let mut warned = 0;
    for placement in placements() {
        warned += placement.warnings(SheetUnits::Millimetres).len();
        let svg = drawing_svg(&placement, SheetUnits::Millimetres);
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
    let svg = drawing_svg(&placements()[0], SheetUnits::Millimetres);
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
