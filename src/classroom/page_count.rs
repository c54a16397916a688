//! How many pages papers take in the printer, before anything is printed: a paper is set and
//! its pages counted. Nothing is written.

use pumpwright_engine::classes::Paper;
use pumpwright_press::pdf::{self, Format, MOST_TOGETHER, forget, unknown_sign};

use super::prints::pages;

/// What papers take.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PageCount {
    /// The pages of each paper, in the order in which they are printed.
    papers: Vec<usize>,
}

/// The pages of one paper. The printable part of a page is the same on A4 and on Letter, so
/// are its pages.
///
/// # Errors
/// A sentence where it cannot be set.
pub fn pages_of(paper: &Paper) -> Result<usize, String> {
    let mut set = pages::paper(paper, Format::A4);
    if unknown_sign(&set.head.name).is_some() {
        set.head.name.clear();
    }
    let pages = pdf::PaperPages::set(std::slice::from_ref(&set))
        .map(|set| set.count())
        .map_err(|fault| fault.to_string());
    forget();
    pages
}

impl PageCount {
    /// Takes in the next paper.
    pub fn add(&mut self, pages: usize) {
        self.papers.push(pages);
    }

    /// The least and the most pages that a paper has; none before the first.
    pub fn of_one(&self) -> Option<(usize, usize)> {
        let papers = || self.papers.iter().copied();
        Some((papers().min()?, papers().max()?))
    }

    /// The pages of all in the files for the printer, each paper on a leaf of its own: blank
    /// backs count, but behind the last paper of a file there is none.
    pub fn together(&self) -> usize {
        let parts = self.papers.chunks(MOST_TOGETHER);
        let part = |papers: &[usize]| {
            let (last, before) = papers.split_last()?;
            let padded = before.iter().map(|pages| pages.next_multiple_of(2));
            Some(padded.sum::<usize>() + last)
        };
        parts.filter_map(part).sum()
    }

    /// The same for so many people, whose papers are like these on the average.
    pub fn about(&self, people: usize) -> usize {
        let padded = self.papers.iter().map(|pages| pages.next_multiple_of(2));
        let padded: usize = padded.sum();
        let count = self.papers.len().max(1);
        (padded * people + count / 2) / count
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(papers: &[usize]) -> PageCount {
        PageCount {
            papers: papers.to_vec(),
        }
    }

    #[test]
    fn each_paper_begins_on_a_leaf_of_its_own() {
        assert_eq!(count(&[]).together(), 0);
        assert_eq!(count(&[3]).together(), 3);
        assert_eq!(count(&[3, 4, 3]).together(), 4 + 4 + 3);
        // A second file begins behind so many papers.
        let many = vec![3; MOST_TOGETHER + 1];
        assert_eq!(count(&many).together(), 4 * (MOST_TOGETHER - 1) + 3 + 3);
    }

    #[test]
    fn some_papers_stand_for_many() {
        assert_eq!(count(&[3, 4, 5]).of_one(), Some((3, 5)));
        assert_eq!(count(&[]).of_one(), None);
        assert_eq!(count(&[3, 4, 5]).about(24), 112);
        assert_eq!(count(&[]).about(24), 0);
    }
}
