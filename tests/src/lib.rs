//! Checks of Holdfast from outside. Everything here is a test; nothing ships.

#![allow(clippy::wildcard_enum_match_arm, reason = "a test names what it looks at")]

/// Walks and closed loops make and drop what they look at by the million.
#[cfg(test)]
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

#[cfg(test)]
mod closed_loop;
#[cfg(test)]
mod golden;
#[cfg(test)]
mod outside;
#[cfg(test)]
mod scenarios;
#[cfg(test)]
mod walk;

/// A generator that ships, by its id.
#[cfg(test)]
fn shipped_by_id(id: &str) -> domain::profile::Profile {
    domain::profile::shipped().unwrap().into_iter().find(|profile| profile.id == id).unwrap()
}
