/** The loopback server's file: read, replaced version by version, watched. */
import { browserLog } from "./browser-log.ts";
import type { Host, HostedFile, KeptLog, Saved } from "./host.ts";
import { download, pickToOpen } from "./pick-file.ts";

interface Reply {
  readonly name?: unknown;
  readonly text?: unknown;
  readonly version?: unknown;
  readonly message?: unknown;
}

const address = "./api/file";
const textOf = (value: unknown) => (typeof value === "string" ? value : undefined);

async function readFile(): Promise<HostedFile | undefined> {
  const response = await fetch(address, { cache: "no-store" });
  if (!response.ok) return undefined;
  const { name, text, version } = (await response.json()) as Reply;
  if (typeof text !== "string") return undefined;
  return { name: textOf(name) ?? "coil.yaml", text, version: textOf(version) };
}

async function put({ text, base }: { readonly text: string; readonly base: string | undefined }): Promise<Saved> {
  const response = await fetch(address, {
    method: "PUT",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ text, baseVersion: base ?? null }),
  });
  const reply = (await response.json()) as Reply;
  if (response.ok) return { kind: "saved", version: textOf(reply.version) };
  if (response.status === 409 && "version" in reply) {
    return { kind: "conflict", text: textOf(reply.text), version: textOf(reply.version) };
  }
  return { kind: "failed", why: textOf(reply.message) ?? `the server answered ${response.status}` };
}

async function keptLog(asked: Promise<Response>): Promise<KeptLog> {
  try {
    const response = await asked;
    const { name, text, message } = (await response.json()) as Reply;
    if (typeof name === "string" && typeof text === "string") return { name, text };
    return { why: textOf(message) ?? `the server answered ${response.status}` };
  } catch {
    return { why: "the server on this machine does not answer" };
  }
}

const logAddress = "./api/log";

/** The server's file, or undefined where the page came from a plain static host. */
export async function serverHost(): Promise<Host | undefined> {
  const found = await readFile().catch(() => undefined);
  if (found === undefined) return undefined;
  let served = true;
  const saveAs: Host["saveAs"] = async (file) => {
    download(file);
    return { kind: "elsewhere" };
  };
  return {
    kind: "server",
    first: async () => found,
    open: pickToOpen,
    save: async ({ name, text, base }) => {
      if (!served) return saveAs({ name, text });
      return put({ text, base }).catch(() => ({
        kind: "failed",
        why: "the server on this machine does not answer; start it again, or save a copy",
      }));
    },
    saveAs,
    watch: (onChanged) => {
      let known = found.version;
      const events = new EventSource("./api/events");
      const look = (event: MessageEvent<string>) => {
        const version = textOf((JSON.parse(event.data) as Reply).version);
        if (!served || version === known) return;
        known = version;
        void readFile().then(onChanged, () => undefined);
      };
      events.addEventListener("current", look);
      events.addEventListener("changed", look);
    },
    readLog: (coilFile) => (served ? keptLog(fetch(logAddress, { cache: "no-store" })) : browserLog.readLog(coilFile)),
    addToLog: (coilFile, entry) =>
      served
        ? keptLog(
            fetch(logAddress, {
              method: "POST",
              headers: { "content-type": "application/json" },
              body: JSON.stringify({ entry }),
            }),
          )
        : browserLog.addToLog(coilFile, entry),
    release: () => {
      served = false;
    },
  };
}
