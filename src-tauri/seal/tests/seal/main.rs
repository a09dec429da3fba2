//! The signing code against its standards, and against everything it must refuse.

#[cfg(test)]
mod base45;
#[cfg(test)]
mod hex;
#[cfg(test)]
mod keys;
#[cfg(test)]
mod locked;
#[cfg(test)]
mod token;
