import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Entry } from './entry';
import { Outbox, type OutboxState } from './outbox';
import { NoAnswer, Problem } from './problem';

const entry = (id: string): Entry => ({
  id,
  stage: 'spirit run',
  kind: 'reading',
  version: 1,
  at: '2026-11-26T01:02:03.456Z',
  clock_ahead_ms: 0,
  who: 'Ada',
  body: { scale: 73.1 },
});

/** A house that keeps by id, and whose network can be cut before or after it has heard. */
class House {
  readonly kept: string[] = [];
  requests = 0;
  cut: 'no' | 'before' | 'after' = 'no';
  refuse = new Set<string>();
  keep = async (entries: readonly Entry[]): Promise<string[]> => {
    this.requests += 1;
    if (this.cut === 'before') throw new NoAnswer('cut');
    const bad = entries.find((e) => this.refuse.has(e.id));
    if (bad) throw new Problem({ title: `${bad.id} has faults`, status: 422 });
    for (const e of entries) if (!this.kept.includes(e.id)) this.kept.push(e.id);
    if (this.cut === 'after') throw new NoAnswer('cut');
    return entries.map((e) => e.id);
  };
}

let house: House;
let boxes: Outbox[];
let retries: { work: () => void; ms: number }[];
let count = 0;
let name: string;

const open = (more: Partial<ConstructorParameters<typeof Outbox>[0]> = {}) => {
  const box = new Outbox({
    name,
    keep: house.keep,
    random: () => 1,
    later: (work, ms) => {
      retries.push({ work, ms });
      return () => (retries = retries.filter((r) => r.work !== work));
    },
    ...more,
  });
  boxes.push(box);
  return box;
};

const stateOf = (box: Outbox) => {
  let last!: OutboxState;
  box.subscribe((state) => (last = state))();
  return last;
};

beforeEach(() => {
  house = new House();
  boxes = [];
  retries = [];
  name = `outbox-${++count}`;
});

afterEach(async () => {
  for (const box of boxes) await box.close();
});

test('entries reach the house in the order they were made', async () => {
  const box = open();
  for (const id of ['c', 'a', 'b']) await box.put(entry(id));
  await box.send();
  expect(house.kept).toEqual(['c', 'a', 'b']);
  expect(stateOf(box)).toMatchObject({ waiting: 0, sending: false, answered: true });
});

test('while the network is cut, entries wait and are counted; when it is back they all go', async () => {
  const box = open();
  house.cut = 'before';
  for (const id of ['1', '2', '3']) await box.put(entry(id));
  await box.send();
  expect(stateOf(box)).toMatchObject({ waiting: 3, answered: false });
  house.cut = 'no';
  retries[0]!.work();
  await box.send();
  expect(house.kept).toEqual(['1', '2', '3']);
  expect(stateOf(box).waiting).toBe(0);
});

test('a lost answer loses nothing and doubles nothing', async () => {
  const box = open();
  house.cut = 'after';
  await box.put(entry('1'));
  await box.send();
  expect(house.kept).toEqual(['1']);
  expect(stateOf(box).waiting).toBe(1);
  house.cut = 'no';
  await box.send();
  expect(house.kept).toEqual(['1']);
  expect(stateOf(box).waiting).toBe(0);
});

test('a page that was just opened counts what an earlier one left before it says that all is saved', async () => {
  const before = open();
  house.cut = 'before';
  await before.put(entry('1'));
  await before.close();
  boxes = [];
  const box = open();
  expect(stateOf(box)).toMatchObject({ waiting: 0, uncounted: true });
  await vi.waitFor(() => expect(stateOf(box)).toMatchObject({ waiting: 1, uncounted: false }));
  expect(house.kept).toEqual([]);
});

test('entries survive the page being closed', async () => {
  const first = open();
  house.cut = 'before';
  await first.put(entry('1'));
  await first.put(entry('2'));
  await first.close();
  house.cut = 'no';
  const second = open();
  expect((await second.waiting()).map((e) => e.id)).toEqual(['1', '2']);
  await second.send();
  expect(house.kept).toEqual(['1', '2']);
});

test('the same entry put twice waits once', async () => {
  const box = open();
  house.cut = 'before';
  await box.put(entry('1'));
  await box.put(entry('1'));
  expect((await box.waiting()).length).toBe(1);
});

test('a refused entry is set apart with its reason and does not hold up the others', async () => {
  const box = open();
  house.cut = 'before';
  for (const id of ['1', '2', '3']) await box.put(entry(id));
  await box.send();
  house.cut = 'no';
  house.refuse.add('2');
  await box.send();
  expect(house.kept).toEqual(['1', '3']);
  expect(stateOf(box)).toMatchObject({
    waiting: 0,
    refused: [{ entry: { id: '2' }, reason: '2 has faults' }],
  });
  house.refuse.clear();
  await box.retry('2');
  await box.send();
  expect(house.kept).toEqual(['1', '3', '2']);
});

test('a refused entry leaves only by a person’s hand, a waiting one not even so', async () => {
  const box = open();
  house.refuse.add('2');
  await box.put(entry('2'));
  await box.send();
  await box.letGo('2');
  expect(stateOf(box).refused).toEqual([]);
  house.cut = 'before';
  await box.put(entry('3'));
  await box.letGo('3');
  expect((await box.waiting()).map((e) => e.id)).toEqual(['3']);
});

test('waits between tries grow to half a minute and no further', async () => {
  const box = open();
  house.cut = 'before';
  await box.put(entry('1'));
  await box.send();
  const waits = [];
  for (let i = 0; i < 8; ++i) {
    waits.push(retries.at(-1)!.ms);
    await box.send();
  }
  expect(waits.at(-1)).toBe(30_000);
  expect(waits).toEqual([...waits].sort((a, b) => a - b));
});

test('a device that is not paired keeps its entries: that may pass', async () => {
  const box = open({
    keep: async () => {
      throw new Problem({ title: 'Not paired', status: 401 });
    },
  });
  await box.put(entry('1'));
  await box.send();
  expect(stateOf(box)).toMatchObject({ waiting: 1, refused: [] });
});

test('a house that names other ids than it was sent makes nothing disappear', async () => {
  const box = open({ keep: async () => ['something else'] });
  await box.put(entry('1'));
  await box.send();
  expect(stateOf(box).waiting).toBe(1);
});

test('five hundred entries under a network that drops at random: all arrive, once, in order', async () => {
  let seed = 7;
  const chance = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
  const box = open({
    at_once: 20,
    keep: async (entries) => {
      const fate = chance();
      house.cut = fate < 0.3 ? 'before' : fate < 0.5 ? 'after' : 'no';
      return house.keep(entries);
    },
  });
  const ids = Array.from({ length: 500 }, (_, i) => String(i));
  for (const id of ids) await box.put(entry(id));
  for (let i = 0; i < 400 && (await box.waiting()).length > 0; ++i) await box.send();
  expect(house.kept).toEqual(ids);
  expect(stateOf(box).waiting).toBe(0);
});

test('photographs wait with their note, over a closed page too, and go before it, in order and once', async () => {
  const files: string[] = [];
  const sent: Entry[] = [];
  let cut = true;
  const settings = {
    keep: async (entries: readonly Entry[]) => {
      const ids = await house.keep(entries);
      sent.push(...entries);
      return ids;
    },
    keepFile: async (file: File) => {
      if (cut) throw new NoAnswer('cut');
      files.push(await file.text());
      if (files.length === 2) {
        cut = true; // it was heard, but the answer is lost
        throw new NoAnswer('cut');
      }
      return `name of ${await file.text()}`;
    },
  };
  const first = open(settings);
  house.cut = 'before';
  await first.put(entry('before'));
  await first.put(entry('note'), [new File(['a'], 'a.jpg'), new File(['b'], 'b.jpg')]);
  await first.put({ ...entry('mended'), corrects: 'note' }); // told before the photographs had names
  await first.put(entry('after'));
  await vi.waitFor(() => expect(stateOf(first).pictures?.get('note')).toBe(2));
  await first.close();
  boxes = [];
  house.cut = 'no';
  cut = false;
  const second = open(settings);
  await second.send();
  // Nothing waits for photographs but what corrects their note.
  expect(house.kept).toEqual(['before', 'after']);
  expect(stateOf(second).waiting).toBe(2);
  cut = false;
  await second.send();
  expect(files).toEqual(['a', 'b', 'b']);
  expect(house.kept).toEqual(['before', 'after', 'note', 'mended']);
  for (const told of sent.slice(2))
    expect(told.body['attachments']).toEqual(['name of a', 'name of b']);
  expect(stateOf(second)).toMatchObject({ waiting: 0, pictures: new Map() });
});

test('a photograph that the house refuses sets its note apart, and the others go on', async () => {
  const box = open({
    keepFile: async () => {
      throw new Problem({ title: 'Too large', status: 413 });
    },
  });
  await box.put(entry('note'), [new File(['a'], 'a.jpg')]);
  await box.put(entry('after'));
  await box.send();
  expect(house.kept).toEqual(['after']);
  expect(stateOf(box).refused).toMatchObject([{ entry: { id: 'note' }, reason: 'Too large' }]);
});

test('two pages over one queue send each entry, and none twice', async () => {
  const a = open();
  const b = open();
  await Promise.all(['1', '2', '3', '4'].map((id, i) => (i % 2 ? a : b).put(entry(id))));
  await Promise.all([a.send(), b.send()]);
  expect([...house.kept].sort()).toEqual(['1', '2', '3', '4']);
});

test('what one page keeps, sends or lets go, another of the device hears of', async () => {
  const a = open();
  const b = open();
  await vi.waitFor(() => expect(stateOf(b).uncounted).toBe(false));
  house.cut = 'before';
  let counted = 0;
  const off = a.subscribe(() => (counted += 1));
  await a.put(entry('1'));
  await vi.waitFor(() => expect(stateOf(b).waiting).toBe(1));
  await b.send();
  expect(stateOf(b).answered).toBe(false);
  // It hears without speaking, so that two pages do not go on for ever.
  const before = counted;
  await new Promise((done) => setTimeout(done, 50));
  expect(counted).toBe(before);
  off();
  house.cut = 'no';
  house.refuse.add('2');
  await a.put(entry('2'));
  await a.send();
  await vi.waitFor(() =>
    expect(stateOf(b)).toMatchObject({
      waiting: 0,
      answered: undefined,
      refused: [{ entry: { id: '2' } }],
    }),
  );
  await a.letGo('2');
  await vi.waitFor(() => expect(stateOf(b).refused).toEqual([]));
});

test('a page that was closed is told nothing more, and a browser without channels keeps on', async () => {
  const a = open();
  const b = open();
  await vi.waitFor(() => expect(stateOf(b).uncounted).toBe(false));
  await b.close();
  boxes = [a];
  house.cut = 'before';
  await a.put(entry('1'));
  await new Promise((done) => setTimeout(done, 20));
  expect(stateOf(b).waiting).toBe(0);
  vi.stubGlobal('BroadcastChannel', undefined);
  const alone = open();
  await alone.put(entry('2'));
  expect(stateOf(alone).waiting).toBe(2);
  vi.unstubAllGlobals();
});
