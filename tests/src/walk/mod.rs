//! The walk: every card of the check with every answer, against properties written from the
//! specification a second time. `search` visits, `ledger` remembers what was said, `table` is the
//! restore table written again, `properties` names what must never happen.

mod absent;
mod alphabet;
mod calm;
mod ending;
mod essence;
mod evidence;
mod fingerprint;
mod guards;
mod jobs;
mod ledger;
mod node;
mod oracle;
mod properties;
mod random;
mod search;
mod shipped;
mod stages;
mod table;
mod units;
mod world;

mod tests;
