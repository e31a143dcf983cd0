//! The table of routes: every page, its JSON, every download and form. Router and description are made from it.

use super::reply::{HTML, JSON};
use super::route::Route;
use super::{form_page, openapi, page};

/// All routes. A new page is a line here and a file in `page`.
pub(crate) fn routes() -> Vec<Route> {
    let mut routes = Vec::new();
    // What is read.
    routes.extend(Route::page::<page::home::Home>());
    routes.extend(Route::page::<page::herb::HerbPage>());
    routes.extend(Route::page::<page::against::Against>());
    routes.push(Route::file(
        "/against",
        HTML,
        "Leads to the page of two herbs",
        page::against::CHOICE,
        page::against::choose,
    ));
    routes.extend(Route::page::<page::find::Find>());
    routes.extend(Route::page::<page::name::Name>());
    routes.push(Route::file(
        openapi::PATH,
        JSON,
        "This description",
        &[],
        openapi::respond,
    ));
    routes.extend(Route::page::<page::disputes::Disputes>());
    routes.extend(Route::page::<page::works::Works>());
    routes.extend(Route::page::<page::works::Work>());
    routes.extend(Route::page::<page::affinity::Affinity>());
    routes.extend(Route::page::<page::explain::Explain>());
    routes.extend(form_page::routes::<page::pair::Pair>());
    routes.extend(form_page::routes::<page::weigh::Weigh>());
    routes.extend(Route::page::<page::taste::Tastings>());
    routes.extend(Route::page::<page::taste::Note>());
    routes.extend(Route::page::<page::taste_against::TasteAgainst>());
    // What is saved.
    routes.extend(page::handout::routes());
    // What is sent.
    routes.extend(page::taste_add::routes());
    routes.extend(page::panel::routes());
    routes
}
