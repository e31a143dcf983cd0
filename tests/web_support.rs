//! A reading room of the real binary on a free port, and a client that sends whatever bytes a test wants.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::support::{cache, root};

/// An empty corpus folder that stands alone: so small that it is read in a moment.
pub fn alone() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for part in ["vocabulary", "herbs", "works"] {
        fs::create_dir(folder.path().join(part)).unwrap();
    }
    for file in fs::read_dir(root().join("corpus/vocabulary")).unwrap() {
        let file = file.unwrap();
        fs::copy(
            file.path(),
            folder.path().join("vocabulary").join(file.file_name()),
        )
        .unwrap();
    }
    folder
}

/// An open room; it is closed when it is dropped.
pub struct Reading {
    process: Child,
    /// `127.0.0.1:PORT`.
    pub host: String,
}

impl Drop for Reading {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// An answer.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub heads: Vec<(String, String)>,
    pub body: String,
}

impl Answer {
    /// The value of a head, by its name in small letters.
    pub fn head(&self, name: &str) -> Option<&str> {
        let head = self.heads.iter().find(|(one, _)| one == name);
        head.map(|(_, value)| value.as_str())
    }

    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.body).unwrap_or_else(|error| panic!("{error}\n{self:?}"))
    }

    fn read(bytes: &[u8]) -> Option<Self> {
        let end = bytes.windows(4).position(|four| four == b"\r\n\r\n")?;
        let head = std::str::from_utf8(&bytes[..end]).ok()?;
        let mut lines = head.split("\r\n");
        let status = lines.next()?.split(' ').nth(1)?.parse().ok()?;
        let heads = lines.filter_map(|line| line.split_once(": "));
        Some(Self {
            status,
            heads: heads
                .map(|(name, value)| (name.to_ascii_lowercase(), value.to_owned()))
                .collect(),
            body: String::from_utf8_lossy(&bytes[end + 4..]).into_owned(),
        })
    }
}

impl Reading {
    /// Opens a room with further arguments, sealed from the machine.
    pub fn open(arguments: &[&str]) -> Self {
        let mut process = Command::new(env!("CARGO_BIN_EXE_kaoyi"))
            .args(["serve", "--port", "0"])
            .args(arguments)
            .env_clear()
            .env("XDG_CACHE_HOME", cache())
            .env("KAOYI_NOTEBOOK", cache().join("no-notebook"))
            .stdout(Stdio::piped())
            .stderr(Stdio::inherit())
            .spawn()
            .unwrap();
        let mut line = String::new();
        let out = process.stdout.take().unwrap();
        BufReader::new(out).read_line(&mut line).unwrap();
        let host = line
            .trim()
            .strip_prefix("Kaoyi is open at http://")
            .unwrap();
        let host = host.trim_end_matches('/').to_owned();
        Self { process, host }
    }

    /// Sends bytes and reads until the room closes the connection; `None` where it says nothing.
    pub fn raw(&self, bytes: &[u8]) -> Option<Answer> {
        let mut stream = self.connect();
        // A room that refuses may close before all is sent.
        let _ = stream.write_all(bytes);
        let mut all = Vec::new();
        let _ = stream.read_to_end(&mut all);
        Answer::read(&all)
    }

    /// A connection that gives up after half a minute.
    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(&self.host).unwrap();
        let most = Some(Duration::from_secs(30));
        stream.set_read_timeout(most).unwrap();
        stream.set_write_timeout(most).unwrap();
        stream
    }

    /// Asks with a method, an address and further heads.
    pub fn ask(&self, method: &str, address: &str, heads: &str) -> Answer {
        let host = &self.host;
        let request = format!(
            "{method} {address} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n{heads}\r\n"
        );
        let answer = self.raw(request.as_bytes());
        answer.unwrap_or_else(|| panic!("no answer to {method} {address}"))
    }

    /// Reads an address.
    pub fn get(&self, address: &str) -> Answer {
        self.ask("GET", address, "")
    }

    /// Reads an address that must be there.
    pub fn page(&self, address: &str) -> String {
        let answer = self.get(address);
        assert_eq!(answer.status, 200, "{address}: {}", answer.body);
        answer.body
    }
}
