//! `/herb/{id}`: the sources on one herb side by side.

use maud::html;

use crate::claim::Facet;
use crate::report::view::ComparisonView;
use crate::web::layout::{Leaf, text};
use crate::web::reply::Answer;
use crate::web::route::{Page, Parameter, SCOPE, Takes};
use crate::web::visit::Visit;

/// An herb's page.
pub(crate) struct HerbPage;

const FACETS: &[&str] = &[
    "flavour", "nature", "toxicity", "grade", "channel", "action",
];

impl Page for HerbPage {
    type View = ComparisonView;
    const PATH: &'static str = "/herb/{id}";
    const SUMMARY: &'static str = "The sources on one herb side by side";
    const PARAMETERS: &'static [Parameter] = &[
        Parameter::many("facet", Takes::OneOf(FACETS), "Compare only these facets"),
        Parameter::one("as", Takes::Text, "By which name the visitor came"),
        SCOPE[0],
        SCOPE[1],
        SCOPE[2],
    ];

    fn view(visit: &Visit<'_>) -> Answer<Self::View> {
        let herb = visit.herb("id")?;
        let selection = visit.selection()?;
        let labels = visit.labels();
        let mut view = ComparisonView::new(&labels, herb, &Facet::ALL, &selection);
        view.relate(&labels, &visit.relations()?, herb, &selection)?;
        Ok(view)
    }

    fn page(visit: &Visit<'_>, view: &Self::View) -> Answer<Leaf> {
        let herb = &view.herb;
        Ok(Leaf {
            title: format!("{} {}", herb.name, herb.pinyin),
            section: "/",
            main: html! { h1 { (text(visit, &herb.name)) " " (herb.pinyin) } },
        })
    }
}
