// Takes pictures of the gallery: npx tsx test/panel/gallery-shot.ts [out folder] [sheet,sheet] [dpr,dpr] [palette,palette]
import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { createServer } from 'vite';

process.env['TMPDIR'] = path.resolve('node_modules/.cache/chromium-147');
mkdirSync(process.env['TMPDIR'], { recursive: true });
const { default: packed } = await import('@sparticuz/chromium');

const [out = 'out/gallery', sheets = '', dprs = '1,2', palettes = '0,1,2'] = process.argv.slice(2);
mkdirSync(out, { recursive: true });

const server = await createServer({ logLevel: 'error', server: { port: 0, host: '127.0.0.1' } });
await server.listen();
const base = server.resolvedUrls!.local[0]!;
const browser = await chromium.launch({
  executablePath: existsSync('/usr/bin/chromium') ? '/usr/bin/chromium' : await packed.executablePath(),
  headless: true,
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
});
try {
  for (const dpr of dprs.split(',').map(Number)) {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, deviceScaleFactor: dpr });
    page.on('pageerror', (e) => console.error(String(e)));
    for (const p of palettes.split(',')) {
      await page.goto(
        `${base}test/panel/gallery.html?palette=${p}${sheets && !sheets.includes(',') ? `&sheet=${sheets}` : ''}`,
      );
      await page.waitForSelector('body[data-ready]', { timeout: 20_000 });
      for (const canvas of await page.locator('canvas').all()) {
        const name = await canvas.getAttribute('id');
        if (sheets && !sheets.split(',').includes(name!)) continue;
        await canvas.screenshot({ path: path.join(out, `${name}-${p}@${dpr}.png`) });
      }
    }
    await page.close();
  }
} finally {
  await browser.close();
  await server.close();
}
