//! What the room answers, before it becomes HTTP.

use axum::body::{Body, Bytes};
use axum::http::{HeaderValue, Response, StatusCode, header};

use crate::corpus::AssembleError;
use crate::index::WordsError;
use crate::report::ask::Failure;
use crate::text::ScriptError;

/// An answer.
#[derive(Debug, Clone)]
pub(crate) struct Reply {
    /// How it went.
    pub status: StatusCode,
    /// What it is.
    pub kind: &'static str,
    /// The answer.
    pub bytes: Bytes,
    /// Where else it is, for a redirect.
    pub location: Option<String>,
    /// Under which name it is to be saved; `None` shows it.
    pub save_as: Option<String>,
}

/// A page of HTML.
pub(crate) const HTML: &str = "text/html; charset=utf-8";
/// A JSON document.
pub(crate) const JSON: &str = "application/json; charset=utf-8";

impl Reply {
    /// An answer that is shown.
    pub(crate) fn new(kind: &'static str, bytes: impl Into<Vec<u8>>) -> Self {
        Self {
            status: StatusCode::OK,
            kind,
            bytes: Bytes::from(bytes.into()),
            location: None,
            save_as: None,
        }
    }

    /// An answer that the browser saves under a name.
    pub(crate) fn download(kind: &'static str, name: String, bytes: impl Into<Vec<u8>>) -> Self {
        Self {
            save_as: Some(name),
            ..Self::new(kind, bytes)
        }
    }

    /// The same with another status.
    pub(crate) fn with(mut self, status: StatusCode) -> Self {
        self.status = status;
        self
    }

    /// The answer is at another address.
    pub(crate) fn elsewhere(address: String) -> Self {
        Self {
            location: Some(address),
            ..Self::new(HTML, Vec::new()).with(StatusCode::SEE_OTHER)
        }
    }

    /// As HTTP.
    pub(crate) fn into_response(self) -> Response<Body> {
        let mut response = Response::new(Body::from(self.bytes));
        *response.status_mut() = self.status;
        let headers = response.headers_mut();
        headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(self.kind));
        let location = self.location.as_deref().map(HeaderValue::from_str);
        if let Some(Ok(location)) = location {
            headers.insert(header::LOCATION, location);
        }
        if let Some(name) = self.save_as {
            // Ids and kinds are plain letters; whatever else came in would end the name.
            let plain = |c: &char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
            let name: String = name.chars().filter(plain).collect();
            let saved = HeaderValue::from_str(&format!("attachment; filename=\"{name}\""));
            if let Ok(saved) = saved {
                headers.insert(header::CONTENT_DISPOSITION, saved);
            }
        }
        response
    }
}

/// Why a page has no answer of its own.
#[derive(Debug)]
pub(crate) enum Halt {
    /// It is at another address.
    Elsewhere(String),
    /// It cannot be answered.
    Failure(StatusCode, Box<Failure>),
}

/// What comes of asking a page.
pub(crate) type Answer<T> = Result<T, Halt>;

impl Halt {
    /// There is no such thing.
    pub(crate) fn missing(failure: Box<Failure>) -> Self {
        Self::Failure(StatusCode::NOT_FOUND, failure)
    }

    /// What was asked does not have the form that the description tells.
    pub(crate) const fn malformed(failure: Box<Failure>) -> Self {
        Self::Failure(StatusCode::BAD_REQUEST, failure)
    }

    /// It is not allowed.
    pub(crate) fn forbidden(message: impl Into<String>) -> Self {
        Self::Failure(StatusCode::FORBIDDEN, Failure::new(message))
    }
}

/// What was asked has the right form, but cannot be answered: nothing has such a name, an amount cannot be read.
impl From<Box<Failure>> for Halt {
    fn from(failure: Box<Failure>) -> Self {
        Self::Failure(StatusCode::UNPROCESSABLE_ENTITY, failure)
    }
}

/// A fault of the program or of what it keeps.
fn own_fault(words: &dyn std::fmt::Display) -> Halt {
    Halt::Failure(
        StatusCode::INTERNAL_SERVER_ERROR,
        Failure::new(words.to_string()),
    )
}

impl From<AssembleError> for Halt {
    fn from(error: AssembleError) -> Self {
        own_fault(&error)
    }
}

impl From<WordsError> for Halt {
    fn from(error: WordsError) -> Self {
        own_fault(&error)
    }
}

impl From<ScriptError> for Halt {
    fn from(error: ScriptError) -> Self {
        own_fault(&error)
    }
}

impl From<serde_json::Error> for Halt {
    fn from(error: serde_json::Error) -> Self {
        own_fault(&error)
    }
}
