# Stages 5 to 8 and restore: set one dial a card, read the dials, confirm, done.

set-output-reason = { $multiple } × threshold { $threshold }. Rule: { $rule }.
set-output-at-most = { $multiple } × { $threshold }, the lowest tried: it held. Rule: { $rule }.
set-output-bracket = { $multiple } × { $threshold }, where it held. Rule: { $rule }.
set-output-other-unit = The unit’s rule is not for this unit: it stays where it was. Call.
set-output-no-position = OUTPUT stays at { $figure }. No position satisfies the rule. Call.
set-output-flagged = No position fits; this is the lowest above. Rule: { $rule }.
set-output-not-below-restore = NO BEATS in this check: not below restore.
set-rate-reason = As it was found.
set-rate-emergency = As the emergency set it.
set-mv-by-rule = Beat signal { $threshold } mV. Rule: { $rule }.
set-mv-stays = It marked every beat and fits the rule.
set-mv-below-lowest = It stands below your unit’s lowest: it may see too much. It stays. Call.
set-mv-refused = No mV position fits the rule. It stays. Call.
set-mv-did-not-see = The found number missed own beats.
set-mv-missed = The number before missed own beats.
set-mv-nothing-tested = Sensing was not tested.
set-mv-pauses = Pauses at the lower number: it saw more than own beats.
set-mv-own-back = Own beats are back: no spike may fall between them.

## The unit's rules

rule-half = half the signal
rule-below-half = below half the signal
rule-half-less-one = half the signal less 1 mV
rule-third = one third of the signal
rule-band = { $low } to { $high } × threshold
rule-band-floor = { $low } to { $high } ×, at least { $floor } mA above threshold
rule-double = double the threshold
rule-double-plus-one = double the threshold plus 1 mA

ask-steady-rate = Steady at this RATE, each beat with a pulse?
ask-marked-or-paced = Is each beat marked or paced, without pauses?

## Nothing to turn

stays-title = Turn no dial. Each one stays:
stays-line = { $dial } stays at { $figure }
stays-why = { $why }
stays-done = They stand so

## Read the dials

read-back-title = Read the three dials
read-back-line = From the dials, not from memory.
reason-title = Why, and who was told?
reason-done = Kept with the record
reason-field = Reason
told-field = Who was told
not-read-now = Cannot be read now
differs-title = A dial differs
differs-line = { $dial }: read { $read }, expected { $expected }
differs-corrected = Corrected: read again
differs-reason = It stays: reason and name
read-lower-title = A dial is not as before. Is that meant?
read-lower-line = { $dial }: read { $read }, before { $before }
read-lower-note = Before: the check begun at { $time }. Others may have changed it. If unsure, call.
left-alone-title = Leave it as it reads
left-alone-line = { $dial }: { $read }, not { $believed }
left-alone-at-line = { $dial }: leave at { $read }
left-alone-note = This check has not shown the other figure safe.
left-alone-read-again = Read again

## Confirm

ask-confirm-asynchronous = Asynchronous: does each spike make a beat with a pulse?
ask-confirm = Do the marks match the beats, each with a pulse?
confirm-line = Is no gap longer than the set interval?
confirm-yes = Yes, steady
guarded-title = Before you leave
guarded-alarms = Alarm limits and pacing detection back on
guarded-pressure = Pressure as before
guarded-dials = Dials guarded
guarded-wires = Unused wires insulated
guarded-battery = Battery and connections good
guarded-done = All done

## Restore

restore-title = Restore, in this order
restore-nothing = No dial has been changed
restore-stands = Nothing to turn: each dial stands at restore
restore-done = All stand so
restore-note = Turn them all, then tap once.
restore-call = Call the clinician now.
restore-blind-fast = Own beats may not all be seen, too fast to pace above. Call now.
restore-not-paced-over = Own beats stayed among the spikes at every RATE. Call, check connections.
restore-blind = Own beats may not all be seen: keep RATE above them. Call.
restore-after-no-beats = Leave OUTPUT where it stands now.
