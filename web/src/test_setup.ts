// What a browser has and jsdom has not.
import 'fake-indexeddb/auto';
import { cleanup } from '@testing-library/svelte';
import { afterEach } from 'vitest';
import { reread } from './data/settings.svelte';

afterEach(() => {
  cleanup();
  localStorage.clear();
  sessionStorage.clear();
  reread();
  history.replaceState(null, '', '/');
});

globalThis.ResizeObserver ??= class {
  observe() {}
  unobserve() {}
  disconnect() {}
};

globalThis.matchMedia ??= ((query: string) => ({
  matches: false,
  media: query,
  onchange: null,
  addEventListener() {},
  removeEventListener() {},
  addListener() {},
  removeListener() {},
  dispatchEvent: () => false,
})) as typeof matchMedia;

Element.prototype.scrollIntoView ??= () => undefined;

HTMLDialogElement.prototype.showModal ??= function (this: HTMLDialogElement) {
  this.open = true;
};
HTMLDialogElement.prototype.close ??= function (this: HTMLDialogElement) {
  this.open = false;
  this.dispatchEvent(new Event('close'));
};
