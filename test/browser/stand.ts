/** Where a browser test stands: a page of the trainer, or a drill taken up at any instant, close to a bay. */
import type { BrowserContext, Page } from 'playwright-core';
import { BAYS, type Place } from '../../src/panel/host.ts';
import { atWork, watched } from './hand-drill.ts';
import type { Plan } from './hand-plan.ts';
import { shelve } from './hand-shelf.ts';
import type { Trainer } from './open.ts';

/** The whole shelter and the bays, in the order of their keys. */
export const PLACES: readonly Place[] = ['shelter', ...BAYS.map((b) => b.place)];
export const DESK = { width: 1280, height: 720 };
export const PHONE = { width: 390, height: 844 };
/** The phone on its side. */
export const ON_SIDE = { width: 844, height: 390 };

/** A page of the trainer, and what the browser complains of there. */
export type Visited = { page: Page; faults: string[]; context: BrowserContext };

/** The page at `place` of the address, on the test clock. */
export async function visit(trainer: Trainer, place: string, viewport = DESK): Promise<Visited> {
  const { context, faults } = await watched(trainer, viewport);
  const page = await context.newPage();
  await page.goto(`${trainer.url}?clock=manual${place}`);
  return { page, faults, context };
}

/** A run taken up at drill time `t`, us. */
export async function takenUp(trainer: Trainer, plan: Plan, t: number, viewport = DESK): Promise<Visited> {
  const visited = await visit(trainer, '', viewport);
  const id = await shelve(visited.page, plan, t);
  await visited.page.goto(`${trainer.url}?clock=manual#work/${id}`);
  await atWork(visited.page);
  return visited;
}

/** Goes close to a bay, or back before the whole shelter. */
export async function goTo(page: Page, place: Place): Promise<void> {
  await page.keyboard.press(`Alt+Digit${PLACES.indexOf(place)}`);
  await page.locator(`.layer--${place}`).waitFor({ state: 'attached' });
  await page.evaluate(() => window.keydownClock!.advance(300));
}
