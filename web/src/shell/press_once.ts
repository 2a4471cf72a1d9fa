// A bouncing mouse or a double-click presses twice within some 30 ms, and what is told twice stands twice:
// bottles filled again, a lot in stock again. So a second submit of the same form within half a second is
// stopped before any form hears of it. A key that is held down presses no further either. What was typed in between makes it another telling. A form that
// was refused is sent again by a press after that half second; keys of a number pad are not forms.

/** Longer than a double-click of most systems, shorter than a person takes to read what was said. */
const APART_MS = 500;

/** Says of each press whether it is one of its own: false within half a second of the last that was. */
export function press(): { anew: () => boolean; typed: () => void } {
  let last_ms = -Infinity;
  return {
    anew() {
      const now_ms = performance.now();
      if (now_ms - last_ms < APART_MS) return false;
      last_ms = now_ms;
      return true;
    },
    typed: () => (last_ms = -Infinity),
  };
}

/** For the whole page, once; the returned function takes it off again. */
export function guardForms(page: Document = document): () => void {
  const presses = new WeakMap<EventTarget, ReturnType<typeof press>>();
  function submitted(event: SubmitEvent) {
    const form = event.target;
    if (!form) return;
    let of = presses.get(form);
    if (!of) presses.set(form, (of = press()));
    if (of.anew()) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  }
  function typed({ target }: Event) {
    const form = target instanceof Element ? target.closest('form') : null;
    if (form) presses.get(form)?.typed();
  }
  function held(event: KeyboardEvent) {
    const { target, key, repeat } = event;
    if (key !== 'Enter' || !repeat || target instanceof HTMLTextAreaElement) return;
    if (target instanceof Element && target.closest('form, button')) event.preventDefault();
  }
  // While it goes down to the form: nothing else has heard of it then.
  page.addEventListener('submit', submitted, true);
  page.addEventListener('input', typed, true);
  page.addEventListener('keydown', held, true);
  return () => {
    page.removeEventListener('submit', submitted, true);
    page.removeEventListener('input', typed, true);
    page.removeEventListener('keydown', held, true);
  };
}
