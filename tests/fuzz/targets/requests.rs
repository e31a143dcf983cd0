//! Requests to the reading room, as its server answers them: whatever is asked, the answer is none of the program's faults,
//! carries the heads that keep a page to itself, and JSON is JSON; a form that was taken leaves a notebook without faults.

use std::path::PathBuf;
use std::sync::{Mutex, OnceLock, PoisonError};
use std::time::Duration;

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{Request, Response, StatusCode};
use hyper::service::Service;
use hyper_util::service::TowerToHyperService;
use kaoyi::tasting::Notebook;
use kaoyi::web::{Room, Settings, service};

use super::folder;

const HOST: &str = "127.0.0.1:15960";

/// An open room, with a notebook of its own that is emptied after each form.
struct Open {
    router: TowerToHyperService<Router>,
    runtime: tokio::runtime::Runtime,
    notebook: PathBuf,
    _root: tempfile::TempDir,
}

fn open() -> &'static Mutex<Open> {
    static OPEN: OnceLock<Mutex<Open>> = OnceLock::new();
    OPEN.get_or_init(|| {
        let root = tempfile::tempdir().unwrap();
        folder::write(&root.path().join("corpus"), &folder::files(folder::SMALL));
        let notebook = root.path().join("notebook");
        std::fs::create_dir(&notebook).unwrap();
        let settings = Settings {
            corpus: Some(root.path().join("corpus")),
            notebook: Some(notebook.clone()),
            cache: None,
            read_only: false,
            token: "token".to_owned(),
            elapsed: || Duration::ZERO,
            today: || "2026-03-14".parse().ok(),
            now: || 1_773_480_000_000,
            chance: || 7,
        };
        let room = Room::open(settings).unwrap();
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(1)
            .enable_time()
            .build()
            .unwrap();
        let router = TowerToHyperService::new(service(room, HOST.parse().unwrap(), &[]));
        Mutex::new(Open {
            router,
            runtime,
            notebook,
            _root: root,
        })
    })
}

/// A request as it is sent: `GET /herb/circle-mint`, lines of heads, an empty line, a body. A host, an origin and the length
/// of the body are added where none is told.
pub fn run(data: &[u8]) {
    let Some((request, json)) = request(data) else {
        return;
    };
    let open = open().lock().unwrap_or_else(PoisonError::into_inner);
    let method = request.method().clone();
    let (status, body) = open.runtime.block_on(async {
        let answer = open.router.call(request).await.unwrap();
        looks_like_an_answer(&answer, json);
        let status = answer.status();
        (
            status,
            to_bytes(answer.into_body(), 64 * 1024 * 1024)
                .await
                .unwrap(),
        )
    });
    let text = String::from_utf8_lossy(&body);
    assert!(!status.is_server_error(), "{status} {text}");
    if json && status != StatusCode::SEE_OTHER {
        let document: serde_json::Value =
            serde_json::from_str(&text).unwrap_or_else(|error| panic!("{error}: {text}"));
        assert!(document.is_object());
    }
    if method == "POST" {
        let (notebook, findings) = Notebook::open(&open.notebook);
        assert_eq!(findings, [], "what a form wrote is read");
        assert!(
            notebook.files() <= 1 && (notebook.files() == 0 || status == StatusCode::SEE_OTHER)
        );
        for file in std::fs::read_dir(&open.notebook).unwrap().flatten() {
            std::fs::remove_file(file.path()).unwrap();
        }
    }
}

/// The request in the input, and whether it asks for JSON; `None` where no server would get so far.
fn request(data: &[u8]) -> Option<(Request<Body>, bool)> {
    let end = data.windows(2).position(|two| two == b"\n\n");
    let (head, body) = end.map_or((data, &[][..]), |end| (&data[..end], &data[end + 2..]));
    let head = std::str::from_utf8(head).ok()?;
    let mut lines = head.lines();
    let (method, address) = lines.next()?.split_once(' ')?;
    let mut request = Request::builder().method(method).uri(address);
    for line in lines {
        let (name, value) = line.split_once(':')?;
        request = request.header(name.trim(), value.trim());
    }
    let told = |name: &str| head.to_ascii_lowercase().contains(&format!("\n{name}:"));
    if !told("host") {
        request = request.header("host", HOST);
    }
    if method == "POST" && !told("origin") {
        request = request.header("origin", format!("http://{HOST}"));
    }
    if method == "POST" && !told("content-type") {
        request = request.header("content-type", "application/x-www-form-urlencoded");
    }
    let request = request.body(Body::from(body.to_vec())).ok()?;
    let json = request.uri().path().starts_with("/api/");
    Some((request, json))
}

fn looks_like_an_answer(answer: &Response<Body>, json: bool) {
    let head = |name: &str| {
        answer
            .headers()
            .get(name)
            .and_then(|value| value.to_str().ok())
            .unwrap_or_default()
    };
    assert!(head("content-security-policy").starts_with("default-src 'none';"));
    assert_eq!(
        (head("x-content-type-options"), head("x-frame-options")),
        ("nosniff", "DENY")
    );
    assert!(answer.headers().get("set-cookie").is_none());
    let status = answer.status();
    assert_eq!(
        status == StatusCode::SEE_OTHER,
        answer.headers().contains_key("location"),
        "{status}"
    );
    // What leads elsewhere stays in the room.
    let place = head("location");
    assert!(
        place.is_empty() || (place.starts_with('/') && !place.starts_with("//")),
        "{place}"
    );
    assert!(
        !json || status.is_redirection() || head("content-type").starts_with("application/"),
        "{status} {}",
        head("content-type")
    );
}
