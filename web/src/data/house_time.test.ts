import { expect, test } from 'vitest';
import { HouseTime } from './house_time';

test('before the house has told its time, the device is believed', () => {
  const time = new HouseTime(() => 5000);
  expect(time.known).toBe(false);
  expect(time.ahead_ms).toBe(0);
  expect(time.now()).toBe(5000);
});

test('a device two minutes fast is put right, to half the round trip', () => {
  let device = 1_000_000;
  const time = new HouseTime(() => device);
  time.learn(1_000_000, 880_020, 1_000_040);
  device = 1_000_040;
  expect(time.ahead_ms).toBe(120_000);
  expect(time.doubt_ms).toBe(20);
  expect(time.now()).toBe(880_040);
});

test('the shortest round trip of the last hour is believed', () => {
  const time = new HouseTime(() => 0);
  time.learn(0, 0, 900); // 450 ahead, known to 450
  time.learn(1000, 1005, 1010); // 0 ahead, known to 5
  time.learn(2000, 2000, 2800);
  expect(time.ahead_ms).toBe(0);
  time.learn(5_000_000, 4_999_000, 5_000_400); // an hour later the old ones are forgotten
  expect(time.ahead_ms).toBe(1200);
});

test('an exchange during which the clock was set back is not used', () => {
  const time = new HouseTime(() => 0);
  time.learn(1000, 1000, 500);
  expect(time.known).toBe(false);
});

test('what was learnt before the clock of the device was set is dropped', () => {
  const time = new HouseTime(() => 0);
  time.learn(1_180_000, 1_000_002, 1_180_004); // three minutes fast, known to 2 ms
  expect(time.ahead_ms).toBe(180_000);
  time.learn(1_010_000, 1_010_050, 1_010_100); // set right meanwhile, known to 50 ms
  expect(time.ahead_ms).toBe(0);
});
