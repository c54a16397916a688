//! A tree written back in the language, always the same way: what hashes and
//! round trips rest on. Blanks and needless brackets of the source are gone, so
//! the text is never longer than the one that was read.

use std::fmt::Write as _;

use super::ast::{Expression, Input, Logic, Node, Search, Sign, Tree, Which};

/// The formula in the one spelling that all its spellings share.
pub(super) fn canonical(expression: &Expression) -> String {
    let mut writer = Writer::default();
    writer.node(&expression.root, Level::Formula);
    writer.out
}

/// How tightly a part binds; a part looser than its place stands in brackets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Level {
    Formula,
    Branch,
    Either,
    Both,
    Denial,
    Sum,
    Product,
    Signed,
    Power,
    Atom,
}

fn level(tree: &Tree) -> Level {
    match tree {
        Tree::Search(search) if search.which == Which::Any => Level::Denial,
        Tree::Search(_) => Level::Formula,
        Tree::Branch(_) => Level::Branch,
        Tree::Logic(Logic::Or, ..) => Level::Either,
        Tree::Logic(Logic::And, ..) => Level::Both,
        Tree::Not(_) | Tree::Compare(..) => Level::Denial,
        Tree::Sum(Sign::Plus | Sign::Minus, ..) => Level::Sum,
        Tree::Sum(Sign::Times | Sign::Over, ..) => Level::Product,
        Tree::Negate(_) => Level::Signed,
        Tree::Power(..) => Level::Power,
        Tree::Number { .. } | Tree::Word(_) | Tree::Path(_) | Tree::Call { .. } => Level::Atom,
    }
}

#[derive(Default)]
struct Writer {
    out: String,
    /// Where the last unit ended: a sign that could belong to it keeps away.
    unit_end: Option<usize>,
}

impl Writer {
    fn text(&mut self, text: &str) {
        self.out.push_str(text);
    }

    fn sign(&mut self, sign: &str) {
        if self.unit_end == Some(self.out.len()) {
            self.out.push(' ');
        }
        self.text(sign);
    }

    fn node(&mut self, node: &Node, place: Level) {
        if level(&node.tree) < place {
            self.text("(");
            self.node(node, Level::Branch);
            self.text(")");
            return;
        }
        match &node.tree {
            Tree::Number { value, unit } => {
                let _ = write!(self.out, "{value}");
                if let Some(unit) = unit {
                    let _ = write!(self.out, " {}", unit.text);
                    self.unit_end = Some(self.out.len());
                }
            }
            Tree::Word(word) => {
                let _ = write!(self.out, "\"{word}\"");
            }
            Tree::Path(path) => self.text(path),
            Tree::Negate(inner) => {
                self.text("-");
                self.node(inner, Level::Signed);
            }
            Tree::Not(inner) => {
                self.text("not ");
                self.node(inner, Level::Denial);
            }
            Tree::Power(base, exponent) => {
                self.node(base, Level::Atom);
                self.sign("^");
                let _ = write!(self.out, "{exponent}");
            }
            Tree::Call { path, inputs } => self.call(&path.text, inputs),
            Tree::Search(search) => self.search(search),
            Tree::Branch(branch) => {
                self.text("if ");
                self.node(&branch.test, Level::Either);
                self.text(" then ");
                self.node(&branch.yes, Level::Branch);
                self.text(" else ");
                self.node(&branch.no, Level::Branch);
            }
            tree => self.between(tree),
        }
    }

    /// A sign with a part on each side.
    fn between(&mut self, tree: &Tree) {
        let own = level(tree);
        let (left, sign, right, from, to) = match tree {
            Tree::Sum(Sign::Plus, l, r) => (l, "+", r, own, Level::Product),
            Tree::Sum(Sign::Minus, l, r) => (l, "-", r, own, Level::Product),
            Tree::Sum(Sign::Times, l, r) => (l, "*", r, own, Level::Signed),
            Tree::Sum(Sign::Over, l, r) => (l, "/", r, own, Level::Signed),
            Tree::Logic(Logic::Or, l, r) => (l, " or ", r, own, Level::Both),
            Tree::Logic(Logic::And, l, r) => (l, " and ", r, own, Level::Denial),
            Tree::Compare(comparison, l, r) => (l, comparison.text(), r, Level::Sum, Level::Sum),
            _ => return,
        };
        self.node(left, from);
        match tree {
            Tree::Compare(..) if sign.starts_with('i') => {
                self.text(" ");
                self.text(sign);
                self.text(" ");
            }
            Tree::Logic(..) => self.text(sign),
            _ => self.sign(sign),
        }
        self.node(right, to);
    }

    fn call(&mut self, path: &str, inputs: &[Input]) {
        self.text(path);
        self.text("(");
        for (at, input) in inputs.iter().enumerate() {
            if at > 0 {
                self.text(",");
            }
            if let Some(name) = &input.name {
                self.text(&name.text);
                self.text("=");
            }
            self.node(&input.value, Level::Branch);
        }
        self.text(")");
    }

    fn search(&mut self, search: &Search) {
        let Search {
            which,
            row,
            place,
            test,
        } = search;
        let _ = write!(
            self.out,
            "{} {} in {} where ",
            which.text(),
            row.text,
            place.text
        );
        if *which == Which::Any {
            self.text("(");
            self.node(test, Level::Either);
            self.text(")");
        } else {
            self.node(test, Level::Either);
        }
    }
}
