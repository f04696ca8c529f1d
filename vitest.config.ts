/** Three kinds of test: `unit` stands on the sources, `built` on the build, `browser` drives a real browser against the built app. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["test/**/*.test.{ts,tsx}"],
          exclude: ["test/browser/**", "test/built/**"],
          environment: "node",
          testTimeout: 20_000,
        },
      },
      {
        test: {
          name: "built",
          include: ["test/built/**/*.test.ts"],
          environment: "node",
          globalSetup: ["test/built/global-setup.ts"],
          testTimeout: 60_000,
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
