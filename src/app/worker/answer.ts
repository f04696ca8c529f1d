/** What the workers give back for a text. */

import type { Figures } from "../../catalogue/figure.ts";
import type { Finding } from "../../catalogue/finding.ts";
import type { BurstSetting, BurstStudy } from "../../workbench/burst-contract.ts";
import type { FieldMap, Solution } from "../../workbench/contract.ts";
import type { Doubts } from "../../workbench/doubts.ts";
import type { Explanation } from "../../workbench/explain.ts";

export interface Answer {
  /** The text it was worked out for. */
  readonly text: string;
  readonly solution?: Solution;
  /** Of the burst at the file's own setting. */
  readonly burstFigures?: Figures;
  readonly findings: readonly Finding[];
  /** Why there is no solution, where the file could be read and still could not be solved. */
  readonly failed?: string;
}

/** How sure the figures of a text are. */
export interface Study {
  readonly text: string;
  readonly doubts: Doubts;
  /** All findings, those that weigh a doubt included. */
  readonly findings: readonly Finding[];
}

/** How sure the figures of the burst at a text's own setting are. */
export interface BurstDoubts {
  readonly text: string;
  readonly doubts: Doubts;
}

/** Part of the half-plane to map, and how finely. */
export interface MapWindow {
  readonly radius: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
}

export interface MappedField {
  readonly text: string;
  readonly map: FieldMap;
}

export interface Explained {
  readonly text: string;
  /** Of the sliders, for a figure of the burst. */
  readonly setting: BurstSetting;
  readonly explanation: Explanation | undefined;
}

/** One burst at a setting of the sliders, with its waveforms. */
export interface StudiedBurst {
  readonly text: string;
  /** What the sliders had moved. */
  readonly setting: BurstSetting;
  readonly study: BurstStudy;
  /** Findings of the file with the burst at this setting, by the room where their question is asked. */
  readonly findings: Readonly<Record<"burst" | "driver", readonly Finding[]>>;
}
