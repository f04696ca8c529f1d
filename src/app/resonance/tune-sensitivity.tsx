/** What moves the tune, number by number of the file. */
import { explained } from "../why/explanations.ts";
import { SensitivityBars } from "../why/sensitivity-bars.tsx";

export function TuneSensitivity() {
  const found = explained.value.get("tuning.ratio")?.explanation?.sensitivities ?? [];
  return (
    <section class="tune-sensitivity" aria-labelledby="sensitivity-title">
      <h2 id="sensitivity-title">What moves the tuning ratio</h2>
      <p>per cent of the ratio for one per cent of each number</p>
      {found.length === 0 ? (
        <p class="empty">Being worked out.</p>
      ) : (
        <SensitivityBars sensitivities={found} most={10} label="What moves the tuning ratio" />
      )}
    </section>
  );
}
