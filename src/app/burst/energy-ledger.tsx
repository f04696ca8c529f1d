/** The ledger of energy at the active cursor: what the bus has given, and the parts that make it up to the last joule. */
import { formatQuantity } from "../../units/index.ts";
import { energyAt } from "../../views/waveform-energy.ts";
import { energyText, timeText } from "../../views/waveform-words.ts";
import { active, cursors, waves } from "./time-window.ts";

const joule = (value: number) => formatQuantity(value, "J", { digits: 3 });

export function EnergyLedger() {
  const known = waves.value;
  if (known === undefined) return null;
  const at = cursors.value[active.value];
  const { given, drawn, returned, parts } = energyAt(known, at);
  let before = 0;
  return (
    <section class="energy-ledger" aria-labelledby="energy-title">
      <h2 id="energy-title">
        Who has had it by <span class="number">{timeText(at)}</span>
      </h2>
      <svg class="share-bar" width="100%" height="22" role="img" aria-label={energyText(known, at)}>
        {parts.map(({ part, share }) => {
          const width = Math.max(0, share) * 100;
          const x = before;
          before += width;
          return <rect key={part} class={`share ${part}`} x={`${x}%`} width={`${width}%`} height="22" />;
        })}
      </svg>
      <table class="shares">
        <tbody>
          {parts.map(({ part, name, energy, share }) => (
            <tr key={part} data-part={part}>
              <th scope="row">
                <span class={`swatch share ${part}`} />
                {name}
              </th>
              <td>{joule(energy)}</td>
              <td>{`${(share * 100).toFixed(1).replace("-", "−")} %`}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr data-part="given">
            <th scope="row">given by the bus</th>
            <td>{joule(given)}</td>
            <td>{`${(parts.reduce((sum, { share }) => sum + share, 0) * 100).toFixed(1)} %`}</td>
          </tr>
        </tfoot>
      </table>
      <p class="small">
        {joule(drawn)} drawn, {joule(returned)} of it returned by the diodes
      </p>
    </section>
  );
}
