// What this device remembers for its own use: units, theme, who writes, and that the safety note was
// read. Kept in local storage; where the browser refuses that, they last as long as the page.
import type { Units } from './units';

export type Theme = 'system' | 'light' | 'dark';
export type Hand = 'right' | 'left';
/** The alcoholmeter that is read: the kit's, or one of those that api/openapi.yaml has. */
export type Glass = 'kit' | 'house' | 'class-1' | 'class-2' | 'class-3';

interface Kept {
  units: Units;
  theme: Theme;
  hand: Hand;
  glass: Glass;
  who: string;
  safety_read: boolean;
}

const KEY = 'lynearm-settings';
const first: Kept = {
  units: 'metric',
  theme: 'system',
  hand: 'right',
  glass: 'kit',
  who: '',
  safety_read: false,
};

export const glasses: { value: Glass; label: string }[] = [
  { value: 'kit', label: 'the kit’s' },
  { value: 'house', label: 'uncertified, 1 % marks' },
  { value: 'class-3', label: 'class III, 0.5 % marks' },
  { value: 'class-2', label: 'class II, 0.2 % marks' },
  { value: 'class-1', label: 'class I, 0.1 % marks' },
];

/** What a request of the gauge says of it: nothing where the house takes the kit's. */
export const glassAsked = (): { glass?: Exclude<Glass, 'kit'> } =>
  settings.glass === 'kit' ? {} : { glass: settings.glass };

const allowed: { [K in keyof Kept]: (value: unknown) => value is Kept[K] } = {
  units: (v): v is Units => v === 'metric' || v === 'us' || v === 'both',
  theme: (v): v is Theme => v === 'system' || v === 'light' || v === 'dark',
  hand: (v): v is Hand => v === 'right' || v === 'left',
  glass: (v): v is Glass => glasses.some((one) => one.value === v),
  who: (v): v is string => typeof v === 'string',
  safety_read: (v): v is boolean => typeof v === 'boolean',
};

function read(): Kept {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    if (typeof found !== 'object' || found === null) return { ...first };
    const given = found as Record<string, unknown>;
    const well = Object.keys(first).filter((k) => allowed[k as keyof Kept](given[k]));
    return { ...first, ...Object.fromEntries(well.map((k) => [k, given[k]])) };
  } catch {
    return { ...first };
  }
}

export const settings = $state<Kept>(read());

/** Changes settings and keeps them. */
export function set(change: Partial<Kept>): void {
  Object.assign(settings, change);
  try {
    localStorage.setItem(KEY, JSON.stringify(settings));
  } catch {
    // Private windows may refuse: then they last as long as the page.
  }
}

/** Reads again what is kept; for tests, and when another page of this device changed it. */
export function reread(): void {
  Object.assign(settings, read());
}

const darkWish = () =>
  typeof matchMedia === 'function' ? matchMedia('(prefers-color-scheme: dark)') : undefined;

export function themeNow(): 'light' | 'dark' {
  if (settings.theme !== 'system') return settings.theme;
  return darkWish()?.matches ? 'dark' : 'light';
}

/** Puts the theme on <html>; called once at the start and whenever it may have changed. */
export function dressPage(): () => void {
  const put = () => {
    document.documentElement.dataset['theme'] = themeNow();
  };
  put();
  const wish = darkWish();
  wish?.addEventListener('change', put);
  return () => wish?.removeEventListener('change', put);
}
