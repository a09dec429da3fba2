// Serves one folder on loopback, for pages that are looked at outside the app.
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".ttf": "font/ttf",
  ".woff2": "font/woff2",
  ".png": "image/png",
};

/** Resolves to `{ url, close }`. `headers` go with every answer, the app's own CSP for example. */
export function serve(folder, headers = {}) {
  const server = createServer(async (asked, answer) => {
    const path = normalize(decodeURIComponent(new URL(asked.url, "http://localhost").pathname));
    try {
      const body = await readFile(join(folder, path));
      answer.writeHead(200, { "content-type": TYPES[extname(path)] ?? "application/octet-stream", ...headers });
      answer.end(body);
    } catch {
      answer.writeHead(404).end();
    }
  });
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      resolve({ url: `http://127.0.0.1:${server.address().port}`, close: () => server.close() });
    });
  });
}
