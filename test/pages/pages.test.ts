/** The pages in a real browser, from a real build. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { KINDS } from '../../src/core/catalogue.ts';
import { Drill } from '../../src/core/drill.ts';
import { writeRecord } from '../../src/core/record/format.ts';
import { ENGINE } from '../../src/core/record/record.ts';
import { parseScenario } from '../../src/core/scenario/scenario.ts';
import { type Built, buildTrainer, openTrainer, type Trainer } from '../browser/open.ts';
import * as old from '../old/old.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const scenario = readFileSync(new URL('../../scenarios/first-call.yaml', import.meta.url), 'utf8');
let files: Built;
let trainer: Trainer;

beforeAll(async () => {
  files = await buildTrainer();
  trainer = await openTrainer(files);
});
afterAll(() => trainer?.close());

async function visit(place = '', viewport = { width: 1280, height: 720 }): Promise<Page> {
  const page = await (await trainer.browser.newContext({ viewport })).newPage();
  page.on('pageerror', (error) => expect.fail(error.message));
  await page.goto(trainer.url + place);
  return page;
}

async function faults(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const found = await axe.run({ runOnly: tags });
    return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
  });
}

/** A record of a drill that was given up after ten seconds. */
function shortRecord(): string {
  const read = parseScenario(scenario, KINDS, { file: 'first-call.yaml', seed: 3 });
  if (!read.ok) throw new Error(read.errors[0]?.expected);
  const drill = new Drill(read.scenario, {
    name: 'first-call.yaml',
    scenario,
    seed: 3,
    manner: 'assessed',
    stretch: 1,
  });
  drill.act('feed.isolator', true);
  drill.advance(10e6);
  drill.end('given up');
  return writeRecord(drill.record);
}

async function openRecord(page: Page, text: string): Promise<void> {
  await page
    .getByLabel('Record file')
    .setInputFiles({ name: 'a.jsonl', mimeType: 'text/plain', buffer: Buffer.from(text) });
}

describe('first page', () => {
  it('costs at most 60 kB of script, gzipped, before it can be used', async () => {
    const asked: string[] = [];
    const page = await visit();
    page.on('request', (request) => asked.push(request.url()));
    await page.reload({ waitUntil: 'load' });
    const html = files.get('index.html')?.toString() ?? '';
    const first = [...html.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.js)"/g)].map(([, name]) => name as string);
    const size = first.reduce((sum, name) => sum + gzipSync(files.get(name) as Buffer).length, 0);
    expect(first.length).toBeGreaterThan(0);
    expect(size).toBeLessThan(60_000);
    expect(asked.filter((url) => /phaser|catalogue|drill|panel-/.test(url))).toEqual([]);
  });

  it('leads to the order by Enter, back by Escape, and to a listed drill by its number', async () => {
    const page = await visit();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'First traffic to Tern Ness' }).waitFor();
    expect(await page.getByRole('radio', { name: 'shown' }).isChecked()).toBe(true);
    await page.keyboard.press('Escape');
    await page.getByRole('radio', { name: 'unaided' }).check();
    await page.getByRole('button', { name: 'another draw' }).focus();
    await page.keyboard.press('1');
    await page.getByRole('heading', { name: 'How it is marked' }).waitFor();
    expect(await page.getByRole('radio', { name: 'unaided' }).isChecked()).toBe(true);
  });

  it('types digits into the draw instead of opening drills', async () => {
    const page = await visit();
    await page.getByLabel('Draw').fill('');
    await page.getByLabel('Draw').pressSequentially('12');
    await page.getByRole('heading', { name: 'You are alone' }).waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.press('1');
    await page.waitForURL(/#order\/first-call\/prompted\/12$/);
  });

  it('asks for a record file by O', async () => {
    const page = await visit();
    const chooser = page.getByLabel('Record file');
    await chooser.evaluate((el) => el.addEventListener('click', () => el.setAttribute('data-asked', '')));
    await page.keyboard.press('o');
    await page.locator('[data-asked]').waitFor({ state: 'attached' });
  });

  it('keeps the theme', async () => {
    const page = await visit();
    await page.keyboard.press('s');
    await page.getByRole('radio', { name: 'night lamp' }).check();
    await page.keyboard.press('Escape');
    await page.reload();
    expect(await page.locator('html').getAttribute('data-theme')).toBe('night');
  });

  it('ticks a setting with a mark in its box', async () => {
    const page = await visit();
    await page.keyboard.press('s');
    const sound = page.getByRole('checkbox', { name: /^Sound/ });
    const looks = () => sound.screenshot().then((png) => png.toString('base64'));
    const mark = () => sound.evaluate((el) => getComputedStyle(el, '::before').content);
    expect(await mark()).toBe('""');
    const ticked = await looks();
    await sound.uncheck();
    expect(await mark()).toBe('none');
    expect(await looks()).not.toBe(ticked);
  });

  it.each([
    [1280, 720],
    [1920, 1080],
    [390, 844],
  ])('has no fault that axe finds, and no sideways scroll, at %i x %i', async (width, height) => {
    const page = await visit('', { width, height });
    await page.locator('.first__picture svg').waitFor();
    expect(await faults(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  });
});

describe('draw', () => {
  const draw = (page: Page) => page.getByLabel('Draw').inputValue();

  it('is new for an assessed drill, on the first page and on the order, and the words say so', async () => {
    const page = await visit();
    const was = await draw(page);
    await page.getByRole('radio', { name: 'unaided' }).check();
    expect(await draw(page)).toBe(was);
    await page.getByRole('radio', { name: 'assessed' }).check();
    expect(await draw(page)).not.toBe(was);
    await page.getByText('drawn anew, unless').waitFor();
    await page.getByRole('button', { name: 'another draw' }).focus();
    const chosen = await draw(page);
    await page.keyboard.press('1');
    await page.waitForURL(new RegExp(`#order/first-call/assessed/${chosen}$`));
    const other = await visit('#order/first-call/shown/7');
    const sheet = other.locator('.order__sheet');
    await sheet.waitFor();
    const before = await other.locator('.order__folds').textContent();
    await other.getByRole('radio', { name: 'assessed' }).check();
    await other.waitForURL((url) => /assessed/.test(url.hash) && !/\/7$/.test(url.hash));
    expect(other.url()).toContain(`/assessed/${await draw(other)}`);
    await other.waitForFunction((was) => document.querySelector('.order__folds')?.textContent !== was, before);
    expect(await other.getByRole('radio', { name: 'assessed' }).evaluate((el) => el === document.activeElement)).toBe(
      true,
    );
  });

  it('stays as it was typed, also for an assessed drill', async () => {
    const page = await visit('#order/first-call/shown/7');
    await page.locator('.order__sheet').waitFor();
    await page.getByLabel('Draw').fill('4711');
    await page.getByRole('radio', { name: 'assessed' }).check();
    expect(await draw(page)).toBe('4711');
    await page.getByText('kept: same number').waitFor();
    await page.getByRole('button', { name: 'another draw' }).click();
    expect(await draw(page)).not.toBe('4711');
    await page.getByText('drawn anew, unless').waitFor();
  });

  it('is used up by an assessed drill', async () => {
    const page = await visit('#order/first-call/assessed/7');
    await page.locator('.page--order .flag--go:enabled').click();
    await page.waitForURL(/#work/);
    await page.evaluate(() => {
      location.hash = '';
    });
    await page.getByLabel('Draw').waitFor();
    expect(await draw(page)).not.toBe('7');
  });
});

/** Opens every paper that is folded up. */
async function unfold(page: Page): Promise<void> {
  await page.locator('summary').first().waitFor();
  const folded = page.locator('.fold:not([open]) > summary');
  for (let left = await folded.count(); left > 0; left--) await folded.first().press('Enter');
  expect(await folded.count()).toBe(0);
}

describe('order page', () => {
  it('has the cautions before the start, and the start above the fold', async () => {
    const page = await visit('#order/first-call/shown/7');
    await page.locator('.order__sheet').waitFor();
    const cautions = (await page.locator('.cautions').boundingBox())!;
    const start = (await page.locator('.flag--go').boundingBox())!;
    expect(start.y).toBeGreaterThanOrEqual(cautions.y + cautions.height);
    expect(start.y + start.height).toBeLessThan(720);
    expect(
      await page.evaluate(() => {
        const [a, b] = ['.cautions', '.flag--go'].map((s) => document.querySelector(s)!);
        return (a!.compareDocumentPosition(b!) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
      }),
    ).toBe(true);
  });

  it('has papers that the draw decides', async () => {
    const card = async (seed: number) => {
      const page = await visit(`#order/first-call/shown/${seed}`);
      return page.locator('table.grid').textContent();
    };
    expect(await card(1)).toBe(await card(1));
    expect(await card(1)).not.toBe(await card(2));
  });

  it.each([1280, 1920, 390])(
    'shows every paper whole, and leaves no hole beside an open one, %i wide',
    async (width) => {
      const page = await visit('#order/first-call/shown/7', { width, height: 800 });
      await unfold(page);
      const cut = await page.locator('.fold__in, .fold__in *').evaluateAll((all) =>
        all.flatMap((el) => {
          const edge = el.closest('.fold__in')!.getBoundingClientRect();
          const isCut = el.scrollWidth > el.clientWidth + 1 && el.clientWidth > 0;
          return isCut || el.getBoundingClientRect().right > edge.right ? [el.textContent!.slice(0, 40)] : [];
        }),
      );
      expect(cut).toEqual([]);
      const edges = await page
        .locator('.order__papers .fold')
        .evaluateAll((all) => all.map((el) => el.getBoundingClientRect()).map(({ left, right }) => `${left} ${right}`));
      expect(edges.length).toBeGreaterThan(3);
      expect(new Set(edges).size).toBe(1);
    },
  );

  it('folds up how it is marked on a phone only', async () => {
    for (const [width, isSeen] of [
      [390, false],
      [1280, true],
    ] as const) {
      const page = await visit('#order/first-call/shown/7', { width, height: 844 });
      await page.locator('.order__marks').waitFor();
      expect(await page.getByText('Time on the air').isVisible()).toBe(isSeen);
      await unfold(page);
      expect(await page.getByText('Time on the air').isVisible()).toBe(true);
    }
  });

  it('has no fault that axe finds with all papers open', async () => {
    for (const width of [1280, 390]) {
      const page = await visit('#order/first-call/assessed/5', { width, height: 800 });
      await unfold(page);
      expect(await faults(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    }
  });
});

describe('a run begun with another version of the trainer', () => {
  const OLD = 'keydown 0.0.9';
  const head = {
    title: 'First traffic',
    name: 'first-call.yaml',
    seed: 3,
    manner: 'assessed',
    stretch: 1,
    engine: OLD,
  };
  const entries = [{ t: 1e6, control: 'feed.isolator', value: true }];
  const over = [...entries, { t: 10e6, end: 'given up' }];

  async function shelved(page: Page, id: string, text: string, done: object[], clock: object): Promise<void> {
    const kept = [
      [`keydown/run/${id}`, { ...head, id, scenario: text, began_ms: 0 }],
      ...done.map((e, i) => [`keydown/run/${id}/${String(i + 1).padStart(6, '0')}`, e]),
      [`keydown/run/${id}/clock`, { wall_ms: 0, ...clock }],
    ].map(([key, value]) => [key as string, JSON.stringify(value)] as const);
    await page.evaluate((all) => {
      for (const [key, value] of all) localStorage.setItem(key, value);
    }, kept);
  }

  it('is said to be on the first page and among the stored runs, and has its debrief, which says so on paper too', async () => {
    const page = await visit();
    await shelved(page, 'over', scenario, over, { t: 10e6, outcome: 'given up' });
    await shelved(page, 'open', scenario, entries, { t: 2e6, wall_ms: Date.now() });
    await page.reload();
    expect(await page.locator('.flag--on').textContent()).toContain(`begun with ${OLD}`);
    await page.keyboard.press('r');
    await page.getByText(`begun with ${OLD} (this is ${ENGINE})`).nth(1).waitFor();
    // Both say when the run was last worked, not when it was begun.
    expect(await page.locator('.flag--on').textContent()).toContain('just now');
    expect(await page.locator('.stored li', { hasText: 'not finished' }).textContent()).toContain('just now');
    await page.goto(`${trainer.url}#debrief/over`);
    await page.locator('.verdict__word').waitFor();
    expect(await page.locator('.debrief').textContent()).toContain(`Begun with ${OLD}: the acts were worked again`);
    expect(await page.locator('.result__print').textContent()).toContain(`${ENGINE}, begun with ${OLD}`);
    // The file tells manner, draw and run.
    expect(await page.locator('.result__print').textContent()).toContain(
      'sha256sum first-call-assessed-draw-3-over.jsonl',
    );
    expect(await faults(page)).toEqual([]);
  });

  it('whose drill is not taken any more is kept, and its journal can be saved', async () => {
    const page = await visit();
    await shelved(page, 'strange', scenario.replace('is: dirty', 'is: purple'), over, { t: 10e6, outcome: 'given up' });
    await page.goto(`${trainer.url}#debrief/strange`);
    await page.getByRole('alert').waitFor();
    expect(await page.getByRole('alert').textContent()).toContain(`${ENGINE} does not take the drill in it`);
    expect(await page.getByRole('alert').textContent()).toMatch(/:\d+:\d+: does-not-fit expected one of "clean"/);
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the journal' }).click();
    expect(readFileSync(await (await saving).path(), 'utf8')).toContain('feed.isolator');
  });

  it('and was truly made by it: the journal stays as it is and is saved whole, the record is refused in the same words', async () => {
    const page = await visit();
    const said = (what: string) => `${old.OLD} wrote this ${what}, and ${ENGINE} does not take the drill in it`;
    await page.evaluate((all) => {
      for (const [key, value] of all) localStorage.setItem(key, value);
    }, old.oldKeys);
    await page.goto(`${trainer.url}#work/${old.OLD_RUN}`);
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await alert.textContent()).toContain(said('journal'));
    expect(await alert.textContent()).toContain(`Open it with ${old.OLD}`);
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the journal' }).click();
    expect(readFileSync(await (await saving).path(), 'utf8')).toBe(old.oldJournal);
    const kept = await page.evaluate(
      (keys) => keys.map((key) => localStorage.getItem(key)),
      old.oldKeys.map(([key]) => key),
    );
    expect(kept).toEqual(old.oldKeys.map(([, value]) => value));
    await page.goto(trainer.url);
    await openRecord(page, old.oldRecord);
    await alert.waitFor();
    expect(await alert.textContent()).toContain(said('record'));
    expect(await alert.textContent()).toContain(`Mark it with ${old.OLD}`);
    expect(await page.locator('.verdict').count()).toBe(0);
    expect(await faults(page)).toEqual([]);
  });
});

describe('debrief page', () => {
  it('marks a record from a file and shows what decided it', async () => {
    const page = await visit();
    await openRecord(page, shortRecord());
    await page.getByText('NO-GO', { exact: true }).first().waitFor();
    expect(await page.getByRole('row', { name: /Guard on and earth/ }).textContent()).toContain('not tried');
    expect(await faults(page)).toEqual([]);
    await page.keyboard.press('2');
    expect(await page.getByText(/^2 of \d+$/).count()).toBe(1);
  });

  it.each([390, 844, 1280])('has every cell and the strip to be read, %i wide', async (width) => {
    const page = await visit('', { width, height: 844 });
    await openRecord(page, shortRecord());
    await page.locator('.verdict__word').waitFor();
    const unread = await page.locator('.measures--debrief tbody :is(th, td)').evaluateAll((all) =>
      all.flatMap((el) => {
        const { left, right, width } = el.getBoundingClientRect();
        return width > 0 && left >= 0 && right <= innerWidth && el.scrollWidth <= el.clientWidth + 1
          ? []
          : [el.textContent];
      }),
    );
    expect(unread).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    const isCut = await page.locator('.chart').evaluate((el) => el.scrollWidth > el.clientWidth + 1);
    expect(await page.getByText('The strip goes on').isVisible()).toBe(isCut);
    expect(await faults(page)).toEqual([]);
  });

  it('prints a sheet with name, verdict and signatures, and nothing else', async () => {
    const page = await visit();
    await openRecord(page, shortRecord());
    await page.getByLabel('Name on the printed sheet').fill('<b>Ada</b>');
    await page.emulateMedia({ media: 'print' });
    const sheet = page.getByRole('region', { name: 'Sheet for the printer' });
    expect(await sheet.isVisible()).toBe(true);
    expect(await sheet.textContent()).toContain('<b>Ada</b>');
    expect(await sheet.textContent()).toContain('Instructor, date');
    expect(await page.locator('.chart').isVisible()).toBe(false);
    expect(await sheet.textContent()).toContain('To mend');
    // Two digits of a list's number, point and gap take under two ems: they must not stand beyond the paper's edge.
    const list = sheet.locator('.result__findings ol');
    expect(
      await list.evaluate(
        (el) => Number.parseFloat(getComputedStyle(el).paddingLeft) / Number.parseFloat(getComputedStyle(el).fontSize),
      ),
    ).toBeGreaterThan(2);
    await page.emulateMedia({ media: 'screen' });
    await page.keyboard.press('Escape');
    await openRecord(page, shortRecord());
    expect(await page.getByLabel('Name on the printed sheet').inputValue()).toBe('');
  });

  it('prints the name of the record’s file and the hash of the bytes that it saves', async () => {
    const page = await visit();
    await openRecord(page, shortRecord());
    await page.locator('.verdict__word').waitFor();
    const saving = page.waitForEvent('download');
    await page.keyboard.press('x');
    const file = await saving;
    const hash = createHash('sha256')
      .update(readFileSync(await file.path()))
      .digest('hex');
    const sheet = (await page.locator('.result__print').textContent()) ?? '';
    expect(sheet).toContain(hash);
    expect(sheet).toContain(`sha256sum ${file.suggestedFilename()}`);
  });

  it.each([
    ['nothing', ''],
    ['a record cut short', shortRecord().slice(0, 9000)],
    ['an unknown version', shortRecord().replace('"keydown-record":1', '"keydown-record":99')],
    ['bytes', '\u0000\u0001\ufffd<script>alert(1)</script>'],
    ['a scenario that is none', shortRecord().replace('id: first-call', 'id: [')],
  ])('says where the fault is in %s, and shows no debrief', async (_what, text) => {
    const page = await visit();
    await openRecord(page, text);
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await alert.textContent()).toMatch(/:\d+:\d+: \S+ expected/);
    expect(await page.locator('.verdict').count()).toBe(0);
  });
});
