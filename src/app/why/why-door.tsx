/** The answers to "why", with all definitions and sources behind them, which are fetched when the first question is asked. */
import { useRef } from "preact/hooks";
import { lazyView } from "../frame/lazy-view.tsx";
import { asked } from "../state/view.ts";

function Meanwhile({ failed }: { readonly failed: boolean }) {
  if (!failed || asked.value === undefined) return null;
  return (
    <aside class="why-drawer">
      <p role="alert">The answer could not be fetched. Load the page again.</p>
    </aside>
  );
}

const Drawer = lazyView(async () => (await import("./why-drawer.tsx")).WhyDrawer, Meanwhile);

export function WhyDoor() {
  // once opened it stays, to give the focus back when it closes
  const opened = useRef(false);
  opened.current ||= asked.value !== undefined;
  return opened.current ? <Drawer /> : null;
}
