/** What the trainer costs in a browser: headless Chromium, canvas renderer. */
import type { Browser, CDPSession, Page } from 'playwright-core';
import { NAME, TEXT } from '../browser/hand-drill.ts';
import { planDrill } from '../browser/hand-plan.ts';
import { shelve } from '../browser/hand-shelf.ts';
import { type Built, openTrainer } from '../browser/open.ts';
import { percentile, type Table } from './table.ts';

const SIZE = { width: 1280, height: 720 };
const SETTLE_ms = 4000;
const WATCH_s = 10;
const PRESSES = 120;

/** The shelter, cold, on the page's own clock. */
async function openShelter(browser: Browser, url: string): Promise<Page> {
  const page = await (await browser.newContext({ viewport: SIZE })).newPage();
  await page.goto(url);
  const id = await shelve(page, planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'unaided', seed: 7 }), 0);
  await page.goto(`${url}#work/${id}`);
  await page.getByRole('button', { name: /^Watch/ }).waitFor();
  await page.waitForTimeout(SETTLE_ms);
  return page;
}

async function busy_s(tools: CDPSession): Promise<number> {
  const { metrics } = await tools.send('Performance.getMetrics');
  return metrics.find((m) => m.name === 'TaskDuration')?.value ?? Number.NaN;
}

/** Milliseconds of the main thread in each second that nobody touches anything. */
async function idle_ms(page: Page): Promise<number> {
  const tools = await page.context().newCDPSession(page);
  // Time of the thread, not of the wall: a busy machine stretches the latter.
  await tools.send('Performance.enable', { timeDomain: 'threadTicks' });
  const from = await busy_s(tools);
  await page.waitForTimeout(WATCH_s * 1000);
  return (1000 * ((await busy_s(tools)) - from)) / WATCH_s;
}

/** In the page: writes down how long each key press takes until the second frame after it begins. */
const LISTEN = `
  window.benchSeen = [];
  window.addEventListener('keydown', (e) =>
    requestAnimationFrame(() => requestAnimationFrame(() => benchSeen.push(performance.now() - e.timeStamp))), true);
`;

/** From each key press to the end of the frame after the one that shows it, ms: so an upper bound. */
async function drawn_ms(page: Page): Promise<number[]> {
  await page.keyboard.press('Alt+Digit2');
  await page.locator('.layer--radio').waitFor({ state: 'attached' });
  await page.locator('[data-control="receiver.dial"]').focus();
  await page.evaluate(LISTEN);
  for (let i = 0; i < PRESSES; i++) {
    await page.keyboard.press(i % 40 < 20 ? 'ArrowRight' : 'ArrowLeft');
    // Presses at odd moments of a frame, as a hand's are.
    await page.waitForTimeout(60 + ((i * 7) % 16));
  }
  return page.evaluate('benchSeen') as Promise<number[]>;
}

/** Cost of a built trainer in a browser. */
export async function pageTable(files: Built): Promise<Table> {
  const { browser, url, close } = await openTrainer(files);
  try {
    const page = await openShelter(browser, url);
    const idle = await idle_ms(page);
    const drawn = await drawn_ms(page);
    const source = `${drawn.length} presses`;
    return {
      title: 'In headless Chromium, canvas renderer, 1280 x 720',
      rows: [
        { what: 'main thread, a cold station untouched', value: idle, unit: 'ms a second', bar: { most: 20 } },
        { what: 'a control change drawn, median', value: percentile(drawn, 0.5), unit: 'ms', source },
        {
          what: 'a control change drawn, 95th percentile',
          value: percentile(drawn, 0.95),
          unit: 'ms',
          bar: { most: 50 },
          source,
        },
      ],
    };
  } finally {
    await close();
  }
}
