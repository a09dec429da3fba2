//! The session from outside, on the shipped domain and the real record: acts in, views out.

#[cfg(test)]
mod bad_input;
#[cfg(test)]
mod crash;
#[cfg(test)]
mod erasing;
#[cfg(test)]
mod exporting;
#[cfg(test)]
mod hand_clock;
#[cfg(test)]
mod handover;
#[cfg(test)]
mod library;
#[cfg(test)]
mod nurse;
#[cfg(test)]
mod opening;
#[cfg(test)]
mod pictures;
#[cfg(test)]
mod practising;
#[cfg(test)]
mod queue;
#[cfg(test)]
mod recording;
#[cfg(test)]
mod restoring;
#[cfg(test)]
mod room;
#[cfg(test)]
mod signing;
#[cfg(test)]
mod time;
#[cfg(test)]
#[path = "../../../../tests/tools.rs"]
mod tools;
#[cfg(test)]
mod wards;
#[cfg(test)]
mod watching;
