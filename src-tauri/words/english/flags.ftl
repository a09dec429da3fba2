# Flags of a result: what was seen, then the act asked for. One line each.

flag-no-capture-at-maximum = Spikes made no beats at maximum OUTPUT: call now, check connections, keep standby pacing ready.
flag-no-rule-satisfied = No dial position satisfies the OUTPUT rule: call the clinician.
flag-still-blind = Own beats are still not marked: call the clinician now.
flag-wrong-chamber = An atrial spike made a wide beat: call, the wire may pace the wrong chamber.
flag-no-beats = NO BEATS in this check: call the clinician, keep standby pacing ready.
flag-shock = A shock was given: thresholds rise after a shock, check again now.
flag-found-did-not-capture = Spikes made no beats at the OUTPUT found: call, check connections.
flag-did-not-see-as-found = Own beats were not all marked at the mV found: tell the clinician.
flag-number-refused = No lower mV number is allowed by the rule: call the clinician.
flag-found-margin-below-rule = Near miss: OUTPUT was found at { $multiple } × threshold, below the rule. Report it.
flag-left-as-read = A dial that read otherwise than expected was left so: find out why, tell the clinician.
flag-block-from-rate = P waves without QRS at the faster rate: tell the clinician.
flag-pauses = Pauses were seen: look for extra sensing and loose pins, tell the clinician.
flag-extra-beat-unmarked = Extra beats were not marked: tell the clinician.
flag-climbs = Threshold climbs { $per_day } a day and may eat the margin: check sooner, tell the clinician.
flag-doubled = Capture threshold has doubled, { $was } to { $is }: tell the clinician, look for a cause.
flag-half-signal-gone = More than half of the beat signal is gone, { $was } to { $is } mV: tell the clinician.
flag-found-asynchronous = Found asynchronous: ask who ordered it, and until when.
flag-not-tolerated = Not tolerated: tell the clinician, hand this over.
flag-spike-at-minimum = A spike at minimum OUTPUT made a beat: the mV search was cut short, hand this over.
flag-not-read = The dials were not read at the end: read them now.
flag-away = The tablet was away in this check: look at the dials, others may have changed them.
flag-slip = A wrong tap was corrected in this check: both entries are kept.
clock-set-back = This tablet's clock went back { $minutes } min in this check: set it right.
clock-set-on = This tablet's clock went on { $minutes } min in this check: set it right.
