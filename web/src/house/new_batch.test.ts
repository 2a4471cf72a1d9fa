import { expect, test } from 'vitest';
import { at, read } from '../data/toml_text';
import {
  begin,
  draft,
  fillWords,
  MAIN_GRAINS,
  named,
  nextName,
  plainKit,
  readRecipe,
  vesselsOf,
} from './new_batch';

test('a batch begins with two entries under one new id', () => {
  const { batch, entries } = begin(
    { name: ' Tern 9 ', remark: 'Rye', invented: true, recipe: 'name = "x"\n', kit: 'k' },
    () => 'id',
  );
  expect(batch).toBe('id');
  expect(entries).toEqual([
    {
      batch: 'id',
      stage: 'mash bill',
      kind: 'batch begun',
      body: { name: 'Tern 9', remark: 'Rye', invented: true },
    },
    {
      batch: 'id',
      stage: 'mash bill',
      kind: 'batch planned',
      body: { recipe: 'name = "Tern 9"\n', kit: 'k' },
    },
  ]);
});

test('a recipe gets the name of its batch and keeps the rest, letter for letter', () => {
  expect(named('# ours\nname = "x" # old\n\n[mash]\n', 'A "b" $& c')).toBe(
    '# ours\nname = "A \\"b\\" $& c"\n\n[mash]\n',
  );
  expect(named('[mash]\n', 'Tern')).toBe('name = "Tern"\n[mash]\n');
});

test('the name that is offered counts the house’s own batches on', () => {
  const own = (...names: string[]) => names.map((name) => ({ name, invented: false }));
  const invented = { name: 'Tern 8', invented: true };
  expect(nextName([])).toBe('Batch 1');
  expect(nextName([invented, ...own('The first')])).toBe('Batch 1');
  expect(nextName(own('Rye 11', 'Skerry 2', 'Skerry 9', 'Skerry 4'))).toBe('Skerry 10');
  expect(nextName([...own('Tern 7'), invented])).toBe('Tern 9'); // no two of one name
  expect(nextName(own('2026'))).toBe('Batch 1');
});

test('a recipe file tells its name, or in a sentence what is wrong with it', () => {
  expect(readRecipe('name = "Tern 7"\nremark = "Oats"\n[[mash_bill]]\n')).toEqual({
    name: 'Tern 7',
    remark: 'Oats',
  });
  expect(readRecipe('name = "A shed"\n').fault).toContain('no [[mash_bill]]');
  expect(readRecipe('name = \n').fault).toMatch(/no TOML at line 1, column \d+; accepted/);
});

test('a draft names vessels of its kit and fills the fermenter to the litres asked for', () => {
  for (const { value } of MAIN_GRAINS) {
    const vessels = vesselsOf(plainKit(40))!;
    expect(vessels).toEqual({
      ferment: 'fermenter',
      mash: 'mash tub',
      wash_L: 46.8,
      brim_L: 52,
      by: 'safe fill',
    });
    const recipe = read(draft('Tern 9', 40, value, vessels));
    expect(at(recipe, 'ferment.fill_to')).toBe('40 L');
    expect(at(recipe, 'mash.vessel')).toBe('mash tub');
    expect(at(recipe, 'mash_bill[1].ingredient')).toBe(value);
    const bill = recipe['mash_bill'] as { mass: string }[];
    const mass = bill.reduce((sum, line) => sum + Number.parseFloat(line.mass), 0);
    expect(mass).toBeCloseTo(9.2, 1); // 0.23 kg to a litre
  }
});

test('a batch fills the fermenter as full as its kit says it may safely be', () => {
  const words = (vessel: string) => {
    const of = vesselsOf(`[[vessel]]\nname = "tub"\n${vessel}`)!;
    return fillWords(of, 'metric').replaceAll('\u00a0', ' ');
  };
  expect(words('total = "60 L"')).toBe(
    '54.0 L, the safe fill of “tub” (60.0 L to the brim, a tenth of it left for foam)',
  );
  expect(words('total = "60 L"\nworking = "48 L"')).toBe(
    '48.0 L, the safe fill of “tub” (60.0 L to the brim)',
  );
  expect(words('total = "60 L"\nworking = "58 L"')).toBe(
    '54.0 L, nine tenths of “tub” (60.0 L to the brim): its safe fill is more, but a tenth is left for foam',
  );
  // The grain of a full fermenter needs its tub: 50 L of wash are 11.5 kg in 34.5 L of water.
  const small = vesselsOf(
    '[[vessel]]\nname = "a"\ntotal = "60 L"\n[[vessel]]\nname = "b"\ntotal = "30 L"',
  )!;
  expect(small.wash_L).toBe(31.4);
  expect(fillWords(small, 'metric').replaceAll('\u00a0', ' ')).toBe(
    '31.4 L: for more the mash would not fit into “b” (30.0 L to the brim)',
  );
  // In other units than litres: 20 gal was taken for 20 L.
  expect(vesselsOf('[[vessel]]\nname = "tub"\ntotal = "20 gal"')!.wash_L).toBe(68.1);
  expect(vesselsOf('[[vessel]]\nname = "tub"\n')!.wash_L).toBe(0);
});

test('no draft mashes in what the maker calls the fermenter while there is another vessel', () => {
  const named = (...names: string[]) => {
    const of = names.map((name, i) => `[[vessel]]\nname = "${name}"\ntotal = "${60 - 10 * i} L"\n`);
    const { mash, ferment } = vesselsOf(of.join(''))!;
    return { mash, ferment };
  };
  // The largest was taken for the ferment, whatever it was called.
  expect(named('mash tun', 'fermenter')).toEqual({ mash: 'mash tun', ferment: 'fermenter' });
  expect(named('boiling pot', 'Fermenter 1')).toEqual({
    mash: 'boiling pot',
    ferment: 'Fermenter 1',
  });
  expect(named('fermenter', 'second fermenter', 'pot')).toEqual({
    mash: 'pot',
    ferment: 'fermenter',
  });
  expect(named('mash tub', 'barrel')).toEqual({ mash: 'mash tub', ferment: 'barrel' });
  expect(named('fermenter')).toEqual({ mash: 'fermenter', ferment: 'fermenter' });
});

test('a draft is written in the units of who asks for it, and fills no more', () => {
  const vessels = { mash: 'tub', ferment: 'tub' };
  const us = read(draft('Tern 9', 54, 'rye-malt', vessels, 'us'));
  expect(at(us, 'ferment.fill_to')).toBe('14.26 gal');
  expect(at(us, 'mash.rest_temperature')).toBe('148.1 °F');
  expect(at(us, 'mash_bill[1].mass')).toBe('17.8 lb');
  const both = read(draft('Tern 9', 54, 'rye-malt', vessels, 'both'));
  expect(at(both, 'ferment.fill_to')).toBe('54 L');
  const kit = plainKit(40, 'us');
  expect(kit).toContain('ambient = "64.4 °F"');
  expect(vesselsOf(kit)!.wash_L).toBe(46.8);
});

test('without vessels there is nothing to name', () => {
  expect(vesselsOf('name = "A shed"\n')).toBeUndefined();
});
