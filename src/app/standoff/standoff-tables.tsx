/** The two ledgers of stand-off that compare with published figures. */
import { mark, metres, shown, span, thresholdWords, who } from "../../views/standoff-words.ts";
import type { StandoffFields, TouchBand } from "../../workbench/standoff-contract.ts";

export function FieldTable({ fields, line }: { readonly fields: StandoffFields; readonly line: number | undefined }) {
  return (
    <div class="plain-table">
      <table>
        <caption class="only-heard">Fields against reference levels</caption>
        <thead>
          <tr>
            <th scope="col">{`at ${shown(fields.frequency, "Hz")}`}</th>
            <th scope="col">level</th>
            <th scope="col">{line === undefined ? "at the line" : `at ${metres(line)}`}</th>
            <th scope="col">passed up to</th>
            <th scope="col">source</th>
          </tr>
        </thead>
        <tbody>
          {fields.comparisons.map(({ field, who: of, guards, level, atLine, unit, distance, source, over }) => (
            <tr key={`${field} ${of} ${guards} ${source}`}>
              <th scope="row">{`${field}, ${who[of]}, ${guards}`}</th>
              <td class="number">{shown(level, unit)}</td>
              <td class="number">{over ? `${shown(atLine, unit)}, over` : shown(atLine, unit)}</td>
              <td class="number">{metres(distance)}</td>
              <td>{mark(source)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="small">
        {`Upper bounds, up to 2 m above the floor, good to about ${metres(fields.validTo)}. A level that is passed means assess further, not injury; one that is not passed is no permission.`}
      </p>
    </div>
  );
}

export function TouchTable({ bands }: { readonly bands: readonly TouchBand[] }) {
  return (
    <div class="plain-table">
      <table>
        <caption class="only-heard">Current through a touching person</caption>
        <thead>
          <tr>
            <th scope="col">what a touching person would carry</th>
            <th scope="col">current</th>
            <th scope="col">by its upper end, against</th>
          </tr>
        </thead>
        <tbody>
          {bands.map(({ id, says, frequency, current, thresholds, contactLevels }) => (
            <tr key={id}>
              <th scope="row">{frequency > 0 ? `${says}, ${shown(frequency, "Hz")}` : says}</th>
              <td class="number">{`${shown(current.value, "A", 2)} (${span(current, "A")})`}</td>
              <td>
                <ul>
                  {thresholds.map((one) => (
                    <li key={one.effect} data-verdict={one.verdict}>
                      {`${thresholdWords(one)} (${mark(one.source)})`}
                    </li>
                  ))}
                  {contactLevels.map(({ who: of, level, over, source }) => (
                    <li key={`${of} ${source}`} data-verdict={over ? "over" : "under"}>
                      {`contact, ${of}, ${shown(level, "A", 2)}: ${over ? "over" : "under"} (${mark(source)})`}
                    </li>
                  ))}
                </ul>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
