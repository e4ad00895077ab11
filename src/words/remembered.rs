//! The words of texts that are asked for again and again, remembered.

use super::words;
use crate::memo::Memo;
use std::cell::RefCell;
use std::rc::Rc;

/// Texts remembered, in each of two generations: those of a few items of a menu.
const REMEMBERED: usize = 256;
/// Longest text remembered, bytes.
const LONGEST: usize = 256;

thread_local! {
    static KNOWN: RefCell<Memo<Rc<[String]>>> = RefCell::new(Memo::new(REMEMBERED));
}

/// As [`words`]: what one item of a menu is asked about is taken apart once.
#[must_use]
pub(crate) fn words_of(text: &str) -> Rc<[String]> {
    if text.len() > LONGEST {
        return words(text).into();
    }
    KNOWN.with_borrow_mut(|known| Rc::clone(known.get(text, || words(text).into())))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_remembered_is_what_would_be_worked_out() {
        let long = "cheese ".repeat(100);
        for text in ["Cherry Tomatoes", "", "Cherry Tomatoes", &long] {
            assert_eq!(*words_of(text), *words(text));
        }
    }
}
