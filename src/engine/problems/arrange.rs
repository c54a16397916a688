//! Arrangements and offers: which jobs, parts and offers are shown, and in what order.

use std::collections::BTreeSet;

use super::problem::{Asks, Offer, ShownCard};
use super::random::Stream;
use crate::formulas::{NoValue, Rows, Value};
use crate::lessons::{CardPlan, MatchPlan, Variant, basis, show};

/// How often an order is shuffled until it does not stand in right order already.
const SHUFFLES: usize = 8;

/// The letter of a place in a list of offers; past z, none.
pub(crate) fn letter(place: usize) -> String {
    u8::try_from(place)
        .ok()
        .filter(|place| *place < 26)
        .map_or_else(String::new, |place| char::from(b'a' + place).to_string())
}

/// Texts with their values as offers, lettered in their order.
pub(super) fn offers(list: Vec<(String, Value)>) -> Vec<Offer> {
    list.into_iter()
        .enumerate()
        .map(|(place, (text, value))| Offer {
            mark: letter(place),
            text,
            value,
        })
        .collect()
}

/// Puts the right text among wrong ones: those that must be there first, then
/// others, up to a count, in a drawn order. Gives the place of the right one.
pub(super) fn pick(
    stream: &mut Stream,
    right: (String, Value),
    must: Vec<(String, Value)>,
    others: Vec<(String, Value)>,
    count: usize,
) -> (Vec<Offer>, usize) {
    let right_text = right.0.clone();
    let mut others = others;
    stream.shuffle(&mut others);
    let mut list = vec![right];
    for candidate in must.into_iter().chain(others) {
        if list.len() < count && list.iter().all(|(text, _)| *text != candidate.0) {
            list.push(candidate);
        }
    }
    stream.shuffle(&mut list);
    let key = list
        .iter()
        .position(|(text, _)| *text == right_text)
        .unwrap_or(0);
    (offers(list), key)
}

/// The jobs of an order as they are shown.
pub(super) fn order(
    variant: &Variant,
    stream: &mut Stream,
    values: &[Option<Value>],
    (least, most): (usize, usize),
) -> Result<Vec<ShownCard>, NoValue> {
    let mut always = Vec::new();
    let mut optional = Vec::new();
    for (at, card) in variant.cards.iter().enumerate() {
        if let Some(when) = &card.when
            && when.evaluate(values, basis(variant.system))?.truth() != Some(true)
        {
            continue;
        }
        if card.always {
            always.push(at);
        } else {
            optional.push(at);
        }
    }
    let count = stream.between(least.max(always.len()), most.max(always.len()));
    stream.shuffle(&mut optional);
    optional.truncate(count.saturating_sub(always.len()));
    let mut shown: Vec<usize> = always.into_iter().chain(optional).collect();
    shown.sort_unstable();
    let right: Vec<usize> = shown
        .iter()
        .copied()
        .filter(|at| variant.cards.get(*at).is_some_and(|card| !card.decoy))
        .collect();
    let mut drawn = shown.clone();
    for _ in 0..SHUFFLES {
        stream.shuffle(&mut drawn);
        if drawn != shown {
            break;
        }
    }
    let before = closure(&variant.cards);
    Ok(drawn
        .iter()
        .filter_map(|at| card(variant, *at, &drawn, &right, &before))
        .collect())
}

fn card(
    variant: &Variant,
    at: usize,
    drawn: &[usize],
    right: &[usize],
    before: &[BTreeSet<usize>],
) -> Option<ShownCard> {
    let plan = variant.cards.get(at)?;
    let place = |card: &usize| drawn.iter().position(|shown| shown == card);
    let needs = before.get(at).into_iter().flatten();
    Some(ShownCard {
        id: plan.id.clone(),
        text: plan.text.clone(),
        place: right.iter().position(|card| *card == at),
        after: needs.filter_map(place).collect(),
    })
}

/// All cards that must come before each, through others too: a hidden card
/// passes its order on.
fn closure(cards: &[CardPlan]) -> Vec<BTreeSet<usize>> {
    let mut found: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); cards.len()];
    for (at, _) in cards.iter().enumerate() {
        let mut open: Vec<usize> = cards
            .get(at)
            .map(|card| card.after.clone())
            .unwrap_or_default();
        let mut all = BTreeSet::new();
        while let Some(before) = open.pop() {
            if before != at && all.insert(before) {
                open.extend(
                    cards
                        .get(before)
                        .into_iter()
                        .flat_map(|card| card.after.iter().copied()),
                );
            }
        }
        if let Some(place) = found.get_mut(at) {
            *place = all;
        }
    }
    found
}

/// The parts and meanings of a match as they are shown.
pub(super) fn matching(
    variant: &Variant,
    plan: &MatchPlan,
    stream: &mut Stream,
    values: &[Option<Value>],
) -> Result<Asks, NoValue> {
    let all = Rows::all(&plan.table);
    let mut rows = super::deal::meeting(variant, all.iter(), plan.where_.as_ref(), values)?;
    let count = stream.between(plan.least, plan.most);
    if rows.len() < count {
        return Err(NoValue::NoRow {
            table: plan.table.name.clone(),
        });
    }
    stream.shuffle(&mut rows);
    let text = |row: &crate::formulas::Row, column: usize| {
        row.cell(column)
            .map_or_else(String::new, |cell| show(cell, None))
    };
    let mut meanings: Vec<usize> = (0..(count + plan.spare).min(rows.len())).collect();
    stream.shuffle(&mut meanings);
    let parts = rows
        .iter()
        .take(count)
        .enumerate()
        .map(|(at, row)| {
            let key = meanings
                .iter()
                .position(|meaning| *meaning == at)
                .unwrap_or(0);
            (text(row, plan.left), key)
        })
        .collect();
    let listed = meanings
        .iter()
        .filter_map(|at| rows.get(*at))
        .map(|row| (text(row, plan.right), Value::Row(row.clone())))
        .collect();
    Ok(Asks::Match {
        parts,
        meanings: offers(listed),
    })
}

/// The right answer to an arrangement, as it would be typed.
pub(crate) fn right_answer(asks: &Asks) -> Option<String> {
    match asks {
        Asks::Order { cards } => {
            let numbers = cards.iter().map(|card| {
                card.place
                    .map_or_else(|| "-".to_owned(), |place| (place + 1).to_string())
            });
            Some(numbers.collect::<Vec<_>>().join(" "))
        }
        Asks::Match { parts, .. } => {
            let letters = parts.iter().map(|(_, key)| letter(*key));
            Some(letters.collect::<Vec<_>>().join(" "))
        }
        Asks::Pick { key, .. } => Some(letter(*key)),
        Asks::Nothing | Asks::Figure | Asks::Row => None,
    }
}
