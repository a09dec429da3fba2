import { readFileSync } from "node:fs";
import { join } from "node:path";

/** The app's own policy as a header, so that the page is tested under it; fetching golden views is allowed on top. */
export function contentSecurityPolicy(root) {
  const { app } = JSON.parse(readFileSync(join(root, "src-tauri/tauri.conf.json"), "utf8"));
  const rules = { ...app.security.csp, "connect-src": "'self'" };
  return Object.entries(rules)
    .map(([name, sources]) => `${name} ${[sources].flat().join(" ")}`)
    .join("; ");
}
