// Made from src-tauri/domain/src/contract.rs by its test. Do not edit.

/** Bytes of a file that are handed in at most: what is cut here is refused in words. */
export const FILE_MOST = 20000000;

/**
 * One screen.
 */
export type View<T> = { 
/**
 * Identifies the card. Sent back with each act; an act on an older card is refused.
 */
card: number, 
/**
 * Session time of this push, ms since boot. The page sets its running clocks by it.
 */
now_ms: number, look: Look, head: Head<T>, 
/**
 * The stages of a check, on cards of a check.
 */
rail: Rail | null, 
/**
 * Example rules, practice: shown on every screen they touch.
 */
marks: Array<T>, shape: Shape<T>, 
/**
 * The answers in the thumb's reach, in drawing order: bad ones first, the good one last.
 */
answers: Array<Act<T>>, 
/**
 * Lesser acts, drawn smaller under the answers.
 */
aside: Array<Act<T>>, 
/**
 * Present on every card that touches a dial.
 */
safety: Safety<T> | null, 
/**
 * A refusal or a fault, with the next act. Stays until the next view.
 */
notice: T | null, 
/**
 * What a screen reader says once when the card changes.
 */
spoken: T, 
/**
 * On screens of practice: they are framed, and no patient stands behind them.
 */
practice?: Practice<T>, 
/**
 * Of slow work that the card waits for.
 */
progress?: Progress<T>, };

/**
 * So many of so many parts are done.
 */
export type Progress<T> = { label: T, done: number, of: number, };

/**
 * How the person likes the screen.
 */
export type Look = { light: Light, 
/**
 * 100, 150 or 200.
 */
text_percent: number, hand: Hand, still: boolean, };

export type Light = "Day" | "Night";

export type Hand = "Left" | "Right";

/**
 * Bed, wire and stage, and one labelled clock.
 */
export type Head<T> = { 
/**
 * The bed, or the name of the screen.
 */
title: T, 
/**
 * Wire, chamber, stage.
 */
subtitle: T | null, clock: Clock<T> | null, 
/**
 * Local wall clock with its label ("clock 21:40"), where no running clock is shown.
 */
wall: T | null, };

/**
 * A running m:ss beside its label.
 */
export type Clock<T> = { label: T, 
/**
 * Session time it counts from, ms since boot.
 */
since_ms: number, urgent: boolean, };

/**
 * Progress through the stages: `now` counts from 0.
 */
export type Rail = { of: number, now: number, };

/**
 * The forms a card can take. A stage, a rule, a trouble step adds none.
 */
export type Shape<T> = { "kind": "turn" } & Turn<T> | { "kind": "ask" } & Ask<T> | { "kind": "list" } & List<T> | { "kind": "form" } & Form<T> | { "kind": "result" } & Outcome<T> | { "kind": "code" } & Code<T> | { "kind": "chart" } & Trend<T> | { "kind": "beds" } & Beds<T>;

export type Turn<T> = { 
/**
 * "Turn OUTPUT down to"
 */
instruction: T, 
/**
 * The dial position as printed, "1.6".
 */
figure: T, unit: T, 
/**
 * "from 2.0 mA"
 */
from: T | null, 
/**
 * "small is good", "sees less"
 */
hint: T | null, 
/**
 * The rule behind the figure; the only line that may scroll.
 */
reason: T | null, scale: Scale<T> | null, 
/**
 * What to look for once the dial stands.
 */
question: T, watch: Watch<T> | null, 
/**
 * Where the other dials go or stay.
 */
others: Array<Small<T>>, };

export type Ask<T> = { question: T, lines: Array<T>, reason: T | null, watch: Watch<T> | null, scale: Scale<T> | null, others: Array<Small<T>>, };

/**
 * A plain bar that fills from `from_ms` to `until_ms`; the good answer comes with a later view.
 */
export type Watch<T> = { 
/**
 * "time for 5 beats"
 */
label: T, from_ms: number, until_ms: number, };

/**
 * A dial that is not being turned, or a line of the restore strip.
 */
export type Small<T> = { label: T, value: T, };

/**
 * The positions of one dial on a line, 0 (left) to 1 (right).
 */
export type Scale<T> = { ticks: Array<Tick<T>>, 
/**
 * The threshold lies between these.
 */
bracket: [number, number] | null, 
/**
 * Where the rule allows the setting.
 */
band: [number, number] | null, 
/**
 * The unit, at the right end.
 */
unit: T, 
/**
 * The same drawing in words.
 */
words: T, };

export type Tick<T> = { at: number, label: T | null, role: TickRole, };

export type TickRole = "Plain" | "Held" | "Missed" | "Present" | "Threshold" | "Set";

export type List<T> = { instruction: T, items: Array<Item<T>>, note: T | null, };

export type Item<T> = { number: number | null, text: T, 
/**
 * A dial position, drawn large.
 */
figure: T | null, unit: T | null, large: boolean, };

export type Form<T> = { question: T, lines: Array<T>, fields: Array<Field<T>>, };

export type Field<T> = { 
/**
 * Name under which the value is sent.
 */
id: string, label: T, unit: T | null, kind: FieldKind, 
/**
 * What stands in it when the card opens (half-typed digits live in the page only).
 */
value: string, error: T | null, 
/**
 * For `Choice`: each sends its own command at once. For `Digits` and `Text`: words that fill the field.
 */
choices: Array<Choice<T>>, max_chars: number, };

export type FieldKind = "Digits" | "Text" | "Lines" | "Pick" | "Choice" | "File" | "Secret" | "Camera";

export type Choice<T> = { 
/**
 * The value put into the field.
 */
value: string, label: T, chosen: boolean, 
/**
 * For `FieldKind::Choice` only.
 */
act: Act<T> | null, };

export type Outcome<T> = { headline: T, rows: Array<Row<T>>, scales: Array<Scale<T>>, 
/**
 * One line each, ranked, with the act asked for.
 */
flags: Array<T>, note: T | null, };

export type Row<T> = { label: T, value: T, note: T | null, };

export type Code<T> = { 
/**
 * Modules on each side, without the quiet zone; 0 without a drawing.
 */
across: number, 
/**
 * Row by row as hexadecimal digits of four modules each; 1 is dark, the last digit is filled up with 0.
 */
modules: Array<string>, rows: Array<Row<T>>, note: T, };

export type Trend<T> = { headline: T, charts: Array<Chart<T>>, rows: Array<Row<T>>, };

/**
 * One quantity over days; 0 (left, low) to 1 (right, high).
 */
export type Chart<T> = { title: T, line: Array<[number, number]>, 
/**
 * What was set over the same days, where it is drawn.
 */
steps: Array<[number, number]>, 
/**
 * The set value's height and label.
 */
set: [number, T] | null, last: T | null, 
/**
 * Heights with labels, for the scale at the side.
 */
marks: Array<[number, T]>, 
/**
 * The first and the last day, under the ends of the line.
 */
days: [T, T] | null, words: T, };

export type Beds<T> = { rows: Array<BedRow<T>>, 
/**
 * Shown when there are no rows.
 */
empty: T, };

export type BedRow<T> = { title: T, 
/**
 * "due 22:30", "dials not read since 21:15"
 */
due: T | null, urgent: boolean, lines: Array<T>, chart: Chart<T> | null, open: Act<T>, };

/**
 * A button.
 */
export type Act<T> = { 
/**
 * Stable within the card; keys the button's node and names it for tests.
 */
key: string, label: T, note: T | null, tone: Tone, 
/**
 * Sent back as it came.
 */
command: unknown, 
/**
 * Sends the card's field values along.
 */
with_fields: boolean, };

export type Tone = "Good" | "Bad" | "Alarm" | "Strong" | "Plain";

/**
 * On a card that touches a dial, in the same places.
 */
export type Safety<T> = { no_beats: Act<T>, 
/**
 * Absent where it is open already, and in an emergency.
 */
wrong: Act<T> | null, 
/**
 * Absent where the dials are read.
 */
slip: Act<T> | null, 
/**
 * Where restore waits for a reading it is there, and says so.
 */
stop: Act<T>, 
/**
 * "Restore:" with the three dials; absent where it would prompt a reading.
 */
strip: Strip<T> | null, 
/**
 * "No standby from the wires: 42 s", "Since a spike without a beat: 3 s".
 */
exposed: Clock<T> | null, };

export type Strip<T> = { label: T, dials: Array<Small<T>>, 
/**
 * "Restore mV 2.0 (found 5.0: did not see)"
 */
note: T | null, };

/**
 * On every screen of practice: the page frames it. What is at hand of the patient.
 */
export type Practice<T> = { monitor: Monitor<T> | null, knobs: Array<Knob<T>>, };

/**
 * The strip comes by a channel of its own; here is what stands around it. Freezing and looking back are the
 * page's own: nothing is sent.
 */
export type Monitor<T> = { 
/**
 * Names the strip that belongs here: batches of another are not drawn.
 */
stream: number, 
/**
 * A moment looked at again: nothing runs.
 */
kept: boolean, 
/**
 * "25 mm/s · 10 mm/mV"
 */
scale: T, 
/**
 * Before the pulse a minute.
 */
pulse: T, 
/**
 * What a screen reader says of the strip.
 */
words: T, freeze: T, run: T, earlier: T, later: T, 
/**
 * Lets the patient stand still.
 */
pause: Act<T> | null, };

/**
 * One dial of the simulated generator. The one under the hand is large and has keys.
 */
export type Knob<T> = { label: T, unit: T, 
/**
 * As the dial prints it.
 */
figure: T, 
/**
 * Lays the hand on it.
 */
take: Act<T>, 
/**
 * `None` on the dials that are small.
 */
keys: Keys<T> | null, };

/**
 * Each key says where it turns to. `None` at the end of the dial.
 */
export type Keys<T> = { down: Act<T> | null, up: Act<T> | null, 
/**
 * Several positions at once, on long dials.
 */
far_down: Act<T> | null, far_up: Act<T> | null, };

/**
 * What the page sends: the act it drew, the card it drew it on, and the fields it holds.
 */
export type Sent = { card: number, command: unknown, values: { [key in string]: string }, 
/**
 * How long what was tapped had stood on the glass, ms, as the page measured it at the tap. An answer
 * begins anew with each card; what stands on every dial card goes on from card to card. `None`: no page.
 */
stood_ms: number | null, };
