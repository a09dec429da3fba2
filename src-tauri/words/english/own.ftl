# Stage 2: the heart's own rhythm, by lowering RATE alone.

own-down-reason = Steps of { $step }, never below { $limit }. Own beats wake slowly.
ask-own-rhythm = Paced beats, own beats, or both?
answer-still-paced = Still paced
answer-only-own = Own beats only
answer-both = Both

ask-first-own = Did the generator mark the own beat and hold its spike?
first-own-line = Look at the generator's marks and at the monitor.
first-own-yes = Marked, no spike
first-own-no = Not marked, or a spike

blind-rate-reason = An own beat was not seen: RATE above the own beats.
blind-number-fast-reason = Own beats are too fast to pace above: the number first.
blind-number-reason = Then RATE goes down and you look once more.

ask-own-hold-atrium = Own P waves only, each marked, each with its own beat and a pulse?
ask-own-hold = Own beats only, each marked, each with a pulse?
own-hold-yes = Own beats only, marked
answer-beat-not-marked = A beat not marked

ask-own-rate = What own rate does the monitor show?
own-rate-line = Whole beats per minute. Not regular: the slowest and the fastest of 30 s.
slowest-field = Slowest
fastest-field = Fastest
own-rate-done = Rate read

own-back-reason = { $why } RATE goes back.
ask-paced-with-pulse = Steady, each beat with a pulse?
answer-fine = Steady, with a pulse
