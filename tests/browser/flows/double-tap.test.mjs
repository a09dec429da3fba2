import { judged } from "./trembling.mjs";

judged("two clicks on each answer are one, from the first card of a check to its code", 3, async (person) => {
  await person.carryOn((card) => card.keys.includes("code"));
  await person.click("code");
  await person.app.find("#card .qr svg");
});
