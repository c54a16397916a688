//! The program as a library, so that tests and benches reach it.
