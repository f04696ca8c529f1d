/** Two kinds of test: `unit` runs in Node, `browser` drives a real browser against the built app. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["test/**/*.test.{ts,tsx}"],
          exclude: ["test/browser/**"],
          environment: "node",
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: "browser",
          include: ["test/browser/**/*.test.ts"],
          environment: "node",
          globalSetup: ["test/browser/global-setup.ts"],
          // One browser at a time keeps the timing of gestures honest on a small machine.
          fileParallelism: false,
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
