//! A dish that a line offers in several sizes: `glass 9 / bottle 34`, `6 or 12 pc`.

use super::lexer::Lexed;
use crate::reading::phrase::PhraseRole;

/// A size in the line: its tokens, its role, and how it is parted from the one before.
#[derive(Debug, Clone, Copy)]
struct Size {
    from: usize,
    to: usize,
    role: PhraseRole,
    parted: Parted,
}

/// What stands between two sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Parted {
    /// Nothing or a bracket: both say one size.
    Not,
    /// A comma, which also parts unlike things.
    Weakly,
    /// `/`, `or`, a price.
    Clearly,
}

/// The sizes offered as written, and the line as if it offered each alone; fewer than two of
/// them are no choice and come to none.
pub(super) fn offers(line: &Lexed<'_>) -> Vec<(String, String)> {
    let sizes = sizes(line);
    if sizes.is_empty() {
        return beside_the_plain(line).unwrap_or_default();
    }
    let (Some(first), Some(last)) = (sizes.first(), sizes.last()) else {
        return Vec::new();
    };
    let (Some(start), Some(end)) = (line.tokens.get(first.from), line.tokens.get(last.to - 1))
    else {
        return Vec::new();
    };
    let (before, behind) = (&line.text[..start.start], &line.text[end.end..]);
    let mut list: Vec<(String, String)> = Vec::new();
    for size in &sizes {
        let said = line.slice(size.from, size.to);
        if list.iter().any(|(other, _)| other == said) {
            continue;
        }
        let text = format!("{before}{}{behind}", as_a_part(said, before));
        list.push((said.to_owned(), text));
    }
    if list.len() < 2 {
        list.clear();
    }
    list
}

/// What a dish is called that is offered without a size beside one with it.
pub(crate) const PLAIN: &str = "plain";

/// `Caesar salad 14 half 9`: the dish as it is named, and a size of it at a price of its own.
fn beside_the_plain(line: &Lexed<'_>) -> Option<Vec<(String, String)>> {
    let priced = |at: usize| line.role(at) == Some(PhraseRole::Price);
    let marked = |at: usize| line.is_mark(at, &['/', '|', '(']);
    let sized = |at: &usize| {
        let named = matches!(line.role(*at), Some(PhraseRole::Size | PhraseRole::Part));
        named && priced(line.claim_end(*at))
    };
    // `Ravioli 18 / half 12`.
    let price_before = |at: usize| {
        let last = if marked(at - 1) {
            at.checked_sub(2)?
        } else {
            at - 1
        };
        priced(last).then_some(last)
    };
    let mut found = (1..line.len()).filter(sized);
    let (at, mut price) = found.find_map(|at| Some((at, price_before(at)?)))?;
    let to = line.claim_end(at);
    while price > 0 && priced(price - 1) {
        price -= 1;
    }
    let before = line.text[..line.tokens.get(price)?.start].trim_end();
    let behind = &line.text[line.tokens.get(to - 1)?.end..];
    if before.is_empty() {
        return None;
    }
    let said = line.slice(at, to);
    let sized = format!("{before}{}{behind}", as_a_part(said, before));
    Some(vec![
        (PLAIN.to_owned(), format!("{before}{behind}")),
        (said.to_owned(), sized),
    ])
}

/// A size as a part of its own behind the name; a bare number as a count.
fn as_a_part(said: &str, before: &str) -> String {
    let counted = said.chars().all(|letter| letter.is_ascii_digit());
    let said = if counted && !before.trim_end().ends_with(['(', '[']) {
        format!("({said})")
    } else {
        said.to_owned()
    };
    let open = before.trim_end().ends_with(char::is_alphanumeric);
    if open { format!(", {said}") } else { said }
}

/// The first run of sizes behind the name that can be chosen from.
fn sizes(line: &Lexed<'_>) -> Vec<Size> {
    let mut at = 1;
    while at < line.len() {
        if !is_size(line, at) {
            at += 1;
            continue;
        }
        let (run, next) = run_from(line, at);
        if is_a_choice(&run) {
            return run;
        }
        at = next.max(at + 1);
    }
    Vec::new()
}

fn is_size(line: &Lexed<'_>, at: usize) -> bool {
    matches!(
        line.role(at),
        Some(PhraseRole::Size | PhraseRole::Count | PhraseRole::Amount | PhraseRole::Part)
    )
}

/// All sizes from `at` on with nothing but prices and marks between, and the token behind.
fn run_from(line: &Lexed<'_>, at: usize) -> (Vec<Size>, usize) {
    let mut run: Vec<Size> = Vec::new();
    let mut parted = Parted::Clearly;
    let mut at = at;
    while at < line.len() {
        if is_size(line, at) {
            let to = line.claim_end(at);
            // `8 oz sirloin`: of what follows, not of the dish.
            if line.is_word(to) && !line.claimed(to) && !line.is(to, "or") {
                break;
            }
            let role = line.role(at).unwrap_or(PhraseRole::Size);
            match run.last_mut() {
                Some(last) if parted == Parted::Not => last.to = to,
                _ => run.push(Size {
                    from: at,
                    to,
                    role,
                    parted,
                }),
            }
            parted = Parted::Not;
            at = to;
        } else if let Some(more) = separator(line, at) {
            parted = parted.max(more);
            at += 1;
        } else {
            break;
        }
    }
    (run, at)
}

/// How the token at `at` parts two sizes; `None` where the run ends.
fn separator(line: &Lexed<'_>, at: usize) -> Option<Parted> {
    match line.role(at) {
        Some(PhraseRole::Price) => return Some(Parted::Clearly),
        Some(PhraseRole::Filler) | None => {}
        Some(_) => return None,
    }
    if line.is(at, "or") {
        return Some(Parted::Clearly);
    }
    match line.mark(at)? {
        '/' | '|' => Some(Parted::Clearly),
        ',' | '\u{b7}' | '\u{2022}' => Some(Parted::Weakly),
        '(' | ')' | '[' | ']' => Some(Parted::Not),
        _ => None,
    }
}

/// Whether the sizes are of one dish: clearly parted, or all of a kind.
fn is_a_choice(run: &[Size]) -> bool {
    let Some((first, others)) = run.split_first() else {
        return false;
    };
    let clear = others.iter().all(|size| size.parted == Parted::Clearly);
    let alike = others.iter().all(|size| size.role == first.role);
    !others.is_empty() && (clear || alike)
}
