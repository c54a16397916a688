//! The glossary from the command line.

use crate::schema::{held, schema};
use crate::started::{printed, refused};

#[test]
fn a_word_with_two_meanings_says_both() {
    let said = printed(&["words", "drawdown"]);
    for words in [
        "drawdown (tank)",
        "drawdown (well)",
        "Take care: ",
        "Near it: ",
    ] {
        assert!(said.contains(words), "{words} is not in\n{said}");
    }
    let one = printed(&["words", "drawdown (well)"]);
    assert!(!one.contains("drawdown (tank)"), "{one}");
    assert!(one.contains("Lessons: well-levels-and-yield"), "{one}");
}

#[test]
fn first_letters_and_slips_lead_to_a_word() {
    let list = printed(&["words", "tor"]);
    assert!(list.starts_with("torque arrester"), "{list}");
    let slip = printed(&["words", "presure swich"]);
    assert!(slip.contains("pressure switch"), "{slip}");
    refused(&["words", "qqqqq"], 2, "there is no word \"qqqqq\"");
}

#[test]
fn all_words_are_listed_and_as_json_they_keep_to_the_schema() {
    let list = printed(&["words"]);
    let words = held(&schema("words"), &printed(&["words", "--json"]));
    let words = words["words"].as_array().expect("a list");
    assert!(words.len() >= 126, "{}", words.len());
    for word in words {
        let term = word["term"].as_str().expect("a term");
        assert!(list.contains(term), "{term} is not in the list");
    }
    let one = held(&schema("words"), &printed(&["words", "megohm", "--json"]));
    assert_eq!(one["words"][0]["means"], "a million ohms");
}
