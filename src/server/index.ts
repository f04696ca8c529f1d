export { openBrowser } from "./open-browser.ts";
export { type ServeRequest, serveCoil } from "./serve-coil.ts";
