# A unit's rules and generators: handed in, looked at, approved by name; what stands against a file.

mark-example-generator = Example generator · local rules come first
mark-review-passed = Review of the rules was due { $review }

## Handing in

hand-in-rules = Hand in rules
hand-in-rules-line = A rule file of your unit. Nothing changes until somebody approves it by name.
hand-in-example = scenarios/rules in the source shows the form of a rule file.
rules-file-field = Choose the rule file
hand-in-generator = Hand in a generator
hand-in-generator-line = A file with the positions as printed on the box. Nothing changes until somebody approves it by name.
generator-file-field = Choose the generator file
offer-not-in-force = Not in force. Compare each line with the source document, then approve or put aside.
offered-rules-title = Handed in: { $name }
offered-differ =
    { $count ->
        [one] 1 line differs from the rules in force.
       *[other] { $count } lines differ from the rules in force.
    }
offered-same = No line differs from the rules in force.
now-in-force = in force now: { $now }
new-with-source = in force now: { $now } · { $source }
put-aside = Put aside
approve-offer = Approve by name
approve-title = Who approves { $name }?
approve-line = With this name it is in force on this tablet. Open checks go on as they began.
approve-done = Approve
approver-field = Name
role-field = Role
row-approval = Approved in the file
row-let-in-here = Let in on this tablet
let-in-by = { $name }, { $role }, { $date }
row-fingerprint = Fingerprint of the file
row-output-aim = OUTPUT aims at
times-threshold = { $multiple } × threshold
row-going-up = Threshold sought going up
row-half-rate = Sensing at half the own rate
row-below-double = Below double approved by
row-review-blocks = No check once review is overdue
nobody-named = nobody

## Generators

generators = Generators
generators-note = Compare every position with the box before a generator is used.
generator-line = OUTPUT { $output }. RATE { $rate }. mV { $numbers }.
generator-range = { $least } to { $greatest } { $unit }
generator-example = example, invented
generator-approved = approved by { $name }
row-output-positions = OUTPUT, { $unit }
row-rate-positions = RATE, per minute
row-mv-positions = mV
row-asynchronous = Asynchronous
by-position = a position above the highest mV number
by-switch = a switch of its own
by-nothing = this generator has none
row-control = Turned by
by-dial = dials
by-keys = keys
row-pulse-width = Pulse width
micro-seconds = { $time } µs
row-auto-lock = Locks itself
lock-seconds = after { $seconds } s
no-lock = never
row-modes = Modes
generator-is = Generator: { $name }
other-generator = Another generator
plug-elsewhere = Change
plug-title = Which generator is this wire plugged into?
plug-line = Read the name on the box. mA and volts are never the same.
plug-done = Plugged in there

## What stands against a file

fault-at = { $place }: { $what }
fault-too-long = The file is longer than { $most } kB. A file of rules or of one generator is shorter.
fault-not-text = The file is no text in UTF-8. Hand in the JSON file itself, not a document made from it.
fault-not-json = Line { $line }, place { $column }: not JSON. Look for a comma, a quote or a bracket.
fault-repeated = Line { $line }: a name stands there for the second time. Each stands once.
fault-missing = missing; it belongs in the file.
fault-no-such-name = no such name. Allowed: { $allowed }.
fault-wrong-kind = { $found } stands there; { $wanted } belongs there.
fault-text-length = 1 to { $most } characters belong there.
fault-not-one-of = “{ $found }” is not known. Allowed: { $allowed }.
fault-not-as-printed = “{ $found }” is no figure as printed: digits with one point at most, a zero only before the point.
fault-not-positive = { $found } stands there; a figure above zero belongs there.
fault-unsorted = { $found } stands after { $after }. Each position is higher than the one before.
fault-duplicate = { $found } stands twice. Each position stands once.
fault-count = { $found } stand there; { $least } to { $most } are allowed.
fault-span = steps of { $step } do not lead from { $from } up to { $to }.
fault-not-a-mode = “{ $found }” is no pacing code: { $why }.
fault-no-demand-mode = neither AAI nor VVI stands there. A check needs one of them: name every mode the box has.
fault-out-of-range = { $found } stands there; { $least } to { $greatest } { $unit } is allowed. { $source }
fault-not-a-figure = { $found } stands there; a figure in quotes belongs there, "{ $least }" to "{ $greatest }", without the unit ({ $unit }). { $source }
range-source = No other figure is supported by { $keys }.
range-no-source = The range is from memory; no listed source supports another figure.
fault-band-reversed = the band begins at { $low } and ends lower, at { $high }. The low end comes first.
fault-aim = the aim { $aim } is outside its band, { $low } to { $high }.
fault-below-double = the band begins at { $low }, below double (CONG: thresholds rose nearly so much in a day). Name the clinician in band_below_double_by.
fault-below-other = { $found } stands there; { $other } asks for { $least } or more.
fault-above-other = { $found } stands there; { $other } asks for { $greatest } or less.
fault-contradicts = says the opposite of { $other }. Make them agree.
fault-not-allowed = what stands there does not belong there.
fault-not-a-date = “{ $found }” is no date in the form 2026-11-24.
kind-text = text in quotes
kind-whole-number = a whole number
kind-whole-to = a whole number from 0 to { $greatest }
kind-not-negative = a whole number of zero or more
kind-figure = a figure
kind-printed = a figure in quotes
kind-yes-no = true or false
kind-list = a list
kind-group = a group of names
kind-name-or-group = a name in quotes or a group of names
code-length = three to five letters
code-digit-zero = letter { $place } is the digit zero; the letter O belongs there
code-makers-letter = letter { $place } is S, no letter of the published code
code-letter = letter { $place } is { $found }; allowed: { $allowed }
rules-file-is-example = example: true stands there. A unit’s own file says false, and in approval who approved it and from which document.
rules-in-force-already = These rules are in force already. Nothing was changed.
rules-same-name = id: rules named { $name } are in force already. Give changed rules a new id.
generator-known = A generator of the id or name { $name } is known already. Give another one a new id and name.
too-many-generators = No more than { $most } generators on one tablet.
rules-review-blocks = Review of the rules was due { $review }; these rules then allow no check. Tell whoever keeps the rules, use paper.
