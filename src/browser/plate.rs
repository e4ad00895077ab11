//! A plate: drawn, with its figures, right-sized where that is asked.

use super::dish::{DishAsk, Laid, Refused};
use super::drawn::{Tap, values};
use super::shared::SharedDish;
use super::standing;
use super::whose::{Setting, Whose};
use super::{Engine, Fault, Written, written};
use crate::daylog::Standing;
use crate::fit::{Hold, Requests, Room, Unfit, plate_for, requests, right_size};
use crate::ledger::{Audit, audit};
use crate::pages::fitted::{self, Against, Answer, Fitted as FittedPage};
use crate::pages::handout::Handout;
use crate::pages::plating::{Fitted, Plated, sizes, tied};
use crate::pages::today::Today;
use crate::pages::{handout, json, text};
use crate::people::meals::Meal;
use crate::quantity::number;
use crate::reading::UnitSystem;
use serde::{Deserialize, Serialize};

/// The meal when none is said: one of three.
const USUAL_SHARE: f64 = 1.0 / 3.0;

/// Columns of the leading lines; a page wraps them as it likes.
const ID: &str = "plate";

#[derive(Debug, Deserialize)]
pub(super) struct PlateAsk {
    #[serde(flatten)]
    pub dish: DishAsk,
    pub setting: Setting,
    /// The meal it is for: a planned one of the diner.
    #[serde(default)]
    pub meal: Option<String>,
    /// Whether the right-sized plate is wanted, and for what.
    #[serde(default)]
    fit: Option<FitFor>,
}

/// What a plate is right-sized for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum FitFor {
    /// This meal: its planned share less what was logged for it, and no more than is left of
    /// the day; a third of the day without a diner.
    Meal,
    /// What is left of the day.
    Left,
}

#[derive(Debug, Deserialize)]
pub(super) struct CompareAsk {
    dishes: Vec<DishAsk>,
    setting: Setting,
}

/// The answer about a plate.
#[derive(Debug, Serialize)]
pub(super) struct PlateAnswer<'e, V> {
    /// The lines that every command begins with, of what is eaten.
    lead: Vec<String>,
    /// The object of `trencher audit --format json`, of the dish as served.
    audit: Written,
    /// The same of what is eaten, where that is not all of it.
    eaten: Option<Written>,
    /// The page of what is eaten.
    page: V,
    /// For each label of the drawing the place of its component.
    labelled: Vec<usize>,
    components: Vec<Tap<'e>>,
    fit: Option<FitAnswer>,
    taken_for: Option<String>,
    refused: Vec<Refused>,
    complete: bool,
}

/// The right-sized plate.
#[derive(Debug, Serialize)]
struct FitAnswer {
    /// The object of `trencher fit --format json`.
    fitted: Written,
    /// The part of each component that is eaten; `None` for those left out.
    parts: Vec<Option<f64>>,
    /// What it was sized for, to be read after `for`.
    room: String,
    /// Questions for the kitchen about this very dish.
    questions: Vec<String>,
}

#[derive(Debug, Serialize)]
pub(super) struct CompareAnswer<V> {
    /// The two facing each other, as handouts have it.
    two: V,
    audits: Vec<Written>,
}

#[derive(Debug, Serialize)]
pub(super) struct LinkAnswer {
    dish: SharedDish,
}

impl Engine {
    pub(super) fn plate(
        &self,
        ask: &PlateAsk,
    ) -> Result<PlateAnswer<'_, impl Serialize + use<>>, Fault> {
        let whose = ask.setting.whose()?;
        let laid = self.lay(&ask.dish, ask.setting.units())?;
        let now = ask.setting.now();
        let standing = standing::on(&ask.setting, &whose, now.date());
        let meal = meal(&whose, ask.meal.as_deref(), now.hour())?;
        let against = standing::page(&standing, &whose, meal.as_ref());
        let served = self.audited(&laid, &whose, false);
        let eaten = laid
            .eaten
            .as_ref()
            .map(|_| self.audited(&laid, &whose, true));
        let shown = eaten.as_ref().unwrap_or(&served);
        let today = |audit: &Audit| against.as_ref().map(|standing| Today::of(audit, standing));
        let as_json = |audit: &Audit| {
            let page = json::audit_for(audit, &self.catalogue, today(audit).as_ref());
            written(&page.map_err(Fault::of)?)
        };
        let day = whose.words();
        let plated = Plated {
            dish: laid.eaten(),
            audit: shown,
            fitted: None,
            day: &day,
            standard_source: &whose.standard.source,
            notes: &laid.notes,
            units: ask.setting.units(),
        };
        let fit = ask.fit.map(|fit| {
            let room = room(fit, &standing, meal.as_ref(), &whose);
            self.fit(&laid, &served, &room, &whose)
        });
        let tied = tied(plated, &self.catalogue);
        let sizes = match &laid.eaten {
            // What is drawn is what is served.
            None => tied.sizes,
            Some(_) => sizes(&laid.served, &served, &self.catalogue),
        };
        Ok(PlateAnswer {
            lead: text::lead(shown, today(shown).as_ref()),
            audit: as_json(&served)?,
            eaten: eaten.as_ref().map(as_json).transpose()?,
            page: values(&tied.handout, ID),
            labelled: tied.drawn,
            components: self.taps(&laid.served, &served, sizes),
            fit: fit.transpose()?,
            complete: laid.refused.is_empty() && served.unmatched.is_empty(),
            taken_for: laid.taken_for,
            refused: laid.refused,
        })
    }

    /// The audit of a dish as served, or of what is eaten of it.
    fn audited(&self, laid: &Laid, whose: &Whose, eaten: bool) -> Audit {
        let dish = if eaten { laid.eaten() } else { &laid.served };
        let mut audit = audit(dish, &self.catalogue, whose.day());
        audit.notes.extend(laid.notes.iter().cloned());
        audit.notes.extend(whose.notes.iter().cloned());
        audit
    }

    fn fit(
        &self,
        laid: &Laid,
        served: &Audit,
        room: &Room,
        whose: &Whose,
    ) -> Result<FitAnswer, Fault> {
        let (dish, catalogue) = (&laid.served, &self.catalogue);
        let sized = match right_size(dish, catalogue, room) {
            Err(error) if !matches!(error, Unfit::Nothing { .. } | Unfit::Spent { .. }) => {
                return Err(Fault::of(error));
            }
            answer => answer,
        };
        let eaten = sized.as_ref().ok();
        let eaten = eaten.map(|s| audit(&s.eaten(dish), catalogue, whose.day()));
        let parts = sized.as_ref().map(|s| s.parts(dish)).unwrap_or_default();
        let asked = match &sized {
            Err(Unfit::Spent { .. }) => Requests::default(),
            _ => requests(dish, catalogue, room, &parts).map_err(Fault::of)?,
        };
        let questions = sized.as_ref().map(|sized| {
            let fitted = Fitted::of(sized, dish, &room.of, &asked.asks, UnitSystem::Us);
            fitted.questions
        });
        let page = FittedPage {
            dish,
            served,
            fitting: &plate_for(dish, catalogue, room),
            room,
            against: Against {
                day: whose.day(),
                share: None,
                hold: Hold::Usual,
            },
            outcome: match (&sized, &eaten) {
                (Ok(sized), Some(eaten)) => Ok(Answer { sized, eaten }),
                (Ok(_), None) => Err(&Unfit::Empty),
                (Err(unfit), _) => Err(unfit),
            },
            requests: &asked,
            notes: &laid.notes,
        };
        Ok(FitAnswer {
            fitted: written(&fitted::json(&page).map_err(Fault::of)?)?,
            parts,
            room: format!(
                "{}, {} kcal",
                room.of,
                number::kcal(room.energy_kcal.max(0.0))
            ),
            questions: questions.unwrap_or_default(),
        })
    }

    pub(super) fn compare(
        &self,
        ask: &CompareAsk,
    ) -> Result<CompareAnswer<impl Serialize + use<>>, Fault> {
        if ask.dishes.len() != 2 {
            return Err(Fault::of("two dishes can stand side by side"));
        }
        let whose = ask.setting.whose()?;
        let day = whose.words();
        let (mut handouts, mut audits) = (Vec::new(), Vec::new());
        for dish in &ask.dishes {
            let laid = self.lay(dish, ask.setting.units())?;
            let audit = self.audited(&laid, &whose, true);
            handouts.push(self.handout(Plated {
                dish: laid.eaten(),
                audit: &audit,
                fitted: None,
                day: &day,
                standard_source: &whose.standard.source,
                notes: &laid.notes,
                units: ask.setting.units(),
            }));
            audits.push(written(
                &json::audit(&audit, &self.catalogue).map_err(Fault::of)?,
            )?);
        }
        let facing: Vec<&Handout> = handouts.iter().collect();
        Ok(CompareAnswer {
            two: handout::facing_values(&facing),
            audits,
        })
    }

    pub(super) fn link(&self, ask: &PlateAsk) -> Result<LinkAnswer, Fault> {
        let laid = self.lay(&ask.dish, ask.setting.units())?;
        Ok(LinkAnswer {
            dish: SharedDish::of(laid.eaten(), &self.catalogue),
        })
    }
}

/// The planned meal that is asked for, or the usual one at this hour; nothing without a diner.
pub(super) fn meal(whose: &Whose, asked: Option<&str>, hour: i8) -> Result<Option<Meal>, Fault> {
    let Some(diner) = &whose.diner else {
        return Ok(None);
    };
    match asked {
        None => Ok(diner.meals.usual_at(hour).cloned()),
        Some(name) => match diner.meals.named(name) {
            Some(meal) => Ok(Some(meal.clone())),
            None => Err(Fault::of(format!(
                "no meal is called “{name}” in this day's plan"
            ))),
        },
    }
}

fn room(fit: FitFor, standing: &Standing, meal: Option<&Meal>, whose: &Whose) -> Room {
    match (fit, &whose.diner) {
        (FitFor::Left, Some(_)) => standing.room_named(None, whose.day(), Hold::Usual),
        (FitFor::Meal, Some(_)) if meal.is_some() => {
            standing.room_named(meal, whose.day(), Hold::Usual)
        }
        _ => Room::of_day(whose.day(), USUAL_SHARE, "this meal", Hold::Usual),
    }
}
