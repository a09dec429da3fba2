# Why a test was not done. None is a fault of anybody.

why-ordered-asynchronous = Asynchronous is ordered today.
why-pauses = Pauses were seen.
why-no-own-beats = No own beats seen down to { $limit }/min ({ $time }).
why-own-below-limit = Own rate { $own }, below { $limit }/min.
why-own-not-held = Own beats did not hold.
why-not-tolerated = Not tolerated.
why-did-not-see = Own beats were not all marked.
why-atrial-fibrillation = Atrial fibrillation or flutter.
why-no-p-waves = No P waves seen.
why-own-too-fast = Own rate { $own }: too fast to test capture. Capture not seen in this check.
why-own-too-old = Own beats were last shown more than 10 minutes ago.
why-number-not-seen = The mV number was not seen to mark every own beat.
why-found-does-not-capture = The found OUTPUT made no beats.
why-no-capture-at-maximum = Emergency: OUTPUT to maximum.
why-block-from-rate = P wave without QRS at the faster rate: not a loss of capture.
why-wrong-chamber = A wide beat after an atrial spike: wrong chamber.
why-own-among-spikes = Own beats among the spikes up to the highest test rate.
why-stopped = Stopped.
why-no-beats = NO BEATS.
why-shock = A shock was given.
why-fibrillation = Fibrillation, or no pulse.
why-away = The tablet was away too long.
why-spike-without-beat = A spike made no beat.
why-elsewhere = A dial stood elsewhere.
why-no-such-rate = RATE has no position for this test.
why-spike-may-fall-on-t = Not raised: at no RATE is a spike sure to miss the T wave.
