//! What a menu line says of the size of what is served, as data.

/// Words that may name a size.
pub(super) const SIZES: [&str; 45] = [
    "mini",
    "small",
    "sm",
    "medium",
    "med",
    "regular",
    "reg",
    "large",
    "lg",
    "lrg",
    "xl",
    "kids",
    "kid's",
    "child's",
    "children's",
    "junior",
    "jr",
    "personal",
    "individual",
    "single",
    "double",
    "triple",
    "half",
    "full",
    "cup",
    "bowl",
    "pint",
    "quart",
    "glass",
    "bottle",
    "pitcher",
    "carafe",
    "can",
    "mug",
    "shot",
    "tall",
    "grande",
    "petite",
    "giant",
    "jumbo",
    "family",
    "footlong",
    "king",
    "queen",
    "sharing",
];

/// A size as menus name it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum SizeWord {
    /// `mini`
    Mini,
    /// `kids'`, `child's`
    Kids,
    /// `junior`
    Junior,
    /// `petite`
    Petite,
    /// `small`, `short stack`, `tall` of drinks
    Small,
    /// `half`, of what is also served full
    Half,
    /// `cup`, beside a bowl
    Cup,
    /// `single`
    Single,
    /// `personal`, `individual`
    Personal,
    /// `regular`
    Regular,
    /// `medium`
    Medium,
    /// `full`
    Full,
    /// `bowl`
    Bowl,
    /// `large`, `grande`
    Large,
    /// `double`
    Double,
    /// `extra large`, `jumbo`, `giant`
    ExtraLarge,
    /// `triple`
    Triple,
    /// `family`, `sharing`
    Family,
    /// `foot-long`
    Footlong,
    /// `shot`
    Shot,
    /// `glass`
    Glass,
    /// `mug`
    Mug,
    /// `can`
    Can,
    /// `pint`
    Pint,
    /// `bottle`
    Bottle,
    /// `quart`
    Quart,
    /// `carafe`
    Carafe,
    /// `pitcher`
    Pitcher,
}

impl SizeWord {
    /// The size that a word in lower case names.
    pub(super) fn of(word: &str) -> Option<Self> {
        Some(match word {
            "mini" => Self::Mini,
            "kids" | "kid's" | "child's" | "children's" => Self::Kids,
            "junior" | "jr" => Self::Junior,
            "petite" => Self::Petite,
            "small" | "sm" | "short" | "tall" => Self::Small,
            "half" => Self::Half,
            "cup" => Self::Cup,
            "single" => Self::Single,
            "personal" | "individual" => Self::Personal,
            "regular" | "reg" => Self::Regular,
            "medium" | "med" => Self::Medium,
            "full" => Self::Full,
            "bowl" => Self::Bowl,
            "large" | "lg" | "lrg" | "grande" => Self::Large,
            "double" => Self::Double,
            "xl" | "jumbo" | "giant" => Self::ExtraLarge,
            "triple" => Self::Triple,
            "family" | "sharing" => Self::Family,
            "foot" | "footlong" => Self::Footlong,
            "shot" => Self::Shot,
            "glass" => Self::Glass,
            "mug" => Self::Mug,
            "can" => Self::Can,
            "pint" => Self::Pint,
            "bottle" => Self::Bottle,
            "quart" => Self::Quart,
            "carafe" => Self::Carafe,
            "pitcher" => Self::Pitcher,
            _ => return None,
        })
    }
}

/// The part of a menu that an item stands in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Section {
    /// Not said, or nothing that sizes a serving.
    #[default]
    Unsaid,
    /// For children.
    Kids,
    /// Beside a dish.
    Sides,
    /// Before a meal, or several for the table.
    SmallPlates,
    /// Breakfast and brunch.
    Breakfast,
    /// By the slice.
    BySlice,
    /// After a meal.
    Desserts,
    /// To drink.
    Drinks,
    /// Soups.
    Soups,
    /// Salads.
    Salads,
    /// Main dishes.
    Mains,
}

impl Section {
    /// The section that a heading names.
    #[must_use]
    pub(crate) fn of(heading: &str) -> Self {
        let lower = heading.to_lowercase();
        let says = |list: &[&str]| list.iter().any(|word| lower.contains(word));
        if says(&["kid", "child", "junior", "little ones", "bambini", "kinder"]) {
            Self::Kids
        } else if says(&["slice"]) {
            Self::BySlice
        } else if says(&[
            "drink", "beverage", "beer", "wine", "cocktail", "coffee", "tea", "juice", "smoothie",
            "shake", "lemonade", "latte",
        ]) {
            Self::Drinks
        } else if says(&[
            "dessert",
            "sweet",
            "pastr",
            "bakery",
            "ice cream",
            "dolci",
            "postre",
        ]) {
            Self::Desserts
        } else if says(&["side"]) {
            Self::Sides
        } else if says(&[
            "small plate",
            "appetizer",
            "appetiser",
            "starter",
            "tapas",
            "mezze",
            "meze",
            "share",
            "sharing",
            "antipasti",
            "snack",
        ]) {
            Self::SmallPlates
        } else if says(&["breakfast", "brunch"]) {
            Self::Breakfast
        } else if says(&["soup"]) {
            Self::Soups
        } else if says(&["salad"]) {
            Self::Salads
        } else if says(&[
            "main",
            "entree",
            "entr\u{e9}e",
            "dinner",
            "plates",
            "platters",
            "from the grill",
        ]) {
            Self::Mains
        } else {
            Self::Unsaid
        }
    }
}

/// Whom a dish feeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Feeds {
    /// So many people: the middle of `4-6`.
    People(f64),
    /// A table, of how many is not said.
    Table,
}

/// What a line says of its serving.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ServingWords {
    /// The size; of several the middle one.
    pub size: Option<SizeWord>,
    /// All sizes named, in order.
    pub sizes: Vec<SizeWord>,
    /// Pieces of the dish itself.
    pub count: Option<f64>,
    /// All such counts, where the line offers several.
    pub counts: Vec<f64>,
    /// How much of a whole: a half is 0.5.
    pub share: Option<f64>,
    /// Whether that is a part of an order, a rack or a portion, not of one piece.
    pub share_of_order: bool,
    /// All such parts, where the line offers several.
    pub shares: Vec<f64>,
    /// Sold by the slice.
    pub slice: bool,
    /// Diameter or length, inches.
    pub inches: Option<f64>,
    /// Whom it feeds.
    pub feeds: Option<Feeds>,
    /// Ordered as a side: `side of slaw`.
    pub side: bool,
    /// The part of the menu.
    pub section: Section,
}

impl ServingWords {
    /// Adds a size; the middle of all is the size.
    pub(super) fn add(&mut self, size: SizeWord) {
        if !self.sizes.contains(&size) {
            self.sizes.push(size);
        }
        let mut sorted = self.sizes.clone();
        sorted.sort_unstable();
        self.size = sorted.get((sorted.len() - 1) / 2).copied();
    }
}
