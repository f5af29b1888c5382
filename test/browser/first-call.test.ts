/** The whole first-call drill in a real browser, by a hand that has a keyboard and nothing else, or a mouse and nothing else. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { writeRecord } from '../../src/core/record/format.ts';
import { debriefed, enterByKeys, enterByMouse, NAME, TEXT, watched } from './hand-drill.ts';
import { planDrill } from './hand-plan.ts';
import { PageHand } from './hand-work.ts';
import { buildTrainer, openBrowser, serve } from './open.ts';

let site: Awaited<ReturnType<typeof serve>>;
let browser: Browser;

beforeAll(async () => {
  const files = await buildTrainer();
  [site, browser] = await Promise.all([serve(files), openBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  site?.close();
});

it('is worked by keyboard alone to GO, and its record is the headless one, byte for byte', async () => {
  const plan = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'unaided', seed: 7 });
  const { context, faults } = await watched(browser, site.url);
  const page = await context.newPage();
  await enterByKeys(page, site.url, plan);
  await new PageHand(page, 'keyboard').work(plan.moves);
  const { verdict, record } = await debriefed(page, 'keyboard');
  expect(verdict).toBe('GO');
  expect(record).toBe(writeRecord(plan.record));
  expect(faults).toEqual([]);
  await context.close();
});

it('is worked by mouse alone to GO, and its record is the headless one, byte for byte', async () => {
  const plan = planDrill(TEXT, NAME, { tool: 'mouse', manner: 'assessed', seed: 4 });
  const { context, faults } = await watched(browser, site.url);
  const page = await context.newPage();
  await enterByMouse(page, site.url, plan);
  await new PageHand(page, 'mouse').work(plan.moves);
  const { verdict, record } = await debriefed(page, 'mouse');
  expect(verdict).toBe('GO');
  expect(record).toBe(writeRecord(plan.record));
  expect(faults).toEqual([]);
  await context.close();
});
