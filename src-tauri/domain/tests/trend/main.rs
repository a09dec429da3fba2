//! Slopes over days: against another implementation, and by properties.

#[cfg(test)]
mod against_scipy;
#[cfg(test)]
mod properties;
