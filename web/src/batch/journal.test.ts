import { expect, test } from 'vitest';
import type { Entry } from '../data/entry';
import type { Units } from '../data/units';
import { changed, editables, textOf, typedIn, valueAt, wrongIn } from './correcting';
import { inWords, journalRows, keyName, namesGiven, unanswered } from './journal';

const entry = (id: string, change: Partial<Entry> = {}): Entry => ({
  id,
  batch: 'b',
  stage: 'mash',
  kind: 'mash temperature',
  version: 1,
  at: `2026-11-17T11:2${id.charCodeAt(0) % 10}:00.000Z`,
  clock_ahead_ms: 0,
  who: 'the apprentice',
  body: { temperature_C: 56.1 },
  ...change,
});

test('a correction stands in the place of what it corrects, and both can be seen', () => {
  const [row, ...others] = journalRows([
    entry('a'),
    entry('b', { corrects: 'a', body: { temperature_C: 66.1 } }),
  ]);
  expect(others).toEqual([]);
  expect(row!.first.body).toEqual({ temperature_C: 56.1 });
  expect(row!.stands.body).toEqual({ temperature_C: 66.1 });
});

test('of several corrections the last made counts, in whatever order they came', () => {
  const told = [
    entry('c', { corrects: 'a', body: { temperature_C: 3 } }),
    entry('b', { corrects: 'a', body: { temperature_C: 2 } }),
    entry('a'),
  ];
  for (const order of [told, [...told].reverse()]) {
    expect(journalRows(order)[0]!.stands.id).toBe('c');
  }
});

test('an entry can be struck, and the striking struck', () => {
  const struck = entry('b', { kind: 'struck', corrects: 'a', body: { reason: 'pressed twice' } });
  expect(journalRows([entry('a'), struck])[0]!.struck?.id).toBe('b');
  const again = entry('c', { kind: 'struck', corrects: 'b', body: {} });
  expect(journalRows([entry('a'), struck, again])[0]!.struck).toBeUndefined();
});

test('a struck correction leaves what stood before it', () => {
  const [row] = journalRows([
    entry('a'),
    entry('b', { corrects: 'a', body: { temperature_C: 2 } }),
    entry('c', { corrects: 'a', body: { temperature_C: 3 } }),
    entry('d', { kind: 'struck', corrects: 'c', body: {} }),
  ]);
  expect(row!.stands.id).toBe('b');
  expect(row!.struck).toBeUndefined();
});

test('rows stand newest first by when it happened, the device’s clock allowed for', () => {
  const ahead = entry('a', { at: '2026-11-17T12:30:00.000Z', clock_ahead_ms: 3_600_000 });
  const rows = journalRows([ahead, entry('b', { at: '2026-11-17T11:45:00.000Z' })]);
  expect(rows.map((row) => row.first.id)).toEqual(['b', 'a']);
});

test('a puzzle stands at its entry', () => {
  const puzzle = { entry: 'a', why: 'No such run.', counts: false };
  const another = { entry: 'a', why: 'Jar 3 is empty.', counts: false };
  expect(journalRows([entry('a')], [puzzle, another])[0]!.puzzles).toEqual([puzzle, another]);
});

test('what this device upheld is not asked while it waits; other words are, and what counts for nothing', () => {
  const puzzle = { entry: 'a', why: '62 L of 52 L.', counts: true };
  const upheld = entry('b', { kind: 'upheld', body: { entry: 'a', asked: puzzle.why } });
  expect(unanswered([puzzle], [])).toEqual([puzzle]);
  expect(unanswered([puzzle], [upheld])).toEqual([]);
  const anew = { ...puzzle, why: '72 L of 52 L.' };
  const idle = { ...puzzle, counts: false };
  expect(unanswered([anew, idle], [upheld])).toEqual([anew, idle]);
});

test('of an answer its reason is corrected, and never what was asked', () => {
  const body = { entry: '0190a4b2-0000-7000-8000-000000000001', asked: '62 L.', reason: 'two' };
  expect(inWords(body)).toMatch(/^62\sL, two$/);
  expect(inWords(body, 'us')).toContain('gal, two');
  expect(editables(body, 'upheld').map(({ label }) => label)).toEqual(['reason']);
});

test('a body is told in words, with its units and without ids', () => {
  expect(inWords({ temperature_C: 66.1 })).toBe('temperature 66.1\u00a0°C');
  expect(
    inWords({
      run: '01a21294-04ff-71c7-b630-170887106ab3',
      spout: { reading: 73.2, scale: 'percent_vol' },
      spout_temperature_C: 20,
    }),
  ).toBe('spout 73.2\u00a0%vol, spout temperature 20\u00a0°C');
  expect(
    inWords({
      volume: { volume_L: 24.6, at_C: 56 },
      gravity: { reading: 1.0835, scale: 'specific_gravity', at_C: 20 },
    }),
  ).toBe('volume 24.6\u00a0L at 56\u00a0°C, gravity 1.0835 at 20\u00a0°C');
  expect(inWords({ recipe: 'name = "x"', kit: 'k' })).toBe('recipe and kit');
});

test('a lot that an entry takes from is told by the name that was given to it', () => {
  const made = entry('a', { kind: 'reduced', body: { name: 'Iland 46' } });
  const mended = entry('b', { kind: 'reduced', corrects: 'a', body: { name: 'Island 46' } });
  const names = namesGiven(journalRows([made, mended, entry('c')]));
  const from = (of: string) => inWords({ from: { entry: of, kind: 'spirit' } }, 'metric', names);
  expect(from('a')).toBe('spirit “Island 46”');
  expect(from('c')).toBe('spirit');
});

test('a key tells its name and unit', () => {
  expect(keyName('coolant_flow_L_per_min')).toEqual({
    name: 'coolant flow',
    unit: 'L/min',
    decimals: 1,
  });
  expect(keyName('bottles')).toEqual({ name: 'bottles', unit: '', decimals: 4 });
});

test('numbers and words can be corrected at any depth, ids and scales not', () => {
  const body = {
    run: '01a21294-04ff-71c7-b630-170887106ab3',
    spout: { reading: 37.2, scale: 'percent_vol' },
    note: 'typed in haste',
  };
  expect(editables(body).map((f) => f.label)).toEqual(['spout reading', 'note']);
  const mended = changed(body, ['spout', 'reading'], 73.2);
  expect(valueAt(mended, ['spout', 'reading'])).toBe(73.2);
  expect(body.spout.reading).toBe(37.2); // the first telling stays
});

test('a corrected value is held to what the house accepts', () => {
  const body = { jar: 3, spout: { reading: 73.2, scale: 'percent_vol' }, pot_temperature_C: 90 };
  const wrong = (path: string, text: string) =>
    wrongIn(
      body,
      editables(body).find((f) => f.path.join('.') === path)!,
      text,
    );
  expect(wrong('spout.reading', '72.1')).toBeUndefined();
  expect(wrong('spout.reading', '172')).toBe('“172” was given; accepted: 0–100 %vol.');
  expect(wrong('pot_temperature_C', '4000')).toContain('accepted: −20 to 120 °C');
  expect(wrong('jar', '2.5')).toContain('a whole number');
  expect(wrong('jar', 'two')).toContain('accepted: 1–999');
});

test('a correction is typed in the units that are set, and what is untouched stays', () => {
  const body = { run: 'r', head_temperature_C: 91.1, collected_mL: 8800 };
  const fields = editables(body, 'run read');
  const field = (key: string) => fields.find((f) => f.path[0] === key)!;
  expect(textOf(body, field('head_temperature_C'), 'us')).toBe('196');
  expect(typedIn('197 F', field('head_temperature_C'), 'metric')).toBeCloseTo(91.667, 3);
  expect(typedIn('197', field('head_temperature_C'), 'us')).toBeCloseTo(91.667, 3);
  expect(wrongIn(body, field('head_temperature_C'), '400', 'us')).toContain('−4 to 248 °F');
  expect(wrongIn(body, field('head_temperature_C'), 'warm', 'us')).toContain('°F');
});

test('as warm as a reading was is held to what the house can reckon with', () => {
  const gauged = {
    volume: { volume_L: 3, at_C: 20 },
    strength: { reading: 62, scale: 'percent_vol', at_C: 20 },
  };
  const wrong = (body: Record<string, unknown>, path: string, text: string, units: Units) =>
    wrongIn(
      body,
      editables(body).find((f) => f.path.join('.') === path)!,
      text,
      units,
    );
  // It was taken up to 120 °C, and the house asked for it again in the journal.
  expect(wrong(gauged, 'strength.at_C', '45', 'metric')).toContain('−20 to 40 °C');
  expect(wrong(gauged, 'strength.at_C', '113', 'us')).toContain('−4 to 104 °F');
  expect(wrong(gauged, 'strength.at_C', '104', 'us')).toBeUndefined();
  expect(wrong(gauged, 'volume.at_C', '45', 'metric')).toContain('−20 to 40 °C');
  const wort = {
    volume: { volume_L: 40, at_C: 65 },
    gravity: { reading: 1.06, scale: 'specific_gravity', at_C: 20 },
  };
  expect(wrong(wort, 'gravity.at_C', '61', 'metric')).toContain('0–60 °C');
  expect(wrong(wort, 'volume.at_C', '70', 'metric')).toBeUndefined();
  const read = { run: 'r', spout_temperature_C: 20 };
  expect(wrong(read, 'spout_temperature_C', '41', 'metric')).toContain('40 °C');
});

test('what an entry lacks can be added, and what it should not hold be taken out', () => {
  const body = { run: 'r', head_temperature_C: 91.1 };
  const fields = editables(body, 'run read');
  const spout = fields.find((f) => f.path[0] === 'spout_temperature_C')!;
  const head = fields.find((f) => f.path[0] === 'head_temperature_C')!;
  expect(textOf(body, spout, 'metric')).toBe('');
  expect(wrongIn(body, spout, '')).toBeUndefined();
  const told = changed(body, spout.path, typedIn('22', spout, 'metric'));
  expect(changed(told, head.path, typedIn('', head, 'metric'))).toEqual({
    run: 'r',
    spout_temperature_C: 22,
  });
});

test('a body is told in the units that are set, and what a person wrote as it was written', () => {
  const body = { volume_L: 36, temperature_C: 68.9, text: 'spilt 5 L' };
  expect(inWords(body, 'us')).toBe('volume 9.5\u00a0gal, temperature 156.0\u00a0°F, spilt 5 L');
  expect(inWords(body)).toBe('volume 36\u00a0L, temperature 68.9\u00a0°C, spilt 5 L');
});

test('what a machine keeps is left out, and one lot is one lot', () => {
  const photograph = { text: 'Photograph of the bottles.', attachments: ['a'.repeat(64)] };
  expect(inWords(photograph)).toBe('Photograph of the bottles.');
  const made = { name: 'Tern 7 at 55', lots: [{}], volume: { volume_L: 0.082, at_C: 20 } };
  expect(inWords(made)).toBe('Tern 7 at 55, 1 lot, volume 82\u00a0mL at 20\u00a0°C');
  const filled = { in: 'staves', species: 'american-oak', staves: 1 };
  expect(inWords(filled)).toBe('staves, species american oak, staves 1');
});

test('the fields of a correction have the words of the form that told it', () => {
  const volume = { volume_L: 52, at_C: 24 };
  const gravity = { reading: 1.0573, scale: 'specific_gravity', at_C: 20 };
  const labels = (body: Record<string, unknown>) => editables(body).map((f) => f.label);
  expect(labels({ volume })).toEqual(['volume', 'as warm as']);
  expect(labels({ gravity })).toEqual(['reading', 'as warm as']);
  expect(labels({ volume, gravity })).toEqual([
    'volume',
    'volume, as warm as',
    'reading',
    'gravity, as warm as',
  ]);
});

test('a step whose clock was started is begun', () => {
  expect(inWords({ step: 'Mill the grain', done: false })).toBe('Mill the grain, begun');
  expect(inWords({ step: 'Mill the grain', done: true })).toBe('Mill the grain, done');
});

test('yeast is held to its range in the wort of the pitch that is corrected', () => {
  const body = { volume: { volume_L: 52, at_C: 24 }, yeast: 'distillers-dry', mass_g: 26_000 };
  const mass = editables(body).find((f) => f.path[0] === 'mass_g')!;
  expect(wrongIn(body, mass, '26 kg')).toContain('to 520\u00a0g of yeast');
  expect(wrongIn(body, mass, '26')).toBeUndefined();
  const added = { what: 'acid', mass_g: 26_000 };
  expect(
    wrongIn(
      added,
      editables(added).find((f) => f.path[0] === 'mass_g')!,
      '26 kg',
    ),
  ).toBeUndefined();
});

test('a correction does not make nothing of what was there, and may of what can be empty', () => {
  const gravity = { reading: 1.05, scale: 'specific_gravity', at_C: 20 };
  const of = (body: Record<string, unknown>, ...path: string[]) =>
    wrongIn(
      body,
      editables(body).find((f) => f.path.join() === path.join())!,
      '0',
    );
  for (const [body, ...path] of [
    [{ charge: { volume_L: 26, at_C: 20 } }, 'charge', 'volume_L'],
    [{ clear: { volume_L: 38, at_C: 20 }, lees_L: 1 }, 'clear', 'volume_L'],
    [{ volume: { volume_L: 40, at_C: 25 }, gravity }, 'volume', 'volume_L'],
    [{ jar: 3, volume_mL: 500 }, 'volume_mL'],
    [{ bottles: 10, size_L: 0.7 }, 'size_L'],
  ] as [Record<string, unknown>, ...string[]][])
    expect(of(body, ...path)).toBe('“0” was given; accepted: a volume over nought.');
  expect(of({ clear: { volume_L: 38, at_C: 20 }, lees_L: 1 }, 'lees_L')).toBeUndefined();
  expect(of({ collected: { volume_L: 5, at_C: 20 } }, 'collected', 'volume_L')).toBeUndefined();
});

test('a power is corrected to what a still has, and its sentence names that', () => {
  const body = { run: 'r', power_W: 1500 };
  const power = editables(body, 'run read').find((f) => f.path[0] === 'power_W')!;
  expect(wrongIn(body, power, '1,5')).toMatch(/accepted: a power such as 1500.W or 1\.5.kW/);
  expect(wrongIn(body, power, '1,5 kW')).toBeUndefined();
  expect(wrongIn(body, power, '0')).toBeUndefined();
});
