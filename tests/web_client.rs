//! A room that is open for a test, and a small client to ask it.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::support::cache;

/// An open room; it closes when it is dropped.
pub struct RoomOpen {
    child: Child,
    port: u16,
}

/// An answer.
pub struct Answer {
    /// The status.
    pub status: u16,
    heads: Vec<(String, String)>,
    body: Vec<u8>,
}

impl Answer {
    /// The body as text.
    pub fn text(&self) -> String {
        String::from_utf8(self.body.clone()).unwrap()
    }

    /// The body as JSON.
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_slice(&self.body)
            .unwrap_or_else(|error| panic!("{error}: {}", self.text()))
    }

    /// The value of a head, by its name in small letters.
    pub fn head(&self, name: &str) -> Option<&str> {
        let found = self.heads.iter().find(|(one, _)| one == name);
        found.map(|(_, value)| value.as_str())
    }
}

/// An address or a form in which all but its own signs is encoded.
pub fn encoded(words: &str) -> String {
    let mut text = String::new();
    for byte in words.bytes() {
        if byte.is_ascii_alphanumeric() || b"/?&=-_.~%,+:".contains(&byte) {
            text.push(char::from(byte));
        } else {
            text.push_str(&format!("%{byte:02X}"));
        }
    }
    text
}

impl RoomOpen {
    /// Opens a room with more arguments.
    pub fn with(arguments: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_kaoyi"))
            .args(["serve", "--port", "0"])
            .args(arguments)
            .env_clear()
            .env("XDG_CACHE_HOME", cache())
            .env("HOME", cache())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        let mut out = BufReader::new(child.stdout.take().unwrap());
        out.read_line(&mut line).unwrap();
        let port = line
            .trim()
            .trim_end_matches('/')
            .rsplit(':')
            .next()
            .unwrap();
        let port = port
            .parse()
            .unwrap_or_else(|_| panic!("no address: {line}"));
        Self { child, port }
    }

    /// Its own origin.
    pub fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// Reads an address.
    pub fn get(&self, address: &str) -> Answer {
        self.send("GET", address, &[], "")
    }

    /// The secret that the forms of a page hold.
    pub fn token(&self, address: &str) -> String {
        let page = self.get(address).text();
        let after = page.split("name=\"token\" value=\"").nth(1).unwrap();
        after.split('"').next().unwrap().to_owned()
    }

    /// Sends a form as the room's own page does.
    pub fn post(&self, address: &str, form: &str) -> Answer {
        let form = format!("{}&token={}", encoded(form), self.token(address));
        let origin = self.origin();
        self.send("POST", address, &[("Origin", &origin)], &form)
    }

    /// Sends a request with more heads; a body is a form.
    pub fn send(&self, method: &str, address: &str, heads: &[(&str, &str)], body: &str) -> Answer {
        let typed = heads.iter().any(|(name, _)| *name == "Content-Type");
        let form = [("Content-Type", "application/x-www-form-urlencoded")];
        let more = if typed || body.is_empty() {
            &[][..]
        } else {
            &form
        };
        self.send_bytes(method, address, &[heads, more].concat(), body.as_bytes())
    }

    /// Sends a request with more heads and any body.
    pub fn send_bytes(
        &self,
        method: &str,
        address: &str,
        heads: &[(&str, &str)],
        body: &[u8],
    ) -> Answer {
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .unwrap();
        let mut head = format!(
            "{method} {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nConnection: close\r\n",
            encoded(address),
            self.port
        );
        for (name, value) in heads {
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        head.push_str(&format!("Content-Length: {}\r\n\r\n", body.len()));
        stream.write_all(head.as_bytes()).unwrap();
        // A room may refuse a body before all of it is sent.
        let _ = stream.write_all(body);
        let mut bytes = Vec::new();
        let _ = stream.read_to_end(&mut bytes);
        answer(&bytes)
    }
}

impl Drop for RoomOpen {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn answer(bytes: &[u8]) -> Answer {
    let end = bytes
        .windows(4)
        .position(|four| four == b"\r\n\r\n")
        .expect("an answer");
    let head = std::str::from_utf8(&bytes[..end]).unwrap();
    let mut lines = head.split("\r\n");
    let status = lines
        .next()
        .unwrap()
        .split(' ')
        .nth(1)
        .unwrap()
        .parse()
        .unwrap();
    let heads = lines.filter_map(|line| line.split_once(": "));
    let heads = heads.map(|(name, value)| (name.to_ascii_lowercase(), value.to_owned()));
    Answer {
        status,
        heads: heads.collect(),
        body: bytes[end + 4..].to_vec(),
    }
}
