# What a check found and left, over days, and handed over.

result-checked = Sensing and capture tested
result-partly = Tested in part
result-not-tested = Not tested
result-not-read = The dials were not read
earlier-result = Earlier
later-result = Later

row-own-beats = Own beats
row-sensing = Sensing threshold
row-capture = Capture threshold
row-margin = Margin
row-stays = { $dial } stays
row-next-check = Next check
row-beats = Beats counted
row-rules = Rules
row-accepted = Examples accepted by
row-clinician = Clinician
row-ordered = Asynchronous ordered by
row-reason = Reason, and who was told

own-rate = { $rate } /min, regular
own-range = { $slowest } to { $fastest } /min
own-not-seen = No own beats seen down to { $limit }/min ({ $time })
own-then-lost = { $own }, then lost: do not rely on them
own-not-measured = seen, not measured
own-not-looked = not looked for
not-tested = not tested
at-least = at least { $figure }
at-most = at most { $figure }
between = between { $low } and { $high }
seen-at-found = every beat marked at { $figure }
seen-at-none = no number marked every beat
going-up = going up
going-down = held at { $figure } going down
why-and-held = { $why } Held at { $figure } going down.
both-notes = { $first }; { $second }
multiple = { $multiple } × threshold
at-least-multiple = at least { $multiple } × threshold
found-multiple = found at { $multiple } ×
found-at = found at { $figure }
as-found = as found
beats-of = { $beats } of { $beats }
beats-missed = up to { $percent } % of beats may still miss (95 % bound)
example-rules-named = { $rules } rules, not approved
rules-named = { $rules }
named-person = { $name }
told-person = { $reason } · told: { $name }

threshold-at = threshold { $figure }
signal-at = signal { $figure }
set-at = set { $figure }
result-scale-words = { $dial }: threshold { $threshold }, set { $set } { $unit }

## History

history-title = Checks of this wire
history-empty = No check of this wire yet
history-kept = The newest of { $count } checks
history-when = { $date } { $time }
history-value = Capture: { $capture }. Sensing: { $sensing }
history-set = OUTPUT found { $found }, left { $set }
history-not-read = Dials not read

## Between the checks of a wire

page-before = Since the check before
page-more-before =
    { $count ->
        [one] One more thing has happened since the check before: see the history.
       *[other] { $count } more things have happened since the check before: see the history.
    }
history-and = { $first }; { $second }
history-swap-box = Box changed: { $from } to { $to }
history-swap-battery = Battery changed: { $name }
history-swap-back = Unplugged, and back in { $name }
history-swap-nothing = Change of box or battery begun; nothing was unplugged
history-swap-output = OUTPUT { $old } before, { $left } after
history-swap-shared = the box paced another wire too
history-clinician = clinician: { $name }
history-no-beats = NO BEATS was said
history-shock = a shock was given
history-mri = MRI asked for: nobody was moved
history-way-begun = Transport begun; nobody was moved
history-way-not-left = Transport to { $place }: nobody was moved
history-way = Transport to { $place }
history-left = left { $time }
history-arrived = arrived { $time }
history-hands = Handed over: { $from } to { $to }
history-read-leaving = Before leaving: { $dials }
history-read-on-the-way = On the way: { $dials }
history-read-arriving = On arrival: { $dials }
row-slope = Capture threshold over days
slope-rises = rises { $per_day } a day, at most { $most }
slope-falls = falls { $per_day } a day
slope-steady = no rise or fall that can be told from chance
slope-too-few = too few checks to tell
slope-of = { $count ->
    [one] one check that compares; { $fewest } are needed
   *[other] { $count } checks that compare; { $fewest } are needed
}

## Hand over

code-note = Say the patient's name to each other. This code has none. Compare the dials before you trust it.
code-too-long = Too long for a code. Read these lines aloud, then compare the dials.
code-nothing = Nothing to hand over: this wire has no check yet.
code-check-open = A check is open on this wire: its dials may stand elsewhere. End the check, then hand over.
