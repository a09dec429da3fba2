# Practice: exercises by name with one line each, the acts a run is judged by, how each was done.

exercise-quiet = Quiet
exercise-quiet-line = Own rhythm, a large beat signal, a low threshold: the whole check.
exercise-no-own-beats = No own beats
exercise-no-own-beats-line = Paced on every beat, down to the limit.
exercise-escape-sleeps = An own rhythm that sleeps
exercise-escape-sleeps-line = Own beats come late after pacing, and wake slowly.
exercise-high-threshold = High threshold
exercise-high-threshold-line = The capture threshold lies near the top of the dial.
exercise-did-not-see = Did not see as found
exercise-did-not-see-line = Own beats are not marked; spikes fall among them.
exercise-found-asynchronous = Found asynchronous
exercise-found-asynchronous-line = It paces without seeing, and nobody has ordered it today.
exercise-extra-beats = Extra beats
exercise-extra-beats-line = Small extra beats among the own ones.
exercise-t-wave-seen = T wave seen
exercise-t-wave-seen-line = A low mV number takes the T wave for a beat.
exercise-minimum-captures = The minimum makes beats
exercise-minimum-captures-line = Even the lowest OUTPUT makes a beat.
exercise-block = Block at the faster rate
exercise-block-line = An atrial wire; faster P waves do not all reach the ventricle.
exercise-wrong-chamber = The wrong chamber
exercise-wrong-chamber-line = A wire labelled atrial makes wide beats.
exercise-pressure-falls = Pressure falls
exercise-pressure-falls-line = Paced beats give less pressure than own ones.
exercise-loose-pin = A loose pin
exercise-loose-pin-line = Signals that are no beats make pauses.
exercise-spikes-without-beats = Spikes without beats
exercise-spikes-without-beats-line = As found, spikes make no beats.
exercise-capture-lost = Capture lost
exercise-capture-lost-line = The threshold rises while you watch.
exercise-shock = A shock
exercise-shock-line = A shock is given in the middle of the check.
exercise-no-capture = No capture at maximum
exercise-no-capture-line = Slow own beats; no OUTPUT makes a beat.

## How an act was done

verdict-done = Done
verdict-late = Late
verdict-missed = Missed
verdict-unsafe = Unsafe

## Acts

act-maximum-where-found-fails = Spikes without beats as found: OUTPUT to maximum in one act
act-out-of-asynchronous = Out of asynchronous before RATE went down
act-rate-steps-watched = RATE down in steps, each watched
act-rate-limit-kept = RATE never below the limit while paced
act-blind-put-right = Own beats not marked: RATE up, mV number down
act-output-before-number = RATE and OUTPUT down before the mV number went up
act-spike-at-minimum-heeded = A spike at minimum made a beat: the mV number went no further up
act-minimum-kept-short = Minimum OUTPUT not longer than allowed
act-sensing-found = Beat signal found
act-number-before-output = The mV number down again before OUTPUT went up
act-own-rhythm-first = Own rhythm shown before OUTPUT went below found
act-output-steps-watched = OUTPUT down in steps, each watched
act-only-up-after-loss = After a spike without a beat: only OUTPUT up, and soon
act-capture-found = Capture threshold found
act-block-heeded = P waves without QRS: RATE down
act-wrong-chamber-heeded = A wide beat after an atrial spike: no capture test
act-pressure-heeded = Low pressure: RATE back
act-output-first-in-no-beats = No beats: OUTPUT first, at once
act-maximum-after-shock = After the shock: OUTPUT to maximum
act-pauses-ended = Pauses ended: the mV number up, or asynchronous
act-output-by-rule = OUTPUT left where the rule asks
act-number-by-rule = The mV number left where the rule asks
act-rate-back = RATE left as it was found
act-dials-read = Dials read at the end
act-confirmed = The last settings watched
act-answered-as-seen = Answers as the strip showed it
