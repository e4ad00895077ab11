//! Questions for the kitchen that fit what a dish has much of. Common practice throughout: what
//! dietitians advise guests to ask; the wording is ours.

use super::content::AmountRow;
use crate::ledger::Subject;
use crate::pages::drawing::Texture;

/// A question and what it helps with; `None` helps any dish.
struct Question {
    about: Option<About>,
    ask: &'static str,
}

#[derive(PartialEq, Eq)]
enum About {
    Group(Texture),
    Limit(&'static str),
    /// What is left of it, which can be boxed.
    Rest,
}

const QUESTIONS: [Question; 13] = [
    Question {
        about: Some(About::Group(Texture::Grains)),
        ask: "Could I have half the rice, pasta, bread or fries, and vegetables in their place?",
    },
    Question {
        about: Some(About::Group(Texture::ProteinFoods)),
        ask: "Is there a smaller cut or a lunch size of the meat or fish?",
    },
    Question {
        about: Some(About::Group(Texture::Oils)),
        ask: "Could the dressing, butter or sauce come on the side?",
    },
    Question {
        about: Some(About::Group(Texture::Dairy)),
        ask: "Could the cheese or cream be left off or halved?",
    },
    Question {
        about: Some(About::Group(Texture::Pulses)),
        ask: "Are the beans cooked with added fat, and is there a plain version?",
    },
    Question {
        about: Some(About::Limit("sodium")),
        ask: "Is anything salted before it is cooked, and could mine be made with less?",
    },
    Question {
        about: Some(About::Limit("saturated fat")),
        ask: "What fat is it cooked in, and could it be grilled or steamed instead?",
    },
    Question {
        about: Some(About::Limit("added sugars")),
        ask: "Is the sauce or drink sweetened, and is there one that is not?",
    },
    Question {
        about: Some(About::Limit("energy")),
        ask: "Is there a half portion, or could two of us share one?",
    },
    Question {
        about: None,
        ask: "How large is the portion, in ounces or cups?",
    },
    Question {
        about: Some(About::Rest),
        ask: "Could half of it be boxed before it comes to the table?",
    },
    Question {
        about: None,
        ask: "Can a side be changed for vegetables or fruit?",
    },
    Question {
        about: None,
        ask: "Is there a smaller size?",
    },
];

impl About {
    fn is(&self, row: &AmountRow) -> bool {
        match (self, row.line.subject) {
            (Self::Group(wanted), _) => row.texture() == Some(*wanted),
            (Self::Limit(wanted), Subject::Limit(limit)) => *wanted == limit.label(),
            _ => false,
        }
    }
}

/// Three questions: first those about what the dish has the most of against the day, then
/// those that help with any dish.
#[must_use]
pub(crate) fn kitchen_questions(amounts: &[AmountRow], boxable: bool) -> [String; 3] {
    let mut rows: Vec<(&AmountRow, f64)> = amounts
        .iter()
        .filter_map(|row| Some((row, row.line.share()?)))
        .filter(|(_, share)| *share > 0.5)
        .collect();
    rows.sort_by(|a, b| b.1.total_cmp(&a.1));
    let fitting = rows.iter().filter_map(|(row, _)| {
        QUESTIONS
            .iter()
            .find(|q| q.about.as_ref().is_some_and(|about| about.is(row)))
    });
    let general = QUESTIONS.iter().filter(|q| match q.about {
        None => true,
        Some(About::Rest) => boxable,
        Some(_) => false,
    });
    let mut asked = fitting.chain(general).map(|q| q.ask.to_owned());
    // General questions stand at the end, so there are always three.
    std::array::from_fn(|_| asked.next().unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::kitchen_questions;
    use crate::ledger::{Allowance, Group, LedgerLine, Limit, Subject};
    use crate::pages::handout::content::AmountRow;
    use crate::quantity::Estimate;

    fn row(subject: impl Into<Subject>, share: f64) -> AmountRow {
        let amount = Some(Estimate::exact(share));
        AmountRow {
            line: LedgerLine {
                subject: subject.into(),
                amount,
                counted: amount,
                takes_pulses: false,
                allowance: Some(Allowance {
                    amount: 1.0,
                    minimum: None,
                }),
                portion: 1.0,
            },
            fitted: None,
        }
    }

    #[test]
    fn the_largest_share_is_asked_about_first() {
        let asked = kitchen_questions(
            &[
                row(Group::Oils, 0.6),
                row(Limit::Sodium, 1.4),
                row(Group::Dairy, 0.1),
            ],
            true,
        );
        assert!(asked[0].contains("salted"));
        assert!(asked[1].contains("dressing"));
        assert!(asked[2].contains("How large"));
    }

    #[test]
    fn a_small_dish_gets_three_general_questions() {
        let asked = kitchen_questions(&[], true);
        assert!(asked.iter().all(|q| q.ends_with('?')));
    }
}
