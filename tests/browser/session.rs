//! A browser at a page of a server of its own.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};
use thirtyfour::prelude::*;
use tokio::sync::{Mutex, MutexGuard};

/// Said where there is no browser.
const MISSING: &str = "these tests need Chromium and its driver: install them, on Debian and its like with `apt-get install chromium chromium-driver`";
/// What keeps Chromium quiet and to itself.
const ARGUMENTS: [&str; 9] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
];
/// Boats drawn, by the page as by whatever it is held against: few, to be quick.
pub const DRAWS: &str = "100";
/// Longest wait for something on the page.
const PATIENCE: Duration = Duration::from_secs(60);

/// One browser at a time: two would only take turns.
static ONE: Mutex<()> = Mutex::const_new(());

/// A program of which the output is read, stopped when dropped.
struct Program(Child);

impl Drop for Program {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// A browser with a server.
pub struct Session {
    pub driver: WebDriver,
    pub folder: tempfile::TempDir,
    port: u16,
    _programs: [Program; 2],
    _turn: MutexGuard<'static, ()>,
}

/// Starts a program and reads lines until one tells its port.
fn started(command: &mut Command, port_in: impl Fn(&str) -> Option<u16>) -> (Program, u16) {
    let child = command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn();
    let mut child = match child {
        Ok(child) => child,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => panic!("{MISSING}"),
        Err(error) => panic!("{error}; {MISSING}"),
    };
    let lines = BufReader::new(child.stdout.take().expect("a pipe"));
    let mut lines = lines.lines();
    let port = loop {
        let line = lines.next().unwrap_or_else(|| panic!("it ended without a port; {MISSING}"));
        if let Some(port) = port_in(&line.expect("text")) {
            break port;
        }
    };
    // What it says later is read away, so that it never waits for a reader.
    std::thread::spawn(move || lines.for_each(drop));
    (Program(child), port)
}

fn digits_after(line: &str, start: &str) -> Option<u16> {
    let rest = line.split(start).nth(1)?;
    rest.chars().take_while(char::is_ascii_digit).collect::<String>().parse().ok()
}

/// The folder of the project.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().expect("the project")
}

/// The program, built before.
pub fn program() -> PathBuf {
    let program = root().join("target/release/planewright");
    assert!(
        program.is_file(),
        "{} is missing; build it first: cargo build --release",
        program.display()
    );
    program
}

impl Session {
    pub async fn start() -> Self {
        let turn = ONE.lock().await;
        let mut driver = Command::new("chromedriver");
        let (driver_program, driver_port) = started(driver.arg("--port=0"), |line| {
            // The first line names port 0; the one that counts comes later.
            line.contains("successfully").then(|| digits_after(line, "on port ")).flatten()
        });
        let mut server = Command::new(program());
        server.args(["serve", "--port", "0", "--draws", DRAWS, "--json"]).current_dir(root());
        let (server_program, port) = started(&mut server, |line| digits_after(line, "\"port\": "));
        let folder = tempfile::tempdir().expect("a folder");
        let mut wanted = DesiredCapabilities::chrome();
        for argument in ARGUMENTS {
            wanted.add_arg(argument).expect("an argument");
        }
        let profile = format!("--user-data-dir={}", folder.path().join("profile").display());
        wanted.add_arg(&profile).expect("an argument");
        let address = format!("http://127.0.0.1:{driver_port}");
        let driver = WebDriver::new(address, wanted)
            .await
            .unwrap_or_else(|error| panic!("Chromium does not start: {error}; {MISSING}"));
        let session =
            Self { driver, folder, port, _programs: [driver_program, server_program], _turn: turn };
        session.desktop().await;
        session
    }

    pub async fn end(self) {
        self.driver.clone().quit().await.expect("it ends");
    }

    pub async fn open(&self, address: &str) {
        let address = format!("http://127.0.0.1:{}{address}", self.port);
        self.driver.goto(address).await.expect("the page opens");
    }

    pub async fn send(&self, method: &str, parameters: Value) -> Value {
        self.driver.cdp().send_raw(method, parameters).await.expect("the browser obeys")
    }

    /// A page printed to PDF; a browser that shares the machine with others now and then fails to print, and is asked again.
    pub async fn printed(&self, parameters: Value) -> Value {
        for _ in 0..3 {
            let printed = self.driver.cdp().send_raw("Page.printToPDF", parameters.clone()).await;
            if let Ok(printed) = printed {
                return printed;
            }
        }
        self.send("Page.printToPDF", parameters).await
    }

    async fn screen(&self, width: u32, height: u32, is_phone: bool) {
        let scale = if is_phone { 2 } else { 1 };
        let size = json!({"width": width, "height": height, "deviceScaleFactor": scale, "mobile": is_phone});
        self.send("Emulation.setDeviceMetricsOverride", size).await;
    }

    pub async fn desktop(&self) {
        self.screen(1440, 900, false).await;
    }

    /// The least screen that a desk still has.
    pub async fn small_desktop(&self) {
        self.screen(1366, 768, false).await;
    }

    pub async fn phone(&self) {
        self.screen(390, 844, true).await;
    }

    /// The whole page as a picture under `target/screens`.
    pub async fn shot(&self, name: &str) {
        // Lettering and pictures first.
        self.run("return document.fonts.ready.then(() => true)").await;
        let parameters = json!({"format": "png", "captureBeyondViewport": true});
        let shot = self.send("Page.captureScreenshot", parameters).await;
        let picture = decoded(shot["data"].as_str().expect("a picture"));
        assert!(picture.starts_with(b"\x89PNG") && picture.len() > 10_000, "{name} is empty");
        let folder = screens();
        std::fs::create_dir_all(&folder).expect("a folder");
        std::fs::write(folder.join(format!("{name}.png")), picture).expect("a file");
    }

    /// The page as it would be printed.
    pub async fn print(&self, name: &str) {
        self.send("Emulation.setEmulatedMedia", json!({"media": "print"})).await;
        self.shot(name).await;
        self.send("Emulation.setEmulatedMedia", json!({"media": ""})).await;
        let paper = json!({"printBackground": false, "paperWidth": 8.27, "paperHeight": 11.69});
        let printed = self.send("Page.printToPDF", paper).await;
        let bytes = decoded(printed["data"].as_str().expect("a paper"));
        assert!(bytes.starts_with(b"%PDF"));
        std::fs::create_dir_all(screens()).expect("a folder");
        std::fs::write(screens().join(format!("{name}.pdf")), bytes).expect("a file");
    }

    /// A picture of the page again, as a printer without colours or a colour-blind eye has it.
    pub async fn grey(&self, name: &str) {
        let grey = json!({"type": "achromatopsia"});
        self.send("Emulation.setEmulatedVisionDeficiency", grey).await;
        self.shot(&format!("{name}-grey")).await;
        self.send("Emulation.setEmulatedVisionDeficiency", json!({"type": "none"})).await;
    }

    /// Waits for how sure the answer is.
    pub async fn sure(&self) {
        let there =
            "return document.querySelectorAll('#sure_answer .key-numbers section').length === 3";
        self.wait("how sure", there).await;
    }

    /// Presses a button that opens a tab, and goes there.
    pub async fn follow(&self, selector: &str) {
        let before = self.driver.windows().await.expect("tabs");
        self.find(selector).await.click().await.expect("a button");
        let begun = std::time::Instant::now();
        loop {
            let now = self.driver.windows().await.expect("tabs");
            if let Some(new) = now.into_iter().find(|tab| !before.contains(tab)) {
                self.driver.switch_to_window(new).await.expect("the tab");
                return self.desktop().await;
            }
            assert!(begun.elapsed() < PATIENCE, "{selector} opens nothing");
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Closes this tab and goes to the first.
    pub async fn back(&self) {
        self.driver.close_window().await.expect("it closes");
        let first = self.driver.windows().await.expect("tabs").swap_remove(0);
        self.driver.switch_to_window(first).await.expect("the first tab");
    }

    /// The text of a file that is being downloaded.
    pub async fn file(&self, path: &Path) -> String {
        let begun = std::time::Instant::now();
        while !path.exists() {
            assert!(begun.elapsed() < PATIENCE, "{} does not come", path.display());
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        std::fs::read_to_string(path).expect("text")
    }

    /// What a script in the page answers.
    pub async fn run(&self, script: &str) -> Value {
        let answer = self.driver.execute(script, Vec::new()).await.expect("the script runs");
        answer.json().clone()
    }

    /// An element, which may still be coming.
    pub async fn find(&self, selector: &str) -> WebElement {
        let begun = std::time::Instant::now();
        loop {
            if let Ok(found) = self.driver.find(By::Css(selector)).await {
                return found;
            }
            assert!(begun.elapsed() < PATIENCE, "no {selector}");
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// The text of an element, asked again where its page was just going.
    pub async fn text(&self, selector: &str) -> String {
        let begun = std::time::Instant::now();
        loop {
            match self.find(selector).await.text().await {
                Ok(text) => return text,
                Err(error) => assert!(begun.elapsed() < PATIENCE, "{selector}: {error}"),
            }
        }
    }

    /// Waits until a script answers true.
    pub async fn wait(&self, what: &str, script: &str) {
        let begun = std::time::Instant::now();
        // While another page is coming there may be nothing to ask.
        let done = async || {
            let answer = self.driver.execute(script, Vec::new()).await;
            answer.is_ok_and(|answer| *answer.json() == Value::Bool(true))
        };
        while !done().await {
            assert!(begun.elapsed() < PATIENCE, "{what} did not happen");
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// Waits for the page of that heading.
    pub async fn heading(&self, wanted: &str) {
        let wanted = json!(wanted);
        let script = format!(
            "return document.readyState === 'complete' && document.querySelector('h1')?.textContent === {wanted}"
        );
        self.wait(&format!("the page {wanted}"), &script).await;
    }

    /// Drags a slider to a value as a hand would: through values between.
    pub async fn drag(&self, id: &str, to: f64) {
        let script = format!(
            "const slider = document.getElementById('{id}'); const from = Number(slider.value);\
             for (let i = 1; i <= 5; i++) {{ slider.value = from + ({to} - from) * i / 5;\
             slider.dispatchEvent(new Event('input', {{bubbles: true}})); }}\
             slider.dispatchEvent(new Event('change', {{bubbles: true}})); return true"
        );
        self.run(&script).await;
    }

    /// What the page said to itself, where something is wrong.
    pub async fn assert_no_complaint(&self) {
        let wide =
            self.run("return document.documentElement.scrollWidth <= window.innerWidth + 1").await;
        assert_eq!(wide, Value::Bool(true), "the page is wider than its window");
    }
}

/// Where pictures of the page are kept.
pub fn screens() -> PathBuf {
    root().join("target/screens")
}

/// Base 64 as the browser sends it.
pub fn decoded(text: &str) -> Vec<u8> {
    let value = |letter: u8| match letter {
        b'A'..=b'Z' => letter - b'A',
        b'a'..=b'z' => letter - b'a' + 26,
        b'0'..=b'9' => letter - b'0' + 52,
        b'+' => 62,
        _ => 63,
    };
    let letters: Vec<u8> = text.bytes().filter(|&letter| letter != b'=').map(value).collect();
    letters
        .chunks(4)
        .flat_map(|four| {
            let bits = four.iter().fold(0_u32, |bits, &six| (bits << 6) | u32::from(six));
            let bits = bits << (6 * (4 - four.len()));
            bits.to_be_bytes()[1..four.len()].to_vec()
        })
        .collect()
}
