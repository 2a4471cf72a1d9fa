import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { added, at, edited, read, removed, stepsOf, type Value } from './toml_text';

const folder = '../examples';
const texts = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.toml'))
  .map((name) => ({ name, text: readFileSync(`${folder}/${name}`, 'utf8') }));
const recipe = texts.find((t) => t.name === 'tern-8/recipe.toml')!.text;

function leaves(tree: unknown, path = ''): { path: string; value: Value }[] {
  if (Array.isArray(tree)) return tree.flatMap((v, i) => leaves(v, `${path}[${i + 1}]`));
  if (typeof tree === 'object' && tree !== null && !(tree instanceof Date)) {
    return Object.entries(tree).flatMap(([k, v]) => leaves(v, path === '' ? k : `${path}.${k}`));
  }
  return ['string', 'number', 'boolean'].includes(typeof tree)
    ? [{ path, value: tree as Value }]
    : [];
}

const changedLines = (a: string, b: string) => {
  const [x, y] = [a.split('\n'), b.split('\n')];
  return x.length === y.length ? x.filter((line, i) => line !== y[i]).length : -1;
};

test('a path leads as the house’s faults write it', () => {
  expect(stepsOf('mash_bill[3].mass')).toEqual(['mash_bill', 2, 'mass']);
  expect(at(read(recipe), 'mash_bill[2].mass')).toBe('5.5 kg');
  expect(at(read(recipe), 'mash.sparge[2].water')).toBe('15 L');
  expect(at(read(recipe), 'mash_bill[10].mass')).toBeUndefined();
});

test('every value of every example can be changed, and only its line changes', () => {
  let tried = 0;
  for (const { text } of texts) {
    for (const { path, value } of leaves(read(text))) {
      const next =
        typeof value === 'string' ? `${value} "x"` : typeof value === 'number' ? value + 1 : !value;
      const made = edited(text, path, next);
      expect(at(read(made), path), path).toBe(next);
      if (!/= *[[{]/.test(text.split('\n').find((l, i) => l !== made.split('\n')[i]) ?? '')) {
        expect(changedLines(text, made), path).toBe(1);
      }
      tried += 1;
    }
  }
  expect(tried).toBeGreaterThan(200);
});

test('setting a value to what it is changes nothing, remarks behind it stay', () => {
  for (const { text } of texts) {
    for (const { path, value } of leaves(read(text))) {
      if (typeof value !== 'string') continue;
      expect(read(edited(text, path, value))).toEqual(read(text));
    }
  }
  const text = 'a = "1 L" # as measured\n';
  expect(edited(text, 'a', '2 L')).toBe('a = "2 L" # as measured\n');
  expect(edited('b = 3 # three\n', 'b', 4)).toBe('b = 4 # three\n');
});

test('a key that was not there is put into its table, a table that was not there is made', () => {
  const made = edited(recipe, 'mash.cook.backset', '4 L');
  expect(at(read(made), 'mash.cook.backset')).toBe('4 L');
  expect(made.split('\n').length).toBe(recipe.split('\n').length + 1);
  expect(at(read(edited('a = 1\n', 'x.y', true)), 'x.y')).toBe(true);
  expect(read(edited('', 'name', 'Tern 9'))).toEqual({ name: 'Tern 9' });
});

test('a value is taken out', () => {
  const made = edited(recipe, 'mash_bill[1].price', undefined);
  expect(at(read(made), 'mash_bill[1]')).not.toHaveProperty('price');
  expect(at(read(made), 'mash_bill[2].price')).toBe('1.40 / kg');
});

test('a grain is added behind the others and taken out again', () => {
  const more = added(recipe, 'mash_bill', { ingredient: 'oats', mass: '2 kg', use: 'cook' });
  expect(at(read(more), 'mash_bill[5]')).toEqual({ ingredient: 'oats', mass: '2 kg', use: 'cook' });
  expect(more).toContain('# Every figure, price and date here is invented.');
  expect(read(removed(more, 'mash_bill[5]'))).toEqual(read(recipe));
  const less = removed(recipe, 'mash_bill[2]');
  expect(at(read(less), 'mash_bill[2].ingredient')).toBe('rye-malt');
  expect(less).toContain('# Every figure');
});

test('the last one of an array can go, and the first one come', () => {
  const none = removed('a = 1\n\n[[jar]]\nsize = "1 L"\n', 'jar[1]');
  expect(read(none)).toEqual({ a: 1 });
  expect(read(added(none, 'jar', { size: '2 L' }))).toEqual({ a: 1, jar: [{ size: '2 L' }] });
});

test('where a line cannot be edited, the values are right all the same', () => {
  for (const text of [
    'a = """\nx = 1\n"""\nx = 2\n',
    'x = { y = 1 }\n',
    'x = [\n 1,\n 2]\n',
    '"x" = 1\n',
    'k.x = 1\n',
  ]) {
    expect(at(read(edited(text, 'x', 7)), 'x')).toBe(7);
    for (const { path, value } of leaves(read(text))) {
      if (path !== 'x' && !path.startsWith('x.') && !path.startsWith('x['))
        expect(at(read(edited(text, 'x', 7)), path)).toBe(value);
    }
  }
  expect(at(read(edited('x = { y = 1 }\n', 'x.y', 2)), 'x.y')).toBe(2);
});

test('text that is no TOML is told, not mended', () => {
  expect(() => edited('a = = 1', 'a', 2)).toThrow();
});
