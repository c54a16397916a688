//! Works out a shown law from bare numbers. A second reading of the law
//! language, small on purpose: sums, products, powers, brackets, six words.

use std::collections::BTreeMap;
use std::iter::Peekable;
use std::str::Chars;

/// The value of a law with these letters. Panics on a law written wrong.
pub fn evaluate(law: &str, letters: &BTreeMap<&str, f64>) -> f64 {
    let mut reader = Reader {
        law,
        letters,
        left: law.chars().peekable(),
    };
    let value = reader.sum();
    reader.gap();
    assert_eq!(reader.left.next(), None, "left over in {law}");
    value
}

struct Reader<'a> {
    law: &'a str,
    letters: &'a BTreeMap<&'a str, f64>,
    left: Peekable<Chars<'a>>,
}

impl Reader<'_> {
    fn sum(&mut self) -> f64 {
        let mut value = self.product();
        loop {
            if self.takes('+') {
                value += self.product();
            } else if self.takes('-') {
                value -= self.product();
            } else {
                return value;
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut value = self.signed();
        loop {
            if self.takes('*') {
                value *= self.signed();
            } else if self.takes('/') {
                value /= self.signed();
            } else {
                return value;
            }
        }
    }

    fn signed(&mut self) -> f64 {
        if self.takes('-') {
            -self.signed()
        } else {
            self.power()
        }
    }

    fn power(&mut self) -> f64 {
        let base = self.atom();
        if !self.takes('^') {
            return base;
        }
        let sign = if self.takes('-') { -1.0 } else { 1.0 };
        libm::pow(base, sign * self.number())
    }

    fn atom(&mut self) -> f64 {
        if self.takes('(') {
            let value = self.sum();
            assert!(self.takes(')'), "a bracket stays open in {}", self.law);
            return value;
        }
        self.gap();
        if self.left.peek().is_some_and(char::is_ascii_digit) {
            return self.number();
        }
        let word = self.run(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_');
        if self.takes('(') {
            return self.call(&word);
        }
        let value = self.letters.get(word.as_str()).copied();
        value.unwrap_or_else(|| panic!("no letter \"{word}\" in {}", self.law))
    }

    fn call(&mut self, word: &str) -> f64 {
        let mut inputs = vec![self.sum()];
        while self.takes(',') {
            inputs.push(self.sum());
        }
        assert!(self.takes(')'), "a bracket stays open in {}", self.law);
        match (word, inputs.as_slice()) {
            ("sqrt", [value]) => value.sqrt(),
            ("abs", [value]) => value.abs(),
            ("min", [first, rest @ ..]) => rest.iter().fold(*first, |least, one| least.min(*one)),
            ("max", [first, rest @ ..]) => rest.iter().fold(*first, |most, one| most.max(*one)),
            ("up" | "down", [value, grid]) => {
                let steps = value / grid;
                let near = steps.round();
                let whole = (steps - near).abs() <= 1e-9 * near.abs().max(1.0);
                let off = if word == "up" {
                    steps.ceil()
                } else {
                    steps.floor()
                };
                grid * if whole { near } else { off }
            }
            _ => panic!("no such call \"{word}\" in {}", self.law),
        }
    }

    fn number(&mut self) -> f64 {
        self.gap();
        let digits = self.run(|c| c.is_ascii_digit() || c == '.');
        let number = digits.parse();
        number.unwrap_or_else(|_| panic!("no number \"{digits}\" in {}", self.law))
    }

    fn run(&mut self, takes: impl Fn(char) -> bool) -> String {
        let mut run = String::new();
        while let Some(c) = self.left.next_if(|c| takes(*c)) {
            run.push(c);
        }
        run
    }

    fn takes(&mut self, wanted: char) -> bool {
        self.gap();
        self.left.next_if_eq(&wanted).is_some()
    }

    fn gap(&mut self) {
        while self.left.next_if_eq(&' ').is_some() {}
    }
}
