/** Builds a page with the sound of a drill and measures in headless Chromium what comes out: npx tsx test/sound/listen.ts */
import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { build, preview } from 'vite';

process.env['TMPDIR'] = path.resolve('node_modules/.cache/chromium-147');
mkdirSync(process.env['TMPDIR'], { recursive: true });
const { default: packed } = await import('@sparticuz/chromium');

const outDir = 'out/listen';
await build({
  logLevel: 'error',
  build: { outDir, emptyOutDir: true, rolldownOptions: { input: 'test/sound/listen.html' } },
});
const server = await preview({ logLevel: 'error', build: { outDir }, preview: { port: 0, host: '127.0.0.1' } });
const browser = await chromium.launch({
  executablePath: existsSync('/usr/bin/chromium') ? '/usr/bin/chromium' : await packed.executablePath(),
  headless: true,
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking'],
});
type Heard = { state: string; rate: number; rms: number; peak_Hz: number; want_Hz: number; words: string[] };
try {
  const page = await browser.newPage();
  const faults: string[] = [];
  page.on('pageerror', (e) => faults.push(String(e)));
  page.on('console', (m) => m.type() === 'error' && faults.push(m.text()));
  await page.goto(`${server.resolvedUrls!.local[0]}test/sound/listen.html`);
  await page.waitForSelector('body[data-ready]', { timeout: 20_000 });
  const call = <T>(code: string) => page.evaluate(`keydownListen.${code}`) as Promise<T>;
  const tell = async (what: string) => {
    const h = await call<Heard>('heard()');
    console.log(
      `${what}: ${h.state} ${h.rate} Hz, RMS ${h.rms.toFixed(4)}, peak ${h.peak_Hz.toFixed(1)} Hz (theory ${h.want_Hz.toFixed(1)}); ${h.words.join(', ')}`,
    );
    return h;
  };
  await page.click('#touch');
  await page.waitForTimeout(2500);
  await tell('beat note');
  await call("act('receiver.pitch', 0.5)");
  await page.waitForTimeout(1500);
  await tell('pitch 0.5 kHz');
  await call('mute(true)');
  await page.waitForTimeout(1000);
  await tell('muted');
  await call('mute(false)');
  await call("act('hand.phones', 0)");
  await page.waitForTimeout(1500);
  await tell('headset down');
  await call("act('inverter.lever', 'A')");
  await call("act('inverter.start', true)");
  await page.waitForTimeout(3000);
  await tell('inverter starts');
  await page.waitForTimeout(5000);
  await tell('inverter runs');
  await call('close()');
  await page.waitForTimeout(1000);
  await tell('closed');
  console.log(faults.length === 0 ? 'no faults in the page' : faults.join('\n'));
} finally {
  await browser.close();
  await server.close();
}
