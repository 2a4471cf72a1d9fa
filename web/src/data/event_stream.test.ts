import { beforeEach, expect, test } from 'vitest';
import { EventStream, type EventSourceLike } from './event_stream';

class Source implements EventSourceLike {
  onopen: ((event: Event) => void) | null = null;
  onerror: ((event: Event) => void) | null = null;
  closed = false;
  readonly #heard = new Map<string, (event: MessageEvent<string>) => void>();
  constructor(readonly address: string) {}
  close() {
    this.closed = true;
  }
  addEventListener(kind: string, heard: (event: MessageEvent<string>) => void) {
    this.#heard.set(kind, heard);
  }
  say(kind: string, data: string, lastEventId = '') {
    this.#heard.get(kind)?.(new MessageEvent(kind, { data, lastEventId }));
  }
}

let sources: Source[];
let timers: { work: () => void; ms: number }[];
let log: string[];

const open = () =>
  new EventStream({
    address: '/api/v1/events',
    kinds: ['entry'],
    heard: (kind, data) => log.push(`${kind} ${JSON.stringify(data)}`),
    connected: (is) => log.push(is ? 'connected' : 'lost'),
    random: () => 1,
    open: (address) => {
      const source = new Source(address);
      sources.push(source);
      return source;
    },
    later: (work, ms) => {
      timers.push({ work, ms });
      return () => (timers = timers.filter((t) => t.work !== work));
    },
  });

beforeEach(() => {
  sources = [];
  timers = [];
  log = [];
});

test('events arrive as values', () => {
  open();
  sources[0]!.onopen?.(new Event('open'));
  sources[0]!.say('entry', '{"id":"a"}', '7');
  sources[0]!.say('entry', 'not JSON');
  expect(log).toEqual(['connected', 'entry {"id":"a"}']);
});

test('a lost stream is opened again after what was last heard, and the page is told', () => {
  open();
  sources[0]!.onopen?.(new Event('open'));
  sources[0]!.say('entry', '1', 'e 7');
  sources[0]!.onerror?.(new Event('error'));
  expect(sources[0]!.closed).toBe(true);
  timers[0]!.work();
  expect(sources[1]!.address).toBe('/api/v1/events?after=e%207');
  sources[1]!.onopen?.(new Event('open'));
  expect(log).toEqual(['connected', 'entry 1', 'lost', 'connected']);
});

test('silence counts as lost; a beat is none', () => {
  open();
  sources[0]!.onopen?.(new Event('open'));
  const before = timers;
  sources[0]!.say('beat', '');
  expect(timers.map((t) => t.ms)).toEqual([40_000]);
  expect(timers).not.toEqual(before); // counted anew
  timers[0]!.work();
  expect(log.at(-1)).toBe('lost');
});

test('waits grow, and a nudge does not wait', () => {
  const stream = open();
  const waits: number[] = [];
  for (let i = 0; i < 8; ++i) {
    sources.at(-1)!.onerror?.(new Event('error'));
    waits.push(timers[0]!.ms);
    stream.nudge();
  }
  expect(waits).toEqual([500, 1000, 2000, 4000, 8000, 16_000, 20_000, 20_000]);
});

test('a stopped stream stays stopped', () => {
  const stream = open();
  stream.stop();
  sources[0]!.onerror?.(new Event('error'));
  stream.nudge();
  expect(sources).toHaveLength(1);
  expect(timers).toHaveLength(0);
});
