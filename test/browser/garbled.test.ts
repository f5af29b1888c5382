import { afterAll, beforeAll, expect, it } from 'vitest';
import { writeRecord } from '../../src/core/record/format.ts';
import { NAME, TEXT, watched } from './hand-drill.ts';
import { planDrill } from './hand-plan.ts';
import { openTrainer, type Trainer } from './open.ts';

let trainer: Trainer;

beforeAll(async () => {
  trainer = await openTrainer();
});
afterAll(() => trainer?.close());

it('rings the wrong letters in both texts and says which unit of each went wrong', async () => {
  const { record } = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'assessed', seed: 7 });
  const there = record.lines.flatMap((l) => (l.k === 'print' && l.at === 'QV7K' && l.c.length === 1 ? [l] : []));
  const text = there.map(({ c }) => c).join('');
  const road = text.indexOf('ROAD TO SAND');
  expect(road).toBeGreaterThan(0);
  // In ITU-T S.1 R is 01010 and D 10010, unit 1 first: units 1 and 2 differ. The Y of QUAY is not printed at all.
  const [wrong, lost] = [there[road], there[text.indexOf('QUAY', road) + 3]];
  const lines = record.lines
    .filter((l) => l !== lost)
    .map((l, n) => ({ ...l, ...(l === wrong ? { c: 'D', code: 0b01001 } : {}), i: n + 1 })) as typeof record.lines;
  const { context, faults } = await watched(trainer);
  const page = await context.newPage();
  await page.goto(`${trainer.url}?clock=manual`);
  const buffer = Buffer.from(writeRecord({ ...record, lines }));
  await page.getByLabel('Record file').setInputFiles({ name: 'a.jsonl', mimeType: 'text/plain', buffer });
  const copied = page.locator('.copied');
  await copied.waitFor();
  const [sent, printed] = await copied.locator('.arrived').all();
  expect(await sent!.locator('mark').allTextContents()).toEqual(['R', 'Y']);
  expect(await printed!.locator('mark').allTextContents()).toEqual(['D', '·']);
  expect(await printed!.textContent()).toContain('DOAD TO SAND QUA· OPEN');
  expect(await copied.locator('.wrongs li').allTextContents()).toEqual([
    expect.stringMatching(/^R came as D, units 1, 2/),
    'Y did not come',
  ]);
  expect(faults).toEqual([]);
  await context.close();
});
