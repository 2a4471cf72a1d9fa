import { expect, test } from 'vitest';
import type { BatchLine } from '../data/answers';
import { inOrder, nextStep } from './next_step';

const line = (change: Partial<BatchLine> = {}): BatchLine => ({
  batch: 'b',
  name: 'Tern 9',
  invented: true,
  first: '2026-11-01T08:00:00.000Z',
  last: '2026-11-20T08:00:00.000Z',
  entries: 3,
  struck: 0,
  puzzles: 0,
  planned: false,
  pitched: false,
  racked: false,
  runs: [],
  ...change,
});
type Run = BatchLine['runs'][number];
const run = (kind: Run['run'], standing: Run['standing'], allotted = false): Run => ({
  entry: `${kind} ${standing}`,
  at: '2026-11-19T08:00:00.000Z',
  run: kind,
  standing,
  allotted,
});
const lot = (kind: string, left: number, wood = false) => ({
  batch: 'b',
  at: '2026-11-20T10:00:00.000Z',
  lot: { entry: 'e', kind: kind as 'hearts' },
  left: { volume_L_20C: left, strength_percent_vol: 60, pure_alcohol_L_20C: 0, mass_kg: 0 },
  ...(wood ? { wood: { in: 'staves' } } : {}),
});

test('a batch is told what it needs next, in the order of the trade', () => {
  const whats = [
    line(),
    line({ planned: true }),
    line({ planned: true, pitched: true }),
    line({ planned: true, pitched: true, racked: true }),
    line({ racked: true, runs: [run('strip', 'running')] }),
    line({ racked: true, runs: [run('strip', 'stopped')] }),
    line({ racked: true, runs: [run('strip', 'ended')] }),
    line({ racked: true, runs: [run('strip', 'ended'), run('spirit run', 'running')] }),
    line({ racked: true, runs: [run('strip', 'ended'), run('spirit run', 'stopped')] }),
    line({ racked: true, runs: [run('strip', 'ended'), run('spirit run', 'ended')] }),
    line({ racked: true, runs: [run('strip', 'ended'), run('spirit run', 'ended', true)] }),
    line({ closed: { entry: 'c', at: '2026-11-25T08:00:00.000Z' } }),
  ].map((one) => nextStep(one).what);
  expect(whats).toEqual([
    'Write the mash bill',
    'Mash day',
    'Read the ferment',
    'Strip',
    'A strip is on: read it',
    'A strip is stopped: resume it',
    'Strip on, or begin the spirit run',
    'The spirit run is on: read it',
    'A spirit run is stopped: resume it',
    'Gauge and cut the jars',
    'Reduce the hearts',
    'Closed',
  ]);
});

test('after the cut, the lots of the batch decide', () => {
  const cut = line({ runs: [run('spirit run', 'ended', true)] });
  expect(nextStep(cut, [lot('hearts', 2.6)]).slug).toBe('reduce');
  expect(nextStep(cut, [lot('hearts', 0.01), lot('spirit', 3.1)]).what).toBe(
    'Lay on wood, or bottle',
  );
  expect(nextStep(cut, [lot('hearts', 0), lot('spirit', 3, true)])).toEqual({
    what: 'On wood: draw a sample',
    slug: 'wood',
    since: '2026-11-20T10:00:00.000Z',
    standing: 'waits',
  });
  expect(nextStep(cut, [lot('hearts', 0), lot('bottles', 2)]).standing).toBe('done');
});

test('a lot of another batch decides nothing here', () => {
  const cut = line({ batch: 'other', runs: [run('spirit run', 'ended', true)] });
  expect(nextStep(cut, [lot('spirit', 3, true)]).what).toBe('Reduce the hearts');
});

test('a still that is on or stopped comes first, what is done last', () => {
  const lines = [
    line({ batch: 'done', closed: { entry: 'c', at: '2026-11-25T08:00:00.000Z' } }),
    line({ batch: 'old', last: '2026-10-01T08:00:00.000Z' }),
    line({ batch: 'new' }),
    line({ batch: 'stopped', runs: [run('spirit run', 'stopped')] }),
  ].map((one) => ({ ...one, next: nextStep(one) }));
  expect(inOrder(lines).map((one) => one.batch)).toEqual(['stopped', 'new', 'old', 'done']);
});
