//! The parts of a menu line, cut at its joints.

use super::joints::{Joint, joint};
use super::lexer::Lexed;
use crate::reading::phrase::PhraseRole;

/// A part of a line: tokens from `from` to before `to`.
#[derive(Debug, Clone, Copy)]
#[allow(clippy::struct_excessive_bools)] // marks around it, each read by itself
pub(super) struct Item {
    pub from: usize,
    pub to: usize,
    /// How it hangs on what stands before it.
    pub joint: Joint,
    /// The joint that began the list it stands in.
    pub begun: Joint,
    /// Whether a comma stands before its `or`.
    pub oxford: bool,
    /// Whether it stands behind a semicolon.
    pub beside: bool,
    /// Whether a bracket opens before it.
    pub bracketed: bool,
    /// Place of its own price, a token.
    pub price: Option<usize>,
    /// Whether that price is `+3`.
    pub plus: bool,
    /// The joint's words: tokens from and to.
    pub by: (usize, usize),
}

/// Roles that are no part of what is eaten.
pub(super) fn is_beside(role: Option<PhraseRole>) -> bool {
    matches!(
        role,
        Some(
            PhraseRole::Price
                | PhraseRole::Tag
                | PhraseRole::Allergen
                | PhraseRole::PrintedEnergy
                | PhraseRole::Yield
                | PhraseRole::Section
                | PhraseRole::Filler
        )
    )
}

#[allow(clippy::struct_excessive_bools)] // as those of an item
struct Cutter<'l, 't> {
    line: &'l mut Lexed<'t>,
    items: Vec<Item>,
    from: Option<usize>,
    joint: Joint,
    by: (usize, usize),
    begun: Joint,
    comma: bool,
    beside: bool,
    bracketed: bool,
    plus: bool,
}

/// Cuts a line into its parts; joints and marks are claimed as filler.
pub(super) fn cut(line: &mut Lexed<'_>) -> Vec<Item> {
    let mut cutter = Cutter {
        line,
        items: Vec::new(),
        from: None,
        joint: Joint::List,
        by: (0, 0),
        begun: Joint::List,
        comma: false,
        beside: false,
        bracketed: false,
        plus: false,
    };
    let mut at = 0;
    while at < cutter.line.len() {
        at = cutter.step(at);
    }
    cutter.close(at);
    cutter.items
}

impl Cutter<'_, '_> {
    fn step(&mut self, at: usize) -> usize {
        match self.line.role(at) {
            Some(PhraseRole::Price) => {
                self.price(at);
                return at + 1;
            }
            role if is_beside(role) => return at + 1,
            Some(_) => {
                self.from.get_or_insert(at);
                return at + 1;
            }
            None => {}
        }
        let open = self.from.is_some();
        if self.line.is_mark(at, &['+']) && self.line.role(at + 1) == Some(PhraseRole::Price) {
            self.line.claim(PhraseRole::Filler, at, at + 1);
            self.plus = true;
            return at + 1;
        }
        // `no butter or syrup`: neither.
        let removing = self
            .from
            .is_some_and(|from| self.line.any(from, &["no", "without", "hold"]));
        if removing && self.line.is(at, "or") {
            return at + 1;
        }
        match joint(self.line, at, open) {
            Some((found, next)) if next > at || self.from != Some(at) => {
                self.close(at);
                self.line.claim(PhraseRole::Filler, at, next);
                self.join(found, at, next);
                if next == at {
                    self.from = Some(at);
                    // `made with`, `easy on`: no joint, but what the change begins with.
                    let with = self.line.any(at, &["made", "wrapped", "easy", "light"]);
                    return at + 1 + usize::from(with);
                }
                next
            }
            _ => {
                self.from.get_or_insert(at);
                at + 1
            }
        }
    }

    /// A price belongs to what stands before it.
    fn price(&mut self, at: usize) {
        let begins = at == 0 || self.line.role(at - 1) != Some(PhraseRole::Price);
        let open = self.from.is_some();
        self.close(at);
        if !begins {
            return;
        }
        let plus = std::mem::take(&mut self.plus);
        if let Some(last) = self.items.last_mut()
            && (open || last.price.is_none())
        {
            last.price = Some(at);
            last.plus = plus;
        }
        self.joint = Joint::Break;
        self.by = (at, at);
    }

    fn join(&mut self, found: Joint, from: usize, next: usize) {
        let semicolon = self.line.is_mark(from, &[';']);
        self.beside |= semicolon;
        self.bracketed |= self.line.is_mark(from, &['(', '[']);
        self.comma = self.line.is_mark(from, &[',']) || (self.comma && found == Joint::Or);
        let weak = matches!(found, Joint::List | Joint::And | Joint::Break);
        let pending = self.by != (0, 0)
            && self.from.is_none()
            && !matches!(self.joint, Joint::List | Joint::Break | Joint::And);
        // `, served with`: the second joint says more; `with, ` the first does.
        if !(weak && pending) {
            self.joint = found;
            self.by = (from, next);
        }
        if !matches!(found, Joint::List | Joint::And | Joint::Or)
            || self.bracketed && self.line.is_mark(from, &['(', '['])
        {
            self.begun = if self.line.is_mark(from, &['(', '[']) {
                Joint::Described
            } else {
                found
            };
        }
    }

    fn close(&mut self, to: usize) {
        let Some(from) = self.from.take() else {
            return;
        };
        self.items.push(Item {
            from,
            to,
            joint: self.joint,
            begun: self.begun,
            oxford: self.comma && self.joint == Joint::Or,
            beside: self.beside,
            bracketed: std::mem::take(&mut self.bracketed),
            price: None,
            plus: false,
            by: self.by,
        });
        self.joint = Joint::List;
        self.by = (to, to);
        self.comma = false;
    }
}
