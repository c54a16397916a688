//! Who of a class is meant by a name or an id that somebody wrote: one person for sure, or a
//! sentence that says why not.

use super::roster::{Person, Roster};
use crate::lessons::nearest;

/// So many names are told where a name fits several, or lies near some.
const MOST_TOLD: usize = 5;

impl Roster {
    /// The person of an id, or of a whole name, capitals or not.
    ///
    /// # Errors
    /// A sentence: nobody is called so, and who nearly is; or several are.
    pub fn whom(&self, said: &str) -> Result<&Person, String> {
        let said = said.trim();
        let name = said.to_lowercase();
        let present = || self.present();
        if let Some(person) = present().find(|own| own.id.eq_ignore_ascii_case(said)) {
            return Ok(person);
        }
        let gone = |own: &&Person| own.is_gone() && own.id.eq_ignore_ascii_case(said);
        if self.people.iter().any(|own| gone(&own)) {
            return Err(format!(
                "whoever had the id {said} was deleted from this class; the id stays taken"
            ));
        }
        let named: Vec<&Person> = present()
            .filter(|own| own.name.to_lowercase() == name)
            .collect();
        match named.as_slice() {
            [one] => return Ok(one),
            [] => {}
            several => {
                let several = several.iter().map(|own| own.id.as_str());
                let ids = several.collect::<Vec<_>>().join(", ");
                return Err(format!(
                    "\"{said}\" is the name of several; give the id: {ids}"
                ));
            }
        }
        let part: Vec<&Person> = present()
            .filter(|own| !name.is_empty() && own.name.to_lowercase().contains(&name))
            .take(MOST_TOLD)
            .collect();
        let near = if part.is_empty() {
            let names = nearest(said, present().map(|own| own.name.as_str()));
            let near = present().filter(|own| names.contains(&own.name));
            near.take(MOST_TOLD).collect()
        } else {
            part
        };
        let told: Vec<String> = (near.iter())
            .map(|own| format!("{} {}", own.id, own.name))
            .collect();
        Err(if told.is_empty() {
            format!(
                "there is nobody \"{said}\" in this class; give the id, or the whole name as roster.csv has it"
            )
        } else {
            format!(
                "there is nobody \"{said}\" in this class; give the id, or the whole name: {}",
                told.join("; ")
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn class() -> Roster {
        let people = [
            ("001", "D'Arcy, Léa"),
            ("002", "Birch, T."),
            ("003", ""),
            ("a4", "Birch, T."),
        ];
        let person = |(id, name): (&str, &str)| Person {
            id: id.into(),
            name: name.into(),
        };
        Roster {
            people: people.map(person).into(),
            ..Roster::default()
        }
    }

    #[test]
    fn an_id_or_a_whole_name_is_one_person() {
        let class = class();
        for said in ["001", "d'arcy, LÉA", " D'Arcy, Léa "] {
            assert_eq!(class.whom(said).unwrap().id, "001", "{said}");
        }
        assert_eq!(class.whom("A4").unwrap().id, "a4");
    }

    #[test]
    fn whoever_is_not_one_person_for_sure_is_told() {
        for (said, sentence) in [
            (
                "birch, t.",
                "\"birch, t.\" is the name of several; give the id: 002, a4",
            ),
            (
                "arcy",
                "there is nobody \"arcy\" in this class; give the id, or the whole name: 001 D'Arcy, Léa",
            ),
            (
                "D'Arci, Lea",
                "there is nobody \"D'Arci, Lea\" in this class; give the id, or the whole name: 001 D'Arcy, Léa",
            ),
            (
                "Zzyzx",
                "there is nobody \"Zzyzx\" in this class; give the id, or the whole name as roster.csv has it",
            ),
            (
                "",
                "there is nobody \"\" in this class; give the id, or the whole name as roster.csv has it",
            ),
            (
                "003",
                "whoever had the id 003 was deleted from this class; the id stays taken",
            ),
        ] {
            assert_eq!(class().whom(said).unwrap_err(), sentence);
        }
    }
}
