/** One record: how its file was understood, what its channels are, how it was made, and what it says by itself. */
import { quantities } from "../../catalogue/quantities.ts";
import type { ChannelRole } from "../../description/record.ts";
import { formatQuantity } from "../../units/index.ts";
import { shareText } from "../../views/match-words.ts";
import type { CaptureView, Sayings } from "../worker/bench-answer.ts";
import { answers, matched, removeRecord, say, shownId, showRecord } from "./bench-state.ts";
import { Choice } from "./choice.tsx";
import { DialectForm, dialectText } from "./dialect-form.tsx";
import { RecordFindings } from "./record-findings.tsx";
import { TypedField } from "./typed-field.tsx";

const roles: readonly (readonly [ChannelRole, string])[] = [
  ["pickupLoop", "pickup loop"],
  ["primaryCurrent", "primary current"],
  ["bus", "bus voltage"],
  ["bridgeOutput", "bridge output"],
  ["gate", "interrupter gate"],
  ["audio", "microphone"],
  ["unknown", "not said"],
];
const states = [
  ["", "let the record say"],
  ["cold", "cold: low level, nothing near"],
  ["near", "near: lamp, rod or hand near"],
  ["low", "low bus, no streamer"],
  ["full", "full bus, streamers"],
] as const;

function ChannelLine({ view, index }: { readonly view: CaptureView; readonly index: number }) {
  const channel = view.channels[index];
  if (channel === undefined) return null;
  const { name, role, transducer, unit } = channel;
  const change = (more: Sayings["channels"][number]) =>
    void say(view.id, (says) => ({
      ...says,
      channels: { ...says.channels, [index]: { ...says.channels[index], ...more } },
    }));
  const scale = (part: Partial<NonNullable<typeof transducer>>) =>
    change({ transducer: { ratio: 1000, burden: 1, ...transducer, ...part } });
  return (
    <li class="channel">
      <Choice
        label={`${name}${unit === "1" ? "" : `, in ${unit}`}`}
        value={role}
        options={roles}
        onTake={(taken) => change({ role: taken })}
      />
      {role === "primaryCurrent" && unit !== "A" && (
        <div class="two">
          <TypedField
            label="ratio 1 :"
            dimension="ratio"
            unit="1"
            value={transducer?.ratio}
            onTake={(ratio = 0) => ratio > 0 && scale({ ratio })}
          />
          <TypedField
            label="burden"
            dimension="resistance"
            unit="Ω"
            value={transducer?.burden}
            onTake={(burden = 0) => burden > 0 && scale({ burden })}
          />
        </div>
      )}
    </li>
  );
}

function Figures({ view }: { readonly view: CaptureView }) {
  if (view.kind === "sweep") return <p class="small">{`A sweep of ${view.samples} points, without time.`}</p>;
  if (view.figures.length === 0) return <p class="small">No figure could be read from this record.</p>;
  return (
    <table class="figures-read">
      <caption class="only-heard">{`Read from ${view.name} alone`}</caption>
      <tbody>
        {view.figures.map(({ id, value, low, high, unit }) => (
          <tr key={id} data-figure={id}>
            <th scope="row" title={id}>
              {quantities.get(id)?.name ?? id}
            </th>
            <td>{formatQuantity(value, unit, { digits: quantities.get(id)?.display.digits ?? 5 })}</td>
            <td>{shareText({ value, low, high })}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

export function CaptureCard({ view }: { readonly view: CaptureView }) {
  const { id, name, says, kind } = view;
  const answer = answers.value.get(id);
  const isShown = shownId.value === id;
  const at = matched.value?.ids.indexOf(id) ?? -1;
  const assumed = matched.value?.match?.states[at]?.state;
  return (
    <li class="capture" data-shown={isShown || undefined} data-record={name}>
      <header>
        <button
          type="button"
          class="quiet"
          aria-pressed={isShown}
          disabled={kind === "none"}
          title="Show this record in the pictures"
          onClick={() => showRecord(id)}
        >
          {name}
        </button>
        <button
          type="button"
          class="square plain"
          aria-label={`Take ${name} off the bench`}
          onClick={() => removeRecord(id)}
        >
          ×
        </button>
      </header>
      <p class="small dialect">{dialectText(view)}</p>
      {answer !== undefined && (
        <details class="small">
          <summary>Made up for practice. What had been changed?</summary>
          <p>{`In this record ${answer}.`}</p>
        </details>
      )}
      <RecordFindings findings={view.findings} />
      {kind !== "none" && (
        <>
          <Figures view={view} />
          <div class="two">
            <Choice
              label="made with the coil"
              value={says.state ?? ""}
              options={
                kind === "sweep"
                  ? states.slice(0, 3)
                  : states.map(
                      ([each, words]) => [each, each === "" && assumed ? `taken for: ${assumed}` : words] as const,
                    )
              }
              onTake={(state) => void say(id, ({ state: _, ...rest }) => (state === "" ? rest : { ...rest, state }))}
            />
            {kind === "time" && (
              <TypedField
                label="bus voltage"
                dimension="voltage"
                unit="V"
                value={says.busVoltage}
                placeholder="not said"
                onTake={(busVoltage) =>
                  void say(id, ({ busVoltage: _, ...rest }) =>
                    busVoltage === undefined ? rest : { ...rest, busVoltage },
                  )
                }
              />
            )}
          </div>
          {view.channels.length > 0 && (
            <ul class="channels" aria-label={`Channels of ${name}`}>
              {view.channels.map((channel, index) => (
                <ChannelLine key={`${index} ${channel.name}`} view={view} index={index} />
              ))}
            </ul>
          )}
        </>
      )}
      <DialectForm view={view} />
    </li>
  );
}
