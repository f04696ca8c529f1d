/** Starts the page: theme, host, worker, keys, and the view. */
import "./style/index.css";
import "./burst/burst.css";
import "./driver/driver.css";
import { effect } from "@preact/signals";
import { render } from "preact";
import { App } from "./app.tsx";
import { followBursts } from "./burst/burst-state.ts";
import { followMaps } from "./drawing/field-maps.ts";
import { listenForKeys } from "./gestures/registry.ts";
import { keepOffline } from "./host/keep-offline.ts";
import { rooms } from "./rooms/registry.ts";
import { followText } from "./state/answers.ts";
import { dirty, drawable } from "./state/document.ts";
import { begin, host, keepDraft } from "./state/filing.ts";
import { followTheme, room } from "./state/view.ts";
import { followQuestions } from "./why/explanations.ts";

function followAddress(): void {
  const follow = () => {
    const wanted = location.hash.slice(1);
    const known = rooms.find(({ id }) => id === wanted);
    if (known !== undefined) room.value = known.id;
    else if (wanted === "") room.value = rooms[0]?.id ?? "";
  };
  addEventListener("hashchange", follow);
  follow();
}

followTheme();
followAddress();
followText();
followMaps();
followBursts();
followQuestions();
listenForKeys();
addEventListener("beforeunload", (event) => {
  if (dirty.value) event.preventDefault();
});
await begin();
if (host.value.kind === "browser") void keepOffline();
effect(keepDraft);
effect(() => {
  const coil = drawable.value?.coil.name;
  document.title = coil === undefined ? "Coilwright" : `${dirty.value ? "• " : ""}${coil} – Coilwright`;
});
const root = document.getElementById("root");
if (root !== null) render(<App />, root);
