/** A debrief come to from a drill, in the same document, and the same debrief freshly loaded: nothing may look otherwise. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { atWork, NAME, TEXT, watched } from './hand-drill.ts';
import { planDrill } from './hand-plan.ts';
import { momentOf, shelve, unguarded } from './hand-shelf.ts';
import { openTrainer, type Trainer } from './open.ts';

let trainer: Trainer;

beforeAll(async () => {
  trainer = await openTrainer();
});
afterAll(() => trainer?.close());

/** Ends a drill by its watch slip. */
async function handOver(page: Page): Promise<void> {
  await page.keyboard.press('Alt+KeyW');
  await page.getByRole('button', { name: 'Hand over' }).click();
  await page
    .getByRole('dialog', { name: /Hand the watch over/ })
    .getByRole('button', { name: 'Hand over' })
    .click();
}

/** Every element of the page that is not for the printer, with where it stands and how it is styled. */
async function looks(page: Page): Promise<string[]> {
  await page.locator('.verdict__word').waitFor();
  return page.evaluate(async () => {
    await document.fonts.ready;
    scrollTo(0, 0);
    return [...document.querySelectorAll('.page, .page *')]
      .filter((el) => !el.closest('.result__print'))
      .map((el) => {
        const { x, y, width, height } = el.getBoundingClientRect();
        const style = getComputedStyle(el);
        const all = [...style].map((name) => `${name}:${style.getPropertyValue(name)}`).join(';');
        const pseudo = ['::before', '::after'].map(
          (p) => getComputedStyle(el, p).inset + getComputedStyle(el, p).content,
        );
        const name = `${el.tagName}.${el.getAttribute('class') ?? ''}`;
        return `${name} ${[x, y, width, height].map(Math.round).join(' ')} ${pseudo.join(' ')} ${all}`;
      });
  });
}

/** What differs between two looks of one element, its name first. */
function differing(came: string, loaded: string): string[] {
  if (came === loaded) return [];
  const was = new Set(loaded.split(';'));
  return [`${came.split(' ')[0]}: ${came.split(';').filter((one) => !was.has(one))}`];
}

it('looks the same come to from the drill as freshly loaded, also with the look inside seen before', async () => {
  const plan = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'assessed', seed: 8, steps: unguarded });
  const { context, faults } = await watched(trainer);
  const page = await context.newPage();
  await page.goto(`${trainer.url}?clock=manual`);
  const id = await shelve(page, plan, momentOf(plan, 'tape.run', true));
  await page.goto(`${trainer.url}?clock=manual#work/${id}`);
  await atWork(page);
  await page.locator('.link').nth(3).click();
  await page.locator('.inside').waitFor();
  await page.keyboard.press('Escape');
  await handOver(page);
  const came = await looks(page);
  await page.reload();
  const loaded = await looks(page);
  expect(loaded.length).toBeGreaterThan(100);
  expect(came.length).toBe(loaded.length);
  expect(came.flatMap((look, i) => differing(look, loaded[i] as string))).toEqual([]);
  expect(faults).toEqual([]);
  await context.close();
});
