//! Herbs together: what a pair or formula is by the books' records, weighted by amount; what the trade forbids; and what the
//! doctrine of flavours leads one to expect. An arithmetic of records and not a measurement (rule 38 of the methods).

mod aim;
mod assumptions;
mod blend;
mod expectation;
mod formula;
mod given;
mod incompatible;
mod nature;
mod prepared;
mod taste;
mod tasted;
mod together;

pub use aim::{Aim, AimError, Change, Reach, Side, reach};
pub use assumptions::{Assumptions, Counting};
pub use blend::{Blend, BlendedFlavour, Ingredient, Moves, blend};
pub use expectation::{Expectation, Shown, expectations, held};
pub use formula::{Formula, Member};
pub use given::{Given, GivenError, Unit, parts};
pub use incompatible::{Forbidden, Loud, forbidden, loud};
pub use nature::{NaturePlace, nature_of, nearest_nature};
pub use prepared::{Prepared, prepared};
pub use taste::{Portion, Taste, taste};
pub use tasted::Tasted;
pub use together::{Actions, Joint, Opposition, Shared, shared_channels};
