import { expect, test } from 'vitest';
import { residueAccepted, residueText, residueTyped } from './residue';

test('what drying leaves is typed in g/L, or in US units in mg/100 mL as the rule has it', () => {
  expect(residueTyped('4,1', 'metric')).toBe(4.1);
  expect(residueTyped('600', 'us')).toBe(6); // 27 CFR 30.31: up to 600 mg/100 mL is reckoned
  expect(residueTyped('6 g/L', 'us')).toBe(6);
  expect(residueTyped('600 mg/100 mL', 'both')).toBe(6);
  expect(residueTyped('0', 'us')).toBe(0);
  for (const text of ['', 'much', '-1', '51', '6 oz'])
    expect(residueTyped(text, 'metric')).toBe(undefined);
  expect(residueTyped('5001', 'us')).toBe(undefined);
});

test('it is told in the units that are set', () => {
  expect(residueText(4.1, 'metric')).toBe('4.1\u00a0g/L');
  expect(residueText(4.1, 'us')).toBe('410\u00a0mg/100\u00a0mL');
  expect(residueText(4.1, 'both')).toBe('4.1\u00a0g/L (410\u00a0mg/100\u00a0mL)');
  expect(residueAccepted('us')).toBe('0 to 5000 mg/100 mL');
});
