# What a terminal says beside the cards: its keys, a record verified, a rehearsal against what was expected.

session-ended = The session has ended.
no-such-key = { $typed }: no such key.
leave-terminal = leave the terminal (a check stays open)
export-taken = { $file } is there already. Nothing was written.
export-failed = { $file } was not written: { $why }
record-holds = The record in { $folder } holds: { $entries } entries, { $erased } erased.
rehearsed-turned = turned
rehearsed-typed = typed { $field }
rehearsed-answered = answered
rehearsed-not-taken = not taken
rehearsed-by-time = (time, or the tablet itself)
rehearsed-always = always

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
came-otherwise = { $what }: expected { $expected }; came { $found }

## An exercise, judged

practised-passed = { $exercise }: passed
practised-not-passed = { $exercise }: not passed
practised-act = { $verdict }: { $act } ({ $seconds } s, { $dials })
practised-found = { $dial }: found { $said }, true { $truth }
practised-without-beats = Without beats: { $seconds } s, longest { $longest } s
practised-on-t = Spikes on a T wave: { $spikes }, of them { $captured } made a beat
