//! Names, columns and searches: what a path stands for.

use std::ops::Range;
use std::sync::Arc;

use crate::quantities::Dimension;

use super::super::ast::{Search as SearchNode, Which};
use super::super::fault::Fault;
use super::super::formula::{ColumnOf, Of, Part, Place, Search, What};
use super::super::kinds::kind;
use super::super::value::{Name, Table, Type};
use super::{Checker, MOST_WORK, Reading, made, truth};

impl<'a> Checker<'a> {
    pub(super) fn path(&mut self, path: &str, span: &Range<usize>) -> Result<Part, Fault> {
        if let Some((slot, name)) = self.visible(path) {
            self.slots.insert(slot);
            let part = made(What::Name(slot), name.holds.clone(), span);
            return self.read(part, name.unit.clone());
        }
        if let Some((row, table)) = self.candidate.clone() {
            if path == row {
                let holds = Type::Row(Arc::clone(&table.name));
                return Ok(made(What::Candidate, holds, span));
            }
            if let Some(column) = path
                .strip_prefix(row)
                .and_then(|rest| rest.strip_prefix('.'))
            {
                return self.column(row, column, (Of::Candidate, &table), span);
            }
        }
        match path.rsplit_once('.') {
            Some((base, column)) if self.visible(base).is_some() => {
                self.column_of_name(base, column, span)
            }
            _ => Err(self.unknown(path, span)),
        }
    }

    fn visible(&self, path: &str) -> Option<(usize, &'a Name)> {
        let names = self.scope.names.iter().take(self.scope.visible);
        names.enumerate().find(|(_, name)| name.name == path)
    }

    fn column_of_name(
        &mut self,
        base: &str,
        column: &str,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let Some((slot, name)) = self.visible(base) else {
            return Err(self.unknown(base, span));
        };
        let Type::Row(table) = &name.holds else {
            let holds = kind(&name.holds);
            let message = format!("asks for \"{column}\" of \"{base}\", which is {holds}");
            let fault = Fault::new(span, message);
            return Err(match name.holds {
                Type::Rows(_) => fault.remedy(format!(
                    "pick a row first, as in 'first r in {base} where ...'"
                )),
                _ => fault.remedy(format!("write \"{base}\"")),
            });
        };
        let Some(table) = self.scope.tables.get(table) else {
            return Err(Fault::new(
                span,
                format!("needs the table \"{table}\", which is not here"),
            ));
        };
        self.slots.insert(slot);
        self.column(base, column, (Of::Slot(slot), table), span)
    }

    fn column(
        &self,
        base: &str,
        column: &str,
        (of, table): (Of, &Arc<Table>),
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let found = table
            .column(column)
            .and_then(|at| Some((at, table.columns.get(at)?)));
        let Some((at, column)) = found else {
            let message = format!(
                "asks for \"{column}\" of \"{base}\", which is a row of {}",
                table.name
            );
            let columns = table
                .columns
                .iter()
                .map(|column| format!("{base}.{}", column.name));
            return Err(Fault::new(span, message).has(columns, &format!("{base}.{column}")));
        };
        let what = ColumnOf {
            of,
            at,
            name: column.name.as_str().into(),
            label: column.label.as_str().into(),
            unit: column.unit.clone(),
            is_key: table.key == at,
        };
        let part = made(What::Column(what), column.holds.clone(), span);
        self.read(part, column.unit.clone())
    }

    /// A leaf as this formula reads it: with its dimension, or as a bare figure.
    fn read(&self, part: Part, unit: Option<crate::quantities::Unit>) -> Result<Part, Fault> {
        let dimension = match part.holds {
            Type::Quantity(dimension) => dimension,
            Type::Temperature => Dimension::TEMPERATURE,
            _ => return Ok(part),
        };
        if self.reading == Reading::Quantities {
            return Ok(part);
        }
        if unit.is_none() && dimension != Dimension::NONE {
            return Err(
                Fault::new(&part.span, "uses a figure that has no unit to be read in")
                    .remedy("give the name a unit, or use \"is\" instead of \"figures\""),
            );
        }
        let span = part.span.clone();
        Ok(made(
            What::Bare(Box::new(part), unit),
            Type::Quantity(Dimension::NONE),
            &span,
        ))
    }

    fn unknown(&self, path: &str, span: &Range<usize>) -> Fault {
        let base = path.split('.').next().unwrap_or(path);
        let later = self.scope.names.iter().skip(self.scope.visible);
        if let Some(name) = later
            .map(|name| &name.name)
            .find(|name| *name == path || *name == base)
        {
            return Fault::new(span, format!("uses \"{name}\", which stands later")).remedy(
                format!("use what stands above, or move this below \"{name}\""),
            );
        }
        if self.scope.tables.contains_key(base) {
            return Fault::new(span, format!("uses the table \"{base}\" as a value")).remedy(
                format!("pick a row of it, as in 'first r in {base} where ...'"),
            );
        }
        let rules = base == "rule";
        let names = self
            .scope
            .names
            .iter()
            .take(self.scope.visible)
            .map(|name| &name.name);
        let mut there: Vec<String> = names
            .filter(|name| name.starts_with("rule.") == rules)
            .cloned()
            .collect();
        if let Some((row, _)) = &self.candidate {
            there.push((*row).to_owned());
        }
        if self.visible(base).is_some() {
            return Fault::new(span, format!("has a dot too many in \"{path}\""))
                .remedy(format!("write \"{base}\", or one column of it"));
        }
        let message = format!("uses \"{path}\", which this problem does not have");
        let wanted = if rules { path } else { base };
        let mut fault = Fault::new(span, message).has(there, wanted);
        if let (Some((_, column)), Some(remedy)) =
            (path.split_once('.').filter(|_| !rules), &mut fault.remedy)
        {
            *remedy = format!("{}.{column}\"", remedy.trim_end_matches('"'));
        }
        fault
    }

    pub(super) fn search(
        &mut self,
        search: &'a SearchNode,
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        if self.candidate.is_some() {
            return Err(Fault::new(span, "searches inside a search")
                .remedy("let the inner search be a step of its own"));
        }
        let row = &search.row;
        if self.visible(&row.text).is_some() {
            return Err(Fault::new(
                &row.span,
                format!("calls the row \"{}\", which is a name already", row.text),
            )
            .remedy("take another name for the row"));
        }
        if self.reading == Reading::Figures && search.which != Which::Any {
            return Err(Fault::new(span, "picks a row; bare figures give a number"));
        }
        let (place, table) = self.place(&search.place.text, &search.place.span)?;
        self.candidate = Some((&row.text, Arc::clone(&table)));
        let test = self.part(&search.test)?;
        self.candidate = None;
        truth(&test, "\"where\"")?;
        self.bound(&test, &table, span)?;
        let holds = match search.which {
            Which::Any => Type::Truth,
            Which::First | Which::Last => Type::Row(Arc::clone(&table.name)),
        };
        let search = Search {
            which: search.which,
            place,
            test,
        };
        Ok(made(What::Search(Box::new(search)), holds, span))
    }

    /// Where a search looks, and the table that says what its rows hold.
    fn place(&mut self, path: &str, span: &Range<usize>) -> Result<(Place, Arc<Table>), Fault> {
        if let Some((slot, name)) = self.visible(path) {
            let Type::Rows(table) = &name.holds else {
                let message = format!("searches \"{path}\", which is {}", kind(&name.holds));
                return Err(Fault::new(span, message).remedy("search a table or a set of rows"));
            };
            self.slots.insert(slot);
            return match self.scope.tables.get(table) {
                Some(table) => Ok((Place::Slot(slot), Arc::clone(table))),
                None => Err(Fault::new(
                    span,
                    format!("needs the table \"{table}\", which is not here"),
                )),
            };
        }
        if let Some((name, table)) = self.scope.tables.get_key_value(path) {
            self.tables.insert(Arc::clone(name));
            return Ok((Place::Table(Arc::clone(table)), Arc::clone(table)));
        }
        let sets = self.scope.names.iter().take(self.scope.visible);
        let sets = sets
            .filter(|name| matches!(name.holds, Type::Rows(_)))
            .map(|name| name.name.as_str());
        let tables = self.scope.tables.keys().map(|name| &**name);
        Err(Fault::new(
            span,
            format!("searches \"{path}\", which is neither a table nor a set of rows"),
        )
        .has(sets.chain(tables), path))
    }

    fn bound(&mut self, test: &Part, table: &Table, span: &Range<usize>) -> Result<(), Fault> {
        self.work = self
            .work
            .saturating_add(test.size().saturating_mul(table.rows.len()));
        if self.work <= MOST_WORK {
            return Ok(());
        }
        let message = format!(
            "looks at {} rows with a condition of {} parts; together at most {MOST_WORK}",
            table.rows.len(),
            test.size()
        );
        Err(Fault::new(span, message).remedy("shorten the condition, or split the table"))
    }
}
