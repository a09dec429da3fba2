//! Units, generators, unit rules, plan and letter code against figures published elsewhere and
//! against a second, differently written model.

#[cfg(test)]
mod bad_generators;
#[cfg(test)]
mod bad_rules;
#[cfg(test)]
mod check_values;
#[cfg(test)]
mod letter_code;
#[cfg(test)]
mod limits;
#[cfg(test)]
mod made;
#[cfg(test)]
mod numbers;
#[cfg(test)]
mod oracle;
#[cfg(test)]
mod random_dials;
#[cfg(test)]
mod rounding;
#[cfg(test)]
mod strides;
#[cfg(test)]
mod typed;
#[cfg(test)]
mod watches;
