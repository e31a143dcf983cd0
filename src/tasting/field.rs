//! The fields of a tasting by name, to be given and asked for in words.

use std::fmt;

use super::record::Tasting;
use super::score::{Celsius, Grams, Hours, Millilitres, RangeError};
use super::write::word;
use crate::claim::{Direction, Facet, Vocabulary};
use crate::compare::{Question, QuestionError, parse_question};

/// One field of a tasting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Field {
    /// The part that was steeped.
    Part,
    /// How it was prepared.
    Preparation,
    /// The lot.
    Lot,
    /// The supplier.
    Supplier,
    /// Grams.
    Amount,
    /// Millilitres of water.
    Water,
    /// The vessel.
    Vessel,
    /// Degrees Celsius.
    Temperature,
    /// Hours.
    Hours,
    /// The day.
    Date,
    /// The taster.
    Taster,
    /// Whether fasting.
    Fasting,
    /// The blind code.
    Code,
    /// The number of the cup.
    Cup,
    /// The score of a flavour, by id.
    Flavour(String),
    /// Thickness.
    Thickness,
    /// How long it lingers.
    Lingering,
    /// Aroma.
    Aroma,
    /// Warmth.
    Warmth,
    /// Where it is felt.
    Places,
    /// Which way it moves.
    Direction,
    /// Own words.
    Words,
    /// Pictures.
    Photos,
}

/// Words that no field takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FieldError {
    /// The value does not fit the field.
    Value {
        /// The field's name.
        field: String,
        /// What was found and expected.
        error: RangeError,
    },
    /// No scale is called so; these are near.
    NoScale(String, Vec<String>),
    /// A score is not given as `NAME=NUMBER`.
    NoScore(String),
}

impl fmt::Display for FieldError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Value { field, error } => write!(f, "{field} {error}"),
            Self::NoScale(name, near) => {
                let near = near.join(", ");
                let more = if near.is_empty() {
                    "expected a flavour, thickness, lingering, aroma or warmth".to_owned()
                } else {
                    format!("near to it: {near}")
                };
                write!(f, "no scale is called `{name}`; {more}")
            }
            Self::NoScore(words) => {
                write!(
                    f,
                    "`{words}` is no score; expected NAME=NUMBER, such as acrid=6.5"
                )
            }
        }
    }
}

impl std::error::Error for FieldError {}

/// Words that take a value away again.
const NOTHING: &str = "-";

impl Field {
    /// The name under which it is asked for and reported.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Part => "part",
            Self::Preparation => "preparation",
            Self::Lot => "lot",
            Self::Supplier => "supplier",
            Self::Amount => "amount",
            Self::Water => "water",
            Self::Vessel => "vessel",
            Self::Temperature => "temperature",
            Self::Hours => "hours",
            Self::Date => "date",
            Self::Taster => "taster",
            Self::Fasting => "fasting",
            Self::Code => "code",
            Self::Cup => "cup",
            Self::Flavour(id) => id,
            Self::Thickness => "thickness",
            Self::Lingering => "lingering",
            Self::Aroma => "aroma",
            Self::Warmth => "warmth",
            Self::Places => "places",
            Self::Direction => "direction",
            Self::Words => "words",
            Self::Photos => "photos",
        }
    }

    /// The key of the record in whose lines it stands.
    #[must_use]
    pub fn key(&self) -> &str {
        match self {
            Self::Flavour(_) | Self::Thickness | Self::Lingering | Self::Aroma | Self::Warmth => {
                "scores"
            }
            other => other.name(),
        }
    }

    /// A score as it is typed, `acrid=6.5` or `辛=6.5`: its field and its number.
    ///
    /// # Errors
    /// When no scale has the name, or there is no number.
    ///
    /// ```
    /// use kaoyi::tasting::Field;
    /// let vocabulary = kaoyi::corpus::embedded().unwrap().vocabulary;
    /// assert_eq!(Field::score(&vocabulary, "辛=6.5").unwrap().0, Field::Flavour("acrid".into()));
    /// assert_eq!(Field::score(&vocabulary, "aroma=3").unwrap().0, Field::Aroma);
    /// assert!(Field::score(&vocabulary, "acrd=3").unwrap_err().to_string().contains("acrid"));
    /// ```
    pub fn score<'w>(
        vocabulary: &Vocabulary,
        words: &'w str,
    ) -> Result<(Self, &'w str), FieldError> {
        let no_score = || FieldError::NoScore(words.to_owned());
        let (name, number) = words.split_once(['=', '＝']).ok_or_else(no_score)?;
        let (name, number) = (name.trim(), number.trim());
        if name.is_empty() || number.is_empty() {
            return Err(no_score());
        }
        let field = match name {
            "thickness" => Self::Thickness,
            "lingering" => Self::Lingering,
            "aroma" => Self::Aroma,
            "warmth" => Self::Warmth,
            name => Self::flavour(vocabulary, name)?,
        };
        Ok((field, number))
    }

    fn flavour(vocabulary: &Vocabulary, name: &str) -> Result<Self, FieldError> {
        match parse_question(vocabulary, &format!("flavour:{name}")) {
            Ok(Question { facet, value }) => {
                let id = &vocabulary.scheme(facet).value(value).id;
                Ok(Self::Flavour(id.clone()))
            }
            Err(QuestionError::Unknown(near) | QuestionError::Ambiguous(near)) => {
                let scheme = vocabulary.scheme(Facet::Flavour);
                let near = near.iter().map(|one| match one.split_once(':') {
                    Some((_, value)) => value.to_owned(),
                    None => one.clone(),
                });
                let near = near.filter(|one| scheme.place(one).is_some()).collect();
                Err(FieldError::NoScale(name.to_owned(), near))
            }
        }
    }

    /// Puts a value, in words, into a tasting; `-` takes the value away.
    ///
    /// # Errors
    /// When the words are no value of the field.
    pub fn set(&self, tasting: &mut Tasting, words: &str) -> Result<(), FieldError> {
        let words = words.trim();
        let given = (words != NOTHING && !words.is_empty()).then_some(words);
        self.put(tasting, given).map_err(|error| FieldError::Value {
            field: self.name().to_owned(),
            error,
        })
    }

    fn put(&self, tasting: &mut Tasting, given: Option<&str>) -> Result<(), RangeError> {
        let text = given.map(str::to_owned);
        let scores = &mut tasting.scores;
        match self {
            Self::Part => tasting.part = text,
            Self::Preparation => tasting.preparation = text,
            Self::Lot => tasting.lot = text,
            Self::Supplier => tasting.supplier = text,
            Self::Amount => tasting.amount = number::<Grams>(given, &["克", "grams", "gram", "g"])?,
            Self::Water => tasting.water = number::<Millilitres>(given, &["毫升", "ml"])?,
            Self::Vessel => tasting.vessel = text,
            Self::Temperature => tasting.temperature = number::<Celsius>(given, &["°C", "℃", "C"])?,
            Self::Hours => tasting.hours = number::<Hours>(given, &["小時", "小时", "hours", "h"])?,
            Self::Date => {
                if let Some(words) = given {
                    tasting.date = words.parse()?;
                }
            }
            Self::Taster => tasting.taster = text,
            Self::Fasting => tasting.fasting = given.map(yes_or_no).transpose()?,
            Self::Code => tasting.code = text,
            Self::Cup => tasting.cup = given.map(cup).transpose()?,
            Self::Flavour(id) => match given {
                Some(words) => {
                    scores.flavours.insert(id.clone(), words.parse()?);
                }
                None => {
                    scores.flavours.remove(id);
                }
            },
            Self::Thickness => scores.thickness = number(given, &[])?,
            Self::Lingering => scores.lingering = number(given, &[])?,
            Self::Aroma => scores.aroma = number(given, &[])?,
            Self::Warmth => scores.warmth = number(given, &[])?,
            Self::Places => tasting.places = list(given),
            Self::Direction => tasting.direction = directions(given)?,
            Self::Words => tasting.words = text,
            Self::Photos => tasting.photos = list(given),
        }
        Ok(())
    }

    /// The value that a tasting has, in words; `None` where it is unsaid.
    #[must_use]
    pub fn get(&self, tasting: &Tasting) -> Option<String> {
        let scores = &tasting.scores;
        let joined = |items: Vec<String>| (!items.is_empty()).then(|| items.join(", "));
        match self {
            Self::Part => tasting.part.clone(),
            Self::Preparation => tasting.preparation.clone(),
            Self::Lot => tasting.lot.clone(),
            Self::Supplier => tasting.supplier.clone(),
            Self::Amount => tasting.amount.map(|one| one.to_string()),
            Self::Water => tasting.water.map(|one| one.to_string()),
            Self::Vessel => tasting.vessel.clone(),
            Self::Temperature => tasting.temperature.map(|one| one.to_string()),
            Self::Hours => tasting.hours.map(|one| one.to_string()),
            Self::Date => Some(tasting.date.to_string()),
            Self::Taster => tasting.taster.clone(),
            Self::Fasting => tasting
                .fasting
                .map(|yes| if yes { "yes" } else { "no" }.to_owned()),
            Self::Code => tasting.code.clone(),
            Self::Cup => tasting.cup.map(|one| one.to_string()),
            Self::Flavour(id) => scores.flavours.get(id).map(|one| one.to_string()),
            Self::Thickness => scores.thickness.map(|one| one.to_string()),
            Self::Lingering => scores.lingering.map(|one| one.to_string()),
            Self::Aroma => scores.aroma.map(|one| one.to_string()),
            Self::Warmth => scores.warmth.map(|one| one.to_string()),
            Self::Places => joined(tasting.places.clone()),
            Self::Direction => joined(tasting.direction.iter().map(|one| word(*one)).collect()),
            Self::Words => tasting.words.clone(),
            Self::Photos => joined(tasting.photos.clone()),
        }
    }
}

/// A number, with or without one of the units after it.
fn number<T: std::str::FromStr<Err = RangeError>>(
    given: Option<&str>,
    units: &[&str],
) -> Result<Option<T>, RangeError> {
    let Some(words) = given else { return Ok(None) };
    let bare = units.iter().find_map(|unit| words.strip_suffix(unit));
    match bare.unwrap_or(words).trim().parse() {
        Ok(number) => Ok(Some(number)),
        Err(error) => Err(RangeError {
            found: words.to_owned(),
            ..error
        }),
    }
}

fn cup(words: &str) -> Result<u32, RangeError> {
    let number = words.parse::<u32>().ok().filter(|number| *number > 0);
    number.ok_or_else(|| RangeError {
        found: words.to_owned(),
        expected: "the number of the cup, from 1".to_owned(),
    })
}

fn yes_or_no(words: &str) -> Result<bool, RangeError> {
    match words.to_ascii_lowercase().as_str() {
        "yes" | "y" | "true" | "是" => Ok(true),
        "no" | "n" | "false" | "否" => Ok(false),
        _ => Err(RangeError {
            found: words.to_owned(),
            expected: "yes or no".to_owned(),
        }),
    }
}

/// Parts between commas, in either script's comma.
fn list(given: Option<&str>) -> Vec<String> {
    let parts = given
        .into_iter()
        .flat_map(|words| words.split([',', '，', '、']));
    let parts = parts.map(str::trim).filter(|part| !part.is_empty());
    parts.map(str::to_owned).collect()
}

fn directions(given: Option<&str>) -> Result<Vec<Direction>, RangeError> {
    let mut directions = Vec::new();
    for part in list(given).iter().flat_map(|part| part.split_whitespace()) {
        let direction = match part {
            "up" | "升" => Direction::Up,
            "down" | "降" => Direction::Down,
            "out" | "散" => Direction::Out,
            "in" | "收" => Direction::In,
            "centre" | "center" | "中" => Direction::Centre,
            _ => {
                return Err(RangeError {
                    found: part.to_owned(),
                    expected: "up, down, out, in or centre, or several with commas".to_owned(),
                });
            }
        };
        if !directions.contains(&direction) {
            directions.push(direction);
        }
    }
    Ok(directions)
}
