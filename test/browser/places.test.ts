/** Every page and every place of the panel: nothing that axe finds, nothing that the browser complains of, nothing from elsewhere. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LINKS } from '../../src/core/drill.ts';
import { atWork, lookInside, NAME, TEXT } from './hand-drill.ts';
import { type Plan, planDrill } from './hand-plan.ts';
import { momentOf, shelve, unguarded } from './hand-shelf.ts';
import { openTrainer, type Trainer } from './open.ts';
import { DESK, goTo, ON_SIDE, PHONE, PLACES, takenUp, visit } from './stand.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let trainer: Trainer;
let guided: Plan;
let alone: Plan;
let failed: Plan;

beforeAll(async () => {
  trainer = await openTrainer();
  guided = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'shown', seed: 7 });
  alone = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'assessed', seed: 7 });
  failed = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'unaided', seed: 8, steps: unguarded });
});
afterAll(() => trainer?.close());

/** What axe finds by WCAG 2.2 A and AA and by its best practice. */
async function faultsOf(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const found = await axe.run({ runOnly: tags });
    return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
  });
}

/** Every place, with what is wrong there. */
async function placesOf(page: Page): Promise<string[]> {
  const wrong: string[] = [];
  for (const place of PLACES) {
    await goTo(page, place);
    for (const fault of await faultsOf(page)) wrong.push(`${place}: ${fault}`);
  }
  return wrong;
}

describe('places of the panel', () => {
  it('are without fault, cold and guided', async () => {
    const { page, faults, context } = await takenUp(trainer, guided, 0);
    expect(await placesOf(page)).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('are without fault while the tape runs, also in high contrast', async () => {
    const { page, faults, context } = await takenUp(trainer, alone, momentOf(alone, 'tape.run', true) + 9e6);
    expect(await placesOf(page)).toEqual([]);
    await page.evaluate(() => {
      document.documentElement.dataset['theme'] = 'contrast';
    });
    expect(await placesOf(page)).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('keep the step before the trainee on a phone held upright: scrolled away it is a line under the tabs', async () => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'tape.run', true) + 9e6, PHONE);
    await goTo(page, 'messages');
    const tip = page.locator('.now p').first();
    const line = page.locator('.now__fold');
    expect(await tip.isVisible()).toBe(true);
    await page.evaluate(() => scrollTo(0, 700));
    await tip.waitFor({ state: 'hidden' });
    const tabs = (await page.locator('.chips').boundingBox())!;
    const now = (await page.locator('.now').boundingBox())!;
    expect([now.y - tabs.y - tabs.height, now.height <= 36]).toEqual([0, true]);
    await line.click();
    expect(await tip.isVisible()).toBe(true);
    expect(await page.locator('.now').evaluate((el) => el.scrollHeight <= el.clientHeight + 1)).toBe(true);
    await line.click();
    expect(await tip.isVisible()).toBe(false);
    await page.evaluate(() => scrollTo(0, 0));
    await tip.waitFor({ state: 'visible' });
    await context.close();
  });

  it('show controls at once on a phone on its side, with the step a touch away and nothing over them', async () => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'tape.run', true) + 9e6, ON_SIDE);
    for (const place of PLACES.slice(1)) {
      await goTo(page, place);
      await page.evaluate(() => scrollTo(0, 0));
      const free = await page.locator('[data-control]').evaluateAll(
        (all) =>
          all.filter((el) => {
            const { left, right, top, bottom } = el.getBoundingClientRect();
            const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
            return bottom <= innerHeight && (el === hit || el.contains(hit));
          }).length,
      );
      expect(free, place).toBeGreaterThan(0);
      // What always stands there stands beside the tabs, over nothing else.
      const foot = (await page.locator('.chips').boundingBox())!.height;
      for (const name of ['Explain', 'Watch']) {
        const { y, height } = (await page.getByRole('button', { name, exact: true }).boundingBox())!;
        expect([place, name, y + height <= foot]).toEqual([place, name, true]);
      }
    }
    await goTo(page, 'desk');
    await page.getByRole('button', { name: 'Reach chart' }).click();
    await page.getByRole('button', { name: 'Close', exact: true }).click({ timeout: 3000 });
    await page.evaluate(() => scrollTo(0, 0));
    const tip = page.locator('.now p').first();
    expect(await tip.isVisible()).toBe(false);
    await page.locator('.now__fold').click();
    expect(await tip.isVisible()).toBe(true);
    expect(await page.locator('.now').evaluate((el) => el.scrollHeight <= el.clientHeight + 1)).toBe(true);
    await context.close();
  });

  it.each([
    ['upright', PHONE],
    ['on its side', ON_SIDE],
  ])('are without fault on a phone %s, and do not scroll sideways', async (_how, viewport) => {
    const t = momentOf(guided, 'tape.run', true) + 9e6;
    const { page, faults, context } = await takenUp(trainer, guided, t, viewport);
    expect(await placesOf(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    expect(faults).toEqual([]);
    await context.close();
  });

  it('are without fault with the watch slip, the log’s words and the message form open', async () => {
    const { page, faults, context } = await takenUp(trainer, guided, momentOf(guided, 'tape.run', true));
    await goTo(page, 'desk');
    await page.locator('.log__write .tile').click();
    expect(await faultsOf(page)).toEqual([]);
    await goTo(page, 'messages');
    await page.keyboard.press('Alt+KeyM');
    expect(await faultsOf(page)).toEqual([]);
    await page.keyboard.press('Alt+KeyW');
    await page.getByRole('dialog').waitFor();
    expect(await faultsOf(page)).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });
});

it('leaves nothing behind that would draw the shelter after it was left', async () => {
  const { page, faults, context } = await takenUp(trainer, alone, momentOf(alone, 'tape.run', true));
  await page.clock.install();
  await page.evaluate(() => dispatchEvent(new Event('resize')));
  await page.evaluate(() => {
    location.hash = '';
  });
  await page.getByRole('heading', { name: 'You are alone' }).waitFor();
  await page.clock.runFor(2000);
  expect(faults).toEqual([]);
  await context.close();
});

describe('the order', () => {
  it.each([
    ['wide', DESK],
    ['upright', PHONE],
    ['on its side', ON_SIDE],
  ])('is opened by a touch on its folded paper, and nowhere else, %s', async (_name, viewport) => {
    const { page, context } = await takenUp(trainer, guided, 0, viewport);
    await goTo(page, 'desk');
    await page.getByRole('button', { name: 'Read the order', exact: true }).waitFor();
    expect(await page.locator('[data-control="desk.order"]').count()).toBe(1);
    const paper = page.locator('.paper--order');
    await paper.scrollIntoViewIfNeeded();
    const { x, y, width, height } = (await paper.boundingBox())!;
    expect(await paper.textContent()).toContain('Folded');
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.mouse.down();
    await page.mouse.up();
    await page.evaluate(() => window.keydownClock!.advance(600));
    expect(await paper.textContent()).not.toContain('Folded');
    await context.close();
  });
});

describe('the look inside', () => {
  it.each([
    ['wide', DESK],
    ['narrow', PHONE],
    ['low', ON_SIDE],
  ])('is without fault at every link while the tape runs, %s', async (_name, viewport) => {
    const { page, faults, context } = await takenUp(
      trainer,
      guided,
      momentOf(guided, 'tape.run', true) + 9e6,
      viewport,
    );
    for (const [n, link] of LINKS.entries()) {
      await lookInside(page, n);
      expect(await faultsOf(page), link).toEqual([]);
      await page.keyboard.press('Escape');
    }
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe('the look inside from every place', () => {
  it.each([
    ['wide', DESK],
    ['narrow', PHONE],
  ])('has nothing of the place over it, %s', async (_name, viewport) => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'tape.run', true) + 9e6, viewport);
    for (const place of PLACES) {
      await goTo(page, place);
      if (place === 'messages') await page.keyboard.press('Alt+KeyM');
      await lookInside(page, 3);
      const over = await page.evaluate(() => {
        // What is inert is not hit, though it is seen.
        document.querySelector<HTMLElement>('.layer')!.inert = false;
        const { left, top, width, height } = document.querySelector('.inside__body')!.getBoundingClientRect();
        const seen = (i: number, k: number) => {
          const el = document.elementFromPoint(left + (width * (i + 0.5)) / 24, top + (height * (k + 0.5)) / 16);
          return el === null || el.closest('.inside') ? [] : [`${el.tagName}.${el.className}`];
        };
        return Array.from({ length: 24 * 16 }, (_, n) => seen(n % 24, Math.floor(n / 24))).flat();
      });
      expect([...new Set(over)], place).toEqual([]);
      await page.keyboard.press('Escape');
    }
    await context.close();
  });
});

describe('the look inside in the manner prompted', () => {
  it.each([
    ['wide', DESK],
    ['low and wide', { width: 1366, height: 600 }],
  ])('has no button over the legend at its foot, %s; Help is there again when it closes', async (_name, viewport) => {
    const { page, context } = await visit(trainer, '#order/first-call/prompted/7', viewport);
    await page.locator('.page--order .flag--go:enabled').click();
    await atWork(page);
    const help = page.getByRole('button', { name: /^Help/ });
    expect(await help.isVisible()).toBe(true);
    await lookInside(page, 5);
    const ends = await page.locator('.work__bar').evaluate((el) => el.getBoundingClientRect().right);
    const legend = await page.locator('.inside').evaluate((el) => {
      const { left, width } = el.getBoundingClientRect();
      return left + (width * 468) / 1280;
    });
    expect(ends).toBeLessThan(legend);
    await page.keyboard.press('Escape');
    expect(await help.isVisible()).toBe(true);
    await context.close();
  });
});

describe('pages', () => {
  it.each([
    ['the first page', '', '', 'main'],
    ['settings', '', 's', 'dialog'],
    ['keys', '', '?', 'dialog'],
    ['the order', '#order/first-call/assessed/7', '', '.page--order .flag--go:enabled'],
    ['no page', '#nowhere', '', 'h1'],
    ['a run that is not there', '#work/none', '', '[role=alert]'],
  ])('%s is without fault', async (_name, place, key, shown) => {
    const { page, faults, context } = await visit(trainer, place);
    if (key) await page.keyboard.press(key);
    await page.locator(shown).first().waitFor();
    expect(await faultsOf(page)).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it.each([
    ['GO', () => alone, /100 points of 100, GO from 80$/],
    ['NO-GO', () => failed, /points of 100, 2 that must be met were not$/],
  ])(
    'the debrief of a %s says what it hangs on, and is without fault, wide and narrow',
    async (word, plan, hangsOn) => {
      for (const viewport of [DESK, PHONE]) {
        const { page, faults, context } = await visit(trainer, '', viewport);
        await page.goto(`${trainer.url}?clock=manual#debrief/${await shelve(page, plan())}`);
        await page.locator('.verdict__word').waitFor();
        expect(await page.locator('.verdict__word').textContent()).toBe(word);
        expect(await page.locator('.verdict').textContent()).toMatch(hangsOn);
        expect(await faultsOf(page)).toEqual([]);
        expect(faults).toEqual([]);
        await context.close();
      }
    },
  );
});

it('forbids scripts of others and talk to elsewhere by its policy', async () => {
  const { page, context } = await visit(trainer, '');
  const refused = await page.evaluate(async () => {
    const said: string[] = [];
    document.addEventListener('securitypolicyviolation', (e) => said.push(e.effectiveDirective));
    const script = document.createElement('script');
    script.textContent = 'document.title = "taken over"';
    document.body.append(script);
    const picture = new Image();
    picture.src = 'https://example.invalid/x.png';
    await fetch('https://example.invalid/').catch(() => {});
    // Violations are told in tasks of their own.
    for (let frame = 0; frame < 300 && said.length < 3; frame++) await new Promise(requestAnimationFrame);
    return [...said, document.title];
  });
  expect(refused).toEqual(expect.arrayContaining(['script-src-elem', 'connect-src', 'img-src', 'Keydown']));
  await context.close();
});
