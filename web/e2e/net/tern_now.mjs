// The invented batch Tern 8 once more, as if its spirit run went on at this very moment: its entries up
// to the failing coolant, with new ids, moved in time so that the last reading was a minute ago.
import { randomBytes } from 'node:crypto';

const TERN_8 = '01a1e094-f237-7b52-9893-10ccf968d5f4';
const MINUTE = 60_000;

/** An id of version 7 (RFC 9562) at a moment, the later ones of one moment sorting after. */
export function idAt(ms, place = 0) {
  const bytes = randomBytes(16);
  bytes.writeUIntBE(ms, 0, 6);
  bytes.writeUInt16BE(0x7000 | (place & 0xfff), 6);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = bytes.toString('hex');
  return [8, 12, 16, 20].reduceRight((t, i) => `${t.slice(0, i)}-${t.slice(i)}`, hex);
}

/** Records it in a house with the demonstration, by its calls get and post; gives the ids of batch and run. */
export async function ternNow(house) {
  const { entries: all } = await house.get(`/batches/${TERN_8}/entries`);
  const entries = all.slice(
    0,
    all.findLastIndex((entry) => entry.body.event === 'stopped'),
  );
  const last = Math.max(...entries.map((entry) => Date.parse(entry.at)));
  const later = Date.now() - MINUTE - last;
  const ids = new Map([[TERN_8, idAt(Date.now() - 30 * 1440 * MINUTE)]]);
  entries.forEach((entry, i) => ids.set(entry.id, idAt(Date.parse(entry.at) + later, i)));
  const renamed = (text) =>
    text.replace(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, (id) => ids.get(id) ?? id);
  const moved = entries.map(({ received: _, sequence: __, ...entry }) => ({
    ...entry,
    at: new Date(Date.parse(entry.at) + later).toISOString(),
  }));
  await house.post('/entries', { entries: JSON.parse(renamed(JSON.stringify(moved))) });
  const batch = ids.get(TERN_8);
  const told = await house.get(`/batches/${batch}`);
  const run = told.runs.findLast((one) => one.run === 'spirit run');
  return { batch, run: run.entry, path: `/batch/${batch}/spirit-run` };
}
