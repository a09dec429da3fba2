//! The record of a check, what it flags and when the next is due; the screens around a check.

#[cfg(test)]
mod around;
#[cfg(test)]
mod beats_back;
#[cfg(test)]
mod before_reading;
#[cfg(test)]
mod climb;
#[cfg(test)]
mod code;
#[cfg(test)]
mod compared;
#[cfg(test)]
mod due;
#[cfg(test)]
mod first_reading;
#[cfg(test)]
mod flags;
#[cfg(test)]
mod leaving;
#[cfg(test)]
mod left;
#[cfg(test)]
mod limits;
#[cfg(test)]
mod loading;
#[cfg(test)]
mod made;
#[cfg(test)]
mod nothing_helps;
#[cfg(test)]
mod order;
#[cfg(test)]
mod practice;
#[cfg(test)]
mod reading;
#[cfg(test)]
mod results;
#[cfg(test)]
mod safer;
#[cfg(test)]
mod sign_off;
#[cfg(test)]
mod size;
#[cfg(test)]
mod slips;
#[cfg(test)]
mod taps;
