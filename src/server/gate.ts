/** Who may ask: the page that this server gave out, on this machine, and nobody else. */
import type { IncomingMessage } from "node:http";
import { ServeError } from "./errors.ts";

const ourNames = ["127.0.0.1", "localhost"];

/** Names under which a browser reaches this server, e.g. `localhost:4127`. */
const ourHosts = (port: number) =>
  ourNames.flatMap((name) => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`]));

/**
 * Why a request is refused, or undefined where it may pass.
 *
 * A foreign name in `Host` is a page that rebound its own name to this machine; a foreign `Origin` or a cross-site fetch is
 * another page in the same browser. Programs of the same user on the same machine are not kept out by this.
 * @param port  the port that this server listens on
 */
export function refuse(
  request: Pick<IncomingMessage, "headers" | "method" | "url">,
  port: number,
): ServeError | undefined {
  const { host, origin } = request.headers;
  const hosts = ourHosts(port);
  if (host === undefined || !hosts.includes(host.toLowerCase())) {
    return refusal("foreign-host", `this server answers to ${hosts.join(" and ")} only; open it under that address`);
  }
  if (origin !== undefined && !hosts.some((ours) => origin.toLowerCase() === `http://${ours}`)) {
    return refusal("foreign-origin", "another page may not use this server");
  }
  const site = request.headers["sec-fetch-site"];
  if (request.url?.startsWith("/api/") && site !== undefined && site !== "same-origin" && site !== "none") {
    return refusal("foreign-site", "another page may not use this server");
  }
  return undefined;
}

const refusal = (code: string, message: string) => new ServeError({ code, status: 403, message });
