import { render } from '@testing-library/svelte';
import { expect, test, vi } from 'vitest';
import GlassRead from '../gauge/GlassRead.svelte';

test('a component that is left before the pause is over asks nothing more', async () => {
  const post = vi.fn().mockReturnValue(new Promise(() => undefined));
  const left = render(GlassRead, { props: { api: { post } } });
  left.unmount();
  render(GlassRead, { props: { api: { post } } });
  await vi.waitFor(() => expect(post).toHaveBeenCalled());
  expect(post).toHaveBeenCalledTimes(1);
});
