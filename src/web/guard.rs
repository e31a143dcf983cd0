//! What is refused before anything is read, and the heads that every answer carries.
//!
//! A page of another site can make a browser ask this machine. It cannot read the answer, but where its own name
//! is made to point here (DNS rebinding) it could: so a request must name this room as its host. And it could send forms:
//! so what is sent must come from this room's own pages by `Origin` or `Sec-Fetch-Site`, and hold the room's token.

use axum::http::{HeaderMap, HeaderName, HeaderValue, header};

/// The names by which a room may be asked: `127.0.0.1:15960`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Hosts(Vec<String>);

impl Hosts {
    /// The loopback names, and the address listened at where it is another.
    pub(crate) fn of(address: std::net::SocketAddr, named: &[String]) -> Self {
        let port = address.port();
        let ip = match address.ip() {
            std::net::IpAddr::V6(ip) => format!("[{ip}]"),
            std::net::IpAddr::V4(ip) => ip.to_string(),
        };
        let mut hosts = Vec::new();
        let names = ["127.0.0.1", "localhost", "[::1]", ip.as_str()].into_iter();
        for name in names.chain(named.iter().map(String::as_str)) {
            hosts.push(format!("{}:{port}", name.to_ascii_lowercase()));
            if port == 80 {
                hosts.push(name.to_ascii_lowercase());
            }
        }
        Self(hosts)
    }

    /// Whether a request may be answered by its `Host`: exactly one, and one of ours.
    pub(crate) fn take(&self, headers: &HeaderMap) -> bool {
        let mut given = headers.get_all(header::HOST).iter();
        let (first, second) = (given.next(), given.next());
        let host = first.and_then(|host| host.to_str().ok());
        second.is_none() && host.is_some_and(|host| self.0.contains(&host.to_ascii_lowercase()))
    }

    /// Whether an `Origin` is this room.
    fn own(&self, origin: &str) -> bool {
        let host = origin.strip_prefix("http://");
        host.is_some_and(|host| self.0.contains(&host.to_ascii_lowercase()))
    }

    /// Whether what is sent comes from a page of this room.
    pub(crate) fn same_site(&self, headers: &HeaderMap) -> bool {
        let word = |name: HeaderName| headers.get(name).map(|value| value.to_str().unwrap_or("?"));
        let site = word(HeaderName::from_static("sec-fetch-site"));
        let origin = word(header::ORIGIN);
        let site_fits = site.is_none_or(|site| site == "same-origin");
        let origin_fits = origin.is_none_or(|origin| self.own(origin));
        // A browser sends at least one of the two with a form; what sends neither is no page of ours.
        (site.is_some() || origin.is_some()) && site_fits && origin_fits
    }

    /// Whether a page of another site asks for what only a page of ours may read: nothing here is for others, but a plain
    /// link from elsewhere may lead to a page.
    pub(crate) fn may_read(&self, headers: &HeaderMap) -> bool {
        let origin = headers
            .get(header::ORIGIN)
            .map(|one| one.to_str().unwrap_or("?"));
        origin.is_none_or(|origin| self.own(origin))
    }
}

/// Whether two secrets are the same, in a time that does not tell where they differ.
pub(crate) fn same_secret(one: &str, other: &str) -> bool {
    let (one, other) = (one.as_bytes(), other.as_bytes());
    let differing = one.iter().zip(other).fold(0, |sum, (a, b)| sum | (a ^ b));
    one.len() == other.len() && differing == 0
}

/// Only what comes from this room, no script but its file, no frame, no plug-in.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; \
                      form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// With `no-referrer` a browser would send forms with the origin `null`, which is that of no page.
const HEADS: [(&str, &str); 8] = [
    ("content-security-policy", POLICY),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "same-origin"),
    ("x-frame-options", "DENY"),
    ("cross-origin-resource-policy", "same-origin"),
    ("cross-origin-opener-policy", "same-origin"),
    (
        "permissions-policy",
        "camera=(), geolocation=(), microphone=()",
    ),
    ("cache-control", "no-cache"),
];

/// Puts the heads that every answer carries.
pub(crate) fn dress(headers: &mut HeaderMap) {
    for (name, value) in HEADS {
        let name = HeaderName::from_static(name);
        headers
            .entry(name)
            .or_insert(HeaderValue::from_static(value));
    }
}

#[cfg(test)]
mod tests {
    use super::{Hosts, same_secret};
    use axum::http::{HeaderMap, HeaderName, HeaderValue};
    use pretty_assertions::assert_eq;

    fn heads(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        let pair = |(name, value): &(&'static str, &'static str)| {
            (
                HeaderName::from_static(name),
                HeaderValue::from_static(value),
            )
        };
        let mut heads = HeaderMap::new();
        for (name, value) in pairs.iter().map(pair) {
            heads.append(name, value);
        }
        heads
    }

    fn room() -> Hosts {
        Hosts::of(([127, 0, 0, 1], 15960).into(), &[])
    }

    #[test]
    fn only_names_of_this_machine_are_hosts() {
        let take = |host| room().take(&heads(&[("host", host)]));
        for host in [
            "127.0.0.1:15960",
            "localhost:15960",
            "LOCALHOST:15960",
            "[::1]:15960",
        ] {
            assert!(take(host), "{host}");
        }
        for host in [
            "127.0.0.1",
            "127.0.0.1:80",
            "rebound.example:15960",
            "127.0.0.1.rebound.example:15960",
            "localhost:15960@x",
            "",
        ] {
            assert!(!take(host), "{host}");
        }
        assert!(!room().take(&heads(&[])));
        assert!(!room().take(&heads(&[
            ("host", "localhost:15960"),
            ("host", "localhost:15960")
        ])));
    }

    #[test]
    fn a_form_must_come_from_a_page_of_the_room() {
        let own = ("origin", "http://localhost:15960");
        let same = ("sec-fetch-site", "same-origin");
        let cases: [(&[(&'static str, &'static str)], bool); 8] = [
            (&[own], true),
            (&[same], true),
            (&[own, same], true),
            (&[], false),
            (&[("origin", "null")], false),
            (&[("origin", "http://localhost:3000")], false),
            (&[("origin", "https://localhost:15960")], false),
            (&[own, ("sec-fetch-site", "cross-site")], false),
        ];
        for (pairs, expected) in cases {
            assert_eq!(room().same_site(&heads(pairs)), expected, "{pairs:?}");
        }
    }

    #[test]
    fn secrets_are_the_same_or_not() {
        assert!(same_secret("abc", "abc"));
        assert!(!same_secret("abc", "abd") && !same_secret("abc", "ab") && !same_secret("", "a"));
    }
}
