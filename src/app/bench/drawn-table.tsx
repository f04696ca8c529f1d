/** Drawn against measured, line by line, and the way into the file. */
import { quantities } from "../../catalogue/quantities.ts";
import { formatQuantity } from "../../units/index.ts";
import { isSeen, shareText } from "../../views/match-words.ts";
import type { Match, MatchedFigure } from "../../workbench/match-contract.ts";
import { file } from "../state/document.ts";
import { adopt, isLogged, logMatch, matched, notAdopted } from "./bench-state.ts";

const signed = (value: number) => {
  const size = Math.abs(value).toFixed(1);
  return size === "0.0" ? size : `${value < 0 ? "−" : "+"}${size}`;
};

function Row({ figure }: { readonly figure: MatchedFigure }) {
  const { id, drawn, value, low, high, unit, shift, left } = figure;
  const quantity = quantities.get(id);
  const text = (what: number) => formatQuantity(what, unit, { digits: quantity?.display.digits ?? 4 });
  const seen = isSeen(figure);
  return (
    <tr data-figure={id} data-far={(seen && Math.abs(shift) >= 2) || undefined}>
      <th scope="row" title={id}>
        {quantity?.name ?? id}
      </th>
      <td>{text(drawn)}</td>
      <td>{seen ? text(value) : "not seen"}</td>
      <td>{seen ? shareText({ value, low, high }) : ""}</td>
      <td>{seen ? signed(shift) : ""}</td>
      <td>{seen ? (left > 1 ? "more" : `${Math.round(100 * left)} %`) : "all"}</td>
    </tr>
  );
}

function Adoption({ match }: { readonly match: Match }) {
  const why = notAdopted.value;
  const { provenances } = file.value;
  return (
    <section class="adoption" aria-labelledby="adopt-title">
      <h2 id="adopt-title">To take over into the file</h2>
      {why === undefined && (
        <ul>
          {match.adopt.map(({ path, value, comment }) => (
            <li key={path} data-path-adopted={path}>
              <code>{path}</code>
              <span>
                <s>{provenances.get(path)?.text ?? "not there"}</s> <b>{value}</b>
              </span>
              {comment !== undefined && <small>{`# ${comment}`}</small>}
            </li>
          ))}
        </ul>
      )}
      <button
        type="button"
        aria-disabled={why !== undefined}
        aria-describedby={why === undefined ? undefined : "adopt-why"}
        onClick={adopt}
      >
        {why === undefined && match.adopt.length > 1
          ? `Adopt ${match.adopt.length} measured values`
          : "Adopt what was measured"}
      </button>
      {!isLogged.value && (
        <button type="button" class="quiet" onClick={logMatch}>
          Write this fit into the log
        </button>
      )}
      {why !== undefined && (
        <p id="adopt-why" class="small">
          {why}
        </p>
      )}
    </section>
  );
}

export function DrawnTable({ match }: { readonly match: Match }) {
  const open = match.undetermined;
  return (
    <>
      {match.matched.length > 0 && (
        <section class="drawn-table" aria-labelledby="drawn-title">
          <h2 id="drawn-title">Drawn and measured</h2>
          <div class="scrolls">
            <table class="readings">
              <thead>
                <tr>
                  <td />
                  <th scope="col">drawn</th>
                  <th scope="col">fitted</th>
                  <th scope="col">90 %</th>
                  <th scope="col" title="Fitted less drawn, over the standard deviation of what was drawn">
                    sigmas off
                  </th>
                  <th scope="col" title="Of the doubt that the drawing leaves">
                    doubt left
                  </th>
                </tr>
              </thead>
              <tbody>
                {match.matched.map((figure) => (
                  <Row key={figure.id} figure={figure} />
                ))}
              </tbody>
            </table>
          </div>
          <p class="small">
            {match.taken !== undefined &&
              "What the taken cause sets free is less sure after the fit than it was drawn: more. "}
            {`χ² ${formatQuantity(match.chiSquare, "1", { digits: 3 })} from ${match.observations} things seen in ${matched.value?.ids.length === 1 ? "one record" : `${matched.value?.ids.length} records`}.`}
          </p>
        </section>
      )}
      <Adoption match={match} />
      {open.length > 0 && (
        <details class="undetermined">
          <summary>{`What these records cannot tell: ${open.length} numbers`}</summary>
          <ul>
            {open.map(({ id, because }) => (
              <li key={id}>
                <code>{id}</code> {because}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
