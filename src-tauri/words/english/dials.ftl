# On every card that touches a dial: the way back, the turn, the watch, the scale.

no-beats = NO BEATS
stop-restore = Stop, restore
something-is-wrong = Something is wrong
that-was-a-slip = That was a slip
leave-check = Leave this check
spoken-turn = { $instruction } { $figure } { $unit }. { $question }

restore-label = Restore
restore-number-note = Restore mV { $restore } (found { $found }: did not see)
restore-at-maximum = Restore OUTPUT is the maximum

## Turning a dial

turn-down-to = Turn { $dial } down to
turn-up-to = Turn { $dial } up to
stays-at = { $dial } stays at
turn-to-asynchronous = Turn mV to
switch-to-asynchronous = Switch to
leave-asynchronous-switch = Turn mV to { $number }, then switch asynchronous off
from-figure = from { $figure } { $unit }
from-asynchronous = from asynchronous
off-course-reason = It stood elsewhere: first to this position.
small-is-good = small is good
big-is-good = big is good
sees-less = mV number up: sees less
sees-more = mV number down: sees more
dial-stands-at = { $dial } stands at { $figure }
other-stays = { $dial } stays
other-then = then { $dial }

## Watches

time-for-beats =
    { $beats ->
        [one] time for 1 beat
       *[other] time for { $beats } beats
    }
time-for-seconds = time to watch: { $seconds } s
time-for-three-spikes = time for 3 spikes
screen-may-sleep = Screen may sleep

## Scales in words

scale-words = { $dial } from { $least } to { $greatest }. Now { $present }.
scale-held = Held at { $figure }.
scale-lost = Lost at { $figure }.
scale-marked = Every beat marked at { $figure }.
scale-not-marked = A beat not marked at { $figure }.
scale-tried = { $scale } { $tried }
