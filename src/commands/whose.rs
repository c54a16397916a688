//! What a run of `assign` wrote, in one line: what of it may be handed out, and what is the
//! instructor's alone. What was there already is not named.

/// So many files of a kind are named one by one.
const NAMED: usize = 3;

/// What `made` is the number of has a new file for the screen; `pdfs` were printed.
pub fn whose(pdfs: &[String], made: &[String]) -> String {
    if pdfs.is_empty() && made.is_empty() {
        return "everything is there: nothing had to be written".to_owned();
    }
    let of = |kind: &str| {
        let own = pdfs.iter().filter(|name| name.starts_with(kind));
        own.cloned().collect::<Vec<_>>()
    };
    let screens: Vec<String> = made.iter().map(|id| format!("screen/{id}.json")).collect();
    let mut handed = folder("papers/", of("papers/"));
    handed.extend(named(of("print")));
    handed.extend(folder("screen/", screens));
    let mut own = named(of("key"));
    own.extend(named(of("strip")));
    own.extend(["printed/".to_owned(), "class.key".to_owned()]);
    let own = format!("{} are yours alone", listed(&own));
    if handed.is_empty() {
        return own;
    }
    format!("{} may be handed out; {own}", listed(&handed))
}

/// The only file that was written in a folder, or the folder.
fn folder(folder: &str, names: Vec<String>) -> Vec<String> {
    match names.len() {
        0 | 1 => names,
        _ => vec![folder.to_owned()],
    }
}

/// Files of one kind: each, or the first and how many more.
fn named(mut names: Vec<String>) -> Vec<String> {
    // `print.pdf` before `print-2.pdf` before `print-10.pdf`.
    names.sort_by(|a, b| a.len().cmp(&b.len()).then_with(|| a.cmp(b)));
    match names.as_slice() {
        [first, more @ ..] if more.len() >= NAMED => {
            vec![format!("{first} with {} more like it", more.len())]
        }
        _ => names,
    }
}

fn listed(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(pdfs: &[&str], made: &[&str]) -> String {
        let owned = |names: &[&str]| names.iter().map(ToString::to_string).collect::<Vec<_>>();
        whose(&owned(pdfs), &owned(made))
    }

    #[test]
    fn what_was_written_is_named_and_nothing_else() {
        let first = [
            "key.pdf",
            "papers/001.pdf",
            "papers/002.pdf",
            "strips.pdf",
            "print.pdf",
        ];
        assert_eq!(
            said(&first, &["001", "002"]),
            "papers/, print.pdf and screen/ may be handed out; \
             key.pdf, strips.pdf, printed/ and class.key are yours alone"
        );
        assert_eq!(
            said(
                &["papers/003.pdf", "print-2.pdf", "key-2.pdf", "strips-2.pdf"],
                &["003"]
            ),
            "papers/003.pdf, print-2.pdf and screen/003.json may be handed out; \
             key-2.pdf, strips-2.pdf, printed/ and class.key are yours alone"
        );
        assert_eq!(
            said(&["strip-002+2.pdf", "key-002+2.pdf"], &[]),
            "key-002+2.pdf, strip-002+2.pdf, printed/ and class.key are yours alone"
        );
        assert_eq!(
            said(&[], &["001", "002"]),
            "screen/ may be handed out; printed/ and class.key are yours alone"
        );
        assert_eq!(
            said(&[], &[]),
            "everything is there: nothing had to be written"
        );
    }

    #[test]
    fn many_files_of_a_kind_are_counted() {
        let prints = ["print-10.pdf", "print.pdf", "print-2.pdf", "print-3.pdf"];
        assert_eq!(
            said(&prints, &[]),
            "print.pdf with 3 more like it may be handed out; printed/ and class.key are yours alone"
        );
        assert_eq!(
            said(&prints[1..], &[]),
            "print.pdf, print-2.pdf and print-3.pdf may be handed out; printed/ and class.key are yours alone"
        );
    }
}
