// What a strike takes along, where it takes more than its entry. Pure.

const LOT =
  'The lot is gone then: what was taken of it is asked about, and a run that was charged with it stands without it.';

/** By the kind of the entry that is struck. */
export const GOES_ALONG: Readonly<Record<string, string>> = {
  'batch begun':
    'The batch is in nobody’s hands then; what else was told of it stays in the journal.',
  'run begun': 'Its readings, jars and cut go with it; the lots in its charge are whole again.',
  'run ended': 'The run goes on then.',
  'jars allotted':
    'The jars are on the shelf again. Its lots are gone then: what was taken of them is asked about, and a run that was charged with them stands without them.',
  'lot brought': LOT,
  'lot made': LOT,
};
