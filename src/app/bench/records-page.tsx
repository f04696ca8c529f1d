/** Records on the left hand of the drawing: picture, comparison, causes; and beside them what each record is and says. */
import { useRef } from "preact/hooks";
import { captures, matchBehind, matched, practise, shownId, takeFiles } from "./bench-state.ts";
import { CaptureCard } from "./capture-card.tsx";
import { CausesList, Verdict } from "./causes-list.tsx";
import { DrawnTable } from "./drawn-table.tsx";
import { RecordPictures } from "./record-pictures.tsx";

const kinds = ".csv,.txt,.tsv,.wav,.json,text/csv,text/plain,audio/wav";

function PickRecords({ wide }: { readonly wide: boolean }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <div class={wide ? "drop-here" : undefined}>
      {wide && (
        <>
          <h2>Lay a record on the bench</h2>
          <p>
            Drop one or several files of an oscilloscope or a sound card anywhere in this room: CSV, WAV, JSON, or a
            sweep of frequency and amplitude.
          </p>
        </>
      )}
      <input
        ref={input}
        type="file"
        multiple
        hidden
        accept={kinds}
        aria-label="Files of records"
        onChange={(event) => {
          takeFiles([...(event.currentTarget.files ?? [])]);
          event.currentTarget.value = "";
        }}
      />
      <button type="button" onClick={() => input.current?.click()}>
        Pick records…
      </button>
      {wide && (
        <p class="practise">
          Nothing at hand? A record can be made up from this coil with one thing changed, to find out what.{" "}
          <button type="button" class="quiet" onClick={() => void practise()}>
            Make one up to practise
          </button>
        </p>
      )}
    </div>
  );
}

export function RecordsPage() {
  const all = captures.value;
  const answer = matched.value;
  const at = answer?.ids.indexOf(shownId.value ?? -1) ?? -1;
  return (
    <div class="bench-table">
      <div class="bench-studies" data-behind={matchBehind.value || undefined}>
        {all.length === 0 && <PickRecords wide />}
        {answer !== undefined && (
          <>
            {answer.match === undefined ? (
              <p class="empty wrong">{`No comparison: ${answer.refused}`}</p>
            ) : (
              <Verdict match={answer.match} />
            )}
            {at >= 0 && (
              <RecordPictures
                key={answer.ids[at]}
                overlays={answer.overlays[at] ?? []}
                sweep={answer.sweeps[at]}
                match={answer.match}
              />
            )}
            {answer.match !== undefined && (
              <>
                <CausesList match={answer.match} />
                <DrawnTable match={answer.match} />
              </>
            )}
          </>
        )}
        {all.length > 0 && answer === undefined && (
          <p class="empty">The comparison appears here when a record has been read.</p>
        )}
      </div>
      <div class="bench-side">
        <header class="side-head">
          <h2>Records</h2>
          {all.length > 0 && <PickRecords wide={false} />}
        </header>
        {all.length === 0 && <p class="empty">None yet. They stay in this browser and go nowhere.</p>}
        <ol>
          {all.map((view) => (
            <CaptureCard key={view.id} view={view} />
          ))}
        </ol>
      </div>
    </div>
  );
}
