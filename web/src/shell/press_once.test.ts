import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { guardForms, press } from './press_once';

let off: () => void;
let form: HTMLFormElement;
const told = vi.fn<() => void>();

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['performance'] });
  told.mockReset();
  document.body.innerHTML = '<form><input /><button>Bottled</button></form>';
  form = document.querySelector('form')!;
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    told();
  });
  off = guardForms();
});
afterEach(() => {
  off();
  document.body.innerHTML = '';
  vi.useRealTimers();
});

const submit = () => form.querySelector('button')!.click();

test('what a double-click submits twice is told once', () => {
  submit();
  vi.advanceTimersByTime(30);
  submit();
  vi.advanceTimersByTime(460);
  submit();
  expect(told).toHaveBeenCalledTimes(1);
});

test('a submit that is stopped goes nowhere, not even by the browser', () => {
  submit();
  const second = new SubmitEvent('submit', { bubbles: true, cancelable: true });
  form.dispatchEvent(second);
  expect(second.defaultPrevented).toBe(true);
});

test('after half a second it is submitted again, as after a refusal', () => {
  submit();
  vi.advanceTimersByTime(500);
  submit();
  expect(told).toHaveBeenCalledTimes(2);
});

test('what was typed in between makes it another telling, and another form is another', () => {
  submit();
  vi.advanceTimersByTime(100);
  form.querySelector('input')!.dispatchEvent(new Event('input', { bubbles: true }));
  submit();
  expect(told).toHaveBeenCalledTimes(2);
  const other = document.createElement('form');
  const sent = vi.fn<(event: Event) => void>((event) => event.preventDefault());
  other.addEventListener('submit', sent);
  document.body.append(other);
  other.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }));
  expect(sent).toHaveBeenCalledTimes(1);
});

test('a press of a button is one of its own from half a second on', () => {
  const tap = press();
  expect(tap.anew()).toBe(true);
  vi.advanceTimersByTime(30);
  expect(tap.anew()).toBe(false);
  vi.advanceTimersByTime(470);
  expect(tap.anew()).toBe(true);
});

test('Enter that is held down presses once, and still breaks lines', () => {
  const press = (on: Element, repeat: boolean) => {
    const key = new KeyboardEvent('keydown', {
      key: 'Enter',
      repeat,
      bubbles: true,
      cancelable: true,
    });
    on.dispatchEvent(key);
    return key.defaultPrevented;
  };
  const input = form.querySelector('input')!;
  expect(press(input, false)).toBe(false);
  expect(press(input, true)).toBe(true);
  const alone = document.body.appendChild(document.createElement('button'));
  expect(press(alone, true)).toBe(true);
  const text = form.appendChild(document.createElement('textarea'));
  expect(press(text, true)).toBe(false);
});
