# Stage 3: the beat signal. RATE below own, OUTPUT to minimum, the mV number up and down.

sense-rate-reason = { $offset } or more below own rate { $own }.
sense-rate-late-reason = So low that a spike falls after the T wave.
ask-only-own-marked = Only own beats, each marked, tolerated?
answer-every-beat-marked = Every beat marked

sense-minimum-reason = OUTPUT first, before the mV number goes up.
ask-spikes = Do spikes come? Does one make a beat?
answer-no-spikes = No spikes came
answer-spikes-no-beat = Spikes, none made a beat
answer-spike-made-beat = A spike made a beat

sense-up-reason = To the first unmarked beat. A spike makes a beat: mV back, then tap.
sense-down-reason = Down one position at a time until every beat is marked.
ask-every-beat-marked = Does the generator mark every own beat?

sense-mv-out-reason = The number first: it must see before OUTPUT goes up.
sense-output-out-reason = OUTPUT up again: standby from the wires.
ask-own-with-pulse = Own beats, each marked, with a pulse?
own-with-pulse-yes = Marked, with a pulse
