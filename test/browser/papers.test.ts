/** Papers, slips and cards over the drawing: nothing is cut, and what is needed together can be read together. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BAYS } from '../../src/panel/host.ts';
import { NAME, TEXT } from './hand-drill.ts';
import { type Plan, planDrill } from './hand-plan.ts';
import { momentOf } from './hand-shelf.ts';
import { openTrainer, type Trainer } from './open.ts';
import { DESK, goTo, PHONE, takenUp } from './stand.ts';

let trainer: Trainer;
let guided: Plan;
let alone: Plan;
let assessed: Plan;
/** Guided, with the word form gone from the tip of the step that is worked from it, and in that of the next. */
let reworded: Plan;

beforeAll(async () => {
  trainer = await openTrainer();
  guided = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'shown', seed: 7 });
  reworded = planDrill(withFormElsewhere(), NAME, { tool: 'keyboard', manner: 'shown', seed: 7 });
  alone = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'unaided', seed: 7 });
  assessed = planDrill(TEXT, NAME, { tool: 'keyboard', manner: 'assessed', seed: 7 });
});
afterAll(() => trainer?.close());

function withFormElsewhere(): string {
  const turns = [
    ['type the message as its form has it', 'type the message'],
    ['tip: Desk - headset 6. Radio', 'tip: Leave the form. Desk - headset 6. Radio'],
  ] as const;
  return turns.reduce((text, [from, to]) => {
    expect(text).toContain(from);
    return text.replace(from, to);
  }, TEXT);
}

/** Drill time (us) of the last key before the punch: with it the printer is proved. */
const lastKeyOfFox = (plan: Plan): number => {
  const punch_us = momentOf(plan, 'tape.punch', true);
  const keys = plan.moves.filter((m) => m.control === 'printer.key' && m.t < punch_us);
  return (keys.at(-1) as (typeof keys)[0]).t;
};

/** Selectors of all that is cut by its own edge or by that of `within`. */
const cutBy = (page: Page, selector: string, within: string): Promise<string[]> =>
  page.evaluate(
    ([each, outer]) =>
      [...document.querySelectorAll<HTMLElement>(each!)].flatMap((node) => {
        const edge = node.closest(outer!)!.getBoundingClientRect();
        const { bottom, right } = node.getBoundingClientRect();
        const isCut = node.scrollHeight > node.clientHeight + 1 || bottom > edge.bottom + 1 || right > edge.right + 1;
        return isCut ? [`${node.className} ${node.textContent!.slice(0, 40)}`] : [];
      }),
    [selector, within],
  );

type Rect = { left: number; top: number; right: number; bottom: number };

/** Where the lines of text of all that is found stand, without the air over and under their letters. */
const textBoxes = (found: Locator): Promise<Rect[]> =>
  found.evaluateAll((all) =>
    all.flatMap((el) => {
      const range = document.createRange();
      range.selectNodeContents(el);
      return [...range.getClientRects()]
        .map(({ left, top, right, bottom }) => ({ left, top: top + 2, right, bottom: bottom - 2 }))
        .filter((box) => box.right > box.left);
    }),
  );

const meets = (a: Rect, b: Rect): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

describe('papers and slips', () => {
  it('explain every control of every place whole, beside a tip that is one of the longest', async () => {
    const longest = Math.max(...guided.scenario.steps.map((s) => s.tip?.length ?? 0));
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'tape.run', true) + 1);
    for (const { place } of BAYS) {
      await goTo(page, place);
      if (!(await page.locator('.explain').isVisible())) await page.keyboard.press('Alt+KeyE');
      if (place === 'power')
        expect((await page.locator('.now > p:not(.now__title, .quiet)').textContent())!.length).toBeGreaterThan(
          0.85 * longest,
        );
      const controls = page.locator(`.layer--${place} [data-control]`);
      for (let i = 0; i < (await controls.count()); i++) {
        await controls.nth(i).focus();
        expect(await cutBy(page, '.explain > *', '.explain'), `${place} ${i}`).toEqual([]);
      }
    }
    await context.close();
  });

  it.each(['receiver.calibrator', 'tape.punch'])(
    'never take the tip away by themselves, from %s on',
    async (control) => {
      const { page, context } = await takenUp(trainer, guided, momentOf(guided, control, true) + 1);
      const tip = page.locator('.now > p:not(.now__title, .quiet)');
      for (const { place } of BAYS) {
        await goTo(page, place);
        const controls = page.locator(`.layer--${place} [data-control]`);
        for (let i = 0; i < (await controls.count()); i++) {
          await controls.nth(i).focus();
          expect(await tip.isVisible(), `${place} ${i}`).toBe(true);
          expect(await cutBy(page, '.now > p', '.now'), `${place} ${i}`).toEqual([]);
        }
      }
      await context.close();
    },
  );

  it('give the tip its room back by Escape, by the next act and by going elsewhere', async () => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'receiver.calibrator', true) + 1);
    const tip = page.locator('.now > p:not(.now__title, .quiet)');
    await goTo(page, 'desk');
    const talk = page.locator('[data-control="hand.talk"]');
    await talk.focus();
    for (const back of ['Escape', 'Space', 'Alt+Digit3', 'Alt+KeyE']) {
      await goTo(page, 'desk');
      await talk.focus();
      await page.keyboard.press('Alt+KeyE');
      expect(await page.locator('.explain').isVisible(), back).toBe(true);
      expect(await tip.isVisible(), back).toBe(false);
      await page.keyboard.press(back);
      expect(await tip.isVisible(), back).toBe(true);
    }
    await context.close();
  });

  it('have the reason under the tip in the whole shelter, in Power, Radio and Outside', async () => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'receiver.calibrator', true) + 1);
    for (const place of ['shelter', 'power', 'radio', 'outside'] as const) {
      await goTo(page, place);
      expect(await page.locator('.now > .quiet').textContent(), place).toMatch(/calibrator is not/);
      expect(await page.locator('.now > .quiet').isVisible(), place).toBe(true);
      expect(await cutBy(page, '.now > p', '.now'), place).toEqual([]);
    }
    await context.close();
  });

  it.each([DESK, PHONE])('explain nothing in an assessed drill, $width wide', async (viewport) => {
    const { page, context } = await takenUp(trainer, assessed, momentOf(assessed, 'tape.run', true) + 9e6, viewport);
    for (const { place } of BAYS) {
      await goTo(page, place);
      const controls = page.locator(`.layer--${place} [data-box] [data-control]`);
      expect(await controls.count(), place).toBeGreaterThan(0);
      await controls.first().focus();
      await page.keyboard.press('Alt+KeyE');
      expect(await page.getByRole('region', { name: 'Explain' }).count(), place).toBe(0);
      expect(await page.getByText('explain', { exact: true }).count(), place).toBe(0);
    }
    await context.close();
  });

  it('leave air over and under the lines of the form', async () => {
    for (const plan of [guided, alone]) {
      const { page, context } = await takenUp(trainer, plan, momentOf(plan, 'tape.punch', true) + 1);
      await goTo(page, 'messages');
      await page.keyboard.press('Alt+KeyM');
      const rows = await textBoxes(page.locator('.clip .row'));
      const { y, height } = (await page.locator('.clip .form').boundingBox())!;
      const board = (await page.locator('.clip').boundingBox())!;
      if (plan === guided) expect(rows[0]!.top - y).toBeGreaterThanOrEqual(6);
      expect(board.y + board.height - rows.at(-1)!.bottom).toBeGreaterThanOrEqual(8);
      expect(y + height).toBeLessThanOrEqual(board.y + board.height);
      await context.close();
    }
  });

  it('let the explain-card go with the focus, also after a touch that became a scroll', async () => {
    const { page, context } = await takenUp(trainer, alone, momentOf(alone, 'tape.run', true) + 9e6);
    await goTo(page, 'desk');
    const control = page.locator('.layer--desk [data-box] [data-control]').first();
    const card = page.getByRole('region', { name: 'Explain' });
    const comesAndGoes = async () => {
      await control.focus();
      await card.waitFor();
      await control.blur();
      await card.waitFor({ state: 'hidden', timeout: 3000 });
    };
    await comesAndGoes();
    await page.evaluate(() => {
      document.addEventListener('pointercancel', () => document.body.setAttribute('data-cancelled', ''));
    });
    const { x, y } = (await page.locator('.log__lines').boundingBox())!;
    const finger = await context.newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', by: number) =>
      finger.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: x + 30, y: y + 10 + by }],
      });
    await touch('touchStart', 0);
    for (const by of [20, 40, 60]) await touch('touchMove', by);
    await page.locator('[data-cancelled]').waitFor();
    await touch('touchEnd', 0);
    await comesAndGoes();
    await context.close();
  });

  it('leave six lines of print clear over the printer, and go as they came', async () => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'tape.run', true) + 9e6);
    await goTo(page, 'messages');
    const board = page.locator('.clip');
    const form = page.getByRole('region', { name: 'Message form' });
    const button = page.getByRole('button', { name: 'Message form' });
    // The printer begins at 442, a line takes 18.
    const isClear = async () => {
      const { y, height } = (await board.boundingBox())!;
      expect(y + height).toBeLessThanOrEqual(442 - 6 * 18);
      expect(await cutBy(page, '.clip .form, .clip .now > p, .clip pre', '.clip')).toEqual([]);
    };
    await isClear();
    await button.click();
    await isClear();
    await button.click();
    expect(await form.isVisible()).toBe(false);
    await page.keyboard.press('Alt+KeyM');
    expect(await form.isVisible()).toBe(true);
    await page.keyboard.press('Alt+KeyE');
    expect(await form.isVisible()).toBe(false);
    await isClear();
    await page.keyboard.press('Alt+KeyM');
    expect(await page.getByRole('region', { name: 'Explain' }).isVisible()).toBe(false);
    expect(await form.isVisible()).toBe(true);
    // The form comes back when the card that lay over it goes.
    for (const shut of ['Alt+KeyE', 'Escape']) {
      await page.keyboard.press('Alt+KeyE');
      expect(await form.isVisible()).toBe(false);
      await page.keyboard.press(shut);
      expect(await form.isVisible()).toBe(true);
    }
    await page.keyboard.press('Escape');
    expect(await form.isVisible()).toBe(false);
    await context.close();
  });

  it('leave tip and form to be read together, for a long tip and that of the tape', async () => {
    for (const control of ['receiver.calibrator', 'tape.punch']) {
      const { page, context } = await takenUp(trainer, guided, momentOf(guided, control, true) + 1);
      const tip = page.locator('.now > p:not(.now__title)');
      const isReadable = async (form: Locator, within: string) => {
        expect(await tip.isVisible(), control).toBe(true);
        expect(await cutBy(page, '.now > p', within), control).toEqual([]);
        const whole = await cutBy(page, '.form:not([hidden]), .form:not([hidden]) .row', within);
        expect(whole, control).toEqual([]);
        const said = await textBoxes(tip);
        for (const line of await textBoxes(form.locator('.row')))
          expect(
            said.some((box) => meets(box, line)),
            `${control}: ${JSON.stringify(line)}`,
          ).toBe(false);
      };
      await goTo(page, 'messages');
      await page.keyboard.press('Alt+KeyM');
      await isReadable(page.getByRole('region', { name: 'Message form' }), '.clip');
      await goTo(page, 'desk');
      await page.getByRole('tab', { name: 'Message NR14' }).click();
      await isReadable(page.locator('.stack .form'), '.stack');
      await page.getByRole('tab', { name: 'Station log' }).click();
      await page.getByRole('button', { name: 'Words' }).click();
      expect(await tip.isVisible()).toBe(true);
      expect(await cutBy(page, '.now > p, .log__write, .log__lines', '.stack')).toEqual([]);
      await context.close();
    }
  });

  it.each([
    ['a long tip', 'receiver.calibrator'],
    ['a long tip and a long reason', 'tape.run'],
  ])('leave the foot of the whip clear in the whole shelter, with %s', async (_what, control) => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, control, true) + 1);
    await goTo(page, 'shelter');
    // The plate under the whip ends at 498.
    expect((await page.locator('.now').boundingBox())!.y).toBeGreaterThan(498);
    await context.close();
  });

  it('keep the form out for a step that is worked from it, whatever the words of its tip', async () => {
    const { page, context } = await takenUp(trainer, reworded, lastKeyOfFox(reworded) - 1);
    await goTo(page, 'messages');
    await page.keyboard.press('Alt+KeyM');
    await page.locator('[data-control="printer.key"]').focus();
    await page.keyboard.press('0');
    await page.evaluate(() => window.keydownClock!.advance(2000));
    await page.locator('.now__title', { hasText: 'Cut the message' }).waitFor();
    expect(await page.getByRole('region', { name: 'Message form' }).isVisible()).toBe(true);
    await context.close();
  });

  it('put the form away when the step is done that it was for, whatever the words of the next tip', async () => {
    const { page, context } = await takenUp(trainer, reworded, momentOf(reworded, 'tape.punch', false) - 1);
    await goTo(page, 'messages');
    const form = page.getByRole('region', { name: 'Message form' });
    await page.keyboard.press('Alt+KeyM');
    await page.evaluate(() => window.keydownClock!.advance(2000));
    await page.locator('.now__title', { hasText: 'Cut the message' }).waitFor();
    expect(await form.isVisible()).toBe(true);
    await page.getByRole('switch', { name: /^punch/i }).click();
    await page.evaluate(() => window.keydownClock!.advance(2000));
    await page.locator('.now__title', { hasText: 'Calibrate' }).waitFor();
    expect(await form.isVisible()).toBe(false);
    await context.close();
  });

  it('leave the form’s button free under every sheet, also without a slip', async () => {
    const { page, context } = await takenUp(trainer, alone, momentOf(alone, 'tape.run', true) + 9e6);
    await goTo(page, 'messages');
    const button = page.getByRole('button', { name: 'Message form' });
    await page.keyboard.press('Alt+KeyE');
    await button.click({ timeout: 3000 });
    expect(await page.getByRole('region', { name: 'Message form' }).isVisible()).toBe(true);
    await button.click({ timeout: 3000 });
    expect(await page.getByRole('region', { name: 'Message form' }).isVisible()).toBe(false);
    await context.close();
  });

  it('keep the log’s line and buttons while its words or a form are out, and cut no tip', async () => {
    const { page, context } = await takenUp(trainer, guided, momentOf(guided, 'tape.run', true) + 9e6);
    await goTo(page, 'desk');
    expect(await cutBy(page, '.now > p', '.now')).toEqual([]);
    await page.locator('.line--log').focus();
    const offset = await page.locator('.line--log').evaluate((el) => {
      const { outlineOffset, outlineWidth } = getComputedStyle(el);
      return Number.parseFloat(outlineOffset) + Number.parseFloat(outlineWidth);
    });
    expect(offset, 'the frame of the focus, over the edge of the paper').toBeLessThanOrEqual(0);
    await page.locator('.log__write .tile').click();
    expect(await cutBy(page, '.log__write', '.paper--log')).toEqual([]);
    expect(await cutBy(page, '.log__pad, .log__pad .tile', '.layer')).toEqual([]);
    // Two lines are written; the next has room, too.
    const [list, entry] = await page.evaluate(() =>
      ['.log__lines', '.log__lines p'].map((each) => document.querySelector(each)!.getBoundingClientRect().height),
    );
    expect(list).toBeGreaterThanOrEqual(3 * entry!);
    await page.getByRole('button', { name: 'CALLED', exact: true }).click();
    await page.getByRole('button', { name: 'Enter it' }).click();
    expect(await page.locator('.log__pad').isVisible(), 'what is entered puts the words away').toBe(false);
    await page.getByRole('button', { name: 'Words' }).click();
    await page.keyboard.press('Escape');
    expect(await page.locator('.log__pad').isVisible(), 'Escape puts them away').toBe(false);
    expect(await page.locator('.layer--desk').count()).toBe(1);
    await page.getByRole('button', { name: 'Words' }).click();
    await page.getByRole('tab', { name: 'Message NR14' }).click();
    expect(await page.locator('.log__pad').isVisible()).toBe(false);
    expect(await cutBy(page, '.stack .form', '.paper--log')).toEqual([]);
    await context.close();
  });
});
