/** Where coil files live: behind the loopback server, or in the browser alone. The app speaks to both in one way. */

import type { LogEntry } from "../../description/bench-log.ts";

export interface HostedFile {
  readonly name: string;
  readonly text: string;
  readonly version?: string | undefined;
  /** Makes it the file that the next save replaces. */
  readonly adopt?: () => void;
}

/** What came of a save. `elsewhere`: the text was handed over as a download and nothing on disk is known. */
export type Saved =
  | { readonly kind: "saved"; readonly version?: string | undefined; readonly name?: string }
  | { readonly kind: "conflict"; readonly text: string | undefined; readonly version: string | undefined }
  | { readonly kind: "elsewhere" }
  | { readonly kind: "cancelled" }
  | { readonly kind: "failed"; readonly why: string };

/** The log of the bench as it stands, or why nothing could be added to it. */
export type KeptLog = { readonly name: string; readonly text: string } | { readonly why: string };

export interface Host {
  readonly kind: "server" | "browser";
  /** The file to begin with, if the host has one. */
  first(): Promise<HostedFile | undefined>;
  /** Replaces the file whose version is `base`; never overwrites another version. */
  save(file: { readonly name: string; readonly text: string; readonly base: string | undefined }): Promise<Saved>;
  /** Asks for a file; undefined where somebody thought better of it. */
  open(): Promise<HostedFile | undefined>;
  /** Saves under a name still to be chosen. */
  saveAs(file: { readonly name: string; readonly text: string }): Promise<Saved>;
  /** Calls back when the file changes outside the app. */
  watch(onChanged: (found: HostedFile | undefined) => void): void;
  /** The log that belongs to a coil file. */
  readLog(coilFile: string): Promise<KeptLog>;
  /** Adds an entry at its end. */
  addToLog(coilFile: string, entry: LogEntry): Promise<KeptLog>;
  /** Forgets the file that it holds, so that the next save cannot replace it. */
  release(): void;
}
