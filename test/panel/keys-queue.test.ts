/** Keys that wait at the printer's keyboard when the panel is built anew: the hand is off them, and what is typed then goes in order. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildTrainer, openTrainer, type Trainer } from '../browser/open.ts';

const READY = 'printer.motor=true;printer.source=local;3;printer.tearOff=true;printer.tearOff=false';
type Bench = {
  advance(ms: number): void;
  drill: { record: { lines: { k: string; control?: string; value?: string }[] } };
};

let trainer: Trainer;
beforeAll(async () => {
  trainer = await openTrainer(await buildTrainer(new URL('./dev', import.meta.url).pathname));
});
afterAll(() => trainer?.close());

test('away and back: nothing is refused, nothing comes out of turn', async () => {
  const page = await (await trainer.browser.newContext({ viewport: { width: 1280, height: 720 } })).newPage();
  await page.goto(`${trainer.url}?clock=manual&place=messages&until=30&do=${READY}`);
  await page.waitForSelector('body[data-ready]');
  const keyboard = page.getByRole('group', { name: /^Keyboard/ });
  const type = async (text: string) => {
    await keyboard.focus();
    for (const key of text) await page.keyboard.press(key);
  };
  const advance = async (ms: number) => {
    for (let t = 0; t < ms; t += 50)
      await page.evaluate(() => (window as unknown as { bench: Bench }).bench.advance(50));
  };
  await type('abcdef');
  await page.keyboard.press('Alt+0');
  await page.keyboard.press('Alt+3');
  await type('xyz');
  await advance(3000);
  const struck = await page.evaluate(() =>
    (window as unknown as { bench: Bench }).bench.drill.record.lines
      .filter((l) => l.control === 'printer.key')
      .map((l) => (l.k === 'refused' ? `${l.value}!` : l.value)),
  );
  // The bench may have typed a little of its own before.
  expect(struck.join('')).toMatch(/A[B-F]*XYZ$/);
  expect(struck.join('')).not.toContain('!');
});
