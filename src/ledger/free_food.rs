//! The free-food rule.

/// Energy below which a serving may be free, kcal.
pub(crate) const FREE_BELOW_KCAL: f64 = 20.0;
/// Carbohydrate up to which a serving may be free, g.
pub(crate) const FREE_UP_TO_CARBOHYDRATE_G: f64 = 5.0;

/// Whether a serving counts for nothing: under 20 kcal **and** at most 5 g carbohydrate.
///
/// Source: American Diabetes Association and Academy of Nutrition and Dietetics, Choose
/// Your Foods (2008 and later editions), free foods list. Printed sources differ on "and"
/// and "or"; the stricter reading is used. Free foods with a listed amount are limited to
/// about three servings a day, spread out.
#[must_use]
pub(crate) fn is_free(energy_kcal: f64, carbohydrate_g: f64) -> bool {
    energy_kcal < FREE_BELOW_KCAL && carbohydrate_g <= FREE_UP_TO_CARBOHYDRATE_G
}

#[cfg(test)]
mod tests {
    use super::is_free;

    #[test]
    fn both_limits_must_hold() {
        assert!(is_free(19.9, 5.0));
        assert!(!is_free(20.0, 1.0));
        assert!(!is_free(15.0, 5.1));
    }
}
