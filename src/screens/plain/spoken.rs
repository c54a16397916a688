//! Signs of a sum as words, for ears.

/// The text with its signs spelled out.
pub fn spoken(text: &str) -> String {
    let mut words = String::with_capacity(text.len() * 2);
    let signs: Vec<char> = text.chars().collect();
    for (place, &sign) in signs.iter().enumerate() {
        // A sign between blanks is a step of the sum; a hyphen in a word is none.
        let alone = signs.get(place + 1).is_none_or(|next| *next == ' ');
        let word = match sign {
            '=' => " equals ",
            '×' | '*' => " times ",
            '÷' => " divided by ",
            '/' if alone => " divided by ",
            '+' => " plus ",
            '-' if alone => " minus ",
            '−' => " minus ",
            '%' => " per cent",
            '²' => " squared",
            '³' => " cubed",
            '√' => " square root of ",
            '≤' => " at most ",
            '≥' => " at least ",
            '<' => " less than ",
            '>' => " more than ",
            '°' => " degrees ",
            _ => {
                words.push(sign);
                continue;
            }
        };
        words.push_str(word);
    }
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_spelled_out() {
        let sum = "= 10.1 V ÷ 230 V = 4.4 %";
        assert_eq!(
            spoken(sum),
            "equals 10.1 V divided by 230 V equals 4.4 per cent"
        );
        assert_eq!(
            spoken("1-1/2 hp - 3 ft × −2"),
            "1-1/2 hp minus 3 ft times minus 2"
        );
    }
}
