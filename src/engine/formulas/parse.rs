//! Text into a tree, by descent. Length, depth and number of nodes are bounded
//! before anything is called again, so no text can hang or overflow it.

use std::ops::Range;

use super::ast::{
    Branch, Comparison, Expression, Input, Logic, Node, Search, Sign, Spot, Tree, Which,
};
use super::fault::Fault;
use super::lex::{Letters, Token, What, lex};

/// How long a formula may be, in characters.
pub const LONGEST: usize = 400;
/// How deep brackets, calls, branches and signs may stand in each other.
pub const DEEPEST: usize = 16;
/// How many numbers, names and signs a formula may have.
pub const MOST_NODES: usize = 200;

/// Reads a formula.
pub fn parse(source: &str) -> Result<Expression, Fault> {
    parse_with(source, Letters::Lower)
}

pub(super) fn parse_with(source: &str, letters: Letters) -> Result<Expression, Fault> {
    let length = source.chars().count();
    if length > LONGEST {
        return Err(Fault::new(
            &(0..source.len()),
            format!("is {length} characters long; a formula has at most {LONGEST}"),
        )
        .remedy("split it into two steps"));
    }
    let tokens = lex(source, letters)?;
    let mut parser = Parser {
        tokens: &tokens,
        at: 0,
        depth: 0,
        nodes: 0,
    };
    let root = parser.formula()?;
    Ok(Expression {
        source: source.into(),
        root,
    })
}

struct Parser<'a> {
    tokens: &'a [Token],
    at: usize,
    depth: usize,
    nodes: usize,
}

const END: Token = Token {
    what: What::End,
    span: 0..0,
};

impl<'a> Parser<'a> {
    fn peek(&self) -> &'a Token {
        self.tokens
            .get(self.at)
            .or(self.tokens.last())
            .unwrap_or(&END)
    }

    fn advance(&mut self) -> &'a Token {
        let token = self.peek();
        self.at += 1;
        token
    }

    fn symbol(&mut self, symbol: &str) -> bool {
        let found = matches!(self.peek().what, What::Symbol(here) if here == symbol);
        self.at += usize::from(found);
        found
    }

    fn keyword(&mut self, keyword: &str) -> bool {
        let found = matches!(self.peek().what, What::Keyword(here) if here == keyword);
        self.at += usize::from(found);
        found
    }

    /// The first of the listed that stands here, taken.
    fn one_of<T: Copy>(&mut self, list: &[(&str, T)]) -> Option<T> {
        list.iter()
            .find(|(symbol, _)| self.symbol(symbol))
            .map(|(_, what)| *what)
    }

    fn want_symbol(&mut self, symbol: &'static str) -> Result<&'a Token, Fault> {
        let token = self.peek();
        if self.symbol(symbol) {
            Ok(token)
        } else {
            Err(self.expected(&format!("\"{symbol}\"")))
        }
    }

    fn want_keyword(&mut self, keyword: &'static str, example: &str) -> Result<(), Fault> {
        if self.keyword(keyword) {
            return Ok(());
        }
        Err(self
            .expected(&format!("\"{keyword}\""))
            .remedy(format!("write it as in '{example}'")))
    }

    fn expected(&self, wanted: &str) -> Fault {
        let token = self.peek();
        let message = match token.what {
            What::End if self.at == 0 => "is empty".to_owned(),
            What::End => format!("ends where {wanted} is wanted"),
            _ => format!("has {} where {wanted} is wanted", token.what.shown()),
        };
        Fault::new(&token.span, message)
    }

    fn node(&mut self, tree: Tree, span: Range<usize>) -> Result<Node, Fault> {
        self.nodes += 1;
        if self.nodes > MOST_NODES {
            return Err(Fault::new(
                &span,
                format!("has more than {MOST_NODES} numbers, names and signs"),
            )
            .remedy("split it into two steps"));
        }
        Ok(Node { tree, span })
    }

    fn pair(
        &mut self,
        left: Node,
        right: Node,
        make: impl FnOnce(Box<Node>, Box<Node>) -> Tree,
    ) -> Result<Node, Fault> {
        let span = left.span.start..right.span.end;
        self.node(make(Box::new(left), Box::new(right)), span)
    }

    /// Runs a rule one level deeper.
    fn deeper<T>(&mut self, rule: impl FnOnce(&mut Self) -> Result<T, Fault>) -> Result<T, Fault> {
        if self.depth == DEEPEST {
            return Err(
                Fault::new(&self.peek().span, format!("is more than {DEEPEST} deep"))
                    .remedy("split it into two steps"),
            );
        }
        self.depth += 1;
        let result = rule(self);
        self.depth -= 1;
        result
    }

    fn formula(&mut self) -> Result<Node, Fault> {
        let from = self.peek().span.start;
        let root = if self.keyword("first") {
            self.search(Which::First, from)?
        } else if self.keyword("last") {
            self.search(Which::Last, from)?
        } else {
            self.branch()?
        };
        match self.peek().what {
            What::End => Ok(root),
            _ => Err(self.left_over()),
        }
    }

    fn left_over(&self) -> Fault {
        let token = self.peek();
        let fault = Fault::new(
            &token.span,
            format!("has {} after its end", token.what.shown()),
        );
        match &token.what {
            What::Symbol("=") => fault.remedy("to compare write \"is\", \"<=\" or \">=\""),
            What::Path(_) | What::Number(_) | What::Word(_) => {
                fault.remedy("put a sign between the two, as in \"a * b\"")
            }
            What::Symbol(",") => fault.remedy("write numbers without commas"),
            What::Symbol(")") => fault.remedy("take the bracket away, or open one before it"),
            _ => fault,
        }
    }

    fn search(&mut self, which: Which, from: usize) -> Result<Node, Fault> {
        let (row, place) = self.search_head(which)?;
        let test = self.either()?;
        let span = from..test.span.end;
        self.node(
            Tree::Search(Box::new(Search {
                which,
                row,
                place,
                test,
            })),
            span,
        )
    }

    fn exists(&mut self, from: usize) -> Result<Node, Fault> {
        let (row, place) = self.search_head(Which::Any)?;
        if !self.symbol("(") {
            return Err(self.expected("\"(\"").remedy(format!(
                "put the condition in brackets, as in 'any {0} in {1} where ({0}.flow > 5 gpm)'",
                row.text, place.text
            )));
        }
        let test = self.deeper(Self::either)?;
        let end = self.want_symbol(")")?.span.end;
        let search = Search {
            which: Which::Any,
            row,
            place,
            test,
        };
        self.node(Tree::Search(Box::new(search)), from..end)
    }

    /// `name in path where`, after the first word.
    fn search_head(&mut self, which: Which) -> Result<(Spot, Spot), Fault> {
        let example = match which {
            Which::Any => "any r in copper where (r.ampacity >= 20 A)".to_owned(),
            _ => format!("{} r in copper where r.ampacity >= 20 A", which.text()),
        };
        let row = self.spot("a name for the row", &example)?;
        if row.text.contains('.') {
            return Err(
                Fault::new(&row.span, format!("names the row \"{}\"", row.text))
                    .remedy("take a name without dots"),
            );
        }
        self.want_keyword("in", &example)?;
        let place = self.spot("a table or a set", &example)?;
        self.want_keyword("where", &example)?;
        Ok((row, place))
    }

    fn spot(&mut self, wanted: &str, example: &str) -> Result<Spot, Fault> {
        let token = self.peek();
        let What::Path(text) = &token.what else {
            return Err(self
                .expected(wanted)
                .remedy(format!("write it as in '{example}'")));
        };
        self.at += 1;
        Ok(Spot {
            text: text.clone(),
            span: token.span.clone(),
        })
    }

    fn branch(&mut self) -> Result<Node, Fault> {
        const EXAMPLE: &str = "if a > b then a else b";
        let from = self.peek().span.start;
        if !self.keyword("if") {
            return self.either();
        }
        self.deeper(|parser| {
            let test = parser.either()?;
            parser.want_keyword("then", EXAMPLE)?;
            let yes = parser.branch()?;
            parser.want_keyword("else", EXAMPLE)?;
            let no = parser.branch()?;
            let span = from..no.span.end;
            parser.node(Tree::Branch(Box::new(Branch { test, yes, no })), span)
        })
    }

    fn either(&mut self) -> Result<Node, Fault> {
        let mut left = self.both()?;
        while self.keyword("or") {
            let right = self.both()?;
            left = self.pair(left, right, |l, r| Tree::Logic(Logic::Or, l, r))?;
        }
        Ok(left)
    }

    fn both(&mut self) -> Result<Node, Fault> {
        let mut left = self.denial()?;
        while self.keyword("and") {
            let right = self.denial()?;
            left = self.pair(left, right, |l, r| Tree::Logic(Logic::And, l, r))?;
        }
        Ok(left)
    }

    fn denial(&mut self) -> Result<Node, Fault> {
        let from = self.peek().span.start;
        if self.keyword("not") {
            let inner = self.deeper(Self::denial)?;
            let span = from..inner.span.end;
            return self.node(Tree::Not(Box::new(inner)), span);
        }
        if self.keyword("any") {
            return self.exists(from);
        }
        self.compare()
    }

    fn compare(&mut self) -> Result<Node, Fault> {
        let left = self.sum()?;
        let Some(comparison) = self.comparison() else {
            return Ok(left);
        };
        let right = self.sum()?;
        let node = self.pair(left, right, |l, r| Tree::Compare(comparison, l, r))?;
        let again = self.peek().span.clone();
        if self.comparison().is_some() {
            return Err(Fault::new(&again, "compares twice in a row")
                .remedy("join two comparisons, as in \"a < b and b < c\""));
        }
        Ok(node)
    }

    fn comparison(&mut self) -> Option<Comparison> {
        if self.keyword("is") {
            let not = self.keyword("not");
            return Some(if not {
                Comparison::IsNot
            } else {
                Comparison::Is
            });
        }
        self.one_of(&[
            ("<=", Comparison::AtMost),
            (">=", Comparison::AtLeast),
            ("<", Comparison::Less),
            (">", Comparison::More),
        ])
    }

    fn sum(&mut self) -> Result<Node, Fault> {
        let mut left = self.product()?;
        while let Some(sign) = self.one_of(&[("+", Sign::Plus), ("-", Sign::Minus)]) {
            let right = self.product()?;
            left = self.pair(left, right, |l, r| Tree::Sum(sign, l, r))?;
        }
        Ok(left)
    }

    fn product(&mut self) -> Result<Node, Fault> {
        let mut left = self.signed()?;
        while let Some(sign) = self.one_of(&[("*", Sign::Times), ("/", Sign::Over)]) {
            let right = self.signed()?;
            left = self.pair(left, right, |l, r| Tree::Sum(sign, l, r))?;
        }
        Ok(left)
    }

    fn signed(&mut self) -> Result<Node, Fault> {
        let from = self.peek().span.start;
        if !self.symbol("-") {
            return self.power();
        }
        let inner = self.deeper(Self::signed)?;
        let span = from..inner.span.end;
        self.node(Tree::Negate(Box::new(inner)), span)
    }

    fn power(&mut self) -> Result<Node, Fault> {
        let base = self.atom()?;
        if !self.symbol("^") {
            return Ok(base);
        }
        let minus = self.symbol("-");
        let token = self.peek();
        let What::Number(exponent) = token.what else {
            return Err(self
                .expected("a number")
                .remedy("write the power as a number, as in \"x^2\" or \"x^1.852\""));
        };
        self.at += 1;
        if matches!(self.peek().what, What::Symbol("^")) {
            return Err(Fault::new(&self.peek().span, "raises a power to a power")
                .remedy("put the first in brackets, as in \"(x^2)^3\""));
        }
        if let What::Unit(unit) = &self.peek().what {
            return Err(Fault::new(
                &self.peek().span,
                format!("has a power with the unit \"{unit}\""),
            )
            .remedy("a power is a plain number"));
        }
        let span = base.span.start..token.span.end;
        let exponent = if minus { -exponent } else { exponent };
        self.node(Tree::Power(Box::new(base), exponent), span)
    }

    fn atom(&mut self) -> Result<Node, Fault> {
        let token = self.peek();
        let span = token.span.clone();
        match &token.what {
            What::Number(value) => {
                self.at += 1;
                self.number(*value, span)
            }
            What::Word(word) => {
                self.at += 1;
                self.node(Tree::Word(word.clone()), span)
            }
            What::Path(path) => {
                self.at += 1;
                self.name_or_call(Spot {
                    text: path.clone(),
                    span,
                })
            }
            What::Symbol("(") => {
                self.at += 1;
                let mut inner = self.deeper(Self::branch)?;
                let close = self.want_symbol(")")?;
                inner.span = span.start..close.span.end;
                Ok(inner)
            }
            _ => Err(self.no_value()),
        }
    }

    fn no_value(&self) -> Fault {
        let fault = self.expected("a number or a name");
        match self.peek().what {
            What::Keyword("first" | "last") => {
                fault.remedy("let the search be a step of its own, and use its name here")
            }
            What::Keyword("if") => fault.remedy("put the branch in brackets"),
            What::Keyword("any" | "not") => fault.remedy("put the condition in brackets"),
            What::Keyword(word) => fault.remedy(format!(
                "\"{word}\" is a word of the language; a name needs another"
            )),
            What::Symbol("+") => fault.remedy("leave the plus sign out"),
            _ => fault,
        }
    }

    fn number(&mut self, value: f64, mut span: Range<usize>) -> Result<Node, Fault> {
        let token = self.peek();
        let unit = match &token.what {
            What::Unit(text) => {
                self.at += 1;
                span.end = token.span.end;
                Some(Spot {
                    text: text.clone(),
                    span: token.span.clone(),
                })
            }
            _ => None,
        };
        self.node(Tree::Number { value, unit }, span)
    }

    fn name_or_call(&mut self, path: Spot) -> Result<Node, Fault> {
        if !self.symbol("(") {
            let span = path.span.clone();
            return self.node(Tree::Path(path.text), span);
        }
        let (inputs, end) = self.deeper(Self::inputs)?;
        let span = path.span.start..end;
        self.node(Tree::Call { path, inputs }, span)
    }

    fn inputs(&mut self) -> Result<(Vec<Input>, usize), Fault> {
        let mut inputs = Vec::new();
        let close = self.peek();
        if self.symbol(")") {
            return Ok((inputs, close.span.end));
        }
        loop {
            let name = self.input_name();
            let value = self.branch()?;
            inputs.push(Input { name, value });
            if !self.symbol(",") {
                let end = self.want_symbol(")")?.span.end;
                return Ok((inputs, end));
            }
        }
    }

    fn input_name(&mut self) -> Option<Spot> {
        let What::Path(text) = &self.peek().what else {
            return None;
        };
        let after = self.tokens.get(self.at + 1)?;
        if !matches!(after.what, What::Symbol("=")) {
            return None;
        }
        let span = self.advance().span.clone();
        self.at += 1;
        Some(Spot {
            text: text.clone(),
            span,
        })
    }
}
