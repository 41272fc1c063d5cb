//! What stays when an answer is bad, and the page to send.

use serde_json::Value;

use super::session::{DRAWS, Session, program, root};

#[tokio::test]
async fn practice_a_bad_answer_leaves_the_boat_and_units_leave_the_pair() {
    let session = Session::start().await;
    session.open("/desk?boat=lantern&stock=demo&planes=fitted&speed=20&deflection=4").await;
    session.sure().await;
    let pair = session.text(".plate .size").await;
    session.run("document.querySelectorAll('details').forEach(d => d.open = true); document.getElementById('text').value = '[hull]'; return true").await;
    session.find(".mend button").await.click().await.unwrap();
    session
        .wait(
            "the faults",
            "return document.getElementById('notice').textContent.includes('is missing')",
        )
        .await;
    assert_eq!(session.text("h1").await, "Lantern Bay");
    assert_eq!(session.text(".plate .size").await, pair);
    session.shot("19-bad-text-keeps-the-boat-desktop").await;
    session.drag("speed", 22.0).await;
    session
        .wait("the boat goes on", "return document.getElementById('speed_now').textContent.trim() === '22 kn' && document.getElementById('notice').textContent === ''")
        .await;
    session.find(".units button[value=imperial]").await.click().await.unwrap();
    session
        .wait(
            "other units",
            "return document.getElementById('speed_now')?.textContent.includes('mph')",
        )
        .await;
    let inches = session.text(".plate .size").await;
    let whole = |text: &str| text.split(' ').next().unwrap().parse::<f64>().unwrap();
    // The same pair in inches and sixteenths.
    let span = whole(&pair) / 25.4;
    assert!(inches.ends_with(" in") && (span - 1.0..=span).contains(&whole(&inches)), "{inches}");
    session.shot("20-other-units-desktop").await;
    session.end().await;
}

#[tokio::test]
async fn practice_the_page_to_send_works_by_itself_on_a_telephone() {
    let session = Session::start().await;
    let page = session.folder.path().join("send.html");
    let output = std::process::Command::new(program())
        .args(["report", "data/boats/lantern.toml", "--for", "buyer", "--draws", DRAWS, "--out"])
        .arg(&page)
        .current_dir(root())
        .output()
        .expect("the program starts");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    session.phone().await;
    session.driver.goto(format!("file://{}", page.display())).await.expect("it opens");
    session.assert_no_complaint().await;
    session.shot("21-page-to-send-phone").await;
    let pair: Vec<f64> = {
        let output = std::process::Command::new(program())
            .args(["size", "data/boats/lantern.toml", "--draws", DRAWS, "--json"])
            .current_dir(root())
            .output()
            .expect("the program starts");
        let told: Value = serde_json::from_slice(&output.stdout).expect("one JSON object");
        ["span_m", "chord_m"].map(|key| 1e3 * told[key].as_f64().expect("a pair")).to_vec()
    };
    let text = std::fs::read_to_string(root().join("data/boats/lantern.toml")).unwrap();
    let (before, after) = text.split_once("[planes]\n").unwrap();
    let after: Vec<&str> = after
        .lines()
        .filter(|line| !line.starts_with("span") && !line.starts_with("chord"))
        .collect();
    let boat = session.folder.path().join("boat.toml");
    let planes = format!("[planes]\nspan = \"{:.0} mm\"\nchord = \"{:.0} mm\"\n", pair[0], pair[1]);
    std::fs::write(&boat, format!("{before}{planes}{}\n", after.join("\n"))).unwrap();
    let picture = session.run("return document.querySelector('#picture svg').outerHTML").await;
    for (speed, down) in [(16, 6), (24, 0), (30, 9)] {
        let place = format!(
            "return JSON.parse(document.getElementById('values').textContent).loadings[document.getElementById('loading').value].speeds.indexOf({speed})"
        );
        let place = session.run(&place).await.as_f64().unwrap();
        session.drag("speed", place).await;
        session.drag("planes", f64::from(down)).await;
        assert_eq!(session.text("#speed_now").await, format!("{speed} kn"));
        let condition = session.run("const s = document.getElementById('loading'); return s.options[s.selectedIndex].textContent").await;
        let output = std::process::Command::new(program())
            .args(["run", boat.to_str().unwrap(), "--json", "--speed", &format!("{speed} kn")])
            .args([
                "--deflection",
                &format!("{down} deg"),
                "--condition",
                condition.as_str().unwrap(),
            ])
            .output()
            .expect("the program starts");
        let told: Value = serde_json::from_slice(&output.stdout).expect("one JSON object");
        let point = &told["points"][0];
        let trim = format!("{:.1}°", point["trim_deg"].as_f64().unwrap());
        let resistance = format!("{:.0} N", point["resistance_n"].as_f64().unwrap());
        assert_eq!(session.text("#trim_set").await, trim, "{speed} kn, {down}");
        assert_eq!(session.text("#resistance_set").await, resistance, "{speed} kn, {down}");
    }
    let moved = session.run("return document.querySelector('#picture svg').outerHTML").await;
    assert_ne!(picture, moved);
    // Too deep is said first, and never beyond stands beside the slider.
    session.drag("planes", 15.0).await;
    assert!(session.text("#danger").await.starts_with("Danger. Too far down: never beyond"));
    assert!(session.text("#never").await.starts_with("Never beyond"));
    session.shot("22-page-to-send-too-deep-phone").await;
    session.find("#advised").await.click().await.unwrap();
    assert!(!session.text("#danger").await.contains("Too far down"));
    session.desktop().await;
    session.shot("23-page-to-send-desktop").await;
    session.print("23-page-to-send-printed").await;
    session.end().await;
}
