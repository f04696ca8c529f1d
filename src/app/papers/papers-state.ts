/** The sheets of the coil on the table, as they would be printed. */

import regular from "@fontsource/b612/files/b612-latin-400-normal.woff?url";
import bold from "@fontsource/b612/files/b612-latin-700-normal.woff?url";
import { computed, effect, signal } from "@preact/signals";
import { zipSync } from "fflate";
import type { SheetFormat } from "../../views/sheets/index.ts";
import { downloadBlob } from "../host/pick-file.ts";
import { answer } from "../state/answers.ts";
import { file, onDisk } from "../state/document.ts";
import { notice, room } from "../state/view.ts";
import { latestOnly, recordBench } from "../worker/bench.ts";
import type { LaidPapers, PaperSetting } from "./paper-work.ts";

/** The browser's own day, for the title blocks. */
const today = (): string => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
};

export const setting = signal<PaperSetting>({ paper: "a4", lengths: "mm", date: today() });
export const laid = signal<LaidPapers | undefined>(undefined);
const laidFor = signal<PaperSetting | undefined>(undefined);
export const behindPapers = computed(() => laid.value?.text !== file.value.text || laidFor.value !== setting.value);
export const chosenSheet = signal("data-plate");
export const shownSheet = computed(
  () => laid.value?.sheets.find(({ id }) => id === chosenSheet.value) ?? laid.value?.sheets[0],
);
export const writing = signal(false);

const failing = (error: unknown): undefined => {
  notice.value = `The papers could not be made: ${error instanceof Error ? error.message : String(error)}`;
  return undefined;
};

const question = () => ({ file: file.peek(), fileName: onDisk.peek().name });

/** Lays the sheets whenever their room is open and the text was solved; called once. */
export function followPapers(): void {
  const ask = latestOnly(
    async (of: PaperSetting) => {
      const got = await recordBench().layPapers(question(), of).catch(failing);
      return got && { got, of };
    },
    (answered) => {
      if (answered === undefined) return;
      laid.value = answered.got;
      laidFor.value = answered.of;
    },
  );
  effect(() => {
    const solved = answer.value?.text === file.value.text && answer.value.solution !== undefined;
    if (room.value === "papers" && solved && behindPapers.value) ask(setting.value);
  });
}

async function fonts() {
  const bytes = async (address: string) => new Uint8Array(await (await fetch(address)).arrayBuffer());
  return { regular: await bytes(regular), bold: await bytes(bold) };
}

const kinds: Readonly<Record<SheetFormat, string>> = {
  pdf: "application/pdf",
  svg: "image/svg+xml",
  dxf: "image/vnd.dxf",
  csv: "text/csv",
};

/** Hands over one sheet in one format, or everything; several files go as one ZIP. */
export async function handOver(formats: readonly SheetFormat[], sheet?: string): Promise<void> {
  if (writing.peek()) return;
  writing.value = true;
  try {
    const wanted = { ...setting.peek(), formats, fonts: await fonts(), ...(sheet === undefined ? {} : { sheet }) };
    const files = await recordBench().writePapers(question(), wanted);
    const [only] = files;
    if (only === undefined) {
      notice.value = "There was nothing to write";
      return;
    }
    const bytes = (content: string | Uint8Array) =>
      typeof content === "string" ? new TextEncoder().encode(content) : content;
    if (files.length === 1) {
      const kind = kinds[formats[0] ?? "pdf"];
      downloadBlob(only.name, new Blob([new Uint8Array(bytes(only.content))], { type: kind }));
      notice.value = `${only.name} handed to the browser's downloads`;
      return;
    }
    const packed = zipSync(Object.fromEntries(files.map(({ name, content }) => [name, bytes(content)])));
    const name = `${sheet ?? onDisk.peek().name.replace(/\.[^.]*$/, "")}-papers.zip`;
    downloadBlob(name, new Blob([new Uint8Array(packed)], { type: "application/zip" }));
    notice.value = `${files.length} files handed to the browser's downloads as ${name}`;
  } catch (error) {
    failing(error);
  } finally {
    writing.value = false;
  }
}
