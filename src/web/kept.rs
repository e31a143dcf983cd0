//! Answers that were given before, kept while nothing that they were made from has changed.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

use super::reply::Reply;

/// So many bytes of answers are kept.
const SIZE: usize = 32 * 1024 * 1024;
/// What an answer takes besides its bytes, roughly; so many small ones do not add up unseen.
const BESIDE: usize = 512;

/// What an answer was made from: when this is the same, so is the answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Made {
    /// How often the corpus was read anew, or was found to be faulty.
    pub corpus: u64,
    /// What the files of the notebook looked like.
    pub notebook: Option<u64>,
}

/// The answers of a room, each under its address; of too many those go that were not asked for longest.
#[derive(Debug, Default)]
pub(crate) struct Kept {
    shelf: Mutex<Answers>,
}

#[derive(Debug, Default)]
struct Answers {
    all: HashMap<String, Answered>,
    size: usize,
    asked: u64,
}

#[derive(Debug)]
struct Answered {
    made: Made,
    reply: Reply,
    /// When it was last asked for, by the count of what was asked.
    last: u64,
}

impl Kept {
    /// The answer to an address, where it was made from the same.
    pub(crate) fn get(&self, address: &str, made: Made) -> Option<Reply> {
        let mut answers = self.shelf.lock().unwrap_or_else(PoisonError::into_inner);
        answers.asked += 1;
        let last = answers.asked;
        let one = answers
            .all
            .get_mut(address)
            .filter(|one| one.made == made)?;
        one.last = last;
        Some(one.reply.clone())
    }

    /// Keeps an answer, unless it is too large for that.
    pub(crate) fn put(&self, address: &str, made: Made, reply: &Reply) {
        let size = size(address, reply);
        if size > SIZE / 8 {
            return;
        }
        let mut answers = self.shelf.lock().unwrap_or_else(PoisonError::into_inner);
        answers.asked += 1;
        answers.remove(address);
        while answers.size + size > SIZE {
            let oldest = answers.all.iter().min_by_key(|(_, one)| one.last);
            let Some(oldest) = oldest.map(|(address, _)| address.clone()) else {
                break;
            };
            answers.remove(&oldest);
        }
        answers.size += size;
        let answered = Answered {
            made,
            reply: reply.clone(),
            last: answers.asked,
        };
        answers.all.insert(address.to_owned(), answered);
    }
}

impl Answers {
    fn remove(&mut self, address: &str) {
        if let Some(one) = self.all.remove(address) {
            self.size -= size(address, &one.reply);
        }
    }
}

fn size(address: &str, reply: &Reply) -> usize {
    address.len() + reply.bytes.len() + BESIDE
}

#[cfg(test)]
mod tests {
    use super::{Kept, Made, SIZE};
    use crate::web::reply::{HTML, Reply};
    use pretty_assertions::assert_eq;

    const NOW: Made = Made {
        corpus: 1,
        notebook: Some(7),
    };

    #[test]
    fn an_answer_is_kept_while_it_is_made_from_the_same() {
        let kept = Kept::default();
        kept.put("/herb/bohe", NOW, &Reply::new(HTML, "mint"));
        let told = kept.get("/herb/bohe", NOW).map(|reply| reply.bytes);
        assert_eq!(told.as_deref(), Some(b"mint".as_slice()));
        assert!(kept.get("/herb/juhua", NOW).is_none());
        for other in [
            Made { corpus: 2, ..NOW },
            Made {
                notebook: Some(8),
                ..NOW
            },
        ] {
            assert!(kept.get("/herb/bohe", other).is_none());
        }
    }

    #[test]
    fn what_was_not_asked_for_longest_makes_room() {
        let kept = Kept::default();
        let large = Reply::new(HTML, vec![b'x'; SIZE / 10]);
        for n in 0..9 {
            kept.put(&format!("/{n}"), NOW, &large);
        }
        assert!(kept.get("/0", NOW).is_some());
        kept.put("/9", NOW, &large);
        assert!(kept.get("/0", NOW).is_some() && kept.get("/9", NOW).is_some());
        assert!(kept.get("/1", NOW).is_none());
        assert!(kept.shelf.lock().unwrap().size <= SIZE);
        kept.put("/whole", NOW, &Reply::new(HTML, vec![b'x'; SIZE]));
        assert!(kept.get("/whole", NOW).is_none());
    }
}
