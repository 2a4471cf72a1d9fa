import { beforeEach, expect, test } from 'vitest';
import { dressPage, reread, set, settings } from './settings.svelte';

beforeEach(() => {
  localStorage.clear();
  reread();
});

test('settings are kept on the device', () => {
  set({ units: 'both', who: 'Ada' });
  set({ theme: 'dark' });
  Object.assign(settings, { units: 'metric', theme: 'light', who: '' });
  reread();
  expect(settings).toMatchObject({ units: 'both', theme: 'dark', who: 'Ada' });
});

test('spoilt storage gives the first settings, field by field', () => {
  localStorage.setItem('lynearm-settings', '{"units":"cubits","theme":"dark"}');
  reread();
  expect(settings).toMatchObject({ units: 'metric', theme: 'dark' });
  localStorage.setItem('lynearm-settings', 'no JSON');
  reread();
  expect(settings).toMatchObject({ units: 'metric', theme: 'system' });
});

test('the page wears the chosen theme', () => {
  set({ theme: 'dark' });
  dressPage()();
  expect(document.documentElement.dataset['theme']).toBe('dark');
  set({ theme: 'system' });
  dressPage()();
  expect(document.documentElement.dataset['theme']).toBe('light');
});
