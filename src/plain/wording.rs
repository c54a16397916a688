//! The words of plain lines: heads, verdicts, working. Signs are spelled out,
//! so that they can be heard.

use pumpwright_engine::marking::{MarkedLine, Marks};
use pumpwright_engine::problems::{Asks, Line, Offer, Problem, WorkedLine};

use super::Talk;
use crate::failure::Failure;

/// The places of the lines that ask for something.
pub fn asked(problem: &Problem) -> Vec<usize> {
    let asks = |line: &Line| line.asks != Asks::Nothing;
    problem
        .lines
        .iter()
        .enumerate()
        .filter(|(_, line)| asks(line))
        .map(|(at, _)| at)
        .collect()
}

/// The head of a sheet: job, code, caution, text.
pub fn head(problem: &Problem, talk: &mut Talk) -> Result<(), Failure> {
    talk.say("job", &problem.family.title)?;
    talk.say("code", &problem.code.to_string())?;
    if let Some(caution) = problem.caution() {
        talk.say("caution", &caution)?;
    }
    for paragraph in &problem.story {
        talk.say("text", paragraph)?;
    }
    for rule in &problem.rules {
        talk.say("rule", &rule.text)?;
    }
    if problem.training {
        talk.say(
            "note",
            "Training figures: on a job the nameplate and the local code decide.",
        )?;
    }
    Ok(())
}

/// What a line asks, with what there is to choose from.
pub fn line(line: &Line, number: usize, of: usize, talk: &mut Talk) -> Result<(), Failure> {
    let mut asks = line.label.clone();
    if let Some(unit) = &line.unit {
        asks.push_str(", in ");
        asks.push_str(&unit.spoken());
    }
    if !line.form.is_empty() {
        asks.push_str(", ");
        asks.push_str(&line.form);
    }
    talk.say(&format!("line {number} of {of}"), &spelled_out(&asks))?;
    match &line.asks {
        Asks::Nothing | Asks::Figure | Asks::Row => Ok(()),
        Asks::Pick { offers, .. } => {
            list("offer", offers, talk)?;
            talk.say("how", "Write one letter.")
        }
        Asks::Order { cards } => {
            for (place, card) in cards.iter().enumerate() {
                talk.say(&format!("job {}", place + 1), &card.text)?;
            }
            talk.say(
                "how",
                "Write the numbers from first to last. Write - for one left out.",
            )
        }
        Asks::Match { parts, meanings } => {
            for (place, (part, _)) in parts.iter().enumerate() {
                talk.say(&format!("part {}", place + 1), part)?;
            }
            list("meaning", meanings, talk)?;
            talk.say(
                "how",
                "Write a letter for each part, in the order of the parts.",
            )
        }
    }
}

fn list(prefix: &str, offers: &[Offer], talk: &mut Talk) -> Result<(), Failure> {
    offers
        .iter()
        .try_for_each(|offer| talk.say(&format!("{prefix} {}", offer.mark), &offer.text))
}

/// The verdict on a line, and what to look at.
pub fn verdict(line: &MarkedLine, helped: bool, talk: &mut Talk) -> Result<(), Failure> {
    let mut said = sentence(&line.words);
    if let Some(read_as) = &line.read_as {
        said.push(' ');
        said.push_str(&sentence(read_as));
    }
    said.push_str(&format!(" {} of {}.", marks(line.marks), line.out_of));
    if helped {
        said.push_str(" With help.");
    }
    talk.say(&format!("verdict {}", line.number), &said)?;
    look(line, talk)
}

/// The likely turns of a line, and what is said besides.
pub fn look(line: &MarkedLine, talk: &mut Talk) -> Result<(), Failure> {
    let number = line.number;
    for turn in &line.turns {
        talk.say(
            &format!("turn {number}"),
            &format!("likely \"{}\"", turn.did),
        )?;
        talk.say(&format!("look {number}"), &turn.says)?;
        if let Some(look) = &turn.look {
            talk.say(&format!("look {number}"), look)?;
        }
    }
    match &line.note {
        Some(note) => talk.say(&format!("look {number}"), note),
        None => Ok(()),
    }
}

/// The working of a whole sheet.
pub fn working(lines: &[WorkedLine], talk: &mut Talk) -> Result<(), Failure> {
    for (place, line) in lines.iter().enumerate() {
        let prefix = format!("working {}", place + 1);
        if line.words.is_empty() && line.numbers.is_empty() {
            talk.say(&prefix, &format!("{}: {}", line.label, line.text))?;
        }
        for (at, words) in line.words.iter().enumerate() {
            let head = if at == 0 {
                format!("{} = ", line.label)
            } else {
                String::new()
            };
            talk.say(&prefix, &spelled_out(&format!("{head}{words}")))?;
        }
        for numbers in &line.numbers {
            talk.say(&prefix, &spelled_out(numbers))?;
        }
        if let Some(why) = &line.why {
            talk.say(&prefix, why)?;
        }
    }
    Ok(())
}

/// Marks with their noun.
pub fn marks(marks: Marks) -> String {
    let noun = if marks == Marks::whole(1) {
        "mark"
    } else {
        "marks"
    };
    format!("{marks} {noun}")
}

/// A text with a full stop at its end.
pub fn sentence(text: &str) -> String {
    let text = text.trim();
    if text.ends_with(['.', '!', '?']) {
        text.to_owned()
    } else {
        format!("{text}.")
    }
}

/// A line of working with its signs as words. Only signs that stand by
/// themselves are: a minus before a figure is part of it.
pub fn spelled_out(text: &str) -> String {
    let words = text.split_whitespace().map(|word| match word {
        "=" => "equals",
        "×" | "*" => "times",
        "÷" | "/" => "divided by",
        "+" => "plus",
        "-" | "−" | "–" => "minus",
        "%" => "per cent",
        "<" => "is less than",
        "<=" | "≤" => "is at most",
        ">" => "is more than",
        ">=" | "≥" => "is at least",
        other => other,
    });
    words.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_are_spelled_out_and_negative_figures_stay() {
        assert_eq!(
            spelled_out("8.0 A × 1.267 ohm = 10.1 V"),
            "8.0 A times 1.267 ohm equals 10.1 V"
        );
        assert_eq!(spelled_out("-3 psi + 4 %"), "-3 psi plus 4 per cent");
    }

    #[test]
    fn one_mark_is_a_mark_and_half_a_mark_is_some() {
        let said = [0, 1, 2, 4].map(|halves| marks(Marks::halves(halves)));
        assert_eq!(said, ["0 marks", "0.5 marks", "1 mark", "2 marks"]);
    }
}
