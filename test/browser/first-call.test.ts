/** The whole first-call drill in a real browser, by a hand that has a keyboard and nothing else, or a mouse and nothing else. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { writeRecord } from '../../src/core/record/format.ts';
import { atWork, debriefed, enterByKeys, enterByMouse, NAME, TEXT, watched } from './hand-drill.ts';
import { planDrill } from './hand-plan.ts';
import { bare, recordOf, replayed } from './hand-replay.ts';
import { momentOf, unguarded } from './hand-shelf.ts';
import { PageHand } from './hand-work.ts';
import { openTrainer, type Trainer } from './open.ts';

/** A whole drill is some thousand touches of a page, ms. */
const LONG = 300_000;

let trainer: Trainer;

beforeAll(async () => {
  trainer = await openTrainer();
});
afterAll(() => trainer?.close());

it('is worked by keyboard alone to GO; its record is the headless one, byte for byte, also from any snapshot', {
  timeout: LONG,
}, async () => {
  const plan = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'unaided', seed: 7 });
  const { context, faults } = await watched(trainer);
  const page = await context.newPage();
  await enterByKeys(page, trainer.url, plan);
  await new PageHand(page, 'keyboard').work(plan.moves);
  const { verdict, record } = await debriefed(page, 'keyboard');
  expect(verdict).toBe('GO');
  expect(record).toBe(writeRecord(plan.record));
  expect(replayed(record)).toBe(record);
  expect(replayed(record, 5)).toBe(record);
  expect(faults).toEqual([]);
  await context.close();
});

it('is worked by mouse alone to GO; its record is the headless one, byte for byte', { timeout: LONG }, async () => {
  const plan = planDrill(TEXT, NAME, { tool: 'mouse', manner: 'assessed', seed: 4 });
  const { context, faults } = await watched(trainer);
  const page = await context.newPage();
  await enterByMouse(page, trainer.url, plan);
  await new PageHand(page, 'mouse').work(plan.moves);
  const { verdict, record } = await debriefed(page, 'mouse');
  expect(verdict).toBe('GO');
  expect(record).toBe(writeRecord(plan.record));
  expect(replayed(record)).toBe(record);
  expect(faults).toEqual([]);
  await context.close();
});

it('ends NO-GO without the insulator guard, for that and the live foot alone, and says when', {
  timeout: LONG,
}, async () => {
  const plan = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'unaided', seed: 8, steps: unguarded });
  const { context, faults } = await watched(trainer);
  const page = await context.newPage();
  await enterByKeys(page, trainer.url, plan);
  await new PageHand(page, 'keyboard').work(plan.moves);
  const { verdict, record } = await debriefed(page, 'keyboard');
  expect(verdict).toBe('NO-GO');
  expect(record).toBe(writeRecord(plan.record));
  const finding = page.locator('.finding').first();
  expect(await page.locator('.measures tbody tr').filter({ hasText: 'not met' }).count()).toBe(2);
  expect(await finding.getByRole('heading', { level: 2 }).textContent()).toBe(
    'Not met: Guard on and earth made before heat',
  );
  const { utc } = plan.scenario.world;
  const heat_s = Math.floor(momentOf(plan, 'sender.readiness', 'heat') / 1e6);
  expect((await finding.locator('.finding__head .mono').textContent())?.replace(/\D/g, '')).toBe(later(utc, heat_s));
  expect(faults).toEqual([]);
  await context.close();
});

it('goes on, to the event, after the page was killed while the tape ran, and finishes', { timeout: LONG }, async () => {
  const plan = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'shown', seed: 4 });
  const { context, faults } = await watched(trainer);
  const page = await context.newPage();
  await enterByKeys(page, trainer.url, plan);
  const running = momentOf(plan, 'tape.run', true);
  const hand = new PageHand(page, 'keyboard');
  await hand.work(plan.moves.filter(({ t }) => t <= running));
  for (let s = 1; s <= 9; s++) await hand.turn(running + s * 970_000);
  await killed(page);
  const again = await context.newPage();
  await again.goto(`${trainer.url}?clock=manual`);
  await again.keyboard.press('l');
  await atWork(again);
  const lost_ms = running / 1000 + 9 * 970 - (await again.evaluate(() => window.keydownClock!.now()));
  expect(lost_ms).toBeGreaterThanOrEqual(0);
  expect(lost_ms).toBeLessThanOrEqual(1000);
  await hand.at(again).work(plan.moves.filter(({ t }) => t > running));
  const { verdict, record } = await debriefed(again, 'keyboard');
  expect(verdict).toBe('GO');
  const made = recordOf(record);
  expect(made.lines.filter((l) => l.k === 'interruption')).toMatchObject([{ why: 'closed' }]);
  expect(made.lines.some((l) => l.k === 'help')).toBe(true);
  expect(writeRecord(bare(made))).toBe(writeRecord(plan.record));
  expect(replayed(record)).toBe(record);
  expect(faults).toEqual([]);
  await context.close();
});

/** Ends the page's process at once: nothing of the page runs any more, not even what it does when it is closed. */
async function killed(page: Page): Promise<void> {
  const devtools = await page.context().newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  // The answer never comes: who should give it is dead.
  devtools.send('Page.crash').catch(() => {});
  await crashed;
  await page.close();
}

/** `HH:MM:SS` and so many seconds, as six figures. */
function later(utc: string, by_s: number): string {
  const [h = 0, m = 0, s = 0] = utc.split(':').map(Number);
  const all = h * 3600 + m * 60 + s + by_s;
  return [all / 3600, (all / 60) % 60, all % 60].map((n) => String(Math.floor(n)).padStart(2, '0')).join('');
}
