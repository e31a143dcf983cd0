//! Pages with a form: shown empty, with their answer, or with why there is none beside what was filled in.

use maud::{Markup, html};

use super::layout::{self, Leaf};
use super::reply::{Answer, HTML, Halt, Reply};
use super::route::{Page, Route};
use super::visit::Visit;
use super::words::Word;
use crate::report::ask::Failure;

/// A page whose view is asked for by a form on it.
pub(crate) trait FormPage: Page {
    /// Whether anything was filled in.
    fn is_asked(visit: &Visit<'_>) -> bool;

    /// The page: its form, and the answer or why there is none.
    fn leaf(
        visit: &Visit<'_>,
        view: Option<&Self::View>,
        failure: Option<&Failure>,
    ) -> Answer<Leaf>;
}

/// The rows of such a page in the table.
pub(crate) fn routes<P: FormPage>() -> [Route; 2] {
    let [page, twin] = Route::page::<P>();
    let page = Route {
        respond: respond::<P>,
        ..page
    };
    [page, twin]
}

fn respond<P: FormPage>(visit: &Visit<'_>) -> Answer<Reply> {
    if !P::is_asked(visit) {
        return Ok(shown(visit, &P::leaf(visit, None, None)?));
    }
    match P::view(visit) {
        Ok(view) => Ok(shown(visit, &P::leaf(visit, Some(&view), None)?)),
        Err(Halt::Failure(status, failure)) => {
            let leaf = P::leaf(visit, None, Some(&failure))?;
            Ok(shown(visit, &leaf).with(status))
        }
        Err(elsewhere) => Err(elsewhere),
    }
}

/// A form as a reply, or what came of one that was sent: it has no JSON to be read at its address.
pub(crate) fn form(visit: &Visit<'_>, leaf: &Leaf) -> Reply {
    Reply::new(HTML, layout::alone(visit, leaf).into_string())
}

/// A page as a reply.
fn shown(visit: &Visit<'_>, leaf: &Leaf) -> Reply {
    Reply::new(HTML, layout::page(visit, leaf).into_string())
}

/// Why there is no answer, above the form.
pub(crate) fn failed(visit: &Visit<'_>, failure: Option<&Failure>) -> Markup {
    html! { @if let Some(failure) = failure {
        section.fault role="alert" {
            p { strong { (visit.say(Word::NotAnswered)) } }
            (layout::told(visit, failure))
        }
    } }
}
