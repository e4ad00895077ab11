//! Menu lines, end to end through the library: what is taken, what is inferred, what is
//! left out, and how wide the ranges are.

mod beside;
mod shares;

use trencher::foods::Nutrient;
use trencher::matching::Catalogue;
use trencher::quantity::Shared;
use trencher::reading::{
    Dish, MenuLine, Place, UnitSystem, parse_component, parse_menu_line, parse_served,
};
use trencher::store::{KnownDishes, Library};
use trencher::weighing::{
    Basis, Estimated, Finds, MenuContext, Request, estimate, estimate_line, match_dish,
};

/// The example that writes the table of menu lines.
#[allow(dead_code)] // its `main` is for the command line
#[path = "../../examples/menu_lines.rs"]
mod table;

#[test]
fn the_committed_table_of_menu_lines_is_what_the_program_says() {
    let committed = include_str!("../../src/weighing/MENU_LINES.md");
    let now = table::table().expect("the table");
    let stale = table::stale(&now, committed);
    assert!(stale.is_empty(), "{}", stale.join("\n"));
}

fn line(text: &str, request: &Request) -> Estimated {
    estimated(&parse_menu_line(text), request)
}

fn estimated(line: &MenuLine, request: &Request) -> Estimated {
    let catalogue = Catalogue::embedded().expect("the catalogue opens");
    let dishes = KnownDishes::of(&Library::built_in());
    let known = dishes.finder(UnitSystem::Us);
    let context = MenuContext {
        finds: &Finds::new(&catalogue),
        known: &known,
        units: UnitSystem::Us,
        british: false,
    };
    estimate_line(line, None, request, context)
}

fn told(text: &str) -> Estimated {
    line(text, &Request::default())
}

fn energy(text: &str) -> f64 {
    kcal(&told(text))
}

fn grams(estimated: &Estimated, food: &str) -> Option<f64> {
    let has = |c: &&trencher::weighing::WeighedComponent| c.matched.line.food.contains(food);
    let found = estimated.dish.components.iter().find(has)?;
    found.grams().map(|g| g.mean)
}

fn kcal(estimated: &Estimated) -> f64 {
    let catalogue = Catalogue::embedded().expect("the catalogue opens");
    let of = |c: &trencher::weighing::WeighedComponent| {
        let food = catalogue.food(c.matched.food?);
        Some(food.per_100g(Nutrient::EnergyKcal)? * c.grams()?.mean / 100.0)
    };
    estimated.dish.components.iter().filter_map(of).sum()
}

#[test]
fn what_a_line_names_adds_and_removes() {
    let plain = line("Caesar salad", &Request::default());
    let changed = line("Caesar salad, add shrimp, no croutons", &Request::default());
    assert!(grams(&plain, "croutons").is_some());
    assert!(grams(&plain, "shrimp").is_none());
    assert!(grams(&changed, "croutons").is_none());
    assert!(grams(&changed, "shrimp").is_some());
    let light = line("Caesar salad, light dressing", &Request::default());
    let (all, half) = (grams(&plain, "dressing"), grams(&light, "dressing"));
    assert!((half.expect("dressing") / all.expect("dressing") - 0.5).abs() < 1e-9);
}

#[test]
fn what_nobody_wrote_is_marked() {
    let estimated = line("turkey and swiss on rye with chips", &Request::default());
    assert!(
        estimated
            .dish
            .components
            .iter()
            .all(|c| matches!(c.basis(), Some(Basis::Typical | Basis::Hidden)))
    );
    let caesar = line("Caesar salad", &Request::default());
    for c in &caesar.dish.components {
        assert!(
            c.matched.line.text.contains("implied by"),
            "{}",
            c.matched.line.text
        );
    }
}

/// USDA SR28 13317, 23568, 23569: a raw patty keeps 68 to 73 % of its weight; SR28 beef
/// broiled: 77 % for steaks. 8 oz is 226.8 g.
#[test]
fn a_steak_on_a_menu_is_weighed_raw() {
    let estimated = line("8 oz ribeye with mashed potatoes", &Request::default());
    let steak = grams(&estimated, "ribeye").expect("a steak");
    assert!((steak / 226.8 - 0.77).abs() < 0.02, "{steak}");
    assert!(estimated.dish.components[0].rests_on().contains("raw"));
}

#[test]
fn hidden_fat_is_shown_apart_and_can_be_left_out() {
    let shown = line(
        "pan-seared halloumi with grilled chicken",
        &Request::default(),
    );
    let hidden = |e: &Estimated| {
        e.dish
            .components
            .iter()
            .filter(|c| c.basis() == Some(Basis::Hidden))
            .count()
    };
    assert!(hidden(&shown) > 0);
    let request = Request {
        as_written: true,
        ..Request::default()
    };
    let written = line("pan-seared halloumi with grilled chicken", &request);
    assert_eq!(hidden(&written), 0);
    assert!(kcal(&written) < kcal(&shown));
}

#[test]
fn a_printed_figure_is_met_or_refused_plainly() {
    let request = Request {
        printed_kcal: Some(1240.0),
        ..Request::default()
    };
    let met = line("general tso's chicken", &request);
    assert!((kcal(&met) - 1240.0).abs() < 15.0, "{}", kcal(&met));
    let request = Request {
        printed_kcal: Some(4000.0),
        ..Request::default()
    };
    let refused = line("lasagna", &request);
    assert!((kcal(&refused) - kcal(&line("lasagna", &Request::default()))).abs() < 1e-6);
    assert!(
        refused
            .notes
            .iter()
            .any(|n| n.contains("cannot be reached"))
    );
}

#[test]
fn a_served_weight_is_shared_out_and_stated_amounts_stay() {
    let catalogue = Catalogue::embedded().expect("the catalogue opens");
    let read = |text: &str| {
        parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).expect("reads")
    };
    let dish = Dish {
        components: vec![
            read("120 g grilled salmon"),
            read("rice"),
            read("green beans"),
        ],
        served: Some(parse_served("450 g", UnitSystem::Us).expect("reads")),
        ..Dish::default()
    };
    let matched = match_dish(dish, &catalogue, false);
    let estimated = estimate(matched, &Request::default(), &catalogue);
    let list = &estimated.dish.components;
    let total: f64 = list
        .iter()
        .filter_map(trencher::weighing::WeighedComponent::grams)
        .map(|g| g.mean)
        .sum();
    assert!((total - 450.0).abs() < 1e-3, "{total}");
    assert!((list[0].grams().expect("stated").mean - 120.0).abs() < 1e-9);
    assert!(matches!(
        list[1].grams().map(|g| g.shared),
        Some(Shared::Served { .. })
    ));
}

fn typed(lines: &[&str], served: Option<&str>) -> Estimated {
    let catalogue = Catalogue::embedded().expect("the catalogue opens");
    let read = |text: &&str| {
        parse_component(text, Place::new("test", 1, 1), UnitSystem::Us).expect("reads")
    };
    let dish = Dish {
        components: lines.iter().map(read).collect(),
        served: served.map(|text| parse_served(text, UnitSystem::Us).expect("reads")),
        ..Dish::default()
    };
    estimate(
        match_dish(dish, &catalogue, false),
        &Request::default(),
        &catalogue,
    )
}

#[test]
fn a_stated_weight_is_what_is_eaten_unless_the_words_say_otherwise() {
    let eaten = |text: &str| {
        let estimated = typed(&[text], None);
        estimated.dish.components[0].grams().expect("a weight").mean
    };
    for (text, grams) in [
        ("100 g steamed clams", 100.0),
        ("62 g stewed chicken drumstick, skinless", 62.0),
        ("280 g ribeye", 280.0),
        ("100 g baby back ribs", 100.0),
    ] {
        assert!(
            (eaten(text) - grams).abs() < 1e-6,
            "{text}: {}",
            eaten(text)
        );
    }
    // USDA SR28 10054 and 10046: 21 and 35 % of a pork chop with bone is not eaten.
    let chop = eaten("200 g bone-in pork chop");
    assert!((130.0..158.0).contains(&chop), "{chop}");
    // USDA SR28: 1 lb of clams with shell yields 68 g of meat.
    let clams = eaten("454 g clams in shell");
    assert!((60.0..76.0).contains(&clams), "{clams}");
}

#[test]
fn a_served_weight_is_shared_within_what_the_parts_can_be() {
    let estimated = typed(&["chicken", "ranch dressing"], Some("450 g"));
    let ranch = grams(&estimated, "ranch").expect("ranch");
    let chicken = grams(&estimated, "chicken").expect("chicken");
    assert!(ranch <= 90.5, "3 fl oz of dressing is a lot: {ranch}");
    assert!(chicken > 2.0 * ranch, "{chicken}");
    let note = estimated.notes.iter().find(|n| n.contains("missing"));
    assert!(
        note.is_some_and(|n| n.contains("450 g")),
        "{:?}",
        estimated.notes
    );
    // What can be explained is explained in full, and nothing is said.
    let estimated = typed(&["chicken", "ranch dressing"], Some("230 g"));
    let total: f64 = estimated
        .dish
        .components
        .iter()
        .filter_map(trencher::weighing::WeighedComponent::grams)
        .map(|g| g.mean)
        .sum();
    assert!((total - 230.0).abs() < 0.5, "{total}");
    assert!(!estimated.notes.iter().any(|n| n.contains("missing")));
}

#[test]
fn what_stands_beside_a_whole_dish_is_a_serving_of_its_own() {
    let estimated = line("shepherd's pie with peas", &Request::default());
    assert!(grams(&estimated, "peas").is_some_and(|g| g > 60.0));
    let parted = line("cheeseburger, no bun", &Request::default());
    assert!(grams(&parted, "bun").is_none());
    assert!(grams(&parted, "patty").is_some());
    // USDA SR28 36015 and 36034: a child's chicken fingers weigh 114 g, others 201 g.
    let child = line("kid's grilled cheese", &Request::default());
    let other = line("grilled cheese", &Request::default());
    let (child, other) = (kcal(&child), kcal(&other));
    // What restaurants print for children and for others has its part in both.
    assert!((0.5..0.8).contains(&(child / other)), "{child} of {other}");
}

#[test]
fn what_a_dish_is_made_of_is_not_counted_on_top_of_it() {
    let plain = line("beef burrito bowl", &Request::default());
    let listed = line(
        "beef burrito bowl with rice, black beans, cheese, salsa and guacamole",
        &Request::default(),
    );
    let all = |e: &Estimated| -> f64 {
        let of = |c: &trencher::weighing::WeighedComponent| Some(c.grams()?.mean);
        e.dish.components.iter().filter_map(of).sum()
    };
    let ratio = kcal(&listed) / kcal(&plain);
    // The longer the list that restaurants print, the more they serve; a bowl counted twice
    // would hold twice as much.
    assert!((ratio - 1.0).abs() < 0.45, "{ratio}");
    // One thing named is on top, and closer words take the place of the general one.
    let bacon = line("cheeseburger with bacon", &Request::default());
    let burger = line("cheeseburger", &Request::default());
    assert!(all(&bacon) > all(&burger) + 5.0);
    let cobb = line(
        "chicken cobb, grilled chicken, avocado",
        &Request::default(),
    );
    let chicken = |c: &&trencher::weighing::WeighedComponent| {
        c.matched.line.food.contains("chicken") && c.basis() == Some(Basis::Typical)
    };
    assert_eq!(cobb.dish.components.iter().filter(chicken).count(), 1);
}

/// Beside eggs an option is what it usually is (bacon: USDA FNDDS 22600100, three slices of 8 g, at half);
/// where nothing else is the meat of a dish it is all of that.
#[test]
fn an_option_leaves_room_for_what_is_there() {
    let request = Request::default();
    let eggs = line("Two eggs, choice of bacon or sausage, toast", &request);
    assert!(grams(&eggs, "bacon").is_some_and(|g| (8.0..25.0).contains(&g)));
    let pasta = line("Pasta with choice of chicken or shrimp", &request);
    assert!(grams(&pasta, "chicken").is_some_and(|g| g > 30.0));
}

#[test]
fn half_of_a_dish_is_half_of_what_the_whole_would_be() {
    let request = Request::default();
    for dish in ["chicken burrito bowl", "club sandwich", "caesar salad"] {
        let whole = kcal(&line(dish, &request));
        let half = kcal(&line(&format!("half a {dish}"), &request));
        assert!((half / whole - 0.5).abs() < 0.02, "{dish}: {half} {whole}");
    }
    // A piece, not a share of a dish: USDA's half chicken (FNDDS 24102000) is 300 g.
    let chicken = line("half a roast chicken", &request);
    assert_eq!(grams(&chicken, "chicken"), Some(300.0));
}

/// 32 US fl oz are 946 ml (NIST Handbook 44); a full bowl of curry and rice at 0.7 to 1.05
/// g/ml is some 600 to 900 g, whatever bread comes beside it.
#[test]
fn bread_lies_beside_a_bowl_and_leaves_its_room() {
    let served = Some("32 fl oz bowl, full");
    let without = typed(&["chicken curry", "rice"], served);
    let with = typed(&["chicken curry", "rice", "half a naan"], served);
    for food in ["curry", "rice"] {
        let weight = |e: &Estimated| grams(e, food).expect("a weight");
        assert!((weight(&with) - weight(&without)).abs() < 1e-6, "{food}");
    }
    let total: f64 = ["curry", "rice"]
        .iter()
        .filter_map(|f| grams(&with, f))
        .sum();
    assert!((550.0..950.0).contains(&total), "{total}");
    assert!(with.notes.iter().any(|n| n.contains("beside")));
    // Croutons lie in the bowl.
    let salad = typed(&["romaine", "croutons 10 g"], Some("24 fl oz bowl"));
    assert!(!salad.notes.iter().any(|n| n.contains("beside")));
}

#[test]
fn what_stands_around_leans_a_menu_line_as_it_does_a_list() {
    let request = Request::default();
    let name = |text: &str, food: &str| {
        let catalogue = Catalogue::embedded().expect("the catalogue opens");
        let estimated = line(text, &request);
        let has = |c: &&trencher::weighing::WeighedComponent| c.matched.line.food.contains(food);
        let found = estimated.dish.components.iter().find(has).expect(text);
        let id = found.matched.food.expect("a food");
        catalogue.food(id).name().to_owned()
    };
    let poke = "poke bowl with ahi tuna and brown rice";
    assert_eq!(name(poke, "tuna"), "tuna, raw");
    assert_eq!(name("kale salad with quinoa", "kale"), "kale, raw");
    // Two foods joined by `and` are two foods where no dish of that name is known.
    for (text, foods) in [
        ("chicken and waffles", ["chicken", "waffle"]),
        ("shrimp and grits", ["shrimp", "grits"]),
    ] {
        for food in foods {
            assert!(name(text, food).contains(food), "{text}");
        }
    }
}

#[test]
fn a_description_that_names_the_dish_itself_is_the_dish() {
    let request = Request::default();
    // What restaurants print for the name's own words may change how much, not what it is.
    let foods = |text: &str| -> Vec<_> {
        let list = line(text, &request).dish.components;
        list.iter()
            .filter(|c| c.basis() != Some(Basis::Hidden))
            .map(|c| c.matched.food)
            .collect()
    };
    for (described, plain) in [
        (
            "Thursday curry: chickpea curry, rice and half a naan",
            "chickpea curry, rice and half a naan",
        ),
        (
            "Soup of the day: lentil soup, bread roll",
            "lentil soup, bread roll",
        ),
        ("Dim sum: 4 har gow, 4 siu mai", "4 har gow, 4 siu mai"),
        (
            "Big breakfast: 2 eggs, bacon, toast",
            "2 eggs, bacon, toast",
        ),
    ] {
        assert_eq!(foods(described), foods(plain), "{described}");
    }
    // What only belongs to the dish does not stand for it.
    let salad = line("Garden salad: mixed salad greens, tomato, ranch", &request);
    assert!(grams(&salad, "cucumber").is_some());
}

#[test]
fn what_is_poured_is_a_drink_and_a_flavour_is_not_what_is_drunk() {
    let told = |text: &str| {
        let estimated = line(text, &Request::default());
        let food = estimated.dish.components[0].matched.food;
        let catalogue = Catalogue::embedded().expect("the catalogue opens");
        let name = catalogue.food(food.expect("a food")).name().to_owned();
        (name, kcal(&estimated))
    };
    // USDA FNDDS 2021-2023, 92400000, soft drink: 42 kcal per 100 g; a fluid ounce of it is 31 g.
    let (food, energy) = told("Wintergreen Splash, 20 fl oz");
    assert_eq!(food, "soft drink");
    assert!((energy - 260.0).abs() < 15.0, "{energy}");
    assert!(told("Pepper, 20 fl oz").0.contains("soda"));
    assert_eq!(told("Tomato soup, 20 fl oz").0, "tomato soup");
    let (food, energy) = told("Large iced tea unsweetened raspberry flavored");
    assert!(
        food.contains("iced tea") && energy < 20.0,
        "{food} {energy}"
    );
    assert_eq!(told("Skinny 'Rita").0, "margarita");
}

/// What lists of menus sort by another word than the dish, and what descriptions say that is no part
/// of it.
#[test]
fn the_dish_is_told_from_what_stands_around_it() {
    let foods = |name: &str, description: &str| {
        let catalogue = Catalogue::embedded().expect("the catalogue opens");
        let line = MenuLine::described(name, description);
        let estimated = estimated(&line, &Request::default());
        let list = estimated.dish.components.iter();
        list.filter_map(|c| Some(catalogue.food(c.matched.food?).name().to_owned()))
            .filter(|food| food != "table salt")
            .collect::<Vec<_>>()
    };
    for (name, description, first) in [
        ("Wings honey barbecue", "", "chicken wings"),
        ("Tacos spicy shrimp", "", "fish taco"),
        ("Supreme, large hand tossed slice", "", "cheese pizza"),
        ("House barbecue - full rack", "", "ribs"),
        (
            "Baked potato soup, bowl",
            "4 saltine crackers",
            "potato soup",
        ),
        ("Crusted ahi", "Pickles", "tuna"),
        (
            "Guacamole",
            "Lunch, chicken fajita lunch portion",
            "guacamole",
        ),
        ("Grits", "2 egg breakfast, T-bone & eggs", "grits"),
        ("Plain wings", "Chicken, sandwiches, pasta", "chicken wings"),
    ] {
        let list = foods(name, description);
        assert!(list[0].starts_with(first), "{name}: {list:?}");
    }
    assert_eq!(foods("Grits", "2 egg breakfast, T-bone & eggs").len(), 1);
    // A word that only sounds like a dish turns nothing round, and a dish before a colon is the dish.
    assert_ne!(
        foods("Bún chả Hà Nội", "").first().map(String::as_str),
        Some("sandwich")
    );
    assert!(foods("Burritos: steak, rice, beans", "")[0].contains("burrito"));
    let slider = foods("Kid's cheese sliders", "Milk");
    assert_eq!(slider[1], "milk", "{slider:?}");
    // A name that says nothing is what its description lists.
    assert!(foods("Big breakfast", "two eggs, bacon, toast").len() >= 3);
    assert!(foods("Taco platter", "Tacos, rice, beans").len() >= 3);
}

/// A burger's weight is its patty's before cooking; bread comes on top. USDA SR28 23568, 23569 and
/// 13317: 68 to 73 % of a raw patty is left.
#[test]
fn a_burger_is_weighed_by_its_raw_patty() {
    let plain = line("8 oz burger", &Request::default());
    let patty = grams(&plain, "patty").expect("a patty");
    assert!((145.0..175.0).contains(&patty), "{patty}");
    assert!(grams(&plain, "bun").is_some_and(|bun| bun > 40.0));
    let double = line("Double quarter pound cheeseburger", &Request::default());
    let two = grams(&double, "patty").expect("two patties");
    assert!((two - patty).abs() < 1.0, "{two} {patty}");
    let bacon = line("6 oz bacon burger", &Request::default());
    assert!(grams(&bacon, "patty").is_some_and(|beef| beef > 100.0));
    assert!(grams(&bacon, "bacon").is_some_and(|bacon| bacon < 40.0));
}
