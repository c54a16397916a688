//! Steps: what each finds, how it is answered, written and judged.

use std::collections::BTreeSet;

use super::Compiler;
use crate::formulas::{self, Name, Type};
use crate::lessons::fields::{Fields, Text, text};
use crate::lessons::node::{Block, Item};
use crate::lessons::table::{read_unit, type_of_unit};
use crate::lessons::template::Template;
use crate::lessons::variant::{Body, StepPlan, Within, Write};
use crate::quantities::{Dimension, Quantity, Unit, print::Direction};

impl Compiler<'_, '_, '_> {
    pub(super) fn step(&mut self, block: &Block) -> Option<StepPlan> {
        let mut fields = Fields::new(block, "the step");
        fields.node("levels");
        if fields.has("does") {
            return self.does(fields);
        }
        let id = fields.needed(self.reader, "finds")?;
        self.finding = Some(id.text.clone());
        let found = self.step_of_name(fields, &id);
        if found.is_none() {
            self.broken.insert(id.text);
        }
        found
    }

    fn step_of_name(&mut self, mut fields: Fields<'_>, id: &Text) -> Option<StepPlan> {
        fields.what = format!("step \"{}\"", id.text);
        let label = fields
            .needed(self.reader, "label")
            .map_or_else(String::new, |label| label.text);
        let unit = fields
            .text(self.reader, "unit")
            .and_then(|text| read_unit(self.reader, &text));
        let unit_read = unit.is_some() || !fields.has("unit");
        let body = self.body(&mut fields);
        let holds = body.as_ref().and_then(Body::formula).map_or_else(
            || unit.as_ref().map_or(Type::Word, type_of_unit),
            |formula| formula.holds().clone(),
        );
        let fits =
            unit_read && body.is_some() && self.fits_unit(&fields, body.as_ref(), unit.as_ref());
        let mut words = None;
        let mut marking = (None, None, None);
        fields.knows(&["words", "write", "within", "sane"]);
        let reads = fields.text(self.reader, "reads");
        let reads = reads.and_then(|name| self.reads(&name, unit.as_ref(), &fields.what));
        if fits {
            words = self.words(&mut fields, &holds);
            marking = (
                self.write(&mut fields, unit.as_ref()),
                self.within(&mut fields, unit.as_ref()),
                self.sane(&mut fields, unit.as_ref()),
            );
        }
        let (write, within, sane) = marking;
        let scale = reads.as_ref().and_then(|(_, scale)| *scale);
        let within = within.or_else(|| scale.map(Within::By));
        let ask = fields.truth(self.reader, "ask").unwrap_or(true);
        let marks = fields.whole(self.reader, "marks").unwrap_or(1);
        let skill = fields.string(self.reader, "skill");
        let says = fields.needed(self.reader, "says");
        let why = fields.text(self.reader, "why");
        let unsafe_if = fields.text(self.reader, "unsafe");
        if body.is_none() {
            self.broken.insert(id.text.clone());
        }
        let name = Name {
            name: id.text.clone(),
            holds,
            label: label.clone(),
            unit: unit.clone(),
            places: 0,
        };
        let slot = self.name(&id.span, name);
        let unsafe_if = unsafe_if.and_then(|text| self.truth(&text, &fields.what, slot + 1));
        let says = says.and_then(|text| self.template(&text));
        let why = why.and_then(|text| self.template(&text));
        fields.finish(self.reader);
        Some(StepPlan {
            id: id.text.clone(),
            slot: Some(slot),
            label,
            unit,
            body: body?,
            write,
            within,
            sane,
            ask,
            marks,
            says: says?,
            why,
            unsafe_if,
            words,
            skill,
            reads: reads.map(|(label, _)| label),
        })
    }

    fn does(&mut self, mut fields: Fields<'_>) -> Option<StepPlan> {
        if fields.has("finds") {
            let message = "a step says what to do with \"does\", or finds something; this has both";
            let remedy = "make two steps of it, or take \"does\" out";
            self.reader
                .refuse(&fields.place_of("does"), message, remedy);
            if let Some(id) = fields.text(self.reader, "finds") {
                self.broken.insert(id.text);
            }
            return None;
        }
        let text = fields.text(self.reader, "does")?;
        let does = self.template(&text)?;
        let why = fields
            .text(self.reader, "why")
            .and_then(|text| self.template(&text));
        fields.finish(self.reader);
        Some(StepPlan {
            id: String::new(),
            slot: None,
            label: String::new(),
            unit: None,
            body: Body::Does(does),
            write: None,
            within: None,
            sane: None,
            ask: false,
            marks: 0,
            says: Template::default(),
            why,
            unsafe_if: None,
            words: None,
            skill: None,
            reads: None,
        })
    }

    fn body(&mut self, fields: &mut Fields<'_>) -> Option<Body> {
        let formula = fields.text(self.reader, "is");
        let offer = fields.block(self.reader, "offer");
        let order = fields.block(self.reader, "order");
        let matching = fields.block(self.reader, "match");
        match (formula, order, matching) {
            (Some(formula), None, None) => self.found(fields, &formula, offer),
            (None, Some(order), None) => self.order(order),
            (None, None, Some(matching)) => self.matching(matching),
            _ => {
                let message = format!(
                    "{} is found in one way: \"is\", \"order\" or \"match\"",
                    fields.what
                );
                self.reader
                    .refuse(&fields.place(), message, "write one of them");
                None
            }
        }
    }

    fn found(&mut self, fields: &Fields<'_>, text: &Text, offer: Option<&Block>) -> Option<Body> {
        let visible = self.names.len();
        let formula = self.formula(text, &fields.what, visible)?;
        let Some(offer) = offer else {
            return Some(Body::Is(formula));
        };
        let mut keys = Fields::new(offer, keys_what(&fields.what));
        let column = keys.needed(self.reader, "column");
        let count = keys.whole(self.reader, "count");
        if count.is_none() && !keys.has("count") {
            keys.missing(self.reader, "count");
        }
        let count_at = keys.place_of("count");
        let where_ = keys.text(self.reader, "where");
        let shows = keys.text(self.reader, "shows");
        keys.finish(self.reader);
        let (column, count) = (column?, count? as usize);
        let Type::Row(table) = formula.holds() else {
            let message = format!("{}: an offer needs a formula that gives a row", fields.what);
            self.reader
                .refuse(&text.span, message, "write 'first … in … where …'");
            return None;
        };
        let table = self.shelf.tables.get(table)?;
        let at = self.column(table, &column)?;
        let shows = match shows {
            Some(shows) => Some(self.column(table, &shows)?),
            None => None,
        };
        let where_ = match where_ {
            Some(text) => Some(self.condition(&text, &table.name, &keys_what(&fields.what))?),
            None => None,
        };
        let texts: BTreeSet<String> = table
            .rows
            .iter()
            .filter_map(|row| Some(crate::lessons::show(row.get(at)?, None)))
            .collect();
        if !(2..=texts.len()).contains(&count) {
            let message = format!(
                "the offer of {} asks for {count} of the {} different cells of \"{}\"",
                fields.what,
                texts.len(),
                column.text
            );
            self.reader.refuse(
                &count_at,
                message,
                "offer two or more, and no more than there are",
            );
            return None;
        }
        Some(Body::Offer {
            formula,
            column: at,
            count,
            where_,
            shows,
        })
    }

    /// Whether the step has the unit that its value wants, or none where it wants none.
    fn fits_unit(&mut self, fields: &Fields<'_>, body: Option<&Body>, unit: Option<&Unit>) -> bool {
        let Some(formula) = body.and_then(Body::formula) else {
            return true;
        };
        let holds = formula.holds();
        match (holds, unit) {
            (Type::Quantity(_) | Type::Temperature, None) => {
                let message = format!("{} gives a figure, so it needs a \"unit\"", fields.what);
                self.reader
                    .refuse(&fields.place(), message, "add unit = \"…\"");
                false
            }
            (Type::Quantity(_) | Type::Temperature, Some(unit)) => {
                self.same_kind(fields, holds, unit).is_some()
            }
            (_, Some(_)) => {
                let message = format!(
                    "{} gives {}, which has no unit",
                    fields.what,
                    formulas::kind(holds)
                );
                self.reader
                    .refuse(&fields.place_of_key("unit"), message, "take the unit out");
                false
            }
            (_, None) => true,
        }
    }

    fn words(&mut self, fields: &mut Fields<'_>, holds: &Type) -> Option<[String; 2]> {
        let given = fields.has("words");
        let words = fields.strings(self.reader, "words");
        match (holds, words.as_slice()) {
            (Type::Truth, [yes, no]) if yes != no => Some([yes.clone(), no.clone()]),
            (Type::Truth, _) => {
                let message = format!(
                    "{} gives yes or no, so it needs two different \"words\"",
                    fields.what
                );
                self.reader.refuse(
                    &fields.place_of("words"),
                    message,
                    "write words = [\"for yes\", \"for no\"]",
                );
                None
            }
            _ => {
                if given {
                    let message = format!(
                        "{} does not give yes or no, so \"words\" has no use",
                        fields.what
                    );
                    self.reader
                        .refuse(&fields.place_of_key("words"), message, "take the line out");
                }
                None
            }
        }
    }

    fn write(&mut self, fields: &mut Fields<'_>, unit: Option<&Unit>) -> Option<Write> {
        let text = fields.text(self.reader, "write")?;
        let (word, rest) = text
            .text
            .split_once(' ')
            .unwrap_or((text.text.as_str(), ""));
        let direction = match word {
            "up" => Some(Direction::Up),
            "down" => Some(Direction::Down),
            "nearest" => Some(Direction::Nearest),
            _ => None,
        };
        let amount = rest.trim_start();
        let amount = amount.strip_prefix("to ").unwrap_or(amount).trim_start();
        let offset = text.text.len() - amount.len();
        let (Some(direction), Some(unit)) = (direction, unit) else {
            let message = format!("{}: \"write\" cannot be read", fields.what);
            let remedy = "write \"nearest 0.1 V\", \"up to 1 ft\" or \"down to 1 ft\", for a step with a unit";
            self.reader.refuse(&text.span, message, remedy);
            return None;
        };
        let amount = text.rest(offset);
        let grid = self.amount(&amount, "\"write\"", &fields.what, unit)?;
        let grid_shown = clean(grid / (unit.to_si(1.0) - unit.to_si(0.0)));
        Some(Write {
            direction,
            grid,
            grid_shown,
        })
    }

    /// An amount of the unit's kind, in SI.
    pub(super) fn amount(
        &mut self,
        text: &Text,
        key: &str,
        what: &str,
        unit: &Unit,
    ) -> Option<f64> {
        let found = self.constant(&text.node(), &format!("{key} of {what}"))?;
        if found.dimension == unit.dimension() && found.si > 0.0 {
            return Some(found.si);
        }
        let message = format!("{key} of {what} must be an amount above zero, of its unit's kind");
        let remedy = format!(
            "write a figure with a unit, such as \"1 {}\"",
            unit.symbol()
        );
        self.reader.refuse(&text.span, message, &remedy);
        None
    }

    fn within(&mut self, fields: &mut Fields<'_>, unit: Option<&Unit>) -> Option<Within> {
        let node = fields.node("within")?;
        if unit.is_none() {
            let message = format!("{} gives no figure, so \"within\" has no use", fields.what);
            let place = fields.place_of_key("within");
            self.reader.refuse(&place, message, "take the line out");
            return None;
        }
        if let Some(word) = text(node)
            && word.text == "exact"
        {
            return Some(Within::Exact);
        }
        if let Item::Block(block) = &node.item {
            let mut keys = Fields::new(block, format!("\"within\" of {}", fields.what));
            let percent = keys.node("percent").and_then(crate::lessons::table::figure);
            let by = keys.text(self.reader, "by");
            let scale = keys.text(self.reader, "scale");
            let before = self.reader.faults.len();
            keys.finish(self.reader);
            if self.reader.faults.len() > before {
                return None;
            }
            match (percent, by, unit) {
                (None, None, Some(unit)) if scale.is_some() => {
                    return self.scale(&scale?, unit, &fields.what).map(Within::By);
                }
                _ if scale.is_some() => {}
                (Some((percent, _)), None, _) if percent > 0.0 => {
                    return Some(Within::Share(percent / 100.0));
                }
                (None, Some(by), Some(unit)) => {
                    return self
                        .amount(&by, "\"within\"", &fields.what, unit)
                        .map(Within::By);
                }
                _ => {}
            }
        }
        let message = format!("{}: \"within\" cannot be read", fields.what);
        let remedy = "write { percent = 3 }, { by = \"1 ft\" }, { scale = \"…\" } or \"exact\"";
        self.reader.refuse(&node.span, message, remedy);
        None
    }

    fn sane(
        &mut self,
        fields: &mut Fields<'_>,
        unit: Option<&Unit>,
    ) -> Option<(Quantity, Quantity)> {
        let list = fields.list(self.reader, "sane")?;
        let what = fields.what.clone();
        if let [least, most] = list {
            let (least, most) = (self.constant(least, &what)?, self.constant(most, &what)?);
            let fits = unit.is_none_or(|unit| least.dimension == unit.dimension());
            if fits && least.dimension == most.dimension && least.si < most.si {
                return Some((least, most));
            }
        }
        let message = format!(
            "{what}: \"sane\" needs the least and the greatest figure that make sense, of its unit's kind"
        );
        let symbol = unit.map_or("psi", Unit::symbol);
        let remedy =
            format!("write both with their unit, as in sane = [\"5 {symbol}\", \"105 {symbol}\"]");
        self.reader
            .refuse(&fields.place_of("sane"), message, &remedy);
        None
    }
}

/// How the offer of a step is called in a sentence.
fn keys_what(step: &str) -> String {
    format!("the offer of {step}")
}

/// A grid freed of the last bits that unit factors leave: 0.1, not 0.09999999999999999.
pub(super) fn clean(value: f64) -> f64 {
    crate::quantities::print::shortest(value)
        .replace(',', "")
        .parse()
        .unwrap_or(value)
}

/// Whether a step of this type is a plain number or quantity.
pub(super) const fn is_figure(holds: &Type) -> bool {
    matches!(holds, Type::Quantity(_) | Type::Temperature)
}

/// The dimension of a figure type.
pub(super) const fn dimension(holds: &Type) -> Option<Dimension> {
    match holds {
        Type::Quantity(dimension) => Some(*dimension),
        Type::Temperature => Some(Dimension::TEMPERATURE),
        _ => None,
    }
}
