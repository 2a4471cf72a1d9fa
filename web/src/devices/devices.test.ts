import { render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { beforeEach, expect, test, vi } from 'vitest';
import { bench } from '../data/bench.svelte';
import { Problem } from '../data/problem';
import { router } from '../shell/router.svelte';
import Devices from './Devices.svelte';
import Pair from './Pair.svelte';

const laptop = { id: 'l', name: 'The laptop', paired_at: '2026-11-01T00:00:00Z', laptop: true };
const phone = { id: 'p', name: 'Still phone', paired_at: '2026-11-20T00:00:00Z', laptop: false };

beforeEach(() => {
  vi.stubGlobal('scrollTo', () => undefined);
  URL.createObjectURL = () => 'blob:picture';
  URL.revokeObjectURL = () => undefined;
  vi.spyOn(bench, 'greet').mockResolvedValue();
});

test('the code is taken out of the address at once, and sent with the name', async () => {
  history.replaceState(null, '', '/pair#secret');
  const post = vi.spyOn(bench.api, 'post').mockResolvedValue({});
  render(Pair);
  expect(location.href).not.toContain('secret');
  await userEvent.click(screen.getByRole('button', { name: 'Pair' }));
  expect(screen.getByText(/Nothing was given; accepted: a name/)).toBeTruthy();
  expect(post).not.toHaveBeenCalled();
  await userEvent.type(screen.getByLabelText(/A name for this device/), 'Still phone');
  await userEvent.click(screen.getByRole('button', { name: 'Pair' }));
  expect(post).toHaveBeenCalledWith('/pairing', { code: 'secret', name: 'Still phone' });
  await vi.waitFor(() => expect(router.place).toEqual({ page: 'house' }));
});

test('a spent code is told in the house’s words, and the name stays', async () => {
  history.replaceState(null, '', '/pair#old');
  vi.spyOn(bench.api, 'post').mockRejectedValue(
    new Problem({
      title: 'This code does not open the house',
      status: 403,
      detail: 'It was used.',
    }),
  );
  render(Pair);
  const name = screen.getByLabelText<HTMLInputElement>(/A name for this device/);
  await userEvent.type(name, 'Phone');
  await userEvent.click(screen.getByRole('button', { name: 'Pair' }));
  expect(await screen.findByText(/This code does not open the house. It was used./)).toBeTruthy();
  expect(name.value).toBe('Phone');
});

test('the laptop shows a code and shuts a phone out', async () => {
  vi.spyOn(bench.api, 'get').mockResolvedValue({
    devices: [
      { ...laptop, this_one: true },
      { ...phone, this_one: false },
    ],
    lan: true,
    tls: false,
  });
  vi.spyOn(bench.api, 'post').mockResolvedValue({
    code: 'abc',
    addresses: ['http://192.0.2.7:8080/'],
    lasts_s: 300,
    picture: '<svg xmlns="http://www.w3.org/2000/svg"/>',
  });
  const remove = vi.spyOn(bench.api, 'delete').mockResolvedValue(undefined);
  render(Devices);
  await userEvent.click(await screen.findByRole('button', { name: 'Show a code' }));
  expect((await screen.findByRole('img')).getAttribute('src')).toBe('blob:picture');
  expect(screen.getByText('http://192.0.2.7:8080/pair#abc')).toBeTruthy();
  expect(screen.getByText(/It opens once, within five minutes\./)).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Shut out Still phone' }));
  expect(remove).not.toHaveBeenCalled();
  await userEvent.click(screen.getByRole('button', { name: 'No' }));
  await userEvent.click(screen.getByRole('button', { name: 'Shut out Still phone' }));
  await userEvent.click(screen.getByRole('button', { name: 'Yes, shut out' }));
  expect(remove).toHaveBeenCalledWith('/devices/p');
  expect(screen.queryByRole('button', { name: 'Shut out The laptop' })).toBeNull();
});

test('a phone may shut out only itself, and shows no code', async () => {
  vi.spyOn(bench.api, 'get').mockResolvedValue({
    devices: [
      { ...laptop, this_one: false },
      { ...phone, this_one: true },
      { ...phone, id: 'q', name: 'Other phone', this_one: false },
    ],
    lan: true,
    tls: true,
  });
  render(Devices);
  expect(await screen.findByRole('button', { name: 'Shut out Still phone' })).toBeTruthy();
  expect(screen.queryByRole('button', { name: 'Shut out Other phone' })).toBeNull();
  expect(screen.queryByRole('button', { name: 'Show a code' })).toBeNull();
});

test('a house for its own machine alone says how it is opened, and offers no code', async () => {
  vi.spyOn(bench.api, 'get').mockResolvedValue({
    devices: [{ ...laptop, this_one: true }],
    lan: false,
    tls: false,
  });
  render(Devices);
  expect(await screen.findByText(/started for this machine alone/)).toBeTruthy();
  expect(screen.getByText('./up --lan')).toBeTruthy();
  expect(screen.getByText(/whoever shares the network can read along/)).toBeTruthy();
  expect(screen.queryByRole('button', { name: 'Show a code' })).toBeNull();
});

test('a house that was closed since says so when a code is asked for', async () => {
  const get = vi.spyOn(bench.api, 'get');
  const told = { devices: [{ ...laptop, this_one: true }], tls: true };
  get.mockResolvedValue({ ...told, lan: true });
  vi.spyOn(bench.api, 'post').mockImplementation(() => {
    get.mockResolvedValue({ ...told, lan: false });
    return Promise.reject(new Problem({ title: 'The house is not open to the LAN', status: 409 }));
  });
  render(Devices);
  await userEvent.click(await screen.findByRole('button', { name: 'Show a code' }));
  expect(await screen.findByText(/started for this machine alone/)).toBeTruthy();
  expect(screen.queryByRole('button', { name: 'Show a code' })).toBeNull();
  expect(screen.queryByText(/Not done/)).toBeNull();
});

test('each address is shown, the one that is easily typed first; over TLS the warning is told of', async () => {
  const get = vi.spyOn(bench.api, 'get');
  const told = { lan: true, tls: true, fingerprint: '0A:1B:2C' };
  const own = { ...laptop, this_one: true };
  get.mockResolvedValue({ ...told, devices: [own] });
  vi.spyOn(bench.api, 'post').mockResolvedValue({
    code: 'abc',
    addresses: ['https://[fd00::2]:8431/', 'https://10.0.0.2:8431/'],
    lasts_s: 300,
    picture: '<svg xmlns="http://www.w3.org/2000/svg"/>',
  });
  render(Devices);
  expect(await screen.findByText(/browser will warn of its certificate/)).toBeTruthy();
  expect(screen.getByText('0A:1B:2C')).toBeTruthy();
  await userEvent.click(screen.getByRole('button', { name: 'Show a code' }));
  const shown = (await screen.findAllByText(/pair#abc$/)).map((one) => one.textContent);
  expect(shown).toEqual(['https://10.0.0.2:8431/pair#abc', 'https://[fd00::2]:8431/pair#abc']);
  expect(screen.getByText(/The picture leads to https:\/\/\[fd00::2\]:8431\/\./)).toBeTruthy();

  // The phone pairs: the code is spent, and goes.
  get.mockResolvedValue({ ...told, devices: [own, { ...phone, this_one: false }] });
  await vi.waitFor(() => expect(screen.getByText('Still phone is in.')).toBeTruthy(), {
    timeout: 6000,
  });
  expect(screen.queryByRole('img')).toBeNull();
  expect(screen.getByRole('button', { name: 'Show a code' })).toBeTruthy();
}, 10_000);

test('over plain HTTP no warning of a certificate is announced', async () => {
  vi.spyOn(bench.api, 'get').mockResolvedValue({
    devices: [{ ...laptop, this_one: true }],
    lan: true,
    tls: false,
  });
  render(Devices);
  await screen.findByRole('button', { name: 'Show a code' });
  expect(screen.queryByText(/warn of its certificate/)).toBeNull();
});
