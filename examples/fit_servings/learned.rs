//! All that is learned from printed items, and its tables.

use crate::data::Item;
use crate::fit::{Fit, Rows};
use crate::judged::{self, KindSpread, LeftOut, Spread};
use crate::{salt, tables};
use std::path::Path;
use trencher::weighing::servings::{Fitted, FittedText};

/// What was fitted, of foods and of drinks, and how far it errs where it has not looked.
pub struct Learned {
    fits: Vec<(bool, Fit, Rows)>,
    /// By how much servings are larger than logarithms tell, foods and drinks.
    levels: [f64; 2],
    pub left_out: Vec<LeftOut>,
    kinds: Vec<KindSpread>,
    pub spreads: Vec<Spread>,
}

/// The tables as text.
pub struct Tables {
    effects: String,
    cups: String,
    salt: String,
    spreads: String,
    kind_spreads: String,
}

impl Learned {
    /// Fits items; each restaurant is left out once to tell how far the fit errs.
    pub fn of(items: &[&Item]) -> Self {
        let mut fits = Vec::new();
        let mut left_out = Vec::new();
        let mut levels = [1.0; 2];
        for drink in [false, true] {
            let own = served(items, drink);
            let rows = Rows::of(&own);
            let mut judged = judged::leave_each_out(&own, &rows, drink);
            let level = judged::level(&judged);
            for item in &mut judged {
                item.told *= level;
            }
            levels[usize::from(drink)] = level;
            let fit = rows.fit(drink, &|_| true).raised(&rows, level);
            left_out.extend(judged);
            fits.push((drink, fit, rows));
        }
        Self::judged(fits, levels, left_out)
    }

    /// As from these items alone, by what all were judged to be.
    pub fn without(&self, items: &[&Item], restaurants: &[&str]) -> Self {
        let out = |name: &str| restaurants.contains(&name);
        let seen: Vec<&Item> = items
            .iter()
            .copied()
            .filter(|i| !out(&i.restaurant))
            .collect();
        let left_out = self.left_out.iter().filter(|i| !out(&i.restaurant));
        let left_out: Vec<LeftOut> = left_out.cloned().collect();
        let fits = [false, true].map(|drink| {
            let own = served(&seen, drink);
            let rows = Rows::of(&own);
            let level = self.levels[usize::from(drink)];
            let fit = rows.fit(drink, &|_| true).raised(&rows, level);
            (drink, fit, rows)
        });
        Self::judged(fits.into(), self.levels, left_out)
    }

    fn judged(fits: Vec<(bool, Fit, Rows)>, levels: [f64; 2], mut left_out: Vec<LeftOut>) -> Self {
        let kinds = judged::kind_spreads(&mut left_out);
        let spreads = judged::spreads(&left_out);
        Self {
            fits,
            levels,
            left_out,
            kinds,
            spreads,
        }
    }

    /// Its tables; salt and cups are those of `items`.
    pub fn tables(&self, items: &[&Item]) -> Result<Tables, Box<dyn std::error::Error>> {
        let cups = Rows::of_cups(&served(items, true));
        Ok(Tables {
            effects: tables::effects(&self.fits)?,
            cups: tables::cups(&cups, &cups.fit(true, &|_| true))?,
            salt: tables::salt(&salt::by_kind(items))?,
            spreads: tables::spreads(&self.spreads)?,
            kind_spreads: tables::kind_spreads(&self.kinds)?,
        })
    }
}

fn served<'i>(items: &[&'i Item], drink: bool) -> Vec<&'i Item> {
    let own = items.iter().copied();
    // A whole pie is many servings.
    own.filter(|item| item.said.drink == drink && item.said.slices.is_none())
        .collect()
}

impl Tables {
    /// As the program reads them.
    pub fn fitted(&self) -> Fitted {
        Fitted::read(FittedText {
            effects: &self.effects,
            cups: &self.cups,
            salt: &self.salt,
            spreads: &self.spreads,
            kind_spreads: &self.kind_spreads,
        })
    }

    /// Writes them where the program is built from.
    pub fn write(&self, folder: &Path) -> std::io::Result<()> {
        let files = [
            ("serving_effects.csv", &self.effects),
            ("drink_weights.csv", &self.cups),
            ("serving_salt.csv", &self.salt),
            ("serving_spreads.csv", &self.spreads),
            ("serving_kind_spreads.csv", &self.kind_spreads),
        ];
        for (name, text) in files {
            std::fs::write(folder.join(name), text)?;
        }
        Ok(())
    }
}
