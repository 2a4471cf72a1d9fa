// The pages of the stages, looked at with the answers of a real house that holds the demonstration
// (lynearm serve --demo). Used by look.mjs when --house is given.
const TERN_7 = '/batch/01a0dee9-32e2-79c7-b700-1c59e6232b7d';
const TERN_8 = '/batch/01a1e094-f237-7b52-9893-10ccf968d5f4';

const button = (name) => async (page) => {
  await page
    .getByRole('button', { name, exact: typeof name === 'string' })
    .first()
    .click();
  await page.getByRole('dialog').waitFor();
};

export function stagePages(settings) {
  const page = (name, path, more = {}) => ({
    name,
    path,
    settings,
    ofHouse: true,
    whole: true,
    ...more,
  });
  return [
    page('spirit-run', `${TERN_8}/spirit-run`, { wait: '.uplot' }),
    page('spirit-run-top', `${TERN_8}/spirit-run`, { wait: '.uplot', whole: false }),
    page('spirit-run-reading', `${TERN_8}/spirit-run`, {
      wait: '.uplot',
      whole: false,
      act: button('Reading'),
    }),
    page('spirit-run-jar', `${TERN_8}/spirit-run`, {
      wait: '.uplot',
      whole: false,
      act: button('Next jar'),
    }),
    page('spirit-run-power', `${TERN_8}/spirit-run`, {
      wait: '.uplot',
      whole: false,
      act: button(/^(Go on|Power)$/),
    }),
    page('spirit-run-correct', `${TERN_8}/spirit-run`, {
      wait: '.uplot',
      whole: false,
      act: button('Correct it?'),
    }),
    page('spirit-run-end', `${TERN_8}/spirit-run`, {
      wait: '.uplot',
      whole: false,
      act: button('End the run'),
    }),
    page('spirit-run-us', `${TERN_8}/spirit-run`, {
      wait: '.uplot',
      settings: { ...settings, units: 'both' },
    }),
    page('spirit-run-start', `${TERN_7}/spirit-run`, {
      wait: '.uplot',
      act: async (page) => {
        await page.getByRole('button', { name: 'Another run' }).click();
        await page.getByRole('button', { name: /start the run/ }).click();
        await page.getByRole('alert').waitFor();
      },
    }),
    page('strip', `${TERN_7}/strip`, { wait: '.uplot' }),
    page('strip-start', `${TERN_7}/strip`, {
      wait: '.uplot',
      act: async (page) => {
        await page.getByRole('button', { name: 'Another run' }).click();
        await page.getByRole('button', { name: /start the run/ }).waitFor();
      },
    }),
    page('strip-start-bare', `${TERN_8}/strip`, {
      wait: '.uplot',
      settings: { ...settings, units: 'both' },
      act: async (page) => {
        await page.getByRole('button', { name: /^Another run/ }).click();
        await page.getByLabel('Volume', { exact: true }).fill('7.5');
        await page.getByText(/before .* has come over/).waitFor();
      },
    }),
    page('jars', `${TERN_7}/jars`, { wait: '.panel p.big' }),
    page('jars-top', `${TERN_7}/jars`, { wait: '.panel p.big', whole: false }),
    page('jars-open', `${TERN_8}/jars`, { wait: '.shelf' }),
    page('jars-one', `${TERN_7}/jars`, {
      wait: '.panel p.big',
      whole: false,
      act: async (page) => {
        await button('Jar 9')(page);
        await page.getByText('A cloud tells').waitFor();
      },
    }),
    page('jars-glass', `${TERN_7}/jars`, {
      wait: '.panel p.big',
      whole: false,
      act: async (page) => {
        await button('Trial in the glass')(page);
        await page.getByLabel(/^Jar 6,/).fill('30');
        await page.getByLabel(/^Jar 7,/).fill('20');
        await page.getByText(/In the glass .* at/).waitFor();
      },
    }),
    page('mash', `${TERN_8}/mash`, { wait: '.uplot' }),
    page('mash-top', `${TERN_8}/mash`, {
      wait: '.uplot',
      whole: false,
      act: async (page) => {
        await button('Temperature')(page);
        const drawer = page.getByRole('dialog');
        for (const key of ['6', '7', 'Point', '1', 'Keep'])
          await drawer.getByRole('button', { name: key, exact: true }).click();
        await page.getByText(/The mash is over: nothing/).waitFor();
      },
    }),
    page('mash-added', `${TERN_8}/mash`, {
      wait: '.uplot',
      whole: false,
      act: button('Something went in'),
    }),
    page('ferment', `${TERN_8}/ferment`, { wait: '.key .band' }),
    page('ferment-added', `${TERN_8}/ferment`, {
      wait: '.key .band',
      whole: false,
      act: button('Something went in'),
    }),
    page('reduce', `${TERN_7}/reduce`, {
      wait: '.lot',
      act: async (page) => {
        await page
          .getByRole('button', { name: /^All of/ })
          .first()
          .click();
        await page.getByLabel('Down to').fill('46');
        await page.getByText('of water').first().waitFor();
      },
    }),
    page('wood', `${TERN_7}/wood`, { wait: 'article' }),
    page('wood-sample', `${TERN_7}/wood`, {
      wait: 'article',
      whole: false,
      act: button('Draw a sample'),
    }),
    page('bottle', `${TERN_7}/bottle`, {
      wait: '.one',
      act: async (page) => {
        await page.getByRole('button', { name: /^Labels of/ }).click();
        await page.locator('.sheet').waitFor();
      },
    }),
  ];
}
