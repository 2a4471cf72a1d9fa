// The targets of a page that are smaller than 44 by 44 css px, by what a click hits: an area laid out
// beyond the box (padding, ::after) counts as far as nothing else lies over it, and not where it is
// another target's. Excepted as in WCAG 2.2 (success criterion 2.5.5): a link within a sentence and a
// figure's why within a running line, whose size is that of the line; and what is switched off.
const LEAST = 43.5; // 44 but for the rounding of rem
const TARGETS =
  'button, a[href], input, select, summary, textarea, [role="button"], [role="slider"]';

/** One sentence for each target that is too small. The window must be as tall as the page. */
export const smallTargets = (page) =>
  page.evaluate(
    ([least, targets]) => {
      const LINES = 'p, li, dd, td, figcaption';
      /** Other words stand in the same line: the target is a part of what is read. */
      const inSentence = (e) => {
        const line = e.matches('a, button.figure') ? e.closest(LINES) : null;
        if (!line || (e.matches('button') && !line.matches('p'))) return false;
        return line.textContent.trim().length > e.textContent.trim().length + 3;
      };
      const isOf = (e, hit) =>
        hit !== null && (e.contains(hit) || hit.closest('label')?.control === e);
      /** How many px from x, y on a click is still its own. */
      function reach(e, x, y, dx, dy) {
        let n = 0;
        while (n < 60 && isOf(e, document.elementFromPoint(x + (n + 1) * dx, y + (n + 1) * dy)))
          n += 1;
        return n;
      }
      const found = [];
      const open = document.querySelector('dialog[open]') ?? document;
      for (const e of open.querySelectorAll(targets)) {
        const shown = e.checkVisibility({ visibilityProperty: true });
        if (!shown || e.matches(':disabled') || e.closest('.unseen, .skip') || inSentence(e))
          continue;
        let r = e.getBoundingClientRect();
        if (r.width >= least && r.height >= least) continue;
        e.scrollIntoView({ block: 'nearest', inline: 'nearest' });
        r = e.getBoundingClientRect();
        const [x, y] = [r.x + r.width / 2, r.y + r.height / 2];
        if (!isOf(e, document.elementFromPoint(x, y))) continue; // under another, or cut off
        const wide = 1 + reach(e, x, y, 1, 0) + reach(e, x, y, -1, 0);
        const high = 1 + reach(e, x, y, 0, 1) + reach(e, x, y, 0, -1);
        if (wide >= least && high >= least) continue;
        const name = e.getAttribute('aria-label') ?? e.labels?.[0]?.textContent ?? e.textContent;
        const said = name.trim().replace(/\s+/g, ' ').slice(0, 40);
        found.push(`${e.tagName.toLowerCase()} “${said}”, ${wide}×${high}`);
      }
      return found;
    },
    [LEAST, TARGETS],
  );
