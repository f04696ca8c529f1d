/** The top voltage for which the layers are labelled: chosen, not predicted here. */
import { useState } from "preact/hooks";
import { formatQuantity, readQuantity } from "../../units/index.ts";
import { Words } from "../frame/words.tsx";
import { chosenTopVoltage, topVoltage } from "../state/top-voltage.ts";

export function TopVoltage() {
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const take = (typed: string) => {
    const reading = readQuantity(typed, { dimension: "voltage", example: "300 kV" });
    if ("problem" in reading) {
      setProblem(`${reading.problem.what}; expected ${reading.problem.expected}`);
    } else if (!(reading.quantity.value > 0)) {
      setProblem("expected a voltage above zero, e.g. 300 kV");
    } else {
      setProblem(undefined);
      chosenTopVoltage.value = reading.quantity.value;
    }
  };
  return (
    <label class="top-voltage">
      <span>with</span>
      <input
        size={7}
        spellcheck={false}
        aria-label="Voltage of the top load for which the layers are labelled"
        aria-invalid={problem !== undefined}
        aria-errormessage="top-voltage-problem"
        title={problem?.replaceAll("`", "")}
        value={formatQuantity(topVoltage.value, "V", { trim: true })}
        onChange={(event) => take(event.currentTarget.value)}
      />
      <span>{chosenTopVoltage.value === undefined ? "at the top: breakout" : "at the top"}</span>
      {problem !== undefined && (
        <span id="top-voltage-problem" role="alert" class="wrong">
          <Words text={problem} />
        </span>
      )}
    </label>
  );
}
