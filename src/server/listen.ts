/** Taking a port on this machine's own address. */
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { platformCode, ServeError } from "./errors.ts";

/** The same port at every start keeps what the browser remembers for this address. */
export const usualPort = 4127;

/**
 * Listens on 127.0.0.1 and answers with the port. Without a wish it is `usualPort`, or any free one where that is taken.
 * @throws ServeError  the port that was asked for is taken or not allowed to this user
 */
export async function listen(server: Server, port: number | undefined): Promise<number> {
  const listenAt = (one: number) =>
    new Promise<number>((listening, failed) => {
      server.once("error", failed);
      server.listen({ host: "127.0.0.1", port: one, exclusive: true }, () => {
        server.off("error", failed);
        listening((server.address() as AddressInfo).port);
      });
    });
  try {
    return await listenAt(port ?? usualPort);
  } catch (error) {
    if (platformCode(error) === "EADDRINUSE" && port === undefined) return listenAt(0);
    const reason = platformCode(error) === "EADDRINUSE" ? "is taken by another program" : "cannot be used by this user";
    throw new ServeError({
      code: "port-taken",
      status: 500,
      message: `port ${port ?? usualPort} ${reason}; name another port`,
    });
  }
}
