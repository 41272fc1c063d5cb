//! The page served by the real program, and a client that can also misbehave.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// Longest wait for an answer.
const PATIENCE: Duration = Duration::from_secs(60);

/// A running server, stopped when dropped.
pub struct Server {
    pub child: Child,
    pub port: u16,
}

impl Server {
    pub fn start(arguments: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_planewright"))
            .args(["serve", "--port", "0", "--json"])
            .args(arguments)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let mut text = String::new();
        let mut lines = BufReader::new(child.stdout.take().expect("a pipe"));
        while !text.ends_with("}\n") {
            assert!(lines.read_line(&mut text).expect("text") > 0, "no address: {text}");
        }
        let said: serde_json::Value = serde_json::from_str(&text).expect("one JSON object");
        let port = said["port"].as_u64().expect("a port") as u16;
        let address = said["address"].as_str().expect("an address");
        assert!(address.ends_with(&format!(":{port}/")), "{address}");
        Self { child, port }
    }

    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).expect("the server listens");
        stream.set_read_timeout(Some(PATIENCE)).expect("a timeout");
        stream
    }

    /// Sends the bytes and reads to the end of the answer.
    pub fn raw(&self, bytes: &[u8]) -> Answer {
        let mut stream = self.connect();
        // The server may refuse before everything is sent.
        let _ = stream.write_all(bytes);
        read_answer(&mut stream)
    }

    pub fn get(&self, address: &str) -> Answer {
        self.raw(request("GET", address, self.port, "", b"").as_slice())
    }

    /// The address of a file of the page.
    pub fn asset(&self, name: &str) -> String {
        let text = self.get("/").text();
        let end = text.find(&format!("/{name}\"")).unwrap_or_else(|| panic!("{name}"));
        let start = text[..end].rfind("/assets/").expect("an address");
        format!("{}/{name}", &text[start..end])
    }

    /// A request with lines of its own in its head.
    pub fn with_head(&self, method: &str, address: &str, lines: &str) -> Answer {
        let text = format!(
            "{method} {address} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nConnection: close\r\nContent-Length: 0\r\n{lines}\r\n",
            self.port
        );
        self.raw(text.as_bytes())
    }

    /// Posts fields as a form.
    pub fn post(&self, address: &str, fields: &[(&str, &str)]) -> Answer {
        let body: Vec<String> =
            fields.iter().map(|(name, value)| format!("{name}={}", encoded(value))).collect();
        let kind = "application/x-www-form-urlencoded";
        self.raw(&request("POST", address, self.port, kind, body.join("&").as_bytes()))
    }

    /// Posts one file of a form.
    pub fn upload(&self, field: &str, name: &str, content: &[u8]) -> Answer {
        let kind = "multipart/form-data; boundary=xyz";
        self.raw(&request("POST", "/desk", self.port, kind, &multipart(field, name, content)))
    }

    /// Whether it still answers, and rightly.
    pub fn assert_alive(&self) {
        let answer = self.get("/desk?boat=wren");
        assert_eq!(answer.status, 200);
        assert!(answer.text().contains("Skerry Wren"));
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

pub fn multipart(field: &str, name: &str, content: &[u8]) -> Vec<u8> {
    let mut body = format!(
        "--xyz\r\nContent-Disposition: form-data; name=\"{field}\"; filename=\"{name}\"\r\n\
         Content-Type: application/octet-stream\r\n\r\n"
    )
    .into_bytes();
    body.extend(content);
    body.extend(b"\r\n--xyz--\r\n");
    body
}

/// A request whose connection closes after it.
pub fn request(method: &str, address: &str, port: u16, kind: &str, body: &[u8]) -> Vec<u8> {
    let mut text =
        format!("{method} {address} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n");
    if method == "POST" {
        text.push_str(&format!("Content-Type: {kind}\r\nContent-Length: {}\r\n", body.len()));
    }
    text.push_str("\r\n");
    let mut bytes = text.into_bytes();
    bytes.extend(body);
    bytes
}

pub fn encoded(text: &str) -> String {
    text.bytes()
        .map(|byte| match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
            _ => format!("%{byte:02X}"),
        })
        .collect()
}

/// What came back.
pub struct Answer {
    pub status: u16,
    pub head: String,
    pub body: Vec<u8>,
}

impl Answer {
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    /// The text without marks of HTML, as a reader sees it.
    pub fn plain(&self) -> String {
        let text = self.text();
        let mut plain = String::new();
        let mut inside = false;
        for character in text.chars() {
            match character {
                '<' => inside = true,
                '>' => {
                    inside = false;
                    plain.push(' ');
                }
                _ if !inside => plain.push(character),
                _ => {}
            }
        }
        plain.replace("&quot;", "\"").replace("&amp;", "&").replace("&lt;", "<")
    }

    /// SI values of a row of numbers.
    pub fn numbers(&self, key: &str) -> Vec<f64> {
        let text = self.text();
        let start = text.find(&format!("data-number=\"{key}\"")).unwrap_or_else(|| panic!("{key}"));
        let row = &text[start..start + text[start..].find("</tr>").expect("an end")];
        row.split("data-si=\"")
            .skip(1)
            .map(|rest| rest.split('"').next().unwrap().parse().expect("a number"))
            .collect()
    }
}

pub fn read_answer(stream: &mut TcpStream) -> Answer {
    let mut bytes = Vec::new();
    let _ = stream.read_to_end(&mut bytes);
    let split = bytes.windows(4).position(|window| window == b"\r\n\r\n").unwrap_or(bytes.len());
    let head = String::from_utf8_lossy(&bytes[..split]).into_owned();
    let status = head.split(' ').nth(1).and_then(|code| code.parse().ok()).unwrap_or(0);
    let body = bytes.get(split + 4..).unwrap_or_default().to_vec();
    Answer { status, head, body }
}

/// A sentence of the command line as the page writes it.
pub fn as_on_the_page(text: &str) -> String {
    let mut opens = [true, false].into_iter().cycle();
    let quoted = text.chars().map(|letter| match letter {
        '`' if opens.next() == Some(true) => '\u{201c}',
        '`' => '\u{201d}',
        other => other,
    });
    quoted.collect::<String>().replace(" deg", "°").replace("..", " to ").replace("^2", "²")
}
