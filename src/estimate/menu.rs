//! A menu line becomes a dish: a whole dish or a kind of dish, what the line names, what it
//! adds and takes away, and what comes beside it.

use super::combine::Tie;
use super::component::{MatchedComponent, WeighedComponent, match_dish, weigh_dish};
use super::kinds::{DishKind, KindHit, kind_of};
use super::plan::{Estimated, Request, finish, said};
use super::typical::{Setting, fill, with_log_sd};
use super::usual::{Role, is_dish, usual};
use super::weigh::Basis;
use crate::catalogue::{Catalogue, Certainty, Context, Food, FoodId, words::words};
use crate::reading::{
    ComponentLine, Dish, MenuLine, MenuPart, PartKind, Place, Served, UnitSystem, parse_component,
};

/// Finds a dish of the library by name.
pub type Known<'k> = &'k dyn Fn(&str) -> Option<Dish<ComponentLine>>;

/// How much a component differs when another kitchen serves the dish than the one whose
/// amounts are known (log scale). Half of it is common to all components, so that whole
/// plates differ by about 0.28, as the weight of one dish does across restaurants (median
/// coefficient of variation 26 % over USDA SR28 group 3600).
const OTHER_KITCHEN: f64 = 0.38;
/// What `extra` and `light` do to an amount (common practice).
const EXTRA: f64 = 1.5;
const LIGHT: f64 = 0.5;

/// A guess at a whole dish is taken only for a name this short; a longer line is better
/// built from what it names.
const FEW_WORDS: usize = 4;

/// Where menu lines are understood.
#[derive(Clone, Copy)]
pub struct MenuContext<'m> {
    /// The foods.
    pub catalogue: &'m Catalogue,
    /// The library.
    pub known: Known<'m>,
    /// Cups and spoons.
    pub units: UnitSystem,
    /// British senses of words.
    pub british: bool,
}

/// The dish as far as it is worked out.
struct Draft<'m> {
    context: MenuContext<'m>,
    main: Vec<WeighedComponent>,
    sides: Vec<WeighedComponent>,
    kind: Option<&'static DishKind>,
    notes: Vec<String>,
}

/// Estimates a menu line.
#[must_use]
pub fn estimate_line(
    line: &MenuLine,
    served: Option<Served>,
    request: &Request,
    context: MenuContext<'_>,
) -> Estimated {
    let mut draft = Draft {
        context,
        main: Vec::new(),
        sides: Vec::new(),
        kind: None,
        notes: Vec::new(),
    };
    let parts = draft.begin(line);
    for part in &line.parts[parts..] {
        draft.part(&part.text, &part.what);
    }
    fill(
        &mut draft.main,
        draft.kind,
        Setting::Restaurant,
        context.catalogue,
    );
    // What changes an amount needs the amount first.
    for part in &line.parts[parts..] {
        draft.change_amount(&part.text, &part.what);
    }
    let Draft {
        main,
        sides,
        kind,
        notes,
        ..
    } = draft;
    let components = main.into_iter().chain(sides).collect();
    let dish = Dish {
        name: Some(line.text.clone()),
        kind: kind.map(|k| k.name.clone()),
        served,
        components,
        ..Dish::default()
    };
    let mut estimated = finish(dish, request, context.catalogue);
    estimated.notes.splice(0..0, notes);
    estimated
}

impl Draft<'_> {
    /// Takes the main dish; returns how many parts of the line it used up.
    fn begin(&mut self, line: &MenuLine) -> usize {
        let within = line
            .parts
            .iter()
            .take_while(|p| matches!(p.what, PartKind::Named | PartKind::Under))
            .count();
        self.kind = head_kind(line).map(|hit| hit.kind);
        let sized = self.lines(&line.head).is_some_and(|l| l.amount.is_some());
        if !sized {
            for (name, used, sure) in [(&line.main, within, true), (&line.head, 0, within == 0)] {
                if self.whole(name, &line.parts[..used], sure) {
                    return used;
                }
            }
        }
        if sized && self.whole_counted(&line.head) {
            return 0;
        }
        self.by_kind(line);
        0
    }

    fn lines(&self, text: &str) -> Option<ComponentLine> {
        parse_component(text, Place::new("menu line", 1, 1), self.context.units).ok()
    }

    /// A dish of the library, or a whole dish of the catalogue.
    fn whole(&mut self, name: &str, parts: &[MenuPart], sure: bool) -> bool {
        if name.is_empty() {
            return false;
        }
        if let Some(dish) = (self.context.known)(name) {
            self.take_library_dish(dish);
            return true;
        }
        let Some((id, certainty)) = self.whole_food(name, parts, sure) else {
            return false;
        };
        let Some(line) = self.lines(name) else {
            return false;
        };
        self.kind = self.whole_kind(name);
        let food = self.context.catalogue.food(id);
        let (grams, rests_on) = if let Some(kind) = self.kind {
            (
                with_log_sd(kind.served_g, kind.log_sd),
                format!("served weight of {} ({})", kind.name, kind.source),
            )
        } else {
            let usual = usual(name, Some(food));
            (
                with_log_sd(usual.plate_g, usual.log_sd),
                format!("usual serving ({})", usual.source),
            )
        };
        self.main.push(WeighedComponent {
            matched: MatchedComponent {
                line,
                food: Some(id),
                certainty,
                alternatives: Vec::new(),
                why: format!("the whole dish is `{}`", food.name()),
            },
            grams: Some(grams),
            basis: Some(Basis::Typical),
            rests_on,
            tie: Tie::Common,
        });
        true
    }

    /// The kind of a whole dish: one whose own name holds a `with` or an `and` (`spaghetti
    /// with meat sauce`), else the one that the head of the line says.
    fn whole_kind(&self, name: &str) -> Option<&'static DishKind> {
        let hit = kind_of(name);
        let joined = |hit: &KindHit| hit.joined;
        hit.filter(joined)
            .map(|h| h.kind)
            .or(self.kind)
            .or_else(|| Some(kind_of(name)?.kind))
    }

    /// The catalogue's dish that `name` as a whole means, if it holds all `parts`.
    fn whole_food(
        &self,
        name: &str,
        parts: &[MenuPart],
        sure: bool,
    ) -> Option<(FoodId, Certainty)> {
        let context = Context {
            words: Vec::new(),
            british: self.context.british,
        };
        let found = self.context.catalogue.find(name, &context, 1);
        let id = found.food?;
        let food = self.context.catalogue.food(id);
        if !parts.iter().all(|part| names(food, &part.text)) {
            return None;
        }
        let kind = self.whole_kind(name);
        // A kind that says what it is made of is better built from its parts than guessed.
        let bare = kind.is_none_or(|kind| kind.implied.is_empty());
        // `Caesar salad, no dressing` is not what a menu calls a Caesar salad.
        let lacks = !bare
            && words(food.name())
                .iter()
                .any(|w| w == "no" || w == "without");
        let dish = is_dish(food.family()) && !lacks;
        let single = kind.is_some() && bare;
        let accept = match found.certainty {
            Certainty::Sure => dish || single,
            Certainty::Likely => (dish && sure && kind.is_some()) || single,
            Certainty::Guess => dish && single && sure && words(name).len() <= FEW_WORDS,
            Certainty::None => false,
        };
        accept.then_some((id, found.certainty))
    }

    /// `3 tacos`, `8 oz ribeye`, `10 wings`: the head has an amount that its food can carry.
    fn whole_counted(&mut self, head: &str) -> bool {
        let Some(line) = self.lines(head) else {
            return false;
        };
        let list = self.weighed(vec![line]);
        let counted = list.iter().all(|c| c.grams.is_some());
        if counted {
            self.main.extend(list);
        }
        counted
    }

    fn take_library_dish(&mut self, dish: Dish<ComponentLine>) {
        let name = dish.name.clone().unwrap_or_default();
        if let Some(kind) = dish.kind.as_deref().and_then(super::kinds::kind_named) {
            self.kind = Some(kind);
        }
        self.notes
            .push(format!("amounts start from the library's `{name}`"));
        let matched = match_dish(dish, self.context.catalogue, self.context.british);
        let mut list = weigh_dish(matched, self.context.catalogue).components;
        soften(&mut list, &name);
        self.main.extend(list);
    }

    /// The kind's usual components, and what the line names.
    fn by_kind(&mut self, line: &MenuLine) {
        let hit = head_kind(line);
        let (implied, rest) = match &hit {
            Some(hit) if !hit.kind.implied.is_empty() => {
                (hit.kind.implied.clone(), hit.rest.join(" "))
            }
            _ => (Vec::new(), line.head.clone()),
        };
        let mut written: Vec<String> = Vec::new();
        let rest = without_fillers(&rest);
        if !rest.is_empty() {
            written.push(rest);
        }
        let named: Vec<String> = line
            .parts
            .iter()
            .filter(|p| matches!(p.what, PartKind::Named | PartKind::Under | PartKind::Added))
            .map(|p| match p.what {
                PartKind::Under => self.under(&p.text),
                _ => p.text.clone(),
            })
            .collect();
        for food in implied {
            let covered = written
                .iter()
                .map(String::as_str)
                .chain(named.iter().map(String::as_str))
                .enumerate();
            if covered
                .into_iter()
                .any(|(at, said)| self.stands_for(said, &food, at < written.len()))
            {
                continue;
            }
            let name = hit.as_ref().map_or("", |h| h.kind.name.as_str());
            self.push_main(&food, Some(name));
        }
        for text in written {
            self.push_main(&text, None);
        }
    }

    /// Whether what is said takes the place of an implied food.
    fn stands_for(&self, said: &str, implied: &str, in_head: bool) -> bool {
        let (a, b) = (words(said), words(implied));
        if a.iter().any(|w| {
            b.contains(w) && !matches!(w.as_str(), "cooked" | "salad" | "and" | "cheese" | "sauce")
        }) {
            return true;
        }
        let (said, implied) = (self.role(said), self.role(implied));
        said == implied
            && (matches!(
                said,
                Role::Base | Role::Bread | Role::Dressing | Role::Leaves
            ) || (in_head && said == Role::Protein))
    }

    fn role(&self, text: &str) -> Role {
        let context = Context {
            words: Vec::new(),
            british: self.context.british,
        };
        let found = self.context.catalogue.find(text, &context, 1).food;
        usual(text, found.map(|id| self.context.catalogue.food(id))).role
    }

    fn weighed(&self, components: Vec<ComponentLine>) -> Vec<WeighedComponent> {
        let name = self.kind.map(|k| k.name.clone());
        let dish = Dish {
            name,
            components,
            ..Dish::default()
        };
        said(
            match_dish(dish, self.context.catalogue, self.context.british),
            true,
            self.context.catalogue,
        )
        .components
    }

    /// Adds a component to the dish; `implied_by` names the kind when nobody wrote it.
    fn push_main(&mut self, text: &str, implied_by: Option<&str>) {
        let Some(mut line) = self.lines(text) else {
            self.notes
                .push(format!("`{text}` could not be read and is left out"));
            return;
        };
        if let Some(kind) = implied_by {
            line.text = format!("{text}, implied by `{kind}`");
            line.note = Some("inferred".to_owned());
        }
        let list = self.weighed(vec![line]);
        self.main.extend(list);
    }

    fn push_side(&mut self, text: &str) {
        let Some(line) = self.lines(text) else {
            self.notes
                .push(format!("`{text}` could not be read and is left out"));
            return;
        };
        let mut list = self.weighed(vec![line]);
        fill(&mut list, None, Setting::Restaurant, self.context.catalogue);
        self.sides.extend(list);
    }

    /// Puts a part of the line where it belongs.
    fn part(&mut self, text: &str, what: &PartKind) {
        match what {
            PartKind::Named | PartKind::Added => self.named(text, *what == PartKind::Added),
            PartKind::Under => {
                let text = self.under(text);
                self.named(&text, false);
            }
            // A dressing or a sauce beside the dish is still the dish's own.
            PartKind::Side
                if matches!(
                    self.role(text),
                    Role::Dressing | Role::Sauce | Role::Seasoning
                ) =>
            {
                self.named(text, false);
            }
            PartKind::Side => self.push_side(text),
            PartKind::Removed => self.remove(text),
            PartKind::InsteadOf(old) => {
                match old {
                    Some(old) => {
                        self.take_out(old);
                    }
                    None => self.remove_starch(),
                }
                self.push_side(text);
            }
            PartKind::Doubled | PartKind::Extra | PartKind::Light => {
                if !self.main.iter().any(|c| self.meant(c, text)) && *what != PartKind::Light {
                    self.named(text, true);
                }
            }
        }
    }

    /// `on rye` is rye bread.
    fn under(&self, text: &str) -> String {
        let bread = self.kind.is_some_and(|k| k.share(Role::Bread) > 0.2);
        if bread && self.role(text) != Role::Bread {
            format!("{text} bread")
        } else {
            text.to_owned()
        }
    }

    /// A component that the line names; not again when the dish holds it already.
    fn named(&mut self, text: &str, again: bool) {
        let said = words(text);
        let held = |c: &WeighedComponent| {
            let mut all = words(&c.matched.line.food);
            if let Some(id) = c.matched.food {
                all.extend(words(self.context.catalogue.food(id).name()));
            }
            // A whole dish holds what its name names: `beef taco` holds ground beef.
            let whole = c
                .matched
                .food
                .is_some_and(|id| is_dish(self.context.catalogue.food(id).family()));
            if whole {
                said.iter().any(|w| all.contains(w))
            } else {
                said.iter().all(|w| all.contains(w))
            }
        };
        if !again && self.main.iter().any(held) {
            return;
        }
        if self.role(text) == Role::Dressing {
            let catalogue = self.context.catalogue;
            self.main
                .retain(|c| role_of(c, catalogue) != Role::Dressing);
        }
        self.push_main(text, None);
    }

    /// Whether `text` means this component: by its words, or by what it does in the dish.
    fn meant(&self, c: &WeighedComponent, text: &str) -> bool {
        let said = words(text);
        let own = words(&c.matched.line.food);
        let role = match said.last().map(String::as_str) {
            Some("meat" | "protein") => Some(Role::Protein),
            Some("cheese") if said.len() == 1 => Some(Role::Cheese),
            Some("dressing") if said.len() == 1 => Some(Role::Dressing),
            Some("sauce") if said.len() == 1 => Some(Role::Sauce),
            Some("veggie" | "vegetable") => Some(Role::Vegetables),
            Some("bread" | "bun") => Some(Role::Bread),
            _ => None,
        };
        !said.is_empty()
            && (said.iter().all(|w| own.contains(w))
                || role.is_some_and(|r| r == role_of(c, self.context.catalogue)))
    }

    /// Takes components out; says whether there was one.
    fn take_out(&mut self, text: &str) -> bool {
        let before = self.main.len() + self.sides.len();
        let keep = |draft: &Self, list: &[WeighedComponent]| -> Vec<WeighedComponent> {
            list.iter()
                .filter(|c| !draft.meant(c, text))
                .cloned()
                .collect()
        };
        let (main, sides) = (keep(self, &self.main), keep(self, &self.sides));
        (self.main, self.sides) = (main, sides);
        before > self.main.len() + self.sides.len()
    }

    fn remove(&mut self, text: &str) {
        if self.take_out(text) {
            return;
        }
        let whole = self.main.iter().filter_map(|c| c.matched.food);
        let families = whole.map(|id| self.context.catalogue.food(id).family());
        self.notes.push(if families.into_iter().any(is_dish) {
            format!("`{text}` cannot be taken out of a dish known only as a whole: the figures still hold it")
        } else {
            format!("there is no `{text}` to leave out")
        });
    }

    /// Takes out the usual side: fries or chips.
    fn remove_starch(&mut self) {
        let starch = |c: &WeighedComponent| {
            let own = words(&c.matched.line.food);
            own.iter().any(|w| matches!(w.as_str(), "fry" | "chip"))
        };
        self.main.retain(|c| !starch(c));
        self.sides.retain(|c| !starch(c));
    }

    fn change_amount(&mut self, text: &str, what: &PartKind) {
        let (factor, word) = match what {
            PartKind::Doubled => (2.0, "double"),
            PartKind::Extra => (EXTRA, "extra"),
            PartKind::Light => (LIGHT, "light"),
            _ => return,
        };
        let hit: Vec<usize> = (0..self.main.len())
            .filter(|at| self.meant(&self.main[*at], text))
            .collect();
        if hit.is_empty() {
            self.notes.push(format!(
                "`{word} {text}` changes nothing that is known of the dish"
            ));
        }
        for at in hit {
            let c = &mut self.main[at];
            c.grams = c.grams.map(|g| g.times(factor));
            c.rests_on = format!("{}; {word}: x {factor}", c.rests_on);
        }
    }
}

/// The kind that the head of a line says, else what the line lies on (`turkey and swiss on
/// rye` is a sandwich; then nothing of the head names the kind).
fn head_kind(line: &MenuLine) -> Option<KindHit> {
    kind_of(&line.head).or_else(|| {
        let under = line.parts.iter().find(|p| p.what == PartKind::Under)?;
        let kind = kind_of(&format!("on {}", under.text))?.kind;
        Some(KindHit {
            kind,
            joined: false,
            rest: words(&line.head),
        })
    })
}

/// Whether a food's names hold any word of a part, so that the part is in the food.
fn names(food: Food<'_>, part: &str) -> bool {
    let all: Vec<String> = std::iter::once(food.name())
        .chain(food.aliases())
        .flat_map(words)
        .collect();
    words(part).iter().any(|w| all.contains(w))
}

fn role_of(c: &WeighedComponent, catalogue: &Catalogue) -> Role {
    usual(
        &c.matched.line.food,
        c.matched.food.map(|id| catalogue.food(id)),
    )
    .role
}

/// Amounts of a dish that another kitchen serves: known in kind, not in measure.
pub fn soften(list: &mut [WeighedComponent], name: &str) {
    for c in list {
        let Some(grams) = c.grams else { continue };
        c.grams = Some(with_log_sd(grams.likely, OTHER_KITCHEN));
        c.basis = Some(Basis::Typical);
        c.tie = Tie::Common;
        c.rests_on = format!("as in the library's `{name}`");
    }
}

/// Words before a dish's name that say nothing about food.
fn without_fillers(text: &str) -> String {
    const FILLERS: [&str; 24] = [
        "house",
        "classic",
        "our",
        "signature",
        "famous",
        "homemade",
        "fresh",
        "entree",
        "large",
        "small",
        "big",
        "half",
        "full",
        "the",
        "a",
        "an",
        "style",
        "served",
        "special",
        "daily",
        "with",
        "and",
        "of",
        "on",
    ];
    let list: Vec<&str> = text.split_whitespace().collect();
    if list.iter().all(|w| FILLERS.contains(w)) {
        return String::new();
    }
    let start = list.iter().position(|w| !FILLERS.contains(w)).unwrap_or(0);
    let end = list
        .iter()
        .rposition(|w| !FILLERS.contains(w))
        .map_or(list.len(), |at| at + 1);
    list[start..end].join(" ")
}
