//! What pages are made of: safe headers, labels for every field, and a way without the script.

use super::client::Server;

const PAGES: [&str; 5] = [
    "/",
    "/form",
    "/desk?boat=lantern&stock=demo&forces=on",
    "/desk?form=1&chine_beam=2",
    "/nowhere",
];

#[test]
fn regression_every_answer_carries_the_headers_that_keep_it_in_its_place() {
    let server = Server::start(&[]);
    let files = ["desk.css", "desk.js", "htmx.js"].map(|name| server.asset(name));
    let pages = PAGES.iter().chain(&["/boat-file?boat=wren"]).map(|&page| page.to_owned());
    for address in pages.chain(files) {
        let head = server.get(&address).head.to_lowercase();
        for header in [
            "content-security-policy: default-src 'none'; script-src 'self';",
            "x-content-type-options: nosniff",
            "x-frame-options: deny",
            "referrer-policy: same-origin",
            "cache-control: ",
        ] {
            assert!(head.contains(header), "{address}: {header} in {head}");
        }
    }
}

#[test]
fn regression_pages_hold_nothing_that_their_policy_forbids() {
    let server = Server::start(&[]);
    for address in PAGES {
        let text = server.get(address).text();
        assert!(!text.contains(" style=\"") && !text.contains("<style"), "{address}");
        assert!(!text.contains("onclick") && !text.contains("javascript:"), "{address}");
        let elsewhere = text.matches("http").count()
            - text.matches("http://www.w3.org/2000/svg").count()
            - text.matches("http-equiv").count();
        assert_eq!(elsewhere, 0, "{address} points elsewhere");
    }
}

#[test]
fn practice_every_field_has_a_label() {
    let server = Server::start(&[]);
    for address in PAGES {
        let text = server.get(address).text();
        for kind in ["<input", "<select", "<textarea"] {
            for rest in text.split(kind).skip(1) {
                let tag = rest.split('>').next().unwrap();
                if tag.contains("type=\"hidden\"") || tag.contains(" hidden") {
                    continue;
                }
                let id = tag.split("id=\"").nth(1).and_then(|rest| rest.split('"').next());
                let id = id.unwrap_or_else(|| panic!("{address}: a field without a name: {tag}"));
                assert!(text.contains(&format!("for=\"{id}\"")), "{address}: {id} has no label");
            }
        }
    }
}

#[test]
fn practice_names_are_given_once_and_all_references_lead_somewhere() {
    let server = Server::start(&[]);
    for address in PAGES {
        let text = server.get(address).text();
        let ids: Vec<&str> = values(&text, " id=\"").collect();
        for id in &ids {
            assert_eq!(ids.iter().filter(|other| *other == id).count(), 1, "{address}: {id}");
        }
        let references =
            values(&text, "aria-describedby=\"").chain(values(&text, "aria-labelledby=\""));
        for id in references.flat_map(str::split_whitespace).chain(values(&text, " for=\"")) {
            assert!(ids.contains(&id), "{address}: {id} leads nowhere");
        }
        assert_eq!(text.matches("<h1").count(), 1, "{address}");
        assert!(
            text.contains("class=\"skip\"") && text.contains("<html lang=\"en\">"),
            "{address}"
        );
    }
}

fn values<'a>(text: &'a str, start: &'a str) -> impl Iterator<Item = &'a str> {
    text.split(start).skip(1).filter_map(|rest| rest.split('"').next())
}

#[test]
fn practice_the_page_works_without_its_script() {
    let server = Server::start(&[]);
    let text = server.get("/desk?boat=lantern").text();
    // Buttons outside a form name the one that they send.
    for button in text.split("<button").skip(1) {
        let tag = button.split('>').next().unwrap();
        if tag.contains("formaction") {
            assert!(tag.contains("form=\"controls\""), "{tag}");
        }
    }
    for form in text.split("<form").skip(1) {
        let form = form.split("</form>").next().unwrap();
        assert!(form.contains("action=\"/") && form.contains("method=\""), "{form}");
        assert!(form.contains("type=\"submit\""), "{form}");
    }
    // What the sliders send leads to the same page with them set.
    let page = server
        .get("/desk?boat=lantern&units=marine&in=marine&speed=21.5&deflection=4.5&planes=fitted");
    assert!(page.text().contains("value=\"21.5\"") && page.text().contains("value=\"4.5\""));
    // Other units show the same speed.
    let page = server
        .get("/desk?boat=lantern&units=imperial&in=marine&speed=20&planes=fitted&deflection=5");
    assert!(page.plain().contains("At 23 mph"), "{}", page.plain());
}

#[test]
fn practice_pictures_and_charts_speak() {
    let server = Server::start(&[]);
    let text = server.get("/desk?boat=lantern&stock=demo").text();
    let drawings = text.matches("<svg xmlns").count();
    assert!(drawings >= 7, "{drawings}");
    assert_eq!(text.matches("role=\"img\"").count(), drawings);
    assert!(text.matches("<desc>").count() >= drawings);
}
