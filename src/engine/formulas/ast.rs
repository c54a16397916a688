//! A formula as written: a tree with places. Nothing is known here of names,
//! dimensions or units.

use std::ops::Range;
use std::sync::Arc;

/// A formula that is well formed.
#[derive(Debug, Clone)]
pub struct Expression {
    pub(super) source: Arc<str>,
    pub(super) root: Node,
}

impl Expression {
    /// The text that was read.
    pub fn source(&self) -> &str {
        &self.source
    }
}

/// Equal when they say the same, however they are spaced or bracketed.
impl PartialEq for Expression {
    fn eq(&self, other: &Self) -> bool {
        self.root == other.root
    }
}

/// A part of a formula and the bytes that it was read from.
#[derive(Debug, Clone)]
pub(super) struct Node {
    pub tree: Tree,
    pub span: Range<usize>,
}

impl PartialEq for Node {
    fn eq(&self, other: &Self) -> bool {
        self.tree == other.tree
    }
}

/// A bit of text with its place.
#[derive(Debug, Clone)]
pub(super) struct Spot {
    pub text: String,
    pub span: Range<usize>,
}

impl PartialEq for Spot {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum Tree {
    Number { value: f64, unit: Option<Spot> },
    Word(String),
    Path(String),
    Negate(Box<Node>),
    Not(Box<Node>),
    Sum(Sign, Box<Node>, Box<Node>),
    Power(Box<Node>, f64),
    Compare(Comparison, Box<Node>, Box<Node>),
    Logic(Logic, Box<Node>, Box<Node>),
    Branch(Box<Branch>),
    Call { path: Spot, inputs: Vec<Input> },
    Search(Box<Search>),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sign {
    Plus,
    Minus,
    Times,
    Over,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Comparison {
    Less,
    AtMost,
    More,
    AtLeast,
    Is,
    IsNot,
}

impl Comparison {
    pub fn text(self) -> &'static str {
        match self {
            Self::Less => "<",
            Self::AtMost => "<=",
            Self::More => ">",
            Self::AtLeast => ">=",
            Self::Is => "is",
            Self::IsNot => "is not",
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Logic {
    And,
    Or,
}

impl Logic {
    pub fn text(self) -> &'static str {
        match self {
            Self::And => "and",
            Self::Or => "or",
        }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Branch {
    pub test: Node,
    pub yes: Node,
    pub no: Node,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Input {
    pub name: Option<Spot>,
    pub value: Node,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Which {
    First,
    Last,
    Any,
}

impl Which {
    pub fn text(self) -> &'static str {
        match self {
            Self::First => "first",
            Self::Last => "last",
            Self::Any => "any",
        }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Search {
    pub which: Which,
    pub row: Spot,
    pub place: Spot,
    pub test: Node,
}
