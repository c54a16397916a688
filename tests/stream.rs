//! The random stream and the sampling rules, worked out a second time from their
//! specification and compared with what the engine draws.
//!
//! Source of the cipher: RFC 8439, "ChaCha20 and Poly1305 for IETF Protocols",
//! sections 2.1 to 2.3, here with 12 rounds and, as the original ChaCha has it,
//! a block counter of 64 bits in words 12 and 13 and a stream number of 64 bits
//! in words 14 and 15. The sampling rules are the engine's own.

#![allow(clippy::expect_used)]

use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{Library, SourceFile};
use pumpwright_engine::problems::{Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;
use sha2::{Digest, Sha256};

const CONSTANTS: [u32; 4] = [0x6170_7865, 0x3320_646e, 0x7962_2d32, 0x6b20_6574];

/// RFC 8439, section 2.1.
fn quarter_round(state: &mut [u32; 16], [a, b, c, d]: [usize; 4]) {
    let mut turn = |into: usize, from: usize, mixed: usize, by: u32| {
        state[into] = state[into].wrapping_add(state[from]);
        state[mixed] = (state[mixed] ^ state[into]).rotate_left(by);
    };
    turn(a, b, d, 16);
    turn(c, d, b, 12);
    turn(a, b, d, 8);
    turn(c, d, b, 7);
}

/// RFC 8439, section 2.3, for any even number of rounds.
fn block(key: &[u32; 8], rest: [u32; 4], rounds: u32) -> [u32; 16] {
    let mut start = [0_u32; 16];
    start[..4].copy_from_slice(&CONSTANTS);
    start[4..12].copy_from_slice(key);
    start[12..].copy_from_slice(&rest);
    let mut state = start;
    for _ in 0..rounds / 2 {
        for lanes in [
            [0, 4, 8, 12],
            [1, 5, 9, 13],
            [2, 6, 10, 14],
            [3, 7, 11, 15],
            [0, 5, 10, 15],
            [1, 6, 11, 12],
            [2, 7, 8, 13],
            [3, 4, 9, 14],
        ] {
            quarter_round(&mut state, lanes);
        }
    }
    std::array::from_fn(|at| state[at].wrapping_add(start[at]))
}

/// The whole words of 64 bits of one attempt at a draw.
struct Words {
    key: [u32; 8],
    attempt: u64,
    taken: u64,
}

impl Words {
    fn of(parts: &[&str], attempt: u64) -> Self {
        let mut named = b"pumpwright draw 1".to_vec();
        for part in parts {
            named.push(0);
            named.extend_from_slice(part.as_bytes());
        }
        let hash: [u8; 32] = Sha256::digest(&named).into();
        let key = std::array::from_fn(|at| {
            let bytes = hash[4 * at..4 * at + 4].try_into().expect("four bytes");
            u32::from_le_bytes(bytes)
        });
        Self {
            key,
            attempt,
            taken: 0,
        }
    }

    fn next(&mut self) -> u64 {
        let (counter, at) = (self.taken / 8, (self.taken % 8) as usize);
        self.taken += 1;
        let low = |word: u64| word as u32;
        let high = |word: u64| (word >> 32) as u32;
        let rest = [
            low(counter),
            high(counter),
            low(self.attempt),
            high(self.attempt),
        ];
        let words = block(&self.key, rest, 12);
        u64::from(words[2 * at]) | (u64::from(words[2 * at + 1]) << 32)
    }

    /// A whole number below a count, by the upper half of the product; words in
    /// the first, short span of the lower half are passed over.
    fn below(&mut self, count: u64) -> usize {
        if count < 2 {
            return 0;
        }
        let short = (u64::MAX - count + 1) % count;
        loop {
            let product = u128::from(self.next()) * u128::from(count);
            if (product & u128::from(u64::MAX)) >= u128::from(short) {
                return (product >> 64) as usize;
            }
        }
    }

    fn shuffled(&mut self, count: usize) -> Vec<usize> {
        let mut places: Vec<usize> = (0..count).collect();
        for last in (1..count).rev() {
            places.swap(last, self.below(last as u64 + 1));
        }
        places
    }
}

/// Source: RFC 8439, section 2.3.2, the state after the block function.
#[test]
fn the_block_function_gives_the_published_block() {
    let key = std::array::from_fn(|at| {
        let first = 4 * at as u32;
        first | (first + 1) << 8 | (first + 2) << 16 | (first + 3) << 24
    });
    let found = block(&key, [1, 0x0900_0000, 0x4a00_0000, 0], 20);
    let published = [
        0xe4e7_f110,
        0x1559_3bd1,
        0x1fdd_0f50,
        0xc471_20a3,
        0xc7f4_d1c7,
        0x0368_c033,
        0x9aaa_2204,
        0x4e6c_d4c3,
        0x4664_82d2,
        0x09aa_9f07,
        0x05d7_c214,
        0xa202_8bd9,
        0xd19c_12b5,
        0xb94e_16de,
        0xe883_d0cb,
        0x4e3c_50a2,
    ];
    assert_eq!(found, published);
}

/// Source: draft-strombergson-chacha-test-vectors, TC1 with a key of 256 bits and
/// 12 rounds: key and stream all zero (from memory).
#[test]
fn twelve_rounds_give_the_published_block() {
    let found = block(&[0; 8], [0; 4], 12);
    let found = found.map(|word| format!("{:08x}", word.swap_bytes()));
    let published = "9bf49a6a0755f953811fce125f2683d50429c3bb49e074147e0089a52eae155f\
                     0564f879d27ae3c02ce82834acfa8c793a629f2ca0de6919610be82f411326be";
    assert_eq!(found.concat(), published);
}

const FAMILY: &str = r#"
format  = 1
family  = "probe"
lesson  = "probes"
title   = "A probe of the stream"
levels  = [2]
sources = ["made for this test"]

[[story]]
text = "{one}, {two}, {found}, {list rows}"

[[given]]
name  = "one"
label = "one"
unit  = "ft"
draw  = { from = 0, to = 6, by = 1 }

[[given]]
name  = "two"
label = "two"
unit  = "ft"
draw  = { of = [0, 1, 2] }

[[given]]
name  = "found"
label = "row"
draw  = { row = "marks", where = 'row.mark > 0 ft' }

[[given]]
name  = "rows"
label = "rows"
draw  = { some = "marks", count = [2, 4] }

[[require]]
that = 'one > two'
why  = "about half of the attempts are thrown away"

[[step]]
finds  = "sum"
label  = "sum"
unit   = "ft"
is     = 'one + two + found.mark'
says   = "Add."
"#;

const TABLE: &str = r#"
format = 1

[[table]]
table   = "marks"
names   = "mark"
columns = [["mark", "ft"]]
rows    = [[0], [1], [2], [3], [4], [5]]
source  = "made for this test"
"#;

fn library() -> Library {
    let file = |path: &str, text: &str| SourceFile {
        path: path.into(),
        text: text.into(),
    };
    let files = [
        file("tables/marks.toml", TABLE),
        file("probes/probe.toml", FAMILY),
    ];
    let (library, faults) = Library::read(&files);
    assert!(faults.is_empty(), "{faults:?}");
    library
}

/// What was drawn: two figures, a row and a set of rows.
type Drawn = (usize, usize, usize, Vec<usize>);

fn by_the_engine(problem: &Problem) -> Drawn {
    let value = |name: &str| {
        let given = problem.givens.iter().find(|given| given.name == name);
        given.expect("the given").value.clone()
    };
    let feet = |name: &str| {
        let si = value(name).number().expect("a figure").si;
        (si / 0.3048).round() as usize
    };
    let row = value("found").row().expect("a row").index;
    let Value::Rows(rows) = value("rows") else {
        return (feet("one"), feet("two"), row, Vec::new());
    };
    (feet("one"), feet("two"), row, rows.indices.to_vec())
}

fn by_hand(system: &str, seed: u32) -> (u64, Drawn) {
    (0..)
        .find_map(|attempt| {
            let mut words = Words::of(&["probe", "2", system, &seed.to_string()], attempt);
            let (one, two) = (words.below(7), words.below(3));
            let row = 1 + words.below(5);
            let count = 2 + words.below(3);
            let mut rows = words.shuffled(6);
            rows.truncate(count);
            rows.sort_unstable();
            (one > two).then_some((attempt, (one, two, row, rows)))
        })
        .expect("an attempt that is kept")
}

#[test]
fn the_engine_draws_what_the_specification_says() {
    let library = library();
    let mut most = 0;
    for system in System::BOTH {
        for n in 0..300 {
            let request = Request {
                family: "probe",
                level: Some(2),
                system,
                draw: n,
                settings: &Settings::default(),
            };
            let problem = draw(&library, &request).expect("a problem");
            let (attempt, drawn) = by_hand(system.letters(), problem.code.seed);
            assert_eq!(by_the_engine(&problem), drawn, "{}", problem.code);
            most = most.max(attempt);
        }
    }
    assert!(most >= 3, "the stream number was hardly tried: {most}");
}
