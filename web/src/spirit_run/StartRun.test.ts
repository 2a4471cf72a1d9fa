// The form of a charge, with a house that answers and with one that does not.
import { render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import type { ChargeLeft, Lot, Plan, RunKind } from '../data/answers';
import type { Bench } from '../data/bench.svelte';
import { newEntry, type Entry, type EntryWish } from '../data/entry';
import { NoAnswer, Problem } from '../data/problem';
import { set } from '../data/settings.svelte';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import { leadToFaults } from '../parts/at_fault';
import StartRun from './StartRun.svelte';

const lot = (entry: string, volume_L_20C: number, strength_percent_vol: number): Lot =>
  ({
    entry,
    at: '2026-11-20T08:00:00.000Z',
    batch: 'b',
    lot: { entry, kind: 'low wines' },
    label: `low wines ${entry}`,
    made: figures(volume_L_20C, strength_percent_vol),
    left: figures(volume_L_20C, strength_percent_vol),
    measured: true,
    parents: [],
    uses: [],
  }) as unknown as Lot;
const figures = (volume_L_20C: number, strength_percent_vol: number) => ({
  volume_L_20C,
  strength_percent_vol,
  pure_alcohol_L_20C: (volume_L_20C * strength_percent_vol) / 100,
});

let kept: Entry[];
let posted: string[];
let asked: [string, Record<string, unknown>][];
/** What the house tells of a charge; and whether it went away after a while. */
let leftOf: (body: { volume_L_20C: number }) => unknown;
let away: boolean;
beforeEach(() => {
  kept = [];
  posted = [];
  asked = [];
  leftOf = (): ChargeLeft => ({ findings: [] });
  away = false;
});

/** A house that mixes with a shrinking of its own, so that a sum made by the page would show. */
function benchOf(answers: boolean, lots: Lot[]): Bench {
  const post = (path: string, body: Record<string, unknown>) => {
    posted.push(path);
    asked.push([path, body]);
    if (!answers || away) return Promise.reject(new NoAnswer('The house does not answer.'));
    if (path.endsWith('/charge'))
      return Promise.resolve().then(() => leftOf(body as { volume_L_20C: number }) as never);
    if (path === '/blend') {
      const parts = body['parts'] as {
        volume_L_20C: number;
        strength_percent_vol: number;
      }[];
      const pure = parts.reduce((s, p) => s + (p.volume_L_20C * p.strength_percent_vol) / 100, 0);
      const volume = 0.99 * parts.reduce((s, p) => s + p.volume_L_20C, 0);
      return Promise.resolve(figures(volume, (100 * pure) / volume));
    }
    if (path === '/reduce')
      return Promise.resolve({ water_kg: 3.21, water_L: 3.22, volume_L_20C: 13.04 });
    const { reading, volume_L } = body as unknown as { reading: number; volume_L?: number };
    return Promise.resolve({
      strength_percent_vol: reading,
      standard_percent_vol: 0.3,
      ...(volume_L === undefined ? {} : { lot: figures(volume_L, reading) }),
    });
  };
  return {
    api: {
      get: answers
        ? () => Promise.resolve({ lots })
        : () => Promise.reject(new NoAnswer('The house does not answer.')),
      post,
    },
    connected: answers,
    hear: () => () => true,
    onTurn: () => () => true,
    record: (wish: Omit<EntryWish, 'who'>) => {
      const entry = newEntry({ ...wish, who: '' });
      kept.push(entry);
      return Promise.resolve(entry);
    },
  } as unknown as Bench;
}

const plan = (percent = 30, limit_L = 25): Plan => {
  const of = structuredClone(ternPlan) as Plan;
  for (const one of [of.strip, of.spirit_run]) one.fill_limit_L = limit_L;
  of.spirit_run.run.charge.strength_percent_vol = percent;
  return of;
};
const show = (bench: Bench, kind: RunKind, more: object = {}) =>
  render(StartRun, {
    bench,
    batch: 'b',
    kind,
    plan: plan(),
    onstart: () => undefined,
    ...more,
  });
const type = async (label: string | RegExp, text: string) => {
  const field = await screen.findByLabelText(label);
  await userEvent.clear(field);
  await userEvent.type(field, text);
};
const words = () => document.body.textContent!.replace(/\s+/g, ' ');
const comes = (pattern: RegExp) => expect.poll(words, { timeout: 3000 }).toMatch(pattern);

test('lots that are typed are summed by the house, with the water to the planned strength', async () => {
  show(benchOf(true, [lot('one', 8, 40), lot('two', 6, 35)]), 'spirit run');
  await type('low wines one', '6');
  await type('low wines two', '4');
  // 9.90 L, not the 10.00 that a page would add up; the alcohol adds.
  await comes(/Put in: 9\.90 L at 38\.4 %vol, 3\.80 L of pure alcohol/);
  await comes(
    /3\.21 kg of water \(3\.22 L\) brings it to the planned 30\.0 %vol: then it is 13\.04 L/,
  );
});

test('one tap fills the charge; no reading is made up, and the house takes the parts', async () => {
  show(benchOf(true, [lot('one', 8, 40), lot('two', 6, 35)]), 'spirit run');
  await type('low wines one', '6');
  await type('low wines two', '4');
  await userEvent.click(
    await screen.findByRole('button', { name: /^With the water this is in the boiler: 13\.04/ }),
  );
  expect(screen.getByLabelText<HTMLInputElement>('Volume').value).toBe('13.04');
  await comes(/takes the strength from what was put in, and water for the rest: 29\.1 %vol/);
  // What is typed stands: it is not offered any more.
  expect(screen.queryByRole('button', { name: /is in the boiler/ })).toBeNull();
  await userEvent.click(screen.getByRole('button', { name: /start the run/ }));
  expect(kept[0]!.body).toMatchObject({
    charge: { volume_L: 13.04, at_C: 20 },
    lots: [{ volume_L_20C: 6 }, { volume_L_20C: 4 }],
  });
  expect(kept[0]!.body).not.toHaveProperty('strength');
});

test('a charge with more alcohol than was put in is cautioned, and can be started', async () => {
  show(benchOf(true, [lot('one', 8, 40)]), 'spirit run');
  await type('low wines one', '6');
  await type('Volume', '10');
  await type('Alcoholmeter reads', '24');
  await comes(/Put in/);
  expect(words()).not.toMatch(/of pure alcohol; /);
  await type('Alcoholmeter reads', '30');
  await comes(/The charge as typed holds 3\.00 L of pure alcohol; 2\.40 L was put in/);
  await userEvent.click(screen.getByRole('button', { name: /start the run/ }));
  expect(kept).toHaveLength(1);
});

test('a strip sums its wash too, gets no water, and tells what is left and what is too much', async () => {
  show(benchOf(true, [lot('feints', 5, 50)]), 'strip', {
    washLeft: { racked_L: 52, left_L: 26, untold: 0 },
    washStrength: 8,
  });
  expect(words()).toMatch(/26\.0 L is left of 52\.0 L racked/);
  await type(/^Of this batch’s wash/, '20');
  await type('low wines feints', '2');
  await comes(/Put in: 21\.78 L at 11\.9 %vol, 2\.60 L of pure alcohol/);
  expect(posted).not.toContain('/reduce');
  await type('Volume', '24');
  await comes(/The charge as typed is 24\.0 L; what was put in makes 21\.8 L/);
  await type(/^Of this batch’s wash/, '40');
  await comes(/40\.0 L of wash was typed; 26\.0 L is left of 52\.0 L racked/);
});

test('of lots too large for the boiler it is said how much fits, and one tap takes so much', async () => {
  show(benchOf(true, [lot('one', 40, 25), lot('two', 20, 28)]), 'spirit run');
  await userEvent.click(await screen.findByRole('button', { name: /^All\s*of low wines one/ }));
  await userEvent.click(screen.getByRole('button', { name: /^All\s*of low wines two/ }));
  // 59.4 L by the house; the boiler takes 25.
  await comes(
    /makes 59\.4 L; this boiler takes 25\.0 L at most\. 42 % of it fits: 16\.83 L of low wines one, 8\.41 L of low wines two\. All of it is 3 charges/,
  );
  await userEvent.click(screen.getByRole('button', { name: /^Put in so much/ }));
  expect(screen.getByLabelText<HTMLInputElement>('low wines one').value).toBe('16.83');
  expect(screen.getByLabelText<HTMLInputElement>('low wines two').value).toBe('8.41');
  await comes(/Put in: 24\.99 L/);
  expect(words()).not.toMatch(/Too much for one charge/);
});

test('lots of one name are told apart by their time', async () => {
  const alike = [lot('one', 40, 25), { ...lot('two', 20, 28), at: '2026-11-21T09:30:00.000Z' }];
  for (const one of alike) one.label = 'low wines of Tern 9';
  show(benchOf(true, alike), 'spirit run');
  for (const all of await screen.findAllByRole('button', { name: /^All/ }))
    await userEvent.click(all);
  await comes(
    /16\.83 L of low wines of Tern 9 \(20 November, \d\d:\d\d\), 8\.41 L of low wines of Tern 9 \(21 November/,
  );
});

test('without the house the alcohol is summed, what waits is said, and the run starts', async () => {
  show(benchOf(false, []), 'strip', { washStrength: 8 });
  await type(/^Of this batch’s wash/, '20');
  await comes(/each measured by itself: 20\.00 L, 1\.60 L of pure alcohol/);
  await comes(/The house does not answer; .* are told when it does\. The run can be started/);
  await type('Volume', '20');
  await userEvent.click(screen.getByRole('button', { name: /start the run/ }));
  expect(kept[0]!.body).toMatchObject({ wash_L_20C: 20, charge: { volume_L: 20 } });
});

test('a charge above 40 %vol by its lots is a danger, though nobody read it', async () => {
  show(benchOf(true, [lot('one', 8, 55)]), 'spirit run');
  await type('low wines one', '6');
  await type('Volume', '6');
  await comes(/A charge above 40 %vol burns readily/);
});

/** A plan whose kit says what its element needs over it; or has none that says so. */
const planNeeding = (needs_L: number | undefined): Plan => {
  const { element_covered_above_L: _, ...kit } = plan().kit;
  return {
    ...plan(),
    kit: { ...kit, ...(needs_L === undefined ? {} : { element_covered_above_L: needs_L }) },
  };
};
const nearly = (left: string) => ({
  weight: 'caution',
  code: 'element-nearly-exposed',
  stage: 'Spirit run',
  says: `Of this charge about ${left} L is left over an element that needs 6.0 L.`,
  remedy: 'Watch the level; stop before it shows.',
});
/** Which charges were asked of, in order. */
const chargesAsked = () => asked.filter(([path]) => path === '/batches/b/charge').map(([, b]) => b);

test('what the charge leaves over the element is asked of the house as it is typed, and told', async () => {
  leftOf = ({ volume_L_20C }) => ({
    element_covered_above_L: 6,
    findings: volume_L_20C > 20 ? [] : [nearly((volume_L_20C / 2).toFixed(1))],
  });
  const spirit = show(benchOf(true, [lot('one', 12, 40)]), 'spirit run', { plan: planNeeding(6) });
  expect(words()).not.toMatch(/needs 6\.0 L/);
  // By what is put in, before the charge is typed: 9.90 L with its water, of 4 L pure alcohol.
  await type('low wines one', '10');
  await comes(/Caution\. Of this charge about 6\.5 L is left over an element that needs 6\.0 L/);
  expect(words()).toMatch(/Watch the level; stop before it shows\./);
  const [first] = chargesAsked().slice(-1) as [{ run: string; strength_percent_vol: number }];
  expect(first).toMatchObject({ run: 'spirit run', volume_L_20C: 13.04 });
  expect(first.strength_percent_vol).toBeCloseTo((100 * 4) / 13.04, 9);
  // A charge that is typed counts before that; one whose strength was read has that.
  await type('Volume', '18');
  await comes(/Of this charge about 9\.0 L/);
  await type('Alcoholmeter reads', '25');
  await expect
    .poll(() => chargesAsked().at(-1))
    .toEqual({ run: 'spirit run', volume_L_20C: 18, strength_percent_vol: 25 });
  await type('Volume', '24');
  await expect.poll(words).not.toMatch(/Of this charge/);
  spirit.unmount();
  // Of wash that nobody read the strength is not known: the house takes the planned one.
  show(benchOf(true, []), 'strip', { plan: planNeeding(6) });
  await type('Volume', '9');
  await comes(/Of this charge about 4\.5 L/);
  expect(chargesAsked().at(-1)).toEqual({ run: 'strip', volume_L_20C: 9 });
});

test('while the house is away its answer of the same charge stands, and what is plain is told', async () => {
  leftOf = () => ({ element_covered_above_L: 6, findings: [nearly('6.5')] });
  const bench = benchOf(true, []);
  show(bench, 'strip', { plan: planNeeding(6) });
  await type('Volume', '12');
  await comes(/Of this charge about 6\.5 L/);
  away = true;
  // Another charge: nothing is said of it that nobody knows.
  await type('Volume', '13');
  await expect.poll(words, { timeout: 3000 }).not.toMatch(/Of this charge/);
  await type('Volume', '12');
  await comes(/Of this charge about 6\.5 L/);
  await type('Volume', '5');
  await comes(
    /Danger\. The charge is 5\.0 L; the element needs 6\.0 L over it and burns dry as soon as the heat is on\. Leave the heat off\. Charge more\./,
  );
  await type('Volume', '13');
  await userEvent.click(screen.getByRole('button', { name: /start the run/ }));
  expect(kept).toHaveLength(1);
});

test('a charge that the planned run cannot be reckoned of is said to be so', async () => {
  leftOf = () => {
    throw new Problem({
      title: 'Some of this cannot be taken',
      status: 422,
      errors: [{ field: 'strip.stop', value: '10.0 %vol', accepted: 'less than 4 %vol' }],
    });
  };
  show(benchOf(true, []), 'strip', { plan: planNeeding(6) });
  await type('Volume', '9');
  await comes(/cannot be reckoned for this charge, so nothing here can tell whether it keeps/);
  expect(words()).not.toMatch(/strip\.stop/);
});

test('before anything is typed the plan’s own caution stands there; a kit that is silent is told', async () => {
  const planned = planNeeding(6);
  planned.findings = [
    {
      weight: 'danger',
      code: 'element-exposed',
      stage: 'Strip',
      says: '5.0 L is left in the boiler at the end; the element needs 6.0 L over it and burns dry.',
      remedy: 'Charge more, or stop earlier.',
    },
  ];
  const first = show(benchOf(true, []), 'strip', { plan: planned });
  await comes(
    /Danger\. As planned: 5\.0 L is left in the boiler at the end; the element needs 6\.0 L/,
  );
  expect(chargesAsked()).toEqual([]);
  // Once the house has told of the charge itself, that counts.
  await type('Volume', '24');
  await expect.poll(words, { timeout: 3000 }).not.toMatch(/As planned/);
  first.unmount();
  const silent = show(benchOf(true, []), 'spirit run', { plan: planNeeding(undefined) });
  await comes(/The kit does not say how much its element needs over it/);
  expect(words()).not.toMatch(/As planned: 5/);
  silent.unmount();
  const flame = planNeeding(undefined);
  flame.kit.boiler_heat = 'flame';
  show(benchOf(true, []), 'spirit run', { plan: flame });
  await screen.findByLabelText('Volume');
  expect(words()).not.toMatch(/The kit does not say/);
});

test('foreshots stand last, with a caution in place of “All”, and can be put in all the same', async () => {
  const early = { ...lot('early', 0.5, 78), label: 'foreshots' };
  early.lot = { ...early.lot, kind: 'foreshots' };
  show(benchOf(true, [early, lot('one', 8, 40)]), 'spirit run');
  await screen.findByLabelText('foreshots');
  const fields = [...document.querySelectorAll('fieldset label')].map((one) => one.textContent);
  expect(fields).toEqual(['low wines one', 'foreshots']);
  expect(screen.getAllByRole('button', { name: /^All/ })).toHaveLength(1);
  expect(words()).toMatch(/Caution\. Foreshots are set apart and not charged again: methanol/);
  await type('foreshots', '0.2');
  await comes(/Put in: 0\.20 L/);
});

test('once the low wines were gauged the plan is said to be of before', async () => {
  const { unmount } = show(benchOf(true, [lot('one', 8, 40), lot('two', 6, 35)]), 'spirit run');
  await comes(
    /Planned, before anything was read: .* the 2 lots of low wines gauged hold 5\.30 L of pure alcohol, where the plan has \d/,
  );
  unmount();
  const bare = show(benchOf(true, []), 'spirit run');
  await comes(/Planned: /);
  bare.unmount();
  show(benchOf(true, []), 'strip', {
    washStrength: 7.9,
    washLeft: { racked_L: 52, left_L: 52, untold: 0 },
  });
  await comes(
    /Planned, before anything was read: .* Read since: the wash is 7\.9 %vol, 52\.0 L was racked/,
  );
});

const startButton = () => screen.getByRole('button', { name: /start the run/ });

test('no heat goes on with nothing in the boiler', async () => {
  const bench = benchOf(true, []);
  show(bench, 'strip', { plan: plan() });
  await type('Volume', '0');
  await userEvent.click(startButton());
  expect(screen.getByText(/Nothing is in the boiler: the heat ruins it empty/)).toBeTruthy();
  expect(kept).toHaveLength(0);
  await type('Volume', '20');
  await userEvent.click(startButton());
  expect(kept).toHaveLength(1);
});

test('more than the boiler holds is never started by the one button, however often it is tapped', async () => {
  const bench = benchOf(true, []);
  show(bench, 'strip', { plan: { ...plan(), kit: { ...plan().kit, boiler_L: 45 } } });
  await type('Volume', '45');
  await userEvent.click(startButton());
  expect(kept).toHaveLength(1); // to the brim it is held
  await type('Volume', '45.1');
  expect(screen.queryByRole('alert')).toBeNull();
  await userEvent.click(startButton());
  const alert = screen.getByRole('alert');
  expect(alert.textContent!.replace(/\s+/g, ' ')).toMatch(
    /Not started\. 45\.1 L is more than the boiler of 45\.0 L holds to the brim: it would boil over, vapour and hot liquid would come out\. Draw some off first/,
  );
  expect(document.activeElement).toBe(alert);
  await userEvent.dblClick(startButton());
  expect(kept).toHaveLength(1);
  // Enter in a field is no second act either.
  await userEvent.type(screen.getByLabelText('Volume'), '{Enter}');
  expect(kept).toHaveLength(1);
});

test('the button that keeps it as it was says which other field is at fault, and goes there', async () => {
  show(benchOf(true, []), 'strip', { plan: { ...plan(), kit: { ...plan().kit, boiler_L: 45 } } });
  await type('Volume', '60');
  await type('Power from the start', 'full');
  await userEvent.click(startButton());
  await userEvent.click(screen.getByLabelText(/So much truly was charged/));
  const keep = screen.getByRole('button', { name: 'Keep it in the journal as it was' });
  await userEvent.click(keep);
  expect(kept).toHaveLength(0);
  const says = 'Not kept: “Power from the start” above is at fault.';
  expect(within(keep.parentElement!).getByRole('status').textContent).toBe(says);
  const field = screen.getByLabelText('Power from the start');
  expect(document.activeElement).toBe(field);
  await type('Power from the start', '4000');
  await userEvent.click(keep);
  expect(kept).toHaveLength(1);
  expect(screen.queryByText(says)).toBeNull();
});

test('that so much truly was charged is told by a tick and a button of its own', async () => {
  show(benchOf(true, []), 'strip', { plan: { ...plan(), kit: { ...plan().kit, boiler_L: 45 } } });
  await type('Volume', '60');
  await userEvent.click(startButton());
  const all = [...document.querySelectorAll('button')];
  const keep = screen.getByRole('button', { name: 'Keep it in the journal as it was' });
  // Below the one that was tapped, so that nothing comes to lie under the thumb.
  expect(all.indexOf(keep as HTMLButtonElement)).toBeGreaterThan(
    all.indexOf(startButton() as HTMLButtonElement),
  );
  await userEvent.click(keep);
  expect(kept).toHaveLength(0);
  const tick = screen.getByLabelText(/So much truly was charged/);
  await userEvent.click(tick);
  // Another charge is asked about anew.
  await type('Volume', '61');
  expect(screen.queryByRole('button', { name: /as it was/ })).toBeNull();
  await userEvent.click(startButton());
  await userEvent.click(screen.getByLabelText(/So much truly was charged/));
  const asItWas = screen.getByRole('button', { name: /as it was/ });
  asItWas.click();
  await vi.waitFor(() => expect(kept).toHaveLength(1));
  await userEvent.click(asItWas); // a bouncing mouse
  expect(kept.map((one) => [one.kind, one.body['charge']])).toEqual([
    ['run begun', { volume_L: 61, at_C: 20 }],
  ]);
});

test('a heat that went on earlier is told as of then', async () => {
  show(benchOf(true, []), 'strip');
  await type('Volume', '20');
  await userEvent.click(screen.getByRole('button', { name: 'Earlier than now?' }));
  await type('The heat went on at', '2999-01-01T00:00');
  await userEvent.click(startButton());
  expect(kept).toHaveLength(0);
  await type('The heat went on at', '2026-11-20T09:10');
  await userEvent.click(startButton());
  expect(kept[0]!.at).toBe(new Date(2026, 10, 20, 9, 10).toISOString());
});

test('a press that is refused goes to the first field at fault, in the midst of the window', async () => {
  const off = leadToFaults();
  const scrolled: Element[] = [];
  vi.spyOn(Element.prototype, 'scrollIntoView').mockImplementation(function (this: Element) {
    scrolled.push(this);
  });
  show(benchOf(true, []), 'strip', { plan: plan() });
  await type('Volume', '0');
  await userEvent.click(startButton());
  const volume = screen.getByLabelText('Volume');
  await vi.waitFor(() => expect(document.activeElement).toBe(volume));
  expect(scrolled).toEqual([volume]);
  // One that is kept stays where it is.
  await type('Volume', '26');
  await userEvent.click(startButton());
  await new Promise((done) => setTimeout(done, 20));
  expect(kept).toHaveLength(1);
  expect(document.activeElement).toBe(startButton());
  expect(scrolled).toHaveLength(1);
  off();
});

test('a charge that is typed and not begun stands after the page was left, until its run begins', async () => {
  const lots = [lot('one', 8, 40), lot('two', 6, 35)];
  const drafts = () => Object.keys(localStorage).filter((key) => key.startsWith('lynearm-typing-'));
  const value = (label: string | RegExp) => screen.getByLabelText<HTMLInputElement>(label).value;
  const showLeft = (kind: RunKind = 'strip', batch = 'charge left') =>
    show(benchOf(true, lots), kind, { batch });
  const typed = showLeft();
  await screen.findByLabelText('low wines one');
  expect(drafts()).toEqual([]); // nothing that is planned or offered is one
  await type(/^Of this batch’s wash/, '12');
  await type('low wines one', '6');
  await type('low wines two', '4');
  await userEvent.clear(screen.getByLabelText('low wines two'));
  await type('Volume', '21');
  await type('Power from the start', '2500');
  await userEvent.click(screen.getByRole('button', { name: 'Earlier than now?' }));
  typed.unmount();
  const another = showLeft('spirit run');
  expect(value('Volume')).toBe('');
  another.unmount();

  set({ units: 'us' });
  const left = showLeft();
  expect(screen.getByText('As you left it: not begun yet.')).toBeTruthy();
  await screen.findByLabelText('low wines one');
  expect(value('low wines one')).toBe('6 L');
  expect(value('low wines two')).toBe('');
  expect(value(/^Of this batch’s wash/)).toBe('12 L');
  expect(value('Volume')).toBe('21 L');
  expect(value('at')).toBe('68'); // nobody typed it
  expect(value('Power from the start')).toBe('2500');
  expect(screen.getByLabelText('The heat went on at')).toBeTruthy();
  expect(kept).toHaveLength(0);
  await userEvent.click(startButton());
  expect(kept[0]!.body).toMatchObject({
    charge: { volume_L: 21, at_C: 20 },
    lots: [{ lot: { entry: 'one' }, volume_L_20C: 6 }],
    wash_L_20C: 12,
    power_W: 2500,
  });
  expect(kept).toHaveLength(1);
  await vi.waitFor(() => expect(drafts()).toEqual([]));
  left.unmount();
  showLeft();
  expect(screen.queryByText('As you left it: not begun yet.')).toBeNull();
  expect(value('Volume')).toBe('');
  expect((await screen.findByLabelText<HTMLInputElement>('low wines one')).value).toBe('');
});

test('a run is not begun on kilowatts that stand as watts', async () => {
  show(benchOf(true, []), 'strip', { batch: 'kilowatts' });
  await type('Volume', '21');
  await type('at', '20');
  await type('Power from the start', '1,5');
  expect(
    screen.getByText(/“1,5” was given; accepted: a power such as 1500.W or 1\.5.kW/),
  ).toBeTruthy();
  await userEvent.click(startButton());
  expect(kept).toHaveLength(0);
  await type('Power from the start', '1,5 kW');
  await userEvent.click(startButton());
  expect(kept[0]!.body).toMatchObject({ power_W: 1500 });
});
