import { afterAll, expect, test, vi } from 'vitest';

const done = vi.hoisted(() => ({ off: () => undefined as void, unled: () => undefined as void }));
vi.mock('./App.svelte', () => ({ default: () => undefined }));
vi.mock('./shell/router.svelte', () => ({ router: { start: () => undefined } }));
vi.mock('./shell/press_once', async (actual) => {
  const real = await actual<typeof import('./shell/press_once')>();
  return { ...real, guardForms: () => (done.off = real.guardForms()) };
});
vi.mock('./parts/at_fault', async (actual) => {
  const real = await actual<typeof import('./parts/at_fault')>();
  return { ...real, leadToFaults: () => (done.unled = real.leadToFaults()) };
});
afterAll(() => {
  done.off();
  done.unled();
});

test('the page lets no form be submitted twice by a double-click', async () => {
  document.body.innerHTML = '<div id="page"></div><form></form>';
  await import('./main');
  const form = document.querySelector('form')!;
  const told = vi.fn<(event: Event) => void>((event) => event.preventDefault());
  form.addEventListener('submit', told);
  for (let press = 0; press < 2; ++press)
    form.dispatchEvent(new SubmitEvent('submit', { bubbles: true, cancelable: true }));
  expect(told).toHaveBeenCalledTimes(1);
  document.body.innerHTML = '';
});
