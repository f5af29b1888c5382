/** A built trainer served from memory, and a browser to look at it with (an installed one first, else the one that npm brought). */
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, resolve } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { build, type Rolldown } from 'vite';

const root = resolve(import.meta.dirname, '../..');
const cache = resolve(root, 'node_modules/.cache/chromium-147');
const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

/** The files of a build, by their path below the root. */
export type Built = Map<string, Buffer>;

/** Builds the trainer into memory, or with the same settings another page whose `index.html` is in `page`. */
export async function buildTrainer(page = root): Promise<Built> {
  const settings = { configFile: resolve(root, 'vite.config.ts'), publicDir: resolve(root, 'public') };
  const made = (await build({
    ...settings,
    root: page,
    logLevel: 'error',
    build: { write: false },
  })) as Rolldown.RolldownOutput;
  return new Map(
    made.output.map((file) => [
      file.fileName,
      Buffer.from(file.type === 'chunk' ? file.code : (file.source as Uint8Array | string)),
    ]),
  );
}

/** Serves a build; `close` ends it. */
export async function serve(files: Built): Promise<{ url: string; close(): void }> {
  const server = createServer((request, response) => {
    const path = (request.url ?? '/').replace(/[?#].*$/, '').slice(1) || 'index.html';
    const file = files.get(path);
    response.writeHead(file ? 200 : 404, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' });
    response.end(file);
  });
  await new Promise<void>((done) => server.listen(0, done));
  return {
    url: `http://localhost:${(server.address() as AddressInfo).port}/`,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}

/** The browser of the npm package unpacks itself once; two that do so at a time would start half a file. */
async function unpacked(): Promise<string> {
  mkdirSync(cache, { recursive: true });
  const [ready, lock] = [resolve(cache, 'ready'), resolve(cache, 'lock')];
  process.env['TMPDIR'] = cache;
  const { default: packed } = await import('@sparticuz/chromium');
  for (let tries = 0; tries < 600 && !existsSync(ready); tries++) {
    try {
      mkdirSync(lock);
    } catch {
      await new Promise((done) => setTimeout(done, 100));
      continue;
    }
    try {
      await packed.executablePath();
      writeFileSync(ready, '');
    } finally {
      rmSync(lock, { recursive: true });
    }
  }
  return packed.executablePath();
}

/** A browser without a window. */
export async function openBrowser(): Promise<Browser> {
  const installed = '/usr/bin/chromium';
  const executablePath = existsSync(installed) ? installed : await unpacked();
  const args = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'];
  return chromium.launch({ executablePath, headless: true, args });
}

/** The trainer in a browser. */
export type Trainer = { url: string; browser: Browser; close(): Promise<void> };

/** A build (a new one of the trainer unless given) served, with a browser to open it in. */
export async function openTrainer(files?: Built): Promise<Trainer> {
  const built = files ?? (await buildTrainer());
  const [site, browser] = await Promise.all([serve(built), openBrowser()]);
  const close = async () => {
    await browser.close();
    site.close();
  };
  return { url: site.url, browser, close };
}
