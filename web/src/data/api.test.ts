import { expect, test, vi } from 'vitest';
import { Api } from './api';
import { HouseTime } from './house_time';
import { NoAnswer } from './problem';

const answering = (answer: () => Response | Promise<Response>) =>
  vi.fn<typeof fetch>(async () => answer());

test('a value comes back as it was sent, asked with the right path and kind', async () => {
  const fetch = answering(() => Response.json({ true_strength: 70.2 }));
  const api = new Api({ fetch });
  expect(await api.post('/gauge', { scale: 73.1 })).toEqual({ true_strength: 70.2 });
  const [address, wish] = fetch.mock.calls[0]!;
  expect(address).toBe('/api/v1/gauge');
  expect(wish).toMatchObject({
    method: 'POST',
    body: '{"scale":73.1}',
    credentials: 'same-origin',
  });
});

test('a refusal is a Problem with its faults', async () => {
  const problem = { title: 'Faults', status: 422, errors: [{ field: 'scale', value: '-1' }] };
  const api = new Api({ fetch: answering(() => Response.json(problem, { status: 422 })) });
  await expect(api.post('/gauge', {})).rejects.toMatchObject({
    name: 'Problem',
    status: 422,
    faults: problem.errors,
  });
});

test('no network, and a page put in between by somebody else, are both no answer', async () => {
  const broken = new Api({
    fetch: answering(() => {
      throw new TypeError('network');
    }),
  });
  await expect(broken.get('/house')).rejects.toBeInstanceOf(NoAnswer);
  const gate = new Api({ fetch: answering(() => new Response('<html>Sign in</html>')) });
  await expect(gate.get('/house')).rejects.toBeInstanceOf(NoAnswer);
});

test('a call that the page itself stopped is not a missing answer', async () => {
  const stop = new AbortController();
  const api = new Api({
    fetch: vi.fn<typeof fetch>(
      (_, wish) =>
        new Promise((_, fail) =>
          wish!.signal!.addEventListener('abort', () => fail(wish!.signal!.reason)),
        ),
    ),
  });
  const asked = api.get('/house', stop.signal);
  stop.abort();
  await expect(asked).rejects.not.toBeInstanceOf(NoAnswer);
});

test('kept entries are named by id; an answer without them keeps nothing', async () => {
  const api = new Api({
    fetch: answering(() =>
      Response.json({ kept: [{ id: 'a', sequence: 1, already: false }, { id: 'b' }, 3, null] }),
    ),
  });
  expect(await api.keep([])).toEqual(['a', 'b']);
  const odd = new Api({ fetch: answering(() => Response.json({})) });
  await expect(odd.keep([])).rejects.toBeInstanceOf(NoAnswer);
});

test('a photograph is sent as it is and named by the house', async () => {
  let sent: RequestInit | undefined;
  const api = new Api({
    fetch: vi.fn<typeof fetch>(async (_, wish) => {
      sent = wish;
      return Response.json({ attachment: 'ab'.repeat(32) });
    }),
  });
  const picture = new Blob([new Uint8Array([0xff, 0xd8, 0xff])], { type: 'image/jpeg' });
  expect(await api.keepFile(picture)).toBe('ab'.repeat(32));
  expect(sent?.body).toBe(picture);
  expect(new Headers(sent?.headers).get('Content-Type')).toBe('application/octet-stream');
});

test('an answer that tells the house’s time teaches its clock', async () => {
  const clock = new HouseTime(() => 0);
  let now = 10_000;
  const api = new Api({
    clock,
    now: () => (now += 50),
    fetch: answering(() => Response.json({ now: '1970-01-01T00:00:04.000Z' })),
  });
  await api.askTime();
  expect(clock.ahead_ms).toBe(10_075 - 4000);
});
