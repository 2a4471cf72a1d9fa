import { expect, test, vi } from 'vitest';
import { pathOfBatch, placeOf, router } from './router.svelte';
import { stages } from './stages';

test('the stages have the names and the order of the trade', () => {
  expect(stages.map((s) => s.name).join(' · ')).toBe(
    'Kit · Mash bill · Mash · Ferment · Strip · Spirit run · Jars · Reduce · Wood · Bottle · Ledger',
  );
});

test('each stage of a batch has its address, which leads back to it', () => {
  for (const { slug } of stages) {
    expect(placeOf(pathOfBatch('tern 8/x', slug))).toEqual({
      page: 'stage',
      batch: 'tern 8/x',
      slug,
    });
  }
});

test('an address that leads nowhere says so', () => {
  for (const path of ['/nothing', '/batch/a/brew', '/batch/a/mash/more', '/kit/x', '/%zz']) {
    expect(placeOf(path).page).toBe('nowhere');
  }
  expect(placeOf('/')).toEqual({ page: 'house' });
  expect(placeOf('/batch/a/')).toEqual({ page: 'batch', batch: 'a' });
});

test('a click on a link of ours changes the address without loading; back goes back', async () => {
  vi.stubGlobal('scrollTo', () => undefined);
  const stop = router.start();
  const link = document.body.appendChild(document.createElement('a'));
  link.href = '/settings';
  link.click();
  expect(location.pathname).toBe('/settings');
  expect(router.place).toEqual({ page: 'settings' });
  link.href = '/settings/more#asked';
  link.click();
  expect(location.hash).toBe('#asked');
  history.go(-2);
  await vi.waitFor(() => expect(router.place).toEqual({ page: 'house' }));
  stop();
  link.remove();
});
