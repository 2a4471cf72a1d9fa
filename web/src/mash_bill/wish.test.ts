import { expect, test } from 'vitest';
import { read } from '../data/toml_text';
import { placeInWords, planSentence, wishFault } from './spoken';
import { askedOf, byAtFirst, changeRows, question, weighed, withChanges, type Wish } from './wish';

const recipe =
  'name = "Tern 9"\n\n[[mash_bill]]\ningredient = "maize-cracked"\nmass = "8 kg" # ours\nprice = "1 / kg"\n\n[mash]\nvessel = "tub"\n\n[mash.cook]\nwater = "36 L"\n';
const wish: Wish = {
  want: 'spirit',
  volume: '5',
  strength: '110 proof',
  gravity: '1.062',
  by: '',
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

test('a proposal is rounded to what is weighed and measured; what was worked out is told beside it', () => {
  const solved = [
    { path: 'mash_bill[1].mass', value: '21.5147 kg' },
    { path: 'mash.water', value: '64.751 L' },
    { path: 'spirit_run.feints', value: '2.213 L @ 32.125 %vol' },
    { path: 'spirit_run.heads_end', value: '812.4 mL' },
    { path: 'mash.cook.boil_off', value: '1.234 L/h' },
    { path: 'mash_bill[2].mass', value: '0.0254 kg' },
    { path: 'mash_bill[3].mass', value: '0.4567 kg' },
    { path: 'strip.charges' },
  ];
  expect(weighed(solved, 'spirit').map((c) => c.value)).toEqual([
    '21.51 kg',
    '64.8 L',
    '2.2 L @ 32.125 %vol',
    '812 mL',
    '1.234 L/h', // a rate is not measured out
    '0.0254 kg', // 10 g of it would be another amount
    '0.457 kg',
    undefined,
  ]);
  // The largest batch that the kit takes has to fit when it is rounded.
  expect(weighed(solved, 'kit')[1]!.value).toBe('64.7 L');
  const rows = changeRows(weighed(solved, 'spirit'), read(recipe), [], (id) => id, solved);
  expect(rows[0]).toMatchObject({ after: '21.51 kg', solved: '21.5147 kg' });
  expect(rows[4]!.solved).toBeUndefined();
});

test('a gravity is reached by what was chosen, else as the recipe says or its bill allows', () => {
  const tree = read(recipe);
  expect(byAtFirst(tree, ['sugar'])).toBe('water'); // no sugar is there to change
  expect(byAtFirst(tree, ['maize-cracked'])).toBe('sugar');
  const told = askedOf(recipe, { ...wish, want: 'gravity' }, 'sugar');
  expect(byAtFirst(read(told), [])).toBe('sugar');
  expect(askedOf(recipe, wish, 'water')).toBe(recipe);
  const boiled = read(recipe.replace('mass =', 'use = "boil"\nmass ='));
  expect(byAtFirst(boiled, [])).toBe('sugar');
});

test('faults are told in the words of the page, without keys of the texts', () => {
  const suits = 'an ingredient that the rest of the recipe suits; with this one';
  const of = (field: string, accepted: string) =>
    wishFault({ field, value: 'this one', accepted }, 'Oats, flaked').sentence;
  expect(
    of(
      'ingredient',
      `${suits} mash_bill would have to be a bill that converts; the bill has no enzymes. Add malt`,
    ),
  ).toBe('With Oats, flaked the bill would not convert: the bill has no enzymes. Add malt.');
  expect(of('ingredient', `${suits} mash.sparge[2].water would have to be at most 4 L`)).toBe(
    'With Oats, flaked the recipe would not hold. Mash, sparge 2, water would have to be at most 4 L.',
  );
  expect(
    of('gravity', 'a recipe with a sugar to change, or one whose gravity is set by water'),
  ).toBe('The bill has no sugar to change. Put a sugar into it, or reach it by water.');
  expect(of('volume', 'at most 6 L')).toBeUndefined();
  expect(placeInWords('mash_bill')).toBe('The bill');
  expect(placeInWords('mash_bill[2].diastatic_power')).toBe('Line 2, diastatic power');
  expect(
    planSentence({
      field: 'mash_bill',
      value: 'x',
      accepted: 'a bill that converts; no malt. Add',
    }),
  ).toBe('No malt. Add.');
});

test('figures of a wish are spelt as in the other forms', () => {
  expect(question({ ...wish, volume: '5,5 gal', strength: '54,5' }, 'metric')).toEqual({
    want: 'spirit',
    volume: '5.5 gal',
    strength: '54.5 %vol',
  });
  const gravity = (text: string) => question({ ...wish, want: 'gravity', gravity: text }, 'metric');
  expect(gravity(' 1,062 ')).toEqual({ want: 'gravity', gravity: '1.062' });
  expect(gravity('14,2 °P')).toEqual({ want: 'gravity', gravity: '14.2 °P' });
});
