//! The code from outside: written, drawn, read back, damaged, altered, forged.

#[cfg(test)]
mod altered;
#[cfg(test)]
mod arriving;
#[cfg(test)]
mod capacity;
#[cfg(test)]
mod loading;
#[cfg(test)]
mod lossless;
#[cfg(test)]
mod made;
#[cfg(test)]
mod mutated;
#[cfg(test)]
mod other_readers;
#[cfg(test)]
mod picture;
#[cfg(test)]
mod pictures;
#[cfg(test)]
mod plain_lines;
#[cfg(test)]
mod records;
#[cfg(test)]
mod released;
#[cfg(test)]
mod swapping;
