import { afterEach, expect, test, vi } from 'vitest';
import type { Entry } from '../data/entry';
import { lookUp, toldRows } from './told';

const entry = (id: string, more: Partial<Entry> = {}): Entry => ({
  id,
  stage: 'kit',
  kind: 'air read',
  version: 1,
  at: '2026-11-26T08:00:00.000Z',
  clock_ahead_ms: 0,
  who: 'Wren',
  body: { pressure_hPa: 990 },
  ...more,
});
const told = [{ entry: 'a', at: '2026-11-25T08:00:00.000Z', pressure_hPa: 1003 }];
const of = { kind: 'air read', stage: 'kit' } as const;
const rows = (all: Entry[], unsaved = true) =>
  toldRows(of, told, { all, unsaved: () => unsaved }).map(({ entry, body, waits }) => [
    entry,
    body['pressure_hPa'],
    waits,
  ]);

afterEach(() => vi.unstubAllGlobals());

test('what is only on the device stands among the told once, the newest first', () => {
  expect(rows([entry('b'), entry('a'), entry('c', { kind: 'note' })])).toEqual([
    ['b', 990, 'told'],
    ['a', 1003, undefined],
  ]);
  expect(rows([entry('b', { batch: 'x' }), entry('d', { stage: 'mash' })])).toEqual([
    ['a', 1003, undefined],
  ]);
  expect(rows([entry('b')], false)[0]).toEqual(['b', 990, undefined]);
});

test('a correction shows before the house has it; a strike that was taken back is none', () => {
  const corrected = entry('b', { corrects: 'a', body: { pressure_hPa: 1013 } });
  const strike = entry('c', { corrects: 'a', kind: 'struck', body: {} });
  const back = entry('d', { corrects: 'c', kind: 'struck', body: {} });
  expect(rows([corrected])).toEqual([['a', 1013, 'corrected']]);
  expect(rows([strike])).toEqual([['a', 1003, 'struck']]);
  expect(rows([strike, back])).toEqual([['a', 1003, 'corrected']]);
});

test('an entry is looked up in its batch, else in the house’s journal, as it now stands', async () => {
  const api = {
    address: (path: string) => path,
    get: async () => ({ entries: [entry('x')] }) as never,
  };
  const lines = [entry('a'), entry('b', { corrects: 'a', body: { pressure_hPa: 1013 } })];
  const asked = vi.fn(async () => new Response(lines.map((l) => JSON.stringify(l)).join('\n')));
  vi.stubGlobal('fetch', asked);
  expect((await lookUp(api, 'x', 'batch'))?.first.id).toBe('x');
  expect(asked).not.toHaveBeenCalled();
  expect((await lookUp(api, 'a', 'batch'))?.stands.body).toEqual({ pressure_hPa: 1013 });
  expect(await lookUp(api, 'nowhere', undefined)).toBeUndefined();
});
