//! The finished drawing, seen through an independent SVG reader.

use std::collections::HashSet;

use proptest::prelude::*;
use resvg::tiny_skia::{PathSegment, Pixmap};
use resvg::usvg::{self, Node, Tree};

use super::*;
use crate::drawing::geometry::clip_segment;
use crate::drawing::{FONT_FAMILY, Point, Rect, svg_options};
use crate::save::{FileSet, Overwrite};

/// Five trim curves with everything a chart can hold; invented numbers.
fn trim_chart() -> LineChart {
    let mut chart = LineChart::new(
        "Running trim against speed",
        Axis::new("Speed", "kn"),
        Axis::new("Trim", "°"),
    );
    chart.subtitle = Some("Invented runabout, 7 m · inputs partly estimated".to_owned());
    chart.footnote = Some("An estimate for calm water and steady running.".to_owned());
    let speeds = || (0..=52).map(|i| 5.0 + 0.5 * f64::from(i));
    let trim = |speed: f64, deflection: f64| {
        2.6 + 4.0 * (-((speed - 13.0) / 5.0).powi(2)).exp() - 0.0003 * deflection * speed * speed
    };
    for deflection in [0.0, 2.5, 5.0, 7.5, 10.0] {
        let points = speeds().map(|u| (u, trim(u, deflection))).collect();
        let series = Series::new(format!("{deflection:.1}° down"), points);
        chart.series.push(series);
    }
    let edge = |lift: f64| -> Vec<_> {
        let fast = speeds().filter(|u| *u > 15.0);
        fast.map(|u| (u, lift + 85.0 / u)).collect()
    };
    let band = Band::new("porpoising limit", edge(0.4), edge(1.6));
    chart.bands.push(band);
    chart.floors.push(Rule::new("2° floor", 2.0));
    let untested = Region::new("untested: speed coefficient below 2", f64::NEG_INFINITY, 8.2);
    chart.untested.push(untested);
    chart.markers.push(Marker::new("chosen", 22.0, trim(22.0, 5.0)));
    chart
}

/// Many lines, long words, and names that find no room in the plot.
fn crowded_chart() -> LineChart {
    let mut chart = trim_chart();
    chart.title = "every assumption about boat, load and water ".repeat(6);
    chart.subtitle = Some("one very long subtitle with a boat name ".repeat(5));
    chart.y = Axis::new("A long name of a quantity ".repeat(5), "N·m");
    for i in 0..16 {
        let level = 0.5 + 0.3 * f64::from(i);
        let points = vec![(5.0, level), (31.0, level + 0.1)];
        chart.series.push(Series::new(format!("level {i} of a long list of levels"), points));
        chart.markers.push(Marker::new(format!("point {i}"), 12.0, level));
    }
    chart.series.push(Series::new("nothing", Vec::new()));
    chart.floors.push(Rule::new("floor far away", 99.0));
    chart.y.range = Some((0.0, 8.0));
    chart
}

fn tree(svg: &str) -> Tree {
    Tree::from_str(svg, &svg_options()).expect("a valid SVG")
}

fn nodes<'a>(group: &'a usvg::Group, found: &mut Vec<&'a Node>) {
    for node in group.children() {
        found.push(node);
        if let Node::Group(inner) = node {
            nodes(inner, found);
        }
    }
}

fn rect_of(bounds: usvg::Rect) -> Rect {
    Rect {
        left: f64::from(bounds.left()),
        top: f64::from(bounds.top()),
        right: f64::from(bounds.right()),
        bottom: f64::from(bounds.bottom()),
    }
}

/// Every text of a drawing with the box its letters fill, in CSS pixels.
fn texts(tree: &Tree) -> Vec<(String, Rect)> {
    let mut found = Vec::new();
    nodes(tree.root(), &mut found);
    let text_of = |node: &&Node| match node {
        Node::Text(text) => {
            let chunks = text.chunks().iter().map(|chunk| chunk.text());
            let words: String = chunks.collect();
            Some((words, rect_of(text.abs_bounding_box())))
        }
        _ => None,
    };
    found.iter().filter_map(text_of).collect()
}

/// The strokes wide enough to be lines of the chart, in CSS pixels.
fn thick_strokes(tree: &Tree) -> Vec<(Point, Point)> {
    let mut found = Vec::new();
    nodes(tree.root(), &mut found);
    let mut strokes = Vec::new();
    for node in found {
        let Node::Path(path) = node else { continue };
        let is_line = path.stroke().is_some_and(|s| s.width().get() >= 4.5);
        let transform = path.abs_transform();
        let mut pen = [0.0, 0.0];
        for segment in path.data().segments().filter(|_| is_line) {
            let (PathSegment::MoveTo(to) | PathSegment::LineTo(to)) = segment else {
                continue;
            };
            let mut at = to;
            transform.map_point(&mut at);
            let at = [f64::from(at.x), f64::from(at.y)];
            if matches!(segment, PathSegment::LineTo(_)) {
                strokes.push((pen, at));
            }
            pen = at;
        }
    }
    strokes
}

fn pixels(png: &[u8]) -> Pixmap {
    Pixmap::decode_png(png).expect("a valid PNG")
}

fn dark_pixels(picture: &Pixmap) -> usize {
    let is_dark = |p: &&resvg::tiny_skia::PremultipliedColorU8| p.green() < 100;
    picture.pixels().iter().filter(is_dark).count()
}

#[test]
fn physics_every_text_is_really_drawn() {
    for chart in [trim_chart(), crowded_chart()] {
        let svg = chart.svg().expect("drawn");
        let texts = texts(&tree(&svg));
        assert_eq!(texts.len(), svg.matches("<text ").count());
        for (text, bounds) in &texts {
            assert!(bounds.width() > 2.0 && bounds.height() > 2.0, "{text:?}");
        }
        let all: String = texts.into_iter().map(|(text, _)| text + " ").collect();
        for word in ["2° floor", "porpoising limit", "untested:", "chosen", "10.0° down"] {
            assert!(all.contains(word), "{word} is missing in {all}");
        }
    }
}

#[test]
fn physics_text_keeps_off_text_lines_and_the_edge_of_the_sheet() {
    for chart in [trim_chart(), crowded_chart()] {
        let tree = tree(&chart.svg().expect("drawn"));
        let sheet = rect_of(
            usvg::Rect::from_xywh(0.0, 0.0, tree.size().width(), tree.size().height())
                .expect("a sheet"),
        );
        let texts = texts(&tree);
        let strokes = thick_strokes(&tree);
        assert!(strokes.len() > 200);
        for (i, (text, bounds)) in texts.iter().enumerate() {
            assert!(sheet.holds(bounds), "{text} leaves the sheet");
            for (other, other_bounds) in &texts[i + 1..] {
                assert!(!bounds.overlaps(other_bounds), "{text} is on {other}");
            }
            for (a, b) in &strokes {
                assert!(clip_segment(bounds, *a, *b).is_none(), "a line runs through {text}");
            }
        }
    }
}

#[test]
fn practice_no_letter_is_smaller_than_11_pixels() {
    let svg = crowded_chart().svg().expect("drawn");
    let sizes: Vec<f64> = svg
        .split("font-size=\"")
        .skip(1)
        .map(|rest| rest.split('"').next().expect("a size").parse().expect("a number"))
        .collect();
    let least = sizes.iter().copied().fold(f64::MAX, f64::min) / 4.0;
    assert!(least >= 11.0, "{least}");
}

#[test]
fn practice_sheet_has_the_usual_size_and_says_what_it_shows() {
    let svg = trim_chart().svg().expect("drawn");
    let head = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"900\" height=\"560\" viewBox=\"0 0 3600 2240\" ";
    assert!(svg.starts_with(head), "{svg}");
    assert!(svg.contains("<title>Running trim against speed</title>"));
    assert!(svg.contains("<desc>Trim in ° against Speed in kn. Invented runabout, 7 m"));
    assert!(svg.contains("Line 5.0° down: from"));
    // Named once for the whole sheet, and no text names another.
    let families = format!("font-family=\"{FONT_FAMILY}, ");
    assert!(svg.lines().next().is_some_and(|head| head.contains(&families)));
    assert_eq!(svg.matches("font-family").count(), 1);
}

#[test]
fn physics_picture_has_twice_the_pixels_and_ink_on_it() {
    let picture = pixels(&trim_chart().png().expect("a picture"));
    assert_eq!((picture.width(), picture.height()), (1800, 1120));
    let dark = dark_pixels(&picture);
    assert!((10_000..400_000).contains(&dark), "{dark} dark pixels");
}

#[test]
fn physics_title_leaves_ink_on_the_picture() {
    let named = trim_chart();
    let mut bare = named.clone();
    bare.title = "·".to_owned();
    let ink = |chart: &LineChart| dark_pixels(&pixels(&chart.png().expect("a picture")));
    assert!(ink(&named) > ink(&bare) + 500);
}

#[test]
fn regression_same_chart_gives_the_same_bytes() {
    let (first, second) = (trim_chart(), trim_chart());
    assert_eq!(first.svg().expect("drawn"), second.svg().expect("drawn"));
    assert_eq!(first.png().expect("drawn"), second.png().expect("drawn"));
}

#[test]
fn physics_lines_carry_different_dash_patterns() {
    let svg = trim_chart().svg().expect("drawn");
    let dash = |group: &str| {
        let line = group.lines().nth(1).expect("a line");
        let dash = line.split_once("stroke-dasharray=\"").map(|(_, rest)| rest.split_once('"'));
        dash.flatten().map(|(dash, _)| dash.to_owned())
    };
    let dashes: Vec<_> = svg.split("chart-series").skip(1).map(dash).collect();
    assert_eq!(dashes.len(), 5);
    assert_eq!(dashes.iter().collect::<HashSet<_>>().len(), 5);
}

#[test]
fn physics_a_gap_gives_two_strokes() {
    let strokes = |y: f64| {
        let mut chart = LineChart::new("gap", Axis::new("x", ""), Axis::new("y", ""));
        let points = vec![(0.0, 1.0), (1.0, 2.0), (2.0, y), (3.0, 2.0), (4.0, 3.0)];
        chart.series.push(Series::new("line", points));
        let svg = chart.svg().expect("drawn");
        let group = svg.split("chart-series").nth(1).expect("a line");
        let group = group.split("</g>").next().expect("a group");
        // Each part of a path begins with a move.
        let path = group.split_once(" d=\"").expect("a path").1;
        path.matches('M').count()
    };
    assert_eq!(strokes(2.5), 1);
    assert_eq!(strokes(f64::NAN), 2);
    assert_eq!(strokes(f64::INFINITY), 2);
}

#[test]
fn error_odd_contents_are_drawn_and_named() {
    let axis = || Axis::new("", "");
    let empty = LineChart::new("", axis(), axis());
    tree(&empty.svg().expect("drawn"));
    let mut odd = LineChart::new("a < b & \"c\" \u{1}\n", axis(), axis());
    odd.series.push(Series::new("empty", Vec::new()));
    odd.series.push(Series::new("<one>", vec![(3.0, 3.0)]));
    odd.series.push(Series::new("", vec![(f64::NAN, f64::NAN)]));
    odd.bands.push(Band::new("bare band", Vec::new(), vec![(1.0, 1.0)]));
    odd.floors.push(Rule::new("no height", f64::NAN));
    odd.untested.push(Region::new("backwards", 9.0, -9.0));
    odd.markers.push(Marker::new("nowhere", f64::INFINITY, 0.0));
    let svg = odd.svg().expect("drawn");
    let all: String = texts(&tree(&svg)).into_iter().map(|(t, _)| t + " ").collect();
    for words in ["empty (no values)", "<one>", "a < b & \"c\"", "bare band (outside"] {
        assert!(all.contains(words), "{words} is missing in {all}");
    }
}

#[test]
fn error_impossible_ranges_are_refused() {
    for (from, to) in [(1.0, 1.0), (2.0, 1.0), (f64::NAN, 1.0), (0.0, f64::INFINITY)] {
        let mut chart = trim_chart();
        chart.y = Axis::new("Trim", "°").over(from, to);
        assert!(matches!(chart.svg(), Err(ChartError::Range { .. })));
    }
    let mut chart = trim_chart();
    chart.x = chart.x.over(9.0, 5.0);
    assert_eq!(
        chart.svg().expect_err("refused").to_string(),
        "axis 'Speed' cannot run from 9 to 5: give two finite numbers, the smaller one first"
    );
}

#[test]
fn error_only_plain_names_are_written() {
    let directory = tempfile::tempdir().expect("a directory");
    let chart = trim_chart();
    let mut set = FileSet::new(Overwrite::No);
    for stem in ["", "..", "a/b", "a\\b"] {
        let refused = chart.add_to(&mut set, directory.path(), stem);
        assert!(matches!(refused, Err(ChartError::Stem(_))));
    }
    let files = chart.add_to(&mut set, directory.path(), "trim").expect("drawn");
    set.write().expect("written");
    assert_eq!(std::fs::read_to_string(&files.svg).expect("read"), chart.svg().expect("drawn"));
    assert_eq!(std::fs::read(&files.png).expect("read"), chart.png().expect("drawn"));
    assert_eq!(std::fs::read_dir(directory.path()).expect("read").count(), 2);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn physics_any_numbers_give_a_readable_drawing(
        points in prop::collection::vec((prop::num::f64::ANY, prop::num::f64::ANY), 0..9),
        more in prop::collection::vec((-50.0..50.0_f64, -1e9..1e9_f64), 0..9),
        range in prop::option::of((prop::num::f64::ANY, prop::num::f64::ANY)),
    ) {
        let mut chart = LineChart::new("any", Axis::new("x", "m"), Axis::new("y", "N"));
        chart.x.range = range;
        chart.bands.push(Band::new("band", more.clone(), points.clone()));
        chart.series.push(Series::new("wild", points));
        chart.series.push(Series::new("tame", more));
        match chart.svg() {
            Ok(svg) => prop_assert_eq!(texts(&tree(&svg)).len(), svg.matches("<text ").count()),
            Err(error) => {
                let is_range = matches!(error, ChartError::Range { .. });
                prop_assert!(range.is_some() && is_range, "{}", error);
            }
        }
    }
}
