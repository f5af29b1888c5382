/** Every screen as a picture, at four sizes: `npx tsx test/browser/shots.ts OUTDIR [WORD [LIGHT]]`, only those whose name has WORD, by paper, night or contrast. */
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { LINKS } from '../../src/core/drill.ts';
import { BAYS, type Place } from '../../src/panel/host.ts';
import { THEMES } from '../../src/store/settings.ts';
import { atWork, lookInside, NAME, TEXT } from './hand-drill.ts';
import { type Plan, planDrill } from './hand-plan.ts';
import { momentOf, shelve, unguarded } from './hand-shelf.ts';
import { openTrainer } from './open.ts';

const [out, word = '', light = 'paper'] = process.argv.slice(2);
if (!out) throw new Error('shots.ts wants a directory for the pictures');
if (!THEMES.some((t) => t === light)) throw new Error(`no light ${light}; there are ${THEMES.join(', ')}`);
mkdirSync(out, { recursive: true });

const SIZES: readonly (readonly [number, number])[] = [
  [1280, 720],
  [1920, 1080],
  [390, 844],
  [844, 390],
];
const PLACES: readonly Place[] = ['shelter', ...BAYS.map((b) => b.place)];
const FIRST_PAGE = '?clock=manual';

const guided = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'shown', seed: 7 });
const alone = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'assessed', seed: 7 });
const failed = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'assessed', seed: 8, steps: unguarded });
const onAir = momentOf(guided, 'tape.run', true) + 9e6;
const punching = momentOf(guided, 'tape.punch', true);
const calling = guided.moves.find((m) => m.do === 'say')!.t - 1e5;
const answering = guided.moves.find((m) => m.do === 'say')!.t + 16e6;

type Shot = { name: string; open(page: Page, url: string): Promise<void> };

const first = (page: Page, url: string) =>
  page.goto(url + FIRST_PAGE).then(() => page.locator('.first__picture svg').waitFor());

/** A run taken up at `t`, seen from `place`. */
const worked =
  (plan: Plan, t: number, place: Place, then?: (page: Page) => Promise<unknown>): Shot['open'] =>
  async (page, url) => {
    await page.goto(url + FIRST_PAGE);
    const id = await shelve(page, plan, t);
    await page.goto(`${url}${FIRST_PAGE}#work/${id}`);
    await atWork(page);
    await page.keyboard.press(`Alt+Digit${PLACES.indexOf(place)}`);
    await page.evaluate(() => window.keydownClock!.advance(600));
    await then?.(page);
  };

/** Every look inside at one instant, after something is done there. */
const inside = (name: string, t: number, place: Place = 'shelter', first?: (page: Page) => Promise<unknown>): Shot[] =>
  LINKS.map((link, i) => ({
    name: `${name}-${i}-${link.replace(' ', '-')}`,
    open: worked(guided, t, place, async (page) => {
      await first?.(page);
      await lookInside(page, i);
    }),
  }));

/** Words at the desk; the first are out. */
async function speak(page: Page): Promise<void> {
  await page.getByRole('textbox', { name: /^Words to say/ }).fill('QV7K THIS IS QV4M QV4M OVER');
  await page.keyboard.press('Enter');
  await page.evaluate(() => window.keydownClock!.advance(2500));
}

const debrief =
  (plan: Plan): Shot['open'] =>
  async (page, url) => {
    await page.goto(url + FIRST_PAGE);
    await page.goto(`${url}${FIRST_PAGE}#debrief/${await shelve(page, plan)}`);
    await page.locator('.verdict__word').waitFor();
  };

const shots: Shot[] = [
  { name: 'first', open: first },
  {
    name: 'settings',
    open: (page, url) => first(page, url).then(() => page.keyboard.press('s')),
  },
  { name: 'keys', open: (page, url) => first(page, url).then(() => page.keyboard.press('?')) },
  {
    name: 'order',
    open: async (page, url) => {
      await page.goto(`${url}${FIRST_PAGE}#order/first-call/shown/7`);
      await page.locator('.page--order .flag--go:enabled').waitFor();
    },
  },
  {
    name: 'order-papers',
    open: async (page, url) => {
      await page.goto(`${url}${FIRST_PAGE}#order/first-call/shown/7`);
      await page.locator('summary').first().waitFor();
      await page.locator('.fold').evaluateAll((all) => {
        for (const fold of all) fold.setAttribute('open', '');
      });
    },
  },
  ...PLACES.map((place) => ({ name: `cold-${place}`, open: worked(guided, 0, place) })),
  ...PLACES.map((place) => ({ name: `sending-${place}`, open: worked(guided, onAir, place) })),
  { name: 'form-messages', open: worked(guided, punching, 'messages', (page) => page.keyboard.press('Alt+KeyM')) },
  { name: 'explain-messages', open: worked(guided, punching, 'messages', (page) => page.keyboard.press('Alt+KeyE')) },
  {
    name: 'form-desk',
    open: worked(guided, punching, 'desk', (page) => page.getByRole('tab', { name: /^Message/ }).click()),
  },
  {
    name: 'words-desk',
    open: worked(guided, onAir, 'desk', (page) => page.getByRole('button', { name: 'Words' }).click()),
  },
  {
    name: 'reach-desk',
    open: worked(guided, onAir, 'desk', (page) =>
      page
        .getByRole('button', { name: 'Reach chart' })
        .click()
        .then(() => page.getByText(/^Now: /).waitFor()),
    ),
  },
  ...inside('inside', onAir),
  ...inside('inside-voice', calling, 'desk', speak),
  ...BAYS.map(({ place }) => ({
    name: `over-${place}-inside`,
    open: worked(guided, onAir, place, async (page) => {
      if (place === 'messages') await page.keyboard.press('Alt+KeyM');
      await lookInside(page, 3);
    }),
  })),
  { name: 'answered-desk', open: worked(alone, answering, 'desk') },
  { name: 'watch', open: worked(alone, onAir, 'shelter', (page) => page.keyboard.press('Alt+KeyW')) },
  { name: 'debrief-go', open: debrief(alone) },
  { name: 'debrief-no-go', open: debrief(failed) },
];

/** All motion is over and the fonts are there. */
async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    for (let i = 0; i < 40; i++) await new Promise(requestAnimationFrame);
  });
}

async function take(browser: Browser, url: string, { name, open }: Shot, [width, height]: (typeof SIZES)[number]) {
  const context = await browser.newContext({ viewport: { width, height }, reducedMotion: 'reduce' });
  const page = await context.newPage();
  await page.addInitScript((theme) => localStorage.setItem('keydown/settings', JSON.stringify({ theme })), light);
  await open(page, url);
  await settled(page);
  const fullPage = !page.url().includes('#work');
  await page.screenshot({ path: resolve(out!, `${name}-${width}x${height}.png`), fullPage });
  await context.close();
}

const { browser, url, close } = await openTrainer();
for (const shot of shots.filter(({ name }) => name.includes(word)))
  for (const size of SIZES) await take(browser, url, shot, size);
await close();
