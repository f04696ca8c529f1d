/** A group of the drawing that is seen and not heard: what it shows is said elsewhere in words. */
import type { ComponentProps } from "preact";

export const SeenOnly = (properties: ComponentProps<"g">) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group without tabindex takes no focus
  <g aria-hidden="true" {...properties} />
);
