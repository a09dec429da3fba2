import assert from "node:assert/strict";
import { test } from "node:test";
import { untilSaid } from "./said.mjs";
import { another, tablet } from "./ward.mjs";

test("a second start on the same folder says so, offers nothing, and leaves the first alone", async (t) => {
  const ward = await tablet(t, { size: [800, 1280] });
  const second = await another(ward);
  t.after(() => second.close());
  const said = await untilSaid(second, /\S/);
  assert.match(said, /open|running|use/i);
  assert.equal(await second.has("#card button"), false);

  await ward.app.click("welcomed");
  assert.ok(await ward.app.find('[data-key="add-bed"]'), "the first still takes taps");
});
