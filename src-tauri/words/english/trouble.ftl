# Something is wrong: the first safe act, then one question a card. Slips, dials found elsewhere, time away.

ask-pulse = Is there a pulse?
answer-no-pulse = No pulse
answer-fast-wide = Fast wide rhythm or fibrillation
answer-shock = A shock was given
answer-something-else = Pulse, something else
answer-back = Back

ask-what-else = What do you see?
answer-not-tolerated = Not tolerated, or low pressure
answer-pause = A pause
answer-extra-beat = An extra beat not marked
answer-mark-alone = Marks where no beat is
answer-elsewhere = A dial stands elsewhere

elsewhere-title = Where do the dials stand now?
elsewhere-line = Read all three. What was seen so far is kept.

slip-title = Where does { $dial } stand now?
slip-line = The last answer is taken back. Both stay in the record.
slip-stands-at = { $figure } { $unit }
slip-field = Stands at
slip-done = It stands there

## No beats

no-beats-reason = OUTPUT first. Call. Local emergency rules come first.
ask-no-beats = Beats again, with a pulse?
no-beats-spikes = Spikes, no beats
no-beats-no-spikes = No spikes
no-spikes-title = No spikes: in this order, now
no-spikes-none = Still no spikes
no-spikes-still = Spikes now, no beats
emergency-title = Emergency: in this order, now
emergency-call = Call for help
emergency-cpr = CPR and shock by local rules
emergency-output = OUTPUT to maximum
emergency-asynchronous = Asynchronous
emergency-number = mV to { $figure }, the highest
emergency-rate = RATE to { $figure }
emergency-rate-at-least = RATE to { $figure }, if it is slower
emergency-connections = Connections: wire, cable, generator
emergency-local = Local emergency rules come first.
emergency-beats = Beats again, with a pulse

arrest-title = Call now. Turn no dial first.
arrest-cpr = CPR and shock by local rules
arrest-trace = Look at the pulse trace: pacing can hide fibrillation
arrest-output = A free hand: OUTPUT to maximum
arrest-beats = Beats again, with a pulse

after-shock-reason = After a shock: maximum, not the old setting.
ask-after-shock = Does every spike make a beat, and a pulse?

read-after-title = Look at the patient. Read the dials
read-after-line = As they stand now: this becomes restore.

## Away

away-title =
    { $seconds ->
        [one] Away 1 s. Dials as you left them?
       *[other] Away { $seconds } s. Dials as you left them?
    }
away-yes = As I left them
away-no = Not sure, or changed
away-read-title =
    { $minutes ->
        [one] Away 1 min. Look at the patient, read the dials
       *[other] Away { $minutes } min. Look at the patient, read the dials
    }
away-read-line = Others may have changed them.
away-read-old = Restore { $time }: OUTPUT { $output }, RATE { $rate }, mV { $mv }
ended = This check is closed
