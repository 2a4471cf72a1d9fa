import { beforeEach, expect, test, vi } from 'vitest';
import { Typing } from './typing.svelte';

beforeEach(() => localStorage.clear());

test('what was typed is there again after a reload, in its own place only', () => {
  new Typing('note a').text = 'A long note';
  expect(new Typing('note a').text).toBe('A long note');
  expect(new Typing('note b').text).toBe('');
});

test('told or emptied, it is forgotten', () => {
  const typing = new Typing('note a');
  typing.text = 'A long note';
  typing.text = '';
  expect(localStorage.length).toBe(0);
});

test('where the browser refuses, it lasts as long as the page', () => {
  vi.spyOn(Storage.prototype, 'setItem').mockImplementation(() => {
    throw new Error('full');
  });
  const typing = new Typing('note a');
  typing.text = 'A long note';
  expect(typing.text).toBe('A long note');
  vi.restoreAllMocks();
});
