//! Strides: at most the rule's share of the present value, at least one position.
//! Shares: 50 % up in sensing, 20 % down in capture (common practice, no source).

use domain::plan::{mv_half_down, mv_stride_up, output_stride_down};
use domain::rules::Rules;

use crate::made::every_shipped;
use crate::oracle::{self, Fraction};

#[test]
fn a_capture_stride_is_the_longest_within_a_fifth() {
    let rules = Rules::example();
    for profile in every_shipped() {
        let dial = oracle::outputs(&profile);
        assert_eq!(output_stride_down(&profile, &rules, 0), None);
        for from in 1..=profile.output_last() {
            let kept = dial[usize::from(from)].times(Fraction::of(80, 100));
            let reach = dial.iter().position(|v| *v >= kept).unwrap();
            let expected = reach.min(usize::from(from) - 1);
            assert_eq!(output_stride_down(&profile, &rules, from).map(usize::from), Some(expected));
        }
    }
}

#[test]
fn a_sensing_stride_is_the_longest_within_a_half() {
    let rules = Rules::example();
    for profile in every_shipped() {
        let dial = oracle::numbers(&profile);
        assert_eq!(mv_stride_up(&profile, &rules, profile.mv_last()), None);
        for from in 0..profile.mv_last() {
            let most = dial[usize::from(from)].times(Fraction::of(150, 100));
            let reach = dial.iter().rposition(|v| *v <= most).unwrap();
            let expected = reach.max(usize::from(from) + 1);
            assert_eq!(mv_stride_up(&profile, &rules, from).map(usize::from), Some(expected));
        }
    }
}

/// Half (common practice, no source), or the nearest above it; never the number that missed, but at the dial's end.
#[test]
fn a_number_that_missed_out_of_asynchronous_is_halved() {
    for profile in every_shipped() {
        let dial = oracle::numbers(&profile);
        assert_eq!(mv_half_down(&profile, 0), 0);
        for missed in 1..=profile.mv_last() {
            let half = dial[usize::from(missed)].times(Fraction::of(1, 2));
            let expected = (0..usize::from(missed)).find(|at| dial[*at] >= half);
            let expected = expected.unwrap_or(usize::from(missed) - 1);
            assert_eq!(usize::from(mv_half_down(&profile, missed)), expected, "{}", profile.id);
        }
    }
}

/// A search by strides ends: it visits fewer positions than the dial has, and its last is the end.
#[test]
fn strides_reach_the_end_of_every_dial() {
    let rules = Rules::example();
    for profile in every_shipped() {
        let down =
            std::iter::successors(Some(profile.output_last()), |&p| output_stride_down(&profile, &rules, p));
        let up = std::iter::successors(Some(0), |&p| mv_stride_up(&profile, &rules, p));
        let (down, up): (Vec<_>, Vec<_>) = (down.collect(), up.collect());
        assert!(down.is_sorted_by(|a, b| a > b) && down.last() == Some(&0));
        assert!(up.is_sorted_by(|a, b| a < b) && up.last() == Some(&profile.mv_last()));
    }
}
