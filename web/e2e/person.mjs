// What a person does with a page, by the names that they see or hear: buttons, fields, places. Waits
// for what it needs and fails with its name when it never comes.

/** The hands of somebody before a device (openDevice). */
export function person(device) {
  const { page } = device;
  /** The drawer when one is open, else the page: what lies below a drawer cannot be touched. */
  const scope = async () => {
    const drawer = page.getByRole('dialog').filter({ visible: true });
    return (await drawer.count()) > 0 ? drawer.last() : page;
  };
  const visible = (found) => found.filter({ visible: true }).first();
  const exact = (name) => typeof name === 'string';
  // Figures and their units hold together by spaces that do not break.
  const anySpace = (text) =>
    typeof text === 'string' ? text : new RegExp(text.source.replaceAll(' ', '\\s+'), text.flags);
  const own = {
    page,
    button: async (name, within) =>
      visible(
        (within ?? (await scope())).getByRole('button', {
          name: anySpace(name),
          exact: exact(name),
        }),
      ),
    tap: async (name, within) => (await own.button(name, within)).click(),
    field: async (label, within) =>
      visible((within ?? (await scope())).getByLabel(label, { exact: exact(label) })),
    fill: async (label, text, within) => (await own.field(label, within)).fill(text),
    choose: async (label, option, within) =>
      (await own.field(label, within)).selectOption({ label: option }),
    /** Keys of the number pad, then its keep key. */
    pad: async (text, keep = 'Keep') => {
      const keys = { '.': 'Point', '-': 'Minus' };
      for (const key of text) await own.tap(keys[key] ?? key);
      await own.tap(keep);
    },
    /** To a stage of the batch, or another place of the contents, as a thumb or a mouse goes. */
    go: async (name, title = name) => {
      if (device.size === 'phone') {
        await own.tap(/^(Stages|Contents)$/);
        await page.getByRole('dialog').getByRole('link', { name, exact: true }).click();
      } else {
        await page
          .getByRole('navigation', { name: 'Contents' })
          .getByRole('link', { name, exact: true })
          .click();
      }
      await own.title(title);
    },
    title: (name) => page.getByRole('heading', { level: 1, name, exact: exact(name) }).waitFor(),
    sees: async (text, within = page) => visible(within.getByText(anySpace(text))).waitFor(),
    /** All that was entered is on the house's disk. */
    saved: () => page.getByRole('button', { name: /All saved at home/ }).waitFor(),
  };
  return own;
}

/** Asks until the answer is as it should be, and gives it. */
export async function until(ask, holds, patience_ms = 20_000, what = String(holds)) {
  const end = Date.now() + patience_ms;
  for (;;) {
    const answer = await ask();
    if (holds(answer)) return answer;
    if (Date.now() > end)
      throw new Error(`not so in time: ${what}; it is ${JSON.stringify(answer).slice(0, 2000)}`);
    await new Promise((then) => setTimeout(then, 60));
  }
}
