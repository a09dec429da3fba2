//! What keeps the catalogues whole: every sentence has its message, in plain words, and nothing is said elsewhere.

mod budget;
mod completeness;
mod in_place;
mod plain_words;
mod pseudo_language;
mod said;
mod sources;
mod staged;
mod tree;
mod wander;
