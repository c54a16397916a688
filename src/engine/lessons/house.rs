//! A class's own rules file: values of house rules that hold for this class, and
//! sheets of its own. It is laid over the lessons and changes none of their files.

use super::fields::{Fields, Reader};
use super::jurisdiction;
use super::node::{Block, Node, face};
use super::rule::{Choice, Rule, Values};
use super::table::Tables;
use crate::formulas::Value;
use crate::quantities::System;

/// The rule by which a class keeps to one sheet.
const KEPT_SHEET: &str = "jurisdiction.sheet";

/// Reads one `[[rule]]` of a class's file: the place of its value among the choices, to
/// which a figure that was not among them is added.
pub(super) fn read(
    reader: &mut Reader<'_>,
    block: &Block,
    rules: &mut [Vec<Rule>; 2],
    tables: &[Tables; 2],
) -> Option<(String, usize)> {
    let before = reader.faults.len();
    let mut fields = Fields::new(block, "the house rule");
    let name = fields.needed(reader, "rule")?;
    fields.what = format!("house rule \"{}\"", name.text);
    fields.string(reader, "why");
    fields.string(reader, "source");
    let value = fields.node("value");
    if value.is_none() {
        fields.missing(reader, "value");
    }
    fields.finish(reader);
    let Some(at) = rules[0].iter().position(|rule| rule.name == name.text) else {
        let message = format!("there is no house rule \"{}\"", name.text);
        let has: Vec<String> = rules[0].iter().map(|rule| rule.name.clone()).collect();
        let near = super::nearest(&name.text, has.iter().map(String::as_str));
        let fault = reader.fault(&name.span, message);
        fault.remedy = Some(match near.first() {
            Some(best) => format!("write \"{best}\""),
            None => "write one of these".to_owned(),
        });
        fault.has = if near.is_empty() { has } else { near };
        return None;
    };
    let value = value?;
    let read = [System::Us, System::Si].map(|system| {
        let side = usize::from(system == System::Si);
        choice(
            reader,
            &face(value, system),
            &rules[side][at],
            &tables[side],
        )
    });
    if reader.faults.len() == before {
        one_figure_for_two_units(reader, value, [&rules[0][at], &rules[1][at]]);
    }
    let ([Some(us), Some(si)], true) = (read, reader.faults.len() == before) else {
        return None;
    };
    let place = |rule: &Rule, choice: &Choice| {
        rule.choices
            .iter()
            .position(|known| known.value == choice.value)
    };
    let known = place(&rules[0][at], &us).filter(|found| place(&rules[1][at], &si) == Some(*found));
    let place = known.unwrap_or_else(|| {
        rules[0][at].choices.push(us);
        rules[1][at].choices.push(si);
        rules[0][at].choices.len() - 1
    });
    Some((name.text, place))
}

/// The value as one system of units sees it.
fn choice(reader: &mut Reader<'_>, node: &Node, rule: &Rule, tables: &Tables) -> Option<Choice> {
    let words: Vec<String> = match rule.choices.first().map(|choice| &choice.value) {
        Some(Value::Word(_)) => rule
            .choices
            .iter()
            .map(|known| known.text.clone())
            .collect(),
        _ => Vec::new(),
    };
    let named: Vec<String> = match rule.choices.first().map(|choice| &choice.value) {
        Some(Value::Rows(_)) => rule
            .choices
            .iter()
            .map(|known| known.text.clone())
            .collect(),
        _ => Vec::new(),
    };
    let values = Values {
        unit: rule.unit.as_ref(),
        words: &words,
        named: &named,
        tables,
    };
    values.read(reader, node)
}

/// `3` for a rule in psi and in kilopascals would be two different pressures.
fn one_figure_for_two_units(reader: &mut Reader<'_>, value: &Node, rules: [&Rule; 2]) {
    let [us, si] = rules.map(|rule| rule.unit.as_ref());
    let (Some(us), Some(si)) = (us, si) else {
        return;
    };
    let faces = [System::Us, System::Si].map(|system| face(value, system));
    if us.symbol() != si.symbol() && faces[0].item == faces[1].item {
        let message = format!(
            "this house rule has a value in {} and one in {}",
            us.symbol(),
            si.symbol()
        );
        let remedy = "write both, the first for US units: \"3 | 21\"";
        reader.refuse(&value.span, message, remedy);
    }
}

/// A sheet of the class's own may be kept to as any other.
pub(super) fn may_be_kept(name: &str, rules: &mut [Vec<Rule>; 2]) {
    for face in rules {
        let Some(rule) = face.iter_mut().find(|rule| rule.name == KEPT_SHEET) else {
            continue;
        };
        if rule.choices.iter().all(|choice| choice.text != name) {
            rule.choices.push(Choice {
                text: name.to_owned(),
                value: Value::Word(name.into()),
            });
        }
    }
}

/// The names of the blocks that a class's file may have.
pub(super) const BLOCKS: [&str; 2] = ["rule", jurisdiction::SHEET];
