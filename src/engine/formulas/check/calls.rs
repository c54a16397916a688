//! Calls of calculations: inputs by name, each of its kind.

use std::ops::Range;

use pumpwright_calc::registry::{self, Function, Kind, Port};

use super::super::ast::{Input, Spot};
use super::super::fault::{Fault, nearest};
use super::super::formula::{Part, What};
use super::super::kinds::kind;
use super::super::value::Type;
use super::arithmetic::{BUILT_IN, ONE_KIND};
use super::{Checker, Reading, made};

impl<'a> Checker<'a> {
    pub(super) fn call(
        &mut self,
        path: &Spot,
        inputs: &'a [Input],
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        if BUILT_IN.contains(&path.text.as_str()) {
            return self.call_built_in(path, inputs, span);
        }
        let Some(function) = registry::find(&path.text) else {
            return Err(unknown(path));
        };
        if self.reading == Reading::Figures {
            return Err(Fault::new(
                &path.span,
                format!("calls \"{}\" among bare figures", path.text),
            )
            .remedy("write the sum itself, as in \"2.31 * cut_out\""));
        }
        let ordered = in_order(function, path, inputs, span)?;
        let mut parts = Vec::with_capacity(ordered.len());
        for (port, input) in function.inputs.iter().zip(ordered) {
            let part = self.part(&input.value)?;
            self.fits(function, port, &part)?;
            parts.push(part);
        }
        if !self.calls.iter().any(|known| known.name == function.name) {
            self.calls.push(function);
        }
        Ok(made(
            What::Call(function, parts),
            type_of(function.gives.kind),
            span,
        ))
    }

    fn fits(&self, function: &Function, port: &Port, part: &Part) -> Result<(), Fault> {
        let wanted = type_of(port.kind);
        if part.holds != wanted {
            let message = format!(
                "\"{}\" of \"{}\" is {}; here is {}",
                port.name,
                function.name,
                kind(&wanted),
                kind(&part.holds)
            );
            let fault = Fault::new(&part.span, message);
            let mut fault = self.instead(fault, &[part], (&wanted, &part.holds));
            // The function that is being called turns nothing into its own input, and
            // a sum's advice is none here.
            fault.remedy = fault
                .remedy
                .filter(|remedy| !remedy.ends_with(function.name) && remedy != ONE_KIND);
            return Err(fault);
        }
        match (port.kind, &part.what) {
            (Kind::Word(words), What::Word(word)) if !words.contains(&&**word) => {
                let message = format!(
                    "\"{}\" of \"{}\" is never \"{word}\"",
                    port.name, function.name
                );
                Err(Fault::new(&part.span, message).has(words, word))
            }
            _ => Ok(()),
        }
    }

    fn call_built_in(
        &mut self,
        path: &Spot,
        inputs: &'a [Input],
        span: &Range<usize>,
    ) -> Result<Part, Fault> {
        let mut parts = Vec::with_capacity(inputs.len());
        for input in inputs {
            if let Some(name) = &input.name {
                let message = format!("names the input \"{}\" of \"{}\"", name.text, path.text);
                return Err(Fault::new(&name.span, message).remedy("leave the name out"));
            }
            parts.push(self.part(&input.value)?);
        }
        self.built_in(path, parts, span)
    }
}

fn unknown(path: &Spot) -> Fault {
    let fault = Fault::new(
        &path.span,
        format!("calls \"{}\", which the program does not have", path.text),
    );
    let subject = path.text.split_once('.').map_or("", |(subject, _)| subject);
    let of_subject = |name: &&str| {
        !subject.is_empty()
            && name
                .split_once('.')
                .is_some_and(|(other, _)| other == subject)
    };
    let names = || registry::functions().map(|function| function.name);
    let siblings: Vec<&str> = names().filter(of_subject).collect();
    let there = if siblings.is_empty() {
        BUILT_IN.to_vec()
    } else {
        siblings
    };
    let near = nearest(&path.text, names().chain(BUILT_IN));
    let mut fault = fault.has(there, &path.text);
    if let Some(near) = near {
        fault.remedy = Some(format!("write \"{near}\""));
    }
    fault
}

/// The inputs in the order of the function's own.
fn in_order<'a>(
    function: &Function,
    path: &Spot,
    inputs: &'a [Input],
    span: &Range<usize>,
) -> Result<Vec<&'a Input>, Fault> {
    let ports = function.inputs;
    let names = || ports.iter().map(|port| port.name);
    if inputs.len() > ports.len() {
        let message = format!(
            "\"{}\" takes {}; here are {}",
            path.text,
            counted(ports.len()),
            inputs.len()
        );
        let mut fault = Fault::new(span, message);
        fault.has = names().map(str::to_owned).collect();
        return Err(fault);
    }
    if inputs.iter().any(|input| input.name.is_none()) {
        return unnamed(function, path, inputs, span);
    }
    for (at, input) in inputs.iter().enumerate() {
        let Some(name) = &input.name else { continue };
        if !names().any(|known| known == name.text) {
            let message = format!("\"{}\" has no input \"{}\"", path.text, name.text);
            return Err(Fault::new(&name.span, message).has(names(), &name.text));
        }
        if inputs
            .iter()
            .take(at)
            .any(|other| other.name.as_ref() == Some(name))
        {
            return Err(Fault::new(
                &name.span,
                format!("gives \"{}\" twice", name.text),
            ));
        }
    }
    let by_name = |port: &Port| {
        let named = |input: &&Input| {
            input
                .name
                .as_ref()
                .is_some_and(|name| name.text == port.name)
        };
        inputs
            .iter()
            .find(named)
            .ok_or_else(|| missing(function, path, port, span))
    };
    ports.iter().map(by_name).collect()
}

/// Inputs without names: all of them, and no two that could be mistaken.
fn unnamed<'a>(
    function: &Function,
    path: &Spot,
    inputs: &'a [Input],
    span: &Range<usize>,
) -> Result<Vec<&'a Input>, Fault> {
    let ports = function.inputs;
    let example = ports
        .iter()
        .map(|port| format!("{} = ...", port.name))
        .collect::<Vec<_>>();
    let example = format!("write \"{}({})\"", path.text, example.join(", "));
    for (at, port) in ports.iter().enumerate() {
        if ports
            .iter()
            .take(at)
            .any(|other| alike(other.kind, port.kind))
        {
            let kind = kind(&type_of(port.kind));
            let message = format!(
                "\"{}\" takes {kind} more than once, so its inputs must be named",
                path.text
            );
            return Err(Fault::new(&path.span, message).remedy(example));
        }
    }
    if let Some(name) = inputs.iter().find_map(|input| input.name.as_ref()) {
        return Err(Fault::new(&name.span, "names one input and not another").remedy(example));
    }
    match ports.get(inputs.len()) {
        Some(port) => Err(missing(function, path, port, span).remedy(example)),
        None => Ok(inputs.iter().collect()),
    }
}

fn missing(function: &Function, path: &Spot, port: &Port, span: &Range<usize>) -> Fault {
    let mut fault = Fault::new(
        span,
        format!("\"{}\" needs \"{}\" too", path.text, port.name),
    );
    fault.has = function
        .inputs
        .iter()
        .map(|port| port.name.to_owned())
        .collect();
    fault.remedy(format!("add \"{} = ...\", {}", port.name, port.label))
}

fn counted(inputs: usize) -> String {
    if inputs == 1 {
        "1 input".to_owned()
    } else {
        format!("{inputs} inputs")
    }
}

/// Whether an input of one kind could be taken for one of the other.
fn alike(one: Kind, two: Kind) -> bool {
    match (one, two) {
        (Kind::Word(_), Kind::Word(_)) => true,
        _ => one == two,
    }
}

fn type_of(kind: Kind) -> Type {
    match kind {
        Kind::Quantity(dimension) => Type::Quantity(dimension),
        Kind::Temperature => Type::Temperature,
        Kind::Word(_) => Type::Word,
    }
}
