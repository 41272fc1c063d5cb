use super::*;
use crate::error::{Appearance, error_text};

#[test]
fn look() {
    let good = "name = \"A\"\n[hull]\nbottom_length = \"6.5 m\"\nchine_beam = \"2.25 m\"\ndeadrise = \"18 deg\"\n[weight]\nmass = \"2800 kg\"\nlcg = \"2.45 m\"\nvcg = \"0.75 m\"\n";
    let show = |text: &str| match parse_boat("boat.toml", text) {
        Ok(b) => println!("OK {:?}", b.warnings.iter().map(|w| w.to_string()).collect::<Vec<_>>()),
        Err(e) => println!("{}=====", error_text(&e, Appearance::Ascii)),
    };
    show(good);
    for (a, b) in [
        ("2.25 m", "2.25 kg"),
        ("2.25 m", "2.25"),
        ("2.25 m", "2,25 m"),
        ("chine_beam = \"2.25 m\"", ""),
        ("chine_beam", "chine_bem"),
        ("2.25 m", "-2.25 m"),
        ("18 deg", "90 deg"),
        ("2.45 m", "7 m"),
        ("\"2.25 m\"", "2.25"),
        ("\"2.25 m\"", "2.25 m"),
        ("name", "deadrise"),
        ("[weight]\n", "[[load]]\nitem=\"x\"\nmass=\"1 kg\"\n[weight]\n"),
        ("deadrise", "chine_beam"),
        ("18 deg", "29 deg"),
        ("[hull]", "[hul]"),
        ("[hull]", "[hull"),
        ("[weight]", "[[weight]]"),
        ("\"18 deg\"", "\"18 deg"),
        ("\"18 deg\"", ""),
        ("vcg", "tcgg"),
    ] {
        println!("## {a} -> {b}");
        show(&good.replacen(a, b, 1));
    }
    show("name = 3\n[hull]\nchine_beam=\"2 kg\"\ndeadrise=\"95 deg\"\nkeel=1\n[duty]\n[[duty]]");
    show(
        "name = 3\n[hull]\nchine_beam=\"2 kg\"\ndeadrise=\"95 deg\"\nkeel=1\n[[duty]]\nkind=\"hump-trim\"\nspeed=\"3 kn\"\n[[duty]]\nkind=\"list\"\nspeed=\"30 kts\"",
    );
}
