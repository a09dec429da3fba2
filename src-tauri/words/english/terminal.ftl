# What a terminal says beside the cards: its keys, a record verified, a rehearsal against what was expected.

session-ended = The session has ended.
no-such-key = { $typed }: no such key.
leave-terminal = leave the terminal (a check stays open)
export-taken = { $file } is there already. Nothing was written.
folder-takes-none = the folder takes no files.
export-failed = { $file } was not written: { $why }
backup-holds = { $file } holds the whole record: { $entries } entries. It is not signed and not locked.
file-not-read = { $file } was not read: { $why }
restored-into = { $folder } holds the record of the backup now: { $entries } entries, verified.
restored-aside = The record before lies in { $folder }.
restored-erased = { $count ->
    [one] One patient whose record this tablet had erased was erased in it again.
   *[other] { $count } patients whose records this tablet had erased were erased in it again.
}
restore-has-newer = { $count ->
    [one] The record there has one entry more than this backup. Nothing was changed. To restore all the same, name a folder for it: --aside FOLDER
   *[other] The record there has { $count } entries more than this backup. Nothing was changed. To restore all the same, name a folder for it: --aside FOLDER
}
restore-another = Another record stands there. Nothing was changed. Name an empty folder, or a folder for that record: --aside FOLDER
record-holds = The record in { $folder } holds: { $entries } entries, { $erased } erased.
rehearsed-turned = turned
rehearsed-typed = typed { $field }
rehearsed-answered = answered
rehearsed-not-taken = not taken
rehearsed-by-time = (time, or the tablet itself)
rehearsed-always = always

## Started, or not

no-display = Holdfast: no display here. Without one, rehearse a check in a terminal.
did-not-start = Holdfast did not start: { $why }
command-missing = No command. terminal --help lists them.
command-lacks = { $command }: { $missing } is missing.
command-unknown = "{ $typed }" is no command. terminal --help lists them.
command-misused = It is typed so: { $allowed }.
not-a-whole-number = "{ $typed }" is no whole number.
no-folder-named = No data folder. Name one: bedside --data FOLDER, or HOLDFAST_DATA in the environment.
output-closed = The output is closed ({ $fault }).
harm-seen = Harm was done, or a check came to no end. Each line above names one.
not-as-expected = Not as the scenario expects: { $differences }

## As a scenario file expects them

found-own-not-seen = not seen down to { $limit }
found-not-looked-for = not looked for
found-range = { $low } to { $high }
found-at-least = at least { $figure }
found-seen-at = seen at { $figure }
found-seen-at-none = not seen at any number
found-at-most = at most { $figure }
found-not-tested = not tested: { $why }
found-no-result = no result
found-nothing = nothing
script-never = { $place } never happened: no card came that fits its "on". What stands after it waits for it.
scenario-not-for-wire = generator: it has no mode for a wire of this chamber. One with AAI is for the atrium, one with VVI for the ventricle.
scenario-no-sentence = no card says "{ $named }". rehearse FILE --json names what each card asks.
came-otherwise = { $what }: expected { $expected }; came { $found }

## An exercise, judged

practised-passed = { $exercise }: passed
practised-not-passed = { $exercise }: not passed
practised-act = { $judged } ({ $at })
practised-found = { $dial }: found { $said }, true { $truth }
practised-without-beats = Without beats: { $seconds } s, longest { $longest } s
practised-on-t = Spikes on a T wave: { $spikes }, of them { $captured } made a beat
