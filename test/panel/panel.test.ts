/** The panel on a real drill in a real browser: every control is reached by role and name, by hand and by keys. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { workThrough } from '../../src/core/hand/model.ts';
import { buildTrainer, openTrainer, type Trainer } from '../browser/open.ts';
import { begin } from '../laws/first-call.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
let trainer: Trainer;

beforeAll(async () => {
  trainer = await openTrainer(await buildTrainer(new URL('./dev', import.meta.url).pathname));
});
afterAll(() => trainer?.close());

type Standing = string | number | boolean;
async function open(query: string, viewport = { width: 1280, height: 720 }): Promise<Page> {
  const page = await (await trainer.browser.newContext({ viewport })).newPage();
  page.on('pageerror', (error) => expect.fail(error.message));
  await page.goto(`${trainer.url}?clock=manual&${query}`);
  await page.waitForSelector('body[data-ready]');
  return page;
}
const standing = (page: Page, control: string): Promise<Standing> =>
  page.evaluate(
    (c) => (window as never as { bench: { drill: { standing(c: string): Standing } } }).bench.drill.standing(c),
    control,
  );
const sees = (page: Page, indicator: string): Promise<unknown> =>
  page.evaluate(
    (c) => (window as never as { bench: { drill: { see(c: string): unknown } } }).bench.drill.see(c),
    indicator,
  );
const advance = (page: Page, ms: number): Promise<void> =>
  page.evaluate((by) => (window as never as { bench: { advance(ms: number): void } }).bench.advance(by), ms);
const inBox = (page: Page, name: string) => page.getByRole('group', { name, exact: true });

describe('switches and levers', () => {
  it('throws a switch by click and by Space', async () => {
    const page = await open('place=power');
    const isolator = inBox(page, 'Feed').getByRole('switch', { name: 'Battery isolator' });
    await isolator.click();
    expect(await standing(page, 'feed.isolator')).toBe(true);
    expect(await isolator.getAttribute('aria-checked')).toBe('true');
    await page.keyboard.press('Space');
    expect(await standing(page, 'feed.isolator')).toBe(false);
  });

  it('moves a lever by arrows, and to the notch that is clicked', async () => {
    const page = await open('place=power');
    const lever = inBox(page, 'Inverter pair').getByRole('slider', { name: 'Inverter' });
    expect(await lever.getAttribute('aria-valuetext')).toBe('off');
    await lever.focus();
    await page.keyboard.press('ArrowLeft');
    expect(await standing(page, 'inverter.lever')).toBe('A');
    await lever.click({ position: { x: 90, y: 45 } });
    expect(await standing(page, 'inverter.lever')).toBe('B');
    await lever.click({ position: { x: 55, y: 35 } });
    expect(await standing(page, 'inverter.lever')).toBe('off');
  });

  /** The middle of a printed name. Fields of names that stand close share ground, so it is the point that counts. */
  const name = async (page: Page, control: string, at: number) => {
    const field = page.locator(`.position[data-of="${control}"][data-at="${at}"]`);
    await field.scrollIntoViewIfNeeded();
    const { x, y, width, height } = (await field.boundingBox())!;
    return [x + width / 2, y + height / 2] as const;
  };

  it('goes to the position whose printed name is clicked, and gives its control the focus', async () => {
    const page = await open('place=radio');
    await page.mouse.click(...(await name(page, 'sender.readiness', 3)));
    expect(await standing(page, 'sender.readiness')).toBe('send');
    await page.mouse.click(...(await name(page, 'sender.readiness', 1)));
    expect(await standing(page, 'sender.readiness')).toBe('heat');
    await page.mouse.click(...(await name(page, 'sender.emission', 4)));
    expect(await standing(page, 'sender.emission')).toBe('A3E+F1B');
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset['control'])).toBe(
      'sender.emission',
    );
    for (const [at, word] of [
      [9, '9'],
      [10, '10'],
      [0, 'hand'],
      [12, '12'],
    ] as const) {
      await page.mouse.click(...(await name(page, 'sender.setting', at)));
      expect(await standing(page, 'sender.setting')).toBe(word);
    }
  });

  it('leaves a switch where the name that is clicked says it stands, and throws it by its grip', async () => {
    const page = await open('place=power');
    const isolator = inBox(page, 'Feed').getByRole('switch', { name: 'Battery isolator' });
    await page.mouse.click(...(await name(page, 'feed.isolator', 1)));
    expect(await standing(page, 'feed.isolator')).toBe(true);
    await page.mouse.click(...(await name(page, 'feed.isolator', 1)));
    expect(await standing(page, 'feed.isolator')).toBe(true);
    // The grip: as long as the lever, 35 degrees to the right of its hub.
    const { width, height } = (await isolator.boundingBox())!;
    const length = width / 1.9;
    await isolator.click({ position: { x: width / 2 + 0.55 * length, y: height - (0.3 + 0.79) * length } });
    expect(await standing(page, 'feed.isolator')).toBe(false);
  });

  it('takes a touch of a name, on a phone, without a flash of the browser’s own', async () => {
    const context = await trainer.browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
    const page = await context.newPage();
    await page.goto(`${trainer.url}?clock=manual&place=radio`);
    await page.waitForSelector('body[data-ready]');
    const flash = page.locator('.layer button.ctl').first();
    expect(await flash.evaluate((el) => getComputedStyle(el).getPropertyValue('-webkit-tap-highlight-color'))).toBe(
      'rgba(0, 0, 0, 0)',
    );
    await page.touchscreen.tap(...(await name(page, 'sender.readiness', 2)));
    expect(await standing(page, 'sender.readiness')).toBe('wait');
    await page.touchscreen.tap(...(await name(page, 'sender.setting', 4)));
    expect(await standing(page, 'sender.setting')).toBe('4');
  });
});

describe('knobs', () => {
  it('does not jump to the pointer: a click is one step; turns by relative drag, wheel, arrows, pages and ends', async () => {
    const page = await open('place=radio');
    const gain = inBox(page, 'Receiver').getByRole('slider', { name: 'RF gain' });
    const box = (await gain.boundingBox())!;
    const [x, y] = [box.x + box.width - 3, box.y + box.height / 2];
    await page.mouse.click(x, y);
    expect(await standing(page, 'receiver.rfGain')).toBe(0.1);
    await page.keyboard.press('Home');
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y - 80, { steps: 4 });
    await page.mouse.up();
    expect(await standing(page, 'receiver.rfGain')).toBeCloseTo(5, 5);
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('PageDown');
    expect(await standing(page, 'receiver.rfGain')).toBeCloseTo(4.1, 5);
    await page.mouse.move(x, y);
    await page.mouse.wheel(0, -100);
    expect(await standing(page, 'receiver.rfGain')).toBeCloseTo(4.2, 5);
    await page.keyboard.press('End');
    expect(await standing(page, 'receiver.rfGain')).toBe(10);
    await page.keyboard.press('Home');
    expect(await standing(page, 'receiver.rfGain')).toBe(0);
  });

  it('says at its stop that it does not go on', async () => {
    const page = await open('place=radio');
    const gain = inBox(page, 'Receiver').getByRole('slider', { name: 'RF gain' });
    await gain.focus();
    await page.keyboard.press('ArrowUp');
    expect(await page.locator('.panel__note').textContent()).toBe('');
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowUp');
    await expect.poll(() => page.locator('.panel__note').textContent()).toMatch(/at its stop: 10.0 is the most/);
    await gain.hover();
    await page.keyboard.press('Home');
    await page.mouse.wheel(0, 100);
    await expect.poll(() => page.locator('.panel__note').textContent()).toMatch(/at its stop: 0.0 is the least/);
  });

  it('takes a typed value and says why it does not take another', async () => {
    const page = await open('place=radio');
    const coil = inBox(page, 'Sender').getByRole('slider', { name: 'Whip coil' });
    await coil.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('textbox', { name: /^Whip coil/ }).fill('999');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('.panel__note').textContent()).toContain('from 0 to 150');
    await page.getByRole('textbox', { name: /^Whip coil/ }).fill('21.8');
    await page.keyboard.press('Enter');
    expect(await standing(page, 'sender.coil')).toBe(21.8);
    expect(await coil.getAttribute('aria-valuetext')).toBe('21.80 µH');
  });

  it('fills by script as a screen reader would', async () => {
    const page = await open('place=radio');
    await inBox(page, 'Receiver').getByRole('slider', { name: 'Fine tuning' }).fill('1.25');
    expect(await standing(page, 'receiver.fine')).toBe(1.25);
    await inBox(page, 'Receiver').getByRole('slider', { name: 'Band', exact: true }).fill('2');
    expect(await standing(page, 'receiver.band')).toBe('4');
  });
});

describe('drums', () => {
  it('makes one number of six digits typed in a row', async () => {
    const page = await open('place=radio');
    await page.getByRole('spinbutton', { name: 'Frequency, tens of MHz' }).focus();
    await page.keyboard.type('047180');
    expect(await standing(page, 'sender.frequency')).toBe(4718);
    await page.getByRole('spinbutton', { name: 'Frequency, kHz', exact: true }).press('ArrowUp');
    expect(await standing(page, 'sender.frequency')).toBe(4719);
  });

  it('stands between at a number out of range, and says so', async () => {
    const page = await open('place=radio');
    await page.getByRole('spinbutton', { name: 'Frequency, tens of MHz' }).fill('9');
    expect(await standing(page, 'sender.frequency')).toBe(1800);
    await expect.poll(() => page.locator('.panel__note').textContent()).toContain('17000');
    await page.getByRole('spinbutton', { name: 'Frequency, tens of MHz' }).fill('1');
    expect(await standing(page, 'sender.frequency')).toBe(11_800);
  });
});

describe('pushes', () => {
  it('is down while the pointer or the key is', async () => {
    const page = await open('place=desk');
    const talk = page.getByRole('button', { name: 'Press to talk' });
    await talk.hover();
    await page.mouse.down();
    expect(await standing(page, 'hand.talk')).toBe(true);
    await page.mouse.up();
    expect(await standing(page, 'hand.talk')).toBe(false);
    await page.keyboard.down('Space');
    await page.keyboard.down('Space');
    expect(await standing(page, 'hand.talk')).toBe(true);
    await page.keyboard.up('Space');
    expect(await standing(page, 'hand.talk')).toBe(false);
  });

  it('lifts the cage at the first touch and presses at the second', async () => {
    const page = await open('place=radio');
    const carrier = page.getByRole('button', { name: 'Test carrier' });
    await carrier.click();
    expect(await standing(page, 'sender.cage')).toBe(true);
    expect(await standing(page, 'sender.carrier')).toBe(false);
    await carrier.focus();
    await page.keyboard.down('Enter');
    expect(await standing(page, 'sender.carrier')).toBe(true);
    await page.keyboard.up('Enter');
    expect(await standing(page, 'sender.carrier')).toBe(false);
  });
});

describe('keyboard', () => {
  const typed = async (page: Page, keys: readonly string[], ms: number) => {
    await page.getByRole('group', { name: /^Keyboard/ }).focus();
    for (const key of keys) await page.keyboard.press(key);
    for (let t = 0; t < ms; t += 50) await advance(page, 50);
    return (await sees(page, 'printer.page')) as string[];
  };

  it('waits for the machine, sends return and line feed for Enter, figures by their carriers', async () => {
    const page = await open(
      'place=messages&until=30&do=printer.motor=true;printer.source=local;3;printer.tearOff=true;printer.tearOff=false',
    );
    const lines = await typed(page, ['q', 'v', 'F2', '4', 'F1', 'm', 'Enter', 'x'], 2600);
    expect(lines.slice(-2)).toEqual([expect.stringMatching(/QV4M$/), 'X']);
  });

  it('lets keys wait while one is sent; of too many it refuses the last, in the record, too', async () => {
    const page = await open(
      'place=messages&until=30&do=printer.motor=true;printer.source=local;3;printer.tearOff=true;printer.tearOff=false',
    );
    // One goes, sixteen wait, the two figures of the end are too many.
    const lines = await typed(page, [...'abcdefghijklmnopq', '1', '2'], 4000);
    expect(lines.at(-1)).toMatch(/ABCDEFGHIJKLMNOPQ$/);
    const refused = await page.evaluate(() => {
      const { drill } = (window as never as { bench: { drill: { record: { lines: { k: string }[] } } } }).bench;
      return drill.record.lines.filter((l) => l.k === 'refused');
    });
    expect(refused).toEqual([
      expect.objectContaining({
        control: 'printer.key',
        value: 'Q',
        why: 'the keyboard is locked until the last key is through',
      }),
    ]);
  });

  it('says beside the key why it does not go down, and no longer at the next bay', async () => {
    const page = await open('place=messages');
    const key = page.getByRole('group', { name: /^Keyboard/ }).getByRole('button', { name: 'A, figure -' });
    await key.click();
    const note = page.locator('.panel__note');
    await expect.poll(() => note.textContent()).toMatch(/motor stands still/);
    const [at, by] = [(await key.boundingBox())!, (await note.boundingBox())!];
    expect(Math.min(Math.abs(by.y - (at.y + at.height)), Math.abs(at.y - (by.y + by.height)))).toBeLessThan(16);
    expect(by.x).toBeLessThan(at.x + at.width);
    await page.keyboard.press('Alt+1');
    expect(await note.textContent()).toBe('');
  });

  /** Proved in local, then hands off: nothing has the focus. */
  const proved =
    'place=messages&until=30&do=printer.motor=true;printer.source=local;3;printer.tearOff=true;printer.tearOff=false';
  const inHand = (page: Page) => page.evaluate(() => (document.activeElement as HTMLElement).dataset['control']);
  const lastLine = async (page: Page) => {
    for (let t = 0; t < 800; t += 50) await advance(page, 50);
    return ((await sees(page, 'printer.page')) as string[]).at(-1);
  };

  it.each([
    ['carriage', 300, 490],
    ['slab', 200, 457],
    ['paper', 300, 430],
  ])('is taken in hand by a click on the %s, with its frame, and types then', async (_what, x, y) => {
    const page = await open(proved);
    await page.mouse.click(x, y);
    expect(await inHand(page)).toBe('printer.key');
    const frame = await page.locator('.ctl--keys').evaluate((el) => getComputedStyle(el).backgroundImage);
    expect(frame).toContain('gradient');
    await page.keyboard.press('F1');
    await page.keyboard.press('q');
    expect(await lastLine(page)).toMatch(/Q$/);
  });

  it('leaves the words of a lever to the lever, takes what lies between the keys', async () => {
    const page = await open(proved);
    await page.mouse.click(591, 532);
    expect(await standing(page, 'printer.source')).toBe('line');
    await page.mouse.click(526, 532);
    expect(await standing(page, 'printer.source')).toBe('local');
    expect(await inHand(page)).toBe('printer.source');
    await page.mouse.click(43, 575);
    expect(await inHand(page)).toBe('printer.key');
  });

  it('takes plain letters on arrival, also with a knob in hand, but none from a field, and no shortcut', async () => {
    const page = await open(proved);
    await page.keyboard.press('Alt+KeyM');
    expect(await inHand(page)).toBeUndefined();
    await page.keyboard.press('r');
    expect(await inHand(page)).toBe('printer.key');
    expect(await lastLine(page)).toMatch(/[R4]$/);
    const range = page.getByRole('slider', { name: 'Range' });
    await range.focus();
    await page.keyboard.press('ArrowRight');
    expect(await standing(page, 'printer.range')).toBe(51);
    await page.keyboard.press('Enter');
    const written = (await sees(page, 'printer.page')) as string[];
    await page.keyboard.press('x');
    expect(await inHand(page)).not.toBe('printer.key');
    await lastLine(page);
    expect(await sees(page, 'printer.page')).toEqual(written);
  });

  it('does not shift by itself', async () => {
    const page = await open(
      'place=messages&until=30&do=printer.motor=true;printer.source=local;3;printer.tearOff=true;printer.tearOff=false',
    );
    expect((await typed(page, ['F1', '4'], 800)).at(-1)).toMatch(/R$/);
  });

  it('has every drawn key as a button', async () => {
    const page = await open('place=messages');
    const keys = page.getByRole('group', { name: /^Keyboard/ }).getByRole('button');
    expect(await keys.count()).toBe(26 + 7);
  });
});

describe('words', () => {
  it('builds a call from tiles, holds, says, and lets go after the last word', async () => {
    const page = await open('place=desk');
    const line = page.getByRole('group', { name: 'Word line' });
    for (const name of ['QV7K', 'THIS IS', 'QV4M', 'OVER'])
      await line.getByRole('button', { name, exact: true }).click();
    expect(await line.getByRole('textbox').inputValue()).toBe(
      'QUEBEC VICTOR SEVEN KILO THIS IS QUEBEC VICTOR FOUR MIKE OVER',
    );
    await line.getByRole('button', { name: 'Press and say' }).click();
    expect(await standing(page, 'hand.talk')).toBe(true);
    await advance(page, 11 * 400);
    expect(await standing(page, 'hand.talk')).toBe(true);
    await advance(page, 600);
    expect(await standing(page, 'hand.talk')).toBe(false);
  });

  it('says by Enter alone, and lets go after the last word though the operator has gone to another place', async () => {
    const page = await open('place=desk');
    await page.getByRole('textbox', { name: /^Words to say/ }).fill('OVER');
    await page.keyboard.press('Enter');
    expect(await standing(page, 'hand.talk')).toBe(true);
    await page.keyboard.press('Alt+Digit2');
    await advance(page, 2000);
    expect(await standing(page, 'hand.talk')).toBe(false);
  });

  it('writes the log', async () => {
    const page = await open('place=desk');
    await page.getByRole('textbox', { name: /^Log entry/ }).fill('QV7K called');
    await page.keyboard.press('Enter');
    expect((await sees(page, 'desk.logLines')) as string[]).toEqual([expect.stringContaining('QV7K called')]);
    expect(await page.getByRole('log', { name: 'Station log' }).textContent()).toContain('QV7K called');
  });
});

/** Seconds into the page's own drill when Kelp Isle, who tells much, has nearly told it. */
const telling_s = (() => {
  const drill = begin(7);
  workThrough(drill.scenario, drill, 7);
  const tells = drill.record.lines.find((l) => l.k === 'happen' && l.id === 'kelp-isle-tells');
  return (tells?.t ?? 0) / 1e6 + 10;
})();

describe('what is heard', () => {
  it('shows its newest words at Radio, where it has one line, and cuts the oldest', async () => {
    const page = await open(`place=radio&until=${telling_s}`);
    const line = page.locator('.heard__list p').last();
    const strip = (await page.locator('.heard__list').boundingBox())!;
    const [first, last] = await line.evaluate((el) => {
      const text = document.createTreeWalker(el, NodeFilter.SHOW_TEXT).nextNode() as Text;
      return [0, text.length - 1].map((at) => {
        const range = document.createRange();
        range.setStart(text, at);
        range.setEnd(text, at + 1);
        const { left, right, top, bottom } = range.getBoundingClientRect();
        return { left, right, top, bottom };
      });
    });
    expect((await line.textContent())!.length).toBeGreaterThan(80);
    expect(last!.right).toBeLessThanOrEqual(strip.x + strip.width + 1);
    expect(last!.bottom).toBeLessThanOrEqual(strip.y + strip.height + 1);
    expect(first!.left).toBeLessThan(strip.x);
  });

  it('names words as still to be said', async () => {
    const page = await open('place=desk');
    await page.getByRole('textbox', { name: /^Words to say/ }).fill('QV7K OVER');
    await page.keyboard.press('Enter');
    const line = page.locator('.heard__list p').last();
    await expect.poll(() => line.textContent()).toBe('You, still to say: QUEBEC VICTOR SEVEN KILO OVER');
    await advance(page, 4 * 400 + 100);
    await expect.poll(() => line.textContent()).toBe('You, still to say: OVER');
  });
});

/** Ten seconds into the tape of the page's own drill (seed 7), as the model operator works it. */
const onAir_s = (() => {
  const drill = begin(7);
  workThrough(drill.scenario, drill, 7);
  const tape = drill.record.lines.find((l) => l.k === 'do' && l.control === 'tape.run');
  return Math.round((tape?.t ?? 0) / 1e6) + 10;
})();

describe('places', () => {
  it('goes by click and by Alt and a figure, and Alt 0 goes back', async () => {
    const page = await open('place=shelter');
    await page.getByRole('navigation', { name: 'Bays' }).getByRole('button', { name: 'Radio' }).click();
    await inBox(page, 'Sender').waitFor();
    await page.keyboard.press('Alt+4');
    await page.getByRole('region', { name: 'Order' }).waitFor();
    await page.keyboard.press('Alt+0');
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset['place'])).toBe('desk');
  });

  it('hides the far half of the ribbon from who works unaided', async () => {
    const shown = await open(`place=radio&until=${onAir_s}&manner=shown`);
    expect(await shown.locator('[data-link=print]').getAttribute('aria-label')).toBe('print: signal here');
    const unaided = await open(`place=radio&until=${onAir_s}&manner=unaided`);
    expect(await unaided.locator('[data-link=print]').getAttribute('aria-label')).toBe('print: not known');
    expect(await unaided.locator('[data-link=whip]').getAttribute('aria-label')).toBe('whip: signal here');
  });

  it('names and values every reading', async () => {
    const page = await open(`place=radio&until=${onAir_s}`);
    expect(await page.getByRole('meter', { name: 'Power out' }).getAttribute('aria-valuetext')).toMatch(
      /^1[12]\d(\.\d+)? W$/,
    );
    expect(await page.getByRole('img', { name: 'Radiating: lit' }).count()).toBe(1);
    const small = page.getByRole('meter', { name: 'Small meter' });
    expect(await small.getAttribute('aria-valuetext')).toMatch(/^2\d(\.\d)? V$/);
    await page.getByRole('slider', { name: 'Small meter' }).press('ArrowRight');
    expect(await small.getAttribute('aria-valuetext')).toMatch(/^\d+(\.\d)? %$/);
  });

  it('says units and nothing else of figures, and no unit of nothing', async () => {
    const page = await open('place=radio');
    const bandwidth = page.getByRole('slider', { name: 'Bandwidth' });
    expect(await bandwidth.getAttribute('aria-valuetext')).toBe('6 kHz');
    await page.getByRole('slider', { name: 'Loading' }).fill('1030');
    expect(await page.getByRole('slider', { name: 'Loading' }).getAttribute('aria-valuetext')).toBe('1030 pF');
    await page.keyboard.press('Alt+Digit3');
    expect(await page.getByRole('status', { name: 'Distortion' }).textContent()).toBe('nothing');
    expect(await page.getByRole('img', { name: 'Tuning display: no tone' }).count()).toBe(1);
  });

  it('takes a refusal back when the hand is obeyed again', async () => {
    const page = await open('place=power');
    await page.getByRole('slider', { name: 'Engine' }).focus();
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => page.locator('.panel__note').textContent()).toMatch(/at its stop: stop is the first/);
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('.panel__note').textContent()).toBe('');
  });

  it('explains the control in hand', async () => {
    const page = await open('place=radio');
    await page.getByRole('slider', { name: 'Whip coil' }).focus();
    await expect.poll(() => page.getByRole('region', { name: 'Explain' }).textContent()).toMatch(/^Whip coil/);
  });

  it.each([
    ['power', 'switch', 'Master'],
    ['messages', 'slider', 'Shift'],
    ['desk', 'switch', 'Recognition cards'],
    ['desk', 'slider', 'Headset volume'],
    ['outside', 'button', 'Look up and round'],
  ] as const)('explains at %s what is clicked there: %s %s', async (place, role, name) => {
    const page = await open(`place=${place}&manner=unaided`);
    await page.getByRole(role, { name }).first().click();
    const card = page.getByRole('region', { name: 'Explain' });
    await expect.poll(() => card.isVisible()).toBe(true);
    expect(await card.textContent()).toMatch(new RegExp(`^${name}`));
  });

  it('takes the card away with the focus, and nothing moves from under a finger meanwhile', async () => {
    const page = await open('place=desk&manner=unaided');
    const card = page.getByRole('region', { name: 'Explain' });
    expect(await card.isVisible()).toBe(false);
    await page.getByRole('switch', { name: 'Loudspeaker' }).click();
    expect(await card.isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Words', exact: true }).click();
    expect(await page.getByRole('group', { name: 'Words for the log' }).isVisible()).toBe(true);
    await expect.poll(() => card.isVisible()).toBe(false);
    await page.keyboard.press('Alt+KeyE');
    expect(await card.isVisible()).toBe(true);
    // What is in hand goes first: the words, then the card.
    await page.keyboard.press('Escape');
    expect(await page.getByRole('group', { name: 'Words for the log' }).isVisible()).toBe(false);
    await page.keyboard.press('Escape');
    expect(await card.isVisible()).toBe(false);
  });

  it('draws nothing while nothing changes', async () => {
    const page = await open('place=radio');
    const frames = () =>
      page.evaluate(
        () =>
          new Promise<number>((done) => {
            const { CanvasRenderingContext2D: c } = window;
            const draw = c.prototype.drawImage;
            let n = 0;
            c.prototype.drawImage = function (this: CanvasRenderingContext2D, ...a: never[]) {
              n++;
              return (draw as (...a: never[]) => void).apply(this, a);
            } as never;
            let turns = 0;
            const turn = () => (++turns < 20 ? requestAnimationFrame(turn) : done(n));
            requestAnimationFrame(turn);
          }),
      );
    await page.waitForTimeout(600);
    expect(await frames()).toBe(0);
  });
});

describe('the drawing', () => {
  it.each([
    [1280, 720, 1],
    [1920, 1080, 1.25],
    [390, 844, 1],
    [390, 844, 3],
  ])('lies exactly under the controls at %i x %i, %f pixels a pixel', async (width, height, deviceScaleFactor) => {
    const context = await trainer.browser.newContext({ viewport: { width, height }, deviceScaleFactor });
    const page = await context.newPage();
    await page.goto(`${trainer.url}?clock=manual&place=power`);
    await page.waitForSelector('body[data-ready]');
    await page.getByRole('switch', { name: 'Battery isolator' }).click();
    for (const selector of ['.panel__drawing canvas', '.layer']) {
      const box = (await page.locator(selector).boundingBox())!;
      const stage = (await page.locator('.panel__stage').boundingBox())!;
      expect(Math.abs(box.width - stage.width) + Math.abs(box.height - stage.height)).toBeLessThan(1);
    }
  });
});

describe('for everybody', () => {
  const faults = async (page: Page): Promise<string[]> => {
    await page.evaluate(axe);
    return page.evaluate(async () => {
      const { axe } = window as unknown as { axe: typeof import('axe-core') };
      const found = await axe.run({
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      });
      return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
    });
  };
  const PLACES = ['shelter', 'power', 'radio', 'messages', 'desk', 'outside'];

  it.each(PLACES)('finds no fault in %s', async (place) => {
    expect(await faults(await open(`place=${place}&until=30`))).toEqual([]);
  });
  it.each(PLACES)('finds no fault in %s on a phone, and no sideways scrolling', async (place) => {
    const page = await open(`place=${place}&until=30`, { width: 390, height: 844 });
    expect(await faults(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });
});
