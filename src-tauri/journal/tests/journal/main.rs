//! The record, tried from outside: what is kept, what is refused, what is noticed.

#[cfg(test)]
mod backup;
#[cfg(test)]
mod damage;
#[cfg(test)]
mod desk;
#[cfg(test)]
mod disk;
#[cfg(test)]
mod durable;
#[cfg(test)]
mod erasing;
#[cfg(test)]
mod folders;
#[cfg(test)]
mod keeping;
#[cfg(test)]
mod property;
#[cfg(test)]
mod refusing;
#[cfg(test)]
mod released;
#[cfg(test)]
mod room;
#[cfg(all(test, target_os = "linux"))]
#[path = "../../../../tests/tools.rs"]
mod tools;
