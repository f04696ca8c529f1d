/** Without a server of ours: any static host, demo coils inside, drafts kept in the browser. */

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join } from "node:path";
import type { Browser } from "playwright-core";
import { expect, inject } from "vitest";
import { dimensionText, typeOver } from "./app-gestures.ts";
import { test } from "./harness.ts";

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};

/** A host that knows nothing but files. */
async function staticHost() {
  const folder = inject("appFolder");
  const server = createServer(async (request, response) => {
    const path = request.url === "/" ? "/index.html" : (request.url ?? "");
    const bytes = await readFile(join(folder, path)).catch(() => undefined);
    response.writeHead(bytes === undefined ? 404 : 200, {
      "content-type": types[extname(path)] ?? "application/octet-stream",
    });
    response.end(bytes);
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () => {
      server.close();
      server.closeAllConnections();
    },
  };
}

async function openStatic(browser: Browser, address: string) {
  const context = await browser.newContext({ locale: "en-US", viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on("pageerror", (error) => troubles.push(error.message));
  page.on("console", (message) => message.type() === "error" && troubles.push(message.text()));
  page.on("request", (request) => {
    if (!request.url().startsWith(address) && !/^(data|blob):/.test(request.url())) troubles.push(request.url());
  });
  await page.goto(address);
  return { page, troubles, close: () => context.close() };
}

test("a demo coil is there, edits survive a reload as a draft, another demo can be opened", async ({ browser }) => {
  const host = await staticHost();
  const { page, troubles, close } = await openStatic(browser, host.address);
  try {
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("turns");
    await typeOver(page, "secondary.turns", "1161");
    await expect.poll(() => page.locator(".file-state").innerText()).toMatch(/not saved/);
    page.on("dialog", (dialog) => void dialog.accept());
    await page.waitForTimeout(200);
    await page.reload();
    await expect.poll(() => dimensionText(page, "secondary.turns")).toContain("1161");

    await page.getByRole("button", { name: "File", exact: true }).click();
    await page.getByRole("button", { name: "Belfry" }).click();
    await expect.poll(() => page.locator("h1").innerText()).toBe("Belfry");
    expect(troubles).toEqual([]);
  } finally {
    await close();
    host.close();
  }
});

test("once loaded it opens without a network", async ({ browser }) => {
  const host = await staticHost();
  const { page, close } = await openStatic(browser, host.address);
  try {
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await expect
      .poll(() => page.evaluate(async () => (await (await caches.open("coilwright")).keys()).length))
      .toBeGreaterThan(5);
    await page.locator("[data-figure='secondary.f1']").waitFor();
    await page.context().setOffline(true);
    host.close();
    await page.reload();
    await page.locator("[data-figure='secondary.f1']").waitFor();
  } finally {
    await close();
  }
});

test("a copy is handed over as a download where the browser has no other way", async ({ browser }) => {
  const host = await staticHost();
  const { page, close } = await openStatic(browser, host.address);
  try {
    await page.evaluate(() => Reflect.deleteProperty(window, "showSaveFilePicker"));
    await typeOver(page, "secondary.turns", "1162");
    const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
    expect(download.suggestedFilename()).toBe("inkwell.yaml");
    expect(await readFile(await download.path(), "utf8")).toContain("turns: 1162");
  } finally {
    await close();
    host.close();
  }
});
