// What is typed for a reduction and not yet kept stays over another page and a reload.
import { cleanup, fireEvent, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { set } from '../data/settings.svelte';
import Reduce from './Reduce.svelte';

const lotOf = (entry: string, label: string, strength_percent_vol: number) => ({
  lot: { entry, kind: label },
  batch: 'b',
  label,
  at: '2026-11-20T08:00:00.000Z',
  left: { volume_L_20C: 3, strength_percent_vol, pure_alcohol_L_20C: 2, mass_kg: 2.6 },
  uses: [],
  parents: [],
});
const lots = [lotOf('h', 'hearts', 70), lotOf('s', 'spirit', 44)];
const recorded = vi.fn();

beforeEach(() => {
  localStorage.clear();
  set({ units: 'metric' });
  recorded.mockReset();
  vi.spyOn(bench, 'record').mockImplementation((wish) => {
    recorded(wish);
    return Promise.resolve({} as never);
  });
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) =>
    path === '/lots'
      ? ({ lots } as never)
      : path === '/batches/b/plan'
        ? ({} as never)
        : ({ batch: 'b', name: 'Tern 9' } as never),
  );
  vi.spyOn(bench.api, 'post').mockImplementation(async (path) =>
    path === '/blend'
      ? ({ volume_L_20C: 1.5, strength_percent_vol: 70 } as never)
      : ({ water_kg: 0.6, water_L: 0.6, volume_L_20C: 2, mass_kg: 1.9 } as never),
  );
});

const field = (name: string | RegExp) => screen.findByLabelText<HTMLInputElement>(name);
const type = async (name: string | RegExp, text: string) => {
  await fireEvent.input(await field(name), { target: { value: text } });
};
const again = () => {
  cleanup();
  render(Reduce, { props: { batch: 'b' } });
};

async function typeAll() {
  again();
  await type(/^hearts/, '1.5');
  await type(/^Down to/, '46');
  await type('Name', 'Island 46');
  await userEvent.selectOptions(await field('Besides water'), 'tea of oak');
  await type(/^Of it/, '0.2');
  await type('Tea leaves on drying', '3');
  await type('Spirit leaves on drying', '2');
  await type('Alcoholmeter reads', '46.1');
}

test('every field is as it was left, and says so', async () => {
  await typeAll();
  again();
  expect((await field(/^hearts/)).value).toBe('1.5');
  expect((await field(/^Down to/)).value).toBe('46');
  expect((await field('Name')).value).toBe('Island 46');
  expect((await field('Besides water')).value).toBe('tea');
  expect((await field(/^Of it/)).value).toBe('0.2');
  expect((await field('Tea leaves on drying')).value).toBe('3');
  expect((await field('Spirit leaves on drying')).value).toBe('2');
  expect((await field('Alcoholmeter reads')).value).toBe('46.1');
  expect(screen.getByText(/As you left it/)).toBeTruthy();
});

test('a volume keeps its litres when gallons are shown by then', async () => {
  again();
  await type(/^hearts/, '1.5');
  cleanup();
  set({ units: 'us' });
  again();
  expect((await field(/^hearts/)).value).toBe('1.5 L');
});

test('spirit that came off wood is offered the plan’s strength for the bottles', async () => {
  const parents = [{ entry: 'w', kind: 'spirit' }];
  const wood = { in: 'staves' };
  const on = { ...lotOf('w', 'on wood', 55), lot: parents[0]!, left: { volume_L_20C: 0 }, wood };
  const off = { ...lotOf('s', 'off the wood', 54.4), lot: { entry: 's', kind: 'spirit' }, parents };
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) =>
    path === '/lots'
      ? ({ lots: [lotOf('h', 'hearts', 70), on, off] } as never)
      : path === '/batches/b/plan'
        ? ({
            reduce: { result: { strength_percent_vol: 55 } },
            bottle: { strength_percent_vol: 45 },
          } as never)
        : ({ batch: 'b', name: 'Tern 9' } as never),
  );
  again();
  await screen.findByText('the plan says 55.0');
  await type(/^off the wood/, '1.5');
  await screen.findByText('the plan says 45.0 for the bottles');
  expect((await field(/^Down to/)).value).toBe('45.0');
});

test('another batch has its own', async () => {
  await typeAll();
  cleanup();
  const page = render(Reduce, { props: { batch: 'other' } });
  expect((await field('Name')).value).toBe('');
  await page.rerender({ batch: 'b' });
  expect((await field('Name')).value).toBe('Island 46');
});

test('kept as a lot, or emptied, it is forgotten', async () => {
  await typeAll();
  again();
  await userEvent.click(await screen.findByRole('button', { name: 'Empty it' }));
  expect((await field('Name')).value).toBe('');
  expect(Object.keys(localStorage).filter((key) => key.includes('typing'))).toEqual([]);

  await type(/^hearts/, '1.5');
  await type(/^Down to/, '46');
  await userEvent.click(await screen.findByRole('button', { name: 'Poured in as planned' }));
  await type('Alcoholmeter reads', '46.1');
  await userEvent.click(screen.getByRole('button', { name: 'Keep the lot' }));
  await screen.findByText(/^Kept: Tern 9 at 46/);
  expect(recorded).toHaveBeenCalledOnce();
  expect(Object.keys(localStorage).filter((key) => key.includes('typing'))).toEqual([]);
});

test('with nothing of its own, another batch’s lots are told as such, and lend it no name', async () => {
  const lot = { entry: 'o', kind: 'spirit' };
  const old = { ...lotOf('o', 'Tern 7 at 55', 55), lot, batch: 'old' };
  vi.spyOn(bench.api, 'get').mockImplementation(async (path) =>
    path === '/lots'
      ? ({ lots: [old] } as never)
      : path === '/batches/b/plan'
        ? ({} as never)
        : ({ batch: 'b', name: 'Tern 8' } as never),
  );
  again();
  await screen.findByText(/Nothing of Tern 8 to reduce yet\./);
  expect(screen.getByText(/of another batch/)).toBeTruthy();
  expect((await field('Spirit')).value).toBe('');
  await type(/^Down to/, '46');
  expect((await field('Name')).value).toBe('Spirit at 46');
  await type(/^Tern 7 at 55/, '1.5');
  expect((await field('Name')).value).toBe('Spirit at 46');
});

test('in US units the strength has its proof beside it, and a proof typed is taken', async () => {
  set({ units: 'us' });
  again();
  await type(/^Down to/, '46');
  expect(screen.getByText(/46\.0\s%vol is 91\.9\sproof/)).toBeTruthy();
  await type(/^Down to/, '110 proof');
  expect(screen.getByText(/110\.0\sproof is 55\.1\s%vol/)).toBeTruthy();
});

test('a reduction of yesterday is told as of then', async () => {
  again();
  await type(/^hearts/, '1.5');
  await type(/^Down to/, '46');
  await userEvent.click(await screen.findByRole('button', { name: 'Poured in as planned' }));
  await type('Alcoholmeter reads', '46.1');
  await userEvent.click(screen.getByRole('button', { name: 'Earlier than now?' }));
  await type('It was mixed at', '2999-01-01T00:00');
  await userEvent.click(screen.getByRole('button', { name: 'Keep the lot' }));
  expect(recorded).not.toHaveBeenCalled();
  await type('It was mixed at', '2026-11-26T18:00');
  await userEvent.click(screen.getByRole('button', { name: 'Keep the lot' }));
  await screen.findByText(/It stands at 26 November, 18:00\.$/);
  expect(recorded.mock.calls[0]![0]).toMatchObject({
    kind: 'lot made',
    at: new Date(2026, 10, 26, 18, 0).toISOString(),
  });
});

test('a target under 20 %vol is asked about beside its field, and reckoned all the same', async () => {
  again();
  await type(/^hearts/, '1.5');
  await type(/^Down to/, '46');
  expect(screen.queryByText(/is that meant/)).toBeNull();
  await type(/^Down to/, '5.5');
  expect(screen.getByText(/Down to 5\.5\s%vol: is that meant\?/)).toBeTruthy();
  await vi.waitFor(() =>
    expect(vi.mocked(bench.api.post)).toHaveBeenCalledWith(
      '/reduce',
      expect.objectContaining({ to_percent_vol: 5.5 }),
      expect.anything(),
    ),
  );
  await type(/^Down to/, '20');
  expect(screen.queryByText(/is that meant/)).toBeNull();
});
