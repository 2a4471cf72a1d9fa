// Makes src/data/api_types.ts from api/openapi.yaml and the schemas it takes in, when one of them is
// newer. Not committed.
import { existsSync, statSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const from = new URL('../api/openapi.yaml', import.meta.url);
const to = new URL('../src/data/api_types.ts', import.meta.url);
const schemas = ['entry', 'plan'].map(
  (name) => new URL(`../../docs/schema/${name}.schema.json`, import.meta.url),
);
const sources = [from, ...schemas];

const missing = sources.filter((source) => !existsSync(source));
if (missing.length > 0) {
  // What takes its types from there is then told by the type checker.
  console.error(`No types are made without ${missing.map((m) => fileURLToPath(m)).join(', ')}`);
} else if (
  !existsSync(to) ||
  sources.some((source) => statSync(to).mtimeMs < statSync(source).mtimeMs)
) {
  const { default: openapi, astToString } = await import('openapi-typescript');
  const head = '// Made from api/openapi.yaml by scripts/types.mjs.\n';
  writeFileSync(to, head + astToString(await openapi(from, { alphabetize: true })));
  console.log('src/data/api_types.ts is made');
}
