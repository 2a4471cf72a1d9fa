import { expect, test } from 'vitest';
import { noRoomForGrain } from './grain_room';

const kit = {
  vessel: [
    { name: 'mash tub', total: '50 L' },
    { name: 'fermenter', total: '55 L' },
  ],
};
const recipe = (...lines: [string, string, string?][]) => ({
  mash_bill: lines.map(([ingredient, mass, use]) => ({ ingredient, mass, use })),
  mash: { vessel: 'mash tub', water: '28 L' },
});
const tables = { ingredients: [{ id: 'sugar', name: 'Sugar', kind: 'sugar' }] };

test('a bill ten times too large has no room for its grain, and its heaviest line is named', () => {
  const ten = recipe(['oats-flaked', '35 kg'], ['rye-malt', '40 kg'], ['barley-malt', '30 kg']);
  expect(noRoomForGrain(ten, kit, tables)).toMatchObject({
    line: 1,
    says: 'The grain weighs 105.0 kg: only just wetted through it fills about 179 L, and the mash tub holds 50 L to its brim.',
  });
  const one = recipe(['oats-flaked', '3.5 kg'], ['rye-malt', '4 kg'], ['barley-malt', '3 kg']);
  expect(noRoomForGrain(one, kit, tables)).toBeUndefined();
});

test('what does not go into the mash takes no room in it', () => {
  expect(noRoomForGrain(recipe(['rye-malt', '8 kg'], ['sugar', '90 kg']), kit, tables)).toBe(
    undefined,
  );
  expect(
    noRoomForGrain(recipe(['rye-malt', '8 kg'], ['honey', '90 kg', 'ferment']), kit, tables),
  ).toBe(undefined);
});

test('in other units too; and of what cannot be read nothing is told', () => {
  expect(noRoomForGrain(recipe(['rye-malt', '100 lb']), kit, tables)?.line).toBe(0);
  expect(noRoomForGrain(recipe(['rye-malt', '1O kg']), kit, tables)).toBeUndefined();
  expect(noRoomForGrain(recipe(['rye-malt', '99 kg']), {}, tables)).toBeUndefined();
  expect(noRoomForGrain({}, kit, undefined)).toBeUndefined();
});
