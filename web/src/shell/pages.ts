// Which screen belongs to which place. A stage's screen is added here: one line, loaded when gone to.
import type { Component } from 'svelte';
import FirstStart from './FirstStart.svelte';
import type { Place } from './router.svelte';
import { stageOf } from './stages';

type Screen = Component<Record<string, unknown>>;

interface Found {
  title: string;
  load: () => Promise<Screen>;
  props: Record<string, unknown>;
}

const screen = (load: () => Promise<{ default: unknown }>) => async () =>
  (await load()).default as Screen;

/** Screens of the stages, by slug; each gets `batch`. Those not here yet are told to be missing. */
const ofStage: Record<string, () => Promise<Screen>> = {
  strip: screen(() => import('../strip/Strip.svelte')),
  'spirit-run': screen(() => import('../spirit_run/SpiritRun.svelte')),
  jars: screen(() => import('../jars/Jars.svelte')),
  kit: screen(() => import('../kit/Kit.svelte')),
  'mash-bill': screen(() => import('../mash_bill/MashBill.svelte')),
  mash: screen(() => import('../mash/Mash.svelte')),
  ferment: screen(() => import('../ferment/Ferment.svelte')),
  ledger: screen(() => import('../ledger/Ledger.svelte')),
  reduce: screen(() => import('../reduce/Reduce.svelte')),
  wood: screen(() => import('../wood/Wood.svelte')),
  bottle: screen(() => import('../bottle/Bottle.svelte')),
};

/** Screens of the places. */
const ofPlace = {
  house: screen(() => import('../house/House.svelte')),
  batch: screen(() => import('../batch/Batch.svelte')),
  kit: screen(() => import('../kit/Kit.svelte')),
  ledger: screen(() => import('../ledger/Ledger.svelte')),
  stock: screen(() => import('../house/Stock.svelte')),
  journal: screen(() => import('../house/HouseJournal.svelte')),
  settings: screen(() => import('./Settings.svelte')),
  devices: screen(() => import('../devices/Devices.svelte')),
  pair: screen(() => import('../devices/Pair.svelte')),
};

export const gauge = () => import('../gauge/Gauge.svelte');

/** Loads every screen, one after the other, for a page that cannot ask for them later. */
export async function loadAll(): Promise<void> {
  for (const load of [gauge, ...Object.values(ofPlace), ...Object.values(ofStage)]) await load();
}

const nowhere = screen(() => import('./Nowhere.svelte'));

export function pageOf(place: Place): Found {
  switch (place.page) {
    case 'house':
      return { title: '', load: ofPlace.house, props: {} };
    case 'settings':
      return { title: 'Settings', load: ofPlace.settings, props: {} };
    case 'devices':
      return { title: 'Devices', load: ofPlace.devices, props: {} };
    case 'pair':
      return { title: 'Pair', load: ofPlace.pair, props: {} };
    case 'safety':
      return {
        title: 'Safety and law',
        load: async () => FirstStart as unknown as Screen,
        props: {},
      };
    case 'parts':
      // Left out of what the house serves: the parts, shown together, for whoever works on them.
      if (import.meta.env.DEV || import.meta.env.MODE === 'parts') {
        return { title: 'Parts', load: screen(() => import('../parts/Parts.svelte')), props: {} };
      }
      return { title: 'Nowhere', load: nowhere, props: { path: '/parts' } };
    case 'stage': {
      const stage = stageOf(place.slug)!;
      return {
        title: stage.name,
        load: ofStage[place.slug] ?? nowhere,
        props: { batch: place.batch, path: stage.name },
      };
    }
    case 'batch':
      return { title: 'Batch', load: ofPlace.batch, props: { batch: place.batch } };
    case 'kit':
      return { title: 'Kit', load: ofPlace.kit, props: {} };
    case 'ledger':
      return { title: 'Ledger', load: ofPlace.ledger, props: {} };
    case 'stock':
      return { title: 'Stock', load: ofPlace.stock, props: {} };
    case 'journal':
      return { title: 'The house’s journal', load: ofPlace.journal, props: {} };
    case 'nowhere':
      return { title: 'Nowhere', load: nowhere, props: { path: place.path } };
  }
}
