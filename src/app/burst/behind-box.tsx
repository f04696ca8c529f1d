/** A box that is dimmed while the burst in it is not that of the sliders; what is in it is not drawn again for that. */
import type { ComponentChildren } from "preact";
import { burstBehind } from "./burst-state.ts";

export function BehindBox({ class: name, children }: { readonly class: string; readonly children: ComponentChildren }) {
  return (
    <div class={name} data-behind={burstBehind.value || undefined}>
      {children}
    </div>
  );
}
