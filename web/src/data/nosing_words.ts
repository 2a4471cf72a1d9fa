// The house's own words for the nose and palate of young grain spirit, grouped by where in a run one
// meets them first. Made for this house, from the shed and the kitchen; a word that is missing is
// written as free text. They describe, and judge nothing.
/** Stands wherever what may be foreshots can be told as nosed or tasted: common practice, no source. */
export const FORESHOTS_UNTASTED = 'Foreshots are not tasted.';

export interface WordGroup {
  name: string;
  words: readonly string[];
}

export const nosingWords: readonly WordGroup[] = [
  {
    name: 'Sharp, at the start',
    words: ['glue', 'varnish', 'sting', 'pear', 'pear skin', 'green apple', 'vinegar', 'cut grass'],
  },
  {
    name: 'Grain',
    words: ['oat', 'porridge', 'rye bread', 'rye crust', 'toast', 'malt loft', 'maize husk', 'hay'],
  },
  {
    name: 'Fruit and flower',
    words: ['plum', 'orchard', 'lemon peel', 'elderflower', 'dried fig', 'raisin', 'honeycomb'],
  },
  {
    name: 'Sweet and round',
    words: ['cream', 'butter', 'toffee', 'vanilla', 'nut', 'cocoa', 'warm milk'],
  },
  { name: 'Spice', words: ['pepper', 'clove', 'ginger', 'caraway', 'aniseed', 'mint'] },
  {
    name: 'Wood',
    words: ['sawdust', 'plank', 'cigar box', 'resin', 'smoke', 'char', 'tea leaf'],
  },
  {
    name: 'Heavy, toward the end',
    words: [
      'cardboard',
      'wet cardboard',
      'wet wool',
      'wet dog',
      'stock pot',
      'mushroom',
      'candle wax',
      'sour milk',
      'old cheese',
    ],
  },
  {
    name: 'Not as it should be',
    words: ['penny', 'struck match', 'rubber', 'burnt', 'cabbage', 'soap', 'damp cellar'],
  },
  {
    name: 'On the tongue',
    words: ['thin', 'round', 'oily', 'dry', 'hot', 'bitter', 'numbing', 'short', 'long'],
  },
];
