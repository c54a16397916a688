//! The lines of the sheet: how each step is asked, with its offers, jobs or parts.

use super::dealer::{Dealer, Form, Rejected};
use super::problem::{Asks, Line, LiveMistake};
use super::random::Stream;
use super::solve::last_figure;
use super::{arrange, deal, written};
use crate::formulas::Value;
use crate::lessons::{Body, StepPlan, Template};

impl Dealer {
    pub(super) fn lines(
        &self,
        stream: &mut Stream,
        values: &[Option<Value>],
        mistakes: &[LiveMistake],
    ) -> Result<Vec<Line>, Rejected> {
        let variant = &*self.variant;
        let choice = match self.form {
            Form::Lines => None,
            Form::Choice | Form::ChoiceOfThree => last_figure(variant, values),
        };
        let mut lines = Vec::new();
        for (at, step) in variant.steps.iter().enumerate() {
            if step.slot.is_none() {
                continue;
            }
            let asks = match choice {
                Some(end) if at == end => self.as_choice(stream, values, mistakes, end)?,
                Some(_) => Asks::Nothing,
                None if !step.ask => Asks::Nothing,
                None => self.asks(stream, values, mistakes, at)?,
            };
            lines.push(self.line(at, step, asks, values));
        }
        Ok(lines)
    }

    /// A step as a line that asks so.
    pub(super) fn line(
        &self,
        at: usize,
        step: &StepPlan,
        asks: Asks,
        values: &[Option<Value>],
    ) -> Line {
        let render = |text: &Template| text.render(&self.variant.names, values);
        let picked = matches!(asks, Asks::Pick { .. });
        let form = match &asks {
            Asks::Pick { .. } => "write one letter".to_owned(),
            Asks::Figure => written::form(step),
            _ => String::new(),
        };
        Line {
            id: step.id.clone(),
            step: at,
            label: step.label.clone(),
            unit: step.unit.clone().filter(|_| !picked),
            asks,
            marks: step.marks,
            form,
            says: render(&step.says),
            why: step.why.as_ref().map(render),
        }
    }

    fn asks(
        &self,
        stream: &mut Stream,
        values: &[Option<Value>],
        mistakes: &[LiveMistake],
        at: usize,
    ) -> Result<Asks, Rejected> {
        let variant = &*self.variant;
        let Some(step) = variant.steps.get(at) else {
            return Err(Rejected::NoValue);
        };
        match &step.body {
            Body::Order { least, most } => {
                let cards = arrange::order(variant, stream, values, (*least, *most));
                return cards
                    .map(|cards| Asks::Order { cards })
                    .map_err(|_| Rejected::NoValue);
            }
            Body::Match(plan) => {
                return arrange::matching(variant, plan, stream, values)
                    .map_err(|_| Rejected::NoValue);
            }
            Body::Is(_) | Body::Offer { .. } | Body::Does(_) => {}
        }
        let Some(Some(value)) = step.slot.and_then(|slot| values.get(slot)) else {
            return Err(Rejected::NoValue);
        };
        match (value, &step.body, &step.words) {
            (Value::Truth(truth), _, Some([yes, no])) => {
                let list = vec![
                    (yes.clone(), Value::Truth(true)),
                    (no.clone(), Value::Truth(false)),
                ];
                Ok(Asks::Pick {
                    offers: arrange::offers(list),
                    key: usize::from(!truth),
                })
            }
            (Value::Row(row), Body::Offer { count, where_, .. }, _) => {
                let own = mistakes.iter().filter(|mistake| mistake.step == step.id);
                let must = own.filter_map(|mistake| {
                    let value = mistake.value.clone()?;
                    Some((written::plain(step, &value), value))
                });
                let all = crate::formulas::Rows::all(&row.table);
                let others = deal::meeting(variant, all.iter(), where_.as_ref(), values)
                    .map_err(|_| Rejected::NoValue)?;
                let others = others.into_iter().map(|row| {
                    let value = Value::Row(row);
                    (written::plain(step, &value), value)
                });
                let right = (written::plain(step, value), value.clone());
                let (offers, key) =
                    arrange::pick(stream, right, must.collect(), others.collect(), *count);
                Ok(Asks::Pick { offers, key })
            }
            (Value::Row(_), ..) => Ok(Asks::Row),
            (Value::Number(_), ..) => Ok(Asks::Figure),
            _ => Err(Rejected::NoValue),
        }
    }
}
