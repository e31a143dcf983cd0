//! Connections: so many are held at once, each with limits of time and size, and whoever comes beyond that is told so.

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use axum::http::{Request, Response};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tokio::time::{sleep, timeout};

/// The head of a request must be here by then.
const HEAD_TIME: Duration = Duration::from_secs(5);
/// The head of a request that is only told to come again.
const TOLD_TIME: Duration = Duration::from_millis(250);
/// No connection lives longer, whatever it does.
const CONNECTION_TIME: Duration = Duration::from_secs(300);
/// The longest head of a request, in bytes.
const HEAD_SIZE: usize = 16 * 1024;
/// So many lines may a head have.
const HEAD_LINES: usize = 64;
/// So many connections at once: a class with its browsers, and fewer files than systems let a program open.
const CONNECTIONS: usize = 512;
/// So many more are told at once to come again.
const TOLD: usize = 64;

/// Takes connections for ever. `full` answers those beyond the number that is held.
pub(super) async fn take(
    listener: TcpListener,
    router: Router,
    full: fn(&Request<hyper::body::Incoming>) -> Response<Body>,
) {
    let places = Arc::new(Semaphore::new(CONNECTIONS));
    let told = Arc::new(Semaphore::new(TOLD));
    loop {
        let Ok((stream, _)) = listener.accept().await else {
            // No more files may be open: others must end first.
            sleep(Duration::from_millis(100)).await;
            continue;
        };
        if let Ok(place) = Arc::clone(&places).try_acquire_owned() {
            let router = router.clone();
            tokio::spawn(async move {
                held(stream, router).await;
                drop(place);
            });
        } else if let Ok(place) = Arc::clone(&told).acquire_owned().await {
            tokio::spawn(async move {
                come_again(stream, full).await;
                drop(place);
            });
        }
    }
}

fn limited(head_time: Duration) -> http1::Builder {
    let mut builder = http1::Builder::new();
    builder
        .timer(TokioTimer::new())
        .header_read_timeout(head_time)
        .max_buf_size(HEAD_SIZE)
        .max_headers(HEAD_LINES);
    builder
}

async fn held(stream: TcpStream, router: Router) {
    let service = TowerToHyperService::new(router);
    let connection = limited(HEAD_TIME).serve_connection(TokioIo::new(stream), service);
    // A connection that broke has nobody left to tell.
    let _ = timeout(CONNECTION_TIME, connection).await;
}

async fn come_again(
    stream: TcpStream,
    full: fn(&Request<hyper::body::Incoming>) -> Response<Body>,
) {
    let answer = service_fn(move |request| async move { Ok::<_, Infallible>(full(&request)) });
    let connection = limited(TOLD_TIME)
        .keep_alive(false)
        .serve_connection(TokioIo::new(stream), answer);
    let _ = timeout(TOLD_TIME * 4, connection).await;
}
