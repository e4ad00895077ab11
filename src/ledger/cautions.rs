//! The usual cautions, short.

/// Lines that every text output ends with.
#[must_use]
pub(crate) fn cautions() -> &'static [&'static str] {
    &[
        "Estimates for learning, from published tables: kitchens differ, and so do plates.",
        "Allergens cannot be ruled out from a menu: ask the kitchen. No basis for dosing insulin.",
        "Under 19, pregnant or nursing, past or present eating disorder, diabetes medication, \
         kidney disease, warfarin: see a clinician or registered dietitian first.",
        "Advice from your own care team and your country comes first.",
    ]
}
