// What iodine and gravity told of the conversion, oldest first, and what follows from a colour. Iodine
// goes blue with starch, reddish with its long pieces, and stays as it is when both are gone; what to do
// then is common practice, no source.
import type { Batch } from '../data/answers';
import { dayAndTime } from '../data/dates';
import type { Entry } from '../data/entry';
import { printed } from '../data/figures';

export interface Colour {
  shows: string;
  done: boolean;
  says: string;
  remedy?: string;
}

export const COLOURS: Record<string, Colour> = {
  unchanged: {
    shows: 'stays as it is',
    done: true,
    says: 'The iodine stayed as it is: no starch is left that it would show.',
  },
  reddish: {
    shows: 'turns reddish',
    done: false,
    says: 'The iodine turned reddish: long pieces of starch are left.',
    remedy: 'Let it rest on, stir, and try a fresh drop in a quarter of an hour.',
  },
  blue: {
    shows: 'turns blue or black',
    done: false,
    says: 'The iodine turned blue: starch is left.',
    remedy:
      'Read the temperature, let it rest on, stir, and try a fresh drop in a quarter of an hour. If it stays blue, the grain was not cooked through, or the malts were scalded: more malt may be needed.',
  },
};

export interface Check {
  text: string;
  colour?: Colour;
}

const textOf = (at: number, now: number, colour: Colour | undefined, gravity?: string) =>
  `${dayAndTime(at, now)}: ${[colour && `iodine ${colour.shows}`, gravity && `liquor ${gravity}`]
    .filter(Boolean)
    .join(', ')}`;

export function checksOf(
  batch: Pick<Batch, 'mash'> | undefined,
  waiting: readonly Entry[],
  ahead_ms: number,
  now: number,
): Check[] {
  const check = (at: number, iodine: string | undefined, gravity?: string): Check => {
    const colour = iodine === undefined ? undefined : COLOURS[iodine];
    return { text: textOf(at, now, colour, gravity), ...(colour ? { colour } : {}) };
  };
  // One that was just saved is told by the house as well, and waits here a moment longer.
  const atHome = new Set(batch?.mash.checks?.map((one) => one.entry));
  return [
    ...(batch?.mash.checks ?? []).map((one) =>
      check(
        Date.parse(one.at) + ahead_ms,
        one.iodine,
        one.specific_gravity === undefined ? undefined : printed(one.specific_gravity, 4),
      ),
    ),
    ...waiting
      .filter(
        (entry) =>
          entry.kind === 'mash checked' && entry.corrects === undefined && !atHome.has(entry.id),
      )
      .map((entry) =>
        check(
          Date.parse(entry.at),
          entry.body['iodine'] as string | undefined,
          entry.body['gravity'] === undefined ? undefined : 'read',
        ),
      ),
  ];
}
