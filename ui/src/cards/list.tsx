import type { Item, List } from "../contract";
import type { Faces } from "./faces";

/** Numbered or plain lines; in restore the first one large. */
export function list(shape: List<string>): Faces {
  return {
    show: (
      <>
        <h2 class="instruction">{shape.instruction}</h2>
        <ol class="items">
          {shape.items.map((item) => (
            <ItemLine item={item} />
          ))}
        </ol>
        {shape.note && <p class="note">{shape.note}</p>}
      </>
    ),
  };
}

function ItemLine({ item }: { item: Item<string> }) {
  return (
    <li class={item.large ? "item large" : "item"}>
      {item.number !== null && <span class="number">{item.number}</span>}
      <span class="text">{item.text}</span>
      {item.figure && (
        <span class="position">
          <b>{item.figure}</b> {item.unit}
        </span>
      )}
    </li>
  );
}
