//! Works through the rules of an item: the constructs that we write and no others. What
//! has no value is nothing, and nothing compared is nothing, as the standard has it.

use std::collections::BTreeMap;

use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, XmlVersion};

/// An element as it was read.
#[derive(Debug, Clone, Default)]
pub struct Node {
    pub name: String,
    attributes: BTreeMap<String, String>,
    pub inside: Vec<Node>,
    own: String,
}

/// What is given at a response, or stands in an outcome.
#[derive(Debug, Clone, PartialEq)]
pub enum Given {
    Number(f64),
    Name(String),
    Pairs(Vec<String>),
    Truth(bool),
}

/// The outcomes of an item.
pub struct Outcomes(BTreeMap<String, Given>);

impl Outcomes {
    pub fn number(&self, id: &str) -> f64 {
        match self.0.get(id) {
            Some(Given::Number(number)) => *number,
            other => panic!("{id} is {other:?}"),
        }
    }

    pub fn name(&self, id: &str) -> Option<&str> {
        match self.0.get(id) {
            Some(Given::Name(name)) => Some(name),
            _ => None,
        }
    }
}

/// Reads a file that is whole.
pub fn read(text: &str) -> Node {
    let mut reader = Reader::from_str(text);
    let mut open = vec![Node::default()];
    loop {
        match reader.read_event().expect("well-formed") {
            Event::Start(start) => open.push(begun(&start)),
            Event::Empty(start) => {
                let node = begun(&start);
                open.last_mut().expect("open").inside.push(node);
            }
            Event::End(_) => {
                let node = open.pop().expect("open");
                let own = node.text();
                let above = open.last_mut().expect("open");
                above.own.push_str(&own);
                above.inside.push(node);
            }
            Event::Text(text) => {
                open.last_mut().expect("open").own.push_str(&text);
            }
            Event::GeneralRef(name) => {
                let sign = match &*name {
                    "amp" => "&",
                    "lt" => "<",
                    "gt" => ">",
                    "quot" => "\"",
                    "apos" => "'",
                    other => panic!("{other} is no name of a sign"),
                };
                open.last_mut().expect("open").own.push_str(sign);
            }
            Event::Eof => break,
            _ => {}
        }
    }
    assert_eq!(open.len(), 1, "something is not closed");
    open.remove(0).inside.remove(0)
}

fn begun(start: &BytesStart<'_>) -> Node {
    let attributes = start.attributes().map(|attribute| {
        let attribute = attribute.expect("an attribute");
        let key = attribute.key.as_ref().to_owned();
        let value = attribute.normalized_value(XmlVersion::Explicit1_0);
        let value = value.expect("a value").into_owned();
        (key, value)
    });
    Node {
        name: start.name().as_ref().to_owned(),
        attributes: attributes.collect(),
        ..Node::default()
    }
}

impl Node {
    /// An attribute.
    pub fn get(&self, name: &str) -> Option<&str> {
        self.attributes.get(name).map(String::as_str)
    }

    /// All text inside.
    pub fn text(&self) -> String {
        self.own.clone()
    }

    /// Looks at every element.
    pub fn every(&self, look: &mut dyn FnMut(&Self)) {
        look(self);
        for node in &self.inside {
            node.every(look);
        }
    }

    fn named<'a>(&'a self, name: &'a str) -> impl Iterator<Item = &'a Self> {
        self.inside.iter().filter(move |node| node.name == name)
    }

    fn declared(&self, id: &str) -> Option<&Self> {
        let mut all = self.named("qti-response-declaration");
        all.find(|node| node.get("identifier") == Some(id))
    }

    /// The right answer of a response, where it is one.
    pub fn key(&self, id: &str) -> Option<String> {
        let declared = self.declared(id)?;
        let correct = declared.named("qti-correct-response").next()?;
        Some(correct.named("qti-value").next()?.text())
    }
}

/// The outcomes of an item with these responses, at an attempt of this number.
pub fn outcomes(item: &Node, given: &BTreeMap<String, Given>, attempt: u32) -> Outcomes {
    let mut set = BTreeMap::new();
    for declared in item.named("qti-outcome-declaration") {
        let id = declared.get("identifier").expect("an identifier");
        if let Some(value) = declared.named("qti-default-value").next() {
            let text = value.named("qti-value").next().expect("a value").text();
            set.insert(
                id.to_owned(),
                Given::Number(text.parse().expect("a figure")),
            );
        }
    }
    let mut work = Work {
        item,
        given,
        attempt,
        set,
    };
    let rules = item.named("qti-response-processing").next();
    for rule in &rules.expect("an item has rules").inside {
        work.rule(rule);
    }
    Outcomes(work.set)
}

struct Work<'a> {
    item: &'a Node,
    given: &'a BTreeMap<String, Given>,
    attempt: u32,
    set: BTreeMap<String, Given>,
}

impl Work<'_> {
    fn rule(&mut self, rule: &Node) {
        match &*rule.name {
            "qti-set-outcome-value" => {
                let id = rule.get("identifier").expect("an identifier").to_owned();
                match self.value(&rule.inside[0]) {
                    Some(value) => self.set.insert(id, value),
                    None => self.set.remove(&id),
                };
            }
            "qti-response-condition" => {
                let [branch] = rule.inside.as_slice() else {
                    panic!("one branch alone is written");
                };
                assert_eq!(branch.name, "qti-response-if");
                let (test, then) = branch.inside.split_first().expect("a test");
                if self.value(test) == Some(Given::Truth(true)) {
                    for rule in then {
                        self.rule(rule);
                    }
                }
            }
            other => panic!("{other} is no rule that we write"),
        }
    }

    fn number(&self, node: &Node) -> Option<f64> {
        match self.value(node)? {
            Given::Number(number) => Some(number),
            other => panic!("{other:?} is no number"),
        }
    }

    fn compared(&self, node: &Node, holds: fn(f64, f64) -> bool) -> Option<Given> {
        let [left, right] = node.inside.as_slice() else {
            panic!("two are compared");
        };
        Some(Given::Truth(holds(self.number(left)?, self.number(right)?)))
    }

    fn value(&self, node: &Node) -> Option<Given> {
        let id = || node.get("identifier").expect("an identifier");
        match &*node.name {
            "qti-variable" if id() == "numAttempts" => Some(Given::Number(f64::from(self.attempt))),
            "qti-variable" => self.given.get(id()).or_else(|| self.set.get(id())).cloned(),
            "qti-base-value" => Some(match node.get("base-type") {
                Some("float" | "integer") => Given::Number(node.text().parse().expect("a figure")),
                Some("identifier") => Given::Name(node.text()),
                other => panic!("{other:?} is no kind that we write"),
            }),
            "qti-correct" => Some(Given::Name(self.item.key(id())?)),
            "qti-is-null" => Some(Given::Truth(self.value(&node.inside[0]).is_none())),
            "qti-not" => match self.value(&node.inside[0])? {
                Given::Truth(truth) => Some(Given::Truth(!truth)),
                other => panic!("{other:?} is no truth"),
            },
            "qti-and" => {
                let values = node.inside.iter().map(|node| self.value(node));
                let values: Vec<Option<Given>> = values.collect();
                if values.contains(&Some(Given::Truth(false))) {
                    return Some(Given::Truth(false));
                }
                let all = values.iter().all(Option::is_some);
                all.then_some(Given::Truth(true))
            }
            "qti-gte" => self.compared(node, |left, right| left >= right),
            "qti-lte" => self.compared(node, |left, right| left <= right),
            "qti-gt" => self.compared(node, |left, right| left > right),
            "qti-match" => {
                let [left, right] = node.inside.as_slice() else {
                    panic!("two are matched");
                };
                Some(Given::Truth(self.value(left)? == self.value(right)?))
            }
            "qti-product" => {
                let factors = node.inside.iter().map(|node| self.number(node));
                Some(Given::Number(
                    factors.collect::<Option<Vec<_>>>()?.iter().product(),
                ))
            }
            "qti-sum" => {
                let parts = node.inside.iter().map(|node| self.number(node));
                Some(Given::Number(
                    parts.collect::<Option<Vec<_>>>()?.iter().sum(),
                ))
            }
            "qti-truncate" => Some(Given::Number(self.number(&node.inside[0])?.trunc())),
            "qti-map-response" => Some(Given::Number(self.mapped(id()))),
            other => panic!("{other} is nothing that we write"),
        }
    }

    fn mapped(&self, id: &str) -> f64 {
        let declared = self.item.declared(id).expect("declared");
        let mapping = declared.named("qti-mapping").next().expect("a mapping");
        let Some(Given::Pairs(pairs)) = self.given.get(id) else {
            return 0.0;
        };
        let value = |pair: &String| {
            let mut entries = mapping.named("qti-map-entry");
            let entry = entries.find(|entry| entry.get("map-key") == Some(pair));
            let value = entry.and_then(|entry| entry.get("mapped-value"));
            value.map_or(0.0, |value| value.parse::<f64>().expect("a figure"))
        };
        let sum: f64 = pairs.iter().map(value).sum();
        let least = mapping.get("lower-bound").expect("a bound");
        sum.max(least.parse().expect("a figure"))
    }
}
