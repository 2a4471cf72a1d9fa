// A reduction as it is typed and not yet kept as a lot: all fields of the page in one place, remembered on
// this device, so that another page or a reload loses none of them. Kept, or emptied, it is forgotten.
import { lotKey, type Lot } from '../data/answers';
import { meant } from '../data/form_draft.svelte';
import { settings } from '../data/settings.svelte';
import { Typing } from '../data/typing.svelte';
import { inField, type Units } from '../data/units';
import { BesidesTyped } from '../gauge/besides.svelte';
import { nothingMeasured } from '../parts/Measured.svelte';

type Told = Record<string, unknown>;

const textIn = (told: Told, key: string): string | undefined =>
  typeof told[key] === 'string' ? told[key] : undefined;
const tableIn = (told: Told, key: string): Told =>
  typeof told[key] === 'object' && told[key] !== null ? (told[key] as Told) : {};

export class ReductionTyped {
  /** Litres of each lot, by its key. */
  texts = $state<Record<string, string>>({});
  to = $state<string | undefined>(); // none: as planned
  waterAt = $state(inField(20, '°C', 0, settings.units));
  steps = $state('3');
  name = $state<string | undefined>(); // none: made of the batch's and the strength
  given = $state<string | undefined>(); // none: the planned water, not poured in yet
  after = $state(nothingMeasured());
  unmeasured = $state(false);
  /** What the lots' strengths are, where something is dissolved: the house knows only what was told. */
  shown = $state<'shown' | 'true'>('shown');
  /** Backward: so much is to be made, of this lot. */
  make = $state('');
  makeOf = $state('');
  readonly besides: BesidesTyped;
  /** Whether something stands here as it was left at another time. */
  found = $state(false);

  readonly #typing: Typing;
  readonly #blank: string;

  /** `weaker` are the lots of which some may go in besides water. */
  constructor(batch: string, weaker: () => readonly Lot[]) {
    this.besides = new BesidesTyped(() =>
      weaker().filter((l) => !(this.texts[lotKey(l.lot)] ?? '').trim()),
    );
    this.#typing = new Typing(`reduction of ${batch}`);
    this.#blank = this.#told();
    this.#restore();
  }

  /** To be called from a component's $effect: what stands in the fields is on the device. */
  readonly remember = (): void => {
    const told = this.#told();
    this.#typing.text = told === this.#blank ? '' : told;
    if (told === this.#blank) this.found = false;
  };

  readonly clear = (): void => {
    this.texts = {};
    this.to = this.name = this.given = undefined;
    this.waterAt = inField(20, '°C', 0, settings.units);
    this.steps = '3';
    this.makeOf = '';
    this.make = '';
    this.after = nothingMeasured();
    this.unmeasured = this.found = false;
    this.shown = 'shown';
    this.besides.clear();
  };

  #told(): string {
    const { kind, volume, strength, teaResidue, residue, chosen } = this.besides;
    const { to, waterAt, steps, name, given, after, unmeasured, shown, make, makeOf } = this;
    const poured = Object.entries(this.texts).filter(([, text]) => text.trim() !== '');
    return JSON.stringify({
      units: settings.units,
      texts: Object.fromEntries(poured),
      ...{ to, waterAt, steps, name, given, after, unmeasured, shown, make, makeOf },
      besides: { kind, volume, strength, teaResidue, residue, chosen },
    });
  }

  #restore(): void {
    if (this.#typing.text === '') return;
    let told: Told;
    try {
      told = JSON.parse(this.#typing.text) as Told;
    } catch {
      return;
    }
    const were = (textIn(told, 'units') ?? 'metric') as Units;
    const as = (unit: string, table: Told, key: string, none: string) =>
      meant(textIn(table, key) ?? none, unit, were);
    const lots = tableIn(told, 'texts');
    this.texts = Object.fromEntries(Object.keys(lots).map((key) => [key, as('L', lots, key, '')]));
    this.to = textIn(told, 'to');
    this.name = textIn(told, 'name');
    const given = textIn(told, 'given');
    this.given = given === undefined ? undefined : meant(given, 'kg', were);
    this.steps = textIn(told, 'steps') ?? this.steps;
    this.waterAt = as('°C', told, 'waterAt', this.waterAt);
    const after = tableIn(told, 'after');
    this.after = {
      volume: as('L', after, 'volume', ''),
      reading: textIn(after, 'reading') ?? '',
      at: as('°C', after, 'at', this.after.at),
    };
    this.unmeasured = told['unmeasured'] === true;
    this.shown = told['shown'] === 'true' ? 'true' : 'shown';
    this.make = as('L', told, 'make', '');
    this.makeOf = textIn(told, 'makeOf') ?? '';
    const { besides } = this;
    const were_besides = tableIn(told, 'besides');
    const kind = textIn(were_besides, 'kind');
    besides.kind = kind === 'weaker' || kind === 'tea' ? kind : 'nothing';
    besides.volume = as('L', were_besides, 'volume', '');
    besides.strength = textIn(were_besides, 'strength') ?? '';
    besides.teaResidue = textIn(were_besides, 'teaResidue') ?? '';
    besides.residue = textIn(were_besides, 'residue') ?? '0';
    besides.chosen = textIn(were_besides, 'chosen') ?? '';
    this.found = true;
  }
}
