import { defineConfig } from "vite";

// Two builds: the page the app ships, and the replay page that shows golden views in a plain browser.
export default defineConfig(({ mode }) => ({
  base: "./",
  build: {
    outDir: mode === "replay" ? "dist-replay" : "dist",
    emptyOutDir: true,
    target: "safari16",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: { input: mode === "replay" ? "replay.html" : "index.html" },
  },
}));
