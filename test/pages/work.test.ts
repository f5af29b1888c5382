/** The work page in a real browser, on the real core, with a bare board in place of the shelter. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildTrainer, openTrainer, type Trainer } from '../browser/open.ts';

let trainer: Trainer;

beforeAll(async () => {
  trainer = await openTrainer(await buildTrainer(new URL('./dev', import.meta.url).pathname));
});
afterAll(() => trainer?.close());

const manual = '?clock=manual';
const context = () => trainer.browser.newContext({ viewport: { width: 1280, height: 720 } });

async function start(ctx: BrowserContext, manner: string, query = manual): Promise<Page> {
  const page = await ctx.newPage();
  page.on('pageerror', (error) => expect.fail(error.message));
  await page.goto(`${trainer.url}${query}#order/first-call/${manner}/7`);
  await page
    .getByRole('button', { name: /^Start/ })
    .and(page.locator(':enabled'))
    .waitFor();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Watch' }).waitFor();
  return page;
}

const advance = (page: Page, ms: number) => page.evaluate((by) => window.keydownClock?.advance(by), ms);
const board = (page: Page) => page.getByRole('region', { name: 'Board' }).locator('output');
const shows = (page: Page, text: string) => board(page).filter({ hasText: text }).waitFor();

/** What the journal on the shelf says, newest run. */
const journal = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    Object.keys(localStorage)
      .filter((key) => /^keydown\/run\/[^/]+\/\d+$/.test(key))
      .sort()
      .map((key) => localStorage.getItem(key) as string),
  );

describe('work page', () => {
  it('stands still on the test clock until told', async () => {
    const page = await start(await context(), 'unaided');
    await shows(page, '09 40 00');
    expect(await advance(page, 61_000)).toBe(61_000);
    await shows(page, '09 41 01');
  });

  it('runs by itself otherwise', async () => {
    const page = await start(await context(), 'unaided', '');
    await shows(page, '09 40 02');
  });

  it('keeps an act through a kill and goes on from there, with the interruption in the journal', async () => {
    const ctx = await context();
    const page = await start(ctx, 'unaided');
    await advance(page, 3000);
    await page.getByRole('button', { name: 'Isolator on' }).click();
    await shows(page, 'isolator true');
    await page.close({ runBeforeUnload: false });
    const again = await ctx.newPage();
    await again.goto(trainer.url + manual);
    await again.keyboard.press('l');
    await shows(again, 'isolator true');
    await shows(again, '09 40 03');
    const lines = await journal(again);
    expect(JSON.parse(lines[0] as string)).toEqual({ t: 3_000_000, control: 'feed.isolator', value: true });
    expect(JSON.parse(lines[1] as string)).toMatchObject({ t: 3_000_000, why: 'closed' });
  });

  it('comes back to the drill by a plain reload', async () => {
    const page = await start(await context(), 'unaided');
    await advance(page, 5000);
    await page.reload();
    await shows(page, '09 40 05');
  });

  it('pauses while the watch slip is open, and notes it', async () => {
    const page = await start(await context(), 'prompted');
    await page.keyboard.press('Alt+w');
    await page.getByRole('dialog', { name: 'Watch' }).waitFor();
    await advance(page, 9000);
    await page.keyboard.press('Escape');
    await shows(page, '09 40 00');
    await expect.poll(() => journal(page)).toContainEqual(expect.stringContaining('"why":"paused"'));
  });

  it('does not pause in an assessed drill', async () => {
    const page = await start(await context(), 'assessed');
    await page.keyboard.press('Alt+w');
    await page.getByRole('dialog', { name: 'Watch' }).waitFor();
    await advance(page, 9000);
    await page.keyboard.press('Escape');
    await shows(page, '09 40 09');
    expect(await journal(page)).toEqual([]);
  });

  it('offers no leaving in an assessed drill, says what ends it, and writes down that the page was closed', async () => {
    const ctx = await context();
    const page = await start(ctx, 'assessed');
    await advance(page, 3000);
    await page.keyboard.press('Alt+w');
    const slip = page.getByRole('dialog', { name: 'Watch' });
    const offered = await slip.locator('.slip__foot button').allTextContents();
    expect(offered).toEqual(['Go onEsc', 'Settings', 'Keys', 'Hand over', 'Give up']);
    await slip.getByText('ends when you hand over or give up').waitFor();
    await page.close();
    const again = await ctx.newPage();
    await again.goto(page.url());
    await again.getByRole('button', { name: 'Watch' }).waitFor();
    expect((await journal(again)).map((line) => JSON.parse(line))).toMatchObject([{ t: 3_000_000, why: 'closed' }]);
  });

  it('offers leaving in the other manners, and keeps the drill', async () => {
    const page = await start(await context(), 'unaided');
    await advance(page, 3000);
    await page.keyboard.press('Alt+w');
    await page.getByRole('button', { name: 'Leave it for now' }).click();
    await page.getByRole('button', { name: /^Go on: .*, 3\.0 s into it/ }).waitFor();
  });

  it('tells each step in shown, and on request in prompted', async () => {
    const shown = await start(await context(), 'shown');
    await advance(shown, 300);
    await shows(shown, 'now ');
    const prompted = await start(await context(), 'prompted');
    await advance(prompted, 300);
    expect(await board(prompted).textContent()).not.toContain('now ');
    await prompted.keyboard.press('Alt+h');
    await shows(prompted, 'now ');
    expect((await journal(prompted)).filter((line) => line.includes('"help"'))).toHaveLength(1);
  });

  it('asks before it hands over, then debriefs', async () => {
    const page = await start(await context(), 'assessed');
    await advance(page, 2000);
    for (const answer of ['Not yet', 'Hand over']) {
      await page.getByRole('button', { name: 'Watch' }).click();
      await page.getByRole('button', { name: 'Hand over' }).click();
      await page
        .getByRole('dialog', { name: /Hand the watch over/ })
        .getByRole('button', { name: answer })
        .click();
    }
    await page.getByText('NO-GO', { exact: true }).first().waitFor();
    await page.getByText(/Ended: handed over/).waitFor();
    await page.goto(trainer.url);
    expect(await page.getByText('Go on:').count()).toBe(0);
  });

  it('gives up when told so, and says so', async () => {
    const page = await start(await context(), 'unaided');
    await page.getByRole('button', { name: 'Watch' }).click();
    await page.getByRole('button', { name: 'Give up' }).click();
    await page
      .getByRole('dialog', { name: /Give the drill up/ })
      .getByRole('button', { name: 'Give up' })
      .click();
    await page.getByText(/Ended: given up/).waitFor();
  });

  it('lets one window work a drill, and says so in the other', async () => {
    const ctx = await context();
    const page = await start(ctx, 'unaided');
    const other = await ctx.newPage();
    await other.goto(page.url());
    await other.getByRole('alert').filter({ hasText: 'another window' }).waitFor();
    await page.close();
    await other.reload();
    await other.getByRole('button', { name: 'Watch' }).waitFor();
  });

  it('says where a journal is broken, and goes on from before it as a new run', async () => {
    const page = await start(await context(), 'unaided');
    await page.getByRole('button', { name: 'Isolator on' }).click();
    await advance(page, 2000);
    await page.getByRole('button', { name: 'Isolator on' }).click();
    await page.evaluate(() => {
      const last = Object.keys(localStorage).find((key) => key.endsWith('/000002'));
      localStorage.setItem(last as string, '{"t":');
    });
    await page.reload();
    await page.getByRole('alert').filter({ hasText: 'Entry 2' }).waitFor();
    await page.getByRole('button', { name: 'Go on from before it' }).click();
    await shows(page, 'isolator true');
  });
});

describe('stored runs', () => {
  it('lead to the drill by Go on, and to its debrief once it is over', async () => {
    const page = await start(await context(), 'unaided');
    await advance(page, 5000);
    const stored = async () => {
      await page.goto(trainer.url + manual);
      await page.keyboard.press('r');
      return page.getByRole('dialog', { name: 'Stored runs' });
    };
    await (await stored()).getByRole('button', { name: 'Go on' }).click();
    await shows(page, '09 40 05');
    await page.getByRole('button', { name: 'Watch' }).click();
    await page.getByRole('button', { name: 'Give up' }).click();
    const sure = page.getByRole('dialog', { name: /Give the drill up/ });
    await sure.getByRole('button', { name: 'Give up' }).click();
    await page.getByText(/Ended: given up/).waitFor();
    await (await stored()).getByRole('button', { name: 'Debrief' }).click();
    await page.waitForURL(/#debrief/);
    await page.getByText(/Ended: given up/).waitFor();
  });
});
