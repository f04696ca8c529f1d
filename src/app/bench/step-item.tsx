/** One step of the bring-up: what to do, what it should show, the reading, and what may be behind a difference. */
import { useEffect, useRef, useState } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { comparisonText, dimensionOf, expectationText } from "../../views/bringup-words.ts";
import { compareReading } from "../../workbench/bringup-compare.ts";
import type { BringUpStage, BringUpStep } from "../../workbench/bringup-contract.ts";
import { drawable } from "../state/document.ts";
import { readForStep } from "./bench-state.ts";
import { logReading, readFrom, readings } from "./bringup-state.ts";
import { ExpectedPlot } from "./expected-plot.tsx";
import { TypedField } from "./typed-field.tsx";

interface Properties {
  readonly stage: BringUpStage;
  readonly step: BringUpStep;
  readonly number: string;
  /** Whether what stands before every touch was ticked. */
  readonly isOpen: boolean;
}

export function StepItem({ stage, step, number, isOpen }: Properties) {
  const { id, does, probe, bus, expects, picture, shows, stop, differs } = step;
  const input = useRef<HTMLInputElement>(null);
  const [refused, refuse] = useState<string | undefined>(undefined);
  const reading = readings.value.get(id);
  const found = expects && reading && compareReading(expects, reading.value);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    if (!isOpen) return refuse("tick what stands before every touch first, then drop the record again");
    const view = await readForStep(file, bus, drawable.peek()?.coil.feedback?.transformer);
    if (view === undefined) return;
    const value = readFrom(view, step);
    refuse(typeof value === "string" ? `${file.name}: ${value}` : undefined);
    if (typeof value === "number") logReading(stage.id, step, value, file.name);
  };
  const item = useRef<HTMLLIElement>(null);
  useEffect(() => {
    const element = item.current;
    const dropped = (event: Event) => void take((event as CustomEvent<File>).detail);
    element?.addEventListener("record", dropped);
    return () => element?.removeEventListener("record", dropped);
  });
  return (
    <li ref={item} class="step" data-step={id} data-verdict={found?.verdict}>
      <div>
        <h3>
          <span class="sheet-number">{number}</span>{" "}
          {bus > 0 && <b>{`Bus ${formatQuantity(bus, "V", { digits: 3, trim: true })}. `}</b>}
          {does}
        </h3>
        <dl>
          <dt>probe</dt>
          <dd>{probe}</dd>
          {expects !== undefined && (
            <>
              <dt>expect</dt>
              <dd class="expects">{expectationText(expects)}</dd>
            </>
          )}
          <dt>picture</dt>
          <dd>{picture}</dd>
          <dt class="wrong">stop if</dt>
          <dd class="wrong">{stop}</dd>
        </dl>
        {expects !== undefined && (
          <div class="taking">
            <TypedField
              label={`reading${expects.unit === "1" ? "" : `, in ${expects.unit} or with its unit`}`}
              dimension={dimensionOf(expects.unit)}
              unit={expects.unit}
              value={reading?.value}
              disabled={!isOpen}
              onTake={(value) => {
                if (value === undefined) return;
                refuse(undefined);
                logReading(stage.id, step, value);
              }}
            />
            <input
              ref={input}
              type="file"
              hidden
              aria-label={`Record for step ${number}`}
              onChange={(event) => {
                void take(event.currentTarget.files?.[0]);
                event.currentTarget.value = "";
              }}
            />
            <button type="button" aria-disabled={!isOpen} onClick={() => isOpen && input.current?.click()}>
              From a record…
            </button>
          </div>
        )}
        {refused !== undefined && (
          <p class="small wrong" role="alert">
            {refused}
          </p>
        )}
        {found !== undefined && expects !== undefined && (
          <div class={`comparison ${found.verdict}`} role="status">
            <p>
              <strong>{`${formatQuantity(reading?.value ?? 0, expects.unit, { digits: 4 })}: ${comparisonText(found, expects.unit)}`}</strong>
              {reading?.record !== undefined && <span class="small">{` from ${reading.record}`}</span>}
            </p>
            {found.verdict === "inside" ? (
              <p class="small">That is one reading that agrees. It is no promise for the next step.</p>
            ) : (
              differs.length > 0 && (
                <>
                  <p>Do not go on before you know why. Likely, the most common first:</p>
                  <ol class="likely">
                    {differs.map((cause) => (
                      <li key={cause}>{cause}</li>
                    ))}
                  </ol>
                </>
              )
            )}
          </div>
        )}
      </div>
      {shows !== undefined && <ExpectedPlot picture={shows} says={picture} />}
    </li>
  );
}
