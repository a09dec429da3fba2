# Another generator, or another battery, for a wire that paces.

swap-now = Change the box or its battery now
swap-resume = Go on with the change
swap-open-since = box being changed since { $time }
end-swap-first = A box or battery is being changed. End that first.
look-first = Look at the patient and the pins first.
swap-no-way-back = The old box is off. If beats stop: NO BEATS.
due-battery = the battery was changed
due-reconnected = unplugged and plugged in again
due-moved = the patient was moved
due-shared-box = work on its box for another wire

stage-swap-box = change of box
stage-swap-battery = change of battery
swap-old-box = Old box
swap-stop = Stop, old box

ask-swap-work = What is changed?
ask-swap-work-line = Local procedure and the responsible clinician come first.
swap-the-box = The box
swap-the-battery = The battery alone

## The patient first, then the order

swap-last-own = Last check, { $time }: { $own }
swap-seen-paced = Paced beats, or both
swap-seen-only-own = Only own beats, with a pulse
ask-swap-order = Is there an order, and does a clinician know?
ask-swap-order-no-own = No own beats seen: is a clinician at the bedside, with an order?
swap-use-box = No own beats seen: change the box, not the battery
swap-use-box-line = A second box runs and is set before this one is unplugged.
swap-close = Close: nothing changed
swap-other-box = Another box is here

## A box that paces two wires

ask-swap-shared = Does this box pace another wire of this patient too?
ask-swap-shared-with = { $wire }: does this box pace it too?
swap-shared-line = Follow each cable from the box by hand.
swap-shared-yes = Yes, both wires
swap-shared-no = No, this wire alone
swap-other-wire = The other wire
swap-seen-a-spike = A spike, of either wire
swap-seen-no-spike = Own beats with a pulse, no spike
ask-swap-order-shared = { $wire }, to a box of its own: is the clinician who ordered it here?
swap-order-shared-line = Two boxes know nothing of each other. Both wires into one new box: the clinician leads.
ask-swap-order-battery = Both wires stop: is a clinician at the bedside, with an order?
swap-read-old-of = Old box. { $wire }: read its dials
swap-read-end-of = { $wire }: read its dials as they stand
swap-move-title-of = { $wire } alone: move its pins now, one by one
swap-other-stays = Old box runs. { $wire }: stays there
swap-other-stops = { $wire }: stops too
swap-old-paces-other = Old box stays on. { $wire }: still in it
swap-other-in-dead-box = { $wire }: still in the box that is off; move it to a running box next
swap-look-at-other = { $wire }: look at its spikes too.
swap-output-up-of = { $wire }: turn OUTPUT up to
swap-old-output-up-of = { $wire }, old box: turn OUTPUT up to
swap-block-ventricle-first = The box paces the ventricle too: begin with that wire. Add it if it is not here.

## The old box, the new box

swap-read-old = Read the dials of the old box
swap-read-new = Read the new box before anything is unplugged
swap-read-end = Read the dials of this box as they stand
swap-pick-box = Which box takes over?
swap-pick-box-line = It may be another one of the same type.
swap-pick-done = This box
swap-sound-title = New box: is every line true?
swap-box-battery = New battery, the right way round
swap-box-whole = Box and cable whole and inspected
swap-cable-fits = The cable fits; its + and − labels are seen
swap-battery-title = New battery: is every line true?
swap-battery-type = Right type, in date
swap-battery-way = Which way round is known
swap-battery-manual = How this box opens is known
ask-swap-new-on = Switch the new box on. Does it run?
swap-new-on-line = Nothing is plugged into it yet.
swap-runs-yes = It runs
swap-runs-no = It does not run
ask-swap-mode = New box: set the mode to { $mode }. Does it stand there?
swap-stands-yes = It stands there
swap-mode-no = No such mode
swap-set-dial = New box: set { $dial } to
ask-swap-stands = Does it stand there?
swap-rate-reason = Not slower than on the old box: { $figure }.
swap-output-reason = Not lower than on the old box: { $figure }. Threshold taken anew after.
swap-unit-reason = mA and volts are not carried over: maximum until the threshold is new.
swap-pulse-reason = Shorter pulse than on the old box: maximum until the threshold is new.
swap-number-reason = Not above the number of the old box: { $figure }.
swap-asynchronous-reason = As on the old box.
swap-set-again = Set again

## Standby, then the pins

ask-swap-standby = Is standby pacing on the patient, on, and tested?
ask-swap-standby-captures = Does standby pacing capture, with a pulse?
swap-standby-line = Pads on, on demand, slower than the box. Tested as by local rules.
swap-standby-yes = On, and tested
swap-captures-yes = It captures, with a pulse
swap-standby-no = No
swap-ready-title = Before you unplug: is every line true?
swap-old-runs = Old box runs, within reach
swap-second-person = A second person is here
swap-standby-on = Standby pacing on, somebody beside it
swap-pins-traced = Both pins traced by hand, gloves on
swap-battery-in-hand = New battery in the hand
swap-pulse-in-view = Pulse trace in view
swap-move-title = Move the pins now, one by one
swap-move-plus = Pin marked +: old box to new box
swap-move-minus = Pin marked −: old box to new box
swap-local-first = Local procedure first.
swap-pin-no = A pin does not go in
swap-pins-yes = Both pins in the new box
swap-battery-out-title = Change the battery now
swap-battery-back-title = The box is off: battery in, box on
swap-battery-out = Old battery out
swap-battery-in = New battery in
swap-box-on = Box on
swap-stays-off = The box stays off
swap-box-is-on = The box is on
swap-box-dead-title = No box paces now
swap-fetch-box = Another box, with a new battery
swap-old-off = Old box off; it stays here until the check
swap-pads-stay = Pads stay on until the check
swap-differs-stays = It stays

## Trouble

swap-new-output-up = New box: turn OUTPUT up to
swap-old-output-up = Old box: turn OUTPUT up to
swap-standby-now-title = Standby pacing: pace now
swap-standby-up = Up until beats, with a pulse
swap-old-stays-on = The old box stays on
swap-still-no-beats = Still no beats
swap-standby-pace = Standby pacing: pace
swap-pins-tight = Pins tight
swap-number-highest = mV to { $figure }
swap-back-title = Both pins into the old box now
swap-back-plus = Pin marked +
swap-back-minus = Pin marked −
swap-standby-if-needed = Standby pacing on: pace if beats stop
swap-pins-back-yes = Both pins in the old box
swap-standby-lost = Standby pacing is off

## After a break

swap-away-seconds =
    { $seconds ->
        [one] Away 1 s. Look at the patient: beats, with a pulse?
       *[other] Away { $seconds } s. Look at the patient: beats, with a pulse?
    }
swap-away-minutes =
    { $minutes ->
        [one] Away 1 min. Look at the patient: beats, with a pulse?
       *[other] Away { $minutes } min. Look at the patient: beats, with a pulse?
    }
swap-beats-yes = Beats, with a pulse
ask-swap-where = Where are both pins now?
swap-where-line = Trace them by hand. Others may have moved them.
swap-pins-in-old = In the old box, and it runs
swap-pins-in-new = In the new box
swap-pins-neither = In neither, or the box is off

## Not now

swap-blocked = No change now: the pins stay where they are
swap-block-order = It needs an order, and a clinician who knows.
swap-block-not-sound = The new box or cable is not sound.
swap-block-battery = The new battery is not sound.
swap-block-box-off = The new box does not run.
swap-block-mode = The new box does not have this mode.
swap-block-rate = The new box does not reach this RATE.
swap-block-output = The new box does not reach this OUTPUT.
swap-block-number = The new box has no mV number as low.
swap-block-asynchronous = The old box stands asynchronous; the new box cannot.
swap-block-standby = Without tested standby pacing nothing is unplugged. Call.
swap-block-not-ready = Not every line is true.
