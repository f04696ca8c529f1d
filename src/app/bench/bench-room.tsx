/** Does what I measured agree with what I drew? */
import "./bench.css";
import { signal } from "@preact/signals";
import type { FunctionComponent } from "preact";
import { useEffect } from "preact/hooks";
import { dropTaker } from "../state/view.ts";
import { loadLog } from "./bench-log.ts";
import { followBench, progress, stopWork, takeFiles } from "./bench-state.ts";
import { BringUpPage } from "./bringup-page.tsx";
import { followBringUp } from "./bringup-state.ts";
import { LogPage } from "./log-page.tsx";
import { RecordsPage } from "./records-page.tsx";

interface Page {
  readonly id: string;
  readonly name: string;
  readonly View: FunctionComponent;
}

const pages: readonly Page[] = [
  { id: "records", name: "Records", View: RecordsPage },
  { id: "bring-up", name: "Bring-up", View: BringUpPage },
  { id: "log", name: "Log", View: LogPage },
];
const open = signal("records");
let isFollowing = false;

/** What is being done, how far it is, and a way to end it. */
function Working() {
  const now = progress.value;
  return (
    <div class="working-line" role="status" data-idle={now === undefined || undefined}>
      {now !== undefined && (
        <>
          <span>{now.says}</span>
          {now.share !== undefined && <progress aria-label="read so far" value={now.share} max={1} />}
          <button type="button" onClick={stopWork}>
            Stop
          </button>
        </>
      )}
    </div>
  );
}

export function BenchRoom() {
  useEffect(() => {
    if (!isFollowing) {
      followBench();
      followBringUp();
    }
    isFollowing = true;
    void loadLog();
    dropTaker.value = (files, on) => {
      const [first] = files;
      const step = on instanceof Element ? on.closest<HTMLElement>("[data-step]") : null;
      if (step !== null && first !== undefined) {
        step.dispatchEvent(new CustomEvent("record", { detail: first }));
        return;
      }
      open.value = "records";
      takeFiles(files);
    };
    return () => {
      dropTaker.value = undefined;
    };
  }, []);
  const { View } = pages.find(({ id }) => id === open.value) ?? { View: RecordsPage };
  return (
    <div class="room bench-room">
      <header class="bench-bar">
        <fieldset class="cluster" aria-label="Pages of the bench">
          {pages.map(({ id, name }) => (
            <button
              key={id}
              type="button"
              aria-pressed={open.value === id}
              onClick={() => {
                open.value = id;
              }}
            >
              {name}
            </button>
          ))}
        </fieldset>
        <Working />
      </header>
      <div id="bench-page" class="bench-page" tabIndex={-1}>
        <View />
      </div>
    </div>
  );
}
