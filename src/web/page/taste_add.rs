//! `/taste/add`: a form that leads through the protocol, and what it writes.

use axum::http::StatusCode;
use maud::{Markup, html};

use super::taste::{limits, note_href, notebook};
use super::{parts, taste_fields};
use crate::claim::Vocabulary;
use crate::report::ask::{self, Failure, Given};
use crate::report::text::Titles;
use crate::report::view::RefusalView;
use crate::tasting::{Day, Override, PROTOCOL, Question, Tasting, questions, refusal};
use crate::web::form_page::{failed, form as form_reply};
use crate::web::layout::{Leaf, han, text};
use crate::web::reply::{Answer, HTML, Halt, Reply};
use crate::web::route::{Parameter, Route, Takes};
use crate::web::visit::Visit;
use crate::web::words::Word;

const PATH: &str = "/taste/add";

const PARAMETERS: &[Parameter] = &[
    Parameter::one("herb", Takes::Text, "The herb that was tasted"),
    Parameter::one(
        "taster",
        Takes::Text,
        "Offer what this taster answered the last time",
    ),
];

/// The form, and the way it is sent.
pub(crate) fn routes() -> [Route; 2] {
    [
        Route::file(
            PATH,
            HTML,
            "A form for a tasting, step by step",
            PARAMETERS,
            empty,
        ),
        Route::file(
            PATH,
            HTML,
            "Note a tasting; the form has a field for each question of the protocol",
            &[],
            sent,
        )
        .posted(FIELDS, true),
    ]
}

const FIELDS: &[Parameter] = &[
    Parameter::one("herb", Takes::Text, "The herb that was tasted"),
    Parameter::one(
        "despite",
        Takes::Text,
        "The reason for which it was tasted all the same, where something is against it",
    ),
];

/// The form as it is offered.
fn empty(visit: &Visit<'_>) -> Answer<Reply> {
    if visit.room.settings.read_only {
        return Err(Halt::forbidden(
            "this room is read-only, since others than this machine can ask it",
        ));
    }
    let (notebook, _) = notebook(visit)?;
    let taster = visit.asked.one("taster");
    let last = notebook.last(taster).map(|one| &one.tasting);
    let today = (visit.room.settings.today)();
    let offered = |question: &Question| {
        let offer = question.offer(last, today.unwrap_or(Day::FIRST));
        // Without a clock no day is offered.
        offer.filter(|_| today.is_some() || question.field != crate::tasting::Field::Date)
    };
    Ok(form_reply(
        visit,
        &leaf(visit, visit.asked.one("herb"), &offered, None),
    ))
}

/// Notes what was sent, or tells why not beside what was filled in.
fn sent(visit: &Visit<'_>) -> Answer<Reply> {
    match written(visit) {
        Ok(id) => {
            let pages = note_href(visit, &id);
            let more = if pages.contains('?') { "&" } else { "?" };
            Ok(Reply::elsewhere(format!("{pages}{more}done=yes")))
        }
        Err(Halt::Failure(status, failure)) => {
            let typed = |question: &Question| posted(visit, question.field.name());
            let herb = posted(visit, "herb");
            let leaf = leaf(visit, herb.as_deref(), &typed, Some(&failure));
            Ok(form_reply(visit, &leaf).with(status))
        }
        Err(elsewhere) => Err(elsewhere),
    }
}

/// What was typed into a field.
fn posted(visit: &Visit<'_>, name: &str) -> Option<String> {
    let typed = visit.posted.as_ref()?.fields.one(name)?;
    // Forms send lines as typewriters did.
    Some(typed.trim().replace("\r\n", "\n"))
}

fn written(visit: &Visit<'_>) -> Answer<String> {
    let (notebook, _) = notebook(visit)?;
    let corpus = visit.corpus();
    let name = posted(visit, "herb").ok_or_else(|| Failure::new("no herb is named"))?;
    let herb = ask::herb(corpus, &name)?.herb;
    let reason = posted(visit, "despite");
    let stated = reason.map(|reason| Override { reason });
    let permission = ask::permitted(&visit.labels(), herb, stated)
        .map_err(|failure| Halt::Failure(StatusCode::FORBIDDEN, failure))?;
    let given = given(visit, &corpus.vocabulary)?;
    let settings = &visit.room.settings;
    let dated = given
        .iter()
        .any(|(field, _)| *field == crate::tasting::Field::Date);
    let today = (settings.today)().or_else(|| dated.then_some(Day::FIRST));
    let today = today
        .ok_or_else(|| Failure::new("the clock of this computer tells no day; give the day"))?;
    let mut tasting = Tasting::on(herb.id.clone(), today);
    tasting.overridden = permission.overridden;
    ask::set_all(&mut tasting, &given);
    if ask::untold(&tasting) {
        return Err(Failure::new("no score was given, and no words; nothing was written").into());
    }
    let unique = ((settings.now)(), (settings.chance)());
    Ok(ask::note_down(&notebook, tasting, &herb.id, unique)?.id)
}

fn given(visit: &Visit<'_>, vocabulary: &Vocabulary) -> Answer<Given> {
    let questions = questions(vocabulary).into_iter();
    let filled = questions.filter_map(|question| {
        let words = posted(visit, question.field.name())?;
        Some((question.field, words))
    });
    Ok(ask::given(vocabulary, filled.collect(), &[])?)
}

fn leaf(
    visit: &Visit<'_>,
    herb: Option<&str>,
    value: &dyn Fn(&Question) -> Option<String>,
    failure: Option<&Failure>,
) -> Leaf {
    let title = visit.either("Note a tasting", "記一次品嘗");
    let main = html! {
        h1 { (title) }
        (failed(visit, failure))
        p.warn { strong { (limits(visit)) } }
        (against(visit, herb))
        form.filters.tasting method="post" action=(visit.href(PATH, &[])) {
            (visit.token_field())
            div.field {
                label for="herb" { (visit.say(Word::Herb)) }
                input #herb name="herb" type="text" required maxlength="60" value=[herb] lang=(han(visit)) autocomplete="off";
            }
            (steps(visit, value))
            (despite(visit, herb))
            button type="submit" { (visit.either("Write it down", "記下")) }
        }
    };
    Leaf {
        title: title.into_owned(),
        section: "/taste",
        main,
    }
}

/// The steps of the protocol, each with its questions.
fn steps(visit: &Visit<'_>, value: &dyn Fn(&Question) -> Option<String>) -> Markup {
    let all = questions(&visit.corpus().vocabulary);
    let of = |step: Option<usize>| all.iter().filter(move |one| one.step == step);
    let ask =
        |question: &Question| taste_fields::asked(visit, question, value(question).as_deref());
    html! {
        fieldset { legend { (visit.either("Who and when", "何人何時")) } @for question in of(None) { (ask(question)) } }
        @for (place, step) in PROTOCOL.iter().enumerate() {
            fieldset {
                legend { (place + 1) ". " (visit.either(step.name, STEPS[place].0)) }
                p { (visit.either(step.words, STEPS[place].1)) }
                @for question in of(Some(place)) { (ask(question)) }
            }
        }
    }
}

/// The steps of the protocol in Chinese.
const STEPS: [(&str, &str); PROTOCOL.len()] = [
    ("稱", "單取一味，稱其重。記其批號、形色、氣味。"),
    ("沖", "置於保溫壺中，以沸水浸沒。"),
    ("置", "加蓋，放置一夜，約十二小時。"),
    ("嘗", "晨起空腹嘗之。"),
    (
        "評",
        "各味由 0 至 10 評分，次評厚薄、餘味、香氣、寒熱；記其所感之處與走向。不能辨者，不記。",
    ),
    ("校", "然後方與書中之說相對。"),
];

/// What is against tasting the herb, where anything is.
fn refused(visit: &Visit<'_>, herb: Option<&str>) -> Option<RefusalView> {
    let named = ask::herb(visit.corpus(), herb?).ok()?;
    let refusal = refusal(visit.corpus(), named.herb)?;
    Some(RefusalView::new(&visit.labels(), named.herb, &refusal))
}

fn against(visit: &Visit<'_>, herb: Option<&str>) -> Markup {
    html! { @if let Some(view) = refused(visit, herb) {
        section.cautions role="alert" {
            p { strong { (text(visit, &view.name)) " " (visit.either("is never tasted to learn it:", "絕不可為識藥而嘗：")) } }
            ul {
                @for one in &view.warnings { li.grave { (visit.say(Word::InTheBooks)) " " (parts::severest(visit, &Titles::new(&view.works), one)) } }
                @for one in &view.cautions { (parts::caution(visit, one)) }
            }
            p { strong { (visit.say(Word::Notice)) } }
        }
    } }
}

/// The reason for which an herb was tasted all the same; asked only where something is against it.
fn despite(visit: &Visit<'_>, herb: Option<&str>) -> Markup {
    html! { @if refused(visit, herb).is_some() {
        fieldset {
            legend { (visit.either("It was tasted all the same", "仍已嘗之")) }
            p { (visit.either("What was tasted all the same is noted only with the reason for it.", "仍已嘗者，須述其故方可記。")) }
            div.field {
                label for="despite" { (visit.either("the reason", "緣由")) }
                input #despite name="despite" type="text" maxlength="400" value=[posted(visit, "despite")];
            }
        }
    } }
}
