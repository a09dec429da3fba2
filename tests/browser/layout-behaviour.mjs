// How the page behaves: keyboard, taps under pushes, what is spoken, what runs by itself and what does not.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { KEYS, until } from "./driver.mjs";
import { goldenViews } from "./layout-cases.mjs";

/** Numbered, so that each is another card to the page; a watch and its end are one card. */
const stems = [...new Set(goldenViews().map(({ name }) => stem(name)))];
const golden = Object.fromEntries(goldenViews().map(({ name, view }) => [name, { ...view, card: stems.indexOf(stem(name)) + 1 }]));

function stem(name) {
  return name.replace(/-(watching|open)$/, "");
}

/** @param {{page: any, url: string}} world filled before the tests run */
export function behaviours(world) {
  const script = (body, ...args) => world.page.script(body, ...args);
  const show = (view) => script("replay.show(arguments[0])", view);
  const sent = () => script("return replay.sent.splice(0)");
  const focused = () => script("return document.activeElement.dataset.key ?? document.activeElement.id ?? ''");

  async function fresh() {
    await world.page.go(world.url);
    await world.page.setSize(800, 1280);
  }

  describe("fixed sentences", () => {
    const visible = (id) => script("return !document.getElementById(arguments[0]).hidden", id);

    test("say that nothing runs until the first view, and again when a card cannot be drawn", async () => {
      await fresh();
      assert.equal(await visible("not-running"), true);
      await show(golden["capture-down-open"]);
      assert.equal(await visible("not-running"), false);
      await show({ ...golden["capture-down-open"], shape: { kind: "unheard-of" } });
      assert.equal(await visible("not-running"), true);
      assert.equal(await script("return document.querySelectorAll('.card button').length"), 0);
      await show(golden["capture-down-open"]);
      assert.equal(await visible("not-running"), false);
      assert.ok(await world.page.has('[data-key="every-spike"]'));
    });

    test("say when the host did not take a tap, until the next view", async () => {
      await fresh();
      await show(golden["capture-down-open"]);
      await script("replay.deaf = true");
      await world.page.click("every-spike");
      await until("the sentence", () => visible("not-taken"));
      await show(golden["capture-down-open"]);
      assert.equal(await visible("not-taken"), false);
    });
  });

  test("no view breaks the app's content security policy", async () => {
    await fresh();
    await script("window.broken = []; addEventListener('securitypolicyviolation', (event) => broken.push(event.violatedDirective))");
    for (const view of Object.values(golden)) await show(view);
    assert.deepEqual(await script("return broken"), []);
  });

  test("a notice that comes onto a card stands in line with its buttons", async () => {
    await fresh();
    const told = golden["screen-approve-nothing"];
    await show({ ...told, notice: null });
    await show(told);
    const edges = await script(`return [".notice", ".answers"].map((part) => {
      const { left, right } = document.querySelector(part).getBoundingClientRect();
      return [left, right];
    });`);
    assert.deepEqual(edges[0], edges[1]);
  });

  test("a reading with room keeps its words large", async () => {
    await fresh();
    const sizes = [];
    for (const name of ["read-found", "read-back", "slip"]) {
      await show(golden[name]);
      sizes.push(await script("return getComputedStyle(document.querySelector('.instruction')).fontSize"));
    }
    assert.deepEqual(sizes, [sizes[0], sizes[0], sizes[0]]);
  });

  test("each painted card is acknowledged", async () => {
    await fresh();
    await show(golden["restore"]);
    await until("the acknowledgement", () => script("return replay.painted.includes(arguments[0])", golden["restore"].card));
  });

  describe("taps", () => {
    test("an act goes back as it came, with its card and without values it did not ask for", async () => {
      await fresh();
      await show(golden["capture-down-open"]);
      await world.page.click("every-spike");
      const [act] = golden["capture-down-open"].answers.slice(-1);
      const [{ stood_ms, ...tap }, ...more] = await sent();
      assert.deepEqual([tap, ...more], [{ card: golden["capture-down-open"].card, command: act.command, values: {} }]);
      assert.ok(Number.isInteger(stood_ms) && stood_ms >= 0, `stood for ${stood_ms} ms`);
    });

    test("none is lost while a view is pushed every 20 ms", async () => {
      await fresh();
      await show(golden["capture-down-watching"]);
      await script("window.pushing = setInterval(() => replay.show({ ...arguments[0], now_ms: arguments[0].now_ms + 20 }), 20)", golden["capture-down-watching"]);
      for (let tap = 0; tap < 10; tap += 1) await world.page.click("spike-without-beat");
      await script("clearInterval(pushing)");
      assert.equal((await sent()).length, 10);
    });
  });

  describe("keyboard", () => {
    test("Tab follows the card from top to bottom, Enter and Space answer", async () => {
      await fresh();
      await show(golden["sense-up-watching"]);
      const order = await script("return [...document.querySelectorAll('.card button')].map((one) => one.dataset.key)");
      assert.deepEqual(order.slice(-4), ["no-beats", "wrong", "slip", "stop"]);
      for (const key of order) {
        await world.page.keys([KEYS.Tab]);
        assert.equal(await focused(), key);
      }
      await world.page.keys([KEYS.Enter]);
      await world.page.keys([KEYS.Space]);
      assert.equal((await sent()).length, 2);
    });

    test("a new card takes the focus to its top; an answer that opens leaves it", async () => {
      await fresh();
      await show(golden["capture-down-watching"]);
      await world.page.keys([KEYS.Tab]);
      assert.equal(await focused(), "spike-without-beat");
      await show(golden["capture-down-open"]);
      assert.equal(await focused(), "spike-without-beat");
      await show(golden["capture-back-turning"]);
      assert.equal(await script("return document.activeElement.className"), "show");
    });

    describe("when a button goes and its card stays, Tab goes on in the part where it stood:", () => {
      const practising = golden["screen-practising-output"];
      const tabTo = async (key) => {
        for (let stop = 0; stop < 20 && (await focused()) !== key; stop += 1) await world.page.keys([KEYS.Tab]);
        assert.equal(await focused(), key);
      };
      const goesOnAt = async (part, key) => {
        assert.ok(await script("return document.activeElement.matches(arguments[0])", part), await script("return document.activeElement.outerHTML.slice(0, 80)"));
        await world.page.keys([KEYS.Tab]);
        assert.equal(await focused(), key);
      };

      test("a dial that is taken in hand", async () => {
        await fresh();
        await show(practising);
        await tabTo("take-rate");
        const { knobs } = golden["screen-practising-rate"].practice;
        await show({ ...practising, practice: { ...practising.practice, knobs } });
        await goesOnAt(".knobs", "rate-down");
      });

      test("the strip that is frozen, and looked back over", async () => {
        await fresh();
        await show(practising);
        await tabTo("strip-freeze");
        await world.page.keys([KEYS.Enter]);
        await goesOnAt(".monitor", "strip-earlier");
        await tabTo("strip-run");
        await world.page.keys([KEYS.Enter]);
        await goesOnAt(".monitor", "strip-freeze");
      });

      test("an answer", async () => {
        await fresh();
        const told = golden["capture-down-watching"];
        await show(told);
        await tabTo("spike-without-beat");
        await show({ ...told, answers: told.answers.filter((act) => act.key !== "spike-without-beat") });
        await goesOnAt(".acts", "no-beats");
      });
    });

    test("typed digits reach the dial being read, a comma is a point, letters are nothing", async () => {
      await fresh();
      await show(golden["read-found"]);
      await world.page.keys("3,x6");
      await world.page.keys("5", [KEYS.Backspace]);
      await script("document.getElementById('rate').focus()");
      await world.page.keys("8a0");
      await world.page.click("mv:asynchronous");
      await world.page.click("done");
      const [{ values }] = await sent();
      assert.deepEqual(values, { output: "3.6", rate: "80", mv: "asynchronous" });
    });

    test("the card's own keypad fills the field that was touched", async () => {
      await fresh();
      await show(golden["read-found"]);
      for (const key of ["pad-1", "pad-.", "pad-.", "pad-2", "pad-4", "pad-Backspace"]) await world.page.click(key);
      await world.page.press("#mv");
      for (const key of ["pad-0", "pad-.", "pad-8"]) await world.page.click(key);
      await world.page.click("done");
      const [{ values }] = await sent();
      assert.deepEqual(values, { output: "1.2", rate: "", mv: "0.8" });
    });

    test("what is half typed outlives a push of the same card and ends with it", async () => {
      await fresh();
      await show(golden["read-found"]);
      await world.page.keys("3.6");
      await show({ ...golden["read-found"], notice: "Look again." });
      assert.equal(await script("return document.getElementById('output').value"), "3.6");
      await show({ ...golden["read-found"], card: golden["read-found"].card + 1 });
      assert.equal(await script("return document.getElementById('output').value"), "");
    });
  });

  describe("what is heard and felt", () => {
    const heard = () => script("return document.querySelector('.heard').textContent");

    test("a card speaks once", async () => {
      await fresh();
      await show(golden["capture-down-watching"]);
      await until("the card to speak", async () => (await heard()) === golden["capture-down-watching"].spoken);
      await show({ ...golden["capture-down-watching"], spoken: "again" });
      await new Promise((resolve) => setTimeout(resolve, 300));
      assert.equal(await heard(), golden["capture-down-watching"].spoken);
      await show({ ...golden["restore"] });
      await until("the next card to speak", async () => (await heard()) === golden["restore"].spoken);
    });

    test("the end of a watch is felt once, when the good answer is pushed and not before", async () => {
      await fresh();
      await script("window.felt = []; navigator.vibrate = (ms) => felt.push(ms)");
      const watching = golden["capture-down-watching"];
      const ending = { ...watching.shape.watch, until_ms: watching.now_ms + 100 };
      await show({ ...watching, shape: { ...watching.shape, watch: ending } });
      await new Promise((resolve) => setTimeout(resolve, 400));
      assert.deepEqual(await script("return felt"), []);
      assert.equal(await world.page.has('[data-key="every-spike"]'), false);
      await show(golden["capture-down-open"]);
      await show(golden["capture-down-open"]);
      await until("the pulse", () => script("return felt.length > 0"));
      assert.equal((await script("return felt")).length, 1);
    });

    test("the bar of a watch stands where its time is, also when the page came late", async () => {
      await fresh();
      const late = golden["own-hold-watching"];
      const watch = { ...late.shape.watch, from_ms: late.now_ms - 30_000, until_ms: late.now_ms + 30_000 };
      await show({ ...late, shape: { ...late.shape, watch } });
      const filled = await script("return new DOMMatrix(getComputedStyle(document.querySelector('.fill')).transform).a");
      assert.ok(filled > 0.49 && filled < 0.6, `filled to ${filled}`);
    });

    test("a clock runs on by itself from the time the view brought", async () => {
      await fresh();
      const view = golden["sense-up-watching"];
      await show({ ...view, safety: { ...view.safety, exposed: { ...view.safety.exposed, since_ms: view.now_ms - 59_500 } } });
      const reads = () => script("return document.querySelector('.exposed b').textContent");
      assert.equal(await reads(), "0:59");
      await until("the next second", async () => (await reads()) === "1:00");
    });
  });
}
