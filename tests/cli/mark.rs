//! The marking-out sheet as text, and the papers written beside it.

use super::texts::WIDTH;
use super::{BOATS, demo, planewright, printed};

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
fn regression_the_pair_and_what_does_not_hold_stand_in_the_first_lines() {
    let text = printed(&["mark", &demo("holm")]);
    let mut lines = text.lines().filter(|line| !line.is_empty());
    let first = lines.next().unwrap_or_default();
    assert_eq!(first, "Marking-out sheet for the pair FITTED ([planes] of the boat file)");
    assert!(lines.next().is_some_and(|line| line.starts_with("UNSAFE IN CALM WATER ALREADY")));
    // Shafts push from ahead of the planes; a leg must be kept clear of.
    assert!(!text.contains("INSIDE THE PROPELLER'S WATER"));
    let of_leg = printed(&["mark", &demo("lantern"), "--advised"]);
    assert!(of_leg.contains("INNER END 45 mm INSIDE THE PROPELLER'S WATER"), "{of_leg}");
    let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("no {words}"));
    let order = [
        "Marking-out sheet for",
        "Cautions: read these first",
        "Know before you start",
        "Where these figures come from",
        "How distances are taken",
        "1. Edges and middle of each plane",
        "2. Holes of one plane",
        "3. Drill table",
        "4. Settings",
        "5. What holds the planes",
        "Steps, in working order",
        "Symmetry check: fill in before the first hole",
        "Wiring and hoses",
        "From the papers of the parts: fill in",
        "As fitted: fill in",
        "Materials",
        "What to measure after fitting",
        "Living with planes",
        "Figures of common practice, no source",
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
    let names = ["marking-out.txt", "marking-out.html", "as-fitted.toml"];
    for name in names.into_iter().chain(["transom.svg", "transom.pdf", "transom.dxf"]) {
        assert!(told.contains(&format!("{name}\n")), "{name}");
        assert!(papers.join(name).is_file(), "{name}");
    }
    assert!(page.contains("<h1>Marking-out sheet for the pair FITTED"));
    // The drawing, and a diagram for each kind of actuator while no part is chosen.
    assert_eq!(page.matches("<img src=\"data:image/svg+xml,").count(), 3);
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

#[test]
fn regression_the_pair_advised_is_marked_out_where_it_is_asked_for() {
    let fitted = printed(&["mark", &demo("lantern"), "--fitted"]);
    let advised = printed(&["mark", &demo("lantern"), "--advised"]);
    assert!(fitted.starts_with("Marking-out sheet for the pair FITTED"), "{fitted}");
    assert!(advised.starts_with("Marking-out sheet for the pair ADVISED"), "{advised}");
    let planes = |text: &str| {
        text.lines().find(|line| line.trim_start().starts_with("Planes ")).map(str::to_owned)
    };
    assert_ne!(planes(&fitted), planes(&advised));
    let bare = planewright(&["mark", &demo("wren"), "--fitted"]);
    assert!(!bare.status.success());
    let said = String::from_utf8_lossy(&bare.stderr).into_owned();
    assert!(
        said.contains("the boat file has no planes, and those fitted were asked for"),
        "{said}"
    );
}

#[test]
fn regression_both_units_stand_beside_each_other_when_asked_for() {
    let both = printed(&["mark", &demo("lantern"), "--both-units"]);
    assert!(both.contains("610 mm (24 in)"), "{both}");
    assert!(!printed(&["mark", &demo("lantern")]).contains("(24 in)"));
}

#[test]
fn regression_the_form_is_read_back_and_tells_what_the_differences_do() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("fitted.toml");
    let file = path.to_str().unwrap();
    let form = printed(&["mark", &demo("lantern"), "--form"]);
    std::fs::write(&path, &form).unwrap();
    let empty = planewright(&["mark", &demo("lantern"), "--as-fitted", file]);
    let said = String::from_utf8_lossy(&empty.stderr).into_owned();
    assert!(!empty.status.success() && said.contains("nothing is filled in"), "{said}");
    // Port comes down 2 deg further than starboard.
    let (port, starboard) = form.split_once("side = \"starboard\"").unwrap();
    let [port, starboard] = [(port, "16"), (starboard, "14")].map(|(text, degrees)| {
        text.replace("# angle_down = \"15.0 deg\"", &format!("angle_down = \"{degrees} deg\""))
    });
    std::fs::write(&path, format!("{port}side = \"starboard\"{starboard}")).unwrap();
    let told = printed(&["mark", &demo("lantern"), "--as-fitted", file]);
    let says = |told: &str, words: &str| {
        assert!(told.split_whitespace().collect::<Vec<_>>().join(" ").contains(words), "{told}");
    };
    for words in ["at the lower stop port by 2.0 deg", "press starboard down", "worth an hour"] {
        says(&told, words);
    }
    says(&told, "Port: the lower stop lies 16.0 deg down, and nothing beyond 15 deg was tested");
    // Judged by what the sheet accepts: 2 mm at hinge and gauge, 3 mm between a pair.
    let one = |side: &str, from: u32, hinge: u32, gauge: u32, up: f64| {
        format!(
            "[[as_fitted]]\nside = \"{side}\"\nfrom_chine = \"{from} mm\"\nhinge_height = \"{hinge} mm\"\n\
             gauge_height = \"{gauge} mm\"\nangle_up = \"{up} deg\"\n"
        )
    };
    std::fs::write(&path, one("port", 95, 7, 40, 1.5) + &one("starboard", 99, 12, 12, 1.5))
        .unwrap();
    let told = printed(&["mark", &demo("lantern"), "--as-fitted", file]);
    for words in [
        "Port: the gauge height stands at 40 mm",
        "Starboard: the hinge line stands at 12 mm",
        "2 mm is accepted",
        "give a gauge height of 13 mm, and 40 mm was measured",
        "The outer ends to the chine differ by 4 mm, port to starboard; 3 mm is accepted",
        "The gauge heights differ by 28 mm",
        "right before the first run",
    ] {
        says(&told, words);
    }
}
