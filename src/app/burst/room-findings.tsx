/** The findings whose question is asked in a room, at the setting shown. */
import type { Finding } from "../../catalogue/finding.ts";
import { FindingItem } from "../findings/finding-item.tsx";

interface Properties {
  readonly findings: readonly Finding[];
  readonly title: string;
  /** The sliders stand elsewhere than the file. */
  readonly isMoved: boolean;
}

export function RoomFindings({ findings, title, isMoved }: Properties) {
  return (
    <section class="room-findings" aria-labelledby="room-findings-title">
      <h2 id="room-findings-title">{title}</h2>
      {isMoved && <p class="small">with the burst at the setting of the sliders</p>}
      {findings.length === 0 && <p class="small">No rule of this room found anything. That is no permission.</p>}
      <ol>
        {findings.map((finding) => (
          <FindingItem key={`${finding.rule} ${finding.path} ${finding.what}`} finding={finding} />
        ))}
      </ol>
    </section>
  );
}
