//! Golden views: every card that the shipped code can show, found by search, rendered, kept as a file.
//!
//! `search` taps what the views offer and nothing else; `pick` keeps the longest card of each kind;
//! `screens`, `papers` and `practising` add what is no card of a check; `limits` says what must hold of each; `closed` names what must
//! be among them; `sheet` writes all of them as one text to be read over; `files` compares.
//! `make views` writes the files; `git diff scenarios/views/cards.txt` shows what changed.

mod closed;
mod files;
mod handed;
mod keeping;
mod limits;
mod moving;
mod papers;
mod person;
mod pick;
mod practising;
mod screens;
mod search;
mod sheet;
mod teaching;
mod texts;
mod twice;
mod ward;
mod worlds;

mod tests;
