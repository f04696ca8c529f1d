export { readCoilText, type Saved, saveCoilText, type TextOnDisk } from "./coil-on-disk.ts";
export { ServeError } from "./errors.ts";
export { usualPort } from "./listen.ts";
export { openBrowser } from "./open-browser.ts";
export { type ServeRequest, type Serving, serveCoil } from "./serve-coil.ts";
