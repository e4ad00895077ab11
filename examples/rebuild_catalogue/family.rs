//! Our own food families, from the survey's category or the reference group.

/// The family of a survey food.
#[allow(clippy::too_many_lines)] // a table in the form of code
pub fn of_survey(category: &str) -> &'static str {
    let has = |words: &[&str]| words.iter().any(|w| category.contains(w));
    if has(&["Milk shakes", "Smoothies", "Flavored milk"]) {
        return "milk drink";
    }
    if has(&["Ice cream", "Gelatins, ices"]) {
        return "ice cream";
    }
    if has(&["Yogurt", "yogurt"]) {
        return "yogurt";
    }
    if has(&["Cream cheese", "Cream and cream"]) {
        return "cream";
    }
    if has(&["Macaroni and cheese", "Pasta mixed", "Pasta sauces"]) {
        return if category.contains("sauces") {
            "sauce"
        } else {
            "pasta dish"
        };
    }
    if has(&["Cheese sandwiches"]) {
        return "sandwich";
    }
    if has(&["Cheese", "cheese"]) {
        return "cheese";
    }
    if has(&["Plant-based milk"]) || category.starts_with("Milk") {
        return "milk";
    }
    if has(&["sandwiches", "Vegetables on a sandwich"]) {
        return if category.contains("Vegetables on") {
            "vegetable"
        } else {
            "sandwich"
        };
    }
    if has(&["Burgers", "Frankfurter sandwich"]) {
        return "burger";
    }
    if has(&[
        "mixed dishes",
        "Stir-fry",
        "Vegetable dishes",
        "legume dishes",
    ]) {
        return if category.contains("Rice") {
            "rice dish"
        } else {
            "mixed dish"
        };
    }
    if has(&["Fried rice"]) {
        return "rice dish";
    }
    if has(&["Eggs"]) {
        return "eggs";
    }
    if has(&["nuggets", "Chicken", "Turkey, duck"]) {
        return "poultry";
    }
    if has(&["Beef", "Ground beef", "Lamb", "Liver"]) {
        return "red meat";
    }
    if has(&["Pork", "Bacon"]) {
        return "red meat";
    }
    if has(&["Cold cuts", "Sausages", "Frankfurters"]) {
        return "cured meat";
    }
    if has(&["Shellfish"]) {
        return "shellfish";
    }
    if has(&["Fish"]) {
        return "fish";
    }
    if has(&["Soy and meat"]) {
        return "soy";
    }
    if has(&["Soups", "Ramen"]) {
        return "soup";
    }
    if has(&["Beans, peas"]) {
        return "pulses";
    }
    if has(&["Nuts and", "Peanut"]) {
        return "nuts";
    }
    if has(&["Potato chips", "Tortilla, corn", "Popcorn", "Pretzels"]) {
        return "snack";
    }
    if has(&["Mashed", "White potatoes", "French fries"]) {
        return "potato";
    }
    if has(&["Lettuce", "Coleslaw"]) {
        return "salad";
    }
    if has(&["Spinach"]) {
        return "leafy";
    }
    if has(&["Olives", "Mustard", "condiments"]) {
        return "condiment";
    }
    if has(&["Dips, gravies", "Soy-based", "Mayonnaise"]) {
        return "sauce";
    }
    if has(&["Salad dressings"]) {
        return "dressing";
    }
    if has(&["Butter", "Margarine"]) {
        return "fat";
    }
    if has(&["juice"]) {
        return "juice";
    }
    if has(&["Dried fruits"]) {
        return "dried fruit";
    }
    if has(&[
        "fruit",
        "Apples",
        "Bananas",
        "Grapes",
        "Peaches",
        "Pears",
        "Pineapple",
        "Melons",
        "Strawberries",
        "Blueberries",
        "Mango",
    ]) && !category.contains("Fruit drinks")
    {
        return "fruit";
    }
    if has(&[
        "vegetables",
        "Broccoli",
        "Carrots",
        "String beans",
        "Corn",
        "Cabbage",
        "Onions",
        "Tomatoes",
    ]) {
        return "vegetable";
    }
    if has(&["Pizza"]) {
        return "pizza";
    }
    if has(&["Burritos", "Mexican", "Nachos"]) {
        return "tortilla dish";
    }
    if has(&["Egg rolls"]) {
        return "dumplings";
    }
    if has(&["Tortillas"]) {
        return "tortilla";
    }
    if has(&["breads", "Rolls", "Bagels", "Biscuits"]) {
        return "bread";
    }
    if has(&["Rice"]) {
        return "rice";
    }
    if has(&["Pasta, noodles"]) {
        return "pasta";
    }
    if has(&["cereal", "Oatmeal", "Grits"]) {
        return "cereal";
    }
    if has(&["rackers"]) {
        return "crackers";
    }
    if has(&["Pancakes"]) {
        return "pancakes";
    }
    if has(&[
        "Cakes",
        "Cookies",
        "Doughnuts",
        "Turnovers",
        "Pudding",
        "bars",
    ]) {
        return "dessert";
    }
    if has(&["Candy", "Sugars", "Jams", "Sugar substitutes"]) {
        return "sweet";
    }
    if has(&["Coffee", "Tea"]) {
        return "coffee and tea";
    }
    if has(&["Beer", "Wine", "Liquor"]) {
        return "alcoholic drink";
    }
    if has(&["water", "Water"]) {
        return "water";
    }
    if has(&["drink", "Sport"]) {
        return "soft drink";
    }
    "dish part"
}

/// The family of a reference food.
pub fn of_staple(group: &str) -> &'static str {
    match group {
        "0100" => "dairy and eggs",
        "0200" => "seasoning",
        "0400" => "fat",
        "0500" => "poultry",
        "0600" => "sauce",
        "0700" => "cured meat",
        "0800" => "cereal",
        "0900" => "fruit",
        "1000" | "1300" | "1700" => "red meat",
        "1100" => "vegetable",
        "1200" => "nuts",
        "1400" => "drink",
        "1500" => "fish",
        "1600" => "pulses",
        "1800" => "bread",
        "1900" => "sweet",
        "2000" => "grain",
        "2500" => "snack",
        "2100" | "2200" | "3600" => "restaurant dish",
        _ => "dish part",
    }
}
