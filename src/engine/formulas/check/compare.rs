//! Comparisons: quantities by size, words, rows and truths by `is`.

use std::ops::Range;
use std::sync::Arc;

use super::super::ast::Comparison;
use super::super::fault::Fault;
use super::super::formula::{Of, Part, What};
use super::super::kinds::kind;
use super::super::value::{Table, Type, Value};
use super::{Checker, made};

impl Checker<'_> {
    pub(super) fn compare(
        &self,
        comparison: Comparison,
        left: Part,
        right: Part,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let by_is = matches!(comparison, Comparison::Is | Comparison::IsNot);
        let measured = |part: &Part| matches!(part.holds, Type::Quantity(_) | Type::Temperature);
        let numbers = measured(&left) && measured(&right);
        let text = comparison.text();
        let (one, two) = (kind(&left.holds), kind(&right.holds));
        if left.holds != right.holds {
            let fault = Fault::new(span, format!("compares {one} with {two}"));
            return Err(if numbers {
                self.alike(fault, &left, &right)
            } else {
                unlike(fault, &left, &right)
            });
        }
        if numbers && by_is {
            return Err(Fault::new(span, format!("compares {one} by \"{text}\""))
                .remedy("compare figures by \"<\", \"<=\", \">\" or \">=\""));
        }
        if matches!(left.holds, Type::Rows(_)) {
            return Err(Fault::new(span, format!("compares {one}"))
                .remedy("compare rows one by one, as in 'any r in truck where (r is valve)'"));
        }
        if !numbers && !by_is {
            return Err(Fault::new(span, format!("compares {one} by \"{text}\""))
                .remedy("write \"is\" or \"is not\""));
        }
        self.known_word(&left, &right)?;
        self.known_word(&right, &left)?;
        Ok(made(
            What::Compare(comparison, Box::new(left), Box::new(right)),
            Type::Truth,
            span,
        ))
    }

    /// Refuses a word that never stands in the column that it is compared with.
    fn known_word(&self, word: &Part, against: &Part) -> Result<(), Fault> {
        let (What::Word(text), What::Column(column)) = (&word.what, &against.what) else {
            return Ok(());
        };
        let Some(table) = self.table_of(column.of) else {
            return Ok(());
        };
        let mut there: Vec<&str> = Vec::new();
        for row in &table.rows {
            if let Some(Value::Word(cell)) = row.get(column.at)
                && !there.contains(&&**cell)
            {
                there.push(cell);
            }
        }
        if there.contains(&&**text) {
            return Ok(());
        }
        let message = format!(
            "has \"{text}\", which no row of {} has as \"{}\"",
            table.name, column.name
        );
        Err(Fault::new(&word.span, message).has(there, text))
    }

    fn table_of(&self, of: Of) -> Option<&Arc<Table>> {
        match of {
            Of::Candidate => self.candidate.as_ref().map(|(_, table)| table),
            Of::Slot(slot) => match &self.scope.names.get(slot)?.holds {
                Type::Row(table) => self.scope.tables.get(table),
                _ => None,
            },
        }
    }
}

fn unlike(fault: Fault, left: &Part, right: &Part) -> Fault {
    match (&left.holds, &right.holds) {
        (Type::Row(_), Type::Row(_)) => {
            fault.remedy("rows can be one only if they are of one table")
        }
        (Type::Row(_), _) | (_, Type::Row(_)) => {
            fault.remedy("name a column of the row, as in \"motor.full\"")
        }
        _ => fault,
    }
}
