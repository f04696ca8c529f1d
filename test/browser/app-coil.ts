/** The browser test of the app: opens a coil whose numbers the tests may quote, where they name no other. */
import { lecternText } from "../views/coil-of-example.ts";
import { type OpenApp, type Opener, test as plain } from "./harness.ts";

export const test = plain.extend<{ openLectern: Opener; app: OpenApp }>({
  openLectern: async ({ open }, use) => use((options = {}) => open({ text: lecternText, ...options })),
  app: async ({ openLectern }, use) => use(await openLectern()),
});
