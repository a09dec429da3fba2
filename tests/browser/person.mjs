// Somebody at the bedside: reads the card on the glass, turns the dials of an imagined generator,
// looks at an imagined heart, and answers. Knows nothing of the app but what the card shows.
import { setTimeout as sleep } from "node:timers/promises";
import { byKey, until } from "./driver.mjs";

/**
 * A heart, in the units of the dials.
 * @typedef {{own: number, captures: number, signal: number}} Heart
 */

export class Person {
  /**
   * @param {import("./driver.mjs").Window} app
   * @param {Heart} heart
   * @param {{output: string, rate: string, mv: string}} dials as found
   */
  constructor(app, heart, dials) {
    this.app = app;
    this.heart = heart;
    this.dials = { ...dials };
    this.name = "Dr Example";
    /** Cards younger than this are not answered: the app would take it for a double tap. */
    this.pauseMs = 60;
  }

  /** The card as a person sees it. */
  look() {
    return this.app.script(`
      const shown = [...document.querySelectorAll("#card [data-key]")].filter((one) => !one.closest("[hidden]"));
      return {
        card: document.getElementById("card").dataset.card,
        keys: shown.map((one) => one.dataset.key),
        fields: [...document.querySelectorAll("#card input")].map((one) => one.id),
        stands: document.querySelector('#card [data-key="stands"]')?.innerText ?? null,
        listed: [...document.querySelectorAll("#card .items .item")]
          .map((item) => [item.querySelector(".text").innerText, item.querySelector(".position b")?.innerText])
          .filter(([, figure]) => figure),
        title: document.querySelector("#card .instruction, #card .question")?.innerText ?? "",
        text: document.getElementById("card").innerText,
      };`);
  }

  /** Answers card after card until `stop` says yes to one; resolves to that card. */
  async carryOn(stop, { mostCards = 200 } = {}) {
    for (let count = 0; count < mostCards; count += 1) {
      const card = await this.#readable(stop);
      if (stop(card)) return card;
      await this.#answer(card);
      await this.#changed(card);
    }
    throw new Error(`still not there after ${mostCards} cards`);
  }

  /** Waits until the card has an answer that is true, or is the one to stop at, and looks at it for a moment. */
  async #readable(stop) {
    await sleep(this.pauseMs);
    let card;
    let seen;
    const answerable = async () => {
      card = await this.look();
      if (stop(card)) return card;
      const choice = this.#choice(card);
      if (choice && choice === seen) return card;
      seen = choice;
      if (choice) await sleep(this.pauseMs);
    };
    return until("a true answer", answerable, { everyMs: 60 }).catch((fault) => {
      throw new Error(`${fault.message}; dials ${JSON.stringify(this.dials)}; the card:\n${card.text}`);
    });
  }

  /** Waits until the card, or what it offers, is another than `before`. */
  #changed(before) {
    return until(`another card than "${before.title}"`, async () => {
      const now = await this.look();
      return now.card !== before.card || now.keys.join() !== before.keys.join();
    });
  }

  /**
   * Taps, and reads the card that comes. What stood before is read at the very tap: a card may change by itself while
   * somebody looks at it, and its lesser answers before the card does.
   */
  async answered(key) {
    await this.#seen(key);
    const before = await this.look();
    await this.click(key);
    return until(`the card after "${before.title}"`, async () => {
      const now = await this.look();
      return now.card !== before.card && now;
    });
  }

  /** Does nothing to a card that has changed by itself since it was looked at. */
  async #answer(card) {
    const now = await this.look();
    if (now.card !== card.card || now.stands !== card.stands) return;
    if (card.stands) this.#turn(card.stands);
    const key = this.#choice(card);
    if (key === "all-true") card.listed.forEach((turn) => this.#turnListed(turn));
    if (process.env.PERSON_LOG) console.log(`${Math.round(performance.now())} ms  ${card.title}  ${card.stands ?? ""}  → ${key}`);
    if (card.fields.length > 0) await this.fill(card.fields);
    await this.click(key);
  }

  /** One answer, on the glass. A test may give it another finger. */
  click(key) {
    return this.app.click(key);
  }

  /** Waits for the button, looks at its card as long as a person does, and taps. */
  async tap(key) {
    await this.#seen(key);
    await this.click(key);
  }

  /** Waits for the button, and looks at its card as long as a person does. */
  async #seen(key) {
    await this.app.find(byKey(key));
    await sleep(this.pauseMs);
  }

  /** "Beats again" needs no watch; else a dial that was asked for stands first; else the first true answer. */
  #choice(card) {
    const truths = this.#truths();
    if (card.stands && !(card.keys.includes("beats-again") && truths["beats-again"])) return "stands";
    return card.keys.find((key) => truths[key]);
  }

  #turn(label) {
    const [, dial, position] = /^(OUTPUT|RATE|mV) stands at (\S+)/.exec(label.replace(/\s+/g, " ")) ?? [];
    if (!dial) throw new Error(`not a dial and a position: ${label}`);
    this.dials[dial.toLowerCase()] = position;
  }

  /** A list of dials is done, each to its figure, before it is said to be. */
  #turnListed([text, figure]) {
    const [dial] = /OUTPUT|RATE|mV/.exec(text) ?? [];
    if (!dial) throw new Error(`not a dial: ${text}`);
    this.dials[dial.toLowerCase()] = figure;
  }

  /** Types what each field of the card asks for. */
  async fill(fields) {
    const said = { ...this.dials, slowest: `${this.heart.own}`, fastest: `${this.heart.own}` };
    for (const id of fields) {
      await this.app.press(`#${id}`);
      const text = said[id] ?? this.name;
      if (id in said) for (const digit of text) await this.app.click(`pad-${digit}`);
      else await this.app.keys(text);
    }
  }

  #truths() {
    const output = Number(this.dials.output);
    const faster = Number(this.dials.rate) > this.heart.own;
    const sees = Number(this.dials.mv) <= this.heart.signal;
    const captures = output >= this.heart.captures;
    const paced = captures && faster;
    return {
      done: true,
      yes: true,
      "all-true": true,
      fine: true,
      "p-waves": true,
      "no-spikes": sees && !faster,
      "own-held": !faster,
      "every-beat-paced": paced,
      "still-paced": paced,
      "only-own": !paced,
      "every-beat-marked": sees,
      "beat-not-marked": !sees,
      "every-spike": paced,
      "spike-without-beat": faster && !captures,
      "beats-again": captures,
    };
  }
}

export { byKey };
