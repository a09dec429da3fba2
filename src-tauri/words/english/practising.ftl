# Practice in the app: the simulated patient, its monitor and dials, what the judge found.

practice = Practice
practice-choose = Choose an exercise
practice-locked = A check on a patient is open. End it first.
practice-nobody = A simulated patient. Nothing here goes into a patient's record.
practice-judged-by = Your turns are judged, and what you say of beats, spikes and marks. With one unsafe act the run is not passed.
practice-with-cards = With the cards
practice-alone = Without cards
practice-back-to-it = Back to the patient
practice-pause = Pause
practice-go-on = Go on
practice-end = End and judge
practice-break-off = Break off
practice-shock-given = A shock was given just now.

## Standing still

paused-asked = Practice is paused
paused-stall = The strip stood still. Practice is paused.
paused-sleep = The tablet slept. Practice is paused.
paused-restart = Holdfast was started again. Practice is paused.
paused-line = The simulated patient stands still. Nothing is judged meanwhile.

## Without cards

alone-title = Do the whole check
alone-line = Turn the dials, watch the strip. Leave the dials safe, then say what you found.
alone-found = Say what I found
found-title = What did you find?
found-line = Leave a field empty where you did not test.
capture-how = The capture threshold is
sensing-how = The sensing threshold is
how-exactly = exactly
how-at-least = at least
how-at-most = at most
how-between = between
capture-low = Between: lost at
capture-low-above = The OUTPUT that lost a beat lies below the one that held. Look again.
found-read = Read the dials
found-read-line = Type each dial as it stands now. Wrong figures are judged too.
found-done = End and judge

## The monitor

monitor-scale = 25 mm/s · 10 mm/mV
monitor-pulse = pulse
monitor-words = Running strip: heart trace, pulse trace, marks of pacing and sensing.
monitor-kept = Strip of that moment, still.
monitor-freeze = Freeze
monitor-run = Run
monitor-earlier = Earlier
monitor-later = Later
key-down = down
key-up = up
key-sees-more = sees more
key-sees-less = sees less

## What the judge found

practice-runs = Earlier runs
practice-runs-empty = No run yet.
run-passed = Passed
run-failed = Not passed
run-is-judged = Being judged
run-not-judged = Not judged
run-of-other-version = Another version of Holdfast made this run. It cannot go on, and is not judged.
strip-of-other-version = Another version of Holdfast made this run. Its strip cannot be shown again.
run-broken-off = Broken off, not judged
practice-acts = Act by act
more-acts = More acts
look-again = Look again
act-judged = { $verdict }: { $act }
act-judged-because = { $verdict }: { $act } ({ $reason })
because-watched = { $seconds } s at { $figure }; { $asked } s asked
because-spikes = spikes at { $figure }: { $count }; { $asked } asked
because-beats = beats watched: { $count }; { $asked } asked
because-one-turn = { $from } to { $to } in one turn
because-after = after { $seconds } s
because-above-rule = higher than the rule asks
because-below-rule = lower than the rule asks
judged-at = at { $time } · OUTPUT { $output } · RATE { $rate } · mV { $mv }
row-acts-done = Acts done
one-of = { $count } of { $of }
row-without-beats = Without beats
longest-pause = longest { $seconds } s
row-spikes-on-t = Spikes on a T wave
captured-on-t = { $count } made a beat
row-lasted = Lasted
minutes-seconds = { $time } min
truth-none = none
truth-is = true: { $truth }
truth-equal = exactly right
truth-within = right, true: { $truth }
truth-above = { $count } too high, true: { $truth }
truth-below = { $count } too low, true: { $truth }
truth-other = not so, true: { $truth }
truth-not-tested = not tested, true: { $truth }
