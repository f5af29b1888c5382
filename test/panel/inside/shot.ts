// Takes pictures of the look inside: npx tsx test/panel/inside/shot.ts [out folder] [stages] [links] [sizes] [theme]
import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { createServer } from 'vite';
import { bare, drillWhen, receiving, sending, speaking, spokenTo, steady } from '../../core/inside/stages.ts';

process.env['TMPDIR'] = path.resolve('node_modules/.cache/chromium-147');
mkdirSync(process.env['TMPDIR'], { recursive: true });
const { default: packed } = await import('@sparticuz/chromium');

const NAMES = ['keys', 'loop', 'keyer', 'sender', 'whip', 'ether', 'far whip', 'receiver', 'terminal unit', 'print'];
const STAGES = { sending, receiving, spoken: spokenTo, speaking, bare, steady, cold: () => true };
const SIZES: Record<string, [number, number, number]> = { d: [1280, 720, 1], l: [1920, 1080, 1], p: [390, 844, 2] };
const [out = 'out/inside', stages = 'sending,receiving', links = NAMES.join(','), sizes = 'd', theme = 'paper'] =
  process.argv.slice(2);
mkdirSync(out, { recursive: true });
const snapshots = stages.split(',').map((s) => [s, drillWhen(STAGES[s as keyof typeof STAGES]).save()] as const);
const server = await createServer({
  logLevel: 'error',
  cacheDir: '/tmp/keydown/vite-cache-inside',
  server: { port: 0, host: '127.0.0.1', hmr: false, watch: null },
});
await server.listen();
const base = server.resolvedUrls!.local[0]!;
const browser = await chromium.launch({
  executablePath: existsSync('/usr/bin/chromium') ? '/usr/bin/chromium' : await packed.executablePath(),
  headless: true,
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  for (const [stage, snapshot] of snapshots)
    for (const size of sizes.split(',')) {
      const [w, h, dpr] = SIZES[size]!;
      const page = await browser.newPage({ viewport: { width: w, height: h }, deviceScaleFactor: dpr });
      page.on('pageerror', (e) => console.error(stage, String(e), e.stack?.slice(0, 500)));
      page.on('console', (m) => m.type() === 'error' && console.error(stage, m.text()));
      await page.addInitScript((s) => Object.assign(window, { snapshot: s }), snapshot);
      await page.goto(`${base}test/panel/inside/index.html?theme=${theme}`);
      await page.waitForSelector('body[data-ready]', { timeout: 60_000 });
      if (size === 'p') await page.getByRole('button', { name: 'Look inside the signal' }).click();
      for (const link of links.split(',')) {
        if (size === 'p')
          for (let i = 0; i < 10 && (await page.locator('.inside__name').textContent()) !== link; i++)
            await page.getByRole('button', { name: 'link after' }).click();
        else
          await page
            .locator(`.inside [data-link="${link}"], .layer:not([inert]) [data-link="${link}"]`)
            .first()
            .click();
        await page.waitForTimeout(120);
        const file = path.join(
          out,
          `${stage}-${link.replace(' ', '-')}-${size}${theme === 'paper' ? '' : `-${theme}`}.png`,
        );
        if (size === 'p') await page.locator('.inside__drawing').screenshot({ path: file });
        else await page.screenshot({ path: file });
      }
      await page.close();
    }
} finally {
  await browser.close();
  await server.close();
}
