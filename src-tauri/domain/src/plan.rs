//! From thresholds to dial positions, always rounded to the safe side on the dial that is there.

mod late;
mod output;
mod sensing;
mod watching;

pub use late::{late_rate, spike_comes_late};
pub use output::{
    OutputPlan, is_below_rule, is_value_below_rule, margin_position, multiple_of, multiple_text, output_plan,
    output_stride_down, rule_positions,
};
pub use sensing::{MvPlan, mv_half_down, mv_plan, mv_rule_position, mv_stride_up, starting_mv};
pub use watching::miss_bound_percent;
