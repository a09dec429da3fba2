// The only state the page holds: what is half typed on the card now shown.
import { useLayoutEffect, useState } from "preact/hooks";
import type { Field, Shape, View } from "./contract";
import { append, erase, filtered } from "./digits";

export interface Fields {
  values: Record<string, string>;
  /** The field of digits that the keypad and the number keys fill. */
  active: string | null;
  set(id: string, value: string): void;
  activate(id: string): void;
  press(key: string): void;
}

interface Held {
  card: number;
  values: Record<string, string>;
  active: string | null;
}

/** Values live as long as their card; a new card starts with what its view says. */
export function useFields(view: View<string>): Fields {
  const fields = fieldsOf(view.shape);
  const [last, hold] = useState<Held>(() => fresh(view.card, fields));
  const held = last.card === view.card ? last : fresh(view.card, fields);
  const change = (edit: (now: Held) => Held) =>
    hold((before) => edit(before.card === view.card ? before : fresh(view.card, fields)));
  const set = (id: string, value: string) => change((now) => put(now, fieldNamed(fields, id), value));
  const activate = (id: string) => change((now) => ({ ...now, active: id }));
  const press = (key: string) => change((now) => struck(now, fields, key));
  useTypedKeys(held.active !== null, press);
  const lines = fields.find((field) => field.kind === "Lines");
  useScanner(lines !== undefined, (typed) => change((now) => (lines ? put(now, lines, (now.values[lines.id] ?? "") + typed) : now)));
  return { values: held.values, active: held.active, set, activate, press };
}

function fieldsOf(shape: Shape<string>): Field<string>[] {
  return shape.kind === "form" ? shape.fields : [];
}

function fresh(card: number, fields: Field<string>[]): Held {
  const values = Object.fromEntries(fields.map((field) => [field.id, field.value]));
  const digits = fields.filter((field) => field.kind === "Digits" || field.kind === "Secret");
  const first = digits.find((field) => field.error !== null) ?? digits[0];
  return { card, values, active: first?.id ?? null };
}

function fieldNamed(fields: Field<string>[], id: string): Field<string> {
  const field = fields.find((one) => one.id === id);
  if (!field) throw new Error(`no field ${id}`);
  return field;
}

function put(now: Held, field: Field<string>, value: string): Held {
  const isWord = field.choices.some((choice) => choice.value === value);
  const kept = field.kind === "Digits" && !isWord ? filtered(value, field.max_chars) : value;
  return { ...now, values: { ...now.values, [field.id]: kept } };
}

function struck(now: Held, fields: Field<string>[], key: string): Held {
  if (now.active === null) return now;
  const field = fieldNamed(fields, now.active);
  const value = now.values[field.id] ?? "";
  const isWord = field.choices.some((choice) => choice.value === value);
  const before = isWord ? "" : value;
  return put(now, field, key === "Backspace" ? erase(before) : append(before, key));
}

/** Number keys reach the active field wherever the focus is, except in another text field; from the first frame on. */
function useTypedKeys(listening: boolean, press: (key: string) => void): void {
  useLayoutEffect(() => {
    if (!listening) return undefined;
    const onKey = (event: KeyboardEvent) => {
      if (event.target instanceof HTMLInputElement || event.ctrlKey || event.metaKey || event.altKey) return;
      if (/^[0-9.,]$/.test(event.key) || event.key === "Backspace") press(event.key);
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  });
}

/** A hand scanner types wherever the focus is: its letters go to the field that takes a code. */
function useScanner(listening: boolean, take: (typed: string) => void): void {
  useLayoutEffect(() => {
    if (!listening) return undefined;
    const onKey = (event: KeyboardEvent) => {
      const elsewhere = event.target instanceof Element && event.target.closest("input, textarea, button, a");
      if (elsewhere || event.ctrlKey || event.metaKey || event.altKey) return;
      const typed = event.key === "Enter" ? "\n" : event.key;
      if (typed.length !== 1) return;
      event.preventDefault();
      take(typed);
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  });
}
