//! Educators sign: PINs never leave memory, a wrong one loses nothing, a death between PIN and signature neither.

mod at_the_tablet;
mod deaths;
mod files;
mod waits;
