/** The findings whose question is asked in a room, at the setting shown. */
import type { Finding } from "../../catalogue/finding.ts";
import { FindingItem } from "../findings/finding-item.tsx";
import { moved } from "./burst-state.ts";

interface Properties {
  readonly findings: readonly Finding[];
  readonly title: string;
}

export function RoomFindings({ findings, title }: Properties) {
  const isMoved = Object.keys(moved.value).length > 0;
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
