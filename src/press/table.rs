//! A table on the page.

use maud::{Markup, html};

/// A column: its head, and whether it holds figures, which stand at the right.
pub type Head<'a> = (&'a str, bool);

/// A table under a caption. The first cell of each row heads it. Where it is wider than
/// the window it scrolls in a box of its own, which the keyboard reaches.
pub fn table(caption: &str, heads: &[Head<'_>], rows: &[Vec<String>]) -> Markup {
    let class = |at: usize| heads.get(at).is_some_and(|head| head.1).then_some("n");
    html! {
        div.box tabindex="0" role="region" aria-label=(caption) {
            table {
                caption { (caption) }
                thead { tr {
                    @for (at, (head, _)) in heads.iter().enumerate() {
                        th scope="col" class=[class(at)] { (head) }
                    }
                } }
                tbody {
                    @for row in rows { tr {
                        @for (at, cell) in row.iter().enumerate() {
                            @if at == 0 { th scope="row" class=[class(at)] { (cell) } }
                            @else { td class=[class(at)] { (cell) } }
                        }
                    } }
                }
            }
        }
    }
}
