/** Shows an address in the person's browser, where there is a screen to show it on. */
import open from "open";

/** Whether a browser window could appear: a desktop of this machine, and no continuous-integration run. */
export function hasDisplay(
  environment: Readonly<Record<string, string | undefined>>,
  platform: NodeJS.Platform,
): boolean {
  if (environment["CI"] || environment["SSH_CONNECTION"]) return false;
  if (platform === "darwin" || platform === "win32") return true;
  return Boolean(environment["DISPLAY"] || environment["WAYLAND_DISPLAY"]);
}

/** Opens the address; answers whether a browser was started. A missing screen or browser is no error. */
export async function openBrowser(address: string): Promise<boolean> {
  if (!hasDisplay(process.env, process.platform)) return false;
  try {
    const started = await open(address);
    // Without a listener, a browser that cannot be started would end the server.
    started.once("error", () => undefined);
    return true;
  } catch {
    return false;
  }
}
