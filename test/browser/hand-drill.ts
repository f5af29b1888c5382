/** Ways into a drill and out of it, for tests of the whole: as a trainee goes them, by the page. */
import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import type { Plan } from './hand-plan.ts';
import type { Trainer } from './open.ts';

/** The drill that every run works. */
export const NAME = 'first-call.yaml';
export const TEXT = readFileSync(new URL(`../../scenarios/${NAME}`, import.meta.url), 'utf8');

/** What went wrong in a page without anybody asking: errors, warnings of the policy, requests to elsewhere. */
export type Watched = { faults: string[] };

/**
 * Phaser tries once at its start whether `new Function` works and falls back when the policy forbids it; the browser
 * writes that down as an error. It is the one message that a page may give.
 */
const PROBE = /unsafe-eval/;

/** A browser of its own, watched: everything that is wrong is gathered. */
export async function watched(
  { browser, url }: Trainer,
  viewport = { width: 1280, height: 720 },
): Promise<Watched & { context: BrowserContext }> {
  const context = await browser.newContext({ viewport, acceptDownloads: true });
  const faults: string[] = [];
  context.on('weberror', (e) => faults.push(`thrown: ${e.error().message}`));
  context.on('console', (m) => {
    if (['error', 'warning'].includes(m.type()) && !PROBE.test(m.text())) faults.push(`${m.type()}: ${m.text()}`);
  });
  context.on('request', (r) => {
    if (!r.url().startsWith(url) && !/^(blob|data):/.test(r.url())) faults.push(`asked elsewhere: ${r.url()}`);
  });
  return { context, faults };
}

/** The shelter stands and its clock waits for the test. */
export async function atWork(page: Page): Promise<Page> {
  await page.getByRole('button', { name: /^Watch/ }).waitFor();
  await page.waitForFunction(() => window.keydownClock !== undefined);
  return page;
}

/** Presses Tab until the focus is where `selector` says. */
export async function tabUntil(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 60; i++) {
    if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not come to ${selector}`);
}

/** From the first page to the shelter by keys alone: manner by arrows, draw typed, drill by its number, Enter. */
export async function enterByKeys(page: Page, url: string, { manner, seed }: Plan): Promise<void> {
  await page.goto(`${url}?clock=manual`);
  await tabUntil(page, 'input[name=manner]');
  for (let i = 0; i < 4 && !(await page.locator(`input[value=${manner}]`).isChecked()); i++)
    await page.keyboard.press('ArrowRight');
  await tabUntil(page, '#draw');
  await page.keyboard.press('Control+a');
  await page.keyboard.type(String(seed));
  await page.keyboard.press('Tab');
  await page.keyboard.press('1');
  await page.locator('.page--order .flag--go:enabled').waitFor();
  await page.keyboard.press('Enter');
  await atWork(page);
}

/** From the order's own address to the shelter by one click: a draw wanted by number is in the address. */
export async function enterByMouse(page: Page, url: string, { manner, seed }: Plan): Promise<void> {
  await page.goto(`${url}?clock=manual#order/first-call/${manner}/${seed}`);
  const start = page.locator('.page--order .flag--go:enabled');
  await start.waitFor();
  const box = (await start.boundingBox())!;
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await atWork(page);
}

/** The verdict that the debrief page gives, and the record that it saves. */
export async function debriefed(page: Page, tool: 'keyboard' | 'mouse'): Promise<{ verdict: string; record: string }> {
  const word = page.locator('.verdict__word');
  await word.waitFor();
  const saving = page.waitForEvent('download');
  if (tool === 'keyboard') await page.keyboard.press('x');
  else {
    await page.mouse.wheel(0, 10_000);
    const save = page.getByRole('button', { name: 'save the record' });
    await page.waitForFunction((el) => el!.getBoundingClientRect().bottom <= innerHeight, await save.elementHandle());
    const box = (await save.boundingBox())!;
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  }
  const path = await (await saving).path();
  return { verdict: (await word.textContent()) ?? '', record: readFileSync(path, 'utf8') };
}

/** Looks inside link `n` of the signal's way, 0 first: by the ribbon, or on a phone by its button and then link by link. */
export async function lookInside(page: Page, n: number): Promise<void> {
  const phone = page.getByRole('button', { name: 'Look inside the signal' });
  if ((await phone.count()) > 0) {
    await phone.click();
    for (let i = 0; i < n; i++) await page.getByRole('button', { name: 'link after' }).click();
  } else await page.locator('.link').nth(n).click();
  await page.locator('.inside').waitFor();
}
