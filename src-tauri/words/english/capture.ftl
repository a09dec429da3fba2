# Stage 4: capture. RATE above own, OUTPUT down until a spike makes no beat, then only up. The margin check.

capture-rate-reason = { $offset } or more above own rate { $own }.
ask-capture-ventricle = Does each spike straight away make a beat unlike the own beats, and a pulse?
ask-capture-atrium = Does the heart rate follow the spikes, with a pulse?
answer-every-spike = Every spike made a beat
answer-spike-without-beat = A spike without a beat
answer-own-among = Own beats among them
answer-p-without-qrs = P wave, no QRS
answer-wide-beat = A wide beat at the spike

ask-every-spike = Does every spike make a beat, and a pulse?
capture-down-reason = Down until a spike makes no beat.
capture-back-reason = A spike made no beat: back to the last that held.
capture-up-reason = Only up now, one position at a time.
capture-restore-reason = OUTPUT to restore in one act.
ask-beats-again = Does every spike make a beat again?
answer-still-no-beat = A spike without a beat
answer-beats-again = Beats again

ask-capture-count = Does every spike make a beat, and a pulse?
capture-count-line = OUTPUT stays where it is. Count from here.
capture-out-reason = OUTPUT up first. The result comes after.
capture-maximum-reason = A spike made no beat: OUTPUT to maximum in one act. Call.
block-at-found-rate-reason = P wave, no QRS at the RATE as found. Call now.
capture-rate-down-reason = P wave, no QRS: RATE down at once. Call.

## Margin check

ask-margin = Margin check: is every line true?
margin-no-shock = In 24 h no shock, threshold rise, potassium change or lost beat
margin-pads = Pads on
margin-clinician = A clinician is at the bedside
margin-hand = One hand stays on OUTPUT
margin-yes = All true
margin-no = No margin check
margin-one-reason = One position down. Hand stays on the dial.
margin-half-reason = Half of { $restore }, from above. 3 beats, then straight back.
margin-back-reason = Straight back to restore.
