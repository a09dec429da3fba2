// What the card on the glass says, to people who wait for a word of it.
import { until } from "../driver.mjs";

/** All that the card says now. */
export function saidNow(app) {
  return app.script("return document.getElementById('card').innerText;");
}

/** Waits until the card says it; resolves to all that it said then. */
export function untilSaid(app, pattern) {
  return until(`${pattern}`, async () => {
    const said = await saidNow(app);
    return pattern.test(said) && said;
  });
}

/** Waits until the card no longer says it. */
export function untilUnsaid(app, pattern) {
  return until(`no ${pattern}`, async () => !pattern.test(await saidNow(app)));
}
