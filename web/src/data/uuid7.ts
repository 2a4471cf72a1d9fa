// Makes the ids of journal entries: UUID version 7 (RFC 9562), which sort by the time they were
// made. Only getRandomValues is used: a page over plain HTTP has no crypto.randomUUID. Ids made in
// one page within the same millisecond still sort in the order they were made (RFC 9562, 6.2,
// method 1: a counter of 12 bits in rand_a, seeded anew each millisecond in its lower half).

export type Random = (into: Uint8Array<ArrayBuffer>) => Uint8Array<ArrayBuffer>;

const hex = (byte: number) => byte.toString(16).padStart(2, '0');

/** A maker of ids. `now` is in milliseconds since 1970; a clock set back does not break the order. */
export function makerOfIds(
  now: () => number = Date.now,
  random: Random = (into) => crypto.getRandomValues(into),
): () => string {
  let last = -1;
  let counter = 0;
  return () => {
    const bytes = random(new Uint8Array(16));
    const time = Math.floor(now());
    if (time > last) {
      last = time;
      counter = ((bytes[6]! << 8) | bytes[7]!) & 0x7ff;
    } else if (++counter > 0xfff) {
      last += 1;
      counter = 0;
    }
    for (let i = 5, rest = last; i >= 0; --i, rest = Math.floor(rest / 256)) bytes[i] = rest % 256;
    bytes[6] = 0x70 | (counter >> 8);
    bytes[7] = counter & 0xff;
    bytes[8] = 0x80 | (bytes[8]! & 0x3f);
    const text = Array.from(bytes, hex).join('');
    return [
      text.slice(0, 8),
      text.slice(8, 12),
      text.slice(12, 16),
      text.slice(16, 20),
      text.slice(20),
    ].join('-');
  };
}

/** The page's own maker. */
export const newId = makerOfIds();
