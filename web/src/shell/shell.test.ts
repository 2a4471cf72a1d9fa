// The bar of saving, the first start and the settings.
import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test, vi } from 'vitest';
import type { Api } from '../data/api';
import { Bench as RealBench, type Bench } from '../data/bench.svelte';
import type { Entry } from '../data/entry';
import { Problem } from '../data/problem';
import { settings } from '../data/settings.svelte';
import Bar from './Bar.svelte';
import FirstStart from './FirstStart.svelte';
import Settings from './Settings.svelte';
import Stranger from './Stranger.svelte';

const entry = (id: string): Entry => ({
  id,
  stage: 'spirit run',
  kind: 'reading',
  version: 1,
  at: '2026-11-26T01:02:03.456Z',
  clock_ahead_ms: 0,
  who: 'Ada',
  body: {},
});

const bench = (state: Record<string, unknown>, outbox: Record<string, unknown> = {}) => {
  const made = {
    connected: true,
    stranger: false,
    lost_ms: undefined,
    waiting: async () => [entry('1'), entry('2'), entry('3')],
    sendNow: vi.fn(),
    retry: vi.fn(),
    letGo: vi.fn(),
    outbox: { waiting: 0, refused: [], sending: false, answered: true, ...outbox },
    ...state,
  };
  return made as typeof made & Bench;
};

test('the bar tells in words what is saved and what is not', () => {
  for (const [state, outbox, sentence] of [
    [{}, {}, 'All saved at home'],
    [{ connected: false }, {}, 'The house does not answer'],
    [{ connected: false }, { waiting: 3 }, '3 kept on this device'],
    [{}, { refused: [{ entry: entry('1'), reason: 'no' }] }, '1 refused by the house'],
    [{ connected: false, stranger: true }, { waiting: 2 }, 'This device is not paired, 2 kept'],
    [{ stranger: true, shut_out: true }, {}, 'This device is shut out'],
    [{ connected: undefined }, { answered: undefined }, 'Calling the house'],
  ] as const) {
    const { unmount } = render(Bar, { bench: bench(state, outbox) });
    expect(screen.getByRole('button', { name: sentence })).toBeTruthy();
    unmount();
  }
});

test('the bar opens the list of what waits, and can send it now', async () => {
  const made = bench({ connected: false }, { waiting: 3, answered: false });
  render(Bar, { bench: made });
  await userEvent.click(screen.getByRole('button', { name: '3 kept on this device' }));
  expect(await screen.findAllByText(/^spirit run, reading/)).toHaveLength(3);
  await userEvent.click(screen.getByRole('button', { name: 'Send now' }));
  expect(made.sendNow).toHaveBeenCalled();
});

test('it says whether the page can be closed while the house is away, and why not kept', async () => {
  for (const [state, outbox, told] of [
    [{ connected: false, pages_kept: true }, {}, /may be closed and opens again meanwhile/],
    [{ connected: false, pages_kept: false }, {}, /Leave this page open: without the house/],
    [{}, { waiting: 1, trouble: 'The disk is full.' }, /could not keep .*: The disk is full\./],
  ] as const) {
    const { unmount } = render(Bar, { bench: bench(state, outbox) });
    await userEvent.click(screen.getByRole('button', { name: /kept on|does not answer/ }));
    expect(screen.getByText(told)).toBeTruthy();
    unmount();
  }
});

test('a refused entry shows the reason and is sent again or let go by hand', async () => {
  const refused = [{ entry: entry('1'), reason: 'The jar is not on the shelf.' }];
  const made = bench({}, { refused });
  render(Bar, { bench: made });
  await userEvent.click(screen.getByRole('button', { name: '1 refused by the house' }));
  expect(screen.getByText(/The jar is not on the shelf/)).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Send again' }));
  expect(made.retry).toHaveBeenCalledWith('1');
  await userEvent.click(screen.getByRole('button', { name: 'Let it go' }));
  expect(made.letGo).toHaveBeenCalledWith('1');
});

test('the first start asks nothing but to be read, and names the law', async () => {
  const onread = vi.fn();
  render(FirstStart, { onread });
  expect(screen.getByText(/unlawful in many countries/)).toBeTruthy();
  expect(screen.queryAllByRole('textbox')).toEqual([]);
  expect(screen.getAllByRole('button')).toHaveLength(1);
  await userEvent.click(screen.getByRole('button', { name: 'I have read this' }));
  expect(onread).toHaveBeenCalled();
});

test('settings take effect at once', async () => {
  render(Settings);
  await userEvent.click(screen.getByRole('radio', { name: /Both/ }));
  expect(settings.units).toBe('both');
  await userEvent.click(screen.getByRole('radio', { name: /Dark/ }));
  expect(document.documentElement.dataset['theme']).toBe('dark');
  await userEvent.type(screen.getByLabelText('Name'), 'Ada');
  expect(settings.who).toBe('Ada');
});

test('a device that the house does not let in is told so on the page, and whether it was shut out', () => {
  const { unmount } = render(Stranger, { bench: bench({ stranger: true, shut_out: true }) });
  expect(screen.getByRole('alert').textContent).toMatch(
    /no longer lets this device in: it was shut out/,
  );
  unmount();
  const { unmount: away } = render(Stranger, { bench: bench({ stranger: true }) });
  expect(screen.getByRole('alert').textContent).toMatch(/does not know this device/);
  away();
  render(Stranger, { bench: bench({}) });
  expect(screen.queryByRole('alert')).toBeNull();
});

test('only a device that was known before was shut out', async () => {
  const answers = [401, 200, 401, 200];
  const own = {
    askTime: () => {
      const status = answers.shift()!;
      return status === 200
        ? Promise.resolve()
        : Promise.reject(new Problem({ title: 'Not known', status }));
    },
  } as unknown as Api;
  const made = new RealBench(own);
  const states: [boolean, boolean][] = [];
  for (let i = 0; i < 4; ++i) {
    await made.greet();
    states.push([made.stranger, made.shut_out]);
  }
  expect(states).toEqual([
    [true, false],
    [false, false],
    [true, true],
    [false, false],
  ]);
});
