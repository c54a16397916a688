//! The reference page: every function of the registry as Markdown, in its order. Nothing
//! is said here that an entry does not say.

use std::fmt::{self, Write};

use crate::registry::{Function, Kind, Law, Port, functions};

const HEAD: &str = "# Calculations

Every calculation by name, as `pumpwright calc` works it and as a lesson may call it. This page is
printed by `pumpwright calc --page`; it is not written by hand.

A formula stands twice where the two systems have figures of their own: in feet, psi and gallons, and
in meters, kilopascals and liters. Letters stand for bare figures in the units beside them. \"From
memory\" beside a source says that the document was not opened for it.
";

/// The whole page.
pub fn page() -> String {
    let mut text = String::from(HEAD);
    // Writing to a string cannot fail.
    let _ = write(&mut text);
    text
}

fn write(text: &mut String) -> fmt::Result {
    let mut subject = "";
    for function in functions() {
        let own = function.name.split('.').next().unwrap_or_default();
        if own != subject {
            subject = own;
            write!(text, "\n## {subject}\n")?;
        }
        entry(text, function)?;
    }
    Ok(())
}

fn entry(text: &mut String, function: &Function) -> fmt::Result {
    write!(
        text,
        "\n### {}\n\n{}.\n\n",
        function.name,
        capital(function.title)
    )?;
    law(text, function)?;
    writeln!(
        text,
        "\n| letter | name | what | feet | metric |\n|---|---|---|---|---|"
    )?;
    for port in function.inputs {
        row(text, port, "")?;
    }
    row(text, &function.gives, " (result)")?;
    write!(
        text,
        "\nHolds for: {}\n\nSource: {}.\n",
        function.valid, function.source
    )?;
    match function.caution {
        Some(caution) => write!(text, "\nCaution: {caution}\n"),
        None => Ok(()),
    }
}

fn law(text: &mut String, function: &Function) -> fmt::Result {
    let letter = function.gives.letter;
    match function.law {
        Law::Named(name) => writeln!(text, "{}.", capital(name)),
        Law::Shown(pair) if pair.us == pair.si => writeln!(text, "    {letter} = {}", pair.us),
        Law::Shown(pair) => write!(
            text,
            "    feet:    {letter} = {}\n    metric:  {letter} = {}\n",
            pair.us, pair.si
        ),
    }
}

fn row(text: &mut String, port: &Port, role: &str) -> fmt::Result {
    let (us, si) = match port.kind {
        Kind::Word(words) => {
            return writeln!(
                text,
                "| {} | {} | {}{role}: {} | | |",
                port.letter,
                port.name,
                port.label,
                words.join(", ")
            );
        }
        Kind::Quantity(_) | Kind::Temperature => (port.unit.us, port.unit.si),
    };
    writeln!(
        text,
        "| {} | {} | {}{role} | {us} | {si} |",
        port.letter, port.name, port.label
    )
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_function_is_on_the_page_with_its_source_and_caution() {
        let page = page();
        for function in functions() {
            assert!(page.contains(&format!("### {}\n", function.name)));
            assert!(page.contains(function.source), "{}", function.name);
            assert!(
                function
                    .caution
                    .is_none_or(|caution| page.contains(caution))
            );
        }
    }
}
