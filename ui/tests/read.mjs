// A file of the page as the app gets it: types taken off, imports found, by vite.
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

export async function read(file) {
  const { module } = await runnerImport(fileURLToPath(new URL(`../src/${file}`, import.meta.url)));
  return module;
}
