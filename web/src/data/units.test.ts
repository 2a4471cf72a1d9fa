import { expect, test } from 'vitest';
import {
  alsoInProof,
  alsoInUs,
  asTyped,
  glassInProof,
  inField,
  inUs,
  jarsIn,
  ofJars,
  quantities,
  quantity,
  typedAs,
  unitOfField,
  unitWritten,
  restated,
  strengthInField,
} from './units';

test('US figures agree with the definitions of the units', () => {
  expect(inUs(100, '°C', 0)!.value).toBeCloseTo(212, 12);
  expect(inUs(3.785411784, 'L', 1)!.value).toBeCloseTo(1, 12); // 231 in³, NIST SP 811
  expect(inUs(0.45359237, 'kg', 1)!.value).toBeCloseTo(1, 12);
  expect(inUs(473.176473, 'mL', 0)!.value).toBeCloseTo(16, 9); // a US pint
});

test('a difference of temperatures has no offset', () => {
  expect(inUs(10, 'K', 0)!.value).toBeCloseTo(18, 12);
});

test('a spirit is told in proof with its %vol, a wash in %vol alone', () => {
  expect(quantity(55, '%vol', 1, 'metric')).toBe('55.0\u00a0%vol');
  expect(quantity(55, '%vol', 1, 'both')).toBe('55.0\u00a0%vol (109.9\u00a0proof)');
  expect(quantity(55, '%vol', 1, 'us')).toBe('109.9\u00a0proof (55.0\u00a0%vol)');
  expect(quantity(8.1, '%vol', 1, 'us')).toBe('8.1\u00a0%vol');
  // Of tails, known to be a spirit; of a glass, known to be none.
  expect(quantity(14.4, '%vol', 1, 'us', true)).toBe('28.7\u00a0proof (14.4\u00a0%vol)');
  expect(quantity(55, '%vol', 1, 'us', false)).toBe('55.0\u00a0%vol');
});

test('figures held against each other look different where they differ, and have no digits for nothing', () => {
  const plain = (...values: number[]) =>
    quantities(values, 'L', 1, 'metric').map((text) => text.replaceAll('\u00a0', ' '));
  expect(plain(5.1, 6)).toEqual(['5.1 L', '6.0 L']);
  expect(plain(5.98, 6)).toEqual(['5.98 L', '6.00 L']);
  expect(plain(5.996, 6)).toEqual(['5.996 L', '6.000 L']);
  expect(plain(6, 6)).toEqual(['6.0 L', '6.0 L']);
  expect(plain(6, 6 + 1e-6)).toEqual(['6.0 L', '6.0 L']);
});

test('a strength in a sentence is told so too, but no reading and no tolerance', () => {
  const says = (text: string) => restated(text, 'us').replaceAll('\u00a0', ' ');
  expect(says('Reduce with 2.00 kg of water to 46.0 %vol, in steps')).toBe(
    'Reduce with 4.41 lb of water to 91.9 proof (46.0 %vol), in steps',
  );
  // It was "110" here, and "109.9" where the same figure stood by itself.
  expect(says('matured at 55 %vol')).toBe('matured at 109.9 proof (55 %vol)');
  expect(says('hearts of 60 to 70 %vol')).toBe('hearts of 120 to 140 proof (60 to 70 %vol)');
  expect(restated('it is 55.0 %vol', 'both')).toBe('it is 55.0\u00a0%vol (109.9\u00a0proof)');
  for (const as of [
    'an alcoholmeter to 0.3 %vol, one standard deviation',
    '109.9 proof (55.0 %vol)',
    'does not fit (expected 71.6–72.8 %vol)',
    '29.39 ± 0.52 %vol',
    'a wash of 8.2 %vol',
  ])
    expect(says(as)).toBe(as);
  expect(restated('62.4 %vol', 'us', false)).toBe('62.4\u00a0%vol');
});

test('powers are not converted', () => {
  expect(quantity(3.5, 'kW', 1, 'both')).toBe('3.5\u00a0kW');
});

test('both puts the US figure in brackets', () => {
  expect(quantity(26, 'L', 1, 'both')).toBe('26.0\u00a0L (6.87\u00a0gal)');
  expect(quantity(68.9, '°C', 1, 'us')).toBe('156.0\u00a0°F');
});

test('a typed unit wins over the field’s own', () => {
  expect(typedAs('1 gal', 'L', 'metric')).toBeCloseTo(3.785411784, 12);
  expect(typedAs('10 lb', 'kg', 'metric')).toBeCloseTo(4.5359237, 12);
  expect(typedAs('158 F', '°C', 'both')).toBeCloseTo(70, 12);
  expect(typedAs('500 mL', 'L', 'us')).toBe(0.5);
  expect(typedAs('70 °C', '°C', 'us')).toBe(70);
});

test('a plain number means the unit that the field shows', () => {
  expect(typedAs('3,9', 'L', 'metric')).toBe(3.9);
  expect(unitOfField('L', 'us')).toBe('gal');
  expect(typedAs('1', 'L', 'us')).toBeCloseTo(3.785411784, 12);
  expect(typedAs('32', '°C', 'us')).toBeCloseTo(0, 12);
  expect(typedAs('62', '%vol', 'us')).toBe(62);
});

test('a field of a volume or of a mass takes every measure of its kind', () => {
  for (const unit of ['L', 'mL'] as const) {
    const litres = (text: string) => typedAs(text, unit, 'us')! / (unit === 'L' ? 1 : 1000);
    expect(litres('1 qt')).toBeCloseTo(0.946352946, 9);
    expect(litres('2 pints')).toBeCloseTo(0.946352946, 9);
    expect(litres('4 cups')).toBeCloseTo(0.946352946, 9);
    expect(litres('32 fl. oz.')).toBeCloseTo(0.946352946, 9);
    expect(litres('0.25 gallon')).toBeCloseTo(0.946352946, 9);
    expect(litres('40 litres')).toBeCloseTo(40, 9);
    expect(litres('0.4 hl')).toBeCloseTo(40, 9);
    expect(litres('70 cL')).toBeCloseTo(0.7, 9);
    expect(litres('1 imp. gal')).toBeCloseTo(4.54609, 9); // NIST SP 811 (2008), appendix B.8
    expect(litres('1 US gal')).toBeCloseTo(3.785411784, 9);
    expect(typedAs('3 oz', unit, 'us')).toBeUndefined(); // of a mass
  }
  expect(typedAs('16 oz', 'kg', 'metric')).toBeCloseTo(0.45359237, 9);
  expect(typedAs('1 lb', 'g', 'metric')).toBeCloseTo(453.59237, 6);
});

test('another kind of unit, or no number, is nothing', () => {
  for (const text of ['', 'L', '3 kg', 'four L', '1.2.3', '3 4x']) {
    expect(typedAs(text, 'L', 'metric')).toBeUndefined();
  }
});

test('a range below nought keeps its sign where it is said again', () => {
  expect(restated('from -20 to 40 °C', 'us')).toBe('from \u22124 to 104\u00a0°F');
  expect(restated('20\u201340 L', 'us')).toBe('5.3\u201310.6\u00a0gal');
});

test('a sentence of the house is said again in US units, or in both', () => {
  expect(restated('Heat 36.0 L to 68.9 °C, 55 g of yeast', 'metric')).toBe(
    'Heat 36.0\u00a0L to 68.9\u00a0°C, 55\u00a0g of yeast',
  );
  expect(restated('Heat 36.0 L to 68.9 °C, 55 g of yeast', 'us')).toBe(
    'Heat 9.51\u00a0gal to 156.0\u00a0°F, 1.9\u00a0oz of yeast',
  );
  expect(restated('Reduce with 2.00 kg of water', 'both')).toBe(
    'Reduce with 2.00\u00a0kg (4.41\u00a0lb) of water',
  );
  expect(restated('thickest at 75 to 80 °C and', 'us')).toBe('thickest at 167 to 176\u00a0°F and');
  expect(restated('cools by 5.0 K in its rest', 'us')).toBe('cools by 9.0\u00a0°F in its rest');
  expect(restated('at most 79 L/h', 'us')).toBe('at most 20.9\u00a0gal/h');
});

test('what is no figure of a unit that has a US twin stays as it is', () => {
  for (const said of ['8 m² of floor', '1.062', '35 Lintner', '2 L/kg', 'jar 6']) {
    expect(restated(said, 'us').replace('\u00a0', ' ')).toBe(said);
  }
});

test('a field begins at the figure that means the same in its unit', () => {
  expect(inField(20, '°C', 0, 'metric')).toBe('20');
  expect(inField(20, '°C', 0, 'us')).toBe('68');
  for (const units of ['metric', 'us', 'both'] as const)
    expect(typedAs(inField(20, '°C', 0, units), '°C', units)).toBeCloseTo(20, 12);
});

test('less than a quart of a shelf is told in fluid ounces, more of it in gallons', () => {
  const hearts = (L: number, units: 'metric' | 'us' | 'both') => {
    const { unit, times, fewer } = ofJars(L, units);
    return quantity(L * times, unit, Math.max(0, 2 - fewer), units);
  };
  expect(hearts(2.7, 'metric')).toBe('2.70\u00a0L');
  expect(hearts(0.7, 'us')).toBe('23.7\u00a0fl oz');
  expect(hearts(2.7, 'us')).toBe('0.713\u00a0gal');
  expect(hearts(0.7, 'both')).toBe('700\u00a0mL (23.7\u00a0fl oz)');
  expect(hearts(2.7, 'both')).toBe('2.70\u00a0L (0.713\u00a0gal)');
  expect(hearts(40, 'us')).toBe('10.567\u00a0gal');
});

test('pressures, lengths and the wood to a litre are said again too', () => {
  expect(restated('20 hPa of weather', 'us')).toBe('0.59\u00a0inHg of weather');
  expect(restated('25 mm', 'us')).toBe('1.0\u00a0in');
  expect(restated('62 cm²/L', 'us')).toBe('36\u00a0in²/gal');
});

test('how far a thermometer may be off is a difference, a temperature is not', () => {
  expect(restated('a thermometer to 0.5 °C, the rest', 'us')).toBe(
    'a thermometer to 0.9\u00a0°F, the rest',
  );
  expect(restated('and 0.2 °C of the thermometer', 'us')).toBe(
    'and 0.4\u00a0°F of the thermometer',
  );
  expect(restated('too hot by 2.0 °C', 'us')).toBe('too hot by 3.6\u00a0°F');
  expect(restated('as warm as 22.0 °C', 'us')).toBe('as warm as 71.6\u00a0°F');
});

test('a figure put into a field is read back as it was, in the field’s own unit', () => {
  expect(asTyped(1, 'L', 'metric')).toBe('1 L');
  expect(asTyped(3.785411784, 'L', 'us')).toBe('1 gal');
  expect(typedAs(asTyped(1.234567, 'L', 'us'), 'L', 'us')).toBeCloseTo(1.234567, 8);
  expect(asTyped(20, '°C', 'both')).toBe('20 °C');
});

test('a residue as the US rule has it is no volume', () => {
  expect(restated('410 mg/100 mL', 'us').replaceAll('\u00a0', ' ')).toBe('410 mg/100 mL');
});

test('pure alcohol is counted in proof gallons, as the ledger does', () => {
  // 27 CFR 30.11: a litre of pure alcohol at 20 °C is 0.525817 proof gallons (account.hpp).
  expect(quantity(2, 'L of alcohol', 3, 'metric')).toBe('2.000\u00a0L');
  expect(quantity(2, 'L of alcohol', 3, 'us')).toBe('1.052\u00a0proof gal');
  expect(quantity(2000, 'mL of alcohol', 0, 'both')).toBe('2000\u00a0mL (1.052\u00a0proof gal)');
  const says = (text: string) => restated(text, 'both').replaceAll('\u00a0', ' ');
  expect(says('holds 5.07 L of pure alcohol; 4.50 L was put in')).toBe(
    'holds 5.07 L (2.67 proof gal) of pure alcohol; 4.50 L (1.189 gal) was put in',
  );
  expect(says('0.843 L pure (0.443 proof gal)')).toBe('0.843 L pure (0.443 proof gal)');
});

test('a quart and more is told in gallons where its unit stands beside it', () => {
  expect(quantity(8650, 'mL', 0, 'us')).toBe('2.285\u00a0gal');
  expect(quantity(8650, 'mL', 0, 'both')).toBe('8650\u00a0mL (2.285\u00a0gal)');
  expect(quantity(700, 'mL', 0, 'us')).toBe('23.7\u00a0fl oz');
  const says = (text: string) => restated(text, 'us').replaceAll('\u00a0', ' ');
  expect(says('collected 8800 mL')).toBe('collected 2.325 gal');
  expect(says('10 mL to 700 mL')).toBe('0.3 fl oz to 23.7 fl oz');
  expect(says('900 to 1100 mL')).toBe('0.238 to 0.291 gal');
});

test('a field of a strength has its proof beside it where US units are shown', () => {
  expect(alsoInProof(46, 'us')).toMatch(/^46\.0\u00a0%vol is 91\.9\u00a0proof;/);
  expect(alsoInProof(46, 'metric')).toBeUndefined();
  expect(alsoInProof(undefined, 'us')).toBeUndefined();
  expect(glassInProof('both')).toContain('146 proof');
  expect(glassInProof('metric')).toBeUndefined();
});

test('a field is filled in proof where US units are shown, with the %vol beside it', () => {
  expect(strengthInField(55, 'metric')).toBe('55.0');
  expect(strengthInField(55, 'both')).toBe('55.0');
  expect(strengthInField(55, 'us')).toBe('109.9 proof');
  expect(alsoInProof(55, 'us', '109.9 proof')).toMatch(/^109\.9\u00a0proof is 55\.0\u00a0%vol;/);
});

test('the words of a recipe stay, with the US figure beside them where it is another', () => {
  const beside = (words: string) => alsoInUs(words, 'us')?.replaceAll('\u00a0', ' ');
  expect(beside('8 kg')).toBe('17.6 lb');
  expect(beside('8kg')).toBe('17.6 lb');
  expect(beside('36 L')).toBe('9.51 gal');
  expect(beside('65.5 °C')).toBe('149.9 °F');
  expect(beside('60 m3')).toBe('2119 ft³');
  expect(beside('1.5 L @ 32 %vol')).toBe('0.40 gal @ 63.9 proof (32 %vol)');
  for (const words of ['10 lb', '20 min', '7 W/K', '', 'tub of 30 L'])
    expect(beside(words), words).toBeUndefined();
  expect(alsoInUs('8 kg', 'metric')).toBeUndefined();
  expect(alsoInUs('8 kg', 'both')).toBeDefined();
});

test('jars of a quart and more are told in gallons, metric ones in millilitres', () => {
  expect(jarsIn(8650, 'us')).toEqual({ unit: 'L', times: 0.001, decimals: 2 });
  expect(jarsIn(700, 'us').unit).toBe('mL');
  expect(jarsIn(8650, 'metric').unit).toBe('mL');
});

test('what is typed with a comma is told in US units as it is read, and not at all where it is in doubt', () => {
  expect(alsoInUs('6,7 kg', 'us')).toBe(alsoInUs('6.7 kg', 'us'));
  expect(alsoInUs('1,234 kg', 'us')).toBeUndefined();
});

test('a unit is written as the house reads it in a text', () => {
  expect(['KG', 'Lbs.', 'c', 'Gallons', 'FL OZ'].map(unitWritten)).toEqual([
    'kg',
    'lb',
    '°C',
    'gal',
    'fl oz',
  ]);
  for (const stays of [
    'kg',
    'lbs',
    'degC',
    'gallons',
    'ml',
    'litres',
    'hL',
    'imp gal',
    'W/K',
    '%vol',
    'months',
  ])
    expect(unitWritten(stays)).toBe(stays);
});

test('the house’s temperatures are told to a tenth; what is finer keeps its figures', () => {
  expect(restated('Read at 68.00 °C.', 'metric')).toBe('Read at 68.0\u00a0°C.');
  expect(restated('Its thermometer to 0.25 °C.', 'metric')).toBe(
    'Its thermometer to 0.25\u00a0°C.',
  );
  expect(restated('68.00 L and 10 °C', 'metric')).toBe('68.00\u00a0L and 10\u00a0°C');
});
