//! The server: the way from a request to its answer.

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::extract::{FromRequestParts, RawPathParams, State};
use axum::http::request::Parts;
use axum::http::{HeaderValue, Method as HttpMethod, Request, Response, StatusCode, header};
use axum::routing::any;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;
use tokio::time::timeout;

use super::asked::{self, Asked};
use super::guard::{self, Hosts};
use super::posted::Posted;
use super::reply::{Answer, Halt, JSON, Reply};
use super::room::{self, Room};
use super::route::{Method, Route};
use super::visit::Visit;
use super::{assets, connections, layout, table};
use crate::report::ask::Failure;

/// The body of a request must be here by then.
const BODY_TIME: Duration = Duration::from_secs(10);
/// So long a request waits for its turn.
const TURN_TIME: Duration = Duration::from_secs(10);
/// The longest address, in bytes.
const ADDRESS_SIZE: usize = 4096;
/// The longest form, in bytes; with the files in it.
const BODY_SIZE: usize = 2 * 1024 * 1024;
/// So many answers are made at once.
const AT_ONCE: usize = 8;

/// A room that listens.
#[derive(Debug)]
pub struct Listening {
    listener: std::net::TcpListener,
    /// Where it listens.
    pub address: SocketAddr,
    /// Other names by which it may be asked.
    pub named: Vec<String>,
}

impl Listening {
    /// Listens at an address; of port 0 the system chooses a free one.
    ///
    /// # Errors
    /// When the address is taken or not of this machine.
    pub fn at(address: SocketAddr, named: Vec<String>) -> std::io::Result<Self> {
        let listener = std::net::TcpListener::bind(address)?;
        listener.set_nonblocking(true)?;
        Ok(Self {
            address: listener.local_addr()?,
            listener,
            named,
        })
    }
}

/// What every request shares.
struct Desk {
    room: Room,
    hosts: Hosts,
    turns: Semaphore,
}

fn desk(room: Room, address: SocketAddr, named: &[String]) -> Arc<Desk> {
    Arc::new(Desk {
        room,
        hosts: Hosts::of(address, named),
        turns: Semaphore::new(AT_ONCE),
    })
}

/// The room without a socket: every request gets the answer that [`serve`] sends. `address` and `named` are the names by which
/// it may be asked. It needs a runtime of tokio with time.
pub fn service(room: Room, address: SocketAddr, named: &[String]) -> Router {
    router(desk(room, address, named))
}

/// Answers requests until the process ends.
///
/// # Errors
/// When the system gives no threads or no socket.
pub fn serve(room: Room, listening: Listening) -> std::io::Result<()> {
    let desk = desk(room, listening.address, &listening.named);
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        // One more, for the index at the beginning.
        .max_blocking_threads(AT_ONCE + 1)
        .enable_all()
        .build()?;
    runtime.block_on(async {
        let listener = TcpListener::from_std(listening.listener)?;
        let first = Arc::clone(&desk);
        // The index is opened before somebody asks; what fails here is told to whoever asks.
        tokio::task::spawn_blocking(move || first.room.state().shelf.words().is_ok());
        connections::take(listener, router(desk), full).await;
        Ok(())
    })
}

/// What is answered beyond the number of connections that are held.
fn full(request: &Request<hyper::body::Incoming>) -> Response<Body> {
    let words = "too many readers at once; try again in some seconds";
    let json = request.uri().path().starts_with("/api/");
    let mut response = sent(refused(StatusCode::SERVICE_UNAVAILABLE, words), json);
    let heads = response.headers_mut();
    heads.insert(header::RETRY_AFTER, HeaderValue::from_static("5"));
    response
}

/// One way for each address: which methods it takes is told by the table, so that what is refused has a page too.
fn router(desk: Arc<Desk>) -> Router {
    let mut router = Router::new();
    let mut paths: Vec<Vec<Route>> = Vec::new();
    for route in table::routes() {
        match paths.iter_mut().find(|one| one[0].path == route.path) {
            Some(same) => same.push(route),
            None => paths.push(vec![route]),
        }
    }
    for routes in paths {
        let path = routes[0].path.clone();
        let routes: Arc<[Route]> = routes.into();
        let answer = move |State(desk): State<Arc<Desk>>, request: Request<Body>| {
            answer(desk, Arc::clone(&routes), request)
        };
        router = router.route(&path, any(answer));
    }
    let nowhere = |State(desk): State<Arc<Desk>>, request: Request<Body>| {
        answer(desk, Arc::from(Vec::new()), request)
    };
    router.fallback(nowhere).with_state(desk)
}

/// The answer to a request, with the heads that every answer carries.
async fn answer(desk: Arc<Desk>, routes: Arc<[Route]>, request: Request<Body>) -> Response<Body> {
    let json = request.uri().path().starts_with("/api/");
    let reply = match admitted(&desk, &routes, request).await {
        Ok(request) => within_turn(desk, request).await,
        Err(reply) => reply,
    };
    let mut response = sent(reply, json);
    if response.status() == StatusCode::METHOD_NOT_ALLOWED {
        let allowed = if routes.iter().any(|route| route.method == Method::Post) {
            if routes.len() > 1 {
                "GET, HEAD, POST"
            } else {
                "POST"
            }
        } else {
            "GET, HEAD"
        };
        let allowed = HeaderValue::from_static(allowed);
        response.headers_mut().insert(header::ALLOW, allowed);
    }
    response
}

/// An answer as it is sent: with the heads that every answer carries, and JSON where JSON was asked for.
fn sent(mut reply: Reply, json: bool) -> Response<Body> {
    if json && reply.kind == PLAIN {
        let words = String::from_utf8_lossy(&reply.bytes).into_owned();
        reply = as_json(reply.status, &Failure::new(words));
    }
    let mut response = reply.into_response();
    guard::dress(response.headers_mut());
    response
}

/// A request that may be answered.
struct Admitted {
    route: Option<Route>,
    path: String,
    names: Vec<(String, String)>,
    asked: Asked,
    posted: Option<Posted>,
}

/// Plain words.
const PLAIN: &str = "text/plain; charset=utf-8";

/// A failure as JSON.
fn as_json(status: StatusCode, failure: &Failure) -> Reply {
    let text = serde_json::to_string_pretty(&failure.view());
    Reply::new(JSON, text.unwrap_or_default()).with(status)
}

/// A refusal in plain words, before it is known in which language the visitor reads.
fn refused(status: StatusCode, words: &str) -> Reply {
    Reply::new(PLAIN, words).with(status)
}

/// Looks at a request from outside: address, host, method, origin, then the body.
async fn admitted(
    desk: &Desk,
    routes: &[Route],
    request: Request<Body>,
) -> Result<Admitted, Reply> {
    let (mut parts, body) = request.into_parts();
    let long = parts.uri.to_string().len();
    if long > ADDRESS_SIZE {
        let words = format!("the address has {long} bytes; expected at most {ADDRESS_SIZE}");
        return Err(refused(StatusCode::URI_TOO_LONG, &words));
    }
    if parts.uri.authority().is_some() || !desk.hosts.take(&parts.headers) {
        let words = "the request names another host than this room; expected the address that `kaoyi serve` printed";
        return Err(refused(StatusCode::MISDIRECTED_REQUEST, words));
    }
    if !desk.hosts.may_read(&parts.headers) {
        let words = "the request comes from a page of another site; expected one of this room";
        return Err(refused(StatusCode::FORBIDDEN, words));
    }
    let method = match parts.method {
        HttpMethod::GET | HttpMethod::HEAD => Method::Get,
        HttpMethod::POST => Method::Post,
        _ => {
            return Err(refused(
                StatusCode::METHOD_NOT_ALLOWED,
                "the method is not known here; expected GET, HEAD or POST",
            ));
        }
    };
    let route = routes.iter().find(|route| route.method == method);
    // Only a row of the table takes a form.
    if route.is_none() && (!routes.is_empty() || method == Method::Post) {
        let words = "this address does not take the method; see Allow";
        return Err(refused(StatusCode::METHOD_NOT_ALLOWED, words));
    }
    let bad = |words: &str| {
        refused(
            StatusCode::BAD_REQUEST,
            &format!("the address holds {words}"),
        )
    };
    let path = asked::text(parts.uri.path().as_bytes()).map_err(|fault| bad(fault.words()))?;
    let asked =
        Asked::read(parts.uri.query().unwrap_or_default()).map_err(|fault| bad(fault.words()))?;
    let names = names(&mut parts).await;
    let posted = match method {
        Method::Get => None,
        Method::Post => Some(posted(desk, route, &parts, body).await?),
    };
    Ok(Admitted {
        route: route.cloned(),
        path,
        names,
        asked,
        posted,
    })
}

/// What stands for the names in the path.
async fn names(parts: &mut Parts) -> Vec<(String, String)> {
    let Ok(names) = RawPathParams::from_request_parts(parts, &()).await else {
        return Vec::new();
    };
    let owned = names
        .iter()
        .map(|(name, value)| (name.to_owned(), value.to_owned()));
    owned.collect()
}

/// A form: only from this room's own pages, within time and size, with the room's token.
async fn posted(
    desk: &Desk,
    route: Option<&Route>,
    parts: &Parts,
    body: Body,
) -> Result<Posted, Reply> {
    if !desk.hosts.same_site(&parts.headers) {
        let words = "the form does not come from a page of this room";
        return Err(refused(StatusCode::FORBIDDEN, words));
    }
    if desk.room.settings.read_only && route.is_some_and(|route| route.writes) {
        let words = "this room is read-only, since others than this machine can ask it";
        return Err(refused(StatusCode::FORBIDDEN, words));
    }
    let told = parts.headers.get(header::CONTENT_LENGTH);
    let told = told.and_then(|length| length.to_str().ok()?.parse::<usize>().ok());
    let too_large = || {
        let words = format!("the form is larger than {BODY_SIZE} bytes");
        refused(StatusCode::PAYLOAD_TOO_LARGE, &words)
    };
    if told.is_some_and(|length| length > BODY_SIZE) {
        return Err(too_large());
    }
    let bytes = match timeout(BODY_TIME, to_bytes(body, BODY_SIZE)).await {
        Ok(Ok(bytes)) => bytes,
        Ok(Err(_)) => return Err(too_large()),
        Err(_) => {
            return Err(refused(
                StatusCode::REQUEST_TIMEOUT,
                "the form did not come in time",
            ));
        }
    };
    let kind = parts.headers.get(header::CONTENT_TYPE);
    let kind = kind.and_then(|kind| kind.to_str().ok()).unwrap_or_default();
    let posted =
        Posted::read(kind, &bytes).map_err(|fault| refused(StatusCode::BAD_REQUEST, &fault))?;
    let token = posted.fields.one("token").unwrap_or_default();
    if !guard::same_secret(token, &desk.room.settings.token) {
        let words = "the form is not of this run of the room; load its page again";
        return Err(refused(StatusCode::FORBIDDEN, words));
    }
    Ok(posted)
}

/// Makes the answer when it is its turn, away from the threads that listen.
async fn within_turn(desk: Arc<Desk>, request: Admitted) -> Reply {
    let turns = Arc::clone(&desk);
    let Ok(Ok(_turn)) = timeout(TURN_TIME, turns.turns.acquire()).await else {
        return refused(
            StatusCode::SERVICE_UNAVAILABLE,
            "too many requests at once; try again",
        );
    };
    let made = tokio::task::spawn_blocking(move || made(&desk.room, request)).await;
    made.unwrap_or_else(|_| {
        refused(
            StatusCode::INTERNAL_SERVER_ERROR,
            "the answer failed; this is a fault of the program",
        )
    })
}

/// The answer of the table's row, or a page that says why there is none.
fn made(room: &Room, request: Admitted) -> Reply {
    if let Some(file) = assets::file(&request.path) {
        return file;
    }
    let state = room.state();
    let made = room
        .made(&state)
        .filter(|_| request.route.as_ref().is_some_and(|route| route.keeps));
    // No path holds a null character, so that no other address looks like this.
    let address = format!("{}\0{}", request.path, request.asked.query());
    if let Some(kept) = made.and_then(|made| room.kept.get(&address, made)) {
        return kept;
    }
    let reply = made_anew(room, &state, request);
    if let Some(made) = made
        && reply.status == StatusCode::OK
    {
        room.kept.put(&address, made, &reply);
    }
    reply
}

fn made_anew(room: &Room, state: &room::State, request: Admitted) -> Reply {
    let json = request.path.starts_with("/api/");
    let pattern = request
        .route
        .as_ref()
        .map_or(request.path.as_str(), |route| route.path.as_str());
    let path = (request.path.as_str(), pattern, request.names.as_slice());
    let visit = match Visit::new(room, state, path, request.asked, request.posted) {
        Ok(visit) => visit,
        Err(_) => {
            return refused(
                StatusCode::INTERNAL_SERVER_ERROR,
                "the tables of scripts are damaged",
            );
        }
    };
    let answer = || -> Answer<Reply> {
        let Some(route) = &request.route else {
            let nothing = Failure::new(format!("there is no page `{}`", visit.path));
            return Err(Halt::missing(nothing));
        };
        route.check(&visit)?;
        (route.respond)(&visit)
    };
    match answer() {
        Ok(reply) => reply,
        Err(Halt::Elsewhere(address)) => Reply::elsewhere(address),
        Err(Halt::Failure(status, failure)) if json => as_json(status, &failure),
        Err(Halt::Failure(status, failure)) => {
            let form = request
                .route
                .as_ref()
                .and_then(|route| (route.form)(&visit));
            layout::failure(&visit, status, &failure, form)
        }
    }
}
