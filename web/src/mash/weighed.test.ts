import { expect, test } from 'vitest';
import { ternPlan } from '../mash_bill/plan_of_tern_8';
import { neededFor, type Names } from './weighed';

const listed = (what: string | undefined, yeasts: Names = []) =>
  neededFor(ternPlan, what, yeasts).map(
    (n) => `${n.value.toFixed(n.decimals)} ${n.unit} ${n.what}${n.when ? `, ${n.when}` : ''}`,
  );

test('the first step lists all that is weighed out, a later one what it takes', () => {
  const all = listed('Mill the grain, weigh out, set out the kit');
  expect(all).toContain('8.00 kg Maize, cracked, to cook');
  expect(all).toContain("5.50 kg Barley malt, distiller's, stirred in");
  expect(all).toContain('5.50 kg Sugar (sucrose), to boil');
  expect(all).toContain('18.0 L Water for sparge 1');
  expect(all).toContain('31.9 L Cold water to top up');
  expect(all.at(-1)).toMatch(/^55 g Yeast/);
  expect(listed('Heat 36.0 L of water with the grain to cook, stirring')).toEqual([
    '8.00 kg Maize, cracked',
  ]);
  const malts = listed('Stir in the malts at 68.8 °C; it settles at 65.5 °C');
  expect(malts).toHaveLength(2);
  expect(malts[0]).toMatch(/^5\.50 kg Barley malt/);
  expect(listed('Dissolve the sugar in 8.0 L and boil it')).toEqual(['5.50 kg Sugar (sucrose)']);
  expect(listed('Rest; it drifts to 62.1 °C')).toEqual([]);
  expect(listed(undefined)[0]).toMatch(/^55 g Yeast/);
});

test('the yeast has the name that the house tells, never its id', () => {
  const named = [{ id: 'distillers-dry', name: 'Dry distilling yeast' }];
  expect(listed(undefined, named)).toEqual(['55 g Dry distilling yeast']);
  expect(listed(undefined)).toEqual(['55 g Yeast']); // the names are not here yet
});
