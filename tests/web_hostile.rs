//! Requests that mean harm, or are broken: each is refused as it should be, and the room answers afterwards.

use std::io::{Read, Write};
use std::thread;
use std::time::{Duration, Instant};

use crate::web_support::{Answer, Reading};
use pretty_assertions::assert_eq;

/// Paths that lead out of the room, or are no text, with the status of the answer.
const PATHS: [(&str, u16); 22] = [
    ("/../../../../etc/passwd", 404),
    ("/..%2f..%2f..%2fetc%2fpasswd", 404),
    ("/%2e%2e/%2e%2e/etc/passwd", 404),
    ("/herb/..%2f..%2fCargo.toml", 404),
    ("/herb/%2e%2e", 404),
    ("/herb/..%5c..%5cCargo.toml", 404),
    ("/herb/bo%2fhe", 303),
    ("//etc/passwd", 404),
    ("/style.css/../../Cargo.toml", 404),
    ("/herb/%00", 400),
    ("/herb/bohe%00.html", 400),
    ("/herb/%0d%0aSet-Cookie:%20a=b", 404),
    ("/herb/%ff%fe", 400),
    ("/herb/%c0%ae%c0%ae", 400),
    ("/herb/%", 400),
    ("/herb/%zz", 400),
    ("/find?q=%", 400),
    ("/find?q=%ff", 400),
    ("/find?q=%00", 400),
    ("/find?%=1", 400),
    ("/herb", 404),
    ("/api/nothing", 404),
];

/// Requests with the status of the answer. `OWN` is the right head of the host, `PORT` its port.
const BROKEN: [(&str, &str, u16); 14] = [
    ("no host", "GET / HTTP/1.1\r\n\r\n", 421),
    (
        "another host",
        "GET / HTTP/1.1\r\nHost: rebound.example\r\n\r\n",
        421,
    ),
    (
        "another host at our port",
        "GET / HTTP/1.1\r\nHost: rebound.example:PORT\r\n\r\n",
        421,
    ),
    (
        "our host at another port",
        "GET / HTTP/1.1\r\nHost: 127.0.0.1:1\r\n\r\n",
        421,
    ),
    (
        "two hosts",
        "GET / HTTP/1.1\r\nOWNHost: rebound.example\r\n\r\n",
        421,
    ),
    (
        "a whole address",
        "GET http://rebound.example/ HTTP/1.1\r\nOWN\r\n",
        421,
    ),
    (
        "a page of another site",
        "GET /api/herb/bohe HTTP/1.1\r\nOWNOrigin: http://rebound.example\r\n\r\n",
        403,
    ),
    (
        "a page from nowhere",
        "GET /api/herb/bohe HTTP/1.1\r\nOWNOrigin: null\r\n\r\n",
        403,
    ),
    (
        "a null byte in the head",
        "GET / HTTP/1.1\r\nOWNX: a\0b\r\n\r\n",
        400,
    ),
    (
        "a null byte in the address",
        "GET /herb/bo\0he HTTP/1.1\r\nOWN\r\n",
        400,
    ),
    ("no HTTP", "hello\r\n\r\n", 400),
    ("another version", "GET / HTTP/9.9\r\nOWN\r\n", 400),
    ("TLS", "\u{16}\u{3}\u{1}\u{2}\0\u{1}\0\r\n\r\n", 400),
    (
        "lengths that differ",
        "POST /find HTTP/1.1\r\nOWNContent-Length: 1\r\nContent-Length: 9\r\n\r\nabc",
        400,
    ),
];

/// The table, and what is too long to be written into it.
fn broken(host: &str) -> Vec<(&'static str, String, u16)> {
    let own = format!("Host: {host}\r\n");
    let port = host.split(':').nth(1).unwrap();
    let long = |n: usize| "a".repeat(n);
    let lines: String = (0..200).map(|n| format!("X-{n}: a\r\n")).collect();
    let large = [
        (
            "an address too long",
            format!("GET /find?q={} HTTP/1.1\r\nOWN\r\n", long(6000)),
            414,
        ),
        (
            "a name too long",
            format!("GET /herb/{} HTTP/1.1\r\nOWN\r\n", long(3000)),
            404,
        ),
        (
            "a head too long",
            format!("GET / HTTP/1.1\r\nOWNX: {}\r\n\r\n", long(40_000)),
            431,
        ),
        (
            "too many heads",
            format!("GET / HTTP/1.1\r\nOWN{lines}\r\n"),
            431,
        ),
    ];
    let small = BROKEN.map(|(what, request, status)| (what, request.to_owned(), status));
    let all = small.into_iter().chain(large);
    all.map(|(what, request, status)| {
        // The room closes what it has answered, since the client reads to the end.
        let closed = request.replace("HTTP/1.1\r\n", "HTTP/1.1\r\nConnection: close\r\n");
        (
            what,
            closed.replace("OWN", &own).replace("PORT", port),
            status,
        )
    })
    .collect()
}

fn still_open(room: &Reading) {
    assert_eq!(room.get("/api/suggest?q=bohe").status, 200);
}

#[test]
fn no_path_leads_out_of_the_room() {
    let room = Reading::open(&[]);
    for (path, status) in PATHS {
        let answer = room.get(path);
        assert_eq!(answer.status, status, "{path}: {}", answer.body);
        assert!(
            !answer.body.contains("root:") && !answer.body.contains("[package]"),
            "{path}"
        );
        assert_eq!(answer.head("set-cookie"), None, "{path}");
    }
    still_open(&room);
}

#[test]
fn broken_and_foreign_requests_are_refused() {
    let room = Reading::open(&[]);
    for (what, request, status) in broken(&room.host) {
        let answer = room.raw(request.as_bytes());
        assert_eq!(answer.map_or(0, |one| one.status), status, "{what}");
    }
    still_open(&room);
}

#[test]
fn only_what_an_address_takes_is_done() {
    let room = Reading::open(&[]);
    for method in [
        "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "BREW", "POST",
    ] {
        let answer = room.ask(method, "/herb/bohe", "Content-Length: 0\r\n");
        assert_eq!(answer.status, 405, "{method}");
        assert_eq!(answer.head("allow"), Some("GET, HEAD"), "{method}");
    }
    assert_eq!(
        room.ask("POST", "/style.css", "Content-Length: 0\r\n")
            .status,
        405
    );
    let head = room.ask("HEAD", "/herb/bohe", "");
    assert_eq!((head.status, head.body.as_str()), (200, ""));
    still_open(&room);
}

#[test]
fn a_huge_body_is_not_waited_for() {
    let room = Reading::open(&[]);
    let host = &room.host;
    let request = format!(
        "POST /find HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: 9999999999\r\n\r\n"
    );
    let begun = Instant::now();
    let status = room.raw(request.as_bytes()).map(|one| one.status);
    assert_eq!(status, Some(405));
    assert!(begun.elapsed() < Duration::from_secs(5));
    still_open(&room);
}

#[test]
fn slow_senders_are_hung_up_on_and_hold_nobody_up() {
    let room = Reading::open(&[]);
    let host = room.host.clone();
    thread::scope(|scope| {
        // Fifty that say nothing, fifty that say a letter now and then.
        for slow in 0..100 {
            let (room, host) = (&room, &host);
            scope.spawn(move || {
                let mut stream = room.connect();
                let begun = Instant::now();
                if slow >= 50 {
                    stream
                        .write_all(format!("GET / HTTP/1.1\r\nHost: {host}\r\nX: ").as_bytes())
                        .unwrap();
                    for _ in 0..4 {
                        thread::sleep(Duration::from_millis(900));
                        if stream.write_all(b"a").is_err() {
                            break;
                        }
                    }
                }
                let mut all = Vec::new();
                let _ = stream.read_to_end(&mut all);
                assert!(begun.elapsed() < Duration::from_secs(15), "not hung up on");
                assert!(!String::from_utf8_lossy(&all).contains(" 200 "));
            });
        }
        thread::sleep(Duration::from_millis(500));
        let begun = Instant::now();
        still_open(&room);
        assert!(begun.elapsed() < Duration::from_secs(5), "held up");
    });
    still_open(&room);
}

#[test]
fn every_answer_carries_the_heads_that_keep_the_page_to_itself() {
    let room = Reading::open(&[]);
    let wrong_host: Option<Answer> =
        room.raw(b"GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
    let answers = [
        room.get("/"),
        room.get("/herb/bohe"),
        room.get("/nothing"),
        room.get("/api/find"),
        room.get("/style.css"),
        wrong_host.unwrap(),
    ];
    for answer in answers {
        let policy = answer.head("content-security-policy").unwrap();
        assert!(
            policy.starts_with("default-src 'none';") && !policy.contains("unsafe"),
            "{policy}"
        );
        assert_eq!(answer.head("x-content-type-options"), Some("nosniff"));
        assert_eq!(answer.head("referrer-policy"), Some("same-origin"));
        assert_eq!(answer.head("set-cookie"), None);
    }
    // What the policy would forbid is on no page.
    for address in [
        "/",
        "/herb/fuzi",
        "/herb/bohe/against/juhua",
        "/find?q=mint",
    ] {
        let page = room.page(address);
        for forbidden in [
            " style=",
            "<style",
            " onclick",
            "javascript:",
            "src=\"http",
            "url(",
        ] {
            assert!(!page.contains(forbidden), "{address}: {forbidden}");
        }
    }
}
