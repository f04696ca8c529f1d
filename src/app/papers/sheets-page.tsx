/** The sheets: chosen from a list, looked at as they print, handed over as files. */
import type { SheetFormat } from "../../views/sheets/index.ts";
import { answer } from "../state/answers.ts";
import type { LaidSheet } from "./paper-work.ts";
import { behindPapers, chosenSheet, handOver, laid, setting, shownSheet, writing } from "./papers-state.ts";

const formatNames: Readonly<Record<SheetFormat, string>> = { pdf: "PDF", svg: "SVG", dxf: "DXF", csv: "CSV" };

export function SheetsPage() {
  const found = laid.value;
  if (found === undefined || found.failed !== undefined) {
    return (
      <p class="empty">{found?.failed ?? answer.value?.failed ?? "The sheets are laid when the coil is solved."}</p>
    );
  }
  const sheet = shownSheet.value;
  return (
    <div class="sheets" data-behind={behindPapers.value || undefined}>
      <div class="sheets-side">
        <Choices />
        <ul class="sheet-list" aria-label="Sheets">
          {found.sheets.map((one) => (
            <li key={one.id}>
              <button type="button" aria-pressed={one.id === sheet?.id} onClick={() => choose(one.id)}>
                <b>{one.title}</b>
                <span>{one.without === undefined ? one.says : `Not for this coil yet: ${one.without}`}</span>
              </button>
            </li>
          ))}
        </ul>
        <button type="button" disabled={writing.value} onClick={() => void handOver(["pdf", "svg", "dxf", "csv"])}>
          All sheets as one ZIP
        </button>
        <p class="aside">
          Print at 100 %, without fitting to the page, and lay a rule on the check line before anything is drilled. No
          sheet is a permission to switch on.
        </p>
      </div>
      {sheet && <ShownSheet sheet={sheet} />}
    </div>
  );
}

/** Where the list stands above the sheet, the sheet comes into sight. */
function choose(id: string): void {
  chosenSheet.value = id;
  if (matchMedia("(width < 760px)").matches) document.getElementById("sheet-title")?.scrollIntoView();
}

function Choices() {
  const now = setting.value;
  return (
    <div class="sheet-choices">
      <label>
        Paper
        <select
          value={now.paper}
          onChange={(event) => {
            setting.value = { ...now, paper: event.currentTarget.value === "letter" ? "letter" : "a4" };
          }}
        >
          <option value="a4">A4</option>
          <option value="letter">Letter</option>
        </select>
      </label>
      <label>
        Lengths
        <select
          value={now.lengths}
          onChange={(event) => {
            setting.value = { ...now, lengths: event.currentTarget.value === "in" ? "in" : "mm" };
          }}
        >
          <option value="mm">metric</option>
          <option value="in">inch</option>
        </select>
      </label>
    </div>
  );
}

function ShownSheet({ sheet }: { readonly sheet: LaidSheet }) {
  return (
    <section class="shown-sheet" aria-labelledby="sheet-title">
      <header class="wave-bar">
        <h2 id="sheet-title">{sheet.title}</h2>
        {sheet.formats.length > 0 && (
          <fieldset class="cluster" aria-label={`${sheet.title} as a file`}>
            {sheet.formats.map((format) => (
              <button
                key={format}
                type="button"
                disabled={writing.value}
                onClick={() => void handOver([format], sheet.id)}
              >
                {formatNames[format]}
              </button>
            ))}
          </fieldset>
        )}
      </header>
      {sheet.without !== undefined && <p class="empty">{`Not for this coil yet: ${sheet.without}.`}</p>}
      {sheet.blocks.length > 0 && (
        <ul class="sheet-blocks" aria-label="What stands between this coil and the sheet">
          {sheet.blocks.map((what) => (
            <li key={what}>{what}</li>
          ))}
        </ul>
      )}
      <div class="sheet-pages">
        {sheet.pages.map((svg, n) => (
          <figure key={`${sheet.id}-${n}`}>
            <img
              src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`}
              alt={`${sheet.title}, page ${n + 1} of ${sheet.pages.length}`}
            />
            <figcaption>{`page ${n + 1} of ${sheet.pages.length}`}</figcaption>
          </figure>
        ))}
      </div>
    </section>
  );
}
