import { expect, test } from 'vitest';
import { read } from '../data/toml_text';
import { changeRows, question, withChanges, type Wish } from './wish';

const recipe =
  'name = "Tern 9"\n\n[[mash_bill]]\ningredient = "maize-cracked"\nmass = "8 kg" # ours\nprice = "1 / kg"\n\n[mash]\nvessel = "tub"\n\n[mash.cook]\nwater = "36 L"\n';
const wish: Wish = {
  want: 'spirit',
  volume: '5',
  strength: '110 proof',
  gravity: '1.062',
  line: '2',
  ingredient: 'rye-malt',
};

test('only what belongs to the wish is asked, a plain number in the unit of the device', () => {
  expect(question(wish, 'us')).toEqual({ want: 'spirit', volume: '5 gal', strength: '110 proof' });
  expect(question({ ...wish, want: 'replace' }, 'metric')).toEqual({
    want: 'replace',
    line: 2,
    ingredient: 'rye-malt',
  });
});

test('changes are written at their lines; remarks stay, a table that goes is taken out', () => {
  const made = withChanges(recipe, [
    { path: 'mash_bill[1].mass', value: '7.5 kg' },
    { path: 'mash_bill[1].price' },
    { path: 'mash.water', value: '36 L' },
    { path: 'mash.cook' },
    { path: 'strip.charges' },
  ]);
  expect(made).toContain('mass = "7.5 kg" # ours');
  expect(read(made)).toEqual({
    name: 'Tern 9',
    mash_bill: [{ ingredient: 'maize-cracked', mass: '7.5 kg' }],
    mash: { vessel: 'tub', water: '36 L' },
  });
});

test('changes are told in the words of the form', () => {
  const rows = changeRows(
    [
      { path: 'mash_bill[1].ingredient', value: 'rye-malt' },
      { path: 'mash.cook.water', value: '30 L' },
      { path: 'mash.sparge[2].water', value: '6 L' },
      { path: 'mash.cook' },
    ],
    read(recipe),
    [
      {
        title: 'Cook',
        table: { path: 'mash.cook', name: 'a cook', fresh: {} },
        fields: [{ path: 'mash.cook.water', label: 'Cold water' }],
      },
      {
        title: 'Sparges',
        list: { path: 'mash.sparge', one: 'sparge', fresh: {} },
        fields: [{ path: 'water', label: 'Water' }],
      },
    ],
    (id) => id.toUpperCase(),
  );
  expect(rows).toEqual([
    { what: 'MAIZE-CRACKED: ingredient', before: 'MAIZE-CRACKED', after: 'RYE-MALT' },
    { what: 'Cook: cold water', before: '36 L', after: '30 L' },
    { what: 'Sparge 2: water', before: '–', after: '6 L' },
    { what: 'Cook', before: 'as written', after: 'left out' },
  ]);
});
