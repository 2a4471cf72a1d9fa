import { beforeEach, expect, test } from 'vitest';
import { set } from './settings.svelte';
import {
  ACCEPTED,
  absurdIn,
  absurdSentence,
  brimOf,
  faultOf,
  gravityRead,
  overBrim,
  pitchFault,
  quoted,
  strengthRead,
  tooLong,
  volumeRead,
  volumeTyped,
  wattsTyped,
} from './measured';

beforeEach(() => set({ units: 'metric' }));

test('what a field accepts has its limits in the unit that the field shows', () => {
  const plain = (text: string) => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');
  expect(plain(ACCEPTED.spiritAt)).toMatch(/from −20 to 40 °C$/);
  expect(plain(ACCEPTED.volume)).toMatch(/up to 10 000 L$/);
  set({ units: 'us' });
  expect(plain(ACCEPTED.spiritAt)).toMatch(/from −4 to 104 °F$/);
  expect(plain(ACCEPTED.temperature)).toMatch(/from −4 to 248 °F$/);
  expect(plain(ACCEPTED.wortAt)).toMatch(/from 32 to 140 °F$/);
  expect(plain(ACCEPTED.volume)).toMatch(/up to 2641.7 gal$/);
  expect(volumeTyped('2641.7', 'us')).toBeDefined(); // what is named is accepted
  expect(plain(ACCEPTED.mass)).toMatch(/up to 22 046 lb$/);
  set({ units: 'both' });
  expect(plain(ACCEPTED.spiritAt)).toMatch(/from −20 to 40 °C \(−4 to 104 °F\)$/);
  expect(plain(ACCEPTED.volume)).toMatch(/up to 10 000 L \(2641.7 gal\)$/);
});

test('a figure is read with its unit, and not beyond what can be meant', () => {
  expect(volumeRead('3,9 L', '20', 'metric')).toEqual({ volume_L: 3.9, at_C: 20 });
  expect(volumeTyped('400', 'metric', 'mL')).toBe(0.4);
  for (const text of ['10 lb', '-5', '99999', 'NaN', '1e999', '9'.repeat(400), ''])
    expect(volumeRead(text, '20', 'metric')).toBeUndefined();
  for (const at of ['10 lb', '4000', '-300', ''])
    expect(volumeRead('3.9', at, 'metric')).toBeUndefined();
  expect(wattsTyped('2.2 kW')).toBe(2200);
  expect(wattsTyped('-5')).toBeUndefined();
});

test('kilowatts typed as watts are no still’s power; none at all is', () => {
  for (const text of ['1,5', '1.5', '1.5 W', '49', '0.03 kW', '100001'])
    expect(wattsTyped(text), text).toBeUndefined();
  for (const [text, watts] of [
    ['1.5 kW', 1500],
    ['1500 W', 1500],
    ['50', 50],
    ['0', 0],
    ['100000', 100_000],
  ] as const)
    expect(wattsTyped(text), text).toBe(watts);
});

test('a spirit is gauged on its scale and no warmer than the formula reaches', () => {
  expect(strengthRead('136.4 proof', '68 F', 'metric')).toEqual({
    reading: 136.4,
    scale: 'proof',
    at_C: 20,
  });
  expect(strengthRead('101', '20', 'metric')).toBeUndefined();
  expect(strengthRead('60', '78', 'metric')).toBeUndefined();
  expect(gravityRead('1.062', 'specific_gravity', '20', 'metric')?.reading).toBe(1.062);
  expect(gravityRead('14.2', 'specific_gravity', '20', 'metric')).toBeUndefined();
  expect(gravityRead('14.2', 'brix', '20', 'metric')?.scale).toBe('brix');
});

test('the sentence names what was typed, shortened when it is long', () => {
  expect(faultOf('  ', undefined, 'a volume')).toBe('Nothing was given; accepted: a volume.');
  expect(faultOf('', undefined, 'a volume', false)).toBeUndefined();
  expect(faultOf('warm', undefined, 'a volume', false)).toContain('“warm” was given');
  expect(quoted('9'.repeat(400))).toBe(`“${'9'.repeat(40)}…”`);
  expect(tooLong('né', 3)).toBeUndefined(); // the house counts bytes
  expect(tooLong('née', 3)).toContain('accepted: up to 3');
});

test('more than the vessel of the plan holds is asked about, ten times as much is refused', () => {
  const kit = { vessels: [{ name: 'mash tub', total_L: 84 }] };
  expect(brimOf(kit, 'pot')).toBeUndefined();
  const tub = brimOf(kit, 'mash tub')!;
  expect(overBrim(84, tub)).toBeUndefined();
  expect(overBrim(90, tub)?.says).toBe(
    '90.0\u00a0L is more than the mash tub of the plan holds: 84.0\u00a0L to its brim.',
  );
  expect(absurdIn(90, tub)).toBe(false);
  expect(absurdIn(9999, tub)).toBe(true);
  expect(overBrim(9999, tub)).toBeUndefined(); // it is refused instead
  expect(absurdSentence('9999', tub, 'metric')).toContain('accepted: up to 840\u00a0L, ten times');
  expect(overBrim(9999, undefined)).toBeUndefined();
});

test('yeast is held to the range that a forecast is made for, in the wort that was typed', () => {
  const fault = (text: string, g: number | undefined, L: number | undefined) =>
    pitchFault(text, g, L, 'metric');
  expect(fault('26', 26, 52)).toBeUndefined();
  expect(fault('520', 520, 52)).toBeUndefined();
  expect(fault('1.1', 1.1, 52)).toBeUndefined();
  expect(fault('26 kg', 26_000, 52)).toBe(
    '“26 kg” was given; accepted: 1.1\u00a0g to 520\u00a0g of yeast in 52.0\u00a0L of wort, which is 0.02\u00a0g/L to 10\u00a0g/L.',
  );
  expect(fault('1', 1, 52)).toContain('accepted: 1.1');
  expect(fault('26 kg', 26_000, undefined)).toBeUndefined(); // the volume is asked for first
  expect(fault('many', undefined, 52)).toContain('accepted: a mass');
  expect(pitchFault('60 lb', 27_216, 52, 'us')).toContain('oz of yeast in 13.74\u00a0gal of wort');
});

test('a comma before three digits is asked about at every measured figure, but of a gravity is plain', () => {
  for (const [text, unit] of [
    ['1,200', 'mL'],
    ['1,200 gal', 'L'],
  ] as const) {
    const volume = volumeTyped(text, 'metric', unit);
    expect(volume).toBeUndefined();
    expect(faultOf(text, volume, 'a volume')).toMatch(
      /can be read in two ways: write 1200 or 1\.2/,
    );
  }
  expect(wattsTyped('1,440 W')).toBeUndefined();
  expect(strengthRead('1,200', '20', 'metric')).toBeUndefined();
  expect(gravityRead('1,062', 'specific_gravity', '20', 'metric')?.reading).toBe(1.062);
});
