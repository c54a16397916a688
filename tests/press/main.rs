//! The pages for paper and phone: a made-up record whose pages are kept as they look,
//! and what holds of every page whatever the record and the lessons.

#![cfg(test)]
#![allow(clippy::expect_used, clippy::unwrap_used)]

mod class_reports;
#[path = "../common/mod.rs"]
mod common;
mod html;
#[cfg(feature = "pdf")]
mod pdf;
mod qti;
mod qti_cases;
mod qti_rules;
mod record;
mod reports;
mod sheets;
