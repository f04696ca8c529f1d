/** Who must stand where, and what can still hurt? */
import "./standoff.css";
import type { ComponentChildren } from "preact";
import { contactWords, depthWords, mark, shown, span, storeWords, timeText } from "../../views/standoff-words.ts";
import { keepOff } from "../../workbench/keep-off.ts";
import type { Standoff } from "../../workbench/standoff-contract.ts";
import { FindingItem } from "../findings/finding-item.tsx";
import { downloadBlob } from "../host/pick-file.ts";
import { Ledger } from "../ledger/ledger.tsx";
import { answer } from "../state/answers.ts";
import { drawable } from "../state/document.ts";
import { acknowledge, behindStandoff, followStandoff, found } from "./standoff-state.ts";
import { FieldTable, TouchTable } from "./standoff-tables.tsx";

// The room's inside is fetched once: from here on it keeps up with the text.
followStandoff();

const groups = ["stand-off"];

export function StandoffRoom() {
  const { standoff, checklist, plan, section, findings, failed } = found.value ?? {};
  if (standoff === undefined) {
    return (
      <div class="room">
        <p class="empty" id="standoff-page" tabIndex={-1}>
          {failed ?? answer.value?.failed ?? "Stand-off appears here when the coil has been solved."}
        </p>
      </div>
    );
  }
  return (
    <div class="room standoff-room" data-behind={behindStandoff.value || undefined}>
      <div class="standoff-main" id="standoff-page" tabIndex={-1}>
        <p class="standoff-closing">{standoff.closing}</p>
        <Line standoff={standoff}>
          <div class="floor-pair">
            <Floor svg={plan} name="Plan" says={planWords(standoff)} />
            <Floor
              svg={section}
              name="Section"
              says="Section through the room on the audience's side, to the same scale."
            />
          </div>
        </Line>
        <Touch standoff={standoff} />
        <StoredEnergy standoff={standoff} />
        {standoff.fields && (
          <Part title="Fields, nobody touching anything">
            <FieldTable fields={standoff.fields} line={standoff.figures.get("standoff.audience")?.value} />
          </Part>
        )}
        <Noise standoff={standoff} />
        <Part title="Cautions">
          <dl class="cautions">
            {standoff.cautions.map(({ id, title, says }) => (
              <div key={id}>
                <dt>{title}</dt>
                <dd>{says.join(" ")}</dd>
              </div>
            ))}
          </dl>
        </Part>
        {checklist && (
          <Part title="Show day: one does, one reads and watches">
            {checklist.map(({ title, items }) => (
              <section key={title} aria-label={title}>
                <h3>{title}</h3>
                <ul class="day-list">
                  {items.map(({ id, says, by }) => (
                    <li key={id}>{`${says} (${by})`}</li>
                  ))}
                </ul>
              </section>
            ))}
          </Part>
        )}
      </div>
      <aside class="standoff-side" aria-label="Hazards, findings, figures">
        <Hazards standoff={standoff} />
        {findings !== undefined && findings.length > 0 && (
          <section class="room-findings" aria-labelledby="standoff-findings">
            <h2 id="standoff-findings">Findings of this room</h2>
            <ol>
              {findings.map((finding) => (
                <FindingItem key={`${finding.rule} ${finding.path} ${finding.what}`} finding={finding} />
              ))}
            </ol>
          </section>
        )}
        <Ledger only={groups} figures={standoff.figures} intervals={noIntervals} />
      </aside>
    </div>
  );
}

/** Stand-off's figures carry their own intervals. */
const noIntervals = new Map();

export function Part({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  const id = `part-${title.toLowerCase().replace(/[^a-z]+/g, "-")}`;
  return (
    <section class="standoff-part" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}

function planWords({ figures }: Standoff): string {
  const at = (id: string) => {
    const value = figures.get(id)?.value;
    return value === undefined ? "not known" : keepOff(value);
  };
  return `Plan of the room from above, to scale. Reach of the arc ${at("standoff.reach")}, strike distance ${at("standoff.strike")}, line for bystanders ${at("standoff.audience")}.`;
}

function Line({
  standoff: { line, figures, basis, missing },
  children,
}: {
  readonly standoff: Standoff;
  readonly children: ComponentChildren;
}) {
  const [reach, strike, audience] = ["standoff.reach", "standoff.strike", "standoff.audience"].map((id) =>
    figures.get(id),
  );
  return (
    <Part title="The line">
      {reach === undefined || strike === undefined || audience === undefined ? (
        <p>No reach can be computed from this file, and so no line: nobody but the operator in the room.</p>
      ) : (
        <p class="line-says">
          <b>{`Bystanders at ${keepOff(audience.value)} or more from the axis, behind a barrier.`}</b>
          {` The arc may reach ${keepOff(reach.value)} ${basis}; nobody and nothing earthed within ${keepOff(strike.value)} of where it may break out.`}
        </p>
      )}
      {children}
      <table class="line-table">
        <caption class="only-heard">What asks for which distance</caption>
        <thead>
          <tr>
            <th scope="col">distance</th>
            <th scope="col">asked for by</th>
            <th scope="col">source</th>
          </tr>
        </thead>
        <tbody>
          {line.candidates.map(({ id, says, distance, source }) => (
            <tr key={id} data-decides={id === line.decides?.id || undefined}>
              <td class="number">{distance === undefined ? "–" : keepOff(distance)}</td>
              <th scope="row">{id === line.decides?.id ? `${says}: decides` : says}</th>
              <td>{mark(source)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {missing.length > 0 && (
        <ul class="not-known" aria-label="Not in the file">
          {missing.map(({ path, says }) => (
            <li key={`${path} ${says}`}>{path === "" ? says : `${path}: ${says}`}</li>
          ))}
        </ul>
      )}
    </Part>
  );
}

function Floor({
  svg,
  name,
  says,
}: {
  readonly svg: string | undefined;
  readonly name: string;
  readonly says: string;
}) {
  if (svg === undefined) return null;
  return (
    <figure class="floor">
      <img src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`} alt={says} />
      <figcaption>
        {name}
        <button
          type="button"
          onClick={() => downloadBlob(`${name.toLowerCase()}.svg`, new Blob([svg], { type: "image/svg+xml" }))}
        >
          {`${name} as SVG`}
        </button>
      </figcaption>
    </figure>
  );
}

function Touch({ standoff: { touch } }: { readonly standoff: Standoff }) {
  const { first, bands, contacts, objects, not, pulse } = touch;
  const deep = depthWords(touch);
  return (
    <Part title="Touch: why it hurts, never a permission">
      <ul class="first-words">
        {first.map((says) => (
          <li key={says}>{says}</li>
        ))}
      </ul>
      {pulse && (
        <p>
          {`One spark from the top, ${shown(pulse.capacitance, "F")} at ${shown(pulse.voltage, "V")} through 500 Ω: ${shown(pulse.peak, "A")} for ${shown(pulse.duration, "s")}, ${shown(pulse.charge, "C")}, ${shown(pulse.energy, "J")}. Felt from ${shown(pulse.felt[0], "C")}, painful from ${shown(pulse.painful[0], "C")}, from memory.`}
        </p>
      )}
      <TouchTable bands={bands} />
      {deep !== undefined && <p>{deep}</p>}
      <ul>
        {contacts.map((contact) => (
          <li key={contact.name}>{contactWords(contact)}</li>
        ))}
        {objects.map(({ name, says }) => (
          <li key={name}>{`${name}: ${says}`}</li>
        ))}
      </ul>
      <ul class="not-this">
        {not.map((says) => (
          <li key={says}>{says}</li>
        ))}
      </ul>
    </Part>
  );
}

function StoredEnergy({ standoff: { stored } }: { readonly standoff: Standoff }) {
  return (
    <Part title="Stored energy">
      <ul>
        {stored.stores.map((one) => (
          <li key={one.path}>
            {storeWords(one)}
            {one.comparisons.some(({ over }) => over) && (
              <span class="over">
                {` Over: ${one.comparisons
                  .filter(({ over }) => over)
                  .map((line) => `${line.says} (${mark(line.source)})`)
                  .join("; ")}.`}
              </span>
            )}
          </li>
        ))}
      </ul>
      <ol>
        {stored.steps.map((says) => (
          <li key={says}>{says}</li>
        ))}
      </ol>
    </Part>
  );
}

function Noise({ standoff: { noise } }: { readonly standoff: Standoff }) {
  if (noise === undefined) return null;
  const { levelAt1m, levelAtLine, timeToFullDose, measured, notes } = noise;
  return (
    <Part title="Noise">
      <p>
        {`About ${shown(levelAt1m.value, "dB(A)")} at 1 m in the open (${span(levelAt1m, "dB(A)")}), ${measured ? "from the level that was measured" : "estimated"}.`}
        {levelAtLine &&
          timeToFullDose &&
          ` At the line ${shown(levelAtLine.value, "dB(A)")} (${span(levelAtLine, "dB(A)")}): a day's dose of 85 dB(A) over 8 h with 3 dB exchange is full after ${timeText(timeToFullDose.low)} at the loud end.`}
        {" Hearing protection for operator and first rows, always."}
      </p>
      <ul>
        {notes.map((says) => (
          <li key={says}>{says}</li>
        ))}
      </ul>
    </Part>
  );
}

function Hazards({ standoff: { hazards } }: { readonly standoff: Standoff }) {
  // From the text on the table: the answer of the worker comes a moment later.
  const taken: readonly string[] = drawable.value?.coil.show?.acknowledged ?? [];
  const open = hazards.filter(({ name }) => !taken.includes(name)).length;
  return (
    <section class="hazards" aria-labelledby="hazards-title">
      <h2 id="hazards-title">Hazards to take on by name</h2>
      <p class="small">
        {open === 0
          ? "All were taken on in the file. That is no permission; it is a promise to the people in the room."
          : `${open} of ${hazards.length} are not taken on in the file: no show sheet is printed.`}
      </p>
      <ul>
        {hazards.map(({ name, says }) => (
          <li key={name}>
            <label>
              <input
                type="checkbox"
                checked={taken.includes(name)}
                onChange={(event) => acknowledge(name, event.currentTarget.checked)}
              />
              <span>
                <b>{name}</b> {says}
              </span>
            </label>
          </li>
        ))}
      </ul>
    </section>
  );
}
