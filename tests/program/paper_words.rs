//! The words with a sign before them while a paper is answered in plain lines: tables, sums
//! and stop. None is ever kept as an answer.

use crate::papers::Class;
use crate::started::{printed, run};

const PAPER: &str = "class/week-6/screen/001.json";

/// What stands in a file of answers or in its draft, line by line.
fn kept(class: &Class, name: &str) -> Vec<String> {
    let file: serde_json::Value = serde_json::from_str(&class.text(name)).expect("JSON");
    let items = file["answers"]["items"].as_array().expect("items").iter();
    let texts = items.flat_map(|item| item.as_array().expect("lines"));
    texts
        .map(|text| text.as_str().expect("a text").to_owned())
        .collect()
}

/// The lines that came between two prompts, the prompt with this number from zero first.
fn behind(out: &str, prompt: usize) -> &str {
    out.split("write: ").nth(prompt + 1).expect("a prompt")
}

#[test]
fn tables_sums_and_stop_are_never_answers() {
    let class = Class::new("words-sit");
    class.assigned();
    let typed = "@\n@ copper\n@ banana\n& 2 * 3\n&\n?\n?w\n!\n?k\n?gauge\n100 ft\n?q\n";
    let run = class.sit(PAPER, "a.json", typed);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(
        run.out.contains(
            "note: Write an answer and Enter. Enter alone leaves a line open. \
             ?K lists the words, ?Q stops. @ tables, & works out a sum.\n"
        ),
        "{}",
        run.out
    );
    let list = behind(&run.out, 0);
    assert!(
        list.starts_with("table 1: ")
            && list.ends_with("\nnote: @ and a number or a word brings a table\n"),
        "{list}"
    );
    let copper = behind(&run.out, 1);
    assert!(
        copper.starts_with("table ")
            && copper.contains("\nrow: ")
            && copper.contains("\nsource: ")
            && !copper.contains("table 1: "),
        "{copper}"
    );
    assert!(behind(&run.out, 2).starts_with("note: no table has this\ntable 1: "));
    for (prompt, said) in [
        (3, "sum: 6, as s1\n"),
        (4, "sum s1: 2 times 3 equals 6\n"),
        (5, "note: no help on this paper\n"),
        (6, "note: W working has no use on a paper\n"),
        (7, "note: no help on this paper\n"),
        (
            8,
            "key ?3.2: go to line 2 of item 3, or to any other\n\
             key ?Z: what is open; there once more: hand in\n\
             key ?P: this item once more\n\
             key ?Q: stop; the paper is not handed in\n\
             key @: the tables that the paper allows; with a number or a word behind it, that one\n\
             key &: works out the sum behind it; alone, lists the sums\n\
             key ?O: answers this line with the last sum; ?O s1 with the sum of that name\n\
             key ?K: these words\n",
        ),
        (
            9,
            "note: this begins with a sign and is no answer; ?K lists the words: ?gauge\n",
        ),
    ] {
        assert_eq!(behind(&run.out, prompt), said);
    }
    assert!(
        class.plain(&run.out).ends_with(
            "write: end: not handed in; kept in HERE/a.json.draft, the same command goes on\n"
        ),
        "{}",
        run.out
    );
    assert_eq!(kept(&class, "a.json.draft"), ["100 ft", "", "", "", "", ""]);
}

#[test]
fn a_sum_answers_a_line_that_asks_for_a_figure() {
    let class = Class::new("words-carry");
    class.assigned();
    let typed = "?o\n& 2 * 50 ft\n?O s2\n?o\n?3.1\n?o\n?z\n?o s1\n?q\n";
    let run = class.sit(PAPER, "a.json", typed);
    assert_eq!(run.code, 0, "{}", run.err);
    for (prompt, said) in [
        (
            0,
            "note: no sum is worked out yet: & and a sum works one out\n",
        ),
        (1, "sum: 100 ft, as s1\n"),
        (2, "note: the sums are s1 to s1\n"),
        (5, "note: no figure is asked at this line\n"),
    ] {
        assert_eq!(behind(&run.out, prompt), said);
    }
    assert!(behind(&run.out, 3).starts_with("kept 1.1: 100 ft\nitem 2 of 3: "));
    let closed = behind(&run.out, 7).lines().next();
    assert_eq!(closed, Some("note: go back to a line first, as in 1.1"));
    assert_eq!(kept(&class, "a.json.draft"), ["100 ft", "", "", "", "", ""]);
}

#[test]
fn one_goes_to_any_line_and_what_stands_there_stays() {
    let class = Class::new("words-go");
    class.assigned();
    // A word that is no figure is kept and told; ?Z goes to the end.
    let typed = "banana\n?3.1\n1 2 3\n\n?9.9\n?z\n1.1\n\n1.1\n-\n?2.2\n1.07\n@\n?q\n";
    let run = class.sit(PAPER, "a.json", typed);
    assert_eq!(run.code, 0, "{}", run.err);
    let first = behind(&run.out, 0);
    assert!(
        first.starts_with(
            "kept 1.1: banana\n\
             note: kept as you wrote it, but cannot read this as a quantity: \"banana\" is no number (character 1); write the number first, then its unit\n\
             item 2 of 3: "
        ),
        "{first}"
    );
    assert!(behind(&run.out, 1).starts_with("item 3 of 3: "));
    assert!(
        behind(&run.out, 2).starts_with(
            "kept 3.1: 1 2 3\nnote: kept as you wrote it, but cannot read this as an order: "
        ) && behind(&run.out, 3).starts_with("kept 3.1: 1 2 3\nitem 2 of 3: ")
    );
    assert_eq!(
        behind(&run.out, 4),
        "note: this begins with a sign and is no answer; ?K lists the words: ?9.9\n"
    );
    assert!(behind(&run.out, 5).starts_with("open: 2.1 "), "{}", run.out);
    let holds = "note: It holds banana. Enter keeps that, - alone takes it out.\n";
    assert!(behind(&run.out, 6).ends_with(holds), "{}", run.out);
    assert!(behind(&run.out, 7).starts_with("kept 1.1: banana\n"));
    assert!(behind(&run.out, 9).starts_with("kept 1.1: nothing, the line is open\n"));
    assert!(behind(&run.out, 11).starts_with("kept 2.2: 1.07\nopen: 1.1 2.1 "));
    assert_eq!(
        behind(&run.out, 12).lines().next(),
        Some("note: go back to a line first, as in 1.1")
    );
    let own = kept(&class, "a.json.draft");
    assert_eq!((own[0].as_str(), own[2].as_str()), ("", "1.07"));
}

#[test]
fn a_paper_that_allows_no_table_opens_none() {
    let class = Class::new("words-closed");
    let plan = class.text("plan.toml");
    let plan = plan.replace(
        "\n[[item]]\nfamily = \"psi",
        "tables = []\n\n[[item]]\nfamily = \"psi",
    );
    class.write("plan.toml", &plan);
    class.assigned();
    let run = class.sit(PAPER, "a.json", "@copper\n?q\n");
    let sentence = run.out.lines().find(|line| line.starts_with("tables: "));
    let sentence = sentence.expect("a sentence").replace("tables: ", "note: ");
    assert_eq!(behind(&run.out, 0), sentence + "\n");
    assert!(
        run.out.ends_with("end: nothing was written\n"),
        "{}",
        run.out
    );
}

#[test]
fn the_instructors_try_takes_the_same_words() {
    let class = Class::new("words-try");
    let input = class.at("typed.txt");
    class.write("typed.txt", "@\n& 2 * 3\n?q\n");
    let mut command = crate::started::program(&["plan", "try", &class.at("plan.toml")]);
    command.stdin(std::fs::File::open(&input).expect("input"));
    let run = crate::started::finish(&mut command);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(behind(&run.out, 0).starts_with("table 1: "), "{}", run.out);
    assert_eq!(behind(&run.out, 1), "sum: 6, as s1\n");
    assert_eq!(
        behind(&run.out, 2),
        "end: stopped before it was handed in; nothing is kept\n"
    );
}

#[test]
fn papers_wait_for_the_key_from_which_they_were_drawn() {
    let class = Class::new("words-key");
    class.assigned();
    let key = class.text("class/class.key");
    std::fs::remove_file(class.at("class/class.key")).expect("a key");
    let refuses = |sentence: &str| {
        let before = class.files();
        let refused = class.assign("list.csv");
        assert_eq!(
            (refused.code, class.plain(&refused.err)),
            (2, format!("error: HERE/class/class.key {sentence}\n"))
        );
        assert!(class.files() == before, "something is written");
    };
    refuses(
        "is not there, and papers of this class were drawn from it; put it back from a copy of the folder: papers that are printed stay markable without it, and new ones can only be made in another folder (--out)",
    );
    // What is printed is marked all the same.
    class.write("typed.csv", "paper,1.1\n001,1\n");
    let marked = class.mark(&["--answers", &class.at("typed.csv")]);
    assert_eq!((marked.code, marked.err.as_str()), (0, ""));
    std::fs::write(class.at("class/class.key"), [0xff, 0xfe, 0, 7, 0x80]).expect("a key");
    refuses(
        "holds no class key; put the one of this class back: papers that are printed stay markable without it",
    );
    class.write("class/class.key", &key);
    class.assigned();
    let shown = printed(&["mark", &class.at("class"), "--no-pdf"]);
    assert!(shown.contains("1 of 3 marked"), "{shown}");
    assert_eq!(run(&["class", &class.at("class"), "--plain"]).code, 0);
}
