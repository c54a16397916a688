//! What holds of a page as a page: read as XML once its void elements are closed.

use std::collections::BTreeSet;

use quick_xml::Reader;
use quick_xml::events::Event;

/// Elements that HTML leaves open and XML does not.
const VOID: [&str; 4] = ["meta", "br", "hr", "img"];

/// A page with its void elements closed.
fn closed(page: &str) -> String {
    let mut out = String::new();
    let mut rest = page;
    while let Some(at) = rest.find('<') {
        out.push_str(&rest[..at]);
        let end = at + rest[at..].find('>').expect("a tag ends");
        let tag = &rest[at..end];
        out.push_str(tag);
        let name = tag[1..].split([' ', '/']).next().unwrap_or_default();
        if VOID.contains(&name) && !tag.ends_with('/') {
            out.push('/');
        }
        out.push('>');
        rest = &rest[end + 1..];
    }
    out + rest
}

/// Fails unless the page is whole: every element closed in its turn, ids that are its
/// own, headings that skip no step, nothing of elsewhere, no script.
pub fn is_whole(page: &str) {
    for never in [
        "http", "src=", "<script", "@import", "url(h", "onclick", "<link",
    ] {
        assert!(!page.contains(never), "{never} stands on the page");
    }
    assert!(page.contains("<html lang=\"en\">") && page.contains("name=\"viewport\""));
    let text = closed(page);
    let mut reader = Reader::from_str(&text);
    let (mut open, mut ids, mut meant) = (Vec::new(), BTreeSet::new(), Vec::new());
    let mut headings = Vec::new();
    let mut pictures = 0;
    loop {
        let event = reader.read_event().unwrap_or_else(|error| {
            let at = reader.error_position() as usize;
            panic!("{error} at …{}", &text[at.saturating_sub(80)..])
        });
        let (start, empty) = match &event {
            Event::Eof => break,
            Event::Start(start) => (start, false),
            Event::Empty(start) => (start, true),
            Event::End(end) => {
                let name = end.name().as_ref().to_owned();
                assert_eq!(open.pop(), Some(name));
                continue;
            }
            _ => continue,
        };
        let name = start.name().as_ref().to_owned();
        if let Some(level) = name
            .strip_prefix('h')
            .and_then(|level| level.parse::<u8>().ok())
        {
            headings.push(level);
        }
        for attribute in start.attributes() {
            let attribute = attribute.expect("an attribute reads");
            let value = attribute.value.to_string();
            match attribute.key.as_ref() {
                "id" => assert!(ids.insert(value.clone()), "{value} is the id of two"),
                "aria-labelledby" => meant.extend(value.split(' ').map(str::to_owned)),
                "href" => meant.push(value.strip_prefix('#').expect("a place here").to_owned()),
                _ => {}
            }
        }
        pictures += usize::from(name == "svg");
        if !empty {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?} stay open");
    for id in meant {
        assert!(ids.contains(&id), "nothing has the id {id}");
    }
    assert_eq!(headings.first(), Some(&1), "the page begins with its title");
    assert!(
        headings.iter().skip(1).all(|level| *level > 1),
        "it has one title"
    );
    assert!(
        headings.windows(2).all(|pair| pair[1] <= pair[0] + 1),
        "{headings:?}"
    );
    assert_eq!(page.matches("<title id=").count(), pictures);
    assert_eq!(page.matches("<desc id=").count(), pictures);
}

/// A page without what is folded shut.
pub fn unfolded(page: &str) -> String {
    let mut out = String::new();
    let mut rest = page;
    while let Some(at) = rest.find("<details") {
        out.push_str(&rest[..at]);
        let end = rest[at..].find("</details>").expect("it ends");
        rest = &rest[at + end + "</details>".len()..];
    }
    out + rest
}

/// The letters of a page: its tags out, its entities read.
pub fn letters(page: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for sign in page.chars() {
        match sign {
            '<' => inside = true,
            '>' => {
                inside = false;
                out.push(' ');
            }
            sign if !inside => out.push(sign),
            _ => {}
        }
    }
    let out = out.replace("&lt;", "<").replace("&gt;", ">");
    out.replace("&quot;", "\"").replace("&amp;", "&")
}

/// What is seen of a page: from its body on.
pub fn body(page: &str) -> String {
    let at = page.find("<body>").expect("a body");
    page[at..].replace("><", ">\n<")
}

#[test]
fn a_page_that_is_not_whole_is_noticed() {
    let page = |inside: &str| {
        format!(
            "<!DOCTYPE html><html lang=\"en\"><head><meta name=\"viewport\"></head><body><h1>T</h1>{inside}</body></html>"
        )
    };
    is_whole(&page("<p>a<br>b</p>"));
    for wrong in [
        "<p>a",
        "<p>a</div></p>",
        "<h3>a</h3>",
        "<p id=\"a\">a</p><p id=\"a\">b</p>",
        "<a href=\"#b\">a</a>",
        "<script>a</script>",
        "<p>http</p>",
    ] {
        let found = std::panic::catch_unwind(|| is_whole(&page(wrong)));
        assert!(found.is_err(), "{wrong}");
    }
}
