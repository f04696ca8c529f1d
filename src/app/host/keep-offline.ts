/** Keeps the app usable without a network where it came from a plain static host. */
export async function keepOffline(): Promise<void> {
  if (!("serviceWorker" in navigator) || !isSecureContext) return;
  // a browser that refuses workers shows the app all the same
  await navigator.serviceWorker.register("./offline.js").catch(() => undefined);
}
