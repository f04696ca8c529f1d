/** A browser window is tried only where one could appear. */
import { describe, expect, it } from "vitest";
import { hasDisplay } from "../../src/server/open-browser.ts";

describe("hasDisplay", () => {
  it.each([
    ["a desktop", { DISPLAY: ":0" }, "linux", true],
    ["a Wayland desktop", { WAYLAND_DISPLAY: "wayland-0" }, "linux", true],
    ["a console", {}, "linux", false],
    ["an empty name of a display", { DISPLAY: "" }, "linux", false],
    ["a remote shell", { DISPLAY: "localhost:10.0", SSH_CONNECTION: "10.0.0.1 1 10.0.0.2 22" }, "linux", false],
    ["a continuous-integration run", { DISPLAY: ":99", CI: "true" }, "linux", false],
    ["a system that always has a desktop", {}, "darwin", true],
  ] as const)("%s", (_what, environment, platform, expected) => {
    expect(hasDisplay(environment, platform)).toBe(expected);
  });
});
