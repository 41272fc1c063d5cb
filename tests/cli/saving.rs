//! Files that the program writes: all or none, nothing replaced unasked, no input ever, nothing half after a kill.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};

use super::{demo, printed, refusal};

/// Every file of a folder by its name.
fn files_in(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let Ok(entries) = folder.read_dir() else { return BTreeMap::new() };
    let one = |entry: std::fs::DirEntry| {
        let name = entry.file_name().into_string().unwrap();
        (name, std::fs::read(entry.path()).unwrap())
    };
    entries.map(|entry| one(entry.unwrap())).collect()
}

/// An error text in one line; names of folders may be broken.
fn one_line(text: &str) -> String {
    text.split_whitespace().filter(|&word| word != "|").collect::<Vec<_>>().join(" ")
}

/// What a command says that is refused, in one line.
fn refused(arguments: &[&str]) -> String {
    one_line(&refusal(arguments))
}

/// A text in a folder, and its name.
fn put(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

fn text_of(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
}

#[test]
fn error_charts_papers_and_pages_replace_nothing_unasked() {
    let lantern = demo("lantern");
    let commands: [&[&str]; 3] = [
        &["run", &lantern, "--speed", "20 kn", "--charts"],
        &["mark", &lantern, "--papers"],
        &["manual", "--into"],
    ];
    for command in commands {
        let folder = tempfile::tempdir().unwrap();
        let into = folder.path().join("made").join("below");
        let asked = [command, &[into.to_str().unwrap()]].concat();
        printed(&asked);
        let made = files_in(&into);
        assert!(made.len() >= 6, "{command:?}");
        let text = refused(&asked);
        assert!(text.contains(&format!("{} files exist already in ", made.len())), "{text}");
        assert!(text.contains(&format!(" and {} more", made.len() - 4)), "{text}");
        assert!(text.contains("--force") && text.contains("nothing was written"), "{text}");
        printed(&[&asked[..], &["--force"]].concat());
        assert_eq!(made, files_in(&into), "{command:?}");
        // Whichever of them is in the way, none of the others is written.
        for name in [made.keys().next().unwrap(), made.keys().next_back().unwrap()] {
            std::fs::remove_dir_all(&into).unwrap();
            std::fs::create_dir(&into).unwrap();
            put(&into, name, "mine");
            let text = refused(&asked);
            assert!(text.contains(&format!("{name}: the file exists already")), "{text}");
            assert_eq!(files_in(&into), BTreeMap::from([(name.clone(), b"mine".to_vec())]));
        }
    }
}

#[test]
fn error_no_input_is_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let stations =
        put(folder.path(), "heron-bottom.csv", &text_of("data/stations/heron-bottom.csv"));
    let heron = put(folder.path(), "heron.toml", &text_of("data/stations/heron.toml"));
    let lantern = put(folder.path(), "trim.svg", &text_of(&demo("lantern")));
    let stock = put(folder.path(), "stock.csv", &text_of("data/stock/planes.csv"));
    let log = put(folder.path(), "log.csv", &text_of("data/trials/lantern.csv"));
    let dealer = folder.path().join("dealer.toml").to_str().unwrap().to_owned();
    printed(&["new", "--dealer", &dealer]);
    let logo =
        put(folder.path(), "logo.png", "\u{feff}<svg xmlns=\"http://www.w3.org/2000/svg\"/>");
    let own = std::fs::read_to_string(&dealer).unwrap();
    let named = own.lines().map(|line| match line.contains("logo") {
        true => "logo = \"logo.png\"",
        false => line,
    });
    std::fs::write(&dealer, named.collect::<Vec<_>>().join("\n")).unwrap();
    let hard = folder.path().join("hard.csv");
    std::fs::hard_link(&stock, &hard).unwrap();
    let hard = hard.to_str().unwrap();
    let into = folder.path().to_str().unwrap();
    let before = files_in(folder.path());
    let offer = ["report", &lantern, "--for", "dealer", "--stock", &stock, "--dealer", &dealer];
    let cases: [(&[&str], &str); 9] = [
        (&["report", &heron, "--for", "owner", "--out", &heron], &heron),
        (&["report", &heron, "--for", "owner", "--out", &stations], &stations),
        (&[&offer[..], &["--out", &stock]].concat(), &stock),
        (&[&offer[..], &["--out", hard]].concat(), hard),
        (&[&offer[..], &["--out", &dealer]].concat(), &dealer),
        (&[&offer[..], &["--out", &logo]].concat(), &logo),
        (&["trial", &lantern, &log, "--write", &lantern], &lantern),
        (&["trial", &lantern, &log, "--write", &log], &log),
        (&["run", &lantern, "--speed", "20 kn", "--charts", into], &lantern),
    ];
    for (command, target) in cases {
        let text = refused(&[command, &["--force"]].concat());
        assert!(text.contains("read here") && text.contains("never written over"), "{text}");
        let name = Path::new(target).file_name().unwrap().to_str().unwrap();
        assert!(text.contains(name), "{text}");
        assert_eq!(before, files_in(folder.path()), "{command:?}");
    }
}

#[cfg(unix)]
#[test]
fn error_an_output_that_is_no_file_is_refused() {
    let wren = demo("wren");
    for more in [&[][..], &["--force"]] {
        let report = ["report", &wren, "--for", "owner", "--out", "/dev/null"];
        let text = refused(&[&report[..], more].concat());
        assert!(text.contains("/dev/null: this is a device, not a file"), "{text}");
        let text = refused(&[&["new", "/dev/null"][..], more].concat());
        assert!(text.contains("/dev/null: this is a device, not a file"), "{text}");
    }
}

#[test]
fn error_the_file_that_the_output_goes_to_is_not_replaced() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out.txt");
    let printed = std::fs::File::create(&out).unwrap();
    let output = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(["new", out.to_str().unwrap(), "--force"])
        .stdout(printed)
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let text = one_line(&String::from_utf8(output.stderr).unwrap());
    assert!(text.contains("what is printed here goes to it"), "{text}");
    assert!(text.contains("nothing was written"), "{text}");
    assert_eq!(files_in(folder.path()), BTreeMap::from([("out.txt".to_owned(), Vec::new())]));
}

/// Moments at which a process is killed; `PLANEWRIGHT_KILLS` gives another number, such as 200.
fn kills() -> u32 {
    std::env::var("PLANEWRIGHT_KILLS").map_or(20, |text| text.parse().expect("a number"))
}

/// A process that writes, killed at some moment; whether it had finished by then.
fn killed(arguments: &[&str], at: impl FnOnce()) -> bool {
    let mut child = Command::new(env!("CARGO_BIN_EXE_planewright"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    at();
    let finished = child.try_wait().unwrap().is_some();
    child.kill().unwrap();
    child.wait().unwrap();
    finished
}

fn is_unfinished(name: &str) -> bool {
    name.starts_with(".unfinished-")
}

#[test]
fn regression_a_kill_at_any_moment_leaves_no_half_file_and_nothing_for_good() {
    let lantern = demo("lantern");
    let papers = ["mark", &lantern, "--force", "--papers"];
    let charts = ["run", &lantern, "--speed", "20 kn", "--force", "--charts"];
    let mut random = ChaCha8Rng::seed_from_u64(1);
    let mut interrupted = 0;
    for command in [&papers[..], &charts] {
        let whole = tempfile::tempdir().unwrap();
        let began = Instant::now();
        printed(&[command, &[whole.path().to_str().unwrap()]].concat());
        let lasted = began.elapsed();
        let new = files_in(whole.path());
        for round in 0..kills().div_ceil(2) {
            let folder = tempfile::tempdir().unwrap();
            let into = folder.path().to_str().unwrap();
            let mut old = BTreeMap::new();
            if round % 2 == 0 {
                for name in new.keys() {
                    put(folder.path(), name, "mine");
                }
                old = files_in(folder.path());
            }
            let asked = [command, &[into]].concat();
            let share = f64::from(random.next_u32()) / f64::from(u32::MAX);
            // Half of the moments lie anywhere, half after the writing has begun.
            let finished = killed(&asked, || {
                if round % 4 < 2 {
                    std::thread::sleep(lasted.mul_f64(1.2 * share));
                    return;
                }
                let began = Instant::now();
                let has_begun = || {
                    let mut entries = folder.path().read_dir().unwrap();
                    entries
                        .any(|entry| is_unfinished(&entry.unwrap().file_name().to_string_lossy()))
                };
                while !has_begun() && began.elapsed() < Duration::from_secs(60) {
                    std::thread::yield_now();
                }
                std::thread::sleep(Duration::from_millis(20).mul_f64(share * share));
            });
            let found = files_in(folder.path());
            let is_left = found.keys().any(|name| is_unfinished(name));
            interrupted += u32::from(is_left);
            assert!(!(finished && is_left), "{asked:?}");
            for (name, bytes) in found.iter().filter(|(name, _)| !is_unfinished(name)) {
                let is_whole = new.get(name) == Some(bytes) || old.get(name) == Some(bytes);
                assert!(is_whole, "{name} is half written");
            }
            for name in old.keys() {
                assert!(found.contains_key(name), "{name} is gone");
            }
            printed(&asked);
            assert!(files_in(folder.path()) == new, "something was left behind");
        }
    }
    assert!(interrupted > 0, "no process was killed while it wrote");
}
