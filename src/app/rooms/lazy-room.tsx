/** A room whose inside is fetched when it is first opened. */
import type { FunctionComponent } from "preact";
import { lazyView } from "../frame/lazy-view.tsx";

const Meanwhile = ({ failed }: { readonly failed: boolean }) => (
  <div class="room">
    <p class="empty">{failed ? "This room could not be fetched. Load the page again." : "One moment."}</p>
  </div>
);

export const lazyRoom = (fetchInside: () => Promise<FunctionComponent>): FunctionComponent =>
  lazyView(fetchInside, Meanwhile);
