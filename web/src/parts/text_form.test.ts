import { expect, test } from 'vitest';
import { read } from '../data/toml_text';
import {
  doubtIn,
  left,
  pathsOf,
  readText,
  setField,
  shownAt,
  valueOf,
  withoutTable,
  withTable,
} from './text_form';

test('a plain number becomes a quantity in the unit of the device', () => {
  const mass = { path: 'mass', label: 'Mass', unit: 'kg' };
  expect(valueOf('3', mass, 'metric')).toBe('3 kg');
  expect(valueOf('3,5', mass, 'both')).toBe('3.5 kg');
  expect(valueOf('10', mass, 'us')).toBe('10 lb');
  expect(valueOf('10 lb', mass, 'metric')).toBe('10 lb');
  expect(valueOf(' ', mass, 'metric')).toBeUndefined();
  expect(valueOf('158', { path: 't', label: 'T', unit: '°C' }, 'us')).toBe('158 °F');
});

test('flags and counts are written without quotes, words as they are', () => {
  expect(valueOf('true', { path: 's', label: 'S', kind: 'flag' }, 'metric')).toBe(true);
  expect(valueOf('4', { path: 'c', label: 'C', kind: 'number' }, 'metric')).toBe(4);
  expect(valueOf('for the time', { path: 'c', label: 'C', kind: 'number' }, 'metric')).toBe(
    'for the time',
  );
});

test('setting a field changes its line and keeps the remark beside it', () => {
  const text = '[mash]\nwater = "22 L" # hot\nvessel = "tub"\n';
  const field = { path: 'mash.water', label: 'Water', unit: 'L' };
  expect(setField(text, 'mash.water', field, '24', 'metric')).toBe(
    '[mash]\nwater = "24 L" # hot\nvessel = "tub"\n',
  );
  expect(shownAt(read(text), 'mash.water')).toBe('22 L');
  expect(shownAt(read(text), 'mash')).toBe('');
});

test('a needed field that is emptied keeps its line until it is left', () => {
  const text = 'mass = "4 kg" # ours\nsize = "1 L"\n';
  const mass = { path: 'mass', label: 'Mass', unit: 'kg' };
  const empty = setField(text, 'mass', mass, '', 'metric');
  expect(empty).toBe('mass = "" # ours\nsize = "1 L"\n');
  expect(setField(empty, 'mass', mass, '5', 'metric')).toBe('mass = "5 kg" # ours\nsize = "1 L"\n');
  expect(left(empty, ['mass', 'size'])).toBe('size = "1 L"\n');
  const size = { path: 'size', label: 'Size', unit: 'L', usual: '700 mL' };
  expect(read(setField(text, 'size', size, '', 'metric'))).toEqual({ mass: '4 kg' });
});

test('a table that was missing can be added, and left out again', () => {
  const text = 'name = "x"\n\n[bottle]\nstrength = "45 %vol"\n';
  const wooded = withTable(text, 'wood', { staves: 'for the time', time: '6 months' });
  expect(read(wooded)).toMatchObject({ wood: { staves: 'for the time', time: '6 months' } });
  expect(read(withoutTable(wooded, 'wood'))).toEqual(read(text));
});

test('a text that is no TOML is told with its line', () => {
  expect(readText('a = \n').fault).toMatch(/cannot be read at line 1, column \d+/);
  expect(readText('a = 1\n')).toEqual({ tree: { a: 1 } });
});

test('the fields of a form tell which faults they can show', () => {
  const sections = [
    { title: 'Mash', fields: [{ path: 'mash.water', label: 'Water' }] },
    {
      title: 'Vessels',
      list: { path: 'vessel', one: 'vessel', fresh: {} },
      fields: [{ path: 'total', label: 'Holds' }],
    },
  ];
  const tree = { vessel: [{ name: 'a' }, { name: 'b' }] };
  expect(pathsOf(sections, tree, 'kit.')).toEqual([
    'kit.mash.water',
    'kit.vessel[1].total',
    'kit.vessel[2].total',
  ]);
});

test('degrees are shown by their sign, in names too only where they are degrees', () => {
  const tree = read(
    'rest = "65.5 degC"\nhot = "150 degF"\nmelts = "20 °C"\nname = "degC pot"\nvolts = 4',
  );
  expect(shownAt(tree, 'rest')).toBe('65.5 °C');
  expect(shownAt(tree, 'hot')).toBe('150 °F');
  expect(shownAt(tree, 'melts')).toBe('20 °C');
  expect(shownAt(tree, 'name')).toBe('degC pot');
  expect(shownAt(tree, 'volts')).toBe('4');
});

test('a figure is spelt as other fields take it, and written as the house reads it', () => {
  const mass = { path: 'mass', label: 'Mass', unit: 'kg' };
  const rest = { path: 'rest', label: 'Rest', unit: '°C' };
  const plain = { path: 'pitch', label: 'Pitched', usual: '0.5 g/L' }; // no unit of its own
  expect(valueOf('6,7 kg', mass, 'metric')).toBe('6.7 kg');
  expect(valueOf('6.70 kg', mass, 'metric')).toBe('6.70 kg'); // as it was typed
  expect(valueOf('0,25kg', mass, 'us')).toBe('0.25 kg');
  expect(valueOf('10\u202f000,5 KG', mass, 'metric')).toBe('10000.5 kg');
  expect(valueOf('12 Lbs.', mass, 'metric')).toBe('12 lb');
  expect(valueOf('12 lbs', mass, 'metric')).toBe('12 lbs');
  expect(valueOf('5 Gallons', { ...mass, unit: 'L' }, 'metric')).toBe('5 gal');
  expect(valueOf('\u22122,5 c', rest, 'metric')).toBe('\u22122.5 °C');
  expect(valueOf('5 lb 4,5 oz', mass, 'metric')).toBe('5 lb 4.5 oz');
  expect(valueOf('0,5 g/L', plain, 'metric')).toBe('0.5 g/L');
  expect(valueOf('1,5 L @ 32,5 %vol', plain, 'metric')).toBe('1.5 L @ 32.5 %vol');
  expect(valueOf('6,7', { path: 'x', label: 'X', kind: 'number' }, 'metric')).toBe(6.7);
});

test('a comma that may part thousands is asked about in a number, and stays in words', () => {
  const mass = { path: 'mass', label: 'Mass', unit: 'kg' };
  const name = { path: 'name', label: 'Name', kind: 'words' } as const;
  expect(valueOf('1,234 kg', mass, 'metric')).toBe('1,234 kg');
  expect(valueOf('1,234', mass, 'metric')).toBe('1,234');
  expect(doubtIn('1,234 kg', mass)).toMatch(/can be read in two ways: write 1234 or 1\.234/);
  expect(doubtIn('6,7 kg', mass)).toBeUndefined();
  expect(valueOf('5,5 L pot', name, 'metric')).toBe('5,5 L pot');
  expect(doubtIn('1,234 pots', name)).toBeUndefined();
});
