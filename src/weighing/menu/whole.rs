//! The main dish of a menu line: a dish of the library, a whole dish of the catalogue, a
//! counted head, or a kind of dish.

use super::draft::{Draft, restaurants_own};
use super::joined::is_poured;
use super::tongues::in_english;
use super::wording::{head_kind, only_menu_words};
use crate::foods::{Food, FoodId, Trait};
use crate::matching::Certainty;
use crate::quantity::Estimate;
use crate::reading::{ComponentLine, Dish, Measure, MenuLine, MenuPart, PartKind, VolumeUnit};
use crate::weighing::component::{MatchedComponent, WeighedComponent, weigh_dish};
use crate::weighing::density::grams_per_ml;
use crate::weighing::kinds::{DishKind, KindHit, kind_named, kind_of};
use crate::weighing::kitchen::as_another_kitchen;
use crate::weighing::offered::at_their_chance;
use crate::weighing::servings::ServingKind;
use crate::weighing::usual::usual;
use crate::weighing::wares::ware;
use crate::weighing::weight::{Basis, Weight};
use crate::words::words_of;

/// A guess at a whole dish is taken only for a name this short; a longer line is better
/// built from what it names.
const FEW_WORDS: usize = 4;

/// The kind of dish that a filled bread is.
const SANDWICH: &str = "sandwich";

/// How closely a catalogue's name fits the words. A dish at home and at a restaurant leaves
/// doubt which of the two is meant, and none about what dish it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Fit {
    Loose,
    Near,
    Close,
}

impl Fit {
    /// Scores from which a name fits near and close: our judgement, checked against known
    /// dishes.
    const NEAR: f32 = 0.68;
    const CLOSE: f32 = 0.86;

    fn of(score: f32) -> Self {
        match score {
            s if s >= Self::CLOSE => Fit::Close,
            s if s >= Self::NEAR => Fit::Near,
            _ => Fit::Loose,
        }
    }
}

/// A dish of the catalogue that a name means as a whole.
#[derive(Debug, Clone, Copy)]
struct WholeFood {
    id: FoodId,
    fit: Fit,
    certainty: Certainty,
}

impl Draft<'_> {
    /// Takes the main dish; returns the parts of the line that it does not hold.
    pub(super) fn begin<'l>(&mut self, line: &'l MenuLine) -> Vec<&'l MenuPart> {
        let parts: Vec<&MenuPart> = line
            .parts
            .iter()
            .filter(|p| !only_menu_words(&p.text))
            .collect();
        let within = parts
            .iter()
            .take_while(|p| matches!(p.what, PartKind::Named | PartKind::Under))
            .count();
        self.kind = head_kind(line).map(|hit| hit.kind);
        if self.take_list(line, &parts) {
            return Vec::new();
        }
        if let Some(used) = self.take_joined_dish(line, &parts, within) {
            return parts[used..].to_vec();
        }
        let has_amount = self.read(&line.head).is_some_and(|l| l.amount.is_some());
        if has_amount {
            if !self.is_named_dish(line) {
                if self.take_burger(line, &parts) {
                    return parts;
                }
                if self.counted_with(line, &parts, within) {
                    return parts[within..].to_vec();
                }
                if self.counted(&line.head) {
                    return parts;
                }
            }
        } else if let Some(left) = self.take_from_library(line, &parts, within) {
            return left;
        }
        if self.take_named_dish(line, &parts) {
            return parts;
        }
        if self.take_by_last_words(&line.head, has_amount) {
            return parts;
        }
        if !has_amount && self.take_filled_bread(&line.head) {
            return parts;
        }
        if !has_amount && let Some(used) = self.take_from_catalogue(line, &parts, within) {
            return parts[used..].to_vec();
        }
        if let Some((dish, side)) = self.side_behind(&line.head) {
            self.kind = kind_of(&dish).map(|hit| hit.kind);
            let own = MenuLine {
                main: dish.clone(),
                head: dish,
                ..line.clone()
            };
            if !self.take_named_dish(&own, &parts) {
                self.by_kind(&own, &parts);
            }
            self.push_side(&side);
            return parts;
        }
        self.by_kind(line, &parts);
        parts
    }

    /// `Blood orange pepper spritz`, `whiskey black pepper wings`: the last words say what it is, and what was
    /// found is what it is flavoured with. Of what has an amount only where nothing was found.
    fn take_by_last_words(&mut self, head: &str, has_amount: bool) -> bool {
        let read = self.read(head).filter(|_| has_amount);
        let named = read.map_or_else(|| head.to_owned(), |line| line.food.clone());
        let said = words_of(&named);
        let Some((kind, at)) = ServingKind::named_at_end(&said) else {
            return false;
        };
        // `Cauliflower cheese`: what lies on top of dishes is no dish.
        if kind.is_added() {
            return false;
        }
        let found = self.find(&named);
        let guessed = found.food.is_none() || found.certainty <= Certainty::Guess;
        // A kind by itself is what it says; of a paloma nothing is known but that it is a cocktail.
        if at == 0 && !guessed {
            return false;
        }
        // What is known to hold several things is put together from them.
        if kind_of(&named).is_some_and(|hit| !hit.kind.implied.is_empty()) {
            return false;
        }
        let catalogue = self.context.catalogue();
        let drunk = |id: FoodId| is_poured(catalogue.food(id));
        let same = |id: FoodId| {
            let own = ServingKind::named_last(&words_of(catalogue.food(id).name()));
            let same = own.is_some_and(|own| own.sized_as() == kind.sized_as());
            same || kind.is_drink() && drunk(id)
        };
        if !(guessed || kind.is_drink()) || found.food.is_some_and(|id| has_amount || same(id)) {
            return false;
        }
        let last = named.split_whitespace().next_back().unwrap_or_default();
        let behind = said[at..].join(" ");
        let mut names = [kind.name.as_str(), &behind, last].into_iter();
        let Some(meant) = names.find(|name| self.find(name).food.is_some_and(same)) else {
            return false;
        };
        self.push_main(meant, None);
        for c in &mut self.main {
            head.clone_into(&mut c.matched.line.text);
        }
        self.kind = kind_of(meant).map(|hit| hit.kind);
        true
    }

    /// `Smoked salmon bagel`, `ham croissant`: a bread with what it is filled with, where the
    /// catalogue knows the bread only. It is built as a sandwich is.
    fn take_filled_bread(&mut self, head: &str) -> bool {
        let kinds = kind_of(head).is_some_and(|hit| !hit.kind.implied.is_empty());
        let Some((filling, bread)) = self.apart().filled_bread(head).filter(|_| !kinds) else {
            return false;
        };
        self.kind = kind_named(SANDWICH);
        self.push_main(bread, None);
        self.push_main(filling, None);
        true
    }

    /// `Moules frites`, `Poulet pommes`: a dish and, behind it without a joint, a food word of
    /// another tongue that is no part of its name.
    fn side_behind(&self, head: &str) -> Option<(String, String)> {
        let (dish, side) = head.trim().rsplit_once(' ')?;
        in_english(side)?;
        let whole = self.find(head);
        let known = whole.food.is_some() && Fit::of(whole.score) == Fit::Close
            || self.find(dish).food.is_none();
        let kind = kind_of(head).is_some_and(|hit| !hit.kind.implied.is_empty());
        (!known && !kind).then(|| (dish.to_owned(), side.to_owned()))
    }

    /// `half a burrito bowl`: the share said, and the line that names the whole. Only of
    /// dishes that a kitchen puts together: half a chicken or an avocado is a piece.
    pub(super) fn share_of_whole(&self, line: &MenuLine) -> Option<(f64, MenuLine)> {
        let read = self.read(&line.head)?;
        let amount = read.amount.as_ref()?;
        let Measure::Count {
            unit: None,
            size: None,
            inches: None,
        } = amount.measure
        else {
            return None;
        };
        let share = amount.number.likely;
        let made = (self.context.known)(&read.food).is_some()
            || kind_of(&read.food).is_some_and(|hit| !hit.kind.implied.is_empty());
        if share >= 1.0 || !made {
            return None;
        }
        let after = line.main.strip_prefix(line.head.as_str());
        Some((
            share,
            MenuLine {
                main: format!("{}{}", read.food, after.unwrap_or_default()),
                head: read.food.clone(),
                ..line.clone()
            },
        ))
    }

    /// Leaves that share of the main dish; what comes beside it stays.
    pub(super) fn keep_share(&mut self, share: f64) {
        for c in &mut self.main {
            c.drop_stated_weight();
            let told = format!("{:.0} % of the whole", share * 100.0);
            c.change(told, |grams| grams.times(share));
        }
    }

    /// A dish of the library: by the whole of the line, by its head and what the parts name
    /// last (`chicken tikka masala with pilau rice` is the one with rice), by its head.
    fn take_from_library<'l>(
        &mut self,
        line: &'l MenuLine,
        parts: &[&'l MenuPart],
        within: usize,
    ) -> Option<Vec<&'l MenuPart>> {
        let known = self.context.known;
        if !line.main.is_empty()
            && let Some(dish) = known(&line.main).or_else(|| self.known_by_sort(&line.main))
        {
            self.take_library_dish(dish, &parts[within..]);
            return Some(parts[within..].to_vec());
        }
        for (at, part) in parts.iter().enumerate() {
            let taken = matches!(
                part.what,
                PartKind::Named | PartKind::Under | PartKind::Side
            );
            let last = part.text.split_whitespace().next_back();
            if let Some(last) = last.filter(|_| taken)
                && let Some(mut dish) = known(&format!("{} with {last}", line.head))
            {
                self.name_closer(&mut dish, &part.text, last);
                let mut left = parts.to_vec();
                left.remove(at);
                self.take_library_dish(dish, &left);
                return Some(left);
            }
        }
        let dish = known(&line.head).filter(|_| !line.head.is_empty())?;
        self.take_library_dish(dish, parts);
        Some(parts.to_vec())
    }

    /// `Haddock and chips`: the library's dish of the broader word, `fish and chips`, made of what
    /// is said.
    fn known_by_sort(&self, name: &str) -> Option<Dish<ComponentLine>> {
        let list = words_of(name);
        let joined = list.iter().any(|word| word == "and");
        if !joined || list.len() > FEW_WORDS {
            return None;
        }
        let knowledge = self.context.catalogue().knowledge();
        list.iter().enumerate().find_map(|(at, said)| {
            knowledge.above(knowledge.phrase(said)).find_map(|broader| {
                let sort = knowledge.phrase_text(broader);
                let mut broad = list.to_vec();
                sort.clone_into(&mut broad[at]);
                let mut dish = (self.context.known)(&broad.join(" "))?;
                for c in &mut dish.components {
                    let own = words_of(&c.food);
                    let other = own.iter().find(|word| knowledge.is_below(word, sort));
                    if let Some(other) = other {
                        c.food = c.food.replacen(other.as_str(), said, 1);
                        c.text = c.food.clone();
                    }
                }
                Some(dish)
            })
        })
    }

    /// A whole dish of the catalogue, by all that belongs to the main dish or by the head
    /// alone; the surer of the two. Returns how many parts it holds.
    fn take_from_catalogue(
        &mut self,
        line: &MenuLine,
        parts: &[&MenuPart],
        within: usize,
    ) -> Option<usize> {
        // What changes a part of the dish needs to know that part.
        if parts.iter().any(|part| self.changes_what_is_implied(part)) {
            return None;
        }
        let all = self
            .whole_food(&line.main, &parts[..within], true)
            // A guess at `chicken and waffles` must have room for the chicken, as chili has for
            // beef.
            .filter(|whole| {
                let held = |kind: &DishKind| kind.share(self.role(&line.head)) > 0.0;
                whole.fit > Fit::Loose
                    || within == 0
                    || names(self.context.catalogue().food(whole.id), &line.head)
                    || self.whole_kind(&line.main).is_some_and(held)
            })
            .map(|whole| (whole, line.main.as_str(), within));
        let head = self
            .whole_food(&line.head, &[], within == 0)
            .map(|whole| (whole, line.head.as_str(), 0));
        let (whole, name, used) = match (all, head) {
            (Some(all), Some(head)) if head.0.fit > all.0.fit => head,
            (all, head) => all.or(head)?,
        };
        let component = self.whole_component(name, whole.id, whole.certainty)?;
        self.main.push(component);
        self.whole = true;
        Some(used)
    }

    /// Whether a part takes away or resizes something that the kind holds unsaid.
    fn changes_what_is_implied(&self, part: &MenuPart) -> bool {
        let change = matches!(
            part.what,
            PartKind::Removed | PartKind::Doubled | PartKind::Extra | PartKind::Light
        );
        let implied = self.kind.map_or(&[][..], |kind| &kind.implied);
        change && implied.iter().any(|food| self.is_meant(food, &part.text))
    }

    fn whole_component(
        &mut self,
        name: &str,
        id: FoodId,
        certainty: Certainty,
    ) -> Option<WeighedComponent> {
        let line = self.read(name)?;
        self.kind = self.whole_kind(name);
        let food = self.context.catalogue().food(id);
        if let Some(weight) = a_glass(&food, name) {
            return Some(WeighedComponent {
                matched: whole_match((*line).clone(), id, certainty, food.name()),
                weight: Ok(weight),
            });
        }
        let (mean, log_sd, told) = if let Some(kind) = self.kind {
            let told = format!("served weight of {} ({})", kind.name, kind.source);
            (kind.served_g, kind.log_sd, told)
        } else {
            let usual = usual(name, Some(food));
            let told = format!("usual serving ({})", usual.source);
            (usual.plate_g, usual.log_sd, told)
        };
        Some(WeighedComponent {
            matched: whole_match((*line).clone(), id, certainty, food.name()),
            weight: Ok(Weight::unsaid(mean, log_sd, Basis::Typical, told)),
        })
    }

    /// The kind of a whole dish: one whose own name holds a `with` or an `and` (`spaghetti
    /// with meat sauce`), else the one that the head of the line says.
    fn whole_kind(&self, name: &str) -> Option<&'static DishKind> {
        let hit = kind_of(name);
        hit.as_ref()
            .filter(|hit| hit.joined)
            .map(|hit| hit.kind)
            .or(self.kind)
            .or_else(|| hit.map(|hit: KindHit| hit.kind))
    }

    /// The catalogue's dish that `name` as a whole means, if it holds all `parts`.
    fn whole_food(&self, name: &str, parts: &[&MenuPart], sure: bool) -> Option<WholeFood> {
        if name.is_empty() {
            return None;
        }
        let catalogue = self.context.catalogue();
        let found = self.find(name);
        let food = catalogue.food(found.food?);
        if !parts.iter().all(|part| names(food, &part.text)) {
            return None;
        }
        // `House red`: what was found says what sort of thing it is.
        let kind = self.whole_kind(name).or_else(|| {
            let own = kind_of(food.name()).map(|hit| hit.kind);
            own.filter(|kind| kind.is_one_thing())
        });
        // A kind that says what it is made of is better built from its parts than guessed.
        let bare = kind.is_none_or(|kind| kind.implied.is_empty());
        // `Caesar salad, no dressing` is not what a menu calls a Caesar salad.
        let lacks = !bare
            && words_of(food.name())
                .iter()
                .any(|w| w == "no" || w == "without");
        let dish = food.has(Trait::WholeDish) && !lacks;
        let single = bare && kind.is_some_and(DishKind::is_one_thing);
        // A food that does not fit closely must at least be the same kind of dish.
        let same = kind_of(food.name()).is_some_and(|hit| kind == Some(hit.kind));
        let fit = Fit::of(found.score);
        let accept = match fit {
            Fit::Close => dish || single,
            Fit::Near => same && ((dish && sure) || single),
            Fit::Loose => dish && same && sure && words_of(name).len() <= FEW_WORDS,
        };
        let others: Vec<FoodId> = found.alternatives.iter().map(|(id, _)| *id).collect();
        let own = restaurants_own(food.id(), &others, catalogue);
        accept.then(|| WholeFood {
            id: own.unwrap_or(food.id()),
            fit,
            certainty: found.certainty,
        })
    }

    /// `2 empanadas (beef)`: a counted head with what it is filled with, where the catalogue
    /// knows that very dish.
    fn counted_with(&mut self, line: &MenuLine, parts: &[&MenuPart], within: usize) -> bool {
        let Some(read) = self.read(&line.main).filter(|_| within > 0) else {
            return false;
        };
        let counts = read
            .amount
            .as_ref()
            .is_some_and(|amount| matches!(amount.measure, Measure::Count { .. }));
        let found = self.find(&read.food);
        let Some(food) = found.food.map(|id| self.context.catalogue().food(id)) else {
            return false;
        };
        let held = parts[..within].iter().all(|part| names(food, &part.text));
        let whole = food.has(Trait::WholeDish) && Fit::of(found.score) >= Fit::Near;
        counts && held && whole && self.counted(&line.main)
    }

    /// `3 tacos`, `8 oz ribeye`, `10 wings`: the head has an amount that its food can carry.
    fn counted(&mut self, head: &str) -> bool {
        let Some(line) = self.read(head) else {
            return false;
        };
        let list = self.weighed(vec![(*line).clone()]);
        let sized = list.iter().all(|c| c.grams().is_some());
        if sized {
            let catalogue = self.context.catalogue();
            self.whole = list.iter().all(|c| {
                let food = c.matched.food.map(|id| catalogue.food(id));
                food.is_some_and(|food| food.has(Trait::WholeDish))
            });
            self.main.extend(list);
        }
        sized
    }

    /// `with sweet potato fries` of a dish whose fries are potatoes': the side keeps its weight
    /// and is what the line says.
    fn name_closer(&self, dish: &mut Dish<ComponentLine>, text: &str, last: &str) {
        let (said, noun) = (words_of(text), words_of(last));
        let closer = self.find(text);
        if said == noun || closer.certainty <= Certainty::Guess {
            return;
        }
        for c in &mut dish.components {
            let own = words_of(&c.food);
            let same = noun.iter().all(|word| own.contains(word));
            if same && self.find(&c.food).food != closer.food {
                c.text = format!("{text}, for {}", c.food);
                text.clone_into(&mut c.food);
            }
        }
    }

    /// Takes a dish of the library; it is that very dish where it holds all that the line names `besides`.
    fn take_library_dish(&mut self, dish: Dish<ComponentLine>, besides: &[&MenuPart]) {
        let name = dish.name.clone().unwrap_or_default();
        if let Some(kind) = dish.kind.as_deref().and_then(kind_named) {
            self.kind = Some(kind);
        }
        self.whole = true;
        self.notes
            .push(format!("amounts start from the library's `{name}`"));
        let mut list = weigh_dish(self.matched(dish), self.context.catalogue()).components;
        as_another_kitchen(&mut list, &name);
        at_their_chance(&mut list);
        self.main.extend(list);
        let held = |part: &&MenuPart| part.what == PartKind::Named && self.holds(&part.text);
        self.is_library_dish = besides.iter().all(held);
    }
}

/// A line that means a food of the catalogue as a whole.
fn whole_match(
    line: ComponentLine,
    id: FoodId,
    certainty: Certainty,
    name: &str,
) -> MatchedComponent {
    MatchedComponent {
        line,
        food: Some(id),
        certainty,
        alternatives: Vec::new(),
        why: format!("the whole dish is `{name}`"),
    }
}

/// One glass of what is known by the glass: wine, beer, spirits.
pub(super) fn a_glass(food: &Food<'_>, name: &str) -> Option<Weight> {
    let said = words_of(name);
    let glass = ware("glass", food, &said).filter(|glass| glass.is_exact())?;
    let (density, _) = grams_per_ml(food, VolumeUnit::FluidOunce, &said);
    let told = format!("one glass ({})", glass.source);
    let grams = Estimate::exact(glass.content.grams(density));
    Some(Weight::said(grams, glass.log_sd, Basis::Counted, told))
}

/// Whether a food's names hold any word of a part, so that the part is in the food.
fn names(food: Food<'_>, part: &str) -> bool {
    let part = words_of(part);
    std::iter::once(food.name())
        .chain(food.aliases())
        .any(|name| words_of(name).iter().any(|w| part.contains(w)))
}
