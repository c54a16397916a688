//! One formula with its numbers: inputs read, the law worked, the result shown.

use pumpwright_calc::registry::{Function, Law, Port, Value};
use pumpwright_engine::quantities::DecimalSign;

use super::refused::refused;
use super::slot::Slot;
use super::{foot, formula, head, put_in};
use crate::cli::Units;
use crate::commands::{json, pair};
use crate::console::Console;
use crate::failure::{self, Failure};

/// A formula with its numbers.
pub(super) struct Sum {
    function: &'static Function,
    units: Units,
    inputs: Vec<Value>,
    /// The inputs as they were typed, in the same order.
    typed: Vec<String>,
    result: Value,
}

impl Sum {
    /// The formula with what was typed.
    pub(super) fn of(
        function: &'static Function,
        units: Units,
        typed: &[String],
        decimal: DecimalSign,
    ) -> Result<Self, Failure> {
        let mut given: Vec<(&str, &str)> = Vec::new();
        for input in typed {
            let (name, value) = pair(input, "INPUT=VALUE")?;
            if !function.inputs.iter().any(|port| port.name == name) {
                let message = format!(
                    "{} has no input \"{}\"",
                    function.name,
                    failure::shown(name)
                );
                return Err(Failure::Input(format!(
                    "{message}; {}",
                    has(function, units)
                )));
            }
            if given.iter().any(|(earlier, _)| *earlier == name) {
                return Err(Failure::Input(format!(
                    "the input {name} is given twice; give it once"
                )));
            }
            given.push((name, value));
        }
        let value = |port: &Port| {
            let found = given.iter().find(|(name, _)| *name == port.name);
            found.map(|(_, typed)| *typed)
        };
        let missing: Vec<&str> = function
            .inputs
            .iter()
            .filter(|port| value(port).is_none())
            .map(|port| port.name)
            .collect();
        if !missing.is_empty() {
            return Err(Failure::Input(format!(
                "{} also needs {}; {}",
                function.name,
                missing.join(", "),
                has(function, units)
            )));
        }
        let typed: Vec<String> = function
            .inputs
            .iter()
            .filter_map(|port| value(port).map(str::to_owned))
            .collect();
        let inputs = function
            .inputs
            .iter()
            .zip(&typed)
            .map(|(port, typed)| Slot { port, units }.read(typed, decimal))
            .collect::<Result<Vec<_>, _>>()?;
        let result = (function.call)(units.basis(), &inputs)
            .map_err(|refusal| Failure::Input(refused(refusal, function, units, &inputs)))?;
        Ok(Self {
            function,
            units,
            inputs,
            typed,
            result,
        })
    }

    fn slots(&self) -> impl Iterator<Item = (Slot<'_>, Value)> {
        let units = self.units;
        self.function
            .inputs
            .iter()
            .map(move |port| Slot { port, units })
            .zip(self.inputs.iter().copied())
    }

    fn gives(&self) -> Slot<'_> {
        Slot {
            port: &self.function.gives,
            units: self.units,
        }
    }

    /// The law with the numbers in place of its letters.
    fn numbers(&self) -> Option<String> {
        let Law::Shown(law) = self.function.law else {
            return None;
        };
        let values: Vec<(&str, String)> = self
            .slots()
            .map(|(slot, value)| (slot.port.letter, slot.bare(value)))
            .collect();
        Some(put_in(law.of(self.units.basis()), &values))
    }

    /// Prints it as on paper.
    pub(super) fn show(&self, console: &mut Console) -> Result<(), Failure> {
        head(self.function, self.units, console)?;
        console.gap()?;
        for ((slot, value), typed) in self.slots().zip(&self.typed) {
            console.hanging(
                "given    ",
                &format!("{} = {}", slot.port.name, slot.given(typed, value)),
            )?;
        }
        if let Some(numbers) = self.numbers() {
            let letter = self.function.gives.letter;
            console.hanging("numbers  ", &format!("{letter} = {numbers}"))?;
        }
        let result = self.gives().result_text(self.result);
        console.hanging(
            "result   ",
            &format!("{} = {result}", self.function.gives.name),
        )?;
        console.gap()?;
        foot(self.function, console)
    }

    /// The shape of it in JSON.
    pub(super) fn as_json(&self) -> json::Worked {
        json::Worked {
            format: json::FORMAT,
            units: self.units.letters().to_owned(),
            formula: formula(self.function, self.units),
            numbers: self.numbers(),
            values: self
                .slots()
                .map(|(slot, value)| slot.named(value, slot.text(value)))
                .collect(),
            result: self
                .gives()
                .named(self.result, self.gives().result_text(self.result)),
        }
    }
}

fn has(function: &Function, units: Units) -> String {
    let inputs = function
        .inputs
        .iter()
        .map(|port| match (Slot { port, units }).unit_text() {
            Some(unit) => format!("{} ({unit})", port.name),
            None => port.name.to_owned(),
        });
    format!("it has: {}", inputs.collect::<Vec<_>>().join(", "))
}
