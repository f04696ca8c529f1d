/** The bring-up, stage by stage: what to connect, what was checked before hands go near, each step with its reading. */
import { useEffect } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { compareReading } from "../../workbench/bringup-compare.ts";
import type { BringUpStage, DischargeAdvice } from "../../workbench/bringup-contract.ts";
import { bringUp, bringUpBehind, bringUpOpen, checked, openStage, readings, stageAt, tick } from "./bringup-state.ts";
import { StepItem } from "./step-item.tsx";

/** How far a stage is: readings taken of those asked for, and how many lie outside. */
function stageText({ steps }: BringUpStage): string {
  const asked = steps.flatMap(({ id, expects }) => (expects === undefined ? [] : [{ id, expects }]));
  const taken = asked.flatMap(({ id, expects }) => {
    const reading = readings.value.get(id);
    return reading === undefined ? [] : [compareReading(expects, reading.value)];
  });
  const outside = taken.filter(({ verdict }) => verdict !== "inside").length;
  if (asked.length === 0) return "by eye";
  return `${taken.length} of ${asked.length} read${outside > 0 ? `, ${outside} outside` : ""}`;
}

const checks = [
  { id: "off", says: "Off, pulled, waited, measured below 60 V, discharged, shorted" },
  { id: "earth", says: "Earths measured from end to end; the earth lead hangs on the top load while hands are inside" },
] as const;

function BeforeTouch({ discharge, title }: { readonly discharge: DischargeAdvice; readonly title: string }) {
  const { time, storedEnergy, tankVoltage, steps } = discharge;
  return (
    <fieldset class="before-touch" aria-label={`Before every touch, for ${title}`}>
      <h3>Before every touch, this one too</h3>
      <p>
        {storedEnergy !== undefined && `The bus holds up to ${formatQuantity(storedEnergy, "J", { digits: 3 })}. `}
        {time === undefined
          ? "How long it takes to 60 V is not known from the file. "
          : `Through the bleeder it takes ${formatQuantity(time, "s", { digits: 3 })} to 60 V, where the bleeder is whole. `}
        {tankVoltage !== undefined &&
          `The tank capacitor may be left with ${formatQuantity(tankVoltage, "V", { digits: 3 })}.`}
      </p>
      {checks.map(({ id, says }) => (
        <label key={id}>
          <input
            type="checkbox"
            checked={checked.value.has(id)}
            onChange={(event) => tick(id, event.currentTarget.checked)}
          />
          {says}
        </label>
      ))}
      <details>
        <summary>How, in order</summary>
        <ol class="likely">
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </details>
    </fieldset>
  );
}

export function BringUpPage() {
  useEffect(() => {
    bringUpOpen.value = true;
    return () => {
      bringUpOpen.value = false;
    };
  }, []);
  const { sheet, refused } = bringUp.value ?? {};
  if (sheet === undefined)
    return (
      <p class="empty bench-up">
        {refused === undefined ? "The stages are being worked out." : `No bring-up: ${refused}`}
      </p>
    );
  const index = Math.min(stageAt.value, sheet.stages.length - 1);
  const stage = sheet.stages[index];
  if (stage === undefined) return null;
  const isOpen = !stage.touches || checks.every(({ id }) => checked.value.has(id));
  return (
    <div class="bench-up" data-behind={bringUpBehind.value || undefined}>
      <nav class="stages" aria-label="Stages of the bring-up">
        <ol>
          {sheet.stages.map((each, n) => (
            <li key={each.id}>
              <button
                type="button"
                aria-current={n === index ? "step" : undefined}
                data-stage={each.id}
                onClick={() => openStage(n)}
              >
                <span class="sheet-number">{n + 1}</span>
                <span>
                  {each.title}
                  <small>{stageText(each)}</small>
                </span>
              </button>
            </li>
          ))}
        </ol>
        <details>
          <summary>Read this first</summary>
          <ul class="likely">
            {[...sheet.cautions, ...sheet.earth].map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      </nav>
      <section class="stage" aria-labelledby="stage-title">
        <h2 id="stage-title">{`${index + 1}. ${stage.title}`}</h2>
        <ul class="likely">
          {stage.connect.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {stage.touches && <BeforeTouch discharge={sheet.discharge} title={stage.title} />}
        {stage.missing.map((line) => (
          <p key={line} class="missing">{`Not in the file: ${line}`}</p>
        ))}
        {!isOpen && stage.steps.some(({ expects }) => expects !== undefined) && (
          <p class="small">The fields for readings open when both lines above are ticked.</p>
        )}
        <ol>
          {stage.steps.map((step, k) => (
            <StepItem key={step.id} stage={stage} step={step} number={`${index + 1}.${k + 1}`} isOpen={isOpen} />
          ))}
        </ol>
        <p class="actions">
          <button type="button" aria-disabled={index === 0} onClick={() => index > 0 && openStage(index - 1)}>
            Stage before
          </button>
          <button
            type="button"
            aria-disabled={index + 1 >= sheet.stages.length}
            onClick={() => index + 1 < sheet.stages.length && openStage(index + 1)}
          >
            Next stage
          </button>
        </p>
      </section>
    </div>
  );
}
