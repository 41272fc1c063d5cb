//! The marking-out sheet as text, and the papers written beside it.

use super::texts::WIDTH;
use super::{BOATS, demo, printed};

#[test]
fn regression_the_sheet_keeps_within_100_columns_of_plain_letters() {
    let part = ["--stock", "data/stock/planes.csv", "--part", "600 x 230 stainless hydraulic"];
    for boat in BOATS {
        for units in ["metric", "imperial"] {
            for of_part in [&[][..], &part[..]] {
                let file = demo(boat);
                let asked = [&["mark", &file, "--units", units], of_part].concat();
                let text = printed(&asked);
                assert!(text.is_ascii(), "{asked:?}");
                let widest = text.lines().map(|line| line.chars().count()).max();
                assert!(widest.is_some_and(|widest| widest <= WIDTH), "{asked:?}: {widest:?}");
            }
        }
    }
}

#[test]
fn regression_through_bolts_are_announced_in_the_first_line() {
    let text = printed(&["mark", &demo("holm")]);
    assert!(text.starts_with("NO ALLOWANCE FOR SLAMMING"), "{text}");
    let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("no {words}"));
    let order = [
        "Marking-out sheet for a pair of trim planes",
        "Cautions: read these first",
        "Know before you start",
        "How distances are taken",
        "1. Edges and middle of each plane",
        "2. Holes of one plane",
        "3. Drill table",
        "4. Settings",
        "5. What holds the planes",
        "Steps, in working order",
        "Symmetry check: fill in before the first hole",
        "Materials",
        "What to measure after fitting",
        "Living with planes",
        "Made by",
        "Size of the planes from",
    ];
    assert!(order.map(place).is_sorted());
}

#[test]
fn regression_the_sheet_is_written_as_a_page_with_its_drawing_too() {
    let folder = tempfile::tempdir().unwrap();
    let papers = folder.path().join("papers");
    let told = printed(&["mark", &demo("lantern"), "--papers", papers.to_str().unwrap()]);
    let read = |name: &str| std::fs::read_to_string(papers.join(name)).unwrap();
    let (page, text) = (read("marking-out.html"), read("marking-out.txt"));
    assert!(told.starts_with(&text));
    for name in ["marking-out.txt", "marking-out.html", "transom.svg", "transom.pdf"] {
        assert!(told.contains(&format!("{name}\n")), "{name}");
        assert!(papers.join(name).is_file(), "{name}");
    }
    assert!(page.contains("<h1>Marking-out sheet for a pair of trim planes</h1>"));
    assert_eq!(page.matches("<img src=\"data:image/svg+xml,").count(), 1);
    for outside in ["src=\"http", "href=", "<script", "@import", "url("] {
        assert!(!page.contains(outside), "{outside}");
    }
    // Every step of the text is a heading of the page.
    let is_step =
        |line: &&str| line.starts_with("  ") && line.trim_start().starts_with(char::is_numeric);
    let steps = text.split("Steps, in working order").nth(1).unwrap();
    let steps = steps.split("Symmetry check").next().unwrap();
    let titles: Vec<_> = steps
        .lines()
        .filter(is_step)
        .filter_map(|line| line.trim().split_once(". "))
        .filter(|(number, _)| number.chars().all(char::is_numeric))
        .collect();
    assert!(titles.len() > 15, "{titles:?}");
    for (number, title) in titles {
        assert!(page.contains(&format!("<h3>{number}. {title}</h3>")), "{number}. {title}");
    }
}
