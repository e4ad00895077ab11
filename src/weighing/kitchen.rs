//! Amounts of a dish that another kitchen serves than the one whose amounts are known.

use super::component::WeighedComponent;
use super::weigh::{Basis, Weight};

/// How much a component differs when another kitchen serves the dish than the one whose
/// amounts are known (log scale). Half of it is common to all components, so that whole
/// plates differ by about 0.4: more than the weight of one dish across restaurants does (median
/// coefficient of variation 26 % over USDA SR28 group 3600), for recipes differ as well. With 0.38 the
/// ranges held 55 % of 69 printed dishes of the library's names.
const OTHER_KITCHEN: f64 = 0.55;

/// Amounts of a dish that another kitchen serves: known in kind, not in measure.
pub(super) fn as_another_kitchen(list: &mut [WeighedComponent], name: &str) {
    for c in list {
        let Some(grams) = c.grams() else { continue };
        let told = format!("as in the library's `{name}`");
        let basis = Basis::Typical;
        c.weight = Ok(Weight::unsaid(grams.mean, OTHER_KITCHEN, basis, told));
    }
}
