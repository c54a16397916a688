//! The kind of a family: what sort of work its sheet asks for. It follows from the
//! steps; where it cannot, the family's file says it, and what it says must fit.

use super::variant::{Body, StepPlan, Variant};
use crate::formulas::Type;

/// What sort of work a sheet asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// One figure or row to be worked out.
    Single,
    /// Several figures or rows, one after another.
    MultiStep,
    /// One of several offers.
    Choice,
    /// The fault behind the readings; each wrong pick is explained.
    Diagnose,
    /// Jobs to be put in order.
    Order,
    /// Parts to be matched with their meanings.
    Match,
    /// Values that only a figure shows.
    ReadAFigure,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 7] = [
        Self::Single,
        Self::MultiStep,
        Self::Choice,
        Self::Diagnose,
        Self::Order,
        Self::Match,
        Self::ReadAFigure,
    ];

    /// Its word, as lesson files and `--json` have it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Single => "single",
            Self::MultiStep => "multi-step",
            Self::Choice => "choice",
            Self::Diagnose => "diagnose",
            Self::Order => "order",
            Self::Match => "match",
            Self::ReadAFigure => "read-a-figure",
        }
    }

    /// The kind of this word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// The kind that a sheet's steps show.
    pub(super) fn shown(variant: &Variant) -> Self {
        let asked: Vec<&StepPlan> = asked(variant).collect();
        let has = |wanted: fn(&StepPlan) -> bool| asked.iter().any(|step| wanted(step));
        if has(|step| matches!(step.body, Body::Order { .. })) {
            Self::Order
        } else if has(|step| matches!(step.body, Body::Match(_))) {
            Self::Match
        } else if variant.figure.is_some() {
            Self::ReadAFigure
        } else if asked.last().is_some_and(|step| explained(step)) {
            Self::Diagnose
        } else if !has(works_out) {
            Self::Choice
        } else if asked.len() == 1 {
            Self::Single
        } else {
            Self::MultiStep
        }
    }

    /// Why a sheet cannot be of this kind, though its file says so.
    pub(super) fn unfit(self, variant: &Variant) -> Option<&'static str> {
        let shown = Self::shown(variant);
        let picked = asked(variant)
            .last()
            .is_some_and(|step| matches!(step.body, Body::Offer { .. }) || step.words.is_some());
        match self {
            _ if self == shown => None,
            Self::Choice if picked => None,
            Self::Choice => Some("its last line that is asked is not picked"),
            Self::Diagnose => Some("its last line that is asked has no offer with \"shows\""),
            Self::Order => Some("no step has \"order\""),
            Self::Match => Some("no step has \"match\""),
            Self::ReadAFigure => Some("it has no [figure]"),
            Self::Single | Self::MultiStep => Some("its steps show another"),
        }
    }
}

fn asked(variant: &Variant) -> impl Iterator<Item = &StepPlan> {
    let steps = variant.steps.iter();
    steps.filter(|step| step.slot.is_some() && step.ask)
}

/// Whether a step is worked out, rather than picked or arranged.
fn works_out(step: &StepPlan) -> bool {
    match &step.body {
        Body::Is(formula) => *formula.holds() != Type::Truth,
        _ => false,
    }
}

/// Whether each wrong pick among the offers is explained.
const fn explained(step: &StepPlan) -> bool {
    matches!(step.body, Body::Offer { shows: Some(_), .. })
}
