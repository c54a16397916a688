//! Problems as a package of the open standard for items and tests, QTI 3.0: an item a
//! problem, a test that holds them, the list of files, and one archive of it all.
//!
//! Only constructs are used that were seen to be scored as the standard has them: a
//! tolerance is two comparisons behind a guard against nothing written, points are added
//! by a sum, an own earlier figure is carried as a product, every hint has an outcome of
//! its own. `lines` has what a line of the sheet becomes, `rules` the words of response
//! processing, `xml` the tree that is written. The same problems give the same bytes.
//!
//! Source: 1EdTech, Question and Test Interoperability 3.0, information model of items
//! and tests, and its profile of content packaging (from memory, and by the published
//! schemas, which the long check validates against).

mod body;
mod item;
mod lines;
mod manifest;
mod rules;
mod test;
mod xml;

use pumpwright_engine::problems::Problem;

/// One file of a package.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct File {
    /// Where it lies in the package, with `/`.
    pub path: String,
    /// What is in it.
    pub text: String,
}

/// A package: its files, the list of them first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Package {
    /// The files.
    pub files: Vec<File>,
}

/// A package of these problems under a title, in their order.
pub fn package(title: &str, problems: &[Problem]) -> Package {
    let items: Vec<item::Item> = problems
        .iter()
        .enumerate()
        .map(|(at, problem)| item::item(at + 1, problem))
        .collect();
    let mut files = vec![
        File {
            path: "imsmanifest.xml".to_owned(),
            text: manifest::manifest(&items).document(),
        },
        File {
            path: test::PATH.to_owned(),
            text: test::test(title, &items).document(),
        },
    ];
    for item in items {
        files.push(File {
            path: item.path(),
            text: item.element.document(),
        });
        files.extend(item.figure);
    }
    Package { files }
}
